"""What the simulated run says in a plan, beside the rules of thumb."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.reaction.result import ReactionPlan
from ozonewright.show.numbers import percent, quantity
from ozonewright.show.signs import between
from ozonewright.units import Kind


def simulated_lines(plan: ReactionPlan) -> Iterator[tuple[str, str]]:
    """Yield the figures of the simulated run as words and value; none where there is no run."""
    if plan.simulated is None:
        return
    yield "99 % converted", f"{between(plan.simulated_on_time, Kind.TIME, 'min')} min"
    look, stop = (_minutes(one) for one in (plan.look_from, plan.stop_by))
    yield "look from", f"{look}; rule of thumb {_minutes(plan.look_by_rule)}"
    mean = percent(plan.product_at_stop or 0.0)
    yield "stop by", f"{stop}, mean product {mean}; rule of thumb {_minutes(plan.stop_by_rule)}"
    most = percent(plan.loss_per_minute or 0.0)
    yield "a minute too long", f"{between(plan.late, Kind.SHARE, '%')} % of product; most {most}"
    yield "uptake, model alone", f"{between(plan.modelled_uptake, Kind.SHARE, '%')} %"


def _minutes(seconds: float | None) -> str:
    return quantity(seconds or 0.0, Kind.TIME, "min", figures=2)
