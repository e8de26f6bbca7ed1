"""An address as a picture that a telephone's camera reads."""

from __future__ import annotations

from io import StringIO

import segno

BORDER = 2


def qr_terminal(address: str) -> str:
    """Return the picture in half blocks, for a terminal."""
    out = StringIO()
    segno.make(address, error="m", micro=False).terminal(out=out, border=BORDER, compact=True)
    return out.getvalue()


def qr_svg(address: str) -> str:
    """Return the picture as SVG, dark on light in every light, or no camera reads it."""
    picture = segno.make(address, error="m", micro=False)
    return picture.svg_inline(
        omitsize=True,
        border=BORDER + 2,
        dark="#000",
        light="#fff",
        title="Address for one telephone",
    )


def for_one_phone(address: str) -> str:
    """Return what the terminal says when the first code is ready."""
    return (
        f"{qr_terminal(address)}\n"
        f"One telephone in this network: scan this, or open {address}\n"
        "It works once, within ten minutes. The page /phone at the desk gives another code.\n"
        "What goes over this network is not encrypted: use one of your own."
    )
