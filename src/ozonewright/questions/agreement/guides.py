"""Worked examples of the uncertainty guides: their measurement functions and their inputs.

Each example is a pure function and a function of the same name with ``_inputs`` that returns what
the guide states, in the units it prints. Expected values stand with the cases, never here.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import combinations
from math import fsum, inf, sqrt

import numpy as np
from numpy.typing import NDArray

from ozonewright.uncertain import HALF_WIDTHS, Measured, Shape, from_tolerance, repeats
from ozonewright.units import Kind

Numeric = float | NDArray[np.float64]
PLAIN = Kind.DIMENSIONLESS
ML_PER_L = 1000.0
EXPANSION_OF_WATER = 2.1e-4
"""Volume expansion as QUAM states it. [1/°C]"""

Readings = Mapping[str, Sequence[float]]
IMPEDANCE_READINGS: Readings = {
    "voltage": (5.007, 4.994, 5.005, 4.990, 4.999),
    "current": (19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3),
    "phase": (1.0456, 1.0438, 1.0468, 1.0428, 1.0433),
}
"""Table H.2 of JCGM 100:2008. [V, A, rad]"""

POTASSIUM_HYDROGEN_PHTHALATE = {
    "carbon": (8, 12.0107, 0.0008),
    "hydrogen": (5, 1.00794, 0.00007),
    "oxygen": (4, 15.9994, 0.0003),
    "potassium": (1, 39.0983, 0.0001),
}
"""Atoms, atomic weight and its rectangular half-width as QUAM A2 states them. [1, g/mol, g/mol]"""


def _normal(name: str, value: float, u: float, dof: float = inf) -> Measured:
    return Measured(value, u, name, PLAIN, dof=dof)


def _within(name: str, value: float, half_width: float, shape: Shape, dof: float = inf) -> Measured:
    return from_tolerance(value, half_width, shape, name, PLAIN, dof=dof)


def cadmium_standard(
    *, mass: Numeric, purity: Numeric, volume: Numeric, repeatability: Numeric, expansion: Numeric
) -> Numeric:
    """Concentration of a cadmium standard. [mg/L]

    Source: QUAM 2012, example A1. Mass in mg; flask volume, the repeatability of filling and the
    effect of temperature in mL.
    """
    return ML_PER_L * mass * purity / (volume + repeatability + expansion)


def cadmium_standard_inputs() -> dict[str, Measured]:
    """Return the inputs of QUAM 2012, A1.4. [mg, 1, mL]"""
    return {
        "mass": _normal("mass", 100.28, 0.05),
        "purity": _within("purity", 0.9999, 0.0001, "rectangular"),
        "volume": _within("volume", 100.0, 0.1, "triangular"),
        "repeatability": _normal("repeatability", 0.0, 0.02),
        "expansion": _within("expansion", 0.0, 100.0 * EXPANSION_OF_WATER * 4.0, "rectangular"),
    }


def molar_mass_of_phthalate(
    *, carbon: Numeric, hydrogen: Numeric, oxygen: Numeric, potassium: Numeric
) -> Numeric:
    """Molar mass of potassium hydrogen phthalate. [g/mol]

    Source: QUAM 2012, example A2; atomic weights in g/mol.
    """
    weights = {"carbon": carbon, "hydrogen": hydrogen, "oxygen": oxygen, "potassium": potassium}
    total: Numeric = 0.0
    for element, (count, _, _) in POTASSIUM_HYDROGEN_PHTHALATE.items():
        total = total + count * weights[element]
    return total


def sodium_hydroxide(
    *,
    gross: Numeric,
    tare: Numeric,
    purity: Numeric,
    carbon: Numeric,
    hydrogen: Numeric,
    oxygen: Numeric,
    potassium: Numeric,
    titre: Numeric,
    titre_expansion: Numeric,
    repeatability: Numeric,
) -> Numeric:
    """Concentration of a sodium hydroxide solution against phthalate. [mol/L]

    Source: QUAM 2012, example A2. Masses in g, titre and its effect of temperature in mL;
    repeatability is a factor.
    """
    molar_mass = molar_mass_of_phthalate(
        carbon=carbon, hydrogen=hydrogen, oxygen=oxygen, potassium=potassium
    )
    amount = (gross - tare) * purity / molar_mass
    return repeatability * ML_PER_L * amount / (titre + titre_expansion)


def _phthalate_inputs() -> dict[str, Measured]:
    weights = {
        element: _within(element, weight, half_width, "rectangular")
        for element, (_, weight, half_width) in POTASSIUM_HYDROGEN_PHTHALATE.items()
    }
    return {
        # The guide prints the net mass; both weighings carry the linearity of the balance.
        "gross": _within("gross", 0.3888, 0.15e-3, "rectangular"),
        "tare": _within("tare", 0.0, 0.15e-3, "rectangular"),
        "purity": _within("purity", 1.0, 0.0005, "rectangular"),
        **weights,
    }


def sodium_hydroxide_inputs() -> dict[str, Measured]:
    """Return the inputs of QUAM 2012, A2.4. [g, 1, g/mol, mL]"""
    return _phthalate_inputs() | {
        "titre": _within("titre", 18.64, 0.03, "triangular"),
        "titre_expansion": _normal("titre expansion", 0.0, 0.006),
        "repeatability": _normal("repeatability", 1.0, 0.0005),
    }


def hydrochloric_acid(
    *,
    gross: Numeric,
    tare: Numeric,
    purity: Numeric,
    carbon: Numeric,
    hydrogen: Numeric,
    oxygen: Numeric,
    potassium: Numeric,
    titre: Numeric,
    titre_expansion: Numeric,
    acid_titre: Numeric,
    acid_titre_expansion: Numeric,
    pipette: Numeric,
    pipette_expansion: Numeric,
    repeatability: Numeric,
) -> Numeric:
    """Concentration of hydrochloric acid by way of sodium hydroxide and phthalate. [mol/L]

    Source: QUAM 2012, example A3. Masses in g; titres, pipette and effects of temperature in mL;
    repeatability is a factor.
    """
    base = sodium_hydroxide(
        gross=gross,
        tare=tare,
        purity=purity,
        carbon=carbon,
        hydrogen=hydrogen,
        oxygen=oxygen,
        potassium=potassium,
        titre=titre,
        titre_expansion=titre_expansion,
        repeatability=repeatability,
    )
    return base * (acid_titre + acid_titre_expansion) / (pipette + pipette_expansion)


def hydrochloric_acid_inputs() -> dict[str, Measured]:
    """Return the inputs of QUAM 2012, A3.4. [g, 1, g/mol, mL]"""

    def expansion(name: str, volume: float) -> Measured:
        return _within(name, 0.0, volume * EXPANSION_OF_WATER * 4.0, "rectangular")

    return _phthalate_inputs() | {
        "titre": _within("titre", 18.64, 0.03, "triangular"),
        "titre_expansion": expansion("titre expansion", 19.0),
        "acid_titre": _within("acid titre", 14.89, 0.03, "triangular"),
        "acid_titre_expansion": expansion("acid titre expansion", 15.0),
        "pipette": _within("pipette", 15.0, 0.02, "triangular"),
        "pipette_expansion": expansion("pipette expansion", 15.0),
        "repeatability": _normal("repeatability", 1.0, 0.001),
    }


def end_gauge(
    *,
    standard: Numeric,
    comparison: Numeric,
    random_effect: Numeric,
    systematic_effect: Numeric,
    expansion: Numeric,
    expansion_difference: Numeric,
    temperature: Numeric,
    cycle: Numeric,
    temperature_difference: Numeric,
) -> Numeric:
    """Length of an end gauge at 20 °C. [nm]

    Source: JCGM 100:2008, H.1, and JCGM 101:2008, 9.5. Lengths in nm, expansions in 1/°C,
    temperatures off 20 °C in °C.
    """
    difference = comparison + random_effect + systematic_effect
    thermal = expansion_difference * (temperature + cycle) + expansion * temperature_difference
    return standard + difference - standard * thermal


def end_gauge_inputs() -> dict[str, Measured]:
    """Return the inputs of JCGM 100:2008, H.1.3. [nm, 1/°C, °C]"""
    return {
        "standard": _normal("standard", 50_000_623.0, 25.0, 18),
        "comparison": _normal("comparison", 215.0, 5.8, 24),
        "random_effect": _normal("random effect", 0.0, 3.9, 5),
        "systematic_effect": _normal("systematic effect", 0.0, 6.7, 8),
        "expansion": _within("expansion", 11.5e-6, 2e-6, "rectangular"),
        "expansion_difference": _within("expansion difference", 0.0, 1e-6, "rectangular", 50),
        "temperature": _normal("temperature", -0.1, 0.2),
        "cycle": _within("cycle", 0.0, 0.5, "arcsine"),
        "temperature_difference": _within("temperature difference", 0.0, 0.05, "rectangular", 2),
    }


def impedance(*, voltage: Numeric, current: Numeric, phase: Numeric) -> dict[str, Numeric]:
    """Resistance, reactance and impedance of a circuit element. [Ω]

    Source: JCGM 100:2008, H.2. Inputs in V, A and rad.
    """
    total = voltage / current
    return {
        "resistance": total * np.cos(phase),
        "reactance": total * np.sin(phase),
        "impedance": total,
    }


def impedance_inputs(readings: Readings = IMPEDANCE_READINGS) -> dict[str, Measured]:
    """Return means and standard uncertainties of readings, those of JCGM 100:2008, table H.2."""
    return {name: repeats(row, name, PLAIN) for name, row in readings.items()}


def impedance_correlation(
    readings: Readings = IMPEDANCE_READINGS,
) -> dict[frozenset[str] | tuple[str, str], float]:
    """Return the correlation coefficients of the means of those readings (JCGM 100, 5.2.3). [1]"""
    off = {
        name: [reading - fsum(row) / len(row) for reading in row] for name, row in readings.items()
    }
    return {
        frozenset((a, b)): _dot(off[a], off[b]) / sqrt(_dot(off[a], off[a]) * _dot(off[b], off[b]))
        for a, b in combinations(off, 2)
    }


def _dot(a: list[float], b: list[float]) -> float:
    return fsum(x * y for x, y in zip(a, b, strict=True))


def volume_expansion(*, volume: Numeric, expansion: Numeric, half_range: Numeric) -> Numeric:
    """Half-width of a volume whose temperature lies within ± `half_range`. [as volume]

    Source: QUAM 2012, example A2, volume. Expansion in 1/°C, half-range in °C.
    """
    return volume * expansion * half_range


def sum_of(**terms: Numeric) -> Numeric:
    """Sum of any number of quantities of one unit.

    Source: QUAM 2012, A1.4, volume.
    """
    total: Numeric = 0.0
    for term in terms.values():
        total = total + term
    return total


def sum_of_four(*, x1: Numeric, x2: Numeric, x3: Numeric, x4: Numeric) -> Numeric:
    """Sum of four quantities of one unit.

    Source: JCGM 101:2008, 9.2.
    """
    return x1 + x2 + x3 + x4


def sum_of_four_inputs(shape: Shape, last: float = 1.0) -> dict[str, Measured]:
    """Return the inputs of JCGM 101:2008, 9.2.2 (normal), 9.2.3 (rectangular) or 9.2.4 (last 10).

    Parameters
    ----------
    shape : Shape
        Of all four.
    last : float
        Standard uncertainty of x4; that of the others is 1. [1]
    """
    spread = {"x1": 1.0, "x2": 1.0, "x3": 1.0, "x4": last}
    if shape == "normal":
        return {name: _normal(name, 0.0, u) for name, u in spread.items()}
    return {name: _within(name, 0.0, u * HALF_WIDTHS[shape], shape) for name, u in spread.items()}


def mass_deviation(
    *,
    reference: Numeric,
    added: Numeric,
    air: Numeric,
    weight: Numeric,
    reference_weight: Numeric,
) -> Numeric:
    """Deviation of a weight from 100 g, corrected for air buoyancy. [mg]

    Source: JCGM 101:2008, 9.3.1. Masses in mg, densities of air and of both weights in kg/m³.
    """
    buoyancy = (air - 1.2) * (1.0 / weight - 1.0 / reference_weight)
    return (reference + added) * (1.0 + buoyancy) - 100_000.0


def mass_deviation_inputs() -> dict[str, Measured]:
    """Return the inputs of JCGM 101:2008, table 4. [mg, kg/m³]"""
    return {
        "reference": _normal("reference", 100_000.0, 0.050),
        "added": _normal("added", 1.234, 0.020),
        "air": _within("air", 1.20, 0.10, "rectangular"),
        "weight": _within("weight", 8000.0, 1000.0, "rectangular"),
        "reference_weight": _within("reference weight", 8000.0, 50.0, "rectangular"),
    }


def comparison_loss(*, x1: Numeric, x2: Numeric) -> Numeric:
    """Comparison loss of a microwave power meter. [1]

    Source: JCGM 101:2008, 9.4.1.
    """
    return x1**2 + x2**2


def comparison_loss_inputs(x1: float) -> Mapping[str, Measured]:
    """Return the inputs of JCGM 101:2008, 9.4.1.4, for x1 = 0, 0.010 or 0.050. [1]"""
    return {"x1": _normal("x1", x1, 0.005), "x2": _normal("x2", 0.0, 0.005)}
