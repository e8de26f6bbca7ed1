"""Slips that physics, or a second statement of the same thing, gives away."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import log

from ozonewright.physics.generator.energy import highest_yield
from ozonewright.records.run import Run
from ozonewright.references.constants import (
    M_NA2S2O3,
    M_NA2S2O3_5H2O,
    M_O3,
    O3_FORMATION_ENTHALPY,
    constant,
)
from ozonewright.results import Note
from ozonewright.units import Kind, size

HOUR = size(Kind.TIME, "h")
MINUTE = size(Kind.TIME, "min")
MASS_RATES = size(Kind.MASS_RATE, "mg/min") / size(Kind.MASS_RATE, "g/h")
"""0.06: milligrams per minute written as grams per hour."""
RATIOS = {
    "factor-two": 2.0,
    "hydrate": M_NA2S2O3_5H2O / M_NA2S2O3,
    "minutes-seconds": MINUTE,
    "mg-per-min-as-g-per-h": 1.0 / MASS_RATES,
}
"""Typed over computed, or its inverse, of the usual slips."""
ALIKE = 0.04
"""Logarithm within which a ratio is called by the name of a slip."""
DISAGREE = 0.02
SHORT = 30.0
"""Seconds below which an implausible output is asked about minutes."""

Values = Mapping[str, float]


def slips(run: Run, values: Values) -> tuple[Note, ...]:
    """Return what can't be true, or disagrees with itself by a well-known factor."""
    return (*_short(run), *_energy(run, values), *_oxygen(values), *_typed(run, values))


def _short(run: Run) -> Iterator[Note]:
    if run.on_time is not None and run.on_time.value < SHORT and run.discharge_on:
        share = size(Kind.TIME, "s") / run.on_time.value
        yield Note("on-time-short", values={"on_time": run.on_time.value, "share": share})


def _energy(run: Run, values: Values) -> Iterator[Note]:
    yields = [values[name] for name in ("energy_yield", "yield_discharge") if name in values]
    if not yields:
        return
    reached = max(yields)
    ceiling = highest_yield(formation_enthalpy=O3_FORMATION_ENTHALPY)
    best = constant("BEST_YIELD_OXYGEN").value
    short = run.on_time is not None and run.on_time.value < SHORT
    if reached > ceiling:
        yield Note(
            "above-enthalpy-limit", "wrong", {"yield": reached, "ceiling": ceiling, "short": short}
        )
    elif reached > best:
        yield Note("yield-doubtful", "doubt", {"yield": reached, "best": best, "short": short})


def _oxygen(values: Values) -> Iterator[Note]:
    oxygen, rate = values.get("oxygen_flow"), values.get("rate")
    if oxygen is not None and rate is not None and 1.5 * rate > oxygen:
        yield Note("more-ozone-than-oxygen", "wrong", {"rate": 1.5 * rate, "oxygen": oxygen})


def _typed(run: Run, values: Values) -> Iterator[Note]:
    """Compare what was typed as collected or as a rate with what the readings give."""
    titrated = run.titration is not None
    if not (titrated or run.collected) or values.get("ozone", 0.0) <= 0.0:
        return
    for typed, computed, name in (
        (run.collected, values.get("ozone"), "collected"),
        (run.rate, values.get("rate"), "rate"),
    ):
        if typed is None or computed is None or typed.value <= 0.0:
            continue
        by_mass = typed.kind in (Kind.MASS, Kind.MASS_RATE)
        ratio = typed.value / (computed * M_O3 if by_mass else computed)
        if abs(log(ratio)) <= DISAGREE:
            continue
        slip = next((s for s, r in RATIOS.items() if abs(abs(log(ratio)) - log(r)) < ALIKE), None)
        yield Note(
            f"typed-{slip}" if slip else "typed-differs",
            "wrong" if slip else "doubt",
            {
                "ratio": ratio,
                "of": name,
                "by": "the titration" if titrated else "collected over on-time",
            },
        )
