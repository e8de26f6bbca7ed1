"""Figures as pictures of their own: the look of paper written into the file."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

FOLDER = Path(__file__).parent
PAPER = {
    "paper": "#ffffff",
    "ink": "#1d2733",
    "soft": "#5c6773",
    "hair": "#b9bfc4",
    "gas": "#2b5d86",
    "accent": "#a8401c",
}
"""The inks of the look, on white paper."""
FAMILY = '"DejaVu Sans", "Segoe UI", "Helvetica Neue", Arial, sans-serif'
NAMESPACE = 'xmlns="http://www.w3.org/2000/svg"'
NO_XML = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]")
"""Letters that a drawing can't hold, whoever typed them."""
SIZE = re.compile(r'viewBox="\S+ \S+ (\S+) (\S+)"')


def plot_style() -> str:
    """Return the look of a figure of numbers; the page gives the colours."""
    return (FOLDER / "plot.css").read_text(encoding="utf-8")


def inks(selector: str = ":root") -> str:
    """Return the inks as variables of a style sheet."""
    return f"{selector} {{ {' '.join(f'--{name}: {ink};' for name, ink in PAPER.items())} }}"


@cache
def _look() -> str:
    drawing = (FOLDER / "drawing" / "drawing.css").read_text(encoding="utf-8")
    look = plot_style() + drawing
    look = re.sub(r"/\*.*?\*/", "", look, flags=re.DOTALL)
    look = "\n".join(row for row in look.splitlines() if row.startswith((".plot", ".rig")))
    for name, ink in PAPER.items():
        look = look.replace(f"var(--{name})", ink)
    return look.replace('system-ui, "DejaVu Sans", "Segoe UI", sans-serif', FAMILY)


def picture(svg: str) -> str:
    """Return a figure of a page as a file that stands alone, on white paper."""
    head, rest = NO_XML.sub("\ufffd", svg).split(">", 1)
    if NAMESPACE not in head:
        head = head.replace("<svg ", f"<svg {NAMESPACE} ", 1)
    if " width=" not in head and (size := SIZE.search(head)):
        head += f' width="{size[1]}" height="{size[2]}"'
    body = re.sub(r"var\(--(\w+)\)", lambda found: PAPER[found[1]], rest)
    body = body.replace("currentColor", PAPER["ink"])
    return f"{head}><style>{_look()}</style>{body}"
