"""Solubility, bubbles, transfer and reaction: limits, borders, scalar and array."""

from __future__ import annotations

from dataclasses import replace
from math import exp, tanh

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from ozonewright.errors import NoDataInRange
from ozonewright.physics.liquid.bubble import (
    bubble_tate_1864,
    gas_hold_up_nicklin_1962,
    height_of_liquid,
    rise,
    rise_ferguson_2004,
    rise_mendelson_1967,
    superficial,
)
from ozonewright.physics.liquid.diffusivity import (
    diffusivity_johnson_1996,
    diffusivity_massman_1998,
    diffusivity_wilke_1955,
    viscosity_of_liquid,
)
from ozonewright.physics.liquid.enhancement import (
    enhancement_decoursey_1974,
    hatta,
    instantaneous_enhancement,
)
from ozonewright.physics.liquid.in_a_row import guard_share, in_series
from ozonewright.physics.liquid.solubility import (
    partition_in_band,
    partition_morris_1988,
    salting_by_acid,
    salting_out,
    warmth,
)
from ozonewright.physics.liquid.swarm import (
    Column,
    dissolved_ozone,
    enhancement_at,
    filling_time,
    share_left,
    transfer_units,
)
from ozonewright.physics.liquid.transfer import kg_newman_1931, mobility, overall
from ozonewright.references.liquid_viscosity import viscosities_of
from ozonewright.references.ozone_solubility import absorption, henry_sets, solubility_band

MM = 1e-3
WATER = Column(
    bubble=3 * MM, rise=0.2516, depth=0.15, volume=2e-4, flow=1.333e-5, partition=0.2861,
    kl=4.271e-4, kg=1e3, diffusivity=1.708e-9,
)  # fmt: skip
GAS = 0.25
"""Ozone in the gas: 12 g/m3. [mol/m3]"""
IODIDE = replace(
    WATER, kg=0.033, reactant=120.5, per_ozone=2.0, rate_constant=3.06e6, diffusivity_ratio=1.2
)


def test_published_sets_and_the_bands_of_other_liquids() -> None:
    assert len(henry_sets()) == 14
    assert {one.name for one in henry_sets()} >= {"Burkholder", "Bin"}
    assert solubility_band("dichloromethane").known
    assert not solubility_band("methanol").known
    assert solubility_band("methanol").high > solubility_band("dichloromethane").high
    with pytest.raises(NoDataInRange, match="KL_SPREAD"):
        absorption("KL_SPRED")


def test_a_band_widens_into_the_cold() -> None:
    at = {"low": 1.5, "high": 2.0, "cold_low": 5.0, "cold_high": 15.0}
    warm = partition_in_band(place=np.array([0.0, 1.0]), warmth=1.0, **at)
    cold = partition_in_band(place=np.array([0.0, 1.0]), warmth=0.0, **at)
    assert warm == pytest.approx([1.5, 2.0])
    assert cold == pytest.approx([7.5, 30.0])
    assert warmth(temperature=195.0, cold=195.0, warm=293.0) == 0.0
    assert warmth(temperature=293.0, cold=195.0, warm=293.0) == pytest.approx(1.0)


def test_a_review_has_a_straight_line() -> None:
    # the review as quoted: 0.562 at 0 °C, 0.266 at 25 °C
    found = partition_morris_1988(celsius=np.array([0.0, 25.0]))
    assert found == pytest.approx([0.562, 0.266], abs=5e-4)


def test_salt_and_acid_lower_solubility() -> None:
    salted = salting_out(
        ionic_strength=np.array([0.0, 0.5]), temperature=298.15, coefficient=2.659, slope=-688.0
    )
    assert salted == pytest.approx([1.0, exp(-0.5 * (2.659 - 688.0 / 298.15))])
    assert salting_by_acid(strength=5e3, ratio=0.49, at=5e3) == pytest.approx(0.49)
    assert salting_by_acid(strength=0.0, ratio=0.49, at=5e3) == 1.0


def test_diffusivities_agree_among_each_other() -> None:
    water = viscosities_of("water")
    wilke = diffusivity_wilke_1955(
        molar_mass=water.molar_mass, association=water.association,
        viscosity=water.viscosities[1], temperature=293.15,
    )  # fmt: skip
    # facts from memory: 1.74e-9 by Wilke and Chang against 1.71e-9
    assert wilke == pytest.approx(1.74e-9, rel=0.01)
    assert wilke == pytest.approx(diffusivity_johnson_1996(temperature=293.15), rel=0.05)
    assert diffusivity_massman_1998(temperature=273.15, pressure=101325.0) == pytest.approx(
        1.444e-5
    )


