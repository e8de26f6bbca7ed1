"""The run document: what a person writes down about one run."""

from __future__ import annotations

from datetime import date, datetime
from typing import Annotated, Literal, Self

from pydantic import BaseModel, BeforeValidator, ConfigDict, model_validator

from ozonewright.documents.typed import (
    BuretteText,
    Collected,
    Concentration,
    Duration,
    Flask,
    Flow,
    Mass,
    Pipette,
    Power,
    Pressure,
    Purity,
    Rate,
    Rest,
    Salt,
    Spread,
    Temperature,
    Titre,
    Titres,
    Typed,
    Volume,
    carried,
    reported,
    typed,
)
from ozonewright.errors import Inconsistent, InputError, MissingValue, UnitError, nearest
from ozonewright.references.acids import acid
from ozonewright.units import Kind

FEEDS = ("oxygen", "dry air", "room air")
GASES = ("oxygen", "nitrogen", "argon")
STANDARDS = (
    "potassium iodate",
    "potassium dichromate",
    "sodium thiosulfate pentahydrate",
    "sodium thiosulfate anhydrous",
)


class Section(BaseModel):
    """A table of a document: unknown keys are refused, nothing changes once read."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)


def _feed(value: object) -> str | dict[str, Typed]:
    if isinstance(value, str):
        if value not in FEEDS:
            raise InputError(
                "this feed is not known by name",
                got=value,
                fix=f"{nearest(value, FEEDS)} Or write its parts: "
                '{ oxygen = "93 vol%", argon = "4 vol%", nitrogen = "3 vol%" }.',
            )
        return value
    if not isinstance(value, dict) or not value:
        raise UnitError(
            "a feed is a name or a table of its parts",
            got=str(value),
            fix='Write "dry air", or { oxygen = "92 vol%", nitrogen = "8 vol%" }.',
        )
    parts: dict[str, Typed] = {}
    for gas, text in value.items():
        if gas not in GASES:
            raise InputError(f"{gas} is no gas known here", where=gas, fix=nearest(gas, GASES))
        try:
            parts[gas] = typed(text, (Kind.MOLE_FRACTION,), least=0.0, most=1.0)
        except InputError as error:
            raise error.at(gas) from error
    total = sum(part.value for part in parts.values())
    if abs(total - 1.0) > 0.005:
        raise Inconsistent(
            f"the parts of the feed add up to {100 * total:.4g} vol%",
            got=str(value),
            fix="They must add up to 100 ± 0.5 vol%; nitrogen or argon missing?",
        )
    return parts


def _standard(value: object) -> str:
    if value not in STANDARDS:
        raise InputError(
            "this standard is not known", got=str(value), fix=nearest(str(value), STANDARDS)
        )
    return str(value)


def _acid(value: object) -> str:
    return acid(str(value)).name


class MeterSection(Section):
    kind: Literal["volume", "mass", "rotameter", "wet", "displacement"] = "volume"
    at: Literal["before tube", "after bottles", "after destruct"] = "before tube"
    calibrated_for: Literal["air", "oxygen", "nitrogen", "argon"] | None = None
    calibrated_temperature: Temperature | None = None
    calibrated_pressure: Pressure | None = None
    dried: bool = False

    @model_validator(mode="after")
    def _agrees(self) -> Self:
        if self.kind == "rotameter" and self.calibrated_for is None:
            raise carried(
                MissingValue(
                    "for which gas is its scale?",
                    where="calibrated_for",
                    fix='Write calibrated_for = "air", or kind = "volume" for a '
                    "flow that is corrected already.",
                )
            )
        return self


class GasSection(Section):
    feed: Annotated[str | dict[str, Typed] | None, BeforeValidator(reported(_feed))] = None
    dew_point: Temperature | None = None
    flow: Flow | None = None
    meter: MeterSection = MeterSection()
    temperature: Temperature | None = None
    pressure: Pressure | None = None

    @model_validator(mode="after")
    def _agrees(self) -> Self:
        normal = self.flow is not None and self.flow.kind is Kind.NORMAL_FLOW
        if self.flow and self.meter.kind == "mass" and not normal:
            raise carried(
                Inconsistent(
                    "a mass meter reads a normal flow",
                    where="flow",
                    got=self.flow.text,
                    fix='Write "0.74 NL/min".',
                )
            )
        if self.flow and self.meter.kind == "rotameter" and normal:
            raise carried(
                Inconsistent(
                    "a rotameter reads a volume flow",
                    where="flow",
                    got=self.flow.text,
                    fix='Write the reading in "L/min" with temperature and pressure, '
                    'or meter kind "mass" for a flow that is normal already.',
                )
            )
        return self


class ElectricalSection(Section):
    power: Power | None = None
    at: Literal["plug", "discharge"] = "plug"


class BottleSection(Section):
    volume: Volume | None = None
    potassium_iodide: Salt | None = None
    sparger: Literal["open tube", "stone", "frit"] | None = None


class AcidSection(Section):
    kind: Annotated[str, BeforeValidator(reported(_acid))]
    amount: Volume
    concentration: Concentration
    when: Literal["before", "after"] | None = None


class AbsorberSection(Section):
    bottles: tuple[BottleSection, ...] = ()
    acid: AcidSection | None = None


class TitrantSection(Section):
    concentration: Concentration | None = None
    standard: Annotated[str | None, BeforeValidator(reported(_standard))] = None
    mass: Mass | None = None
    purity: Purity | None = None
    flask: Flask | None = None
    aliquot: Pipette | None = None
    titre: Titres | None = None
    blank: Titre | None = None
    temperature: Temperature | None = None
    standardised: date | None = None

    @model_validator(mode="after")
    def _agrees(self) -> Self:
        if self.concentration is not None:
            given = [
                name
                for name in ("standard", "mass", "purity", "flask", "aliquot", "titre", "blank")
                if getattr(self, name) is not None
            ]
            if given:
                raise carried(
                    Inconsistent(
                        "the titrant is stated twice",
                        where=given[0],
                        fix="Give its concentration, or its standard, not both.",
                    )
                )
            return self
        if self.standard is None:
            raise carried(
                MissingValue(
                    "nothing says how strong the titrant is",
                    where="concentration",
                    fix='Write concentration = "0.0510 mol/L", or the standard '
                    "with its mass, flask, aliquot and titre.",
                )
            )
        needed = ["mass", "flask"]
        if not str(self.standard).startswith("sodium thiosulfate"):
            needed += ["aliquot", "titre"]
        for name in needed:
            if getattr(self, name) is None:
                raise carried(
                    MissingValue(
                        f"the standardisation needs its {name}",
                        where=name,
                        fix="Write it as it was read, with its unit.",
                    )
                )
        if self.aliquot and self.flask and self.aliquot.value > self.flask.value:
            raise carried(
                Inconsistent(
                    "the aliquot is larger than its flask",
                    where="aliquot",
                    got=self.aliquot.text,
                    fix="Exchange the two.",
                )
            )
        if self.titre and min(t.value for t in self.titre) <= (
            self.blank.value if self.blank else 0.0
        ):
            raise carried(
                Inconsistent(
                    "the titre must be above its blank",
                    where="titre",
                    got=self.titre[0].text,
                    fix="Type the volume used.",
                )
            )
        return self


class TitrationSection(Section):
    titres: tuple[Titres, ...]
    titrant: TitrantSection
    blank: Titres | None = None
    burette: BuretteText | None = None
    aliquot: Pipette | None = None
    made_up_to: Flask | None = None
    end_point: Spread | None = None
    temperature: Temperature | None = None

    @model_validator(mode="after")
    def _agrees(self) -> Self:
        if not self.titres:
            raise carried(
                MissingValue(
                    "no titre is given",
                    where="titres",
                    fix='Write titres = [ "28.46 mL" ], one for each bottle.',
                )
            )
        if self.blank and len(self.blank) not in (1, len(self.titres)):
            raise carried(
                Inconsistent(
                    f"{len(self.blank)} blanks for {len(self.titres)} bottles",
                    where="blank",
                    fix="Write one blank for all bottles, or one for each.",
                )
            )
        if (self.aliquot is None) != (self.made_up_to is None):
            where = "made_up_to" if self.made_up_to is None else "aliquot"
            raise carried(
                MissingValue(
                    "an aliquot needs the volume it was taken from",
                    where=where,
                    fix='Write aliquot = "50.00 mL" and made_up_to = "250 mL".',
                )
            )
        if self.aliquot and self.made_up_to and self.aliquot.value > self.made_up_to.value:
            raise carried(
                Inconsistent(
                    "the aliquot is larger than what it was taken from",
                    where="aliquot",
                    got=self.aliquot.text,
                    fix="Exchange the two.",
                )
            )
        return self


class RunSection(Section):
    label: str | None = None
    by: str | None = None
    remark: str | None = None
    setting: str | None = None
    rig: str | None = None
    room: str | None = None
    started: datetime | None = None
    on_time: Duration | None = None
    start: Literal["cold", "warm", "diverted"] | None = None
    rest_before: Rest | None = None
    discharge: Literal["on", "off"] = "on"
    collected: Collected | None = None
    rate: Rate | None = None


class RunDocument(Section):
    """One run with its sections."""

    run: RunSection
    gas: GasSection = GasSection()
    electrical: ElectricalSection = ElectricalSection()
    absorber: AbsorberSection = AbsorberSection()
    titration: TitrationSection | None = None

    @model_validator(mode="after")
    def _agrees(self) -> Self:
        run = self.run
        if self.titration is None and run.collected is None and run.rate is None:
            raise carried(
                MissingValue(
                    "nothing says how much ozone came",
                    where="titration",
                    fix="Give titres and the titrant, or run.collected, or run.rate.",
                )
            )
        if run.on_time is None and run.rate is None:
            raise carried(
                MissingValue(
                    "the on-time is missing",
                    where="run.on_time",
                    fix='Write on_time = "240 s ± 1.5 s".',
                )
            )
        bottles = self.absorber.bottles
        if self.titration and bottles and len(bottles) != len(self.titration.titres):
            raise carried(
                Inconsistent(
                    f"{len(self.titration.titres)} titres for {len(bottles)} bottles",
                    where="titration.titres",
                    fix="Write one titre for each bottle, in flow order; several readings of one "
                    'bottle are a list: [ [ "28.46 mL", "28.50 mL" ], "1.02 mL" ].',
                )
            )
        return self
