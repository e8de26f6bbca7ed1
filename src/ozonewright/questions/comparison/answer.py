"""Two settings: what else differed, whether the ratio is real, what would tell."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import isfinite
from statistics import fmean

from ozonewright.errors import OutOfBounds
from ozonewright.physics.generator.energy import oxygen_used
from ozonewright.questions.comparison.doubt import (
    Scatter,
    against,
    estimate,
    flow_parts,
    rate_parts,
    scatter_of,
    widened,
)
from ozonewright.questions.comparison.factors import EXPECTED, differing, not_compared
from ozonewright.questions.comparison.plan import alternated, planned
from ozonewright.questions.comparison.result import (
    Arm,
    ComparedRun,
    Comparison,
    Differing,
    Planned,
)
from ozonewright.questions.comparison.shared import FIELD_BLANK, Part
from ozonewright.references.constants import M_O3
from ozonewright.results import Note, Share
from ozonewright.uncertain import Estimate


def comparison(first: Arm, second: Arm, wanted: float | None = None) -> Comparison:
    """Return the ratio of two outputs, and everything that was not the same.

    Raises
    ------
    OutOfBounds
        An output is not above zero, so that no ratio can be made.
    """
    for arm in (first, second):
        if arm.level.value <= 0.0:
            raise OutOfBounds(
                "a ratio needs an output above zero",
                where=arm.name,
                got=f"{arm.level.value:g} kg/s",
                fix="Look for the mistake in the runs of this setting first.",
            )
    scatter = scatter_of(first, second)
    shared = [part for part in against(rate_parts(first), rate_parts(second)) if not part.own]
    bare = estimate(first.level.value / second.level.value, scatter, shared)
    ratio = widened(bare, _other_ratios(first, second))
    systematic = sum(part.size**2 for part in shared) ** 0.5
    plan = planned(scatter.one_run, systematic, wanted)
    differs = differing(first, second)
    return Comparison(
        first=first.name,
        second=second.name,
        first_runs=len(first.made),
        second_runs=len(second.made),
        first_rate=first.level,
        second_rate=second.level,
        ratio=ratio,
        dof=ratio.dof if isfinite(ratio.dof) else None,
        told_apart=not ratio.interval[0] <= 1.0 <= ratio.interval[1],
        surplus_ruled_out=first.surplus_ruled_out and second.surplus_ruled_out,
        ratio_per_oxygen=_ratio_per_oxygen(first, second, scatter, shared),
        scatter=scatter.one_run,
        scatter_from=scatter.basis,
        differs=differs,
        not_compared=not_compared(first, second),
        runs=tuple(_rows(first, second)),
        plan=plan,
        order=alternated(first.name, second.name, plan),
        budget=tuple(Share(input=s.input, share=s.share_percent / 100.0) for s in bare.budget),
        working=tuple(_working(first, second, scatter, bare)),
        notes=tuple(_notes(first, second, scatter, differs, ratio)),
        next=tuple(_next(first, second, differs, plan)),
        sources=tuple(_sources(scatter)),
        methods=("ratio of the outputs; Student t, Welch and Satterthwaite (JCGM 100, G.4)",),
    )


def _rows(first: Arm, second: Arm) -> Iterator[ComparedRun]:
    for arm in (first, second):
        for made in arm.made:
            yield ComparedRun(
                label=made.run.label or "",
                setting=arm.name,
                rate=made.rate.value,
                u_rate=made.rate.u,
            )


def _other_ratios(first: Arm, second: Arm) -> list[float]:
    """Return what the ratio is where an output is the slope of a line through its runs."""
    here, there = (
        [arm.level.value]
        + ([arm.slope] if arm.slope and arm.slope > 0.0 and not arm.surplus_ruled_out else [])
        for arm in (first, second)
    )
    return [one / other for one in here for other in there]


def _ratio_per_oxygen(
    first: Arm, second: Arm, scatter: Scatter, shared: Sequence[Part]
) -> Estimate | None:
    """Return the ratio of ozone over oxygen fed, where the flow of every run is known."""
    made = [_per_oxygen(arm) for arm in (first, second)]
    if None in made:
        return None
    one, other = (value for value in made if value is not None)
    flows = against(flow_parts(second), flow_parts(first))
    every = [part for part in against([*shared, *flows], ()) if not part.own]
    found = estimate(one / other, scatter, every)
    per_level = one / other / (first.level.value / second.level.value)
    return widened(found, [ratio * per_level for ratio in _other_ratios(first, second)])


def _per_oxygen(arm: Arm) -> float | None:
    flows = []
    for made in arm.made:
        feed = made.run.gas.feed
        if made.feed_flow is None or feed is None or "oxygen" not in feed.parts:
            return None
        flows.append(made.feed_flow.value * feed.parts["oxygen"].value)
    if min(flows) <= 0.0:
        return None
    return float(oxygen_used(ozone_rate=arm.level.value / M_O3, oxygen_flow=fmean(flows)))


def _working(first: Arm, second: Arm, scatter: Scatter, ratio: Estimate) -> Iterator[Note]:
    yield Note(
        "comparison-ratio",
        values={"first": first.level.value, "second": second.level.value, "ratio": ratio.value},
    )
    yield Note(
        f"comparison-scatter-{scatter.basis}",
        values={
            "scatter": scatter.one_run,
            "first": len(first.made),
            "second": len(second.made),
        },
    )
    yield Note(
        "comparison-interval",
        values={"u": ratio.u / ratio.value, "dof": ratio.dof, "k": ratio.k},
    )


def _confounding(differs: Sequence[Differing]) -> tuple[str, ...]:
    names = [one.factor for one in differs if one.beyond and one.factor not in EXPECTED]
    if "feed" in names:
        names = [name for name in names if name != "oxygen in the feed"]
    return tuple(names)


def _notes(
    first: Arm, second: Arm, scatter: Scatter, differs: Sequence[Differing], ratio: Estimate
) -> Iterator[Note]:
    names = _confounding(differs)
    if len(names) > 1:
        yield Note("comparison-several-differ", values={"names": names})
    elif names:
        yield Note("comparison-one-differs", "advice", {"name": names[0]})
    else:
        yield Note("comparison-none-differs", "advice")
    if scatter.basis == "assumed":
        yield Note("comparison-lone-runs", values={"scatter": scatter.one_run})
    yield from _surplus(first, second)
    yield from _order(first, second)
    blanks = [_has_field_blank(arm) for arm in (first, second)]
    if blanks[0] != blanks[1]:
        with_it = (first if blanks[0] else second).name
        yield Note("comparison-field-blank-one-side", values={"setting": with_it})
    if _per_oxygen(first) is None or _per_oxygen(second) is None:
        yield Note("comparison-oxygen-unknown", "advice")


def _surplus(first: Arm, second: Arm) -> Iterator[Note]:
    open_arms = [arm for arm in (first, second) if not arm.surplus_ruled_out]
    if not open_arms:
        return
    flat = tuple(arm.name for arm in open_arms if arm.slope is None)
    if flat:
        yield Note("comparison-surplus-unseen", values={"settings": flat})
    if len(flat) < len(open_arms):
        others = _other_ratios(first, second)
        yield Note("comparison-surplus", values={"least": min(others), "most": max(others)})


def _order(first: Arm, second: Arm) -> Iterator[Note]:
    here, there = (
        [made.run.started for made in arm.made if made.run.started] for arm in (first, second)
    )
    if len(here) < len(first.made) or len(there) < len(second.made):
        yield Note("comparison-order-unknown")
        return
    moments = [[one.replace(tzinfo=None) for one in side] for side in (here, there)]
    if max(moments[0]) < min(moments[1]) or max(moments[1]) < min(moments[0]):
        yield Note("comparison-not-alternated")


def _has_field_blank(arm: Arm) -> bool:
    return any(
        share.input.startswith(FIELD_BLANK) for made in arm.made for share in made.rate.budget
    )


def _next(
    first: Arm, second: Arm, differs: Sequence[Differing], plan: Sequence[Planned]
) -> Iterator[Note]:
    names = _confounding(differs)
    if len(names) > 1:
        yield Note("comparison-hold-still", "advice", {"names": names})
    middle = plan[len(plan) // 2]
    values = {"difference": middle.difference, "runs": middle.runs_per_arm}
    if middle.runs_per_arm is None:
        yield Note("comparison-out-of-reach", "advice", {"difference": middle.difference})
    else:
        yield Note("comparison-alternate", "advice", values)
    still_open = tuple(arm.name for arm in (first, second) if not arm.surplus_ruled_out)
    if still_open:
        yield Note("comparison-settle-surplus", "advice", {"settings": still_open})


def _sources(scatter: Scatter) -> Iterator[str]:
    yield "jcgm_100_2008"
    yield "r_power_t_test"
    if scatter.basis == "assumed":
        yield "gordon_1983"
