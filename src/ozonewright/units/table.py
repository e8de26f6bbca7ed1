"""The closed table of units: kinds of quantity, the spellings each accepts, their size in SI.

SI inside means metre, kilogram, second, mole, kelvin, ampere. Gas measured in *normal* litres or
cubic metres is an amount of dry gas (0 °C, 101.325 kPa), so its SI unit is the mole.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

NORMAL_MOLAR_VOLUME = 8.314462618 * 273.15 / 101325.0
"""Cubic metres of dry gas per mole at 0 °C and 101.325 kPa (DIN 1343): 0.02241397."""

CELSIUS_ZERO = 273.15
STANDARD_ATMOSPHERE = 101325.0
"""Pascal, exactly."""


class Kind(Enum):
    """What a quantity is. The field of a document fixes it, never the reader's guess."""

    LENGTH = "length"
    AREA = "area"
    VOLUME = "volume"
    NORMAL_VOLUME = "normal volume"
    MASS = "mass"
    AMOUNT = "amount of substance"
    TIME = "time"
    RATE = "rate per time"
    TEMPERATURE = "temperature"
    TEMPERATURE_DIFFERENCE = "temperature difference"
    PRESSURE = "absolute pressure"
    PRESSURE_DIFFERENCE = "pressure difference or gauge pressure"
    CYLINDER_PRESSURE = "cylinder pressure"
    VELOCITY = "velocity"
    VOLUME_FLOW = "volume flow"
    NORMAL_FLOW = "normal flow"
    MASS_RATE = "mass per time"
    AMOUNT_RATE = "amount per time"
    CONCENTRATION = "concentration (amount per volume)"
    MASS_CONCENTRATION = "mass per volume"
    NORMAL_CONCENTRATION = "mass per normal volume"
    SHARE = "share"
    MOLE_FRACTION = "mole fraction"
    MASS_FRACTION = "mass fraction"
    MOLAR_MASS = "molar mass"
    POWER = "power"
    ENERGY = "energy"
    MOLAR_ENERGY = "molar energy"
    MOLAR_ENTROPY = "molar entropy"
    SPECIFIC_ENERGY = "energy per mass"
    SPECIFIC_HEAT = "heat capacity per mass"
    YIELD = "ozone per energy"
    EXPANSION = "expansion per kelvin"
    PER_KELVIN = "change per kelvin"
    HENRY = "solubility (Henry constant)"
    PRICE_PER_TIME = "price per time"
    PRICE_PER_MASS = "price per mass"
    PRICE_PER_AMOUNT = "price per amount of substance"
    RATE_CONSTANT = "rate constant (second order)"
    ABSORPTIVITY = "molar absorptivity (decadic)"
    MASS_ABSORPTIVITY = "absorptivity per mass (decadic)"
    VOLTAGE = "voltage"
    PEAK_VOLTAGE = "peak voltage"
    RMS_VOLTAGE = "rms voltage"
    CAPACITANCE = "capacitance"
    CHARGE = "electric charge"
    FREQUENCY = "frequency"
    DIMENSIONLESS = "plain number"


LENGTH = {"m": 1.0, "dm": 0.1, "cm": 0.01, "mm": 1e-3, "µm": 1e-6, "um": 1e-6, "nm": 1e-9}
AREA = {"m2": 1.0, "dm2": 1e-2, "cm2": 1e-4, "mm2": 1e-6}
VOLUME = {
    "m3": 1.0,
    "L": 1e-3,
    "l": 1e-3,
    "dm3": 1e-3,
    "dL": 1e-4,
    "dl": 1e-4,
    "cL": 1e-5,
    "cl": 1e-5,
    "mL": 1e-6,
    "ml": 1e-6,
    "cm3": 1e-6,
    "µL": 1e-9,
    "µl": 1e-9,
    "uL": 1e-9,
    "ul": 1e-9,
    "mm3": 1e-9,
}
NORMAL_VOLUME = {
    "Nm3": 1.0 / NORMAL_MOLAR_VOLUME,
    "NL": 1e-3 / NORMAL_MOLAR_VOLUME,
    "NmL": 1e-6 / NORMAL_MOLAR_VOLUME,
}
MASS = {"kg": 1.0, "g": 1e-3, "mg": 1e-6, "µg": 1e-9, "ug": 1e-9}
AMOUNT = {"mol": 1.0, "mmol": 1e-3, "µmol": 1e-6, "umol": 1e-6, "kmol": 1e3}
SHORT_TIME = {"µs": 1e-6, "us": 1e-6, "ns": 1e-9}
"""Of records; nothing is told per microsecond."""
TIME = {"s": 1.0, "ms": 1e-3, "min": 60.0, "h": 3600.0, "d": 86400.0}
PRESSURE = {
    "Pa": 1.0,
    "hPa": 1e2,
    "kPa": 1e3,
    "MPa": 1e6,
    "mbar": 1e2,
    "bar": 1e5,
    "atm": STANDARD_ATMOSPHERE,
    "Torr": STANDARD_ATMOSPHERE / 760.0,
    "mmHg": 133.322387415,
    "cmH2O": 98.0665,
    "psi": 6894.757293168,
}
POWER = {"W": 1.0, "mW": 1e-3, "kW": 1e3}
ENERGY = {"J": 1.0, "kJ": 1e3, "MJ": 1e6, "Wh": 3600.0, "kWh": 3.6e6}
PERCENT = {"%": 0.01}
VOLTAGE = {"V": 1.0, "kV": 1e3, "mV": 1e-3}
CAPACITANCE = {"F": 1.0, "mF": 1e-3, "µF": 1e-6, "uF": 1e-6, "nF": 1e-9, "pF": 1e-12}
CHARGE = {"C": 1.0, "mC": 1e-3, "µC": 1e-6, "uC": 1e-6, "nC": 1e-9, "pC": 1e-12}
FREQUENCY = {"Hz": 1.0, "kHz": 1e3, "MHz": 1e6}


