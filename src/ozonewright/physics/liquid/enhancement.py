"""How much a reaction in the liquid speeds absorption."""

from __future__ import annotations

from typing import cast

import numpy as np

from ozonewright.physics import Real


def iodide_rate(*, factor: Real, energy: Real, temperature: Real, gas_constant: Real) -> Real:
    """Rate constant of ozone with iodide.

    Parameters
    ----------
    factor : float
        Before the exponential. [m3/(mol s)]
    energy : float
        Activation energy. [J/mol]
    temperature : float
        Of the solution. [K]
    gas_constant : float
        R. [J/(mol K)]

    Returns
    -------
    rate_constant : float
        Second order. [m3/(mol s)]

    Raises
    ------
    None

    Valid
    -----
    2..25 °C; constants of other texts are lower, down to a tenth.

    Source
    ------
    brown_2024, 5.4e10 L/(mol s) and 7.0 kJ/mol

    Example
    -------
    3.21e9 L/(mol s) at 25 °C.
    """
    return factor * cast(Real, np.exp(-energy / (gas_constant * temperature)))


def hatta(*, rate_constant: Real, reactant: Real, diffusivity: Real, kl: Real) -> Real:
    """Hatta number: reaction against transfer in the film.

    Parameters
    ----------
    rate_constant : float
        Of ozone with the reactant. [m3/(mol s)]
    reactant : float
        In the bulk of the liquid. [mol/m3]
    diffusivity : float
        Of ozone in the liquid. [m2/s]
    kl : float
        Through the liquid, without reaction. [m/s]

    Returns
    -------
    hatta : float
        Below 0.3 the reaction is in the bulk, above 3 in the film. [1]

    Raises
    ------
    None

    Valid
    -----
    Second-order reaction.

    Source
    ------
    decoursey_1974
    """
    return (rate_constant * reactant * diffusivity) ** 0.5 / kl


def instantaneous_enhancement(
    *, reactant: Real, per_ozone: Real, interface: Real, diffusivity_ratio: Real
) -> Real:
    """Enhancement by a reaction without delay: the reactant's supply limits it.

    Parameters
    ----------
    reactant : float
        In the bulk of the liquid. [mol/m3]
    per_ozone : float
        Moles of reactant for each mole of ozone. [1]
    interface : float
        Ozone dissolved at the surface. [mol/m3]
    diffusivity_ratio : float
        Diffusivity of the reactant over that of ozone. [1]

    Returns
    -------
    enhancement : float
        At least 1. [1]

    Raises
    ------
    None

    Valid
    -----
    Surface renewal; the film model has the first power of the ratio.

    Source
    ------
    decoursey_1974, from memory

    Notes
    -----
    Ei = 1 + (c_B/(nu c*)) (D_B/D_A)^(1/2), which tends to the film's and the renewal's limits alike
    where the two diffusivities are equal.
    """
    return 1.0 + reactant / (per_ozone * interface) * diffusivity_ratio**0.5


def enhancement_decoursey_1974(*, hatta: Real, instantaneous: Real) -> Real:
    """Enhancement of absorption by a second-order reaction.

    Parameters
    ----------
    hatta : float
        Hatta number. [1]
    instantaneous : float
        Enhancement if the reaction had no delay, above 1. [1]

    Returns
    -------
    enhancement : float
        Between 1 and the instantaneous one. [1]

    Raises
    ------
    None

    Valid
    -----
    Any Hatta number; within 10 % of the exact solution (from memory).

    Source
    ------
    decoursey_1974, from memory

    Notes
    -----
    E solves E^2 = 1 + Ha^2 (Ei - E)/(Ei - 1); its limits are 1, (1 + Ha^2)^(1/2) and Ei. Written
    without a difference of large numbers: E = 2 (1 + b Ei)/(b + (b^2 + 4 (1 + b Ei))^(1/2)), with
    b = Ha^2/(Ei - 1).
    """
    b: Real = hatta**2 / (instantaneous - 1.0)
    c: Real = 1.0 + b * instantaneous
    return 2.0 * c / (b + (b**2 + 4.0 * c) ** 0.5)


def warmed_rate(*, energy: Real, temperature: Real, reference: Real, gas_constant: Real) -> Real:
    """Rate constant over that at a reference temperature.

    Parameters
    ----------
    energy : float
        Activation energy. [J/mol]
    temperature : float
        Of the liquid. [K]
    reference : float
        At which the constant is known. [K]
    gas_constant : float
        R. [J/(mol K)]

    Returns
    -------
    factor : float
        Below 1 in the cold. [1]

    Raises
    ------
    None

    Valid
    -----
    Far from the diffusion limit.

    Source
    ------
    brown_2024, law of Arrhenius
    """
    return cast(Real, np.exp(-energy / gas_constant * (1.0 / temperature - 1.0 / reference)))
