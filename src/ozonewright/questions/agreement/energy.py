"""Cases about energy: the least that ozone can cost, and the yield at the plug."""

from __future__ import annotations

import numpy as np

from ozonewright.physics.generator.electrical import (
    discharge_power_manley_1943,
    gap_capacitance,
    ignition_voltage,
)
from ozonewright.physics.generator.energy import highest_yield
from ozonewright.physics.generator.loop import loop_area
from ozonewright.questions.agreement.reading import Binding, Found, Inputs, si
from ozonewright.units import Kind, number, parse


def _limit(inputs: Inputs) -> dict[str, Found]:
    enthalpy = si(inputs, "formation_enthalpy", Kind.MOLAR_ENERGY)
    best = float(highest_yield(formation_enthalpy=enthalpy))
    return {
        "yield": Found(best, Kind.YIELD),
        "energy": Found(1.0 / number(best, Kind.YIELD, "kg/kWh"), "kWh/kg"),
    }


def _share_of_limit(inputs: Inputs) -> dict[str, Found]:
    reached = si(inputs, "yield", Kind.YIELD)
    return {"share": Found(reached / _limit(inputs)["yield"].value, Kind.SHARE)}


def _yield(inputs: Inputs) -> dict[str, Found]:
    rate, power = si(inputs, "rate", Kind.MASS_RATE), si(inputs, "power", Kind.POWER)
    return {"yield": Found(rate / power, Kind.YIELD)}


def _discharge(inputs: Inputs) -> dict[str, Found]:
    tube = {
        "dielectric_capacitance": si(inputs, "dielectric", Kind.CAPACITANCE),
        "gap_capacitance": si(inputs, "gap", Kind.CAPACITANCE),
        "gap_voltage": si(inputs, "gap_voltage", Kind.VOLTAGE),
    }
    power = discharge_power_manley_1943(
        frequency=si(inputs, "frequency", Kind.FREQUENCY),
        peak_voltage=si(inputs, "voltage", Kind.PEAK_VOLTAGE),
        **tube,
    )
    return {
        "power": Found(float(power), Kind.POWER),
        "ignition": Found(float(ignition_voltage(**tube)), Kind.VOLTAGE),
    }


def _parallelogram(inputs: Inputs) -> dict[str, Found]:
    corners = [corner.split(", ") for corner in inputs["corners"]]
    voltage = np.array([parse(v, Kind.VOLTAGE) for v, _ in (*corners, corners[0])])
    charge = np.array([parse(q, Kind.CHARGE) for _, q in (*corners, corners[0])])
    energy = loop_area(voltage=voltage, charge=charge)
    return {"power": Found(energy * si(inputs, "frequency", Kind.FREQUENCY), Kind.POWER)}


def _gap(inputs: Inputs) -> dict[str, Found]:
    found = gap_capacitance(
        dielectric_capacitance=si(inputs, "dielectric", Kind.CAPACITANCE),
        cell_capacitance=si(inputs, "cell", Kind.CAPACITANCE),
    )
    return {"gap": Found(float(found), Kind.CAPACITANCE)}


BINDINGS: dict[str, Binding] = {
    "energy.limit": _limit,
    "energy.share_of_limit": _share_of_limit,
    "energy.yield": _yield,
    "energy.discharge": _discharge,
    "energy.parallelogram": _parallelogram,
    "energy.gap_capacitance": _gap,
}
