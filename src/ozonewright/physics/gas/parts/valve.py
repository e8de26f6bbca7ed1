"""Valves and holes: flow through a narrow place, up to the speed of sound."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, pi, sqrt

from ozonewright.physics.gas.parts.law import Gas
from ozonewright.references.constants import R

CRITICAL = 0.5
"""Ratio of outlet to inlet pressure at which a small valve chokes (common practice: 0.2 to 0.5)."""
NOZZLE = 0.528
"""The same of a round hole, for air and oxygen."""
HOLE_COEFFICIENT = 0.8
"""Discharge coefficient of a small hole (common practice: 0.6 sharp to 0.9 rounded)."""
CHOKED = 0.6847
"""Choked flow of a perfect nozzle, in area times pressure over root R T/M; heat ratio 1.4."""


def inlet_pressure_iso_6358(
    *, reduced_flow: float, critical_ratio: float, outlet_pressure: float
) -> float:
    """Pressure before a valve or hole from its flow, at and below the speed of sound.

    Parameters
    ----------
    reduced_flow : float
        Inlet pressure at which the valve would just pass this flow choked. [Pa]
    critical_ratio : float
        Outlet over inlet pressure at which it chokes, between 0 and 1. [1]
    outlet_pressure : float
        Absolute pressure behind it. [Pa]

    Returns
    -------
    pressure : float
        Absolute pressure before it. [Pa]

    Raises
    ------
    None

    Valid
    -----
    Ideal gas; the quarter ellipse stands for the subsonic branch.

    Source
    ------
    iso_6358

    Notes
    -----
    n/(C p1) = sqrt(1 - ((p2/p1 - b)/(1 - b))^2); with a = n/C it is a quadratic in p1:
    ((1 - b)^2 - b^2) p1^2 + 2 b p2 p1 - p2^2 - (1 - b)^2 a^2 = 0, written so that b = 1/2 is no
    special case.
    """
    b, a, p2 = critical_ratio, reduced_flow, outlet_pressure
    if p2 <= b * a:
        return a
    square, half, rest = 1.0 - 2.0 * b, b * p2, p2 * p2 + ((1.0 - b) * a) ** 2
    return rest / (half + sqrt(half * half + square * rest))


def reduced_flow(*, flow: float, conductance: float, gas: Gas) -> float:
    """Inlet pressure at which a valve would just pass a flow choked.

    Parameters
    ----------
    flow : float
        Dry gas. [mol/s]
    conductance : float
        Choked flow times root R T/M over pressure: an area. [m2]
    gas : Gas
        What flows. [-]

    Returns
    -------
    pressure : float
        Absolute. [Pa]

    Raises
    ------
    None

    Valid
    -----
    Ideal gas.

    Source
    ------
    iso_6358
    """
    mass_flow = flow * gas.wet * gas.molar_mass
    return mass_flow * sqrt(R * gas.temperature / gas.molar_mass) / conductance


def conductance_of_reading(
    *, flow: float, inlet_pressure: float, outlet_pressure: float, critical_ratio: float, gas: Gas
) -> float:
    """Conductance of a valve from one reading of flow and pressures.

    Parameters
    ----------
    flow : float
        Dry gas. [mol/s]
    inlet_pressure : float
        Absolute. [Pa]
    outlet_pressure : float
        Absolute, lower. [Pa]
    critical_ratio : float
        Outlet over inlet pressure at which it chokes. [1]
    gas : Gas
        What flowed. [-]

    Returns
    -------
    conductance : float
        Choked flow times root R T/M over pressure. [m2]

    Raises
    ------
    None

    Valid
    -----
    Ideal gas.

    Source
    ------
    iso_6358
    """
    ratio = outlet_pressure / inlet_pressure
    over = (ratio - critical_ratio) / (1.0 - critical_ratio)
    share = sqrt(1.0 - over * over) if ratio > critical_ratio else 1.0
    return reduced_flow(flow=flow, conductance=1.0, gas=gas) / (inlet_pressure * share)


def conductance_of_hole(*, bore: float) -> float:
    """Conductance of a round hole.

    Parameters
    ----------
    bore : float
        Its diameter. [m]

    Returns
    -------
    conductance : float
        Choked flow times root R T/M over pressure. [m2]

    Raises
    ------
    None

    Valid
    -----
    Short holes; the coefficient of discharge is unsure to 25 %.

    Source
    ------
    orifice_practice
    """
    return HOLE_COEFFICIENT * CHOKED * 0.25 * pi * bore * bore


@dataclass(frozen=True, slots=True)
class Valve:
    """A needle valve at one setting, or a hole."""

    conductance: float
    critical_ratio: float = CRITICAL
    one_way: bool = False
    most: float = inf

    def inlet(self, flow: float, outlet: float, gas: Gas) -> float:
        """Return the pressure before the valve."""
        if flow == 0.0:
            return outlet
        return inlet_pressure_iso_6358(
            reduced_flow=reduced_flow(flow=flow, conductance=self.conductance, gas=gas),
            critical_ratio=self.critical_ratio,
            outlet_pressure=outlet,
        )
