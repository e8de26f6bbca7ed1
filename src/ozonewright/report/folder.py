"""A report as a folder of tables (CSV) and figures (SVG, PNG and the numbers behind them)."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import astuple, fields
from pathlib import Path

from ozonewright.bench.report import Part
from ozonewright.documents.table import csv_rows, write_csv
from ozonewright.report.figures import save_figure
from ozonewright.show.sheet.blocks import Figure, Section, Table, TitleBlock
from ozonewright.show.sheet.notebook import Gathered, closing, part_sections
from ozonewright.show.sheet.tables import Rows, figures_in, part_rows


class Folder:
    """Tables that grow row by row in a folder, and figures beside them."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._names: set[str] = set()

    def add(self, rows: Rows) -> None:
        """Add rows to the table of their name; the first make its head."""
        file = self._path / f"{rows.table}.csv"
        if not file.exists():
            file.write_text(write_csv(rows.head, rows.rows), encoding="utf-8")
        elif rows.rows:
            with file.open("a", encoding="utf-8") as text:
                text.write(csv_rows(rows.rows))

    def draw(self, figure: Figure) -> None:
        """Add a figure as SVG and PNG, with the numbers behind it."""
        folder = self._path / "figures"
        folder.mkdir(exist_ok=True)
        save_figure(folder, figure, self._names)


def fill(path: Path, parts: Iterable[Part], block: TitleBlock) -> None:
    """Write tables and figures of every part into an empty folder."""
    folder, gathered = Folder(path), Gathered()
    names = tuple(one.name for one in fields(block))
    folder.add(Rows("about", ("what", "text"), tuple(zip(names, astuple(block), strict=True))))
    for part in parts:
        for rows in part_rows(part):
            folder.add(rows)
        for section in part_sections(part):
            for figure in figures_in(gathered.note(section)):
                folder.draw(figure)
    for section in closing(gathered):
        _close(folder, section)


def _close(folder: Folder, section: Section) -> None:
    for block in section.blocks:
        if isinstance(block, Table):
            folder.add(Rows(section.kind, block.head, block.rows))
