"""The run document: what a person writes down about one run."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime
from typing import Annotated, Literal

from ozonewright.documents.photometry import (
    IndigoSection,
    TriiodideSection,
    UltravioletSection,
)
from ozonewright.documents.section import Given, Reader, Section
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
    typed,
)
from ozonewright.errors import (
    AppError,
    Faults,
    Inconsistent,
    InputError,
    MissingValue,
    UnitError,
    nearest,
)
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
BY_STANDARD = ("standard", "mass", "purity", "flask", "aliquot", "titre", "blank")
"""Fields of a titrant known by its standard."""


def feed_of(value: object) -> str | dict[str, Typed]:
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
    faults: list[AppError] = []
    for gas, text in value.items():
        try:
            parts[gas] = _part(gas, text)
        except AppError as error:
            faults.append(error.at(gas))
    if faults:
        raise Faults(faults)
    total = sum(part.value for part in parts.values())
    if abs(total - 1.0) > 0.005:
        raise Inconsistent(
            f"the parts of the feed add up to {100 * total:.4g} vol%",
            got=str(value),
            fix="They must add up to 100 ± 0.5 vol%; nitrogen or argon missing?",
        )
    return parts


def _part(gas: str, text: object) -> Typed:
    if gas not in GASES:
        raise InputError(f"{gas} is no gas known here", fix=nearest(gas, GASES))
    return typed(text, (Kind.MOLE_FRACTION,), least=0.0, most=1.0)


def _standard(value: object) -> str:
    if value not in STANDARDS:
        raise InputError(
            "this standard is not known", got=str(value), fix=nearest(str(value), STANDARDS)
        )
    return str(value)


def _acid(value: object) -> str:
    return acid(str(value)).name


def _larger(given: Given, part: str, whole: str, what: str) -> Iterator[AppError]:
    """Yield that a part is larger than what it was taken from."""
    one, other = given[part], given[whole]
    if one and other and one.value > other.value:
        yield Inconsistent(what, where=part, got=one.text, fix="Exchange the two.")


class MeterSection(Section):
    kind: Literal["volume", "mass", "rotameter", "wet", "displacement"] = "volume"
    at: Literal["before tube", "after bottles", "after destruct"] = "before tube"
    calibrated_for: Literal["air", "oxygen", "nitrogen", "argon"] | None = None
    calibrated_temperature: Temperature | None = None
    calibrated_pressure: Pressure | None = None
    dried: bool = False

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        if given["kind"] == "rotameter" and "calibrated_for" not in given:
            yield MissingValue(
                "for which gas is its scale?",
                where="calibrated_for",
                fix='Write calibrated_for = "air", or kind = "volume" for a flow that is '
                "corrected already.",
            )


class GasSection(Section):
    feed: Annotated[str | dict[str, Typed] | None, Reader(feed_of)] = None
    dew_point: Temperature | None = None
    flow: Flow | None = None
    meter: MeterSection = MeterSection()
    temperature: Temperature | None = None
    pressure: Pressure | None = None

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        flow, meter = given["flow"], given["meter"]
        if flow is None or meter is None:
            return
        normal = flow.kind is Kind.NORMAL_FLOW
        if meter.kind == "mass" and not normal:
            yield Inconsistent(
                "a mass meter reads a normal flow",
                where="flow",
                got=flow.text,
                fix='Write "0.74 NL/min".',
            )
        if meter.kind == "rotameter" and normal:
            yield Inconsistent(
                "a rotameter reads a volume flow",
                where="flow",
                got=flow.text,
                fix='Write the reading in "L/min" with temperature and pressure, or meter kind '
                '"mass" for a flow that is normal already.',
            )


class ElectricalSection(Section):
    power: Power | None = None
    at: Literal["plug", "discharge"] = "plug"
    discharge_power: Power | None = None
    wall: Temperature | None = None

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        if "discharge_power" in given and "power" in given and given["at"] == "discharge":
            yield Inconsistent(
                "the power of the discharge is told twice",
                where="discharge_power",
                fix='Leave out at = "discharge" if power is at the plug, else discharge_power.',
            )


class BottleSection(Section):
    volume: Volume | None = None
    potassium_iodide: Salt | None = None
    sparger: Literal["open tube", "stone", "frit"] | None = None


class AcidSection(Section):
    kind: Annotated[str, Reader(_acid)]
    amount: Volume
    concentration: Concentration
    when: Literal["before", "after"] | None = None


class AbsorberSection(Section):
    bottles: tuple[BottleSection, ...] = ()
    acid: AcidSection | None = None


class TitrantSection(Section):
    concentration: Concentration | None = None
    standard: Annotated[str | None, Reader(_standard)] = None
    mass: Mass | None = None
    purity: Purity | None = None
    flask: Flask | None = None
    aliquot: Pipette | None = None
    titre: Titres | None = None
    blank: Titre | None = None
    temperature: Temperature | None = None
    standardised: date | None = None

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        if "concentration" in given:
            twice = [name for name in BY_STANDARD if name in given]
            if twice:
                yield Inconsistent(
                    "the titrant is stated twice",
                    where=twice[0],
                    fix="Give its concentration, or its standard, not both.",
                )
            return
        if "standard" not in given:
            yield MissingValue(
                "nothing says how strong the titrant is",
                where="concentration",
                fix='Write concentration = "0.0510 mol/L", or the standard with its mass, flask, '
                "aliquot and titre.",
            )
            return
        by_weight = str(given["standard"]).startswith("sodium thiosulfate")
        for name in ("mass", "flask") if by_weight else ("mass", "flask", "aliquot", "titre"):
            if name not in given:
                yield MissingValue(
                    f"the standardisation needs its {name}",
                    where=name,
                    fix="Write it as it was read, with its unit.",
                )
        yield from _larger(given, "aliquot", "flask", "the aliquot is larger than its flask")
        titres, blank = given["titre"], given["blank"]
        if titres and min(one.value for one in titres) <= (blank.value if blank else 0.0):
            yield Inconsistent(
                "the titre must be above its blank",
                where="titre",
                got=titres[0].text,
                fix="Type the volume used.",
            )


class TitrationSection(Section):
    titres: tuple[Titres, ...]
    titrant: TitrantSection
    blank: Titres | None = None
    burette: BuretteText | None = None
    aliquot: Pipette | None = None
    made_up_to: Flask | None = None
    end_point: Spread | None = None
    temperature: Temperature | None = None

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        titres, blanks = given["titres"], given["blank"]
        if titres == ():
            yield MissingValue(
                "no titre is given",
                where="titres",
                fix='Write titres = [ "28.46 mL" ], one for each bottle.',
            )
        if titres and blanks and len(blanks) not in (1, len(titres)):
            yield Inconsistent(
                f"{len(blanks)} blanks for {len(titres)} bottles",
                where="blank",
                fix="Write one blank for all bottles, or one for each.",
            )
        if ("aliquot" in given) != ("made_up_to" in given):
            yield MissingValue(
                "an aliquot needs the volume it was taken from",
                where="aliquot" if "made_up_to" in given else "made_up_to",
                fix='Write aliquot = "50.00 mL" and made_up_to = "250 mL".',
            )
        yield from _larger(
            given, "aliquot", "made_up_to", "the aliquot is larger than what it was taken from"
        )


ASSAYS = ("titration", "triiodide", "ultraviolet")
"""Each says by itself how much ozone came."""


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
    triiodide: TriiodideSection | None = None
    ultraviolet: UltravioletSection | None = None
    indigo: IndigoSection | None = None

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        run, titration = given["run"], given["titration"]
        if run is None:
            return
        assays = [name for name in ASSAYS if name in given]
        if not assays and "indigo" not in given and run.collected is None and run.rate is None:
            yield MissingValue(
                "nothing says how much ozone came",
                where="titration",
                fix="Give titres and the titrant, or run.collected, or run.rate.",
            )
        if len(assays) > 1:
            yield Inconsistent(
                "two assays of one run",
                where=assays[1],
                got=" and ".join(assays),
                fix="Give each a run of its own, so that they can be compared.",
            )
        bottles = given["absorber"].bottles if given["absorber"] else ()
        if titration and bottles and len(bottles) != len(titration.titres):
            yield Inconsistent(
                f"{len(titration.titres)} titres for {len(bottles)} bottles",
                where="titration.titres",
                fix="Write one titre for each bottle, in flow order; several readings of one "
                'bottle are a list: [ [ "28.46 mL", "28.50 mL" ], "1.02 mL" ].',
            )
