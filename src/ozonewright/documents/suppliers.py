"""Parts that give gas: pump, cylinder, concentrator."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from ozonewright.documents.part import PartSection
from ozonewright.documents.section import Given
from ozonewright.documents.typed import (
    Above,
    CylinderPressure,
    Flow,
    Power,
    Temperature,
    Volume,
)
from ozonewright.documents.words import Curve, GasOf
from ozonewright.errors import AppError, Inconsistent, MissingValue


class PumpSection(PartSection):
    free_flow: Flow | None = None
    shut_off: Above | None = None
    curve: Curve | None = None
    outlets: int = 1
    flow_of: Literal["each outlet", "all outlets"] | None = None
    gas: GasOf = None
    dew_point: Temperature | None = None
    power: Power | None = None

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        if "curve" in given and ("free_flow" in given or "shut_off" in given):
            yield Inconsistent(
                "the pump is stated twice",
                where="curve",
                fix="Give its curve, or its free flow and shut-off pressure, not both.",
            )
        elif "curve" not in given:
            for field, example in (("free_flow", "3.0 L/min"), ("shut_off", "18 kPa")):
                if field not in given:
                    yield MissingValue(
                        "nothing says what the pump delivers",
                        where=field,
                        fix=f'Write {field} = "{example}", or curve = [ ["0 kPa", "3.0 L/min"], '
                        '["18 kPa", "0 L/min"] ].',
                    )
        outlets = given["outlets"]
        if outlets is not None and outlets < 1:
            yield Inconsistent(
                "a pump has an outlet", where="outlets", got=str(outlets), fix="Write outlets = 1."
            )
        if outlets is not None and outlets > 1 and "flow_of" not in given:
            yield MissingValue(
                "is this the flow of each outlet, or of all together?",
                where="flow_of",
                fix='Write flow_of = "each outlet" or flow_of = "all outlets".',
            )


class CylinderSection(PartSection):
    gas: GasOf
    dew_point: Temperature | None = None
    volume: Volume | None = None
    pressure: CylinderPressure | None = None
    regulator: Above | None = None
    flow: Flow | None = None

    @classmethod
    def contradictions(cls, given: Given) -> Iterator[AppError]:
        if ("regulator" in given) == ("flow" in given):
            yield MissingValue(
                "what does the regulator hold: a pressure or a flow?",
                where="regulator",
                fix='Write regulator = "50 kPa" for an outlet pressure, or flow = "0.5 L/min" for '
                "a regulator with a flow dial, not both.",
            )


class ConcentratorSection(PartSection):
    flow: Flow
    shut_off: Above
    gas: GasOf
    dew_point: Temperature | None = None
    power: Power | None = None
