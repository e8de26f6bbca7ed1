"""``ozonewright gate``."""

from __future__ import annotations

from contextlib import nullcontext
from pathlib import Path

import click

from ozonewright.bench.gate import ask, gate_of
from ozonewright.errors import MissingValue
from ozonewright.notebook import Notebook
from ozonewright.show.gate import gate_text
from ozonewright.show.harmless import harmless
from ozonewright.show.plain import as_json

FILE = click.Path(path_type=Path)
NAMED = "FILE|LABEL"


@click.command()
@click.option("--rig", metavar=NAMED, help="The rig.")
@click.option("--room", metavar=NAMED, help="The room.")
@click.option("--reaction", metavar=NAMED, help="The reaction; left out, the gate is for an assay.")
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
    rig: str | None,
    room: str | None,
    reaction: str | None,
    book: Path | None,
    json_wanted: bool,
    **texts: str | None,
) -> None:
    """Go, fix or stop, before the high voltage goes on.

    Files, or labels of the notebook; of a notebook, the rig and the room that are not named are
    those of the reaction, else the last that were kept.
    """
    files = any(Path(one).exists() for one in (rig, room, reaction) if one)
    with Notebook.open(book, read_only=True) if book else nullcontext() as notebook:
        if notebook is not None and not files:
            found = gate_of(notebook, rig=rig, room=room, reaction=reaction, texts=texts)
        elif rig is None:
            raise MissingValue(
                "no rig is given",
                where="--rig",
                fix="Name its file: --rig RIG.toml, or a notebook that keeps it: --notebook FILE.",
            )
        else:
            found = ask(rig, room, reaction, texts, notebook)
    text = as_json(found) if json_wanted else harmless(gate_text(found))
    click.echo(text, nl=json_wanted)