def _per(
    top: dict[str, float], *, per: dict[str, float], only: tuple[str, ...] = ()
) -> dict[str, float]:
    """Every unit of `top` per every unit of `per` (or only the ones named)."""
    return {
        f"{above}/{below}": size / per[below]
        for above, size in top.items()
        for below in (only or per)
    }


def _inverse(units: dict[str, float]) -> dict[str, float]:
    return {f"1/{unit}": 1.0 / size for unit, size in units.items()}


def _said(word: str, part: float) -> dict[str, float]:
    """Every unit of voltage with what it is of the wave, and its size as a part of the volt."""
    return {f"{unit} {word}": part * size for unit, size in VOLTAGE.items()}


@dataclass(frozen=True, slots=True)
class Accepted:
    """The spellings a kind accepts, one valid example, and the kind of its uncertainty."""

    units: dict[str, float]
    example: str
    shown: tuple[str, ...]
    """The few spellings an error message names."""


ACCEPTED: dict[Kind, Accepted] = {
    Kind.LENGTH: Accepted(LENGTH, "15 cm", ("m", "cm", "mm")),
    Kind.AREA: Accepted(AREA, "12 cm2", ("m2", "cm2", "mm2")),
    Kind.VOLUME: Accepted(VOLUME, "18.46 mL", ("L", "mL", "m3", "cm3", "µL")),
    Kind.NORMAL_VOLUME: Accepted(NORMAL_VOLUME, "2.0 Nm3", ("Nm3", "NL")),
    Kind.MASS: Accepted(MASS, "0.8917 g", ("kg", "g", "mg", "µg")),
    Kind.AMOUNT: Accepted(AMOUNT, "10.0 mmol", ("mol", "mmol", "µmol")),
    Kind.TIME: Accepted({**TIME, **SHORT_TIME}, "4 min 30 s", ("s", "min", "h", "d")),
    Kind.RATE: Accepted(_inverse(TIME), "0.5 /h", ("/h", "/min", "/s")),
    Kind.TEMPERATURE: Accepted({"K": 1.0, "°C": 1.0}, "22 °C", ("°C", "K")),
    Kind.TEMPERATURE_DIFFERENCE: Accepted({"K": 1.0, "°C": 1.0}, "60 K", ("K",)),
    Kind.PRESSURE: Accepted(PRESSURE, "101.3 kPa", ("kPa", "hPa", "mbar", "bar", "Torr")),
    Kind.PRESSURE_DIFFERENCE: Accepted(PRESSURE, "1.5 kPa", ("kPa", "mbar", "Pa", "bar")),
    Kind.CYLINDER_PRESSURE: Accepted(PRESSURE, "150 bar gauge", ("bar", "MPa", "kPa", "psi")),
    Kind.VELOCITY: Accepted(_per(LENGTH, per=TIME), "0.25 m/s", ("m/s", "cm/s")),
    Kind.VOLUME_FLOW: Accepted(
        _per(VOLUME, per=TIME), "0.80 L/min", ("L/min", "mL/min", "L/h", "m3/h")
    ),
    Kind.NORMAL_FLOW: Accepted(
        _per(NORMAL_VOLUME, per=TIME), "0.74 NL/min", ("NL/min", "NL/h", "Nm3/h")
    ),
    Kind.MASS_RATE: Accepted(_per(MASS, per=TIME), "0.53 g/h", ("g/h", "mg/min", "mg/h")),
    Kind.AMOUNT_RATE: Accepted(_per(AMOUNT, per=TIME), "11.1 mmol/h", ("mmol/h", "mmol/min")),
    Kind.CONCENTRATION: Accepted(
        {**_per(AMOUNT, per=VOLUME, only=("L", "l", "m3", "dm3", "mL")), "M": 1e3, "mM": 1.0},
        "0.0510 mol/L",
        ("mol/L", "mmol/L"),
    ),
    Kind.MASS_CONCENTRATION: Accepted(
        _per(MASS, per=VOLUME), "20 g/L", ("g/L", "mg/L", "g/m3", "mg/m3", "kg/m3", "g/mL")
    ),
    Kind.NORMAL_CONCENTRATION: Accepted(
        _per(MASS, per=NORMAL_VOLUME), "12.1 g/Nm3", ("g/Nm3", "mg/NL")
    ),
    Kind.SHARE: Accepted(PERCENT, "88 %", ("%",)),
    Kind.MOLE_FRACTION: Accepted(
        {"vol%": 0.01, "mol%": 0.01, "ppm": 1e-6, "ppb": 1e-9}, "92 vol%", ("vol%", "ppm")
    ),
    Kind.MASS_FRACTION: Accepted({"wt%": 0.01}, "0.84 wt%", ("wt%",)),
    Kind.MOLAR_MASS: Accepted(_per(MASS, per=AMOUNT, only=("mol",)), "47.997 g/mol", ("g/mol",)),
    Kind.POWER: Accepted(POWER, "41 W", ("W", "kW")),
    Kind.ENERGY: Accepted({**ENERGY, "mJ": 1e-3}, "1.2 kWh", ("J", "kJ", "Wh", "kWh")),
    Kind.MOLAR_ENERGY: Accepted(_per(ENERGY, per=AMOUNT, only=("mol",)), "400 kJ/mol", ("kJ/mol",)),
    Kind.MOLAR_ENTROPY: Accepted({"J/mol/K": 1.0, "J/(mol K)": 1.0}, "-21 J/mol/K", ("J/mol/K",)),
    Kind.SPECIFIC_ENERGY: Accepted(_per(ENERGY, per=MASS), "742 J/g", ("J/g", "kJ/kg")),
    Kind.SPECIFIC_HEAT: Accepted(
        {"J/g/K": 1e3, "kJ/kg/K": 1e3, "J/kg/K": 1.0}, "2.53 J/g/K", ("J/g/K",)
    ),
    Kind.YIELD: Accepted(_per(MASS, per=ENERGY), "13 g/kWh", ("g/kWh", "kg/kWh")),
    Kind.EXPANSION: Accepted({"1/K": 1.0, "1/°C": 1.0}, "2.1e-4 1/K", ("1/K",)),
    Kind.PER_KELVIN: Accepted({"%/K": 0.01, "%/°C": 0.01, "1/K": 1.0}, "-0.4 %/K", ("%/K", "1/K")),
    Kind.HENRY: Accepted(
        {"mol/m3/Pa": 1.0, "mol/(m3 Pa)": 1.0}, "1.0e-4 mol/m3/Pa", ("mol/m3/Pa",)
    ),
    # The currency is text beside the number: it is never converted.
    Kind.PRICE_PER_TIME: Accepted({"1/hour": 1.0 / 3600.0}, "3.00 1/hour", ("1/hour",)),
    Kind.PRICE_PER_MASS: Accepted({"1/gram": 1e3}, "4.50 1/gram", ("1/gram",)),
    Kind.PRICE_PER_AMOUNT: Accepted({"1/mmol": 1e3}, "0.22 1/mmol", ("1/mmol",)),
    Kind.RATE_CONSTANT: Accepted(
        {"L/(mol s)": 1e-3, "L/mol/s": 1e-3, "m3/(mol s)": 1.0}, "7.6e4 L/(mol s)", ("L/(mol s)",)
    ),
    Kind.ABSORPTIVITY: Accepted(
        {"L/mol/cm": 0.1, "L/(mol cm)": 0.1, "m2/mol": 1.0}, "26400 L/mol/cm", ("L/mol/cm",)
    ),
    Kind.MASS_ABSORPTIVITY: Accepted({"L/mg/cm": 1e5, "m2/kg": 1.0}, "0.42 L/mg/cm", ("L/mg/cm",)),
    Kind.VOLTAGE: Accepted(VOLTAGE, "3.0 kV", ("kV", "V", "mV")),
    # An alternating voltage says what is meant: from nought to the top, or from bottom to top.
    Kind.PEAK_VOLTAGE: Accepted(
        {**_said("peak", 1.0), **_said("pp", 0.5)}, "8.0 kV peak", ("kV peak", "kV pp")
    ),
    Kind.RMS_VOLTAGE: Accepted(_said("rms", 1.0), "5.7 kV rms", ("kV rms",)),
    Kind.CAPACITANCE: Accepted(CAPACITANCE, "10 nF", ("nF", "pF", "µF")),
    Kind.CHARGE: Accepted(CHARGE, "1.2 µC", ("µC", "nC", "C")),
    Kind.FREQUENCY: Accepted(FREQUENCY, "1.0 kHz", ("kHz", "Hz", "MHz")),
    Kind.DIMENSIONLESS: Accepted({"": 1.0, "1": 1.0}, "16.7", ("",)),
}

