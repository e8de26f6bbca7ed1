"""How sure the ratio of two outputs is: scatter of the runs, and the doubts that do not cancel."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import inf
from statistics import fmean, stdev

from ozonewright.physics.assay.arms import pooled_scatter, ratio_off
from ozonewright.questions.comparison.result import Arm
from ozonewright.questions.comparison.shared import Part, combined, parts
from ozonewright.references.limits import limit
from ozonewright.uncertain import Estimate, Measured, coverage_factor, propagate
from ozonewright.units import Kind

COVERAGE = 0.95
ENOUGH_RUNS = 3
"""From so many runs on, a setting's own scatter stands in place of its readings' uncertainty."""


@dataclass(frozen=True, slots=True)
class Scatter:
    """How one run scatters, and what that brings to the logarithm of the ratio."""

    one_run: float
    """Standard deviation of one run over its mean. [1]"""
    basis: str
    """``own``, ``pooled``, ``assumed``, or ``slope`` where an output is one."""
    inputs: tuple[Measured, ...]


def scatter_of(first: Arm, second: Arm) -> Scatter:
    """Return the scatter: each setting's own, one for both, or the usual one of the method."""
    arms = (first, second)
    counts = [len(arm.made) for arm in arms]
    relative = [_relative(arm) for arm in arms]
    if any(arm.by_slope is not None for arm in arms):
        return _with_a_slope(arms, relative)
    if max(counts) < 2:
        usual = limit("REPEAT_SCATTER_HIGH").value
        readings = sum(_readings(arm) ** 2 for arm in arms) ** 0.5
        u = (readings**2 + 2.0 * usual**2) ** 0.5
        return Scatter(usual, "assumed", (_scatter("usual scatter of the method", u),))
    pooled = pooled_scatter(scatters=relative, counts=counts)
    if min(counts) >= ENOUGH_RUNS:
        own = tuple(_own(arm, each) for arm, each in zip(arms, relative, strict=True))
        return Scatter(pooled, "own", own)
    dof = sum(counts) - 2
    by_runs = pooled * sum(1.0 / count for count in counts) ** 0.5
    readings = sum(_readings(arm) ** 2 for arm in arms) ** 0.5
    u, dof_of_u = (by_runs, float(dof)) if by_runs > readings else (readings, inf)
    return Scatter(pooled, "pooled", (_scatter("scatter of the runs", u, dof_of_u),))


def _with_a_slope(arms: Sequence[Arm], relative: Sequence[float]) -> Scatter:
    """Return the uncertainty of the slope for one setting, the scatter of the runs for another."""
    inputs, scatters = [], []
    for arm, own in zip(arms, relative, strict=True):
        if arm.by_slope is not None:
            u, count = arm.by_slope.u / arm.by_slope.value, len(arm.made)
            inputs.append(_scatter(f"slope of {arm.name}", u, max(arm.by_slope.dof, 1.0)))
            # As if a run of it scattered so that its mean were as sure as the slope is.
            scatters.append(u * count**0.5)
        else:
            one = own if len(arm.made) > 1 else limit("REPEAT_SCATTER_HIGH").value
            inputs.append(_few(arm, one))
            scatters.append(one)
    return Scatter(max(scatters), "slope", tuple(inputs))


def _few(arm: Arm, relative: float) -> Measured:
    """Return the scatter of one setting by itself, which counts for no less than its readings."""
    count = len(arm.made)
    if count >= ENOUGH_RUNS:
        return _own(arm, relative)
    u, dof = relative / count**0.5, float(count - 1) if count > 1 else inf
    readings = _readings(arm)
    name = f"scatter of the runs, {arm.name}"
    return _scatter(name, u, dof) if u > readings else _scatter(name, readings)


def _relative(arm: Arm) -> float:
    rates = [made.rate.value for made in arm.made]
    return stdev(rates) / fmean(rates) if len(rates) > 1 else 0.0


def _own(arm: Arm, relative: float) -> Measured:
    count = len(arm.made)
    name = f"scatter of the runs, {arm.name}"
    if relative == 0.0:
        return _scatter(name, _readings(arm))
    return _scatter(name, relative / count**0.5, count - 1.0)


def _scatter(name: str, u: float, dof: float = inf) -> Measured:
    return Measured(0.0, u, name, Kind.DIMENSIONLESS, dof=dof, basis="scatter")


def _readings(arm: Arm) -> float:
    """Relative uncertainty of the mean from the readings of its runs alone."""
    return float(sum(part.size**2 for part in rate_parts(arm) if part.own) ** 0.5)


def rate_parts(arm: Arm) -> list[Part]:
    """Return what each reading brings to the mean output of a setting, relative to it."""
    return _mean(arm, [list(parts(arm, made, made.rate)) for made in arm.made])


def flow_parts(arm: Arm) -> list[Part]:
    """Return what each reading brings to the mean oxygen fed, relative to it."""
    return _mean(arm, [list(_oxygen_parts(arm, place)) for place in range(len(arm.made))])


def _oxygen_parts(arm: Arm, place: int) -> Iterator[Part]:
    made = arm.made[place]
    assert made.feed_flow is not None and made.run.gas.feed is not None  # noqa: PT018
    yield from parts(arm, made, made.feed_flow)
    oxygen = made.run.gas.feed.parts["oxygen"]
    if oxygen.u > 0.0:
        identity = ("oxygen fed", made.run.gas.feed.name, oxygen)
        yield Part(oxygen.name, identity, oxygen.u / oxygen.value)


def _mean(arm: Arm, runs: Sequence[list[Part]]) -> list[Part]:
    count = len(arm.made)
    return combined(replace(part, size=part.size / count) for run in runs for part in run)


def against(plus: Iterable[Part], minus: Iterable[Part]) -> list[Part]:
    """Return the parts of a difference of logarithms; what both sides share cancels."""
    return combined([*plus, *(replace(part, size=-part.size) for part in minus)])


def estimate(ratio: float, scatter: Scatter, shared: Sequence[Part]) -> Estimate:
    """Return the ratio with its interval, which is symmetrical in the logarithm."""
    inputs = {f"s{place}": one for place, one in enumerate(scatter.inputs)}
    for place, part in enumerate(shared):
        if part.size != 0.0:
            name = f"{part.name} ({place})"
            inputs[f"p{place}"] = Measured(0.0, abs(part.size), name, Kind.DIMENSIONLESS)
    found: Estimate = propagate(lambda **values: sum(values.values()), inputs, coverage=COVERAGE)
    k = coverage_factor(COVERAGE, found.dof)
    low, high = (float(ratio_off(ratio=ratio, deviation=side * k * found.u)) for side in (-1, 1))
    budget = tuple(replace(share, input=share.input.partition(" (")[0]) for share in found.budget)
    return Estimate(
        value=ratio,
        u=ratio * found.u,
        dof=found.dof,
        interval=(low, high),
        k=k,
        method="first order",
        budget=budget,
    )


def widened(found: Estimate, others: Sequence[float]) -> Estimate:
    """Return the ratio with an interval that holds what it may be besides; u grows with it."""
    low, high = min(found.interval[0], *others), max(found.interval[1], *others)
    if (low, high) == found.interval:
        return found
    u = max(high - found.value, found.value - low) / found.k
    return replace(found, interval=(low, high), u=max(found.u, u))
