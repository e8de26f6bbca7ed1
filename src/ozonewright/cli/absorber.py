"""``ozonewright absorber``."""

from __future__ import annotations

from pathlib import Path
from typing import TextIO, cast

import click

from ozonewright.bench.absorber import run, uptake
from ozonewright.bench.load import Source
from ozonewright.cli.figures import save_figures, with_figures
from ozonewright.errors import InputError
from ozonewright.notebook import Notebook
from ozonewright.show.absorber import absorber_text
from ozonewright.show.absorber_run import run_text
from ozonewright.show.plain import as_json


@click.command()
@click.argument("rig", metavar="RIG.toml")
@click.option("--output", help='Ozone sent in: "0.6 g/h".')
@click.option("--flow", help='Dry feed: "0.8 NL/min"; if not said, that of the gas line.')
@click.option("--bubble", help='Diameter seen, in place of that worked out: "3 mm".')
@click.option("--guard-share", help='Measured: ozone of the last bottle over all, "2.9 %".')
@click.option("--slip", help='Measured: ozone behind the bottles over ozone sent in, "4 %".')
@click.option("--tail-titre", help='Or the titre of a tail bottle behind them, "1.02 mL" …')
@click.option("--titrant", help='… with "0.0510 mol/L" …')
@click.option("--blank", help='… less a blank, "0.18 mL" …')
@click.option("--on-time", help='… caught in "4 min".')
@click.option(
    "--reaction",
    type=click.Path(path_type=Path),
    help="Simulate this reaction in the rig's flask, minute by minute.",
)
@click.option(
    "--notebook",
    "book",
    type=click.Path(path_type=Path),
    envvar="OZONEWRIGHT_NOTEBOOK",
    help="Where a setting or run that the reaction names stands.",
)
@with_figures
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def command(
    rig: str,
    reaction: Path | None,
    book: Path | None,
    figures: Path | None,
    json_wanted: bool,
    **texts: str | None,
) -> None:
    """How much ozone the bottles take up, and what slips past; - reads standard input.

    With --reaction the same flask minute by minute: conversion, over-reaction, off-gas, marks; a
    slip or tail titre corrects its transfer.
    """
    source: Source = cast(TextIO, click.open_file(rig, encoding="utf-8-sig")) if rig == "-" else rig
    if reaction is None:
        found = uptake(source, texts)
        click.echo(as_json(found) if json_wanted else absorber_text(found), nl=json_wanted)
        save_figures(figures, "absorber:absorber_section", found)
        return
    if texts["guard_share"]:
        raise InputError(
            "a simulated run does not take this: it is of two iodide bottles", where="guard_share",
            got=texts["guard_share"], fix="Give the slip behind the flask, or a tail titre.",
        )  # fmt: skip
    if book is None:
        course = run(source, reaction, texts, None)
    else:
        with Notebook.open(book, read_only=True) as notebook:
            course = run(source, reaction, texts, notebook)
    click.echo(as_json(course) if json_wanted else run_text(course), nl=json_wanted)
    save_figures(figures, "absorber:simulated_section", course)
