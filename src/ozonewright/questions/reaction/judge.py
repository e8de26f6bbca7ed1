"""What speaks against a plan, what is doubtful in it, what would be better."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ozonewright.questions.reaction.result import ReactionPlan, SiteRow
from ozonewright.records.reaction import Reaction
from ozonewright.references.constants import DRY_ICE_TEMPERATURE, M_KI
from ozonewright.references.limits import limit
from ozonewright.references.reagents import reagent
from ozonewright.references.solvents import solvent
from ozonewright.results import Level, Note
from ozonewright.uncertain import Estimate

ORDER: tuple[Level, ...] = ("wrong", "doubt", "advice")
ACIDS = ("acetic acid", "propionic acid")


def judge(
    plan: ReactionPlan, reaction: Reaction, *, notes: tuple[Note, ...], following: tuple[Note, ...]
) -> ReactionPlan:
    """Return the plan with its notes, the gravest first, and the steps that follow."""
    found = [
        *notes,
        *_dose(plan, reaction),
        *_liquid(plan, reaction),
        *_work_up(plan, reaction),
        *_tail(plan, reaction),
        *_next_site(plan),
    ]
    found.sort(key=lambda note: ORDER.index(note.level))
    return replace(plan, notes=tuple(found), next=following)


def _dose(plan: ReactionPlan, reaction: Reaction) -> Iterator[Note]:
    if plan.output is None:
        yield Note("reaction-output-unknown", "wrong")
    elif plan.uptake is None and plan.shortest is not None and reaction.uptake is None:
        yield Note("reaction-uptake-unknown", "wrong", {"shortest": plan.shortest})
    if plan.output_from.startswith("run"):
        yield Note("reaction-output-of-run", "doubt", {"run": plan.output_from[4:]})
    if plan.uptake_from.startswith("run"):
        yield Note("reaction-uptake-of-run", "doubt", {"run": plan.uptake_from[4:]})
    if plan.uptake_from.startswith("model"):
        yield Note("reaction-uptake-of-model", "doubt", {"rig": plan.uptake_from[6:]})
    if plan.uptake_from.startswith("tail"):
        yield Note("reaction-uptake-of-tail", "advice")
    if plan.simulated is not None and plan.look_by_rule and plan.stop_by_rule:
        yield Note(
            "reaction-simulated", "advice",
            {"rig": plan.simulated, "look": plan.look_by_rule, "stop": plan.stop_by_rule},
        )  # fmt: skip
    if (
        not plan.uptake_from.startswith("model")
        and isinstance(plan.uptake, Estimate)
        and isinstance(plan.modelled_uptake, Estimate)
    ):
        values = {"stated": plan.uptake.value, "modelled": plan.modelled_uptake.value}
        yield Note("reaction-uptake-corrects", "advice", values)
    if plan.left_at_stop:
        yield Note("reaction-stop-before-sure", "doubt", {"left": plan.left_at_stop})
    digits = [
        one.name for one in (reaction.output, reaction.uptake)
        if one is not None and one.basis == "from digits"
    ]  # fmt: skip
    if digits:
        yield Note("reaction-u-from-digits", "doubt", {"names": " and ".join(digits)})
    if any(one.mass and not one.purity for one in reaction.substrates):
        yield Note("reaction-purity-unknown", "advice")
    if reaction.timer_on is not None:
        yield Note("reaction-timer", "wrong" if reaction.solvent else "doubt")
    elif reaction.start_loss is None and plan.on_time is not None:
        yield Note("reaction-start-unknown", "advice")


def _liquid(plan: ReactionPlan, reaction: Reaction) -> Iterator[Note]:
    cold = reaction.temperature.value if reaction.temperature else None
    parts = [solvent(name) for name, _ in reaction.solvent]
    for part in parts:
        if part.reacts == "yes":
            yield Note("reaction-solvent-reacts", "wrong", {"solvent": part.name})
        elif part.reacts == "slowly":
            yield Note("reaction-solvent-slowly", "advice", {"solvent": part.name})
        if len(parts) > 1 and cold is not None and cold < part.melting_point:
            yield Note(
                "reaction-part-freezes", "wrong",
                {"solvent": part.name, "melting": part.melting_point},
            )  # fmt: skip
    if plan.peroxide == "alkoxy hydroperoxide":
        yield Note("reaction-hydroperoxide", "advice")
    if cold is not None and cold < DRY_ICE_TEMPERATURE:
        yield Note("reaction-colder-than-dry-ice", "doubt")
    if plan.concentration and plan.concentration > limit("SUBSTRATE_HIGH").value:
        yield Note(
            "reaction-concentrated", "doubt",
            {"concentration": plan.concentration, "volume": plan.advised_volume},
        )  # fmt: skip
    rise = plan.adiabatic_rise
    if isinstance(rise, float):
        boils = min((part.boiling_point for part in parts), default=None)
        if cold is not None and boils is not None and cold + rise > boils:
            yield Note("reaction-would-boil", "wrong", {"rise": rise, "boiling": boils})
        elif rise > limit("RISE_HIGH").value:
            yield Note("reaction-rise", "doubt", {"rise": rise})
    if reaction.heat is None:
        yield Note("reaction-heat-from-memory", "advice")


def _work_up(plan: ReactionPlan, reaction: Reaction) -> Iterator[Note]:
    if not plan.quench:
        yield Note("reaction-no-quench", "wrong", {"peroxide": plan.peroxide or "peroxide"})
    names = {name for name, _ in reaction.solvent}
    for row in plan.quench:
        known = reagent(row.reagent)
        values = {"reagent": row.reagent, "low": known.low, "high": known.high}
        if row.equivalents < known.low:
            yield Note("reaction-quench-low", "wrong", values)
        elif row.equivalents > known.high:
            yield Note("reaction-quench-high", "advice", values)
        if "acetone" in names and (known.name == "hydrogen peroxide" or names & set(ACIDS)):
            yield Note("reaction-acetone-peroxide", "wrong")
        if known.name == "zinc" and not names & set(ACIDS):
            yield Note("reaction-zinc-acid", "advice", {"amount": 2.0 * (row.amount or 0.0)})


def _tail(plan: ReactionPlan, reaction: Reaction) -> Iterator[Note]:
    if plan.tail_iodide is None:
        return
    tail = reaction.tail
    there = None
    if tail.iodide_mass is not None:
        there = tail.iodide_mass.value / M_KI
    elif tail.iodide_concentration is not None and tail.volume is not None:
        there = tail.iodide_concentration.value * tail.volume.value / M_KI
    if there is None:
        yield Note("reaction-tail-unknown", "doubt", {"iodide": plan.tail_iodide * M_KI})
    elif there < plan.tail_iodide:
        yield Note(
            "reaction-tail-small", "wrong",
            {"there": there * M_KI, "iodide": plan.tail_iodide * M_KI},
        )  # fmt: skip


def _next_site(plan: ReactionPlan) -> Iterator[Note]:
    """Yield what ozone takes next, once the wanted sites are gone, and what that costs."""
    if plan.loss_per_minute is None:
        return
    after = _after(plan.sites)
    if after is None:
        yield Note("reaction-nothing-next", "advice", {"most": plan.loss_per_minute})
        return
    yield Note(
        "reaction-next-site",
        "doubt",
        {"site": after.kind, "most": plan.loss_per_minute, "evidence": after.evidence},
    )


def _after(sites: tuple[SiteRow, ...]) -> SiteRow | None:
    return next((one for one in sites if not one.attacked), None)
