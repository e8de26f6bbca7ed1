"""The lowest flow that keeps the output, from runs at several flows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from statistics import fmean, stdev

from ozonewright.questions.gas_use.result import FlowRow
from ozonewright.references.limits import limit
from ozonewright.results import Note
from ozonewright.units import Kind, size


@dataclass(frozen=True, slots=True)
class FlowPoint:
    """One run: dry feed [mol/s], output and its uncertainty [kg/s], and what was fed."""

    label: str
    feed: str
    flow: float
    rate: float
    u_rate: float


@dataclass(frozen=True, slots=True)
class Level:
    """The runs at one flow."""

    flow: float
    rate: float
    u: float
    runs: int


def most_flows(points: Sequence[FlowPoint]) -> tuple[str, list[Level]]:
    """Return the feed with the most different flows, and the runs at each, the lowest first."""
    by_feed: dict[str, list[FlowPoint]] = {}
    for point in points:
        by_feed.setdefault(point.feed, []).append(point)
    found = {feed: _levels(group) for feed, group in by_feed.items()}
    if not found:
        return "", []
    feed = max(found, key=lambda name: len(found[name]))
    return feed, found[feed]


def _levels(points: Sequence[FlowPoint]) -> list[Level]:
    groups: list[list[FlowPoint]] = []
    apart = 1.0 + limit("SAME_FLOW").value
    for point in sorted(points, key=lambda one: one.flow):
        if groups and point.flow <= apart * groups[-1][0].flow:
            groups[-1].append(point)
        else:
            groups.append([point])
    return [_level(group) for group in groups]


def _level(group: Sequence[FlowPoint]) -> Level:
    rates = [point.rate for point in group]
    readings = max(point.u_rate for point in group)
    scatter = stdev(rates) / len(rates) ** 0.5 if len(rates) > 1 else 0.0
    return Level(
        flow=fmean(point.flow for point in group),
        rate=fmean(rates),
        u=max(readings, scatter),
        runs=len(group),
    )


def flow_rows(
    levels: Sequence[Level], usable: float, price_per_amount: float | None
) -> Iterator[FlowRow]:
    """Yield each flow with its share of the best output, and what it makes of the cylinder."""
    best = max(level.rate for level in levels)
    for level in levels:
        gram = None
        if price_per_amount is not None and level.rate > 0.0:
            gram = price_per_amount * level.flow / level.rate
        yield FlowRow(
            flow=level.flow,
            runs=level.runs,
            rate=level.rate,
            u_rate=level.u,
            share=level.rate / best if best > 0.0 else None,
            time=usable / level.flow,
            per_gram=gram,
        )


def lowest_flow(levels: Sequence[Level]) -> float | None:
    """Return the lowest measured flow from which on upwards no flow loses too much output."""
    best = max(level.rate for level in levels)
    kept = limit("OUTPUT_KEPT").value
    found = None
    for level in reversed(levels):
        if level.rate < kept * best:
            break
        found = level.flow
    return found


def flow_notes(feed: str, levels: Sequence[Level]) -> Iterator[Note]:
    """Yield what the flows say and what they can't."""
    best = max(levels, key=lambda level: level.rate)
    kept = limit("OUTPUT_KEPT").value
    found = lowest_flow(levels)
    if found is None:
        # the best output lies at a lower flow than one that loses more than a tenth
        yield Note("gas-use-less-is-more", values={"flow": best.flow, "feed": feed})
        return
    place = next(i for i, level in enumerate(levels) if level.flow == found)
    yield Note("gas-use-lowest-flow", "advice", {"flow": found, "feed": feed,
               "share": levels[place].rate / best.rate, "kept": kept,
               "runs": levels[place].runs})  # fmt: skip
    if place == 0:
        yield Note("gas-use-lower-untried", "advice", {"flow": found})
    spread = (levels[place].u ** 2 + best.u**2) ** 0.5 / best.rate
    if levels[place] is not best and levels[place].rate / best.rate - 2.0 * spread < kept:
        yield Note("gas-use-flow-not-determined", values={"spread": spread, "flow": found})


def half_flow(flow: float) -> float:
    """Return a flow to try next, in whole 0.05 NL/min. [mol/s]"""
    step = 0.05 * size(Kind.NORMAL_FLOW, "NL/min")
    return max(round(flow / 2.0 / step), 1) * step