def test_viscosity_goes_through_its_three_figures_and_near_the_library() -> None:
    methanol = viscosities_of("methanol")
    at = np.array(methanol.temperatures)
    found = viscosity_of_liquid(
        temperature=at, temperatures=methanol.temperatures, viscosities=methanol.viscosities
    )
    assert found == pytest.approx(methanol.viscosities)
    # chemicals 1.5.2, VDI PPDS, -60 °C
    between = viscosity_of_liquid(
        temperature=213.15, temperatures=methanol.temperatures, viscosities=methanol.viscosities
    )
    assert between == pytest.approx(2.9153e-3, rel=0.05)


def test_rise_is_the_slower_of_ball_and_wave() -> None:
    size = np.array([0.1, 1.0, 5.0]) * MM
    found = rise(bubble=size, viscosity=1.002e-3, surface_tension=0.07274, density=998.2)
    ball = rise_ferguson_2004(bubble=size, viscosity=1.002e-3, density=998.2)
    wave = rise_mendelson_1967(bubble=size, surface_tension=0.07274, density=998.2)
    assert found == pytest.approx([ball[0], ball[1], wave[2]])
    # a tenth of a millimetre: Stokes, g d2/(18 nu), to a quarter
    assert ball[0] == pytest.approx(9.80665 * 1e-8 / 18.0 / 1.0038e-6, rel=0.25)


def test_gas_in_the_liquid() -> None:
    through = superficial(flow=1.333e-5, section=1.333e-3)
    assert through == pytest.approx(0.01)
    assert gas_hold_up_nicklin_1962(superficial=through, rise=0.24) == pytest.approx(0.04)
    assert gas_hold_up_nicklin_1962(superficial=0.0, rise=0.24) == 0.0


def test_liquid_stands_as_high_as_its_volume() -> None:
    # 200 cm3 over 4 cm wide: 200/12.566 = 15.9 cm
    found = height_of_liquid(volume=2e-4, bore=np.array([0.04, 0.08]))
    assert found == pytest.approx([0.15915, 0.15915 / 4.0], rel=1e-4)


def test_bubble_grows_with_the_cube_root_of_the_opening() -> None:
    sizes = bubble_tate_1864(
        orifice=np.array([0.5, 4.0]) * MM, surface_tension=0.07274, density=997.0
    )
    assert sizes[1] / sizes[0] == pytest.approx(2.0)


def test_mobility_ends_at_its_borders() -> None:
    found = mobility(bubble=np.array([0.1, 0.5, 2.5, 9.0]) * MM, still=0.5 * MM, moving=2.5 * MM)
    assert found == pytest.approx([0.0, 0.0, 1.0, 1.0])


def test_two_films_in_series() -> None:
    assert overall(kg=1e9, kl=4e-4, partition=0.25, enhancement=1.0) == pytest.approx(1e-4)
    assert overall(kg=0.02, kl=4e-4, partition=0.25, enhancement=1e9) == pytest.approx(0.02)
    assert kg_newman_1931(diffusivity=1.64e-5, bubble=3 * MM) == pytest.approx(0.036, rel=0.01)


def test_enhancement_has_its_three_limits() -> None:
    assert enhancement_decoursey_1974(hatta=0.0, instantaneous=50.0) == pytest.approx(1.0)
    slow = enhancement_decoursey_1974(hatta=np.array([0.1, 5.0]), instantaneous=1e12)
    assert slow == pytest.approx(np.sqrt([1.01, 26.0]))
    assert enhancement_decoursey_1974(hatta=1e8, instantaneous=50.0) == pytest.approx(50.0)


@pytest.mark.parametrize("number", [0.3, 1.0, 3.0, 10.0, 100.0])
def test_enhancement_is_near_the_film_model(number: float) -> None:
    """Against van Krevelen and Hoftijzer's implicit equation, solved by halving."""
    limit = 20.0
    low, high = 1.0, limit
    for _ in range(80):
        middle = 0.5 * (low + high)
        inner = number * ((limit - middle) / (limit - 1.0)) ** 0.5
        film = inner / tanh(inner) if inner > 0.0 else 1.0
        low, high = (middle, high) if film > middle else (low, middle)
    found = enhancement_decoursey_1974(hatta=number, instantaneous=limit)
    assert found == pytest.approx(low, rel=0.12)


