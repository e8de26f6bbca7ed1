"""What the plan takes from other questions: structure, output, uptake, gas."""

from __future__ import annotations

from dataclasses import dataclass

from ozonewright.physics.assay.plan import amount_of_ozone
from ozonewright.records.sign import SignRow
from ozonewright.results import Note
from ozonewright.uncertain import Estimate, Measured
from ozonewright.units import Kind


@dataclass(frozen=True, slots=True)
class Piece:
    """One product of one substrate."""

    smiles: str
    formula: str
    molar_mass: float
    per_mole: float
    """Moles for each mole of substrate. [1]"""
    role: str
    """``product`` or ``co-product``."""


@dataclass(frozen=True, slots=True)
class Place:
    """A kind of site in a substrate, in the order of attack."""

    kind: str
    count: int
    rate_constant: float | None
    """[m3/(mol s)]"""
    rate_of: str | None
    """The compound whose rate constant it is, where it is not that of the substrate."""
    medium: str | None
    """In which it was measured."""
    placed_by: str
    """``rate constant``, or ``electron density`` where none is published."""
    evidence: str
    """Of the rate constant; of the place in the order where there is none."""
    order: tuple[int, float]
    """Sort key among the sites of all substrates: the lower, the sooner attacked."""
    attacked: bool
    """Whether the wanted cleavage takes it."""


@dataclass(frozen=True, slots=True)
class Form:
    """One form of the peroxide before the work-up."""

    smiles: str
    formula: str
    molar_mass: float


@dataclass(frozen=True, slots=True)
class Structure:
    """What ozone does to one substrate. SI, for each mole of it."""

    smiles: str
    formula: str
    molar_mass: float
    ozone: float
    """Ozone that the wanted cleavage takes. [1]"""
    peroxides: float
    """Ozonides, or their like, that stand in the flask when it is done. [1]"""
    terminal: bool
    """Whether all of them come from a =CH2."""
    products: tuple[Piece, ...]
    sites: tuple[Place, ...]
    peroxide_forms: tuple[Form, ...] = ()
    notes: tuple[Note, ...] = ()
    sources: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Supply:
    """The output on hand, and whose it is."""

    rate: Measured | None
    """[mol/s]"""
    way: str = "typed"
    """``typed``, ``run``, ``setting`` or ``timer``."""
    name: str = ""
    notes: tuple[Note, ...] = ()
    sources: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Taken:
    """The share of the ozone that the reaction takes, and how that is known."""

    uptake: Measured | None
    way: str = "typed"
    """``typed``, ``run`` (guard share) or ``tail`` (a titre behind the flask)."""
    name: str = ""


@dataclass(frozen=True, slots=True)
class Course:
    """What a simulated run of the reaction says; SI."""

    rig: str
    on_time: Estimate
    look_from: float
    stop_by: float
    product: float
    """Mean share of product at stop-by. [1]"""
    late: Estimate
    """Product that a minute too long costs. [1]"""
    uptake: Estimate
    modelled: Estimate
    """Uptake until done by the model alone, whatever is stated. [1]"""
    signs: tuple[SignRow, ...] = ()
    notes: tuple[Note, ...] = ()
    sources: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Feed:
    """The gas while the reaction runs."""

    flow: Measured | None = None
    """Dry, into the tube. [mol/s]"""
    oxygen: float | None = None
    """Mole fraction of oxygen in it. [1]"""
    unknowns: tuple[str, ...] = ()


def supply_of(rate: Estimate, *, way: str, name: str, notes: tuple[Note, ...] = ()) -> Supply:
    """Return the supply from an output in kg/s, as wide as its interval says."""
    low, high = rate.interval
    half = max(rate.value - low, high - rate.value) / rate.k if rate.k > 0.0 else 0.0
    u = max(rate.u, half)
    return Supply(
        rate=Measured(
            float(amount_of_ozone(mass=rate.value)),
            float(amount_of_ozone(mass=u)),
            f"output of {way} {name}",
            Kind.AMOUNT_RATE,
            dof=max(rate.dof, 1.0),
        ),
        way=way,
        name=name,
        notes=notes,
    )


def typed_supply(rate: Measured) -> Supply:
    """Return the supply from an output as typed, by mass or by amount."""
    if rate.kind is Kind.AMOUNT_RATE:
        return Supply(rate)
    value, u = (float(amount_of_ozone(mass=each)) for each in (rate.value, rate.u))
    return Supply(Measured(value, u, rate.name, Kind.AMOUNT_RATE, rate.shape, rate.dof, rate.basis))


def taken_by_guard(guard: Estimate, *, run: str) -> Taken:
    """Return the uptake if as much slips past the reaction as past the first iodide bottle."""
    uptake = Measured(
        1.0 - guard.value, guard.u, f"guard share of {run}", Kind.SHARE, dof=max(guard.dof, 1.0)
    )
    return Taken(uptake, way="run", name=run)
