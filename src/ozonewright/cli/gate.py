"""``ozonewright gate``."""

from __future__ import annotations

from contextlib import nullcontext
from pathlib import Path

import click

from ozonewright.bench.gate import ask
from ozonewright.notebook import Notebook
from ozonewright.show.gate import gate_text
from ozonewright.show.harmless import harmless
from ozonewright.show.plain import as_json

FILE = click.Path(path_type=Path)


@click.command()
@click.option("--rig", type=FILE, required=True, help="The rig.")
@click.option("--room", type=FILE, help="The room.")
@click.option("--reaction", type=FILE, help="The reaction; left out, the gate is for an assay.")
@click.option(
    "--notebook",
    "book",
    envvar="OZONEWRIGHT_NOTEBOOK",
    type=FILE,
    help="Where the reaction's setting or run is kept, and what still waits for its tests.",
)
@click.option("--output", help='Ozone, where no reaction tells it: "0.62 g/h".')
@click.option("--flow", help='Gas: "0.8 L/min", or a normal flow.')
@click.option("--slip", help='Share that slips past the flask: "5 %".')
@click.option("--leak", help='Share that leaks at joints (1 % if not said): "0.5 %".')
@click.option("--on-time", help='Longest the discharge is on: "60 min".')
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def command(
    rig: Path,
    room: Path | None,
    reaction: Path | None,
    book: Path | None,
    json_wanted: bool,
    **texts: str | None,
) -> None:
    """Go, fix or stop, before the high voltage goes on."""
    with Notebook.open(book, read_only=True) if book else nullcontext() as notebook:
        found = ask(rig, room, reaction, texts, notebook)
    text = as_json(found) if json_wanted else harmless(gate_text(found))
    click.echo(text, nl=json_wanted)
