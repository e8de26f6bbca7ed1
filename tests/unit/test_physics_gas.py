"""Gas: molar flow, mole balance of ozone, fractions, rotameter, water vapour."""

from __future__ import annotations

from math import exp, isclose, log

import numpy as np
import pytest

from ozonewright.physics.gas.composition import mole_fraction_of
from ozonewright.physics.gas.flow import (
    feed_flow,
    mass_fraction_from_mole_fraction,
    mass_per_volume,
    mean_molar_mass,
    molar_flow,
    ozone_mass_fraction,
    ozonised_flow,
    rotameter_flow,
    volume_flow,
)
from ozonewright.physics.gas.water import (
    CRITICAL_PRESSURE,
    CRITICAL_TEMPERATURE,
    TRIPLE_PRESSURE,
    TRIPLE_TEMPERATURE,
    saturation_pressure_ice,
    saturation_pressure_water,
    water_fraction,
)
from ozonewright.references.constants import M_O3

OXYGEN, NITROGEN, ARGON, OZONE = 31.998e-3, 28.014e-3, 39.95e-3, 47.997e-3
LITRE_PER_MINUTE = 1e-3 / 60.0


def test_a_normal_litre_is_the_molar_volume() -> None:
    # CODATA 2018, molar volume of an ideal gas (273.15 K, 101.325 kPa): 22.413 969 54 L/mol
    flow = molar_flow(
        volume_flow=22.41396954e-3, temperature=273.15, pressure=101325.0, water_fraction=0.0
    )
    assert isclose(flow, 1.0, rel_tol=1e-9)


def test_flow_of_the_worked_run() -> None:
    # design, section 4, by hand: 101.3 kPa × 0.80 L/min ÷ (8.3145 × 295.15 K) = 33.02 mmol/min
    flow = molar_flow(
        volume_flow=0.80 * LITRE_PER_MINUTE,
        temperature=295.15,
        pressure=101300.0,
        water_fraction=0.0,
    )
    assert isclose(flow * 60.0, 0.033024, rel_tol=1e-4)


def test_volume_of_a_mole_at_room_conditions() -> None:
    # CODATA 2018, molar volume (273.15 K, 100 kPa): 22.710 954 64 L/mol; and twice as warm
    flow = volume_flow(
        molar_flow=np.array([1.0, 2.0]), temperature=np.array([273.15, 546.3]), pressure=100000.0
    )
    assert flow == pytest.approx([22.71095464e-3, 4 * 22.71095464e-3], rel=1e-9)


@pytest.mark.parametrize(
    ("given", "times"),
    [
        ({"volume_flow": 2e-5}, 2.0),
        ({"pressure": 2e5}, 2.0),
        ({"temperature": 600.0}, 0.5),
        ({"water_fraction": 0.03}, 0.97),
        ({"water_fraction": 1.0}, 0.0),
        ({"volume_flow": 0.0}, 0.0),
    ],
)
def test_molar_flow_follows_the_ideal_gas(given: dict[str, float], times: float) -> None:
    base = {"volume_flow": 1e-5, "temperature": 300.0, "pressure": 1e5, "water_fraction": 0.0}
    assert isclose(molar_flow(**base | given), times * molar_flow(**base))


def test_three_oxygen_make_two_ozone() -> None:
    # 3 mol of oxygen wholly turned into 2 mol of ozone: the gas left is the ozone
    assert ozonised_flow(feed_flow=3.0, ozone_rate=2.0) == 2.0
    assert feed_flow(ozonised_flow=2.0, ozone_rate=2.0) == 3.0
    assert ozonised_flow(feed_flow=3.0, ozone_rate=0.0) == 3.0


def test_feed_and_ozonised_gas_are_inverse() -> None:
    feed, rate = np.array([1e-4, 5e-4, 1e-3]), np.array([0.0, 1e-5, 3e-5])
    behind = ozonised_flow(feed_flow=feed, ozone_rate=rate)
    assert np.allclose(feed_flow(ozonised_flow=behind, ozone_rate=rate), feed, rtol=1e-14)
    assert (behind <= feed).all()


def test_the_discharge_changes_no_mass() -> None:
    # mass of the feed = ozone + what is left of it, counted by atoms
    feed, rate = 1.0, 0.08
    whole = ozone_mass_fraction(ozone_rate=rate, feed_flow=feed, feed_molar_mass=OXYGEN)
    left = (feed - 1.5 * rate) * OXYGEN
    assert isclose(whole, rate * 1.5 * OXYGEN / (left + rate * 1.5 * OXYGEN), rel_tol=1e-4)
    assert isclose(
        ozone_mass_fraction(ozone_rate=2.0, feed_flow=3.0, feed_molar_mass=OXYGEN),
        1.0,
        rel_tol=1e-4,
    )


def test_fractions_of_a_published_conversion() -> None:
    # case C-02 of the shipped cases: 4.670 vol% in oxygen is 6.845 wt% (ideal gas)
    assert isclose(
        mass_fraction_from_mole_fraction(mole_fraction=0.04670, carrier_molar_mass=OXYGEN),
        0.06845,
        rel_tol=2e-4,
    )


@pytest.mark.parametrize("carrier", [OXYGEN, NITROGEN, 28.9647e-3])
def test_fractions_are_inverse_and_meet_at_the_ends(carrier: float) -> None:
    x = np.linspace(0.0, 1.0, 11)
    w = mass_fraction_from_mole_fraction(mole_fraction=x, carrier_molar_mass=carrier)
    back = mole_fraction_of(mass_fraction=w, molar_mass=M_O3, carrier_molar_mass=carrier)
    assert np.allclose(back, x, rtol=1e-12)
    assert (w[0], w[-1]) == (0.0, 1.0)
    assert (np.diff(w) > 0.0).all()
    assert (w[1:-1] > x[1:-1]).all()  # ozone is heavier than any carrier


