"""The whole scheme of a discharge's gas, integrated: the reference for the reduced model.

Nothing is taken as steady here, O(1D), NO3 and the hydrogen radicals are followed like the rest.
Rate constants are typed again from the sources (cm³, molecules, s), not taken from the tables.
"""

from __future__ import annotations

from math import exp, log10

import numpy as np
from scipy.integrate import solve_ivp

AVOGADRO, GAS = 6.02214076e23, 8.314462618
SPECIES = ["O", "O3", "O2", "NO", "NO2", "NO3", "N2O5", "HNO3", "O1D", "H", "OH", "HO2", "H2O"]
AT = {name: place for place, name in enumerate(SPECIES)}
TWO_BODIES = """
O O3 = O2 O2 : 8.0e-12 0 2060
NO O3 = NO2 O2 : 3.0e-12 0 1500
NO2 O3 = NO3 O2 : 1.2e-13 0 2450
NO2 O = NO O2 : 5.3e-12 0 -200
NO3 NO = NO2 NO2 : 1.7e-11 0 -125
NO3 O = NO2 O2 : 1.3e-11 0 0
O1D O2 = O O2 : 3.3e-11 0 -55
O1D H2O = OH OH : 1.63e-10 0 -60
H O3 = OH O2 : 1.4e-10 0 470
OH O3 = HO2 O2 : 1.7e-12 0 940
HO2 O3 = OH O2 O2 : 1.0e-14 0 490
O OH = H O2 : 1.8e-11 0 -180
O HO2 = OH O2 : 3.0e-11 0 -200
OH HO2 = H2O O2 : 4.8e-11 0 -250
"""


def _constant(a: float, n: float, b: float, temperature: float) -> float:
    return a * (temperature / 300.0) ** n * exp(-b / temperature)


def _reactions(temperature: float, density: float) -> list[tuple[list[str], list[str], float]]:
    def fall_off(low: float, high: float) -> float:
        ratio = low * density / high
        return low * density / (1.0 + ratio) * 0.6 ** (1.0 / (1.0 + log10(ratio) ** 2))

    found = []
    for line in TWO_BODIES.strip().splitlines():
        sides, numbers = line.split(":")
        left, right = (side.split() for side in sides.split("="))
        found.append((left, right, _constant(*map(float, numbers.split()), temperature)))
    hot = temperature / 300.0
    joined = fall_off(2.4e-30 * hot**-3, 1.6e-12 * hot**0.1)
    self_met = 3.0e-13 * exp(460 / temperature) + 2.1e-33 * exp(920 / temperature) * density
    return [
        *found,
        (["O3"], ["O", "O2"], _constant(7.2e-10, 0, 11161, temperature) * density),
        (["NO3", "NO2"], ["N2O5"], joined),
        (["N2O5"], ["NO3", "NO2"], 1.72e26 * exp(-10840 / temperature) * joined),
        (["NO", "O"], ["NO2"], fall_off(9.0e-32 * hot**-1.5, 3.0e-11)),
        (["OH", "NO2"], ["HNO3"], fall_off(1.8e-30 * hot**-3, 2.8e-11)),
        (["HO2", "HO2"], ["O2"], self_met),
        (["H", "O2"], ["HO2"], _constant(4.4e-32, -1.3, 0, temperature) * density),
    ]


def integrated(
    *,
    power: float,
    flow: float,
    oxygen: float,
    nitrogen: float,
    water: float,
    temperature: float,
    pressure: float,
    volume: float,
    efficiency: float,
    loss: float,
    share: float,
    nox: float,
) -> dict[str, float]:
    """Return what leaves the gap of each species, for each mole of dry feed."""
    density = pressure / (GAS * temperature) * AVOGADRO * 1e-6
    reactions = [
        ([AT[name] for name in left], [AT[name] for name in right], k)
        for left, right, k in _reactions(temperature, density)
    ]
    by_o2, by_n2 = (_constant(a, -2.6, 0, temperature) for a in (6.0e-34, 5.6e-34))
    quenched = 2.15e-11 * exp(110 / temperature)
    hold = volume * 1e6 / flow / AVOGADRO
    spent = 2.0 * efficiency * power / (498.4e3 * flow)

    def slopes(_: float, y: np.ndarray) -> np.ndarray:
        moles = 1.0 - 0.5 * y[AT["O3"]] + water
        c = y * density / moles
        rates = np.zeros_like(y)
        ozone = (by_o2 * c[2] + by_n2 * (density - c[2])) * c[0] * c[2] * hold
        rates[[0, 2, 1]] += (-ozone, -ozone, ozone)
        for left, right, k in reactions:
            rate = k * hold * np.prod(c[left])
            for place in left:
                rates[place] -= rate
            for place in right:
                rates[place] += rate
        down = quenched * c[AT["O1D"]] * nitrogen * density / moles * hold
        struck, helped = spent * y[2] / moles, spent * share * nitrogen / moles
        lost, split = spent * loss * y[1] / moles, spent * y[AT["H2O"]] / moles
        rates[AT["O1D"]] += 0.5 * struck - down
        rates[0] += 0.5 * struck + helped + down
        rates[2] += 1.5 * lost - 0.5 * (struck + helped)
        rates[1] -= lost
        rates[AT["NO"]] += spent * nox * nitrogen
        rates[AT["H2O"]] -= split
        rates[AT["OH"]] += split
        rates[AT["H"]] += split
        return rates

    start = np.zeros(len(SPECIES))
    start[AT["O2"]], start[AT["H2O"]] = oxygen, water
    solution = solve_ivp(slopes, (0.0, 1.0), start, method="BDF", rtol=1e-6, atol=1e-14)
    assert solution.success
    return dict(zip(SPECIES, solution.y[:, -1], strict=True))
