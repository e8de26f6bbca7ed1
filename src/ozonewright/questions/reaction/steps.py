"""The acts at the bench in order, each with its caution: from the flask to the last test."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.reaction.result import QuenchRow, ReactionPlan
from ozonewright.records.reaction import Reaction
from ozonewright.references.limits import limit
from ozonewright.results import Note
from ozonewright.uncertain import Estimate

SMELLS = "dimethyl sulfide"
"""What smells, and is destroyed in cold dilute hypochlorite."""
LEAVES_PEROXIDE = "hydrogen peroxide"
"""A quench that is a peroxide itself."""


def steps(plan: ReactionPlan, reaction: Reaction) -> Iterator[Note]:
    """Yield the acts, first to last."""
    yield from _before(plan, reaction)
    yield from _during(plan)
    yield from _purge(plan)
    for row in plan.quench:
        yield _quench(row, plan)
        if row.reagent == LEAVES_PEROXIDE:
            yield _act("peroxide-left")
    yield from _after(plan)


def _before(plan: ReactionPlan, reaction: Reaction) -> Iterator[Note]:
    amount = sum(row.amount or 0.0 for row in plan.substrates)
    mass = sum((row.amount or 0.0) * (row.molar_mass or 0.0) for row in plan.substrates)
    yield _act(
        "charge",
        amount=amount,
        mass=mass,
        volume=reaction.volume.value if reaction.volume else None,
        solvent=" and ".join(name for name, _ in reaction.solvent) or None,
    )
    if reaction.temperature is not None:
        yield _act(
            "cool",
            temperature=reaction.temperature.value,
            ice=plan.dry_ice,
            down=plan.dry_ice_to_cool,
        )
    if plan.tail_iodide is not None:
        yield _act("tail", mass=plan.tail[-1].potassium_iodide)


def _during(plan: ReactionPlan) -> Iterator[Note]:
    yield _act("gas")
    if plan.look_from is None:
        yield _act("by-end-point")
        return
    watched = next((row.signal for row in plan.signals if row.watched), None)
    yield _act(
        "look", look_from=plan.look_from, signal=watched, surely=plan.stop_by is not None,
        early=_early(plan, watched),
    )  # fmt: skip
    if plan.stop_by is not None:
        yield _act("stop", stop_by=plan.stop_by, run_on=limit("RUN_ON").value)


def _early(plan: ReactionPlan, watched: str | None) -> float | None:
    """Return how long before the end the watched sign turns by the simulated run, if it does."""
    sign = next((one for one in plan.signs if one.sign == (watched or "off-gas")), None)
    if sign is None or not isinstance(sign.after_done, Estimate) or sign.after_done.value >= 0.0:
        return None
    return -sign.after_done.value


def _purge(plan: ReactionPlan) -> Iterator[Note]:
    grave = [row for row in plan.quench if row.hydrogen or row.low_flash]
    if grave:
        yield _act("purge-first", reagents=" and ".join(row.reagent for row in grave))
    else:
        yield _act("purge")


def _quench(row: QuenchRow, plan: ReactionPlan) -> Note:
    return _act(
        "quench",
        reagent=row.reagent,
        amount=row.amount,
        mass=row.mass,
        volume=row.volume,
        hydrogen=row.hydrogen,
        waiting=row.waiting,
        peroxide=plan.peroxide or "peroxide",
    )


def _after(plan: ReactionPlan) -> Iterator[Note]:
    yield _act("test", apart=limit("NEGATIVES_APART").value)
    for row in plan.quench:
        yield _act("by-product", by_product=row.by_product, mass=row.by_product_mass)
        if row.reagent == SMELLS:
            yield _act("smell")
    yield _act("evaporate")


def _act(name: str, **values: object) -> Note:
    return Note(f"reaction-step-{name}", "advice", values)
