"""Viscosity of a gas and of a mixture."""

from __future__ import annotations

from collections.abc import Sequence

from ozonewright.physics import Real
from ozonewright.references.constants import NORMAL_TEMPERATURE


def viscosity_sutherland(*, temperature: Real, at_zero: float, sutherland: float) -> Real:
    """Viscosity of a dilute gas from its figure at 0 °C.

    Parameters
    ----------
    temperature : float
        Of the gas. [K]
    at_zero : float
        Viscosity at 0 °C. [Pa s]
    sutherland : float
        Sutherland's constant of the gas. [K]

    Returns
    -------
    viscosity : float
        At that temperature. [Pa s]

    Raises
    ------
    None

    Valid
    -----
    -40..100 °C, up to 10 bar; within 0.2 % for oxygen, nitrogen, argon and air.

    Source
    ------
    sutherland_1893
    bell_2014, the figures of each gas

    Notes
    -----
    mu = mu0 (T/T0)^1.5 (T0 + S)/(T + S)
    """
    ratio = temperature / NORMAL_TEMPERATURE
    return at_zero * ratio**1.5 * (NORMAL_TEMPERATURE + sutherland) / (temperature + sutherland)


def viscosity_herning_1936(
    *, fractions: Sequence[Real], viscosities: Sequence[Real], molar_masses: Sequence[float]
) -> Real:
    """Viscosity of a mixture of gases.

    Parameters
    ----------
    fractions : sequence of float
        Mole fractions; they need not add up to one exactly. [1]
    viscosities : sequence of float
        Of each gas at the temperature of the mixture. [Pa s]
    molar_masses : sequence of float
        In the same order. [kg/mol]

    Returns
    -------
    viscosity : float
        Of the mixture. [Pa s]

    Raises
    ------
    None

    Valid
    -----
    Gases alike in size, at low pressure; within 1 % for oxygen, nitrogen and argon.

    Source
    ------
    herning_1936

    Notes
    -----
    mu = sum x mu sqrt(M) / sum x sqrt(M)
    """
    weights = [x * mass**0.5 for x, mass in zip(fractions, molar_masses, strict=True)]
    weighted = [w * mu for w, mu in zip(weights, viscosities, strict=True)]
    mixture: Real = sum(weighted[1:], weighted[0]) / sum(weights[1:], weights[0])
    return mixture
