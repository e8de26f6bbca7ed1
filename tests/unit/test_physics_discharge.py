"""The discharge: rate constants as printed, reduced model and whole scheme, signs, limits."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import numpy as np
import pytest

from ozonewright.errors import NoDataInRange, OutOfBounds
from ozonewright.physics.generator.discharge import Lumped, Made, discharge
from ozonewright.physics.generator.heat import HEAT_CAPACITY, gas_temperature
from ozonewright.physics.generator.kinetics import (
    arrhenius,
    fall_off,
    nitrogen_rates,
    oxygen_rates,
    water_rates,
)
from ozonewright.references.constants import M_O3
from ozonewright.references.discharge import PER_MOLE, belief, gas_rate
from unit.full_scheme import integrated

ATMOSPHERE = 101325.0
NORMAL_LITRE = 1.0 / 22.41397
"""mol"""
AIR = {"oxygen": 0.2094, "nitrogen": 0.7808}
OXYGEN = {"oxygen": 1.0, "nitrogen": 0.0}
CONCENTRATOR = {"oxygen": 0.93, "nitrogen": 0.03}
USUAL = Lumped(efficiency=0.1, loss=8.0, nitrogen=0.32, nox=0.01)


def made(lumped: Lumped = USUAL, **changed: Any) -> Made:
    base: dict[str, Any] = {
        "power": 30.0,
        "flow": NORMAL_LITRE / 60.0,
        **OXYGEN,
        "water": 0.0,
        "temperature": 320.0,
        "pressure": ATMOSPHERE,
        "volume": 20e-6,
    }
    return discharge(**(base | changed), lumped=lumped)


@pytest.mark.parametrize(
    ("name", "printed"),
    [
        # the mechanism files cracmm2 and cb6r5 print these at 298.15 K, in cm³ and molecules
        ("O_O3", 7.9879e-15),
        ("NO_O3", 1.9596e-14),
        ("NO2_O3", 3.2392e-17),
        ("OH_O3", 7.2647e-14),
        ("HO2_O3", 1.9331e-15),
        ("O1D_O2", 3.9685e-11),
        ("O1D_N2", 3.1093e-11),
        ("O1D_H2O", 1.9934e-10),
        # JPL Publication 10-6 as quoted: 1.4e-10 exp(-470/T)
        ("H_O3", 2.894e-11),
    ],
)
def test_rate_constants_as_printed(name: str, printed: float) -> None:
    k = gas_rate(name)
    found = arrhenius(a=k.a, n=k.n, b=k.b, temperature=298.15) / PER_MOLE
    assert found == pytest.approx(printed, rel=2e-4)


def test_three_bodies_as_printed() -> None:
    # cb6r5 prints 6.0973E-34 cm6/s for O + O2 + M at 298.15 K
    k = gas_rate("O_O2_O2")
    found = arrhenius(a=k.a, n=k.n, b=k.b, temperature=298.15) / PER_MOLE**2
    assert found == pytest.approx(6.0973e-34, rel=1e-4)


def test_an_atom_of_oxygen_lives_for_microseconds() -> None:
    # by hand from that constant: 2.707 µs in oxygen at 298.15 K and 101.325 kPa
    rates = oxygen_rates(temperature=298.15, pressure=ATMOSPHERE, oxygen=1.0)
    assert 1.0 / (rates.o_o2 * rates.density) == pytest.approx(2.707e-6, rel=1e-3)


def test_n2o5_parts_as_printed() -> None:
    # cracmm2: 0.0376 1/s at 298 K and 1 atm; the fall-off formula of the panel brings it to 10 %
    density = oxygen_rates(temperature=298.0, pressure=ATMOSPHERE, oxygen=0.21).density
    rates = nitrogen_rates(temperature=298.0, density=density)
    assert rates.n2o5_apart == pytest.approx(0.0376, rel=0.1)


def test_fall_off_has_its_limits() -> None:
    assert fall_off(low=1e-6, high=1.0) == pytest.approx(1e-6, rel=0.02)
    assert fall_off(low=1e6, high=1.0) == pytest.approx(1.0, rel=0.02)
    # at the middle: half, times the broadening of 0.6 (burkholder_2019)
    assert fall_off(low=np.array([2.0, 1.0]), high=np.array([2.0, 1.0])) == pytest.approx(
        [0.6, 0.3]
    )


def test_rates_of_arrays_are_those_of_floats() -> None:
    warm = np.array([290.0, 380.0])
    for law in (nitrogen_rates, water_rates):
        both = law(temperature=warm, density=40.0)
        for place, temperature in enumerate(warm):
            one = law(temperature=float(temperature), density=40.0)
            for name in one.__slots__:
                assert getattr(both, name)[place] == pytest.approx(getattr(one, name))


def test_unknown_names_are_told() -> None:
    with pytest.raises(NoDataInRange, match="O_O3"):
        gas_rate("O_O4")
    with pytest.raises(NoDataInRange, match="LOSS"):
        belief("LOSSES")


CASES: list[dict[str, Any]] = [
    {**feed, "water": water, "litres": litres, "power": power, "temperature": temperature}
    for feed, water in ((OXYGEN, 0.0), (CONCENTRATOR, 0.0), (AIR, 0.0), (AIR, 1e-3), (OXYGEN, 1e-3))
    for litres, power, temperature in (
        (0.5, 20.0, 300.0), (5.0, 60.0, 380.0), (1.0, 8.0, 320.0), (0.3, 5.0, 350.0),
    )
]  # fmt: skip


@pytest.mark.parametrize("case", CASES)
def test_ozone_is_that_of_the_whole_scheme(case: dict[str, Any]) -> None:
    """Within 2 %, as the function says: scipy's BDF on every species."""
    place = dict(case)
    place["flow"] = place.pop("litres") * NORMAL_LITRE / 60.0
    place |= {"pressure": ATMOSPHERE, "volume": 20e-6}
    whole = integrated(**place, efficiency=0.1, loss=8.0, share=0.32, nox=0.01)
    found = made(**place)
    assert found.ozone == pytest.approx(whole["O3"], rel=0.02)
    oxides = whole["NO"] + whole["NO2"] + whole["NO3"] + 2.0 * whole["N2O5"] + whole["HNO3"]
    assert found.nox == pytest.approx(oxides, rel=1e-3, abs=1e-15)


