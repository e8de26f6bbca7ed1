"""From a timer's pattern and the tube's time constant to warmth and delivery."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import ceil, isfinite
from typing import Any, Literal

import numpy as np

from ozonewright.errors import Inconsistent
from ozonewright.physics.generator.duty import (
    longest_on_time,
    peak_share,
    shortest_off_time,
    trough_share,
    warmed_share,
)
from ozonewright.questions.duty.result import Duty, Pattern
from ozonewright.references.constants import M_O3
from ozonewright.results import Note
from ozonewright.uncertain import Measured, Propagated, monte_carlo, propagate
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
    time_constant: Measured
    rate: Measured | None = None
    """Ozone while the discharge is on. [kg/s or mol/s]"""
    rise: Measured | None = None
    """Over the ambient, if it ran on. [K]"""
    ambient: Measured | None = None
    limit: Measured | None = None
    flow: Measured | None = None
    """Gas, as a normal flow. [mol/s]"""
    gas: Literal["runs on", "stops"] | None = None
    """Whether the gas runs on while the discharge is off."""


def duty(timer: Timer) -> Duty:
    """Return what the pattern does."""
    if timer.limit and timer.ambient and timer.limit.value <= timer.ambient.value:
        raise Inconsistent(
            "the limit is not above the ambient",
            where="limit",
            got=f"{number(timer.limit.value, Kind.TEMPERATURE, '°C'):.4g} °C",
            fix='Type the highest temperature the tube may have, such as "70 °C".',
        )
    found = propagate(_calculation(timer), _inputs(timer))
    times = _times(timer)
    notes = tuple(_notes(timer, found, times))
    return Duty(
        **{name: found[name] for name in found},
        **times,
        limit=timer.limit.value if timer.limit else None,
        ambient=timer.ambient.value if timer.ambient else None,
        on=timer.on.value,
        off=timer.off.value,
        starts_per_hour=1.0 / (timer.on.value + timer.off.value),
        patterns=_patterns(timer),
        notes=notes,
        next=tuple(_next(timer, times)),
        unknowns=tuple(_unknowns(timer)),
        sources=("incropera_2007", "stout_undated"),
        methods=("one body of one time constant",),
    )


def _inputs(timer: Timer) -> dict[str, Measured]:
    every = {
        "on": timer.on,
        "off": timer.off,
        "tau": timer.time_constant,
        "rate": timer.rate,
        "rise": timer.rise,
        "ambient": timer.ambient,
        "limit": timer.limit,
        "flow": timer.flow,
    }
    return {name: value for name, value in every.items() if value is not None}


def _calculation(timer: Timer) -> Any:
    per = M_O3 if timer.rate is not None and timer.rate.kind is Kind.AMOUNT_RATE else 1.0

    def calculation(**v: Any) -> Mapping[str, Any]:
        pattern = {"on_time": v["on"], "off_time": v["off"], "time_constant": v["tau"]}
        share = v["on"] / (v["on"] + v["off"])
        out = {
            "on_share": share,
            "peak_share": peak_share(**pattern),
            "trough_share": trough_share(**pattern),
            "time_constant": 1.0 * v["tau"],
        }
        if "rate" in v:
            out["ozone_rate"] = v["rate"] * per * share
        if "rise" in v and "ambient" in v:
            out["peak_temperature"] = v["ambient"] + out["peak_share"] * v["rise"]
            out["steady_temperature"] = v["ambient"] + v["rise"]
        if "flow" in v and timer.gas == "runs on":
            out["gas_wasted"] = v["flow"] * (1.0 - share)
        return out

    return calculation


def _times(timer: Timer) -> dict[str, Any]:
    """Return the longest on-times, plain and to plan with."""
    if timer.rise is None or timer.ambient is None or timer.limit is None:
        return {}

    def longest(**v: Any) -> Any:
        return longest_on_time(share=_allowed(v), off_time=v["off"], time_constant=v["tau"])

    inputs = _inputs(timer)
    inputs = {name: inputs[name] for name in ("off", "tau", "rise", "ambient", "limit")}
    plain = longest(**{name: value.value for name, value in inputs.items()})
    drawn = monte_carlo(lambda **v: np.minimum(longest(**v), FOR_EVER), inputs, draws=DRAWS)
    safe = float(np.quantile(drawn.draws, ODD))
    first = longest_on_time(
        share=(timer.limit.value - timer.ambient.value) / timer.rise.value,
        off_time=FOR_EVER,
        time_constant=timer.time_constant.value,
    )
    return {
        "longest_on": plain if isfinite(plain) else None,
        "safe_on": safe if safe < FOR_EVER else None,
        "first_on": first if isfinite(first) else None,
        "limit_reached": isfinite(plain),
    }


def _patterns(timer: Timer) -> tuple[Pattern, ...]:
    """Return the shortest rest for each usual on-time, if any rest is needed.

    Of those that deliver most, the one with the fewest starts is marked.
    """
    if timer.rise is None or timer.ambient is None or timer.limit is None:
        return ()
    tau, rise, ambient = timer.time_constant.value, timer.rise.value, timer.ambient.value
    rows = []
    for minutes in TRIED:
        on = minutes * MINUTE
        rest = _safe_rest(timer, on)
        if rest > LONGEST_REST * tau:
            continue
        off = ceil(rest / MINUTE - 1e-9) * MINUTE
        peak = peak_share(on_time=on, off_time=off, time_constant=tau) if off else 1.0
        rows.append((on, off, float(ambient + peak * rise)))
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
        found = shortest_off_time(share=_allowed(v), on_time=on, time_constant=v["tau"])
        return np.minimum(found, FOR_EVER)

    inputs = {name: _inputs(timer)[name] for name in ("tau", "rise", "ambient", "limit")}
    return float(np.quantile(monte_carlo(rest, inputs, draws=DRAWS).draws, 1.0 - ODD))


def _allowed(v: Mapping[str, Any]) -> Any:
    """Return the allowed rise over the continuous one, hardly any where a draw allows none."""
    return np.maximum((v["limit"] - v["ambient"]) / v["rise"], 1e-9)


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
    yield Note("duty-settles", "advice", {"time": SETTLED * timer.time_constant.value})
    if timer.rate is not None:
        warmed = warmed_share(on_time=timer.on.value, time_constant=timer.time_constant.value)
        yield Note("duty-output-constant", "advice", {"warmed": float(warmed)})
    hours = size(Kind.TIME, "h") / (timer.on.value + timer.off.value)
    if timer.gas == "stops":
        yield Note("duty-suck-back", "doubt", {"times": hours})
    elif timer.gas is None:
        share = timer.off.value / (timer.on.value + timer.off.value)
        yield Note("duty-gas-unknown", "doubt", {"share": share, "times": hours})


def _next(timer: Timer, times: Mapping[str, Any]) -> Iterator[Note]:
    if timer.limit is None or timer.rise is None or timer.ambient is None:
        yield Note("duty-measure-rise", "advice")
    elif times.get("safe_on") is not None and timer.on.value > times["safe_on"]:
        yield Note("duty-shorten", "advice", {"on": times["safe_on"], "off": timer.off.value})
    if timer.time_constant.basis == "from digits":
        yield Note("duty-measure-time-constant", "advice")


def _unknowns(timer: Timer) -> Iterator[str]:
    for name in ("rate", "rise", "ambient", "limit", "gas"):
        if getattr(timer, name) is None:
            yield {"rate": "output"}.get(name, name)
    if timer.gas == "runs on" and timer.flow is None:
        yield "flow"
