"""``ozonewright room``."""

from __future__ import annotations

from pathlib import Path

import click

from ozonewright.bench.room import ask
from ozonewright.cli.figures import save_figures, with_figures
from ozonewright.errors import MissingValue
from ozonewright.show.plain import as_json
from ozonewright.show.room import asked_text, limits_text


@click.command()
@click.argument("room", metavar="ROOM.toml", required=False)
@click.option("--release", help='Ozone that gets out: "100 mg/h".')
@click.option("--output", help='Or what the tube makes: "0.6 g/h" (a hose off lets out all of it).')
@click.option("--slip", help='Share of it that the liquid does not take: "5 %".')
@click.option("--destroyed", help='Share of the slip that tail bottle or destruct takes: "95 %".')
@click.option("--leak", help='Share of the output that a joint leaks: "1 %".')
@click.option("--purge", help='Ozone driven out at once: "20 mg".')
@click.option("--concentration", help='Ozone in the gas of the train: "12 g/Nm3".')
@click.option("--leak-flow", help='Of that gas, what a joint leaks: "10 mL/min".')
@click.option("--gas-space", help='Of that gas, what a purge drives out: "500 mL".')
@click.option("--for", "lasts", help='How long it goes on before it is stopped: "10 min".')
@click.option("--oxygen", help='Oxygen that leaks or vents into the room: "1 L/min".')
@click.option("--oxygen-share", help='Oxygen in that gas, if it is not pure: "93 vol%".')
@click.option(
    "--notebook",
    "book",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="A notebook with the detector's readings of this room: they tell its losses and leak.",
)
@click.option("--limits", is_flag=True, help="List the limits that a room may name, and stop.")
@click.option("--seed", type=int, default=0, show_default=True, help="Of the Monte Carlo.")
@with_figures
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def command(
    room: str | None,
    book: Path | None,
    limits: bool,
    seed: int,
    figures: Path | None,
    json_wanted: bool,
    **texts: str | None,
) -> None:
    """What people breathe when ozone gets into a room, how soon, and what it takes.

    Log readings with: ozonewright log --of ROOM "detector" --value "0.08 ppm", and "discharge on"
    and "discharge off" of the room where ozone was let in. With --oxygen, how much oxygen
    collects; a box is described like a room.
    """
    if limits:
        click.echo(limits_text(), nl=False)
        return
    if room is None:
        raise MissingValue("no room is given", fix="Name a file with [room] in it.")
    found = ask(room, texts, book=book, seed=seed)
    answers = [one for one in (found.detector, found.ozone, found.oxygen) if one is not None]
    if json_wanted:
        click.echo(as_json(answers[0]) if len(answers) == 1 else as_json(answers, "answers"))
    else:
        click.echo(asked_text(found.ozone, found.oxygen, found.detector), nl=False)
    if figures is not None:
        if found.ozone is None:
            raise MissingValue("only ozone is drawn", where="figures", fix="Say how much gets out.")
        save_figures(figures, "room:room_section", found.ozone)
