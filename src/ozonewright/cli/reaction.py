"""``ozonewright reaction``."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TextIO, cast

import click

from ozonewright.bench.load import Source
from ozonewright.bench.reaction import plan_of_label, reaction_plan
from ozonewright.cli.figures import save_figures, with_figures
from ozonewright.cli.written import write
from ozonewright.notebook import Notebook
from ozonewright.show.plain import as_json
from ozonewright.show.reaction import reaction_text
from ozonewright.show.reaction_sheet import reaction_sheet


@click.command()
@click.argument("reaction", metavar="REACTION.toml|LABEL")
@click.option(
    "--notebook",
    "book",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Where the setting or run stands; or set OZONEWRIGHT_NOTEBOOK.",
)
@click.option("--sheet", type=click.Path(path_type=Path), help="Write a page to print (HTML).")
@with_figures
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def command(
    reaction: str, book: Path | None, sheet: Path | None, figures: Path | None, json_wanted: bool
) -> None:
    """Plan of a reaction: on-time, when to look and to stop, heat, quench, products.

    LABEL is a reaction of the notebook; - reads the document from standard input.
    """
    source: Source = (
        cast(TextIO, click.open_file("-", encoding="utf-8-sig")) if reaction == "-" else reaction
    )
    if book is None and (usual := os.environ.get("OZONEWRIGHT_NOTEBOOK")):
        book = Path(usual)
    if book is None:
        plan = reaction_plan(source)
    else:
        with Notebook.open(book, read_only=True) as notebook:
            here = reaction == "-" or Path(reaction).exists()
            plan = reaction_plan(source, notebook) if here else plan_of_label(notebook, reaction)
    if sheet is not None:
        write(sheet, reaction_sheet(plan))
    click.echo(as_json(plan) if json_wanted else reaction_text(plan), nl=json_wanted)
    save_figures(figures, "reaction:reaction_section", plan.label or "reaction", plan)