def test_iodide_is_instantaneous_for_strong_gas_alone() -> None:
    assert hatta(rate_constant=3.06e6, reactant=120.5, diffusivity=1.708e-9, kl=4.271e-4) == (
        pytest.approx(1858.0, rel=1e-3)
    )
    strong = enhancement_at(column=IODIDE, gas=20.0)
    faint = enhancement_at(column=IODIDE, gas=1e-4)
    limit = instantaneous_enhancement(
        reactant=120.5, per_ozone=2.0, interface=0.2861 * 20.0, diffusivity_ratio=1.2
    )
    assert strong == pytest.approx(limit, rel=0.01)
    assert faint == pytest.approx(1858.0, rel=0.01)


def test_one_rise_in_water_takes_one_seventh() -> None:
    # reference facts: 14 % per pass of a 3 mm bubble through 15 cm without reaction
    left = share_left(column=WATER, gas=GAS, dissolved=0.0)
    by_hand = 4.271e-4 * 0.2861 * 6.0 / 3e-3 * 0.15 / 0.2516
    assert 1.0 - left == pytest.approx(1.0 - exp(-by_hand), rel=1e-4)
    assert 1.0 - left == pytest.approx(0.14, abs=0.005)


def test_liquid_in_balance_takes_nothing_and_fuller_gives_back() -> None:
    full = WATER.partition * GAS
    left = share_left(column=WATER, gas=GAS, dissolved=np.array([full, 2.0 * full]))
    assert left[0] == pytest.approx(1.0)
    # pure stripping: the gas gains as much as fresh liquid would have taken
    fresh = share_left(column=WATER, gas=GAS, dissolved=0.0)
    assert left[1] - 1.0 == pytest.approx(1.0 - fresh)
    assert dissolved_ozone(column=WATER, gas=GAS) == pytest.approx(full)


def test_filling_follows_the_exponential() -> None:
    """Against the bottle's balance, integrated by another solver."""
    tau = filling_time(column=WATER, gas=GAS)

    def rate(_: float, c: np.ndarray) -> np.ndarray:
        left = share_left(column=WATER, gas=GAS, dissolved=c)
        return np.asarray(WATER.flow * GAS * (1.0 - left) / WATER.volume)

    done = solve_ivp(rate, (0.0, float(tau)), [0.0], method="Radau", rtol=1e-9, atol=1e-12)
    full = WATER.partition * GAS
    assert done.y[0, -1] == pytest.approx(full * (1.0 - exp(-1.0)), rel=1e-6)


@pytest.mark.parametrize("made", [WATER, IODIDE, replace(WATER, reactant=100.0, rate_constant=1.0)])
def test_rise_agrees_with_an_independent_solver(made: Column) -> None:
    dissolved = 0.02 if made.rate_constant < 1e3 else 0.0

    def fall(_: float, share: np.ndarray) -> np.ndarray:
        number2 = made.rate_constant * made.reactant * made.diffusivity / made.kl**2
        rest = dissolved / ((1.0 + number2) * made.partition * GAS)
        units = transfer_units(column=made, gas=GAS * share)
        return np.asarray(-units * (share - rest))

    done = solve_ivp(fall, (0.0, 1.0), [1.0], method="Radau", rtol=1e-10, atol=1e-14)
    found = share_left(column=made, gas=GAS, dissolved=dissolved)
    assert found == pytest.approx(done.y[0, -1], rel=0.02)


def test_a_slow_reaction_leaves_ozone_in_the_bulk() -> None:
    slow = replace(WATER, reactant=100.0, rate_constant=1e-5)
    dissolved = dissolved_ozone(column=slow, gas=GAS)
    left = share_left(column=slow, gas=GAS, dissolved=dissolved)
    used = slow.volume * slow.rate_constant * slow.reactant * dissolved
    assert WATER.flow * GAS * (1.0 - left) == pytest.approx(used, rel=1e-3)
    assert 0.0 < dissolved < WATER.partition * GAS


def test_bottles_in_series() -> None:
    assert in_series(lefts=[0.1, 0.5]) == pytest.approx(0.05)
    assert guard_share(lefts=[0.1, 0.5]) == pytest.approx(0.05 / 0.95)
