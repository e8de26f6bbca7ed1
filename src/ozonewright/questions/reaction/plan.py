"""The plan of a reaction: when to look, when to stop, what is needed and what comes out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from ozonewright.physics.chemistry.dosing import clock_time, dosing_time, ozone_past, tail_iodide
from ozonewright.physics.chemistry.heat import (
    adiabatic_rise,
    dry_ice_for_heat,
    energy_per_mass,
    liquid_heat,
)
from ozonewright.questions.reaction.dose import Dose, amount_of, dose
from ozonewright.questions.reaction.gaps import unknowns
from ozonewright.questions.reaction.given import Course, Feed, Structure, Supply, Taken
from ozonewright.questions.reaction.judge import judge
from ozonewright.questions.reaction.result import (
    Number,
    PeroxideRow,
    ReactionPlan,
    SignalRow,
    SiteRow,
    SubstrateRow,
    TailRow,
)
from ozonewright.questions.reaction.steps import steps
from ozonewright.questions.reaction.yields import products_of, quench_of
from ozonewright.records.reaction import Reaction
from ozonewright.references.constants import (
    M_KI,
    M_O3,
    OZONIDE_ENERGY_INTERNAL,
    OZONIDE_ENERGY_TERMINAL,
)
from ozonewright.references.limits import limit
from ozonewright.references.solvents import solvent
from ozonewright.results import Note
from ozonewright.uncertain import Estimate, propagate
from ozonewright.units import Kind, size

SIGNALS = ("blue", "dye", "off-gas", "tail titre")
MINUTE = size(Kind.TIME, "min")


@dataclass(frozen=True, slots=True)
class Marks:
    """On-time in SI, and its marks."""

    on_time: Estimate | None
    look_from: float | None
    stop_by: float | None
    shortest: float | None
    clock: float | None
    left: float | None


def plan(
    reaction: Reaction,
    structures: Sequence[Structure],
    supply: Supply,
    taken: Taken,
    feed: Feed = Feed(),  # noqa: B008  # frozen, never changed
    course: Course | None = None,
    remarks: tuple[Note, ...] = (),
) -> ReactionPlan:
    """Return the plan of a reaction from its record and the answers of other questions.

    With a course, what a simulated run says stands in place of the rules of thumb.
    """
    found = dose(reaction, structures, supply, taken, feed)
    ruled = _marks(reaction, supply, found)
    marks = ruled if course is None else _simulated(reaction, ruled, found, course, taken.way)
    demand = found.value("demand") or 0.0
    liquid = _liquid(reaction)
    rise = _rise(found, liquid)
    quench = tuple(quench_of(one, demand) for one in reaction.quenches)
    peroxides = _peroxides(reaction, structures)
    tail = _tail(found, marks)
    rows = _substrates(reaction, structures)
    draft = ReactionPlan(
        label=reaction.label,
        work_up=reaction.work_up,
        substrate=rows[0],
        substrates=rows,
        sites=tuple(_sites(structures)),
        demand=found.get("demand"),
        output=_in_mass(supply),
        output_amount=found.get("rate"),
        output_from=f"{supply.way} {supply.name}".strip(),
        uptake=found.get("uptake"),
        uptake_from=f"{taken.way} {taken.name}".strip(),
        on_time=marks.on_time,
        shortest=marks.shortest,
        look_from=marks.look_from,
        stop_by=marks.stop_by,
        starts=found.starts if marks.on_time else None,
        clock_time=marks.clock,
        left_at_stop=marks.left,
        look_by_rule=ruled.look_from,
        stop_by_rule=ruled.stop_by,
        **_told(course),
        loss_per_minute=_loss(found, demand),
        oxygen=found.get("oxygen"),
        reaction_heat=propagate(lambda heat: heat, {"heat": found.heat}),
        heat=found.get("heat"),
        heat_in_all=found.get("heat_in_all"),
        adiabatic_rise=rise,
        dry_ice=_dry_ice(found.value("heat_in_all")),
        dry_ice_to_cool=_dry_ice(_cooling(reaction, liquid)),
        concentration=_concentration(reaction, rows),
        advised_volume=_advised(reaction, rows),
        peroxide=_peroxide(reaction),
        peroxide_forms=tuple(_forms(structures)),
        peroxide_amount=peroxides[0],
        peroxide_energy=peroxides[1],
        peroxide_energy_per_mass=peroxides[2],
        peroxide_evidence="published" if not _traps(reaction) else "the ozonide's figure",
        tail=tail,
        tail_iodide=max((row.iodide or 0.0 for row in tail), default=None),
        signals=tuple(_signals(reaction)),
        quench=quench,
        products=products_of(reaction, structures),
        interval_method=marks.on_time.method if marks.on_time else "first order",
        unknowns=tuple(dict.fromkeys((*unknowns(reaction), *feed.unknowns))),
        sources=_sources(structures, supply, course),
        methods=("on-time: ozone demand over output and uptake",),
    )
    unsure = (Note(f"reaction-{name}-unsure", "wrong") for name in found.unsure)
    simulated = course.notes if course else remarks
    notes = (*unsure, *(n for one in structures for n in one.notes), *supply.notes, *simulated)
    return judge(draft, reaction, notes=notes, following=tuple(steps(draft, reaction)))


def _in_mass(supply: Supply) -> Number:
    if supply.rate is None:
        return None
    found: Estimate = propagate(lambda rate: rate * M_O3, {"rate": supply.rate})
    return found


def _marks(reaction: Reaction, supply: Supply, found: Dose) -> Marks:
    demand, on_time = found.value("demand"), found.get("on_time")
    shortest = None
    if supply.rate is not None and demand is not None and "output" not in found.unsure:
        shortest = float(dosing_time(demand=demand, rate=supply.rate.value, uptake=1.0))
    if on_time is None:
        look = None if shortest is None else limit("LOOK_FROM").value * shortest
        return Marks(None, look, None, shortest, None, None)
    look = min(limit("LOOK_FROM").value * on_time.value, on_time.interval[0])
    stop = limit("STOP_BY").value * on_time.value
    off = reaction.timer_off.value if reaction.timer_off else 0.0
    clock = float(clock_time(on_time=on_time.value, starts=found.starts, timer_off=off))
    high = on_time.interval[1]
    left = (high - stop) / high if high > stop else 0.0
    return Marks(on_time, look, stop, shortest, clock, left)


def _simulated(reaction: Reaction, ruled: Marks, found: Dose, course: Course, way: str) -> Marks:
    """Return the marks of a simulated run, the ozone lost at each start added."""
    if ruled.on_time is None:
        return ruled
    lost = found.starts * reaction.start_loss.value if reaction.start_loss else 0.0
    look, stop = course.look_from + lost, course.stop_by + lost
    # an uptake of the model alone is too wide for a sum: the simulated end tells it better
    on_time = course.on_time if way == "model" and not lost else ruled.on_time
    high = max(on_time.interval[1], course.on_time.interval[1] + lost)
    left = (high - stop) / high if high > stop else 0.0
    return replace(ruled, on_time=on_time, look_from=look, stop_by=stop, left=left)


def _told(course: Course | None) -> dict[str, Any]:
    if course is None:
        return {}
    return {
        "simulated": course.rig,
        "simulated_on_time": course.on_time,
        "simulated_uptake": course.uptake,
        "modelled_uptake": course.modelled,
        "product_at_stop": course.product,
        "late": course.late,
        "signs": course.signs,
    }


def _loss(found: Dose, demand: float) -> float | None:
    """Return the share of the product that a minute too long costs if every ozone spoils one."""
    rate, uptake = found.value("rate"), found.value("uptake")
    if rate is None or uptake is None or demand <= 0.0:
        return None
    return rate * uptake * MINUTE / demand


def _substrates(reaction: Reaction, structures: Sequence[Structure]) -> tuple[SubstrateRow, ...]:
    typed = reaction.equivalents
    return tuple(
        SubstrateRow(
            smiles=structure.smiles,
            name=substrate.name,
            formula=structure.formula,
            molar_mass=structure.molar_mass,
            amount=amount_of(substrate, structure),
            ozone=typed.value if typed else structure.ozone,
        )
        for substrate, structure in zip(reaction.substrates, structures, strict=True)
    )


def _sites(structures: Sequence[Structure]) -> list[SiteRow]:
    """Return the sites of all substrates in one order of attack."""
    several = len(structures) > 1
    found = [(site, structure) for structure in structures for site in structure.sites]
    return [
        SiteRow(
            kind=site.kind,
            count=site.count,
            rate_constant=site.rate_constant,
            rate_of=site.rate_of,
            medium=site.medium,
            placed_by=site.placed_by,
            evidence=site.evidence,
            attacked=site.attacked,
            of=structure.smiles if several else "",
        )
        for site, structure in sorted(found, key=lambda one: one[0].order)
    ]


def _liquid(reaction: Reaction) -> float | None:
    """Return the heat that warms the liquid by a kelvin. [J/K]"""
    if reaction.volume is None or not reaction.solvent:
        return None
    return sum(
        float(
            liquid_heat(
                volume=share * reaction.volume.value,
                density=solvent(name).density,
                heat_capacity=solvent(name).heat_capacity,
            )
        )
        for name, share in reaction.solvent
    )


def _rise(found: Dose, liquid: float | None) -> float | None:
    heat = found.value("heat_in_all")
    if liquid is None or heat is None:
        return None
    return float(adiabatic_rise(heat=heat, capacity=liquid))


def _cooling(reaction: Reaction, liquid: float | None) -> float | None:
    if liquid is None or reaction.temperature is None:
        return None
    warmer = limit("ROOM_BEFORE_COOLING").value - reaction.temperature.value
    return liquid * warmer if warmer > 0.0 else 0.0


def _dry_ice(heat: float | None) -> float | None:
    return None if heat is None else float(dry_ice_for_heat(heat=heat))


def _concentration(reaction: Reaction, rows: Sequence[SubstrateRow]) -> float | None:
    if reaction.volume is None:
        return None
    return sum(row.amount or 0.0 for row in rows) / reaction.volume.value


def _advised(reaction: Reaction, rows: Sequence[SubstrateRow]) -> float:
    return sum(row.amount or 0.0 for row in rows) / limit("SUBSTRATE_USUAL").value


def _traps(reaction: Reaction) -> bool:
    return any(solvent(name).alcohol for name, _ in reaction.solvent)


def _peroxide(reaction: Reaction) -> str | None:
    if not reaction.solvent:
        return None
    return "alkoxy hydroperoxide" if _traps(reaction) else "ozonide"


def _forms(structures: Sequence[Structure]) -> Iterator[PeroxideRow]:
    for structure in structures:
        for form in structure.peroxide_forms:
            yield PeroxideRow(
                smiles=form.smiles,
                formula=form.formula,
                molar_mass=form.molar_mass,
                of=structure.smiles if len(structures) > 1 else "",
            )


def _peroxides(reaction: Reaction, structures: Sequence[Structure]) -> tuple[float, float, float]:
    """Return amount, energy, and the energy by mass of the peroxide of the most of it."""
    amount, energy, mass = 0.0, 0.0, 0.0
    for substrate, structure in zip(reaction.substrates, structures, strict=True):
        moles = amount_of(substrate, structure)
        each = OZONIDE_ENERGY_TERMINAL if structure.terminal else OZONIDE_ENERGY_INTERNAL
        amount += moles * structure.peroxides
        energy += moles * structure.peroxides * each
        mass += moles * (structure.molar_mass + structure.peroxides * M_O3)
    per_mass = energy_per_mass(molar_energy=energy, molar_mass=mass) if mass > 0.0 else 0.0
    return amount, energy, float(per_mass)


def _tail(found: Dose, marks: Marks) -> tuple[TailRow, ...]:
    rate, uptake = found.value("rate"), found.value("uptake")
    if rate is None or uptake is None or marks.on_time is None or marks.stop_by is None:
        return ()
    slip = float(ozone_past(rate=rate, on_time=marks.on_time.value, uptake=uptake))
    early = min(marks.on_time.interval[0], marks.stop_by)
    run_on = float(ozone_past(rate=rate, on_time=early, uptake=uptake)) + float(
        ozone_past(rate=rate, on_time=marks.stop_by - early, uptake=0.0)
    )
    whole = float(ozone_past(rate=rate, on_time=marks.stop_by, uptake=0.0))
    cases = (("normal slip", slip), ("run-on", run_on), ("abort", whole))
    return tuple(_tail_row(case, ozone) for case, ozone in cases)


def _tail_row(case: str, ozone: float) -> TailRow:
    iodide = float(tail_iodide(ozone=ozone, margin=limit("TAIL_MARGIN").value))
    return TailRow(case=case, ozone=ozone, iodide=iodide, potassium_iodide=iodide * M_KI)


def _signals(reaction: Reaction) -> list[SignalRow]:
    cold = reaction.temperature is not None and (
        reaction.temperature.value <= limit("BLUE_BELOW").value
    )
    unknown = reaction.temperature is None
    use = {"blue": "unknown" if unknown else "yes" if cold else "hardly"}
    return [
        SignalRow(signal=one, use=use.get(one, "yes"), watched=one == reaction.end_point)
        for one in SIGNALS
    ]


def _sources(
    structures: Sequence[Structure], supply: Supply, course: Course | None
) -> tuple[str, ...]:
    own = ("bailey_1978", "cataldo_2014", "chemicals_library", "dry_ice_text")
    theirs = [key for structure in structures for key in structure.sources]
    return tuple(
        dict.fromkeys((*theirs, *supply.sources, *own, *(course.sources if course else ())))
    )
