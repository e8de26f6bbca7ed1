"""``ozonewright generator``."""

from __future__ import annotations

import os
from pathlib import Path

import click

from ozonewright.bench.generator import answered, map_text, question_of_files, question_of_notebook
from ozonewright.bench.notebook import file_text
from ozonewright.cli.figures import save_figures, with_figures
from ozonewright.errors import Inconsistent, MissingValue
from ozonewright.notebook import Notebook
from ozonewright.show.generator import generator_text
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
    metavar="FILE.csv",
    help="Write the output over flow and power there.",
)
@with_figures
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def command(
    runs: tuple[str, ...],
    book: Path | None,
    setting: str | None,
    map_file: Path | None,
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
    found = answered(question)
    if map_file is not None:
        map_file.write_text(map_text(question), encoding="utf-8")
    click.echo(as_json(found) if json_wanted else generator_text(found), nl=json_wanted)
    save_figures(figures, "generator:generator_section", found)
