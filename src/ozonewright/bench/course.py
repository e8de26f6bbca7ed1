"""The simulated run of a reaction for its plan, or why there is none."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ozonewright.bench.flasked import simulated_for_plan
from ozonewright.bench.rig import rig_of
from ozonewright.errors import AppError
from ozonewright.notebook import Notebook
from ozonewright.questions.absorber import SimulatedRun, uptake_of
from ozonewright.questions.reaction.dose import Dose, dose
from ozonewright.questions.reaction.given import Course, Feed, Structure, Supply, Taken
from ozonewright.records.absorber import Asked
from ozonewright.records.reaction import Reaction
from ozonewright.records.rig import Rig
from ozonewright.results import Note
from ozonewright.uncertain import Estimate, Measured
from ozonewright.units import Kind


@dataclass(frozen=True, slots=True)
class Simulation:
    """What a simulated run gives a plan: its course, and the uptake where none was stated."""

    taken: Taken
    course: Course | None = None
    why: Note | None = None
    """Why there is no course."""


def simulation(
    reaction: Reaction,
    structures: Sequence[Structure],
    supply: Supply,
    taken: Taken,
    feed: Feed,
    rig: Rig | None,
    notebook: Notebook | None,
) -> Simulation:
    """Return the simulated run where document, rig and output suffice; else what is missing."""
    found = rig or _kept(reaction, notebook)
    if isinstance(found, Note):
        return Simulation(taken, why=found)
    if supply.rate is None or feed.flow is None or reaction.equivalents is not None:
        lacking = (
            "output" if supply.rate is None else "flow" if feed.flow is None else "equivalents"
        )
        return Simulation(taken, why=_not(lacking))
    sums = dose(reaction, structures, supply, taken, feed)
    if sums.unsure:
        return Simulation(taken, why=_not("unsure"))
    slip = slip_stated(sums)
    asked = Asked(supply.rate, feed.flow, flow_stated=True, slip_share=slip)
    try:
        run = simulated_for_plan(found, reaction, structures, asked)
    except AppError as error:
        fault = getattr(error, "faults", (error,))[0]
        return Simulation(taken, why=_not("refused", f"{fault.what}: {fault.fix}"))
    course = _course(run, found.label or "the rig")
    if course is None:
        return Simulation(taken, why=_not("not done"))
    if taken.uptake is None and taken.way == "typed":
        modelled = uptake_of(run, course.rig)
        taken = Taken(modelled, way="model", name=course.rig)
    return Simulation(taken, course)


def _not(why: str, what: str = "") -> Note:
    return Note("reaction-not-simulated", "advice", {"why": why, "what": what})


def _kept(reaction: Reaction, notebook: Notebook | None) -> Rig | Note:
    if reaction.rig is None:
        return _not("no rig")
    if notebook is None:
        return _not("no notebook", reaction.rig)
    kept = [one for one in notebook.labelled(reaction.rig) if one.kind == "rig"]
    if len(kept) != 1:
        return _not("rig unknown", reaction.rig)
    try:
        return rig_of({**kept[0].data, "rig": {"label": kept[0].label, **kept[0].data["rig"]}})
    except AppError as error:
        return _not("refused", str(error))


def slip_stated(sums: Dose) -> Measured | None:
    """Return what slips past a flask by the uptake that its reaction states; None where none is."""
    uptake = sums.get("uptake")
    if uptake is None:
        return None
    return Measured(1.0 - uptake.value, uptake.u, "slip as stated", Kind.SHARE, basis="stated")


def _course(run: SimulatedRun, rig: str) -> Course | None:
    on_time, late, uptake, modelled = run.on_time, run.late, run.uptake, run.modelled
    if run.look_from is None or run.stop_by is None:
        return None
    assert isinstance(on_time, Estimate)
    assert isinstance(late, Estimate)
    assert isinstance(uptake, Estimate)
    assert isinstance(modelled, Estimate)
    return Course(
        rig=rig,
        on_time=on_time,
        look_from=run.look_from,
        stop_by=run.stop_by,
        product=run.best_product or 0.0,
        late=late,
        uptake=uptake,
        modelled=modelled,
        signs=run.signs,
        notes=tuple(note for note in run.notes if note.level == "doubt"),
        sources=run.sources,
    )
