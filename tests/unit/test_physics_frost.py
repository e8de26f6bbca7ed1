"""Frost point and the ways to say how much of a gas there is."""

from __future__ import annotations

import numpy as np
import pytest

from ozonewright.physics.gas import composition, frost, water


@pytest.mark.parametrize("temperature", [140.0, 180.0, 213.15, 250.0, 273.16])
def test_frost_point_is_the_inverse_of_the_ice_curve(temperature: float) -> None:
    pressure = water.saturation_pressure_ice(temperature=temperature)
    assert frost.frost_point(water_pressure=pressure) == pytest.approx(temperature, abs=1e-9)


def test_frost_point_of_an_array() -> None:
    # IAPWS R14-08(2011), table 3: 8.94735 Pa at 230 K; triple point 611.657 Pa at 273.16 K.
    found = frost.frost_point(water_pressure=np.array([8.94735, 611.657]))
    assert found == pytest.approx([230.0, 273.16], abs=1e-5)


def test_molar_volume_of_the_normal_state() -> None:
    # CODATA 2018: 22.41396954 L/mol.
    volume = composition.molar_volume(temperature=273.15, pressure=101325.0)
    assert volume == pytest.approx(22.41396954e-3, rel=1e-8)


def test_concentration_and_mole_fraction_are_inverse() -> None:
    # One mole of pure ozone weighs 47.997 g (IUPAC atomic weight 15.999).
    assert composition.ozone_concentration(mole_fraction=1.0) == pytest.approx(47.997e-3)
    assert composition.ozone_mole_fraction(concentration=47.997e-3) == pytest.approx(1.0)


def test_mole_fraction_of_a_gas_as_heavy_as_its_carrier() -> None:
    found = composition.mole_fraction_of(
        mass_fraction=np.array([0.0, 0.25, 1.0]), molar_mass=0.03, carrier_molar_mass=0.03
    )
    assert found == pytest.approx([0.0, 0.25, 1.0])
    # By hand: 18 g of water in 29 g of air is half of the moles.
    half = composition.mole_fraction_of(
        mass_fraction=18.0 / 47.0, molar_mass=0.018, carrier_molar_mass=0.029
    )
    assert half == pytest.approx(0.5)