def test_the_whole_scheme_is_poisoned_where_the_model_is() -> None:
    place: dict[str, Any] = {
        **AIR, "water": 0.0, "power": 60.0, "flow": 0.3 * NORMAL_LITRE / 60.0,
        "temperature": 380.0, "pressure": ATMOSPHERE, "volume": 20e-6,
    }  # fmt: skip
    whole = integrated(**place, efficiency=0.15, loss=8.0, share=0.32, nox=0.015)
    found = made(Lumped(0.15, 8.0, 0.32, 0.015), **place)
    assert whole["O3"] < 0.1 * whole["NO2"]
    assert found.ozone < 0.1 * found.nox


def test_output_rises_to_a_plateau_while_concentration_falls() -> None:
    flows = np.geomspace(0.1, 30.0, 20) * NORMAL_LITRE / 60.0
    strength = made(flow=flows).ozone
    output = strength * flows
    assert np.all(np.diff(strength) < 0.0)
    assert np.all(np.diff(output) > 0.0)
    assert output[-1] / output[-4] < 1.02 < output[4] / output[0]


@pytest.mark.parametrize("feed", [OXYGEN, AIR])
def test_both_fall_with_temperature(feed: dict[str, float]) -> None:
    strength = made(**feed, temperature=np.linspace(290.0, 400.0, 8)).ozone
    assert np.all(np.diff(strength) < 0.0)


def test_concentration_saturates_against_specific_energy() -> None:
    strength = made(power=np.geomspace(1.0, 1000.0, 25)).ozone
    slope = np.diff(np.log(strength)) / np.diff(np.log(np.geomspace(1.0, 1000.0, 25)))
    assert slope[0] == pytest.approx(1.0, abs=0.02)
    assert slope[-1] < 0.1
    assert np.all(np.diff(slope) < 1e-9)


def test_a_discharge_in_air_is_poisoned_at_high_specific_energy() -> None:
    powers = np.geomspace(3.0, 300.0, 40)
    strength = made(**AIR, power=powers, flow=0.5 * NORMAL_LITRE / 60.0, temperature=360.0).ozone
    most = int(np.argmax(strength))
    assert 0 < most < len(powers) - 1
    assert strength[-1] < 0.02 * strength[most]


def test_a_cold_discharge_in_air_is_poisoned_later() -> None:
    hot, cold = (
        made(**AIR, power=40.0, flow=0.5 * NORMAL_LITRE / 60.0, temperature=warm)
        for warm in (370.0, 290.0)
    )
    assert cold.ozone > 2.5 * hot.ozone


def test_damp_takes_ozone_away_in_oxygen() -> None:
    found = [made(water=water).ozone for water in (0.0, 1e-4, 3e-3, 2e-2)]
    assert all(damp < dry for dry, damp in pairwise(found))


def test_much_damp_takes_ozone_away_in_air_though_a_little_binds_nitrogen_oxides() -> None:
    dry, little, much = (made(**AIR, water=water).ozone for water in (0.0, 1e-3, 2e-2))
    assert much < dry < little < 1.1 * dry


