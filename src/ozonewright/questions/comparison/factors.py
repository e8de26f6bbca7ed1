"""What may differ between two settings, read from the records of their runs."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from ozonewright.questions.comparison.result import Arm, Differing
from ozonewright.records.run import Run
from ozonewright.uncertain import Measured
from ozonewright.units import Kind, number

Value = Measured | str | None
Reading = Callable[[Run], Value]
SAME = 1e-9
"""Relative difference of two readings that are the same text."""
TWICE = 2.0
"""Standard uncertainties of a difference from which it is beyond the readings."""


def _first_bottle(name: str) -> Reading:
    return lambda run: getattr(run.bottles[0], name) if run.bottles else None


def _acid(name: str) -> Reading:
    return lambda run: getattr(run.acid, name) if run.acid else None


def _titration(name: str) -> Reading:
    return lambda run: getattr(run.titration, name) if run.titration else None


def _gas_part(name: str) -> Reading:
    return lambda run: run.gas.feed.parts.get(name) if run.gas.feed else None


def _flow(kind: Kind) -> Reading:
    return lambda run: run.gas.flow if run.gas.flow and run.gas.flow.kind is kind else None


def _guarded(run: Run) -> Value:
    titrated = run.titration.titres if run.titration else ()
    count = len(run.bottles) or len(titrated)
    return f"{count}" if count else None


def _strength(run: Run) -> Value:
    titrant = run.titration.titrant if run.titration else None
    if titrant is None:
        return None
    return titrant.stated or (titrant.standard and f"standardised with {titrant.standard}")


def _blank(run: Run) -> Value:
    return run.titration.blanks[0] if run.titration and run.titration.blanks else None


def _burette(run: Run) -> Value:
    burette = run.titration.burette if run.titration else None
    return Measured(burette.capacity, 0.0, "burette", Kind.VOLUME) if burette else None


def _day(run: Run) -> Value:
    return run.started.date().isoformat() if run.started else None


FACTORS: dict[str, tuple[str, Reading]] = {
    "feed": ("", lambda run: run.gas.feed.name if run.gas.feed else None),
    "oxygen in the feed": ("vol%", _gas_part("oxygen")),
    "dew point": ("°C", lambda run: run.gas.feed.dew_point if run.gas.feed else None),
    "flow": ("L/min", _flow(Kind.VOLUME_FLOW)),
    "normal flow": ("NL/min", _flow(Kind.NORMAL_FLOW)),
    "meter": ("", lambda run: run.gas.meter.kind if run.gas.flow else None),
    "place of the meter": ("", lambda run: run.gas.meter.at if run.gas.flow else None),
    "gas temperature": ("°C", lambda run: run.gas.temperature),
    "gas pressure": ("kPa", lambda run: run.gas.pressure),
    "power": ("W", lambda run: run.power),
    "discharge power": ("W", lambda run: run.discharge_power),
    "power measured at": ("", lambda run: run.power_at if run.power else None),
    "wall": ("°C", lambda run: run.wall),
    "rig": ("", lambda run: run.rig),
    "room": ("", lambda run: run.room),
    "by": ("", lambda run: run.by),
    "day": ("", _day),
    "start": ("", lambda run: run.start),
    "rest before": ("min", lambda run: run.rest_before),
    "on-time": ("s", lambda run: run.on_time),
    "bottles": ("", _guarded),
    "water in a bottle": ("mL", _first_bottle("volume")),
    "potassium iodide in a bottle": ("g", _first_bottle("iodide_mass")),
    "potassium iodide strength": ("g/L", _first_bottle("iodide_concentration")),
    "sparger": ("", _first_bottle("sparger")),
    "acid": ("", _acid("kind")),
    "acid volume": ("mL", _acid("volume")),
    "acid strength": ("mol/L", _acid("concentration")),
    "acid given": ("", _acid("when")),
    "titrant": ("mol/L", _strength),
    "burette": ("mL", _burette),
    "reagent blank": ("mL", _blank),
}
"""Name of the factor: the unit it is told in, and where it stands in a record."""
EXPECTED = ("on-time", "day", "reagent blank", "rest before")
"""These differ from run to run anyway; they explain a ratio only together with a drift."""
COOLING = "wall_temperature"
ONE_OF = (("flow", "normal flow"), ("potassium iodide in a bottle", "potassium iodide strength"))
"""Two ways to state one thing: a run has one of them, and that is enough."""


def differing(first: Arm, second: Arm) -> tuple[Differing, ...]:
    """Return every factor whose readings are not the same in both settings."""
    return tuple(_differing(first, second))


def _differing(first: Arm, second: Arm) -> Iterator[Differing]:
    for name, (unit, reading) in FACTORS.items():
        here, there = _values(first, reading), _values(second, reading)
        if not here or not there or _alike(here, there):
            continue
        yield Differing(
            factor=name,
            unit=unit,
            first=[_plain(value, unit) for value in here],
            second=[_plain(value, unit) for value in there],
            beyond=_beyond(here, there),
        )
    yield from _rigs_differing(first, second)


def _rigs_differing(first: Arm, second: Arm) -> Iterator[Differing]:
    """Yield what is not the same in both rigs.

    A part that only one has is told once, by its kind; its own readings have nothing to stand
    against.
    """
    if not first.rig or not second.rig:
        return
    alone = set(_kinds(first)) ^ set(_kinds(second))
    for part, kind in (_kinds(first) | _kinds(second)).items():
        if part in alone:
            one, other = (kind if part in _kinds(arm) else () for arm in (first, second))
            yield Differing(factor=f"{PART}{part}", first=list(one), second=list(other))
    for place in dict.fromkeys([*first.rig, *second.rig]):
        if any(place.startswith(f"{PART}{part}, ") for part in alone):
            continue
        here, there = first.rig.get(place, ()), second.rig.get(place, ())
        if set(here) != set(there):
            yield Differing(factor=place, first=list(here), second=list(there))


PART, KIND = "part, ", ", kind"


def _kinds(arm: Arm) -> dict[str, tuple[str, ...]]:
    """Return the kind of every part of the rigs of a setting, by its name."""
    return {
        place.removeprefix(PART).removesuffix(KIND): kind
        for place, kind in arm.rig.items()
        if place.startswith(PART) and place.endswith(KIND)
    }


def not_compared(first: Arm, second: Arm) -> list[str]:
    """Return the factors that a setting does not state, so that nobody knows whether they differ.

    Tube and cooling have no field of a run: they stand in the rig that it names, the cooling as
    the temperature of the wall.
    """
    missing = [
        name
        for name, (_, reading) in FACTORS.items()
        if not (_values(first, reading) and _values(second, reading))
    ]
    for one, other in ONE_OF:
        if one not in missing or other not in missing:
            missing = [name for name in missing if name not in (one, other)] + [
                name for name in (one, other) if _one_sided(first, second, name)
            ]
    both = [place for place in first.rig if place in second.rig]
    tube = [] if any("discharge tube" in first.rig[place] for place in both) else ["tube"]
    cooled = any(place.endswith(COOLING) for place in both)
    return [*missing, *tube, *([] if cooled else ["cooling"])]


def _one_sided(first: Arm, second: Arm, name: str) -> bool:
    reading = FACTORS[name][1]
    return bool(_values(first, reading)) != bool(_values(second, reading))


def _values(arm: Arm, reading: Reading) -> list[Measured | str]:
    """Return the different values of a setting's runs, in order."""
    found: list[Measured | str] = []
    for made in arm.made:
        value = reading(made.run)
        if value and not any(_same(value, known) for known in found):
            found.append(value)
    return found


def _same(one: Measured | str, other: Measured | str) -> bool:
    if isinstance(one, str) or isinstance(other, str):
        return one == other
    return abs(one.value - other.value) <= SAME * max(abs(one.value), abs(other.value))


def _alike(here: Sequence[Measured | str], there: Sequence[Measured | str]) -> bool:
    return all(any(_same(a, b) for b in there) for a in here) and all(
        any(_same(a, b) for a in here) for b in there
    )


def _beyond(here: Sequence[Measured | str], there: Sequence[Measured | str]) -> bool:
    """Whether the settings lie further apart than their readings are sure, or are words."""
    numbers = [[one for one in side if isinstance(one, Measured)] for side in (here, there)]
    if any(len(found) < len(side) for found, side in zip(numbers, (here, there), strict=True)):
        return True
    return any(
        all(abs(a.value - b.value) > TWICE * (a.u**2 + b.u**2) ** 0.5 for b in other)
        for side, other in (numbers, numbers[::-1])
        for a in side
    )


def _plain(value: Measured | str, unit: str) -> float | str:
    return value if isinstance(value, str) else number(value.value, value.kind, unit)