def test_one_ppm_of_ozone() -> None:
    # NIOSH Pocket Guide, ozone: 1 ppm = 1.96 mg/m3 (25 °C, 1 atm)
    found = mass_per_volume(mole_fraction=1e-6, temperature=298.15, pressure=101325.0)
    assert isclose(found, 1.96e-6, abs_tol=0.005e-6)


def test_a_float_meter_follows_the_root_of_the_density() -> None:
    air = 28.9647e-3
    scale = {
        "reading": 1.0,
        "calibrated_molar_mass": air,
        "calibrated_temperature": 293.15,
        "calibrated_pressure": 101325.0,
    }
    same = rotameter_flow(**scale, molar_mass=air, temperature=293.15, pressure=101325.0)
    assert same == 1.0
    # by hand: √(28.9647/31.998) = 0.9514; √(101.325/405.3) = 1/2; √(586.3/293.15) = √2
    oxygen = rotameter_flow(**scale, molar_mass=OXYGEN, temperature=293.15, pressure=101325.0)
    assert isclose(oxygen, 0.9514, abs_tol=5e-5)
    squeezed = rotameter_flow(**scale, molar_mass=air, temperature=293.15, pressure=405300.0)
    assert isclose(squeezed, 0.5)
    hot = rotameter_flow(**scale, molar_mass=air, temperature=586.3, pressure=101325.0)
    assert isclose(hot, 2.0**0.5)


def test_mean_molar_mass() -> None:
    # by hand: 0.92 × 31.998 + 0.04 × 28.014 + 0.04 × 39.95 = 32.1567 g/mol
    found = mean_molar_mass(fractions=[0.92, 0.04, 0.04], molar_masses=[OXYGEN, NITROGEN, ARGON])
    assert isclose(found, 32.1567e-3, rel_tol=1e-5)
    assert mean_molar_mass(fractions=[0.5], molar_masses=[OXYGEN]) == OXYGEN
    many = mean_molar_mass(
        fractions=[np.array([1.0, 0.5]), np.array([0.0, 0.5])], molar_masses=[OXYGEN, NITROGEN]
    )
    assert np.allclose(many, [OXYGEN, (OXYGEN + NITROGEN) / 2.0])
    with pytest.raises(ValueError, match="shorter"):
        mean_molar_mass(fractions=[1.0, 2.0], molar_masses=[OXYGEN])


# IAPWS-IF97 verification table 35 gives 300 K: 3536.58941 Pa, 500 K: 2.63889776 MPa,
# 600 K: 12.3443146 MPa; the equation used here is the older one of Wagner and Pruss.
@pytest.mark.parametrize(
    ("temperature", "pressure", "tolerance"),
    [
        (300.0, 3536.58, 1e-4),
        (500.0, 2.63889776e6, 3e-4),
        (600.0, 12.3443146e6, 3e-4),
        (373.124, 101325.0, 2e-4),  # boiling point, IAPWS: 373.124 K at 101.325 kPa
        (CRITICAL_TEMPERATURE, CRITICAL_PRESSURE, 0.0),
        (273.16, 611.657, 1e-4),  # triple point, Guildner et al.
    ],
)
def test_vapour_pressure_of_water(temperature: float, pressure: float, tolerance: float) -> None:
    assert isclose(saturation_pressure_water(temperature=temperature), pressure, rel_tol=tolerance)


def test_vapour_pressure_of_ice() -> None:
    # IAPWS R14-08(2011), table 3, sublimation pressure at 230 K: 8.94735e-6 MPa
    assert isclose(saturation_pressure_ice(temperature=230.0), 8.94735, rel_tol=1e-6)
    assert saturation_pressure_ice(temperature=TRIPLE_TEMPERATURE) == pytest.approx(
        TRIPLE_PRESSURE, rel=1e-8
    )


def test_ice_and_supercooled_water_meet_at_the_triple_point_and_part_below() -> None:
    temperature = np.array([233.15, 253.15, 263.15, 273.16])
    ice = saturation_pressure_ice(temperature=temperature)
    water = saturation_pressure_water(temperature=temperature)
    assert np.isclose(ice[-1], water[-1], rtol=1e-4)
    assert (ice[:-1] < water[:-1]).all()
    assert (np.diff(ice) > 0.0).all()
    assert (np.diff(water) > 0.0).all()


def test_vapour_pressure_keeps_the_shape() -> None:
    grid = np.array([[280.0, 290.0, 300.0], [310.0, 320.0, 330.0]])
    assert np.shape(saturation_pressure_water(temperature=grid)) == (2, 3)
    alone = saturation_pressure_water(temperature=300.0)
    assert isinstance(alone, float)
    assert saturation_pressure_water(temperature=grid)[0, 2] == pytest.approx(alone, rel=1e-14)


def test_slope_of_the_vapour_pressure_is_the_heat_of_evaporation() -> None:
    # Clausius and Clapeyron at 298.15 K; heat of evaporation of water 43.99 kJ/mol (25 °C)
    low, high = (saturation_pressure_water(temperature=298.15 + dT) for dT in (-0.5, 0.5))
    heat = 8.314462618 * 298.15**2 * log(high / low)
    assert isclose(heat, 43990.0, rel_tol=0.005)
    assert isclose(high / low, exp(heat / 8.314462618 / 298.15**2))


def test_water_fraction() -> None:
    assert water_fraction(water_pressure=2339.0, pressure=101300.0) == 2339.0 / 101300.0
    assert np.shape(water_fraction(water_pressure=np.ones(3), pressure=2.0)) == (3,)
