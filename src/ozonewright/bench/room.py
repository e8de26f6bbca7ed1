"""How much ozone people breathe in a room when some of it gets out."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from ozonewright.documents.kinds import documents_in
from ozonewright.documents.load import read_table
from ozonewright.documents.room import RoomDocument, room_record
from ozonewright.documents.section import validated
from ozonewright.documents.typed import Typed, typed
from ozonewright.errors import AppError, Faults, Inconsistent, MissingValue
from ozonewright.physics.hazards.release import mass_of_ozone
from ozonewright.questions.room import RoomAnswer, releases, room_answer
from ozonewright.records.room import Room
from ozonewright.uncertain import Measured
from ozonewright.units import Kind

RATE = (Kind.MASS_RATE, Kind.AMOUNT_RATE)
WAYS: dict[str, tuple[tuple[Kind, ...], dict[str, Any]]] = {
    "release": (RATE, {"above": 0.0}),
    "output": (RATE, {"above": 0.0}),
    "slip": ((Kind.SHARE,), {"least": 0.0, "most": 1.0}),
    "destroyed": ((Kind.SHARE,), {"least": 0.0, "most": 1.0}),
    "leak": ((Kind.SHARE,), {"least": 0.0, "most": 1.0}),
    "purge": ((Kind.MASS,), {"above": 0.0}),
    "lasts": ((Kind.TIME,), {"above": 0.0}),
}
"""What may be said of a release: the kinds of each and its bounds."""


def load_room(source: str | Path | Mapping[str, Any]) -> Room:
    """Return the room of a file, or of the table read from one."""
    table = source if isinstance(source, Mapping) else read_table(Path(source))
    ((kind, data), *more) = documents_in(table)
    if kind != "room" or more:
        raise Inconsistent(
            "one room is wanted",
            got=f"[{kind}]" if kind != "room" else "several rooms",
            fix='Name a file with one [room]: volume = "24 m3", air_changes = "0.5 /h".',
        )
    return room_record(validated(RoomDocument, data))


def ask(
    source: str | Path | Mapping[str, Any],
    texts: Mapping[str, str | None],
    *,
    seed: int = 0,
) -> RoomAnswer:
    """Return what releases, typed as text, do to a room; all faults at once."""
    faults: list[AppError] = []
    room: Room | None = None
    try:
        room = load_room(source)
    except Faults as several:
        faults += several.faults
    except AppError as error:
        faults.append(error)
    read = _read(texts, faults)
    if not any(texts.get(name) for name in ("release", "output", "purge")):
        faults.append(
            MissingValue(
                "nothing says how much ozone gets out",
                where="release",
                fix='Write release "100 mg/h", or the output "0.6 g/h" and the slip "5 %".',
            )
        )
    if faults or room is None:
        raise Faults(faults)
    given = {name: _measured(name, one) for name, one in read.items() if name != "lasts"}
    lasts = read["lasts"].value if "lasts" in read else None
    return room_answer(room, tuple(releases(**given)), lasts=lasts, seed=seed)


def _read(texts: Mapping[str, str | None], faults: list[AppError]) -> dict[str, Typed]:
    read: dict[str, Typed] = {}
    for name, (kinds, bounds) in WAYS.items():
        text = texts.get(name)
        if not text:
            continue
        try:
            read[name] = typed(text, kinds, **bounds)
        except AppError as error:
            faults.append(error.at(name))
    for name in ("slip", "leak"):
        if name in read and "output" not in read:
            faults.append(_needs(name, "output", "0.6 g/h"))
    if "destroyed" in read and "slip" not in read:
        faults.append(_needs("destroyed", "slip", "5 %"))
    return read


def _needs(name: str, other: str, example: str) -> AppError:
    return MissingValue(
        f"a share of what? The {other} is missing", where=name, fix=f'Write {other} "{example}".'
    )


def _measured(name: str, one: Typed) -> Measured:
    found = one.measured(name)
    if one.kind is not Kind.AMOUNT_RATE:
        return found
    value, u = (float(mass_of_ozone(amount=each)) for each in (found.value, found.u))
    return Measured(value, u, name, Kind.MASS_RATE, found.shape, basis=found.basis)
