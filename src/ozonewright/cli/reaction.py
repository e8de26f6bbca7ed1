"""``ozonewright reaction``."""

from __future__ import annotations

import os
from collections.abc import Mapping
from importlib import import_module
from pathlib import Path
from typing import TextIO, cast

import click

from ozonewright.bench.load import Source
from ozonewright.bench.notebook import file_text
from ozonewright.bench.reaction import kept_table, reaction_entry, reaction_plan
from ozonewright.cli.figures import save_figures, with_figures
from ozonewright.cli.written import write
from ozonewright.notebook import Notebook
from ozonewright.questions.reaction.result import ReactionPlan
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
@click.option(
    "--log",
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
    metavar="FILE.csv",
    help="Temperatures of the tube (CSV): the output under the reaction's timer.",
)
@click.option("--time-constant", help='In place of a log: "4.6 min ± 0.3 min".')
@click.option("--rise", help='Of the tube if it ran on: "60 K".')
@click.option("--ambient", help='Air around the tube: "22 °C".')
@click.option("--limit", help='Of the tube: without a timer, the best pattern below it: "70 °C".')
@click.option("--temperature-coefficient", help='Of a typed output: "-0.4 %/K".')
@click.option("--output-at", help='Tube temperature of that output: "55 °C", cold, or warm.')
@click.option(
    "--rig",
    type=click.Path(path_type=Path),
    metavar="RIG.toml",
    help="Simulate it in the flask of this rig; else of the one it names in the notebook.",
)
@click.option("--sheet", type=click.Path(path_type=Path), help="Write a page to print (HTML).")
@with_figures
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def command(
    reaction: str,
    book: Path | None,
    rig: Path | None,
    log: Path | None,
    sheet: Path | None,
    figures: Path | None,
    json_wanted: bool,
    **texts: str | None,
) -> None:
    """Plan of a reaction: on-time, when to look and to stop, heat, quench, products.

    LABEL is a reaction of the notebook; - reads the document from standard input.
    """
    source: Source = (
        cast(TextIO, click.open_file("-", encoding="utf-8-sig")) if reaction == "-" else reaction
    )
    if book is None and (usual := os.environ.get("OZONEWRIGHT_NOTEBOOK")):
        book = Path(usual)
    texts["log"] = None if log is None else file_text(log)
    here = reaction == "-" or Path(reaction).exists()
    if book is None:
        plan = _plan(source, texts, None, rig)
    else:
        with Notebook.open(book, read_only=True) as notebook:
            kept = source if here else kept_table(reaction_entry(notebook, reaction))
            plan = _plan(kept, texts, notebook, rig)
    if sheet is not None:
        write(sheet, reaction_sheet(plan))
    click.echo(as_json(plan) if json_wanted else reaction_text(plan), nl=json_wanted)
    save_figures(figures, "reaction:reaction_section", plan.label or "reaction", plan)


def _plan(
    source: Source, texts: Mapping[str, str | None], notebook: Notebook | None, rig: Path | None
) -> ReactionPlan:
    """Return the plan, under the timer where something is said of the tube's heat."""
    if not any(texts.values()):
        return reaction_plan(source, notebook, rig=rig)
    under_duty = import_module("ozonewright.bench.reaction_duty").plan_under_duty
    plan: ReactionPlan = under_duty(source, texts, notebook, rig)
    return plan