POINTS = (Kind.SHARE, Kind.MOLE_FRACTION, Kind.MASS_FRACTION)
"""Kinds that are themselves a percentage, so that ``± 3 %`` would have two meanings."""

HINTS = {
    "ML": "ML is a megalitre; a millilitre is written mL",
    "N": "normality depends on the reaction; for thiosulfate 0.1 N is 0.1 mol/L, so write mol/L",
    "°F": "write temperatures in °C or K",
    "scfm": "'standard' has several meanings; write NL/min (0 °C, 101.325 kPa, dry)",
    "SLPM": "'standard' has several meanings; write NL/min (0 °C, 101.325 kPa, dry)",
    "slpm": "'standard' has several meanings; write NL/min (0 °C, 101.325 kPa, dry)",
    "sccm": "'standard' has several meanings; write NmL/min (0 °C, 101.325 kPa, dry)",
    "lpm": "litres per minute are written L/min",
    "LPM": "litres per minute are written L/min",
    "cc": "a cubic centimetre is written mL or cm3",
    "inHg": "write pressures in kPa, hPa or mbar",
    "bar(g)": "write 'bar gauge' where the field asks for gauge or absolute",
    "bar(a)": "write 'bar abs' where the field asks for gauge or absolute",
    "bar g": "write 'bar gauge' where the field asks for gauge or absolute",
    "bar a": "write 'bar abs' where the field asks for gauge or absolute",
    "barg": "write 'bar gauge' where the field asks for gauge or absolute",
    "bara": "write 'bar abs' where the field asks for gauge or absolute",
    "w/v": "write g/L for mass per volume",
    "%w/v": "write g/L for mass per volume",
    **dict.fromkeys(("sec", "secs", "second", "seconds"), "seconds are written s"),
    **dict.fromkeys(("mins", "minute", "minutes"), "minutes are written min"),
    **dict.fromkeys(("hrs", "hour", "hours"), "hours are written h"),
    **dict.fromkeys(("gr", "gram", "grams"), "grams are written g"),
    **dict.fromkeys(("litre", "litres", "liter", "liters"), "litres are written L"),
    "hr": "hours are written h",
    "Hr": "hours are written h",
    "m": "m is a metre; minutes are written min",
}


def to_si(value: float, kind: Kind, unit: str) -> float:
    """Return `value`, given in `unit`, in the SI unit of `kind`."""
    offset = CELSIUS_ZERO if kind is Kind.TEMPERATURE and unit == "°C" else 0.0
    return value * ACCEPTED[kind].units[unit] + offset


def number(value: float, kind: Kind, unit: str) -> float:
    """Return an SI `value` as a number of `unit`: the only way out of SI."""
    offset = CELSIUS_ZERO if kind is Kind.TEMPERATURE and unit == "°C" else 0.0
    return (value - offset) / ACCEPTED[kind].units[unit]


def size(kind: Kind, unit: str) -> float:
    """Return the size of one `unit` in SI, without offset: for differences and uncertainties."""
    return ACCEPTED[kind].units[unit]


def slug(unit: str) -> str:
    """Return the ending of a JSON key for `unit`: ``g/Nm3`` gives ``g_per_nm3``."""
    text = unit.replace("°", "").replace("µ", "u").replace("%", "_percent").replace("/", "_per_")
    text = text.replace("(", "").replace(")", "")
    if text.startswith("1_per_"):
        text = text[2:]
    return text.replace(" ", "_").strip("_").lower()
