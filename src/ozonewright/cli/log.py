"""``ozonewright log``."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path

import click

from ozonewright.bench.clock import now
from ozonewright.bench.count import Asked, answered_anew, count_so_far, current
from ozonewright.bench.log import Press, last_event, press, take_back
from ozonewright.errors import MissingValue, NotFound
from ozonewright.notebook import Entry, Notebook
from ozonewright.show.count import count_text, stored_text, taken_back_text
from ozonewright.show.harmless import harmless
from ozonewright.show.plain import as_json

OF_THE_FLASK = ("quench", "peroxide test")
"""Of these a person wants to know the clearance, not the count: it would say "gas on first"."""
PLANNED = "ozonewright.bench.planned"
"""Loads much: fetched for a reaction or a setting alone."""
ASKED = Asked(
    answered=answered_anew,
    planned=lambda *asked: import_module(PLANNED).planned_reaction(*asked),
    settled=lambda *asked: import_module(PLANNED).settled_setting(*asked),
)


@click.command()
@click.argument("what", required=False)
@click.option(
    "--notebook",
    envvar="OZONEWRIGHT_NOTEBOOK",
    type=click.Path(path_type=Path),
    metavar="FILE",
    required=True,
    help="The notebook.",
)
@click.option(
    "--of", metavar="LABEL", help="The run or reaction; that of the last event if left out."
)
@click.option(
    "--at", metavar="TIME", help="When it was, if not now: 12:03, or 2026-05-09T12:03:05."
)
@click.option("--value", help='What belongs to it: log "output" --value "0.62 g/h ± 5 %".')
@click.option("--method", help='How a peroxide test was made: "strip", "iodide".')
@click.option("--by", help="Who did it.")
@click.option("--remark", help="In your own words.")
@click.option(
    "--undo", is_flag=True, help="Take the last event back; it stays in the notebook, struck out."
)
@click.option("--json", "json_wanted", is_flag=True, help="Print the count as one JSON object.")
def command(
    notebook: Path,
    what: str | None,
    of: str | None,
    undo: bool,
    json_wanted: bool,
    **more: str | None,
) -> None:
    """Log a bench event, and tell the count so far.

    Events: "gas on", "gas off", "discharge on", "discharge off", "divert", "into bottle", "stop".
    Beside them, each with --value: "planned on-time", "output", "setting", "uptake", "wanted",
    "titre of bottle 1". "quench" and "peroxide test" serve the clearance, "detector" the room,
    "tube temperature" the generator.
    Other words are kept as a remark. Without WHAT the count is told.
    """
    with Notebook.open(notebook, read_only=what is None and not undo) as book:
        whose = of or current(book)
        if undo:
            click.echo(harmless(_undone(book)), err=json_wanted)
        elif what is not None:
            entry = press(book, Press(what, whose, **more), now(), "command")  # type: ignore[arg-type]
            click.echo(harmless(_stored(entry, whose is not None and not of)), err=json_wanted)
            if entry.data["entry"]["what"] in OF_THE_FLASK and whose and not json_wanted:
                click.echo(harmless(_cleared(book, whose)), nl=False)
                return
        if whose is None:
            if what is None and not undo:
                raise MissingValue(
                    "no event is logged yet",
                    where="--notebook",
                    fix='Log the first one: ozonewright log --notebook FILE --of C8 "gas on".',
                )
            return
        found = count_so_far(book, whose, now(), ASKED)
        click.echo(
            as_json(found) if json_wanted else harmless("\n" + count_text(found)), nl=json_wanted
        )


def _stored(entry: Entry, as_last: bool) -> str:
    table = entry.data["entry"]
    return stored_text(table["what"], table.get("of"), table["when"], as_last)


def _cleared(book: Notebook, reaction: str) -> str:
    """Return the clearance as it stands now; what it takes is loaded when it is asked."""
    found = import_module("ozonewright.bench.clearance").clearance_of(book, reaction, now().wall)
    text: str = import_module("ozonewright.show.clearance").clearance_text(found)
    return f"\n{text}"


def _undone(book: Notebook) -> str:
    last = last_event(book)
    if last is None:
        raise NotFound("there is no event to take back", fix="Log one first.")
    take_back(book, last.id)
    return taken_back_text(last.data["entry"]["what"], last.data["entry"]["when"])