def test_limits_of_little_energy() -> None:
    """Of hardly any energy every atom becomes ozone: 2 efficiency P / 498.4 kJ (O2 to 2 O)."""
    found = made(power=1e-3, flow=NORMAL_LITRE)
    assert found.ozone * NORMAL_LITRE == pytest.approx(2.0 * 0.1 * 1e-3 / 498.4e3, rel=1e-3)


def test_loss_alone_has_a_closed_form() -> None:
    """Without gas reactions that count, 1 mol of feed ends at 1 / (loss + 1.5) (steady state)."""
    found = made(Lumped(0.5, 50.0, 0.0, 0.0), power=3000.0, temperature=250.0)
    assert found.ozone == pytest.approx(1.0 / 51.5, rel=0.03)


def test_hot_gas_keeps_no_ozone() -> None:
    assert made(temperature=600.0).ozone < 0.1 * made(temperature=300.0).ozone


def test_arrays_are_floats() -> None:
    powers, feeds = np.array([5.0, 20.0, 60.0]), (OXYGEN, CONCENTRATOR, AIR)
    for water in (0.0, 1e-3):
        oxygen, nitrogen = (np.array([feed[part] for feed in feeds]) for part in OXYGEN)
        both = made(power=powers, oxygen=oxygen, nitrogen=nitrogen, water=water)
        for place, feed in enumerate(feeds):
            one = made(power=float(powers[place]), **feed, water=water)
            assert both.ozone[place] == pytest.approx(one.ozone, rel=1e-9)
            assert both.nox[place] == pytest.approx(one.nox, rel=1e-9)


@pytest.mark.parametrize("name", ["power", "flow", "oxygen", "volume"])
def test_nothing_comes_of_nothing(name: str) -> None:
    with pytest.raises(OutOfBounds, match="above zero") as raised:
        made(**{name: 0.0})
    assert raised.value.where == name


def test_gas_is_as_warm_as_its_heat_makes_it() -> None:
    place = {"power": 10.0, "wall": 330.0, "inlet": 295.0}
    # slow gas: wall plus P R
    slow = gas_temperature(flow=1e-6, resistance=0.5, **place)
    assert slow == pytest.approx(335.0, rel=1e-4)
    # fast gas without exchange: half of P / (n c_p) above the inlet
    flow = 1e-2
    fast = gas_temperature(flow=flow, resistance=1e5, **place)
    assert fast == pytest.approx(295.0 + 0.5 * 10.0 / (flow * HEAT_CAPACITY), rel=1e-3)
    both = gas_temperature(flow=np.array([1e-6, flow]), resistance=np.array([0.5, 1e5]), **place)
    assert both == pytest.approx([slow, fast])


def test_fitted_at_one_published_point_it_tells_of_the_other() -> None:
    """Untreated air (zylka_2020): 4180 ppmv at 1 NL/min and 8.0 W; 93 g/kWh at 100 NL/min.

    With loss, gap, nitrogen oxides, damp and temperature as thought beforehand, and the efficiency
    fitted to the first point, the second must lie within the 95 % of these thoughts.
    """
    random = np.random.default_rng(7)
    count = 400

    def thought(name: str) -> np.ndarray:
        known = belief(name)
        return known.centre.value * np.exp(known.spread * random.standard_normal(count))

    nitrogen, nox, loss = (thought(name) for name in ("NITROGEN", "NOX", "LOSS"))
    gap, damp, rise = (thought(name) for name in ("GAP", "DAMP", "WALL_RISE"))
    low, high = np.full(count, 1e-3), np.full(count, 0.999)

    def at(litres: float, efficiency: np.ndarray) -> np.ndarray:
        lumped = Lumped(efficiency, loss, nitrogen, nox)
        place = {**AIR, "power": 8.0, "water": damp, "volume": gap, "temperature": 295.0 + rise}
        return made(lumped, flow=litres * NORMAL_LITRE / 60.0, **place).ozone

    for _ in range(40):
        middle = np.sqrt(low * high)
        strength = at(1.0, middle)
        less = strength / (1.0 - 0.5 * strength) < 4180e-6
        low, high = np.where(less, middle, low), np.where(less, high, middle)
    fits = np.isclose(at(1.0, low), 4180e-6, rtol=0.01)
    assert fits.mean() > 0.5
    output = at(100.0, low)[fits] * 100.0 * NORMAL_LITRE / 60.0 * M_O3
    yields = output / 8.0 * 3.6e9
    assert np.percentile(yields, 2.5) < 93.0 < np.percentile(yields, 97.5)
    assert np.percentile(yields, 97.5) < 1219.0
