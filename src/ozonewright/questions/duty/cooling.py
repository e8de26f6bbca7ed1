"""What a fan would bring: air through the box, and the same air on the tube."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from ozonewright.errors import MissingValue
from ozonewright.physics.gas.transport import viscosity_sutherland
from ozonewright.physics.generator.box_air import (
    air_density,
    air_needed,
    air_rise,
    fan_flow,
    opening_resistance,
)
from ozonewright.physics.generator.cooling import rise_of_heat
from ozonewright.questions.duty.result import CoolingRow
from ozonewright.references.constants import NORMAL_PRESSURE
from ozonewright.references.gas_viscosity import viscosities
from ozonewright.results import Note
from ozonewright.uncertain import Estimate, Measured, Propagated, propagate
from ozonewright.units import Kind, size

FILMS = Measured(1.0, 0.15, "film correlations", Kind.DIMENSIONLESS, basis="common practice")
"""What stream and shape of a real tube leave open (common practice, no source)."""
DISCHARGE = Measured(
    0.6, 0.06, "discharge of openings", Kind.DIMENSIONLESS, basis="common practice"
)
"""Of sharp openings and grilles (common practice, no source)."""
WANTED = 10.0 * size(Kind.TEMPERATURE_DIFFERENCE, "K")
"""Rise of the air in the box for which the air needed is told (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Fan:
    """Heat, tube, fan and box; None means not stated."""

    heat: Measured
    diameter: Measured
    length: Measured
    ambient: Measured | None
    free_flow: Measured | None = None
    shut_off: Measured | None = None
    openings: Measured | None = None
    """Free area in, and as much out. [m2]"""
    box_section: Measured | None = None
    """Across which the air passes the tube. [m2]"""
    fan_area: Measured | None = None
    """Of the fan's outlet, whose jet meets the tube. [m2]"""

    @property
    def derated(self) -> bool:
        """Whether the flow against the openings can be told."""
        return self.shut_off is not None and self.openings is not None


def cooling(fan: Fan) -> tuple[tuple[CoolingRow, ...], Estimate]:
    """Return the tube's steady temperature in still air, through the box, on the tube.

    Beside them the air that would keep the box within 10 K.
    """
    if fan.ambient is None:
        raise MissingValue(
            "the air around the box must be known", where="ambient", fix='Write it as "25 °C".'
        )
    found = propagate(_calculation(fan), _inputs(fan))
    return tuple(_rows(fan, found)), _estimate(found, "needed")


def _inputs(fan: Fan) -> dict[str, Measured]:
    every = {
        "heat": fan.heat, "diameter": fan.diameter, "length": fan.length, "ambient": fan.ambient,
        "free_flow": fan.free_flow, "shut_off": fan.shut_off, "openings": fan.openings,
        "box_section": fan.box_section, "fan_area": fan.fan_area, "films": FILMS,
        "discharge": DISCHARGE,
    }  # fmt: skip
    return {name: value for name, value in every.items() if value is not None}


def _calculation(fan: Fan) -> Any:
    def calculation(**v: Any) -> Mapping[str, Any]:
        around = {"temperature": v["ambient"], "pressure": NORMAL_PRESSURE}
        out = {
            "needed": air_needed(heat=v["heat"], rise=WANTED, **around),
            "still": v["ambient"] + _rise(v, v["ambient"], 0.0),
        }
        if "free_flow" not in v:
            return out
        flow = _flow(fan, v)
        air = v["ambient"] + air_rise(heat=v["heat"], flow=flow, **around)
        out |= {"flow": 1.0 * flow, "air": air}
        for way, name in WAYS.items():
            if name in v:
                out[f"{way} velocity"] = flow / v[name]
                out[way] = air + _rise(v, air, flow / v[name])
        return out

    return calculation


WAYS = {"through the box": "box_section", "on the tube": "fan_area"}


def _flow(fan: Fan, v: Mapping[str, Any]) -> Any:
    if not fan.derated:
        return v["free_flow"]
    density = air_density(temperature=v["ambient"], pressure=NORMAL_PRESSURE)
    resistance = opening_resistance(area=v["openings"], density=density, discharge=v["discharge"])
    return fan_flow(free_flow=v["free_flow"], shut_off=v["shut_off"], resistance=resistance)


def _rise(v: Mapping[str, Any], air: Any, velocity: Any) -> Any:
    gas = viscosities()["air"]
    viscosity = viscosity_sutherland(
        temperature=air, at_zero=gas.at_zero, sutherland=gas.sutherland
    )
    return rise_of_heat(
        heat=v["heat"],
        air=air,
        pressure=NORMAL_PRESSURE,
        velocity=velocity,
        diameter=v["diameter"],
        length=v["length"],
        viscosity=viscosity,
        films=v["films"],
    )


def _rows(fan: Fan, found: Propagated) -> Iterator[CoolingRow]:
    assert fan.ambient is not None
    yield CoolingRow(
        way="still air, free all around",
        air_temperature=fan.ambient.value,
        temperature=_estimate(found, "still"),
    )
    for way in WAYS:
        if way in found:
            yield CoolingRow(
                way=way,
                flow=_estimate(found, "flow"),
                velocity=_estimate(found, f"{way} velocity"),
                air_temperature=_estimate(found, "air"),
                temperature=_estimate(found, way),
            )


def _estimate(found: Propagated, name: str) -> Estimate:
    return found[name]


def cooling_notes(fan: Fan) -> Iterator[Note]:
    """Yield what the figures rest on."""
    yield Note("duty-cooling-model", "doubt")
    if fan.free_flow is None:
        yield Note("duty-no-fan", "advice")
        return
    if not fan.derated:
        yield Note("duty-fan-free", "doubt")
    if fan.box_section is None and fan.fan_area is None:
        yield Note("duty-fan-nowhere", "advice")
