"""The gate of a rig, a room and a reaction: what other questions answer of them, then its own."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from ozonewright.bench.clearance import clearance_of
from ozonewright.bench.clock import now
from ozonewright.bench.load import Source, table_of
from ozonewright.bench.log import Press, press
from ozonewright.bench.notebook import document_of, entry_of
from ozonewright.bench.reaction import reaction_plan
from ozonewright.bench.rig import load_rig
from ozonewright.bench.room import load_room
from ozonewright.documents.convert_reaction import reaction_record
from ozonewright.documents.reaction import ReactionDocument
from ozonewright.documents.section import validated
from ozonewright.documents.typed import Typed, typed
from ozonewright.errors import AppError, Faults, MissingValue
from ozonewright.notebook import Entry, Notebook
from ozonewright.physics.gas.flow import molar_flow
from ozonewright.questions.gate import Breathed, Facts, Gate, gate
from ozonewright.questions.reaction.result import ReactionPlan
from ozonewright.questions.room.answer import room_answer
from ozonewright.questions.room.release import releases
from ozonewright.records.event import Moment
from ozonewright.records.reaction import Reaction
from ozonewright.records.rig import Rig
from ozonewright.records.room import Room
from ozonewright.references.constants import M_O3, NORMAL_PRESSURE, NORMAL_TEMPERATURE
from ozonewright.uncertain import Estimate, Measured
from ozonewright.units import Kind

TYPED: dict[str, tuple[Kind, ...]] = {
    "output": (Kind.MASS_RATE, Kind.AMOUNT_RATE),
    "flow": (Kind.VOLUME_FLOW, Kind.NORMAL_FLOW),
    "slip": (Kind.SHARE,),
    "leak": (Kind.SHARE,),
    "on_time": (Kind.TIME,),
}
"""What may be typed beside the documents, and its kinds."""
SURE = 2.0
"""Standard uncertainties that count against the person."""
ROOM_TEMPERATURE = NORMAL_TEMPERATURE + 20.0
DRAWS = 10_000
LEAK = 0.01
"""Share of the output that tested joints may lose where nobody said (judgement, no source)."""


@dataclass(frozen=True)
class Bound:
    """The least and the most that a quantity may be."""

    low: float
    high: float


def ask(
    rig: Source,
    room: Source | None = None,
    reaction: Source | None = None,
    texts: Mapping[str, str | None] | None = None,
    notebook: Notebook | None = None,
) -> Gate:
    """Return the gate of documents; the faults of all of them are raised together."""
    faults: list[AppError] = []
    read = _typed(texts or {}, faults)
    found_rig = found_room = record = plan = None
    for name, source in (("rig", rig), ("room", room), ("reaction", reaction)):
        if source is None:
            continue
        try:
            if name == "rig":
                found_rig = load_rig(source)
            elif name == "room":
                found_room = load_room(table_of(source))
            else:
                record = reaction_record(validated(ReactionDocument, table_of(source)))
                plan = reaction_plan(source, notebook)
        except Faults as several:
            faults += [fault.at(name) for fault in several]
        except AppError as error:
            faults.append(error.at(name))
    if faults:
        raise Faults(faults)
    assert found_rig is not None
    return gate(_facts(found_rig, found_room, record, plan, read, _locked(notebook, record)))


def gate_of(
    notebook: Notebook,
    *,
    rig: str | None = None,
    room: str | None = None,
    reaction: str | None = None,
    texts: Mapping[str, str | None] | None = None,
) -> Gate:
    """Return the gate of entries by label; unnamed, those that the reaction names, else the last.

    Raises
    ------
    MissingValue
        The notebook keeps no rig.
    """
    done = _entry(notebook, "reaction", reaction) if reaction else None
    named = dict(done.data["reaction"]) if done else {}
    place = _entry(notebook, "rig", rig or named.get("rig")) or _last(notebook, "rig")
    if place is None:
        raise MissingValue(
            "the notebook keeps no rig",
            where="rig",
            fix="Write down the gas line first: the gate reads it part by part.",
        )
    around = _entry(notebook, "room", room or named.get("room")) or _last(notebook, "room")
    return ask(
        document_of(place),
        document_of(around) if around else None,
        document_of(done) if done else None,
        texts,
        notebook,
    )


def _entry(notebook: Notebook, kind: str, label: str | None) -> Entry | None:
    """Return an entry of this kind and label, if one is named."""
    return entry_of(notebook, kind, label) if label else None


def _last(notebook: Notebook, kind: str) -> Entry | None:
    return next(iter(notebook.entries(kind=kind, last=1)), None)


def keep(notebook: Notebook, found: Gate, of: str, now: Moment) -> Entry:
    """Keep the gate's verdict as it stands, so that the bench page and a report can show it."""
    count = sum(check.verdict != "go" for check in found.checks)
    rest = f"{len(found.checks)} checks, {count} of them not go"
    return press(notebook, Press("gate", of=of, value=found.verdict, remark=rest), now, "gate")


def answer(notebook: Notebook, rig: str, answers: Mapping[str, bool]) -> Entry:
    """Keep answers of the checklist in the rig of this label."""
    entry = entry_of(notebook, "rig", rig)
    checklist = dict(entry.data.get("checklist", {})) | dict(answers)
    return notebook.revise(entry.id, entry.data | {"checklist": checklist}, reason="other")


