"""A swarm of bubbles that rises through a bottle and loses its ozone on the way."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import cast

import numpy as np

from ozonewright.physics import Real
from ozonewright.physics.liquid.enhancement import (
    enhancement_decoursey_1974,
    hatta,
    instantaneous_enhancement,
)
from ozonewright.physics.liquid.transfer import overall

SLICES = 24
FAINT = 1e-30
"""Ozone at the surface below which none is told apart from none. [mol/m3]"""


@dataclass(frozen=True, slots=True)
class Column:
    """Bubbled liquid in one bottle; SI, floats or arrays that go together."""

    bubble: Real
    rise: Real
    """Of the bubbles against the bottle: their own and the superficial velocity. [m/s]"""
    depth: Real
    volume: Real
    flow: Real
    """Of gas at the bottle's temperature and pressure. [m3/s]"""
    partition: Real
    kl: Real
    kg: Real
    diffusivity: Real
    rate_constant: Real = 0.0
    reactant: Real = 0.0
    per_ozone: Real = 1.0
    diffusivity_ratio: Real = 1.0
    correction: Real = 1.0
    """By which a measurement multiplies the transfer of the model."""


def enhancement_at(*, column: Column, gas: Real) -> Real:
    """Enhancement of absorption from gas of a concentration.

    Parameters
    ----------
    column : Column
        The bottle. [-]
    gas : float
        Ozone in the gas. [mol/m3]

    Returns
    -------
    enhancement : float
        At least 1. [1]

    Raises
    ------
    None

    Valid
    -----
    The surface is taken in balance with the gas: with a film of gas it holds less, and the
    enhancement is higher.

    Source
    ------
    decoursey_1974
    """
    number = hatta_of(column=column)
    interface: Real = column.partition * gas + FAINT
    limit = instantaneous_enhancement(
        reactant=column.reactant + FAINT,
        per_ozone=column.per_ozone,
        interface=interface,
        diffusivity_ratio=column.diffusivity_ratio,
    )
    return enhancement_decoursey_1974(hatta=number, instantaneous=np.maximum(limit, 1.0 + 1e-9))


def hatta_of(*, column: Column) -> Real:
    """Hatta number of a bottle.

    Parameters
    ----------
    column : Column
        The bottle. [-]

    Returns
    -------
    hatta : float
        0 without a reactant. [1]

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
    return hatta(
        rate_constant=column.rate_constant,
        reactant=column.reactant,
        diffusivity=column.diffusivity,
        kl=column.kl,
    )


def transfer_units(*, column: Column, gas: Real) -> Real:
    """Number of transfer units of a whole rise, for gas of a concentration.

    Parameters
    ----------
    column : Column
        The bottle. [-]
    gas : float
        Ozone in the gas. [mol/m3]

    Returns
    -------
    units : float
        Without dissolved ozone, a bubble keeps exp(-units) of its ozone. [1]

    Raises
    ------
    None

    Valid
    -----
    Balls of one size.

    Source
    ------
    geometry, area 6/d of a ball's volume
    """
    coefficient = overall(
        kg=column.kg,
        kl=column.kl,
        partition=column.partition,
        enhancement=enhancement_at(column=column, gas=gas),
    )
    return column.correction * coefficient * 6.0 / column.bubble * column.depth / column.rise


def share_left(*, column: Column, gas: Real, dissolved: Real, slices: int = SLICES) -> Real:
    """Share of its ozone that a bubble still has at the surface.

    Parameters
    ----------
    column : Column
        The bottle. [-]
    gas : float
        Ozone in the gas at the sparger. [mol/m3]
    dissolved : float
        Ozone in the bulk of the liquid. [mol/m3]
    slices : int
        Of the rise; the error falls with their square. [1]

    Returns
    -------
    share : float
        Above 1 where the liquid gives ozone back. [1]

    Raises
    ------
    None

    Valid
    -----
    Mixed liquid; bubbles neither merge nor split; their growth as the pressure falls and the ozone
    lost from their volume (a few per cent) left out.

    Source
    ------
    higbie_1935, plug flow of bubbles
    geometry

    Notes
    -----
    In each of so many slices the balance is solved exactly with the enhancement at its middle.
    """
    number = hatta_of(column=column)
    rest: Real = dissolved / ((1.0 + number**2) * column.partition * (gas + FAINT))
    share: Real = cast(Real, np.ones_like(np.asarray(rest + gas * column.partition * column.kl)))
    if not np.any(column.reactant):
        units = transfer_units(column=column, gas=gas)
        return rest + (share - rest) * np.exp(-units)
    units_at = _units_at(column, number, gas, slices)
    for _ in range(slices):
        middle = rest + (share - rest) * np.exp(-0.5 * units_at(share))
        share = rest + (share - rest) * np.exp(-units_at(middle))
    return share


def _units_at(column: Column, number: Real, gas: Real, slices: int) -> Callable[[Real], Real]:
    """Return the transfer units of a slice against the share of its ozone that the gas has.

    The same as `transfer_units`, with what does not change along the rise taken out.
    """
    rise = column.correction * 6.0 / column.bubble * column.depth / column.rise / slices
    through_gas = 1.0 / column.kg
    through_liquid = 1.0 / (column.partition * column.kl)
    reach = (column.reactant + FAINT) / column.per_ozone * column.diffusivity_ratio**0.5
    surface = column.partition * gas

    def units(share: Real) -> Real:
        limit = 1.0 + reach / (surface * share + FAINT)
        enhancement = enhancement_decoursey_1974(
            hatta=number, instantaneous=np.maximum(limit, 1.0 + 1e-9)
        )
        return rise / (through_gas + through_liquid / enhancement)

    return units


def dissolved_ozone(*, column: Column, gas: Real) -> Real:
    """Ozone in the bulk of the liquid once what enters it is used up there.

    Parameters
    ----------
    column : Column
        The bottle, with a reactant. [-]
    gas : float
        Ozone in the gas at the sparger. [mol/m3]

    Returns
    -------
    dissolved : float
        Of the steady state while the reactant lasts; in balance with the gas without one. [mol/m3]

    Raises
    ------
    None

    Valid
    -----
    Mixed liquid; ozone that goes by itself left out.

    Source
    ------
    geometry, balance of the bulk

    Notes
    -----
    What is taken up falls in a straight line with the ozone dissolved, as far as the enhancement
    does not change with it: c = U0/(V k c_B + (U0 - U1)/c1).
    """
    full: Real = column.partition * gas
    empty = column.flow * gas * (1.0 - share_left(column=column, gas=gas, dissolved=0.0 * gas))
    filled = column.flow * gas * (1.0 - share_left(column=column, gas=gas, dissolved=full))
    used = column.volume * column.rate_constant * column.reactant
    return empty / (used + (empty - filled) / (full + FAINT))


def filling_time(*, column: Column, gas: Real) -> Real:
    """Time in which a liquid without a reactant fills with ozone to 63 %.

    Parameters
    ----------
    column : Column
        The bottle, without a reactant. [-]
    gas : float
        Ozone in the gas at the sparger. [mol/m3]

    Returns
    -------
    time : float
        Of gas flowing. [s]

    Raises
    ------
    None

    Valid
    -----
    Mixed liquid; ozone that goes by itself left out.

    Source
    ------
    geometry, balance of the bulk

    Notes
    -----
    tau = V m/(Q (1 - exp(-N)))
    """
    taken = 1.0 - share_left(column=column, gas=gas, dissolved=0.0 * gas)
    return column.volume * column.partition / (column.flow * taken)
