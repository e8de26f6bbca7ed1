"""The plan of a reaction: its document, its structure, the output and uptake it names."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from ozonewright.bench.course import simulation
from ozonewright.bench.load import Source, table_of
from ozonewright.bench.notebook import outputs_of
from ozonewright.bench.rig import load_rig
from ozonewright.bench.setting import setting_output
from ozonewright.bench.settled import settled_setting
from ozonewright.documents.convert_reaction import reaction_record
from ozonewright.documents.reaction import ReactionDocument
from ozonewright.documents.section import validated
from ozonewright.errors import AppError, Faults, InputError, MissingValue, NotFound, nearest
from ozonewright.notebook import Entry, Notebook
from ozonewright.physics.chemistry.structure.sites import Site
from ozonewright.questions.output import Output, output
from ozonewright.questions.reaction.cautions import cautions
from ozonewright.questions.reaction.given import (
    Feed,
    Form,
    Piece,
    Place,
    Structure,
    Supply,
    Taken,
    supply_of,
    taken_by_guard,
    typed_supply,
)
from ozonewright.questions.reaction.plan import plan
from ozonewright.questions.reaction.result import ReactionPlan
from ozonewright.questions.reaction.structure import (
    PLAIN,
    Cut,
    SiteLine,
    Substrate,
    counted,
    peroxides,
    products,
    read_substrate,
)
from ozonewright.records import reaction as records
from ozonewright.records.run import Run
from ozonewright.references.solvents import solvent
from ozonewright.uncertain import Estimate, Measured
from ozonewright.units import Kind


def reaction_plan(
    source: Source,
    notebook: Notebook | None = None,
    instead: Supply | None = None,
    rig: Source | None = None,
) -> ReactionPlan:
    """Return the plan of a reaction document; a setting or run is looked up in the notebook.

    `instead` is an output that takes the place of the one that the document names. Where rig,
    output and flow are known, the marks come from a simulated run.
    """
    table = table_of(source)
    bad = _bad_structures(table)
    try:
        reaction = reaction_record(validated(ReactionDocument, table))
    except Faults as several:
        raise Faults([*several, *bad]) from several
    faults = list(bad)
    try:
        supply = instead or _supply(reaction, notebook)
        taken = _taken(reaction, notebook)
    except AppError as error:
        faults.append(error)
    if faults:
        raise Faults(faults)
    structures = structures_of(reaction)
    feed = _feed(reaction)
    given = None if rig is None else load_rig(rig)
    found = simulation(reaction, structures, supply, taken, feed, given, notebook)
    notes = (found.why,) if found.why else ()
    return plan(reaction, structures, supply, found.taken, feed, found.course, notes)


def structures_of(reaction: records.Reaction) -> list[Structure]:
    """Return what ozone does to each substrate of a reaction."""
    return [_structure(one.smiles, reaction) for one in reaction.substrates]


def loaded(
    source: Source, notebook: Notebook | None
) -> tuple[records.Reaction, list[Structure], Supply, Taken, Feed]:
    """Return a reaction with its structures, output and uptake that it names, and its gas."""
    reaction = reaction_record(validated(ReactionDocument, table_of(source)))
    return (
        reaction,
        structures_of(reaction),
        _supply(reaction, notebook),
        _taken(reaction, notebook),
        _feed(reaction),
    )


def _bad_structures(table: Mapping[str, Any]) -> list[AppError]:
    """Return what is wrong with the structures of a table, whatever else is wrong in it."""
    written = table.get("substrate")
    alone = isinstance(written, Mapping)
    found: list[AppError] = []
    listed = written if isinstance(written, list) else [written]
    for number, one in enumerate(listed, start=1):
        smiles = one.get("smiles") if isinstance(one, Mapping) else None
        if not isinstance(smiles, str) or not smiles.strip():
            continue
        try:
            read_substrate(smiles.strip())
        except AppError as error:
            place = "substrate" if alone else f"substrate[{number}]"
            found.append(error.at(f"{place}.smiles"))
    return found


def plan_of_entry(notebook: Notebook, entry: Entry) -> ReactionPlan:
    """Return the plan of a reaction that the notebook keeps, under the label it has there."""
    return reaction_plan(kept_table(entry), notebook)


def kept_table(entry: Entry) -> dict[str, Any]:
    """Return the document of a reaction that the notebook keeps, under the label it has there."""
    document = {"label": entry.label} | dict(entry.data["reaction"])
    return entry.data | {"reaction": document}


def plan_of_label(notebook: Notebook, label: str) -> ReactionPlan:
    """Return the plan of the reaction of that label in the notebook."""
    return plan_of_entry(notebook, reaction_entry(notebook, label))


def reaction_entry(notebook: Notebook, label: str) -> Entry:
    """Return the entry of a reaction of the notebook."""
    entry = notebook.get(label)
    if entry.kind != "reaction":
        raise InputError(
            "this entry is no reaction", got=f"{entry.label} ({entry.kind})",
            fix="Name a reaction of the notebook, or a file.",
        )  # fmt: skip
    return entry


def _structure(smiles: str, reaction: records.Reaction) -> Structure:
    substrate = read_substrate(smiles)
    cut = reaction.cleave or PLAIN
    made = products(substrate, reaction.work_up, cut) if reaction.work_up else ()
    taken = counted(substrate.all_sites, cut)
    ends = [site for site in taken if site.kind.act in ("alkene", "alkyne", "ring")]
    return Structure(
        smiles=substrate.smiles,
        formula=substrate.formula,
        molar_mass=substrate.molar_mass,
        ozone=float(substrate.demand.of(cut)),
        peroxides=float(sum(site.ozone for site in ends)),
        terminal=all(site.groups == 1 for site in ends),
        products=tuple(
            Piece(one.smiles, one.formula, one.molar_mass, float(one.count), one.role)
            for one in made or ()
        ),
        sites=tuple(_place(line, taken) for line in substrate.sites),
        peroxide_forms=tuple(_forms(substrate, cut, reaction)),
        notes=tuple(cautions(substrate, cut, made)),
        sources=tuple(
            dict.fromkeys(line.rate.datum.source for line in substrate.sites if line.rate)
        ),
    )


def _forms(substrate: Substrate, cut: Cut, reaction: records.Reaction) -> Iterator[Form]:
    """Yield the peroxides that may stand in the flask; none where the solvent is not known."""
    if not reaction.solvent:
        return
    alcohols = (solvent(name).alcohol for name, _ in reaction.solvent)
    alcohol = next((one for one in alcohols if one), None)
    for one in peroxides(substrate, cut, alcohol):
        yield Form(one.smiles, one.formula, one.molar_mass)


def _place(line: SiteLine, taken: tuple[Site, ...]) -> Place:
    rate = line.rate
    return Place(
        kind=line.kind,
        count=line.count,
        rate_constant=rate.datum.value if rate else None,
        rate_of=None if rate is None or line.itself else rate.compound,
        medium=rate.medium if rate else None,
        placed_by="rate constant" if rate else "electron density",
        evidence=rate.datum.evidence if rate else line.sites[0].kind.evidence,
        order=line.sites[0].order,
        attacked=any(site in taken for site in line.sites),
    )


def _supply(reaction: records.Reaction, notebook: Notebook | None) -> Supply:
    if reaction.output is not None:
        return typed_supply(reaction.output)
    if reaction.setting is not None:
        book = _needed(notebook, "reaction.setting", reaction.setting)
        found = outputs_of(book, reaction.setting)
        settled = settled_setting(book, reaction.setting) if found else None
        mean = setting_output(book, reaction.setting, found, settled)
        if mean.rate is None:
            return Supply(None)
        return supply_of(mean.rate, way="setting", name=reaction.setting, notes=mean.notes)
    if reaction.run is not None:
        rate = _run(notebook, "reaction.run", reaction.run).rate
        if not isinstance(rate, Estimate):
            raise MissingValue(
                "this run has no output", where="reaction.run", got=reaction.run,
                fix="Name a run with an on-time and titres, or type the output.",
            )  # fmt: skip
        return supply_of(rate, way="run", name=reaction.run)
    return Supply(None)


def _taken(reaction: records.Reaction, notebook: Notebook | None) -> Taken:
    slip = reaction.slip
    if slip is None:
        return Taken(reaction.uptake)
    if slip.run is None:
        return Taken(None, way="tail")
    guard = _run(notebook, "reaction.slip.run", slip.run).guard_share
    if not isinstance(guard, Estimate):
        raise MissingValue(
            "this run has no guard bottle", where="reaction.slip.run", got=slip.run,
            fix="Name a run with two bottles in series, or type the uptake.",
        )  # fmt: skip
    return taken_by_guard(guard, run=slip.run)


def _run(notebook: Notebook | None, place: str, name: str) -> Output:
    found = {one.label: one for one in outputs_of(_needed(notebook, place, name))}
    if name not in found:
        known = [label for label in found if label]
        raise NotFound(
            "no run of this name stands in the notebook", where=place, got=name,
            fix=nearest(name, known) if known else "Add the run first.",
        )  # fmt: skip
    return found[name]


def _needed(notebook: Notebook | None, place: str, name: str) -> Notebook:
    if notebook is None:
        raise MissingValue(
            "this stands in a notebook, and none is given", where=place, got=name,
            fix='Add --notebook FILE, or type output = "0.62 g/h ± 5 %" and the uptake.',
        )  # fmt: skip
    return notebook


def _feed(reaction: records.Reaction) -> Feed:
    """Return the gas into the tube, worked out as for a run of this output."""
    gas = reaction.gas
    if gas.flow is None:
        return Feed(unknowns=("gas.flow",))
    rate = reaction.output or Measured(0.0, 0.0, "output", Kind.MASS_RATE, basis="exact")
    found = output(Run(place="reaction", rate=rate, gas=gas), [])
    oxygen = gas.feed.parts.get("oxygen") if gas.feed else None
    unknown = tuple(name for name in found.unknowns if name.startswith("gas."))
    if not isinstance(found.feed_flow, Estimate):
        return Feed(unknowns=unknown)
    flow = Measured(
        found.feed_flow.value, found.feed_flow.u, "feed flow", Kind.NORMAL_FLOW, basis="stated"
    )
    share = oxygen.value if oxygen else None
    return Feed(flow, share, () if share is not None else ("gas.feed",))
