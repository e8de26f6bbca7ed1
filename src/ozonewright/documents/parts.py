"""The parts of a gas line as a person writes them: one section for each kind."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from ozonewright.documents.part import PartSection, Passing
from ozonewright.documents.section import Given
from ozonewright.documents.suppliers import ConcentratorSection, CylinderSection, PumpSection
from ozonewright.documents.typed import (
    Above,
    Claimed,
    Concentration,
    CylinderPressure,
    Density,
    Depth,
    Flow,
    Gauge,
    Length,
    Loss,
    Mass,
    Part,
    Power,
    RateConstant,
    Temperature,
    Volume,
)
from ozonewright.errors import AppError, Inconsistent, MissingValue


class NeedleValveSection(Passing):
    pass


class FlowControllerSection(PartSection):
    flow: Flow
    least_drop: Above | None = None


class RotameterSection(PartSection):
    drop: Loss | None = None
    reading: Flow | None = None
    calibrated_for: Literal["air", "oxygen", "nitrogen", "argon"] | None = None
    calibrated_temperature: Temperature | None = None
    calibrated_pressure: CylinderPressure | None = None

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        if "reading" in given and "calibrated_for" not in given:
            yield MissingValue(
                "for which gas is its scale?",
                where="calibrated_for",
                fix='Write calibrated_for = "air", or another gas.',
            )


class TubeSection(PartSection):
    bore: Length
    length: Length
    roughness: Length | None = None
    bends: int = 0

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        if (given["bends"] or 0) < 0:
            yield Inconsistent(
                "fewer bends than none",
                where="bends",
                got=str(given["bends"]),
                fix="Count the right-angled bends.",
            )
        bore, rough = given["bore"], given["roughness"]
        if bore and rough and rough.value > 0.05 * bore.value:
            yield Inconsistent(
                "rougher than a twentieth of the bore",
                where="roughness",
                got=rough.text,
                fix="Smooth plastic and glass have about 1.5 µm; a tube narrower than its "
                "roughness has another bore.",
            )


class ConnectorSection(PartSection):
    bore: Length
    length: Length | None = None


class TeeSection(PartSection):
    pass


class CheckValveSection(Passing):
    cracking: Loss | None = None
    direction: Literal["forward", "reversed"] | None = None

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        yield from super().contradictions(given)
        cracking, at = given["cracking"], given["at"]
        if cracking and at and at.value <= cracking.value:
            yield Inconsistent(
                "gas passes at a pressure at which the valve is still shut",
                where="at",
                got=at.text,
                fix="Give the whole loss at that flow; it is above the cracking pressure.",
            )


class Packed(Passing):
    """A bed of grains."""

    bore: Length | None = None
    length: Length | None = None
    grain: Length | None = None
    void: Part | None = None
    mass: Mass | None = None


class DesiccantSection(Packed):
    content: str | None = None
    capacity: Part | None = None
    dew_point: Temperature | None = None


class DestructSection(Packed):
    content: str | None = None
    capacity: Mass | None = None
    wet: bool | None = None


class DischargeTubeSection(PartSection):
    bore: Length
    length: Length
    gap: Length | None = None
    power: Power | None = None
    wall_temperature: Temperature | None = None
    claimed: Claimed | None = None
    """What it is sold or known with."""

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        bore, gap = given["bore"], given["gap"]
        if bore and gap and gap.value >= bore.value / 2.0:
            yield Inconsistent(
                "the gap leaves no room for the inner wall",
                where="gap",
                got=gap.text,
                fix="The gap of an annulus is less than half the bore of its outer wall; leave it "
                "out for an open bore.",
            )


class SpargerSection(Passing):
    form: Literal["open tube", "stone", "frit"] | None = None
    bubble_point: Loss | None = None
    pore: Length | None = None
    bore: Length | None = None

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        yield from super().contradictions(given)
        if "bubble_point" in given and "pore" in given:
            yield Inconsistent(
                "the opening pressure is stated twice",
                where="pore",
                fix="Give the bubble point if it was measured, else the pore.",
            )
        opening, at = given["bubble_point"], given["at"]
        if opening and at and at.value <= opening.value:
            yield Inconsistent(
                "gas passes at a pressure below the bubble point",
                where="at",
                got=at.text,
                fix="Give the whole loss at that flow, without the depth of liquid.",
            )


class BottleSection(PartSection):
    liquid: str | None = None
    volume: Volume | None = None
    depth: Depth | None = None
    density: Density | None = None
    capacity: Volume | None = None
    bore: Length | None = None
    role: Literal["primary", "guard", "flask", "drying"] | None = None
    bath: Temperature | None = None
    potassium_iodide: Mass | None = None
    substrate: Concentration | None = None
    rate_constant: RateConstant | None = None
    sulfuric_acid: Concentration | None = None
    salt: Concentration | None = None

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        volume, capacity = given["volume"], given["capacity"]
        if volume and capacity and volume.value > capacity.value:
            yield Inconsistent(
                "more liquid than the bottle holds",
                where="volume",
                got=volume.text,
                fix="Exchange volume (of the liquid) and capacity (of the bottle).",
            )


class TailBottleSection(BottleSection):
    reagent: str | None = None
    mass: Mass | None = None
    concentration: Concentration | None = None


class SafetyBottleSection(PartSection):
    volume: Volume | None = None


class LeakSection(Passing):
    bore: Length | None = None

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        yield from super().contradictions(given)
        if ("bore" in given) == ("passes" in given):
            yield MissingValue(
                "how large is the leak?",
                where="bore",
                fix='Write bore = "0.3 mm" for a hole, or passes = "0.2 L/min" and at = "5 kPa", '
                "not both.",
            )


class VentSection(PartSection):
    to: Literal["room", "hood", "outdoors"] | None = None
    pressure: Gauge | None = None


class CapSection(PartSection):
    pass


PARTS: dict[str, type[PartSection]] = {
    "pump": PumpSection,
    "cylinder": CylinderSection,
    "concentrator": ConcentratorSection,
    "needle valve": NeedleValveSection,
    "flow controller": FlowControllerSection,
    "rotameter": RotameterSection,
    "tube": TubeSection,
    "connector": ConnectorSection,
    "barb": ConnectorSection,
    "tee": TeeSection,
    "manifold": TeeSection,
    "check valve": CheckValveSection,
    "desiccant column": DesiccantSection,
    "discharge tube": DischargeTubeSection,
    "safety bottle": SafetyBottleSection,
    "sparger": SpargerSection,
    "bottle": BottleSection,
    "tail bottle": TailBottleSection,
    "destruct": DestructSection,
    "destruct bed": DestructSection,
    "leak": LeakSection,
    "vent": VentSection,
    "cap": CapSection,
}
"""By the word of the trade. A new kind is one section and one line here."""
