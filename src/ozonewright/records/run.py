"""A run and all that belongs to it: feed, bottles, titration."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal

from ozonewright.uncertain import Measured


@dataclass(frozen=True, slots=True)
class Feed:
    """Gas into the tube."""

    name: str
    """As written: ``dry air``, ``room air``, ``oxygen``, or ``mixture``."""
    parts: Mapping[str, Measured]
    """Mole fraction of each gas in the dry feed."""
    dew_point: Measured | None = None
    may_be_moist: bool = False
    """Room air whose dew point nobody stated."""


@dataclass(frozen=True, slots=True)
class Meter:
    """Where and how the flow was read."""

    kind: Literal["volume", "mass", "rotameter", "wet", "displacement"] = "volume"
    at: Literal["before tube", "after bottles", "after destruct"] = "before tube"
    calibrated_for: str | None = None
    calibrated_temperature: Measured | None = None
    calibrated_pressure: Measured | None = None
    dried: bool = False


@dataclass(frozen=True, slots=True)
class Gas:
    """The gas of a run."""

    feed: Feed | None = None
    flow: Measured | None = None
    """A volume flow at `temperature` and `pressure`, or a normal flow in mol/s by its kind."""
    meter: Meter = Meter()
    temperature: Measured | None = None
    pressure: Measured | None = None


@dataclass(frozen=True, slots=True)
class Bottle:
    """A gas-washing bottle of iodide, in flow order."""

    volume: Measured | None = None
    iodide_mass: Measured | None = None
    """Potassium iodide put in."""
    iodide_concentration: Measured | None = None
    """Potassium iodide as mass per volume, where the mass was not stated."""
    sparger: Literal["open tube", "stone", "frit"] | None = None


@dataclass(frozen=True, slots=True)
class Acid:
    """Acid given to each bottle."""

    kind: str
    volume: Measured
    concentration: Measured
    when: Literal["before", "after"] | None = None


@dataclass(frozen=True, slots=True)
class Burette:
    """The burette, and the error that all its readings share."""

    capacity: float
    tolerance: Measured | None = None


@dataclass(frozen=True, slots=True)
class Titrant:
    """Thiosulfate, by statement or by what it was made or standardised from."""

    stated: Measured | None = None
    standard: str | None = None
    mass: Measured | None = None
    purity: Measured | None = None
    flask: Measured | None = None
    aliquot: Measured | None = None
    titres: tuple[Measured, ...] = ()
    blank: Measured | None = None
    temperature: Measured | None = None
    standardised: date | None = None


@dataclass(frozen=True, slots=True)
class Titration:
    """What the burette said."""

    titrant: Titrant
    titres: tuple[tuple[Measured, ...], ...]
    """Per bottle, in flow order; several readings of one bottle are replicates."""
    blanks: tuple[Measured, ...] = ()
    """One reagent blank shared by all bottles, or one for each."""
    burette: Burette | None = None
    aliquot: Measured | None = None
    made_up_to: Measured | None = None
    end_point: Measured | None = None
    temperature: Measured | None = None


@dataclass(frozen=True, slots=True)
class Ultraviolet:
    """The gas behind the tube in a cell, at 253.65 nm."""

    absorbance: Measured
    path: Measured
    temperature: Measured
    pressure: Measured
    cross_section: Literal["2019", "1961"] = "2019"


@dataclass(frozen=True, slots=True)
class Triiodide:
    """The yellow of the iodide bottles at 352 nm, in place of a titration."""

    absorbances: tuple[tuple[Measured, ...], ...]
    """Per bottle, in flow order; several readings of one bottle are replicates."""
    path: Measured
    volumes: tuple[Measured, ...]
    """Liquid of each bottle, made up before a part was taken."""
    blank: Measured | None = None
    aliquot: Measured | None = None
    made_up_to: Measured | None = None
    iodide: Measured | None = None
    """Potassium iodide in the cell, as mass per volume."""
    temperature: Measured | None = None


@dataclass(frozen=True, slots=True)
class Indigo:
    """A sample of the liquid in indigo at 600 nm: what is dissolved."""

    blank: Measured
    absorbance: Measured
    path: Measured
    sample: Measured
    made_up_to: Measured


@dataclass(frozen=True, slots=True)
class Run:
    """One run: gas through the absorber for an on-time, then a titration."""

    place: str
    """Where in the document it stands, for messages."""
    label: str | None = None
    setting: str | None = None
    rig: str | None = None
    room: str | None = None
    by: str | None = None
    started: datetime | None = None
    on_time: Measured | None = None
    start: Literal["cold", "warm", "diverted"] | None = None
    rest_before: Measured | None = None
    discharge_on: bool = True
    gas: Gas = Gas()
    power: Measured | None = None
    power_at: Literal["plug", "discharge"] = "plug"
    discharge_power: Measured | None = None
    """What the gas gets, where it is known beside the power at the plug."""
    wall: Measured | None = None
    """Temperature of the discharge tube, outside."""
    bottles: tuple[Bottle, ...] = ()
    acid: Acid | None = None
    titration: Titration | None = None
    ultraviolet: Ultraviolet | None = None
    triiodide: Triiodide | None = None
    indigo: Indigo | None = None
    collected: Measured | None = None
    """Ozone as typed, in kg, where no titration is given or beside it."""
    rate: Measured | None = None
    """Ozone per time as typed, in kg/s."""
