"""``ozonewright room``."""

from __future__ import annotations

import click

from ozonewright.bench.room import ask
from ozonewright.show.plain import as_json
from ozonewright.show.room import room_text


@click.command()
@click.argument("room", metavar="ROOM.toml")
@click.option("--release", help='Ozone that gets out: "100 mg/h".')
@click.option("--output", help='Or what the tube makes: "0.6 g/h" (a hose off lets out all of it).')
@click.option("--slip", help='Share of it that the liquid does not take: "5 %".')
@click.option("--destroyed", help='Share of the slip that tail bottle or destruct takes: "95 %".')
@click.option("--leak", help='Share of the output that a joint leaks: "1 %".')
@click.option("--purge", help='Ozone driven out at once: "20 mg".')
@click.option("--for", "lasts", help='How long it goes on before it is stopped: "10 min".')
@click.option("--seed", type=int, default=0, show_default=True, help="Of the Monte Carlo.")
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def command(room: str, seed: int, json_wanted: bool, **texts: str | None) -> None:
    """What people breathe when ozone gets into a room, how soon, and what it takes."""
    found = ask(room, texts, seed=seed)
    click.echo(as_json(found) if json_wanted else room_text(found), nl=json_wanted)
