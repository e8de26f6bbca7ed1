"""Cases about gas lines: friction, bubbles, depth, viscosity."""

from __future__ import annotations

from math import pi

from ozonewright.physics.gas.parts.compressible import inlet_pressure, mass_flux_square
from ozonewright.physics.gas.parts.law import Gas
from ozonewright.physics.gas.parts.threshold import bubble_point, static_head
from ozonewright.physics.gas.transport import viscosity_sutherland
from ozonewright.questions.agreement.reading import Binding, Found, Inputs, si
from ozonewright.references.gas_viscosity import MICRO, viscosities
from ozonewright.references.liquid_surface import DENSITY_AT, SURFACE_AT, liquid
from ozonewright.units import Kind


def _resistance(inputs: Inputs) -> float:
    factor = si(inputs, "friction_factor", Kind.DIMENSIONLESS)
    return factor * si(inputs, "length", Kind.LENGTH) / si(inputs, "bore", Kind.LENGTH)


def _square(inputs: Inputs) -> float:
    mass = si(inputs, "molar_mass", Kind.MOLAR_MASS)
    gas = Gas(mass, 0.0, si(inputs, "temperature", Kind.TEMPERATURE))
    flow = si(inputs, "flow", Kind.MASS_RATE) / mass
    area = 0.25 * pi * si(inputs, "bore", Kind.LENGTH) ** 2
    return mass_flux_square(flow=flow, area=area, gas=gas)


def _inlet_pressure(inputs: Inputs) -> dict[str, Found]:
    pressure = inlet_pressure(
        square=_square(inputs),
        resistance=_resistance(inputs),
        outlet_pressure=si(inputs, "outlet_pressure", Kind.PRESSURE),
    )
    return {"pressure": Found(pressure, Kind.PRESSURE)}


def _inlet_pressure_from_numbers(inputs: Inputs) -> dict[str, Found]:
    over = si(inputs, "rt_over_velocity_square", Kind.DIMENSIONLESS)
    pressure = inlet_pressure(
        square=si(inputs, "inlet_pressure", Kind.PRESSURE) ** 2 / over,
        resistance=si(inputs, "resistance", Kind.DIMENSIONLESS),
        outlet_pressure=si(inputs, "outlet_pressure", Kind.PRESSURE),
    )
    return {"pressure": Found(pressure, Kind.PRESSURE)}


def _bubble_point(inputs: Inputs) -> dict[str, Found]:
    known = liquid(inputs["liquid"])
    warmer = si(inputs, "temperature", Kind.TEMPERATURE) - SURFACE_AT
    pressure = bubble_point(
        surface_tension=known.surface_tension + known.surface_slope * warmer,
        pore=si(inputs, "pore", Kind.LENGTH),
    )
    return {"pressure": Found(float(pressure), Kind.PRESSURE_DIFFERENCE)}


def _static_head(inputs: Inputs) -> dict[str, Found]:
    known = liquid(inputs["liquid"])
    warmer = si(inputs, "temperature", Kind.TEMPERATURE) - DENSITY_AT
    density = known.density + known.density_slope * warmer
    pressure = static_head(density=density, depth=si(inputs, "depth", Kind.LENGTH))
    return {"pressure": Found(float(pressure), Kind.PRESSURE_DIFFERENCE)}


def _viscosity(inputs: Inputs) -> dict[str, Found]:
    figures = viscosities()[inputs["gas"]]
    temperature = si(inputs, "temperature", Kind.TEMPERATURE)
    viscosity = viscosity_sutherland(temperature=temperature, **figures._asdict())
    return {"viscosity": Found(float(viscosity) / MICRO, "µPa s")}


BINDINGS: dict[str, Binding] = {
    "gas_line.bubble_point": _bubble_point,
    "gas_line.inlet_pressure": _inlet_pressure,
    "gas_line.inlet_pressure_from_numbers": _inlet_pressure_from_numbers,
    "gas_line.static_head": _static_head,
    "gas_line.viscosity": _viscosity,
}
