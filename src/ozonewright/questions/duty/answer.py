"""From a timer's pattern and the tube's time constant to warmth and delivery."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import ceil, isfinite
from typing import Any, Literal

import numpy as np

from ozonewright.errors import Inconsistent
from ozonewright.physics import Real
from ozonewright.physics.generator.duty import (
    longest_on_time,
    peak_rise,
    peak_share,
    shortest_off_time,
    trough_share,
    warmed_share,
)
from ozonewright.questions.duty.bodies import Bodies
from ozonewright.questions.duty.result import BodyRow, Duty, Pattern
from ozonewright.references.constants import M_O3
from ozonewright.results import Note
from ozonewright.uncertain import Estimate, Measured, Propagated, monte_carlo, propagate
from ozonewright.units import Kind, number, size

MINUTE = size(Kind.TIME, "min")
TRIED = (1.0, 2.0, 3.0, 5.0, 10.0, 15.0, 20.0, 30.0)
"""On-times in minutes for which the shortest rest is told."""
LONGEST_REST = 8.0
"""Rests beyond so many time constants are not offered: the tube is cold long before."""
SETTLED = 4.0
"""Time constants after which a pattern repeats itself within 2 %."""
DRAWS = 20_000
ODD = 0.025
"""Chance left to the tube of passing the limit in a planned pattern."""
FOR_EVER = 1e9
"""Seconds."""


@dataclass(frozen=True, slots=True)
class Timer:
    """The pattern and what is known of the tube; None means not stated."""

    on: Measured
    off: Measured
    bodies: Bodies
    rate: Measured | None = None
    """Ozone while the discharge is on. [kg/s or mol/s]"""
    limit: Measured | None = None
    flow: Measured | None = None
    """Gas, as a normal flow. [mol/s]"""
    gas: Literal["runs on", "stops"] | None = None
    """Whether the gas runs on while the discharge is off."""


def duty(timer: Timer) -> Duty:
    """Return what the pattern does."""
    ambient = timer.bodies.ambient
    if timer.limit and ambient and timer.limit.value <= ambient.value:
        raise Inconsistent(
            "the limit is not above the ambient",
            where="limit",
            got=f"{number(timer.limit.value, Kind.TEMPERATURE, '°C'):.4g} °C",
            fix='Type the highest temperature the tube may have, such as "70 °C".',
        )
    found = propagate(_calculation(timer), _inputs(timer), correlation=timer.bodies.correlation)
    times = _times(timer)
    notes = tuple(_notes(timer, found, times))
    told: dict[str, Any] = {**found, **times}
    return Duty(
        **told,
        limit=timer.limit.value if timer.limit else None,
        ambient=ambient.value if ambient else None,
        bodies=_rows(timer),
        residual=timer.bodies.fitted.residual if timer.bodies.fitted else None,
        readings=timer.bodies.readings or None,
        on=timer.on.value,
        off=timer.off.value,
        starts_per_hour=1.0 / (timer.on.value + timer.off.value),
        patterns=_patterns(timer),
        notes=notes,
        next=tuple(_next(timer, times)),
        unknowns=tuple(_unknowns(timer)),
        sources=("incropera_2007", "stout_undated"),
        methods=(METHODS[len(timer.bodies.time_constants)],),
    )


METHODS = {1: "one body of one time constant", 2: "two bodies that warm side by side"}


def _rows(timer: Timer) -> tuple[BodyRow, ...]:
    """Return the bodies with what is known of each."""
    rises = timer.bodies.rises or (None,) * len(timer.bodies.time_constants)
    return tuple(
        BodyRow(
            body=number,
            rise=_single(rise),
            time_constant=_single(tau),
        )
        for number, (rise, tau) in enumerate(
            zip(rises, timer.bodies.time_constants, strict=True), start=1
        )
    )


def _single(value: Measured | None) -> Estimate | None:
    if value is None:
        return None
    estimate: Estimate = propagate(lambda value: value, {"value": value})
    return estimate


def _inputs(timer: Timer) -> dict[str, Measured]:
    bodies = timer.bodies
    every = {
        "on": timer.on,
        "off": timer.off,
        "rate": timer.rate,
        "ambient": bodies.ambient,
        "limit": timer.limit,
        "flow": timer.flow,
        **{f"tau_{k}": one for k, one in enumerate(bodies.time_constants)},
        **{f"rise_{k}": one for k, one in enumerate(bodies.rises)},
    }
    return {name: value for name, value in every.items() if value is not None}


def _series(v: Mapping[str, Any], name: str) -> list[Any]:
    return [v[key] for key in sorted(v) if key.startswith(f"{name}_")]


def _calculation(timer: Timer) -> Any:
    per = M_O3 if timer.rate is not None and timer.rate.kind is Kind.AMOUNT_RATE else 1.0

    def calculation(**v: Any) -> Mapping[str, Any]:
        taus, rises = _series(v, "tau"), _series(v, "rise")
        share = v["on"] / (v["on"] + v["off"])
        weights = [rise / sum(rises) for rise in rises] or [1.0]
        out = {
            "on_share": share,
            "peak_share": _weighed(peak_share, v, taus, weights),
            "trough_share": _weighed(trough_share, v, taus, weights),
        }
        if len(taus) == 1:
            out["time_constant"] = 1.0 * taus[0]
        if "rate" in v:
            out["ozone_rate"] = v["rate"] * per * share
        if rises and "ambient" in v:
            out["peak_temperature"] = v["ambient"] + out["peak_share"] * sum(rises)
            out["steady_temperature"] = v["ambient"] + sum(rises)
        if "flow" in v and timer.gas == "runs on":
            out["gas_wasted"] = v["flow"] * (1.0 - share)
        return out

    return calculation


def _weighed(share: Any, v: Mapping[str, Any], taus: list[Any], weights: list[Any]) -> Any:
    return sum(
        weight * share(on_time=v["on"], off_time=v["off"], time_constant=tau)
        for weight, tau in zip(weights, taus, strict=True)
    )


def _heated(timer: Timer) -> bool:
    """Whether all is known that a longest on-time rests on."""
    return bool(timer.bodies.rises) and timer.bodies.ambient is not None and timer.limit is not None


def _times(timer: Timer) -> dict[str, Any]:
    """Return the longest on-times, plain and to plan with."""
    if not _heated(timer):
        return {}

    def longest(off_time: Any = None, **v: Any) -> Any:
        return longest_on_time(
            allowed=_allowed(v),
            off_time=v["off"] if off_time is None else off_time,
            rises=_series(v, "rise"),
            time_constants=_series(v, "tau"),
        )

    best = {name: value.value for name, value in _inputs(timer).items()}
    plain, first = longest(**best), longest(off_time=FOR_EVER, **best)
    safe = _quantile(timer, longest, ODD)
    return {
        "longest_on": plain if isfinite(plain) else None,
        "safe_on": safe if safe < FOR_EVER else None,
        "first_on": first if isfinite(first) else None,
        "limit_reached": isfinite(plain),
    }


def _quantile(timer: Timer, time: Any, share: float) -> float:
    """Return a quantile of a time over the draws of what it rests on."""
    inputs = {
        name: value
        for name, value in _inputs(timer).items()
        if name in ("off", "ambient", "limit") or name.startswith(("tau_", "rise_"))
    }

    def within(**v: Any) -> Real:
        found: Real = np.minimum(time(**_possible(v)), FOR_EVER)
        return found

    drawn = monte_carlo(
        within,
        inputs,
        draws=DRAWS,
        correlation=timer.bodies.correlation,
    )
    return float(np.quantile(drawn.draws, share))


def _possible(v: Mapping[str, Any]) -> dict[str, Any]:
    """Return draws with rises and time constants kept above nought."""
    return {
        name: np.maximum(value, LEAST) if name.startswith(("tau_", "rise_")) else value
        for name, value in v.items()
    }


LEAST = 1e-3
"""Kelvin and seconds: a draw of a poor fit may fall below nought."""


def _patterns(timer: Timer) -> tuple[Pattern, ...]:
    """Return the shortest rest for each usual on-time, if any rest is needed.

    Of those that deliver most, the one with the fewest starts is marked.
    """
    if not _heated(timer):
        return ()
    bodies = timer.bodies
    assert bodies.ambient is not None
    rises = [one.value for one in bodies.rises]
    taus = [one.value for one in bodies.time_constants]
    rows = []
    for minutes in TRIED:
        on = minutes * MINUTE
        rest = _safe_rest(timer, on)
        if rest > LONGEST_REST * max(taus):
            continue
        off = ceil(rest / MINUTE - 1e-9) * MINUTE
        peak = peak_rise(on_time=on, off_time=off, rises=rises, time_constants=taus)
        rows.append((on, off, float(bodies.ambient.value + (peak if off else sum(rises)))))
    if not any(off for _, off, _ in rows):
        return ()
    most = max(rows, key=lambda row: (row[0] / (row[0] + row[1]), row[0]))
    return tuple(
        Pattern(
            on=on,
            off=off,
            peak_temperature=peak,
            ozone_rate=_mass_rate(timer) * on / (on + off) if timer.rate else None,
            starts_per_hour=1.0 / (on + off) if off else 0.0,
            best=(on, off, peak) == most,
        )
        for on, off, peak in rows
    )


def _safe_rest(timer: Timer, on: float) -> float:
    """Return the rest that suffices for all but one in forty draws; infinite if none does."""

    def rest(**v: Any) -> Any:
        return shortest_off_time(
            allowed=_allowed(v),
            on_time=on,
            rises=_series(v, "rise"),
            time_constants=_series(v, "tau"),
        )

    return _quantile(timer, rest, 1.0 - ODD)


def _allowed(v: Mapping[str, Any]) -> Any:
    """Return the allowed rise, hardly any where a draw allows none."""
    return np.maximum(v["limit"] - v["ambient"], LEAST)


def _mass_rate(timer: Timer) -> float:
    assert timer.rate is not None
    return timer.rate.value * (M_O3 if timer.rate.kind is Kind.AMOUNT_RATE else 1.0)


def _notes(timer: Timer, found: Propagated, times: Mapping[str, Any]) -> Iterator[Note]:
    if times.get("limit_reached") and timer.limit and "peak_temperature" in found:
        peak = found["peak_temperature"]
        if peak.value > timer.limit.value:
            yield Note(
                "duty-above-limit", "wrong", {"peak": peak.value, "limit": timer.limit.value}
            )
        elif peak.interval[1] > timer.limit.value:
            yield Note(
                "duty-near-limit",
                "doubt",
                {"high": peak.interval[1], "limit": timer.limit.value},
            )
    if times.get("limit_reached") is False:
        yield Note("duty-never-reached", "advice")
    yield Note("duty-timer", "doubt")
    yield from timer.bodies.notes
    slowest = max(one.value for one in timer.bodies.time_constants)
    yield Note("duty-settles", "advice", {"time": SETTLED * slowest})
    if timer.rate is not None:
        warmed = _warmed(timer)
        yield Note("duty-output-constant", "advice", {"warmed": float(warmed)})
    hours = size(Kind.TIME, "h") / (timer.on.value + timer.off.value)
    if timer.gas == "stops":
        yield Note("duty-suck-back", "doubt", {"times": hours})
    elif timer.gas is None:
        share = timer.off.value / (timer.on.value + timer.off.value)
        yield Note("duty-gas-unknown", "doubt", {"share": share, "times": hours})


def _warmed(timer: Timer) -> float:
    """Return the share of the continuous rise after one on-time from cold."""
    weights = [rise.value for rise in timer.bodies.rises] or [1.0]
    each = (
        weight * warmed_share(on_time=timer.on.value, time_constant=tau.value)
        for weight, tau in zip(weights, timer.bodies.time_constants, strict=True)
    )
    return float(sum(each) / sum(weights))


def _next(timer: Timer, times: Mapping[str, Any]) -> Iterator[Note]:
    if not _heated(timer):
        yield Note("duty-measure-rise", "advice")
    elif times.get("safe_on") is not None and timer.on.value > times["safe_on"]:
        yield Note("duty-shorten", "advice", {"on": times["safe_on"], "off": timer.off.value})
    if timer.bodies.time_constants[0].basis == "from digits":
        yield Note("duty-measure-time-constant", "advice")


def _unknowns(timer: Timer) -> Iterator[str]:
    known = {
        "output": timer.rate,
        "rise": timer.bodies.rises or None,
        "ambient": timer.bodies.ambient,
        "limit": timer.limit,
        "gas": timer.gas,
    }
    yield from (name for name, value in known.items() if value is None)
    if timer.gas == "runs on" and timer.flow is None:
        yield "flow"
