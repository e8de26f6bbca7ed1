"""``ozonewright output``."""

from __future__ import annotations

import os
from importlib import import_module
from pathlib import Path
from typing import TextIO, cast

import click

from ozonewright.bench.load import Source
from ozonewright.bench.output import outputs
from ozonewright.errors import MissingValue
from ozonewright.show.output import outputs_text
from ozonewright.show.plain import as_json


@click.command()
@click.argument("runs", nargs=-1, metavar="RUN.toml…")
@click.option(
    "--notebook",
    "book",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Runs of a notebook in place of files; or set OZONEWRIGHT_NOTEBOOK.",
)
@click.option("--setting", help="Runs of one setting of the notebook, and their mean.")
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def command(
    runs: tuple[str, ...], book: Path | None, setting: str | None, json_wanted: bool
) -> None:
    """Ozone output of one run or several, with its uncertainty and what to do next.

    Field blanks (discharge = "off") among the files serve the runs of their setting; - reads a
    document from standard input.
    """
    if book is None and not runs and (usual := os.environ.get("OZONEWRIGHT_NOTEBOOK")):
        book = Path(usual)
    if book is not None:
        # The notebook is loaded when asked for, like any command.
        click.echo(
            import_module("ozonewright.cli.setting").answer(book, setting, json_wanted), nl=False
        )
        return
    if not runs:
        raise MissingValue("no run is given", fix="Name a file, or --notebook FILE.")
    sources: list[Source] = [
        cast(TextIO, click.open_file(run, encoding="utf-8-sig")) if run == "-" else run
        for run in runs
    ]
    results = outputs(sources)
    if json_wanted:
        click.echo(as_json(results[0] if len(results) == 1 else results))
    else:
        click.echo(outputs_text(results), nl=False)
