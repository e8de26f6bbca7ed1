"""Cases about gas: amounts, fractions, water, the rotameter."""

from __future__ import annotations

from ozonewright.physics.gas.composition import (
    molar_volume,
    mole_fraction_of,
    ozone_concentration,
    ozone_mole_fraction,
)
from ozonewright.physics.gas.cylinder import amount_in_cylinder, compressibility_factor
from ozonewright.physics.gas.flow import (
    mass_fraction_from_mole_fraction,
    mass_per_volume,
    mean_molar_mass,
    molar_flow,
    ozone_mass_fraction,
    ozonised_flow,
    rotameter_flow,
)
from ozonewright.physics.gas.frost import frost_point
from ozonewright.physics.gas.water import (
    saturation_pressure_ice,
    saturation_pressure_water,
    water_fraction,
)
from ozonewright.questions.agreement.reading import Binding, Found, Inputs, carrier, si
from ozonewright.references.constants import M_H2O, M_O3
from ozonewright.references.gases import MOLAR_MASS
from ozonewright.units import Kind, number


def _at(inputs: Inputs, mole_fraction: float) -> dict[str, Found]:
    value = mass_per_volume(
        mole_fraction=mole_fraction,
        temperature=si(inputs, "temperature", Kind.TEMPERATURE),
        pressure=si(inputs, "pressure", Kind.PRESSURE),
    )
    return {"concentration": Found(float(value), Kind.MASS_CONCENTRATION)}


def _mass_per_volume(inputs: Inputs) -> dict[str, Found]:
    return _at(inputs, si(inputs, "mole_fraction", Kind.MOLE_FRACTION))


def _concentration_at(inputs: Inputs) -> dict[str, Found]:
    concentration = si(inputs, "concentration", Kind.NORMAL_CONCENTRATION)
    return _at(inputs, float(ozone_mole_fraction(concentration=concentration)))


def _mole_fraction(inputs: Inputs) -> float:
    return float(
        mole_fraction_of(
            mass_fraction=si(inputs, "mass_fraction", Kind.MASS_FRACTION),
            molar_mass=M_O3,
            carrier_molar_mass=carrier(inputs),
        )
    )


def _mass_per_volume_from_mass_fraction(inputs: Inputs) -> dict[str, Found]:
    return _at(inputs, _mole_fraction(inputs))


def _from_mass_fraction(inputs: Inputs) -> dict[str, Found]:
    share = _mole_fraction(inputs)
    concentration = float(ozone_concentration(mole_fraction=share))
    return {
        "mole_fraction": Found(share, Kind.MOLE_FRACTION),
        "concentration": Found(concentration, Kind.NORMAL_CONCENTRATION),
    }


def _fractions(inputs: Inputs) -> dict[str, Found]:
    concentration = si(inputs, "concentration", Kind.NORMAL_CONCENTRATION)
    share = ozone_mole_fraction(concentration=concentration)
    by_mass = mass_fraction_from_mole_fraction(
        mole_fraction=share, carrier_molar_mass=carrier(inputs)
    )
    return {
        "mole_fraction": Found(float(share), Kind.MOLE_FRACTION),
        "mass_fraction": Found(float(by_mass), Kind.MASS_FRACTION),
    }


def _molar_volume(inputs: Inputs) -> dict[str, Found]:
    volume = molar_volume(
        temperature=si(inputs, "temperature", Kind.TEMPERATURE),
        pressure=si(inputs, "pressure", Kind.PRESSURE),
    )
    return {"volume": Found(number(float(volume), Kind.VOLUME, "L"), "L/mol")}


def _cylinder(inputs: Inputs) -> dict[str, Found]:
    temperature = si(inputs, "temperature", Kind.TEMPERATURE)
    pressure = si(inputs, "pressure", Kind.PRESSURE)
    factor = compressibility_factor(gas=inputs["gas"], temperature=temperature, pressure=pressure)
    amount = amount_in_cylinder(
        volume=si(inputs, "volume", Kind.VOLUME),
        temperature=temperature,
        pressure=pressure,
        compressibility=factor,
    )
    return {
        "factor": Found(float(factor), Kind.DIMENSIONLESS),
        "mass": Found(float(amount) * MOLAR_MASS[inputs["gas"]], Kind.MASS),
    }


def _frost_point(inputs: Inputs) -> dict[str, Found]:
    share = si(inputs, "water", Kind.MOLE_FRACTION)
    point = frost_point(water_pressure=share * si(inputs, "pressure", Kind.PRESSURE))
    return {"frost_point": Found(float(point), Kind.TEMPERATURE)}


