"""What the gas is made of: mixed at junctions, wetted by water, dried by desiccant."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from ozonewright.physics.gas.parts.law import Gas
from ozonewright.physics.gas.transport import viscosity_herning_1936, viscosity_sutherland
from ozonewright.physics.gas.water import saturation_pressure_water
from ozonewright.references.constants import M_AR, M_H2O, M_N2, M_O2
from ozonewright.references.gas_viscosity import viscosities

NAMES = ("oxygen", "nitrogen", "argon", "water")
MASSES = (M_O2, M_N2, M_AR, M_H2O)


class Mixture(NamedTuple):
    """Moles of each gas for each mole of dry gas."""

    oxygen: float
    nitrogen: float
    argon: float
    water: float = 0.0


def gas_of(*, mixture: Mixture, temperature: float) -> Gas:
    """Molar mass and viscosity of a mixture.

    Parameters
    ----------
    mixture : Mixture
        What it is made of. [-]
    temperature : float
        Of the gas. [K]

    Returns
    -------
    gas : Gas
        As a part meets it; the trace gases of air count in no share. [-]

    Raises
    ------
    None

    Valid
    -----
    -40..100 °C, up to 10 bar; ozone is left out (1 vol% adds 0.5 % to the density).

    Source
    ------
    herning_1936
    """
    moles = sum(mixture)
    figures = viscosities()
    return Gas(
        molar_mass=sum(x * mass for x, mass in zip(mixture, MASSES, strict=True)) / moles,
        viscosity=float(
            viscosity_herning_1936(
                fractions=mixture,
                viscosities=[
                    viscosity_sutherland(
                        temperature=temperature,
                        at_zero=figures[name].at_zero,
                        sutherland=figures[name].sutherland,
                    )
                    for name in NAMES
                ],
                molar_masses=MASSES,
            )
        ),
        temperature=temperature,
        wet=1.0 + mixture.water,
    )


def water_ratio(*, temperature: float, pressure: float) -> float:
    """Water in a gas that is saturated with it at a temperature.

    Parameters
    ----------
    temperature : float
        Of the water, or the dew point. [K]
    pressure : float
        Absolute pressure of the gas. [Pa]

    Returns
    -------
    ratio : float
        Moles of water for each mole of dry gas. [1]

    Raises
    ------
    None

    Valid
    -----
    Far below boiling; over ice the pressure of supercooled water stands, up to half too much.

    Source
    ------
    wagner_2002
    """
    vapour = float(saturation_pressure_water(temperature=temperature))
    return vapour / (pressure - vapour)


def mixed(*, flows: Sequence[float], mixtures: Sequence[Mixture]) -> Mixture:
    """Mixture of several flows.

    Parameters
    ----------
    flows : sequence of float
        Dry gas, at least one above 0. [mol/s]
    mixtures : sequence of Mixture
        Of each flow. [-]

    Returns
    -------
    mixture : Mixture
        Of all together. [-]

    Raises
    ------
    None

    Valid
    -----
    Any gases.

    Source
    ------
    stoichiometry
    """
    total = sum(flows)
    parts = zip(*mixtures, strict=True)
    return Mixture(*(sum(n * x for n, x in zip(flows, xs, strict=True)) / total for xs in parts))
