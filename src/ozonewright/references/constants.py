"""Constants of nature and of the bench: plain SI floats, each with its `Datum` under the same name.

>>> R
8.314462618
>>> constant("R").source
'tiesinga_2021'

Molar masses are summed here from the atomic weights of the table, so that one weight stands once.
"""

from __future__ import annotations

from math import sqrt

from ozonewright.errors import UnknownSubstance
from ozonewright.references.tables import EVIDENCE, Datum, datum, named, rows
from ozonewright.units import Kind, number

_DATA: dict[str, Datum] = {row["name"]: datum(row) for row in rows("constants")}


def constant(name: str) -> Datum:
    """Return the shipped figure of that name, with uncertainty, source and evidence.

    Raises
    ------
    UnknownSubstance
        No such name; the nearest three are told.
    """
    return named(_DATA, name, "no shipped constant has this name", UnknownSubstance)


def names() -> tuple[str, ...]:
    """Return the names of all shipped constants, molar masses included."""
    return tuple(_DATA)


def _molar_mass(name: str, formula: str, **atoms: int) -> float:
    """Sum atomic weights; the same weight is one input, so its uncertainty counts n times."""
    parts = [(count, _DATA[f"A_{element}"]) for element, count in atoms.items()]
    value = sum(count * part.value for count, part in parts)
    _DATA[name] = Datum(
        name=name,
        value=value,
        u=sqrt(sum((count * (part.u or 0.0)) ** 2 for count, part in parts)),
        kind=Kind.MOLAR_MASS,
        unit="g/mol",
        printed=round(number(value, Kind.MOLAR_MASS, "g/mol"), 8),
        source=parts[0][1].source,
        locator=parts[0][1].locator,
        evidence=max((part.evidence for _, part in parts), key=EVIDENCE.index),
        note=f"{formula}, summed from atomic weights; from memory",
    )
    return value


R = constant("R").value
NORMAL_TEMPERATURE = constant("NORMAL_TEMPERATURE").value
NORMAL_PRESSURE = constant("NORMAL_PRESSURE").value
NORMAL_MOLAR_VOLUME = R * NORMAL_TEMPERATURE / NORMAL_PRESSURE

M_O2 = _molar_mass("M_O2", "O2", O=2)
M_O3 = _molar_mass("M_O3", "O3", O=3)
M_N2 = _molar_mass("M_N2", "N2", N=2)
M_AR = _molar_mass("M_AR", "Ar", Ar=1)
M_H2O = _molar_mass("M_H2O", "H2O", H=2, O=1)
M_I2 = _molar_mass("M_I2", "I2", I=2)
M_KI = _molar_mass("M_KI", "KI", K=1, I=1)
M_KIO3 = _molar_mass("M_KIO3", "KIO3", K=1, I=1, O=3)
M_K2CR2O7 = _molar_mass("M_K2CR2O7", "K2Cr2O7", K=2, Cr=2, O=7)
M_NA2S2O3 = _molar_mass("M_NA2S2O3", "Na2S2O3", Na=2, S=2, O=3)
M_NA2S2O3_5H2O = _molar_mass("M_NA2S2O3_5H2O", "Na2S2O3 · 5 H2O", Na=2, S=2, O=8, H=10)
M_AIR = constant("M_AIR").value

X_O2_AIR = constant("X_O2_AIR").value
X_N2_AIR = constant("X_N2_AIR").value
X_AR_AIR = constant("X_AR_AIR").value

THIOSULFATE_PER_OZONE = constant("THIOSULFATE_PER_OZONE").value
IODIDE_PER_OZONE = constant("IODIDE_PER_OZONE").value
THIOSULFATE_PER_IODATE = constant("THIOSULFATE_PER_IODATE").value
THIOSULFATE_PER_DICHROMATE = constant("THIOSULFATE_PER_DICHROMATE").value
ACID_PER_OZONE = constant("ACID_PER_OZONE").value

O3_FORMATION_ENTHALPY = constant("O3_FORMATION_ENTHALPY").value
O3_FORMATION_ENTHALPY_NASA = constant("O3_FORMATION_ENTHALPY_NASA").value
O3_FORMATION_ENTHALPY_JANAF = constant("O3_FORMATION_ENTHALPY_JANAF").value
O3_BOILING_POINT = constant("O3_BOILING_POINT").value
OZONOLYSIS_HEAT = constant("OZONOLYSIS_HEAT").value
OZONIDE_ENERGY_TERMINAL = constant("OZONIDE_ENERGY_TERMINAL").value
OZONIDE_ENERGY_INTERNAL = constant("OZONIDE_ENERGY_INTERNAL").value
DRY_ICE_SUBLIMATION = constant("DRY_ICE_SUBLIMATION").value
DRY_ICE_TEMPERATURE = constant("DRY_ICE_TEMPERATURE").value

REFERENCE_TEMPERATURE = NORMAL_TEMPERATURE + 25.0
"""298.15 K, where the iodine figures hold."""
TRIIODIDE_CONSTANT = constant("TRIIODIDE_CONSTANT").value
TRIIODIDE_ENTHALPY = constant("TRIIODIDE_ENTHALPY").value
TRIIODIDE_HEAT_CAPACITY = constant("TRIIODIDE_HEAT_CAPACITY").value
I2_HENRY = constant("I2_HENRY").value
I2_HENRY_SLOPE = constant("I2_HENRY_SLOPE").value
O3_ABSORPTIVITY_2019 = constant("O3_ABSORPTIVITY_2019").value
O3_ABSORPTIVITY_1961 = constant("O3_ABSORPTIVITY_1961").value
I3_ABSORPTIVITY = constant("I3_ABSORPTIVITY").value
INDIGO_ABSORPTIVITY = constant("INDIGO_ABSORPTIVITY").value

WATER_EXPANSION = constant("WATER_EXPANSION").value
