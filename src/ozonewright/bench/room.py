"""How much ozone people breathe in a room when some of it gets out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from ozonewright.bench.detector import read_detector
from ozonewright.documents.kinds import documents_in
from ozonewright.documents.load import read_table
from ozonewright.documents.room import RoomDocument, room_record
from ozonewright.documents.section import validated
from ozonewright.documents.typed import Typed, typed
from ozonewright.errors import AppError, Faults, Inconsistent, MissingValue
from ozonewright.notebook import Notebook
from ozonewright.physics.hazards.release import mass_of_ozone
from ozonewright.questions.room.air import in_room
from ozonewright.questions.room.answer import room_answer
from ozonewright.questions.room.detector import DetectorAnswer
from ozonewright.questions.room.oxygen import OxygenAnswer, OxygenSupply, oxygen_answer
from ozonewright.questions.room.release import releases, releases_of_gas
from ozonewright.questions.room.result import RoomAnswer
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
    "concentration": ((Kind.NORMAL_CONCENTRATION,), {"above": 0.0}),
    "leak_flow": ((Kind.VOLUME_FLOW, Kind.NORMAL_FLOW), {"above": 0.0}),
    "gas_space": ((Kind.VOLUME,), {"above": 0.0}),
    "lasts": ((Kind.TIME,), {"above": 0.0}),
    "oxygen": ((Kind.VOLUME_FLOW, Kind.NORMAL_FLOW), {"above": 0.0}),
    "oxygen_share": ((Kind.MOLE_FRACTION,), {"above": 0.0, "most": 1.0}),
}
"""What may be said of what gets out: the kinds of each and its bounds."""
OF_OXYGEN = ("oxygen", "oxygen_share")
OF_GAS = ("concentration", "leak_flow", "gas_space")


@dataclass(frozen=True, slots=True)
class Asked:
    """The answers to what was asked of a room: ozone, oxygen, or both."""

    ozone: RoomAnswer | None = None
    oxygen: OxygenAnswer | None = None
    detector: DetectorAnswer | None = None


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
    book: Path | None = None,
    seed: int = 0,
) -> Asked:
    """Return what gas that gets out, typed as text, does to a room; all faults at once.

    With a notebook, what the detector's readings logged of this room tell of it besides.
    """
    faults: list[AppError] = []
    room: Room | None = None
    try:
        room = load_room(source)
    except Faults as several:
        faults += several.faults
    except AppError as error:
        faults.append(error)
    read = _read(texts, faults)
    ways = ("release", "output", "purge", *OF_GAS, "oxygen")
    if book is None and not any(texts.get(name) for name in ways):
        faults.append(
            MissingValue(
                "nothing says how much gets out",
                where="release",
                fix='Write release "100 mg/h", or the output "0.6 g/h" and the slip "5 %", or '
                'oxygen "1 L/min".',
            )
        )
    if faults or room is None:
        raise Faults(faults)
    return Asked(_ozone(room, read, seed), _oxygen(room, read, seed), _detector(room, book))


def _detector(room: Room, book: Path | None) -> DetectorAnswer | None:
    if book is None:
        return None
    with Notebook.open(book, read_only=True) as notebook:
        return read_detector(notebook, room)


def _ozone(room: Room, read: Mapping[str, Typed], seed: int) -> RoomAnswer | None:
    given = {
        name: _measured(name, one)
        for name, one in read.items()
        if name != "lasts" and name not in OF_OXYGEN
    }
    if not given:
        return None
    gas = {name: given.pop(name) for name in OF_GAS if name in given}
    ways = (*releases(**given), *(releases_of_gas(room, **gas) if gas else ()))
    return room_answer(room, ways, lasts=_lasts(read), seed=seed)


def _lasts(read: Mapping[str, Typed]) -> float | None:
    return read["lasts"].value if "lasts" in read else None


def _oxygen(room: Room, read: Mapping[str, Typed], seed: int) -> OxygenAnswer | None:
    if "oxygen" not in read:
        return None
    flow, pure = read["oxygen"].measured("oxygen flow"), "oxygen_share" not in read
    if flow.kind is Kind.NORMAL_FLOW:
        each = in_room(room)
        flow = Measured(
            flow.value * each, flow.u * each, flow.name, Kind.VOLUME_FLOW, flow.shape,
            basis=flow.basis,
        )  # fmt: skip
    share = (
        Measured(1.0, 0.0, "oxygen share", Kind.MOLE_FRACTION, basis="pure oxygen counted")
        if pure
        else read["oxygen_share"].measured("oxygen share")
    )
    return oxygen_answer(room, OxygenSupply(flow, share), lasts=_lasts(read), seed=seed)


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
    faults += _of_gas(read)
    if "oxygen_share" in read and "oxygen" not in read:
        faults.append(_needs("oxygen_share", "oxygen", "1 L/min"))
    if "destroyed" in read and "slip" not in read:
        faults.append(_needs("destroyed", "slip", "5 %"))
    return read


def _of_gas(read: Mapping[str, Typed]) -> Iterator[AppError]:
    """Yield what is missing: a gas that gets out has a strength, and a strength alone a way out."""
    ways = [name for name in OF_GAS if name in read and name != "concentration"]
    if "concentration" not in read:
        for name in ways:
            yield MissingValue(
                "how strong is that gas? The concentration is missing",
                where=name,
                fix='Write concentration "12 g/Nm3".',
            )
    elif not ways:
        yield MissingValue(
            "where does that gas get out?",
            where="concentration",
            fix='Write leak_flow "10 mL/min", or gas_space "500 mL" for a purge.',
        )


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
