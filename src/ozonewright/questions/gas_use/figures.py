"""The figures that carry an uncertainty, from the readings."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ozonewright.physics.gas.cylinder import amount_in_cylinder, compressibility_factor
from ozonewright.physics.gas.flow import molar_flow
from ozonewright.questions.gas_use.supply import Bottled, Supply
from ozonewright.references.constants import M_O3, NORMAL_PRESSURE, NORMAL_TEMPERATURE
from ozonewright.references.limits import limit
from ozonewright.uncertain import Measured
from ozonewright.units import Kind

ROOM = Measured(NORMAL_TEMPERATURE + 20.0, 5.0, "temperature", Kind.TEMPERATURE, basis="assumed")
"""Taken where no temperature is stated, and named: 20 ± 5 °C (common practice, no source)."""
AIR = Measured(NORMAL_PRESSURE, 3e3, "ambient pressure", Kind.PRESSURE, basis="assumed")
"""Taken where none is stated, and named: 101.3 ± 3 kPa (common practice, no source)."""
Values = Mapping[str, Any]


def reserve_of(supply: Supply) -> Bottled:
    if supply.reserve is not None:
        return supply.reserve
    usual = limit("CYLINDER_RESERVE").value
    return Bottled(Measured(usual, 0.0, "reserve", Kind.CYLINDER_PRESSURE), gauge=True)


def absolute(pressure: Bottled, ambient: Any, value: Any = None) -> Any:
    stated = pressure.value.value if value is None else value
    return stated + ambient if pressure.gauge else stated


def inputs_of(supply: Supply, temperature: Measured, ambient: Measured) -> dict[str, Measured]:
    inputs = {
        "volume": supply.volume,
        "pressure": supply.pressure.value,
        "temperature": temperature,
        "ambient": ambient,
        "flow": supply.flow,
    }
    if supply.full is not None:
        inputs["full"] = supply.full.value
    if supply.output is not None:
        inputs["output"] = supply.output
    return inputs


def factor_at(supply: Supply, values: Values) -> Any:
    pressure = absolute(supply.pressure, values["ambient"], values["pressure"])
    return compressibility_factor(
        gas=supply.gas, temperature=values["temperature"], pressure=pressure
    )


def amount_at(supply: Supply, values: Values, pressure: Any) -> Any:
    temperature = values["temperature"]
    return amount_in_cylinder(
        volume=values["volume"],
        temperature=temperature,
        pressure=pressure,
        compressibility=compressibility_factor(
            gas=supply.gas, temperature=temperature, pressure=pressure
        ),
    )


def figures(supply: Supply, values: Values) -> dict[str, Any]:
    """Return every figure that carries an uncertainty; SI, prices per second, kilogram and mole."""
    ambient = values["ambient"]
    content = amount_at(supply, values, absolute(supply.pressure, ambient, values["pressure"]))
    left = amount_at(supply, values, absolute(reserve_of(supply), ambient))
    usable, flow = content - left, _flow(supply, values)
    time = usable / flow
    found = {"content": content, "usable": usable, "flow": flow, "time": time}
    rest = supply.rest
    duty = rest.duty if rest else 1.0
    runs_on = rest is not None and rest.gas != "stops"
    if rest is not None:
        found["clock"] = time if runs_on else time / duty
        found["discharge"] = time * duty if runs_on else time
    price = supply.money.price
    if price is None:
        return found
    bought = usable
    if supply.full is not None:
        bought = amount_at(supply, values, absolute(supply.full, ambient, values["full"])) - left
    found["per_hour"] = price / bought * flow
    if supply.output is not None:
        found["per_mmol"] = found["per_hour"] / values["output"] / (duty if runs_on else 1.0)
        found["per_gram"] = found["per_mmol"] / M_O3
    return found


def _flow(supply: Supply, values: Values) -> Any:
    if supply.flow.kind is Kind.NORMAL_FLOW:
        return values["flow"]
    return molar_flow(
        volume_flow=values["flow"],
        temperature=values["temperature"],
        pressure=values["ambient"],
        water_fraction=0.0,
    )
