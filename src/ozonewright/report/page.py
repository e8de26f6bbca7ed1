"""A sheet as one HTML file that asks nothing of any other place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

from ozonewright.show.drawing import style
from ozonewright.show.ink import plot_style
from ozonewright.show.sheet.blocks import Section, TitleBlock
from ozonewright.show.sheet.html import escape, section_html, title_block_html

LOOK = Path(__file__).parent / "report.css"
NOTHING_OUTSIDE = "default-src 'none'; style-src 'unsafe-inline'; img-src data:"


def html(sections: Iterable[Section], block: TitleBlock) -> Iterator[str]:
    """Yield the file piece by piece, so that a long one is never held."""
    look = LOOK.read_text(encoding="utf-8") + plot_style() + style()
    yield (
        '<!doctype html><html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f'<meta http-equiv="Content-Security-Policy" content="{NOTHING_OUTSIDE}">'
        f"<title>{escape(block.of)} · ozonewright</title><style>{look}</style></head>"
        "<body><main>"
    )
    for number, section in enumerate(sections):
        yield section_html(section, f"s{number}")
    yield f"</main>{title_block_html(block)}</body></html>\n"
