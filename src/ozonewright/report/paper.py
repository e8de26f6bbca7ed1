"""A sheet as pages to print (PDF), set by a library that reads our data as text alone."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Sequence
from dataclasses import asdict
from pathlib import Path
from typing import Any

import typst

from ozonewright.show.harmless import harmless
from ozonewright.show.ink import picture
from ozonewright.show.pages import Answer
from ozonewright.show.sheet.blocks import (
    Block,
    Figure,
    Lines,
    Notes,
    Section,
    Table,
    Text,
    TitleBlock,
)

TEMPLATE = Path(__file__).parent / "sheet.typ"
PAPERS = {"a4": "a4", "letter": "us-letter"}
NAMES = {
    Text: "text",
    Lines: "lines",
    Table: "table",
    Figure: "figure",
    Notes: "notes",
    Answer: "answer",
}
WIDTH = re.compile(r' width="([\d.]+)"')
LONG = 48
"""Letters from which a column is given its share of the sheet."""
WIDEST = 60
SHEET = 105.0
"""Letters that the smallest type has room for across a sheet."""
LONG_WORD = re.compile(r"\S{32}(?=\S)")
BREAK = "\u200b"
LONG_IN_CELL = re.compile(r"\S{16,}")
PLACE = re.compile(r"(?<=[_/(,*+^=])(?=\S)")
BROKEN = re.compile(rf"[\s{BREAK}]+")


def pdf(sections: Iterable[Section], block: TitleBlock, paper: str = "a4") -> bytes:
    """Return the pages; the same sections give the same bytes."""
    data = {
        "title": f"{block.of}, ozonewright",
        "paper": PAPERS[paper],
        "block": _breakable(asdict(block)),
        "sections": [_breakable(_section(one)) for one in sections],
    }
    found = typst.compile(
        TEMPLATE.read_bytes(), format="pdf", sys_inputs={"data": json.dumps(data)}, timestamp=0
    )
    assert isinstance(found, bytes)
    return found


def png(svg: str, ppi: float = 144.0) -> bytes:
    """Return a picture of dots of a figure that stands alone."""
    page = (
        "#set page(width: auto, height: auto, margin: 4pt, fill: white)\n"
        '#image(bytes(sys.inputs.svg), format: "svg")'
    )
    found = typst.compile(page.encode(), format="png", ppi=ppi, sys_inputs={"svg": svg})
    assert isinstance(found, bytes)
    return found


def _section(section: Section) -> dict[str, Any]:
    blocks = [_block(one) for one in section.blocks]
    return {"title": section.title, "level": section.level, "blocks": blocks}


def _block(block: Block) -> dict[str, Any]:
    plain = asdict(block) | {"block": NAMES[type(block)]}
    if isinstance(block, Table):
        rows = tuple(tuple(map(_parted, row)) for row in block.rows)
        plain |= {
            "numbers": sorted(block.numbers),
            "widths": _widths((block.head, *rows)),
        }
    if isinstance(block, Figure):
        svg = picture(block.svg)
        width = WIDTH.search(svg.partition(">")[0])
        plain |= {"svg": svg, "narrow": "", "data": None}
        plain["width"] = float(width[1]) if width else 0.0
    return plain


def _parted(cell: str) -> str:
    """Return the text of a cell whose long words, names and equations, may be broken at signs."""
    return LONG_IN_CELL.sub(lambda word: PLACE.sub(BREAK, word[0]), cell)


def _widths(rows: Sequence[tuple[str, ...]]) -> list[float]:
    """Return the widths of columns in letters, or none where each can have what it needs.

    A column is as wide as its longest piece of a word; what the sheet has left goes to those with
    most text.
    """
    columns = list(zip(*rows, strict=True))
    most = [max(len(cell) for cell in column) for column in columns]
    if max(most) < LONG:
        return []
    least = [
        max(len(word) for cell in column for word in (*BROKEN.split(cell), "")) + 1.0
        for column in columns
    ]
    wanted = [min(letters, WIDEST) for letters in most]
    left = max(SHEET - sum(least), 0.0)
    return [low + left * share / sum(wanted) for low, share in zip(least, wanted, strict=True)]


def _breakable(value: Any) -> Any:
    """Return texts whose longest words may be broken, so that none runs off the sheet."""
    if isinstance(value, str):
        return LONG_WORD.sub(lambda word: word[0] + BREAK, harmless(value))
    if isinstance(value, list | tuple):
        return [_breakable(one) for one in value]
    if isinstance(value, dict):
        found = {name: one if name == "svg" else _breakable(one) for name, one in value.items()}
        if found.get("block") == NAMES[Table]:
            # only now: what is harmless to a terminal has no place to break in it
            found["rows"] = [[_parted(cell) for cell in row] for row in found["rows"]]
        return found
    return value
