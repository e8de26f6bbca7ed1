"""The blocks that a sheet is made of; every one is plain text, so that typed text stays text."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ozonewright.show.pages import Answer, Remark, SourceLine


@dataclass(frozen=True, slots=True)
class Text:
    """A paragraph."""

    text: str
    soft: bool = False


@dataclass(frozen=True, slots=True)
class Lines:
    """Lines under a head: numbered where their order matters."""

    head: str
    lines: tuple[str, ...]
    numbered: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """A table; units stand in the head."""

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    numbers: frozenset[int] = frozenset()
    """Columns that hold numbers."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A picture, the same in words, and the numbers that it was drawn from."""

    name: str
    title: str
    svg: str
    words: str
    data: Table | None = None
    wide: bool = False
    """As wide as the sheet."""
    narrow: str = ""
    """The same for a narrow sheet."""
    caption: str = ""


@dataclass(frozen=True, slots=True)
class Notes:
    """Marked remarks under a head."""

    head: str
    remarks: tuple[Remark, ...]


HEAD = "head"
"""The kind of the section that a sheet begins with; its title is that of the sheet."""

Block = Text | Lines | Table | Figure | Notes | Answer


@dataclass(frozen=True, slots=True)
class Section:
    """One section of a sheet; `source_keys` are gathered at its end."""

    title: str
    kind: str
    blocks: tuple[Block, ...]
    keys: tuple[str, ...] = ()
    formulas: tuple[str, ...] = ()
    """Questions that were asked."""
    level: int = 1


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """What closes every page."""

    of: str
    notebook: str
    rig: str
    last: str
    version: str


def kept(blocks: Iterable[Block | None]) -> tuple[Block, ...]:
    """Return the blocks that hold anything."""
    return tuple(one for one in blocks if one is not None and _holds(one))


def _holds(block: Block) -> bool:
    if isinstance(block, Table):
        return bool(block.rows)
    if isinstance(block, Lines):
        return bool(block.lines)
    if isinstance(block, Notes):
        return bool(block.remarks)
    if isinstance(block, Figure):
        return bool(block.svg)
    return bool(block.text) if isinstance(block, Text) else True


def source_table(lines: Iterable[SourceLine]) -> Table:
    """Return sources with how much of each was read."""
    rows = tuple((one.text, one.read) for one in lines)
    return Table("Sources", ("source", "how much was read"), rows)
