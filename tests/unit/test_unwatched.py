"""Values by hand where a run of mutants found that nobody watched a term."""

from __future__ import annotations

from math import isclose, log, pi

import pytest
from CoolProp.CoolProp import PropsSI
from fluids.friction import Colebrook

from ozonewright.physics.assay.iodometry import thiosulfate_from_salt
from ozonewright.physics.chemistry.dosing import starts_needed
from ozonewright.physics.gas.cylinder import compressibility_factor
from ozonewright.physics.gas.parts.amounts import density, volume_flow
from ozonewright.physics.gas.parts.annulus import Annulus, annulus_area, laminar_shape
from ozonewright.physics.gas.parts.law import Gas
from ozonewright.physics.liquid.in_a_row import guard_share
from ozonewright.references.constants import M_AIR, R

AMBIENT = 101_325.0
AIR = Gas(molar_mass=M_AIR, viscosity=1.8e-5, temperature=293.15)
MOIST = AIR._replace(wet=1.5)
"""Half as much water again as dry gas: far off, so that a lost factor is seen."""


def test_an_impure_salt_makes_a_weaker_titrant() -> None:
    # 24.817 g of 98 % pentahydrate to 1 L: 24.817 x 0.98 / 248.172 = 0.0980 mol/L
    found = thiosulfate_from_salt(mass=24.817e-3, purity=0.98, molar_mass=248.172e-3, flask=1e-3)
    assert isclose(found, 98.0, rel_tol=1e-4)


def test_a_start_that_leaves_half_a_second_is_long_enough() -> None:
    assert starts_needed(dosing_time=1.2, timer_on=60.5, start_loss=60.0) == 3


@pytest.mark.parametrize(("temperature", "pressure"), [(373.15, 320e5), (373.15, 1e5),
                                                       (223.15, 320e5)])  # fmt: skip
def test_the_table_of_a_cylinder_gas_holds_to_its_last_row(
    temperature: float, pressure: float
) -> None:
    """CoolProp, from which the table was made, at its corners."""
    found = compressibility_factor(gas="oxygen", temperature=temperature, pressure=pressure)
    moles = PropsSI("Dmolar", "T", temperature, "P", pressure, "Oxygen")
    assert found == pytest.approx(pressure / (moles * R * temperature), rel=3e-5)


@pytest.mark.parametrize("gas", [AIR, MOIST])
@pytest.mark.parametrize("gap", [1.5e-3, 12e-3])
def test_slow_gas_between_two_walls_by_the_exact_solution(gas: Gas, gap: float) -> None:
    """Q = pi dp/(8 mu L) ((R^4 - r^4) - (R^2 - r^2)^2/ln(R/r)), Navier-Stokes about an axis."""
    outer, length, flow = 15e-3, 0.2, 2e-4
    inner = outer - gap
    shape = outer**4 - inner**4 - (outer**2 - inner**2) ** 2 / log(outer / inner)
    volume = volume_flow(flow=flow, pressure=AMBIENT, gas=gas)
    by_hand = 8.0 * gas.viscosity * length * volume / (pi * shape)
    found = Annulus(2.0 * outer, gap, length).inlet(flow, AMBIENT, gas) - AMBIENT
    assert found == pytest.approx(by_hand, rel=1e-3)


def test_the_thinnest_gap_has_flat_walls() -> None:
    """96: two flat walls; the exact form nears it without a step."""
    assert laminar_shape(ratio=1.0 - 1e-17) == 96.0
    assert laminar_shape(ratio=1.0 - 1e-6) == 96.0
    assert laminar_shape(ratio=1.0 - 1.1e-3) == pytest.approx(96.0, rel=1e-6)


def test_fast_gas_between_two_walls_meets_smooth_glass() -> None:
    """Darcy and Weisbach with the factor of another library, widened as for slow gas.

    At ten bar, so that the gas neither spreads nor speeds up on its way.
    """
    outer, gap, length, flow, outlet = 15e-3, 1.5e-3, 0.2, 0.4, 10.0 * AMBIENT
    area, width = annulus_area(bore=2.0 * outer, gap=gap), 2.0 * gap
    velocity = volume_flow(flow=flow, pressure=outlet, gas=AIR) / area
    rho = density(pressure=outlet, gas=AIR)
    reynolds = rho * velocity * width / AIR.viscosity
    assert reynolds > 10_000.0
    slit = 96.0 / 64.0  # nearly parallel walls
    by_hand = slit * Colebrook(reynolds, 0.0) * length / width * 0.5 * rho * velocity**2
    found = Annulus(2.0 * outer, gap, length).inlet(flow, outlet, AIR) - outlet
    assert found == pytest.approx(by_hand, rel=0.01)


def test_the_guard_is_the_last_of_three_bottles() -> None:
    # 0.1 passes the first, 0.05 the second, 0.01 the third: 0.04 of the 0.99 that stays
    assert guard_share(lefts=[0.1, 0.5, 0.2]) == pytest.approx(0.04 / 0.99)
