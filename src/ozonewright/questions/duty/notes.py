"""What makes an answer about a timer doubtful, what to do next, what nobody stated."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from ozonewright.physics.generator.duty import warmed_share
from ozonewright.questions.duty.timer import Timer
from ozonewright.results import Note
from ozonewright.uncertain import Propagated
from ozonewright.units import Kind, size

SETTLED = 4.0
"""Time constants after which a pattern repeats itself within 2 %."""


def notes_of(timer: Timer, found: Propagated, times: Mapping[str, Any]) -> Iterator[Note]:
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
    yield from _output_notes(timer)
    hours = size(Kind.TIME, "h") / (timer.on.value + timer.off.value)
    if timer.gas == "stops":
        yield Note("duty-suck-back", "doubt", {"times": hours})
    elif timer.gas is None:
        share = timer.off.value / (timer.on.value + timer.off.value)
        yield Note("duty-gas-unknown", "doubt", {"share": share, "times": hours})


def _output_notes(timer: Timer) -> Iterator[Note]:
    """Yield what is to be said of the output while the tube warms."""
    if timer.falling is not None and timer.rate is not None:
        if not timer.falls:
            yield Note("duty-warmth-unknown", "doubt")
        elif timer.falling.of == "typed":
            coefficient = timer.falling.coefficient.value
            yield Note("duty-output-typed-slope", "advice", {"coefficient": coefficient})
    if timer.rate is not None and not timer.falls:
        yield Note("duty-output-constant", "advice", {"warmed": _warmed(timer)})
    yield from timer.notes


def _warmed(timer: Timer) -> float:
    """Return the share of the continuous rise after one on-time from cold."""
    weights = [rise.value for rise in timer.bodies.rises] or [1.0]
    each = (
        weight * warmed_share(on_time=timer.on.value, time_constant=tau.value)
        for weight, tau in zip(weights, timer.bodies.time_constants, strict=True)
    )
    return float(sum(each) / sum(weights))


def next_of(timer: Timer, times: Mapping[str, Any]) -> Iterator[Note]:
    if not timer.heated:
        yield Note("duty-measure-rise", "advice")
    elif times.get("safe_on") is not None and timer.on.value > times["safe_on"]:
        yield Note("duty-shorten", "advice", {"on": times["safe_on"], "off": timer.off.value})
    if timer.bodies.time_constants[0].basis == "from digits":
        yield Note("duty-measure-time-constant", "advice")


def unknowns_of(timer: Timer) -> Iterator[str]:
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
