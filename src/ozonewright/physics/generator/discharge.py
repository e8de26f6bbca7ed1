"""Ozone made in a discharge: plug flow of oxygen, nitrogen and water vapour through a gap.

The power is spread evenly over the gap. Atoms, O(1D), NO3 and the hydrogen radicals live for less
than a thousandth of the time in the gap and are taken as steady; ozone and the nitrogen oxides are
followed along the gap. The lumped constants (efficiency, loss, share of nitrogen, nitrogen oxides)
belong to one generator: they are fitted, never known.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ozonewright.errors import OutOfBounds
from ozonewright.physics import Real
from ozonewright.physics.generator.kinetics import (
    Nitrogen,
    Oxygen,
    Water,
    nitrogen_rates,
    oxygen_rates,
    water_rates,
)
from ozonewright.references.discharge import belief

STEPS = 24
"""Along the gap; more of them move the ozone by less than 0.5 % short of poisoning."""
DISSOCIATION = belief("DISSOCIATION").centre.value
EXCITED = belief("EXCITED").centre.value


@dataclass(frozen=True, slots=True)
class Lumped:
    """The constants of one generator."""

    efficiency: Real
    """Share of the power that ends in broken O=O bonds, in pure oxygen. [1]"""
    loss: Real
    """How many times sooner the discharge undoes an ozone than it breaks an oxygen. [1]"""
    nitrogen: Real
    """Atoms that power spent on nitrogen brings, over those of power spent on oxygen. [1]"""
    nox: Real
    """NO that power spent on nitrogen brings, over the atoms of power spent on oxygen. [1]"""


@dataclass(frozen=True, slots=True)
class Made:
    """What leaves the gap, for each mole of dry feed."""

    ozone: Real
    nox: Real
    """Nitrogen in NO, NO2, N2O5 and HNO3."""


@dataclass(frozen=True, slots=True)
class _Gap:
    """One gap with its gas: rates along z, the share of the gap passed."""

    oxygen: Real
    nitrogen: Real
    water: Real
    spent: Real
    """Atoms that the power would bring if all met oxygen, for each mole of feed."""
    hold: Real
    """Volume over molar flow. [m3 s/mol]"""
    lumped: Lumped
    o: Oxygen
    n: Nitrogen | None
    w: Water | None


def discharge(
    *,
    power: Real,
    flow: Real,
    oxygen: Real,
    nitrogen: Real,
    water: Real,
    temperature: Real,
    pressure: Real,
    volume: Real,
    lumped: Lumped,
) -> Made:
    """Ozone and nitrogen oxides that leave a discharge, for each mole of dry feed.

    Parameters
    ----------
    power : float
        On the basis of the efficiency, plug or discharge; above zero. [W]
    flow : float
        Dry feed, above zero. [mol/s]
    oxygen : float
        Mole fraction in the dry feed, above zero. [1]
    nitrogen : float
        Mole fraction in the dry feed; the rest is taken as argon. [1]
    water : float
        Water vapour for each mole of dry feed. [1]
    temperature : float
        Mean of the gas in the gap. [K]
    pressure : float
        Absolute, in the gap. [Pa]
    volume : float
        Of the gap, above zero. [m3]
    lumped : Lumped
        The constants of the generator. [-]

    Returns
    -------
    made : Made
        Ozone and nitrogen oxides. [1]

    Raises
    ------
    OutOfBounds
        No power, no flow, no oxygen or no gap.

    Valid
    -----
    250..420 K, 0.5..3 bar; within 2 % of the full scheme for ozone (tests). Not in the model:
    the single filaments, the field, the walls and what damp does to them, the age of electrodes.

    Source
    ------
    atkinson_2004
    burkholder_2019
    mcbride_2002
    eliasson_1991, nitrogen oxides end the ozone of air at high specific energy (from memory)

    Notes
    -----
    dx/dz = production - x loss, stepped by the positive scheme r + h (p - q r) E(q h) with
    E(a) = (1 + a/2) / (1 + a + a²/2), predictor and corrector.
    """
    for name, value in {"power": power, "flow": flow, "oxygen": oxygen, "volume": volume}.items():
        if not np.all(np.greater(value, 0.0)):
            raise OutOfBounds(
                "a discharge needs this above zero",
                where=name,
                got=f"{np.min(value):.4g}",
                fix="Leave out points without power or flow: they make no ozone.",
            )
    rates = oxygen_rates(temperature=temperature, pressure=pressure, oxygen=oxygen)
    airy, damp = bool(np.any(nitrogen)), bool(np.any(water))
    at = {"temperature": temperature, "density": rates.density}
    gap = _Gap(
        oxygen=oxygen,
        nitrogen=nitrogen,
        water=water,
        spent=2.0 * lumped.efficiency * power / (DISSOCIATION * flow),
        hold=volume / flow,
        lumped=lumped,
        o=rates,
        n=nitrogen_rates(**at) if airy else None,
        w=water_rates(**at) if damp else None,
    )
    return _marched(gap)


def _marched(gap: _Gap) -> Made:
    """Step through the gap, finer where it begins."""
    state, radicals, z = _State(), _Radicals(), 0.0
    for step in range(1, STEPS + 1):
        end = (step / STEPS) ** 2
        first, radicals = _slopes(gap, z, state, radicals)
        guess = _stepped(state, first, end - z)
        second, radicals = _slopes(gap, end, guess, radicals)
        mean = (0.5 * (one + other) for one, other in zip(first, second, strict=True))
        state = _stepped(state, tuple(mean), end - z)
        z = end
    return Made(ozone=state.ozone, nox=_released(gap, 1.0))


def _stepped(state: _State, slopes: Slopes, h: float) -> _State:
    """Return the state a step on: ozone by a positive step, nitrogen by one that keeps its sum."""
    made, lost, nitrogen, paired, parted, acid = slopes
    ozone = state.ozone + h * (made - lost * state.ozone) * _average(lost * h)
    back = parted * h / (1.0 + parted * h)
    kept = 1.0 + (2.0 * paired * (1.0 - back) + acid) * h
    free = (state.free + nitrogen * h + 2.0 * back * state.n2o5) / kept
    return _State(ozone, free, (state.n2o5 + paired * h * free) / (1.0 + parted * h))


def _released(gap: _Gap, z: float) -> Real:
    """Return the nitrogen that the discharge has turned to oxides up to z."""
    return gap.spent * gap.lumped.nox * gap.nitrogen * z


@dataclass(frozen=True, slots=True)
class _Radicals:
    """What is steady: OH and HO2 in mol/m3, nitrogen oxides for each mole of feed."""

    oh: Real = 0.0
    ho2: Real = 0.0
    no: Real = 0.0
    no2: Real = 0.0
    no3: Real = 0.0


@dataclass(frozen=True, slots=True)
class _State:
    """What is followed along the gap: ozone for each mole of dry feed.

    Nitrogen is followed as a share of what the whole gap turns to oxides, so that feeds with and
    without it may stand in one array.
    """

    ozone: Real = 0.0
    free: Real = 0.0
    """NO, NO2 and NO3 together."""
    n2o5: Real = 0.0


Slopes = tuple[Real, ...]
"""Along z: ozone made, how often it is lost; nitrogen made, how often it joins, parts, is held."""


def _slopes(gap: _Gap, z: float, state: _State, before: _Radicals) -> tuple[Slopes, _Radicals]:
    """Return what happens along z, and what is steady there."""
    x = state.ozone
    o2 = gap.oxygen - 1.5 * x
    moles = 1.0 - 0.5 * x + gap.water
    density = gap.o.density / moles
    spent = gap.spent / moles
    time = gap.hold * density
    apart = time * gap.o.o3_apart
    atoms = spent * (o2 + gap.lumped.nitrogen * gap.nitrogen)
    made_radicals: Real = 0.0
    if gap.w is not None:
        lost = _to_water(gap, o2) * EXCITED * spent * o2
        atoms = atoms - lost
        made_radicals = 2.0 * (lost + spent * gap.water)
    binding = gap.o.o_o2 * density * o2
    takers = binding + gap.o.o_o3 * density * x
    if gap.n is not None:
        takers = takers + density * (
            gap.n.no2_o * before.no2 + gap.n.no_o * before.no + gap.n.no3_o * before.no3
        )
    if gap.w is not None:
        takers = takers + gap.w.o_oh * before.oh + gap.w.o_ho2 * before.ho2
    o = (atoms + apart * x) / takers
    """Of O, for each mole of feed, times the time in the gap. [s]"""
    loss = gap.o.o_o3 * density * o + apart + spent * gap.lumped.loss
    oh, ho2 = before.oh, before.ho2
    if gap.w is not None:
        oh_no2 = gap.n.oh_no2 * density * before.no2 if gap.n is not None else 0.0
        oh, ho2, more = _hydrogen(gap.w, time, density, x, o2, o, made_radicals, oh_no2, before)
        loss = loss + more
    if gap.n is None:
        return (binding * o, loss, 0.0, 0.0, 0.0, 0.0), _Radicals(oh, ho2)
    met = time * density
    (no, no2, no3), oxides = _oxides(gap, gap.n, z, time, met, density * o, state, time * oh)
    loss = loss + met * (gap.n.no_o3 * no + gap.n.no2_o3 * no2)
    return (binding * o, loss, *oxides), _Radicals(oh, ho2, no, no2, no3)


def _oxides(
    gap: _Gap,
    n: Nitrogen,
    z: float,
    time: Real,
    met: Real,
    atom: Real,
    state: _State,
    oh: Real,
) -> tuple[tuple[Real, Real, Real], Slopes]:
    """Return NO, NO2 and NO3, and what happens to nitrogen along z.

    NO turns to NO2 and back far faster than the gas passes, and NO3 into N2O5: their shares are
    steady, but for NO that was made since the gap began.
    """
    x, free, n2o5 = state.ozone, state.free, state.n2o5
    made = _released(gap, 1.0)
    apart = time * n.n2o5_apart
    if z == 0.0:
        return (0.0, 0.0, 0.0), (1.0, 0.0, apart, 0.0)
    on, back = met * n.no_o3 * x + n.no_o * atom, n.no2_o * atom
    since = (on + back) * z
    settled = on * _settled(since)
    """Of the NO made since the gap began, what has turned to NO2 meanwhile."""
    fresh = (on - settled) * z
    rest = free * settled * free / ((settled + back) * free + fresh)
    no = free - rest
    burnt = met * n.no2_o3 * x
    ending = met * n.no3_no * made * no + n.no3_o * atom
    joining = met * n.no3_no2 * made * rest
    to_no2 = (burnt + apart * n2o5 / rest) / (ending + joining)
    no2 = rest / (1.0 + to_no2)
    joined = joining / (ending + joining)
    kept = joined * burnt * no2 / free
    acid = n.oh_no2 * oh * no2 / free
    oxides = (made * no, made * no2, made * (rest - no2))
    return oxides, (1.0, kept, apart * (1.0 - joined), acid)


def _settled(a: Real) -> Real:
    """Return 1 less `_average`, to all figures where a is small."""
    return (0.5 * a + 0.5 * a * a) / (1.0 + a + 0.5 * a * a)


def _average(a: Real) -> Real:
    """Return nearly (1 - exp(-a)) / a."""
    return (1.0 + 0.5 * a) / (1.0 + a + 0.5 * a * a)


def _to_water(gap: _Gap, o2: Real) -> Real:
    """Return the share of O(1D) that meets water and splits it."""
    assert gap.w is not None
    met = gap.w.o1d_h2o * gap.water
    return met / (gap.w.o1d_o2 * o2 + gap.w.o1d_n2 * gap.nitrogen + met)


def _hydrogen(
    w: Water,
    time: Real,
    density: Real,
    x: Real,
    o2: Real,
    o: Real,
    made: Real,
    oh_no2: Real,
    before: _Radicals,
) -> tuple[Real, Real, Real]:
    """Return OH and HO2, and how often ozone meets hydrogen radicals along z."""
    atom = density * o / time
    source = made * density / time
    to_o3 = w.h_o3 / (w.h_o2 * o2 + w.h_o3 * x)
    turned = w.oh_o3 * density * x + w.o_oh * atom * (1.0 - to_o3 * x)
    back = w.ho2_o3 * density * x + w.o_ho2 * atom
    ended = w.oh_ho2 * before.oh + 2.0 * w.ho2_ho2 * before.ho2
    ratio = turned / (back + ended)
    ending = 2.0 * ratio * (w.oh_ho2 + w.ho2_ho2 * ratio)
    oh = ((oh_no2 * oh_no2 + 4.0 * ending * source) ** 0.5 - oh_no2) / (2.0 * ending)
    ho2 = ratio * oh
    hydrogen = w.o_oh * oh * o + 0.5 * made
    often = time * (w.oh_o3 * oh + w.ho2_o3 * ho2) + hydrogen * to_o3
    return oh, ho2, often
