"""``ozonewright demo``."""

from __future__ import annotations

from pathlib import Path

import click

from ozonewright.demo import (
    SEED,
    TRUTH,
    demo,
    keep,
    reaction_files,
    rig_files,
    room_files,
    run_files,
    store,
)
from ozonewright.show.demo import demo_text, notes_text


@click.command()
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.option("--seed", default=SEED, show_default=True, help="Of the reading noise.")
def command(folder: Path, seed: int) -> None:
    """Write the worked example into DIR and answer it.

    A dozen invented runs of known truth, with a slip, a surplus and a pair that tells nothing.
    """
    told = {"notes.md": notes_text(TRUTH, seed)}
    store(folder, run_files(seed) | rig_files() | room_files() | reaction_files() | told)
    keep(folder)
    click.echo(demo_text(demo(folder), folder.as_posix(), seed), nl=False)
