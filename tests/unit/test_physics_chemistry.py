"""Acid, iodine and energy: limits, behaviour, published spot values."""

from __future__ import annotations

from math import exp, isclose, log

import numpy as np
import pytest

from ozonewright.physics.chemistry.acid import acid_needed, protons_released
from ozonewright.physics.chemistry.iodine import (
    free_iodine,
    iodine_carried_off,
    triiodide_constant,
)
from ozonewright.physics.generator.energy import highest_yield, oxygen_used

LITRE = 1e-3


@pytest.mark.parametrize(
    ("pH", "pK", "protons"),
    [
        (4.756, (4.756,), 0.5),
        (0.0, (4.756,), 0.0),
        (14.0, (4.756,), 1.0),
        (2.5, (-3.0, 1.99), 1.0 + 1.0 / (1.0 + 10.0**-0.51)),  # sulfuric acid: 1.764
        (14.0, (2.15, 7.20, 12.35), 3.0),
    ],
)
def test_protons_released(pH: float, pK: tuple[float, ...], protons: float) -> None:
    # a weak acid at pH = pK has given off half its protons (definition of pK)
    assert isclose(protons_released(pH=pH, pK=pK), protons, abs_tol=0.03)


def test_vinegar_gives_next_to_nothing_at_pH_2_5() -> None:
    assert protons_released(pH=2.5, pK=(4.756,)) < 0.006


def test_protons_grow_with_pH() -> None:
    pH = np.linspace(0.0, 14.0, 57)
    given = protons_released(pH=pH, pK=(2.15, 7.20, 12.35))
    assert np.shape(given) == np.shape(pH)
    assert (np.diff(given) > 0.0).all()


def test_acid_needed() -> None:
    # by hand: two per ozone, 2 × 0.72 mmol, and 10^-2.5 mol/L in 210 mL, 0.664 mmol
    found = acid_needed(ozone=0.72e-3, volume=0.210 * LITRE, pH=2.5)
    assert isclose(found, 1.44e-3 + 0.664e-3, rel_tol=1e-3)
    assert acid_needed(ozone=1e-3, volume=0.0, pH=2.5) == 2e-3
    assert isclose(acid_needed(ozone=0.0, volume=LITRE, pH=3.0), 1e-3)
    assert np.shape(acid_needed(ozone=np.ones(2), volume=LITRE, pH=2.5)) == (2,)


def test_triiodide_constant_is_the_published_one_at_25_degrees() -> None:
    # Palmer, Ramette and Mesmer 1984, abstract: 698 at 298.15 K
    assert triiodide_constant(temperature=298.15) == 698.0


def test_triiodide_constant_by_the_full_formula() -> None:
    # The published ΔH = -17.0 kJ/mol and ΔCp = -21 J/mol/K, with the logarithm kept
    T0, R = 298.15, 8.314462618
    for T in np.linspace(273.15, 323.15, 11):
        exponent = 17000.0 / R * (1.0 / T - 1.0 / T0) - 21.0 / R * (T0 / T - 1.0 - log(T0 / T))
        assert isclose(triiodide_constant(temperature=T), 698.0 * exp(exponent), rel_tol=1e-5)


def test_triiodide_binds_less_when_warm() -> None:
    temperature = np.array([275.0, 285.0, 295.0, 305.0])
    assert (np.diff(triiodide_constant(temperature=temperature)) < 0.0).all()


def test_free_iodine_solves_its_equilibrium() -> None:
    iodine, iodide, K = 5.0, 120.0, 698.0
    free = free_iodine(iodine=iodine, iodide=iodide, constant=K)
    bound = iodine * (1.0 - free)
    assert isclose(bound / ((iodine - bound) * (iodide - bound)), K * 1e-3, rel_tol=1e-9)


def test_free_iodine_at_the_limits() -> None:
    # little iodine in iodide c: free share = 1/(1 + K c); no iodide: all free
    assert isclose(
        free_iodine(iodine=1e-9, iodide=120.0, constant=698.0),
        1.0 / (1.0 + 0.698 * 120.0),
        rel_tol=1e-6,
    )
    assert free_iodine(iodine=1.0, iodide=0.0, constant=698.0) == 1.0
    shares = free_iodine(iodine=np.array([1.0, 50.0, 110.0]), iodide=120.0, constant=698.0)
    assert np.shape(shares) == (3,)
    assert ((shares > 0.0) & (shares < 1.0)).all()
    assert (np.diff(shares) > 0.0).all()


def test_iodine_carried_off_by_the_bench_figure() -> None:
    # bench notes: 1 L/min through 200 mL carries about 7 % a minute with no iodide left
    rate = iodine_carried_off(
        free_share=1.0, gas_flow=1e-3 / 60.0, volume=0.2 * LITRE, temperature=298.15
    )
    assert isclose(rate * 60.0, 0.07, rel_tol=0.1)


def test_iodine_carried_off_scales() -> None:
    base = {"free_share": 0.01, "gas_flow": 1e-5, "volume": 2e-4, "temperature": 298.15}
    rate = iodine_carried_off(**base)
    # by hand: q/(V H R T) with H = 0.030 mol/(m3 Pa): 0.05 /s ÷ 74.37 × 0.01
    assert isclose(rate, 6.723e-6, rel_tol=1e-3)
    assert isclose(iodine_carried_off(**base | {"free_share": 0.02}), 2.0 * rate)
    assert isclose(iodine_carried_off(**base | {"volume": 4e-4}), rate / 2.0)
    assert iodine_carried_off(**base | {"gas_flow": 0.0}) == 0.0
    assert iodine_carried_off(**base | {"temperature": 308.15}) > rate
    assert np.shape(iodine_carried_off(**base | {"gas_flow": np.ones(4)})) == (4,)


def test_highest_yield() -> None:
    # by hand: 47.997 g/mol ÷ 141.749 kJ/mol × 3600 kJ/kWh = 1219 g/kWh
    found = highest_yield(formation_enthalpy=141749.0)
    assert isclose(found * 3.6e6, 1.219, rel_tol=1e-4)
    assert np.shape(highest_yield(formation_enthalpy=np.array([1.4e5, 1.5e5]))) == (2,)


def test_oxygen_used() -> None:
    """Three O2 make two O3: from 3 mol of oxygen, 2 mol of ozone is all there can be."""
    assert oxygen_used(ozone_rate=2.0, oxygen_flow=3.0) == pytest.approx(1.0)
    assert oxygen_used(ozone_rate=np.array([0.0, 1.0]), oxygen_flow=6.0) == pytest.approx([0, 0.25])
