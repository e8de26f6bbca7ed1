"""A reaction and all that a plan of it needs: substrates, solvent, ozone on hand, work-up."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ozonewright.records.run import Gas
from ozonewright.uncertain import Measured

WorkUp = Literal["reductive", "borohydride", "oxidative"]
Cleave = Literal["first", "selective", "full"]
EndPoint = Literal["blue", "dye", "off-gas", "tail titre"]


@dataclass(frozen=True, slots=True)
class Substrate:
    """One substrate, by amount or by mass."""

    smiles: str
    name: str | None = None
    amount: Measured | None = None
    mass: Measured | None = None
    purity: Measured | None = None
    boiling_point: Measured | None = None
    """[K]"""
    vapour_pressure: Measured | None = None
    """Of the pure substrate at the reaction's temperature. [Pa]"""
    product_boiling_point: Measured | None = None


@dataclass(frozen=True, slots=True)
class Quench:
    """A reagent that ends the peroxides, in moles for each mole of ozone taken up."""

    reagent: str
    equivalents: float


@dataclass(frozen=True, slots=True)
class Slip:
    """What passed the liquid, measured: the titre of a tail bottle, or the guard of a run."""

    run: str | None = None
    titre: Measured | None = None
    titrant: Measured | None = None
    blank: Measured | None = None
    on_time: Measured | None = None


@dataclass(frozen=True, slots=True)
class Tail:
    """The iodide behind the flask."""

    volume: Measured | None = None
    iodide_mass: Measured | None = None
    iodide_concentration: Measured | None = None
    """Potassium iodide as mass per volume, where the mass was not stated."""


@dataclass(frozen=True, slots=True)
class Reaction:
    """A reaction to be dosed; SI, names of origins kept."""

    label: str | None
    rig: str | None
    room: str | None
    substrates: tuple[Substrate, ...]
    solvent: tuple[tuple[str, float], ...]
    """Each solvent with its share of the volume before mixing."""
    volume: Measured | None
    temperature: Measured | None
    work_up: WorkUp | None
    quenches: tuple[Quench, ...] = ()
    cleave: Cleave | None = None
    equivalents: Measured | None = None
    """Ozone for each mole of substrate, where it is typed and not worked out."""
    output: Measured | None = None
    """Ozone per time as typed, in mol/s or kg/s by its kind."""
    setting: str | None = None
    run: str | None = None
    uptake: Measured | None = None
    slip: Slip | None = None
    start_loss: Measured | None = None
    """On-time lost at each start of the discharge."""
    timer_on: Measured | None = None
    timer_off: Measured | None = None
    end_point: EndPoint | None = None
    heat: Measured | None = None
    """Heat released for each mole of ozone taken up. [J/mol]"""
    gas: Gas = field(default_factory=Gas)
    tail: Tail = field(default_factory=Tail)
