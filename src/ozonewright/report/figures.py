"""Figures as files: SVG, PNG, and the numbers they were drawn from (CSV)."""

from __future__ import annotations

from pathlib import Path

from ozonewright.documents.table import write_csv
from ozonewright.errors import InputError
from ozonewright.report.paper import png
from ozonewright.show.ink import picture
from ozonewright.show.sheet.blocks import Figure, Section
from ozonewright.show.sheet.numbers import file_name
from ozonewright.show.sheet.tables import figures_in


def save_figures(folder: Path, section: Section) -> list[Path]:
    """Write every figure of a section into a folder, which is made where it is not there.

    Raises
    ------
    InputError
        The answer has no figure, or the folder can't be written to.
    """
    figures = list(figures_in(section))
    if not figures:
        raise InputError("this answer has no figure", got=section.title, fix="Ask without figures.")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        names: set[str] = set()
        return [path for figure in figures for path in save_figure(folder, figure, names)]
    except OSError as error:
        raise InputError(
            "the figures can't be written here",
            where=str(folder),
            got=error.strerror or "no such place",
            fix="Name a folder that you may write to.",
        ) from error


def save_figure(folder: Path, figure: Figure, names: set[str]) -> list[Path]:
    """Write one figure; `names` are those that are taken, and grow by its own."""
    base, svg = folder / _free(file_name(figure.name), names), picture(figure.svg)
    made = {"svg": (svg + "\n").encode(), "png": png(svg)}
    if figure.data is not None:
        made["csv"] = write_csv(figure.data.head, figure.data.rows).encode()
    paths = []
    for ending, content in made.items():
        path = base.with_name(f"{base.name}.{ending}")
        path.write_bytes(content)
        paths.append(path)
    return paths


def _free(plain: str, names: set[str]) -> str:
    name, number = plain, 1
    while name in names:
        number += 1
        name = f"{plain}-{number}"
    names.add(name)
    return name
