"""The vapour of a solvent by name: the equation and the range of the shipped table."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from ozonewright.physics import Real
from ozonewright.physics.hazards.vapour import (
    spread_of_equation,
    temperature_of_vapour_pressure,
    vapour_pressure_dippr101,
    vapour_pressure_wagner25,
)
from ozonewright.references.vapour import VapourPressure, vapour_pressure_data


class Vapour(NamedTuple):
    """Vapour pressure with its relative uncertainty, and whether the substance is solid."""

    pressure: Real
    spread: Real
    frozen: bool


def vapour_of(*, substance: str, temperature: Real) -> Vapour:
    """Vapour pressure of a shipped substance by name.

    Parameters
    ----------
    substance : str
        One of its names. [-]
    temperature : float
        Of the liquid or solid. [K]

    Returns
    -------
    vapour : Vapour
        Pressure in Pa, its relative uncertainty, and whether any of it is frozen. [-]

    Raises
    ------
    UnknownSubstance
        No equation is shipped for it.

    Valid
    -----
    Up to the critical point. Frozen: the pressure at the melting point, which the solid is below.

    Source
    ------
    chemicals_library

    Example
    -------
    Ethyl acetate at 0 °C: 3.25 kPa.
    """
    data = vapour_pressure_data(substance)
    liquid: Real = np.maximum(temperature, data.freezes)[()]
    spread = spread_of_equation(
        temperature=liquid, warm=data.u, cold_spread=data.u_cold, cold=data.cold
    )
    frozen = bool(np.any(np.less(temperature, data.freezes)))
    return Vapour(_pressure(data, liquid), spread, frozen)


def _pressure(data: VapourPressure, temperature: Real) -> Real:
    if data.form == "dippr101":
        given = dict(zip("abcde", data.coefficients, strict=True))
        return vapour_pressure_dippr101(temperature=temperature, **given)
    assert data.critical_pressure is not None
    given = dict(zip("abcd", data.coefficients, strict=True))
    return vapour_pressure_wagner25(
        temperature=temperature,
        critical_temperature=data.critical_temperature,
        critical_pressure=data.critical_pressure,
        **given,
    )


def temperature_of_fraction(*, substance: str, fraction: float, pressure: float) -> float:
    """Temperature at which gas saturated with a solvent holds a stated share of its vapour.

    Parameters
    ----------
    substance : str
        One of its names. [-]
    fraction : float
        Vapour in the gas. [1]
    pressure : float
        Absolute pressure of the gas. [Pa]

    Returns
    -------
    temperature : float
        Of the liquid. [K]

    Raises
    ------
    UnknownSubstance
        No equation is shipped for it.
    NotApplicable
        The liquid has this share at no temperature between melting and critical point.

    Valid
    -----
    Between melting and critical point.

    Source
    ------
    chemicals_library

    Example
    -------
    Ethyl acetate, 0.5 vol% at 101.325 kPa: -27.3 °C.
    """
    data = vapour_pressure_data(substance)
    return temperature_of_vapour_pressure(
        target=fraction * pressure,
        pressure_at=lambda temperature: float(_pressure(data, temperature)),
        low=data.freezes,
        high=data.critical_temperature,
    )
