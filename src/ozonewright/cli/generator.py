"""``ozonewright generator``."""

from __future__ import annotations

import os
from pathlib import Path

import click

from ozonewright.bench.generator import (
    Mapped,
    answered,
    answered_with_maps,
    map_over,
    map_text,
    question_of_files,
    question_of_notebook,
)
from ozonewright.bench.notebook import file_text
from ozonewright.cli.figures import save_figures, with_figures
from ozonewright.cli.written import write
from ozonewright.errors import Inconsistent, InputError, MissingValue
from ozonewright.notebook import Notebook
from ozonewright.questions.generator.map import OVER, Over
from ozonewright.show.generator import generator_text
from ozonewright.show.generator_map import map_figure_of
from ozonewright.show.ink import picture
from ozonewright.show.plain import as_json


@click.command()
@click.argument("runs", nargs=-1, metavar="[RUN.toml…]")
@click.option(
    "--notebook",
    "book",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Runs of a notebook in place of files; or set OZONEWRIGHT_NOTEBOOK.",
)
@click.option("--setting", help="Only the runs of this setting of the notebook.")
@click.option(
    "--at",
    help='From the last run: "flow=1.2 L/min, wall=45 °C", "on=6 min, off=9 min".',
)
@click.option(
    "--log",
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
    metavar="FILE.csv",
    help="Temperatures of the tube (CSV), for runs that do not state theirs, and for a pattern.",
)
@click.option("--prices", help='Of changes: "cooler wall=15 EUR, oxygen feed=180 EUR".')
@click.option("--concentration", help='Find the flow that gives it: "40 g/Nm3".')
@click.option("--output", help='Find the flow that gives it: "0.6 g/h".')
@click.option("--gas-price", help='Of a Nm³ of feed, for the flow of the cheapest gram: "9 EUR".')
@click.option("--energy-price", help='Of a kWh, with the gas price: "0.30 EUR".')
@click.option(
    "--map",
    "map_file",
    type=click.Path(dir_okay=False, path_type=Path),
    metavar="FILE.csv|FILE.svg",
    help="Write the output over flow and power there, as a table or drawn.",
)
@click.option(
    "--map-over",
    "map_axis",
    type=click.Choice(OVER),
    help="Power (usual) or the wall, the temperature of the tube.",
)
@with_figures
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def command(
    runs: tuple[str, ...],
    book: Path | None,
    setting: str | None,
    map_file: Path | None,
    map_axis: Over | None,
    log: Path | None,
    figures: Path | None,
    json_wanted: bool,
    **texts: str | None,
) -> None:
    """Where the generator runs on its map, and what a change would bring before money is spent."""
    if book is None and not runs and (usual := os.environ.get("OZONEWRIGHT_NOTEBOOK")):
        book = Path(usual)
    texts["log"] = None if log is None else file_text(log)
    if runs and (book or setting):
        raise Inconsistent("files and a notebook are given", fix="Leave one of them out.")
    if runs:
        question = question_of_files(runs, texts)
    elif book is not None:
        with Notebook.open(book, read_only=True) as notebook:
            question = question_of_notebook(notebook, setting, texts)
    else:
        raise MissingValue(
            "no runs to fit a generator to", fix="Name --notebook FILE, or files of runs."
        )
    if map_file is None and figures is None:
        found = answered(question)
    else:
        mapped = answered_with_maps(question)
        found = mapped.answer
        if map_file is not None:
            _written(mapped, map_file, map_axis)
        save_figures(figures, "generator_maps:mapped_section", mapped)
    click.echo(as_json(found) if json_wanted else generator_text(found), nl=json_wanted)


def _written(mapped: Mapped, file: Path, over: Over | None) -> None:
    """Write the map as the ending of the file says."""
    ending = file.suffix.lower()
    if ending not in (".csv", ".svg"):
        raise InputError(
            "a map is a table or a drawing",
            where="--map",
            got=file.name,
            fix="End it .csv or .svg.",
        )
    chosen = over or ("power" if mapped.question.point.power is not None else "wall")
    if ending == ".csv":
        text = map_text(mapped, chosen)
    else:
        text = picture(map_figure_of(map_over(mapped, chosen), mapped.question).svg)
    write(file, text)
