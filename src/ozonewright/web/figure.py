"""A figure on a page: the picture, the same in words, and both picture and numbers to save.

What is saved stands in the page itself, so that it needs no script and is what was looked at.
"""

from __future__ import annotations

from base64 import b64encode
from dataclasses import dataclass

from markupsafe import Markup

from ozonewright.documents.table import write_csv
from ozonewright.show.ink import picture
from ozonewright.show.sheet.blocks import Figure
from ozonewright.show.sheet.numbers import file_name


@dataclass(frozen=True, slots=True)
class Drawn:
    """One figure."""

    title: str
    drawing: Markup
    caption: str
    words: str
    file: str
    """Name of the files to save, without an ending."""
    svg: Markup
    """Address of the picture as a file on white paper."""
    data: Markup | None = None
    """Address of the numbers it was drawn from (CSV)."""


def drawn(figure: Figure | None) -> Drawn | None:
    """Return a figure of a sheet for a page, or None where there is none."""
    return None if figure is None else on_page(figure)


def on_page(figure: Figure) -> Drawn:
    """Return a figure of a sheet for a page."""
    data = figure.data
    return Drawn(
        figure.title,
        Markup(figure.svg),
        figure.caption or figure.title,
        figure.words,
        file_name(figure.name),
        _inside("image/svg+xml", picture(figure.svg)),
        _inside("text/csv", write_csv(data.head, data.rows)) if data else None,
    )


def _inside(kind: str, text: str) -> Markup:
    return Markup(f"data:{kind};base64,{b64encode(text.encode()).decode()}")
