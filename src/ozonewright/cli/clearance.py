"""``ozonewright clearance``."""

from __future__ import annotations

from pathlib import Path

import click

from ozonewright.bench.clearance import clearance_of
from ozonewright.bench.clock import now
from ozonewright.notebook import Notebook
from ozonewright.show.clearance import clearance_text
from ozonewright.show.harmless import harmless
from ozonewright.show.plain import as_json


@click.command()
@click.argument("reaction", metavar="LABEL")
@click.option(
    "--notebook",
    "book",
    envvar="OZONEWRIGHT_NOTEBOOK",
    type=click.Path(path_type=Path),
    metavar="FILE",
    required=True,
    help="The notebook.",
)
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def command(reaction: str, book: Path, json_wanted: bool) -> None:
    """Whether the solution of a reaction may be evaporated, and what becomes of the waste.

    Log what was done: ozonewright log --of LABEL "quench", then each test:
    ozonewright log --of LABEL "peroxide test" --value negative --method strip.
    """
    with Notebook.open(book, read_only=True) as notebook:
        found = clearance_of(notebook, reaction, now().wall)
    text = as_json(found) if json_wanted else harmless(clearance_text(found))
    click.echo(text, nl=json_wanted)