def _typed(texts: Mapping[str, str | None], faults: list[AppError]) -> dict[str, Typed]:
    read: dict[str, Typed] = {}
    for name, kinds in TYPED.items():
        text = texts.get(name)
        if not text:
            continue
        try:
            least = {"least": 0.0, "most": 1.0} if kinds == (Kind.SHARE,) else {"above": 0.0}
            read[name] = typed(text, kinds, **least)  # type: ignore[arg-type]  # bounds by name
        except AppError as error:
            faults.append(error.at(name))
    return read


def _locked(notebook: Notebook | None, reaction: Reaction | None) -> bool | None:
    """Return whether an earlier flask of this reaction still waits for its tests."""
    if notebook is None or reaction is None or reaction.label is None:
        return None
    known = {entry.label for entry in notebook.entries(kind="reaction")}
    if reaction.label not in known:
        return None
    found = clearance_of(notebook, reaction.label, now().wall)
    return found.quenched is not None and found.state == "locked"


def _facts(
    rig: Rig,
    room: Room | None,
    reaction: Reaction | None,
    plan: ReactionPlan | None,
    read: Mapping[str, Typed],
    locked: bool | None,
) -> Facts:
    output = _output(plan, read)
    flow = _flow(reaction, rig, read)
    slip = _slip(plan, read)
    facts = Facts(
        rig=rig,
        room=room,
        reaction=reaction,
        output=output.high / M_O3 if output else None,
        flow_low=flow.low if flow else None,
        flow_high=flow.high if flow else None,
        ozone_wanted=_high(plan.demand) if plan else None,
        on_time=read["on_time"].value if "on_time" in read else plan.stop_by if plan else None,
        residue_locked=locked,
    )
    leak = _at_most(read["leak"]) if "leak" in read else LEAK
    lost = leak if facts.off_gas_kept else max(leak, 1.0 if slip is None else slip)
    return replace(facts, breathed=_breathed(room, output, slip, min(lost, 1.0)))


def _bound(value: float, u: float) -> Bound:
    return Bound(max(value - SURE * u, 0.0), value + SURE * u)


def _high(value: Estimate | float | None) -> float | None:
    return value.value + SURE * value.u if isinstance(value, Estimate) else value


def _output(plan: ReactionPlan | None, read: Mapping[str, Typed]) -> Bound | None:
    """Return the output in kg/s: typed beside the documents, else of the reaction."""
    if "output" in read:
        one = read["output"]
        per = M_O3 if one.kind is Kind.AMOUNT_RATE else 1.0
        return _bound(one.value * per, one.u * per)
    found = plan.output if plan else None
    return _bound(found.value, found.u) if isinstance(found, Estimate) else None


def _flow(reaction: Reaction | None, rig: Rig, read: Mapping[str, Typed]) -> Bound | None:
    """Return the dry gas in mol/s."""
    if "flow" in read:
        one = read["flow"]
        flow: Measured | None = one.measured("flow")
        warm, pressure = rig.ambient.temperature, rig.ambient.pressure
    elif reaction is not None:
        flow = reaction.gas.flow
        warm, pressure = reaction.gas.temperature, reaction.gas.pressure
    else:
        return None
    if flow is None:
        return None
    if flow.kind is Kind.NORMAL_FLOW:
        return _bound(flow.value, flow.u)
    moles, u = (
        float(
            molar_flow(
                volume_flow=each,
                temperature=warm.value if warm else ROOM_TEMPERATURE,
                pressure=pressure.value if pressure else NORMAL_PRESSURE,
                water_fraction=0.0,
            )
        )
        for each in (flow.value, flow.u)
    )
    return _bound(moles, u)


def _slip(plan: ReactionPlan | None, read: Mapping[str, Typed]) -> float | None:
    """Return the share that slips past the flask, at the most."""
    if "slip" in read:
        return _at_most(read["slip"])
    if plan is None or not isinstance(plan.uptake, Estimate):
        return None
    return min(1.0 - plan.uptake.value + SURE * plan.uptake.u, 1.0)


def _at_most(share: Typed) -> float:
    """Return a share with what its ± may add; digits alone add nothing to a guess."""
    return share.value + (SURE * share.u if share.basis == "stated" else 0.0)


def _breathed(
    room: Room | None, output: Bound | None, slip: float | None, lost: float
) -> Breathed | None:
    """Return what people would breathe with the hose off, and with what is lost in the end."""
    if room is None or output is None or room.limit is None or room.air_changes is None:
        return None
    if room.removal is None:
        # nobody said that the surfaces take any away, and an empty field is never on our side
        nothing = Measured(0.0, 0.0, "removal on surfaces", Kind.RATE)
        room = replace(room, removal=nothing)
    off, kept = (
        room_answer(
            room,
            tuple(releases(release=Measured(rate, 0.0, "release", Kind.MASS_RATE))),
            draws=DRAWS,
        )
        for rate in (output.high, lost * output.high)
    )
    assert off.limit is not None
    steady = kept.steady_fraction
    return Breathed(
        hose_off=off.earliest,
        steady=steady.value / off.limit if steady else None,
        steady_high=steady.interval[1] / off.limit if steady else None,
        lost=lost,
        slip=slip,
        limit=off.limit,
    )
