"""The room that a rig stands in, and what the suppliers give, in plain figures."""

from __future__ import annotations

from dataclasses import dataclass

from ozonewright.physics.gas.flow import molar_flow
from ozonewright.physics.gas.network.mixing import Mixture, gas_of, water_ratio
from ozonewright.physics.gas.parts.law import Gas
from ozonewright.physics.gas.water import saturation_pressure_water, water_fraction
from ozonewright.records.rig import Part, Rig
from ozonewright.records.run import Feed
from ozonewright.references.constants import NORMAL_PRESSURE, NORMAL_TEMPERATURE
from ozonewright.references.gases import DRY_AIR
from ozonewright.uncertain import Measured
from ozonewright.units import Kind

USUAL_TEMPERATURE = NORMAL_TEMPERATURE + 20.0
"""Taken where the rig does not state the room's, and told. [K]"""


@dataclass(frozen=True, slots=True)
class Room:
    """Air around the rig."""

    temperature: float
    pressure: float
    air: Mixture

    @property
    def gas(self) -> Gas:
        """The room's air as a part meets it."""
        return gas_of(mixture=self.air, temperature=self.temperature)

    def molar(self, flow: Measured) -> float:
        """Return a stated flow as dry gas: a volume flow is of air at the room's conditions."""
        if flow.kind is Kind.NORMAL_FLOW:
            return flow.value
        water = self.air.water / (1.0 + self.air.water)
        return float(
            molar_flow(
                volume_flow=flow.value,
                temperature=self.temperature,
                pressure=self.pressure,
                water_fraction=water,
            )
        )


def room_of(rig: Rig) -> Room:
    """Return the room of a rig; what is not stated stands at 20 °C and 101.325 kPa, dry."""
    ambient = rig.ambient
    temperature = ambient.temperature.value if ambient.temperature else USUAL_TEMPERATURE
    pressure = ambient.pressure.value if ambient.pressure else NORMAL_PRESSURE
    water = 0.0
    if ambient.dew_point:
        water = water_ratio(temperature=ambient.dew_point.value, pressure=pressure)
    elif ambient.humidity:
        vapour = ambient.humidity.value * saturation_pressure_water(temperature=temperature)
        share = float(water_fraction(water_pressure=vapour, pressure=pressure))
        water = share / (1.0 - share)
    return Room(temperature, pressure, _dry(DRY_AIR_PARTS, water))


DRY_AIR_PARTS = {name: datum.value for name, datum in DRY_AIR.items()}


def _dry(parts: dict[str, float], water: float) -> Mixture:
    total = sum(parts.values())
    shares = {name: value / total for name, value in parts.items()}
    return Mixture(
        shares.get("oxygen", 0.0), shares.get("nitrogen", 0.0), shares.get("argon", 0.0), water
    )


def supplied(part: Part, room: Room) -> Mixture:
    """Return what a supplier gives."""
    feed = part.gas
    assert isinstance(feed, Feed)
    water = 0.0
    if feed.dew_point:
        water = water_ratio(temperature=feed.dew_point.value, pressure=room.pressure)
    elif feed.may_be_moist:
        water = room.air.water
    return _dry({name: share.value for name, share in feed.parts.items()}, water)