def _water_from_mass_fraction(inputs: Inputs) -> dict[str, Found]:
    share = mole_fraction_of(
        mass_fraction=si(inputs, "mass_fraction", Kind.MASS_FRACTION),
        molar_mass=M_H2O,
        carrier_molar_mass=carrier(inputs),
    )
    return {"water": Found(float(share), Kind.MOLE_FRACTION)}


def _over_water(inputs: Inputs) -> dict[str, Found]:
    pressure = saturation_pressure_water(temperature=si(inputs, "temperature", Kind.TEMPERATURE))
    return {"pressure": Found(float(pressure), Kind.PRESSURE)}


def _over_ice(inputs: Inputs) -> dict[str, Found]:
    pressure = saturation_pressure_ice(temperature=si(inputs, "temperature", Kind.TEMPERATURE))
    return {"pressure": Found(float(pressure), Kind.PRESSURE)}


def _water_share(inputs: Inputs) -> dict[str, Found]:
    share = water_fraction(
        water_pressure=_over_water(inputs)["pressure"].value,
        pressure=si(inputs, "pressure", Kind.PRESSURE),
    )
    return {"water": Found(float(share), Kind.MOLE_FRACTION)}


def _rotameter(inputs: Inputs) -> dict[str, Found]:
    temperature = si(inputs, "temperature", Kind.TEMPERATURE)
    pressure = si(inputs, "pressure", Kind.PRESSURE)
    flow = rotameter_flow(
        reading=si(inputs, "reading", Kind.VOLUME_FLOW),
        calibrated_molar_mass=carrier(inputs, "calibrated_for"),
        calibrated_temperature=temperature,
        calibrated_pressure=pressure,
        molar_mass=carrier(inputs, "gas"),
        temperature=temperature,
        pressure=pressure,
    )
    return {"flow": Found(float(flow), Kind.VOLUME_FLOW)}


def _ozonised(inputs: Inputs, measured: float, ozone: float) -> float:
    """Ozonised gas from what the meter saw; a destruct gives back the gas that the tube took."""
    if inputs["meter_at"] == "after bottles":
        return measured
    return float(ozonised_flow(feed_flow=measured, ozone_rate=ozone))


def _ozonised_amount(inputs: Inputs) -> dict[str, Found]:
    amount = _ozonised(
        inputs, si(inputs, "measured", Kind.AMOUNT), si(inputs, "ozone", Kind.AMOUNT)
    )
    return {"ozonised": Found(amount, Kind.AMOUNT)}


def _ozonised_concentration(inputs: Inputs) -> dict[str, Found]:
    rate = si(inputs, "ozone", Kind.MASS) / M_O3 / si(inputs, "on_time", Kind.TIME)
    feed = molar_flow(
        volume_flow=si(inputs, "flow", Kind.VOLUME_FLOW),
        temperature=si(inputs, "temperature", Kind.TEMPERATURE),
        pressure=si(inputs, "pressure", Kind.PRESSURE),
        water_fraction=0.0,
    )
    share = rate / _ozonised(inputs, float(feed), rate)
    parts = [name for name in MOLAR_MASS if name in inputs]
    by_mass = ozone_mass_fraction(
        ozone_rate=rate,
        feed_flow=feed,
        feed_molar_mass=mean_molar_mass(
            fractions=[si(inputs, name, Kind.MOLE_FRACTION) for name in parts],
            molar_masses=[MOLAR_MASS[name] for name in parts],
        ),
    )
    concentration = float(ozone_concentration(mole_fraction=share))
    return {
        "concentration": Found(concentration, Kind.NORMAL_CONCENTRATION),
        "mass_fraction": Found(float(by_mass), Kind.MASS_FRACTION),
        "mole_fraction": Found(share, Kind.MOLE_FRACTION),
    }


BINDINGS: dict[str, Binding] = {
    "gas.concentration_at": _concentration_at,
    "gas.fractions": _fractions,
    "gas.from_mass_fraction": _from_mass_fraction,
    "gas.frost_point": _frost_point,
    "gas.mass_per_volume": _mass_per_volume,
    "gas.mass_per_volume_from_mass_fraction": _mass_per_volume_from_mass_fraction,
    "gas.cylinder": _cylinder,
    "gas.molar_volume": _molar_volume,
    "gas.ozonised_amount": _ozonised_amount,
    "gas.ozonised_concentration": _ozonised_concentration,
    "gas.rotameter": _rotameter,
    "gas.saturation_pressure_ice": _over_ice,
    "gas.saturation_pressure_water": _over_water,
    "gas.water_from_mass_fraction": _water_from_mass_fraction,
    "gas.water_share": _water_share,
}
