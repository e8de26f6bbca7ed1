"""The whole table of units against pint, and text to SI and back."""

from __future__ import annotations

import re
from contextlib import suppress
from functools import cache
from math import isclose, isfinite

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from ozonewright.errors import UnitError
from ozonewright.units import Kind, number, parse, read, size
from ozonewright.units.table import ACCEPTED

OURS = """
NL = 1e-3 / 0.02241396954 mol
NmL = 1e-3 NL
Nm3 = 1e3 NL
volpercent = 0.01
molpercent = 0.01
wtpercent = 0.01
ppb = 1e-9
halfvolt = 0.5 volt
"""
"""What pint lacks. A normal litre is an amount: 1 L × 101325 Pa ÷ (8.314462618 J/mol/K × 273.15 K),
so a mole of dry gas fills 22.41396954 NL. Its vol% and wt% are shares, as ours are. A volt from
bottom to top (pp) is half a volt from nought to the top."""

SI = {
    Kind.LENGTH: "m",
    Kind.AREA: "m**2",
    Kind.VOLUME: "m**3",
    Kind.NORMAL_VOLUME: "mol",
    Kind.MASS: "kg",
    Kind.AMOUNT: "mol",
    Kind.TIME: "s",
    Kind.RATE: "1/s",
    Kind.TEMPERATURE: "K",
    Kind.TEMPERATURE_DIFFERENCE: "K",
    Kind.PRESSURE: "Pa",
    Kind.PRESSURE_DIFFERENCE: "Pa",
    Kind.CYLINDER_PRESSURE: "Pa",
    Kind.VELOCITY: "m/s",
    Kind.VOLUME_FLOW: "m**3/s",
    Kind.NORMAL_FLOW: "mol/s",
    Kind.MASS_RATE: "kg/s",
    Kind.AMOUNT_RATE: "mol/s",
    Kind.CONCENTRATION: "mol/m**3",
    Kind.MASS_CONCENTRATION: "kg/m**3",
    Kind.NORMAL_CONCENTRATION: "kg/mol",
    Kind.SHARE: "dimensionless",
    Kind.MOLE_FRACTION: "dimensionless",
    Kind.MASS_FRACTION: "dimensionless",
    Kind.MOLAR_MASS: "kg/mol",
    Kind.POWER: "W",
    Kind.ENERGY: "J",
    Kind.MOLAR_ENERGY: "J/mol",
    Kind.MOLAR_ENTROPY: "J/mol/K",
    Kind.SPECIFIC_ENERGY: "J/kg",
    Kind.SPECIFIC_HEAT: "J/kg/K",
    Kind.YIELD: "kg/J",
    Kind.EXPANSION: "1/K",
    Kind.PER_KELVIN: "1/K",
    Kind.HENRY: "mol/m**3/Pa",
    Kind.ABSORPTIVITY: "m**2/mol",
    Kind.MASS_ABSORPTIVITY: "m**2/kg",
    Kind.PRICE_PER_TIME: "1/s",
    Kind.PRICE_PER_MASS: "1/kg",
    Kind.PRICE_PER_AMOUNT: "1/mol",
    Kind.RATE_CONSTANT: "m**3/mol/s",
    Kind.VOLTAGE: "V",
    Kind.PEAK_VOLTAGE: "V",
    Kind.RMS_VOLTAGE: "V",
    Kind.CAPACITANCE: "F",
    Kind.CHARGE: "C",
    Kind.FREQUENCY: "Hz",
    Kind.DIMENSIONLESS: "dimensionless",
}
"""The SI unit of each kind, stated here afresh."""

TABLE = [(kind, unit) for kind in Kind for unit in ACCEPTED[kind].units]
ordinary = st.floats(1e-6, 1e6, allow_nan=False)


@cache
def registry() -> pint.UnitRegistry:
    units = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
    for line in OURS.strip().splitlines():
        units.define(line)
    return units


def as_pint_writes(unit: str, kind: Kind) -> str:
    """Return our spelling as pint spells it."""
    text = unit.replace("vol%", "volpercent").replace("mol%", "molpercent")
    text = text.replace("wt%", "wtpercent").replace("%", "percent").replace("Torr", "torr")
    text = text.replace("°C", "degC")
    if kind in (Kind.TEMPERATURE_DIFFERENCE, Kind.EXPANSION, Kind.PER_KELVIN):
        text = text.replace("degC", "delta_degC")
    if kind in (Kind.PEAK_VOLTAGE, Kind.RMS_VOLTAGE):
        # from bottom to top is twice from nought to the top; the words are not pint's
        text = re.sub(r"V (peak|rms)", "V", text).replace("V pp", "halfvolt")
    text = re.sub(r"(?<!N)(m|cm|mm|dm)([23])\b", r"\1**\2", text)
    text = re.sub(r"\((\S+) (\S+)\)", r"(\1*\2)", text)
    return text or "dimensionless"


@pytest.mark.parametrize(
    ("kind", "unit"), TABLE, ids=lambda x: ascii(getattr(x, "name", x)).strip("'").replace("\\", "")
)
def test_the_table_agrees_with_pint(kind: Kind, unit: str) -> None:
    theirs = registry().Quantity(1.0, as_pint_writes(unit, kind)).to(SI[kind]).magnitude
    offset = 273.15 if (kind, unit) == (Kind.TEMPERATURE, "°C") else 0.0
    # mmHg and cmH2O are defined by rounded densities, of which pint keeps more figures
    tolerance = 3e-5 if unit in ("mmHg", "cmH2O") else 1e-9
    assert isclose(size(kind, unit), theirs - offset, rel_tol=tolerance)


@given(st.sampled_from(TABLE), ordinary)
def test_reading_agrees_with_pint(entry: tuple[Kind, str], value: float) -> None:
    kind, unit = entry
    end = " abs" if kind is Kind.CYLINDER_PRESSURE else ""
    theirs = registry().Quantity(value, as_pint_writes(unit, kind)).to(SI[kind]).magnitude
    if unit == "1":
        return  # a plain number is written without any unit
    ours = parse(f"{value!r} {unit}{end}".strip(), kind)
    assert isclose(ours, theirs, rel_tol=3e-5 if unit in ("mmHg", "cmH2O") else 1e-9)


@given(st.sampled_from(TABLE), ordinary)
def test_out_and_in_again(entry: tuple[Kind, str], value: float) -> None:
    kind, unit = entry
    if unit == "1":
        return
    end = " gauge" if kind is Kind.CYLINDER_PRESSURE else ""
    si = parse(f"{value!r} {unit}{end}".strip(), kind)
    again = parse(f"{number(si, kind, unit)!r} {unit}{end}".strip(), kind)
    assert isclose(si, again, rel_tol=1e-12, abs_tol=1e-12)


@given(
    value=st.integers(0, 99999),
    places=st.integers(0, 4),
    mark=st.sampled_from([".", ","]),
    minus=st.sampled_from(["", "-", "\u2212", "\u2013"]),
    space=st.sampled_from(["", " ", "\u2009", "\u202f", "\u00a0", "  "]),
    unit=st.sampled_from(["mL", "ml"]),
)
def test_every_way_of_typing_one_number(
    value: int, places: int, mark: str, minus: str, space: str, unit: str
) -> None:
    plain = f"{value / 10**places:.{places}f}"
    whole, _, decimals = plain.partition(".")
    text = f"{minus}{whole}{mark if decimals else ''}{decimals}{space}{unit}"
    sign = -1.0 if minus else 1.0
    if mark == "," and places == 3 and 0 < int(whole) < 1000:
        with pytest.raises(UnitError, match="thousands separator"):
            parse(text, Kind.VOLUME)
        return
    assert isclose(parse(text, Kind.VOLUME), sign * float(plain) * 1e-6, rel_tol=1e-12)


@given(st.integers(0, 23), st.integers(0, 59), st.decimals(0, 59, places=1))
def test_time_in_pieces_adds_up(hours: int, minutes: int, seconds: float) -> None:
    reading = read(f"{hours} h {minutes} min {seconds} s", Kind.TIME)
    assert isclose(reading.value, 3600.0 * hours + 60.0 * minutes + float(seconds))
    assert isclose(reading.digit, 0.1)


@given(
    ordinary,
    st.sampled_from([0.0, 0.2, 1.5, 4.0, 30.0, 99.0]),
    st.sampled_from([k for k in Kind if k is not Kind.TIME]),
)
def test_relative_and_absolute_uncertainty_agree(value: float, share: float, kind: Kind) -> None:
    unit = next(iter(ACCEPTED[kind].units))
    if kind is Kind.TEMPERATURE or "%" in unit:
        return  # refused, see the unit tests
    end = " abs" if kind is Kind.CYLINDER_PRESSURE else ""
    text = f"{value!r} {unit}".strip()
    relative = read(f"{text}{end} ± {share!r} %", kind).u
    absolute = read(f"{text}{end} ± {value * share / 100.0!r} {unit}".strip(), kind).u
    assert relative is not None
    assert absolute is not None
    assert isclose(relative, absolute, rel_tol=1e-9, abs_tol=1e-30)


@given(st.text(max_size=60), st.sampled_from(list(Kind)))
def test_any_text_is_read_or_refused(text: str, kind: Kind) -> None:
    with suppress(UnitError):
        assert read(text, kind).kind is kind


@given(
    st.lists(
        st.sampled_from([*"0123456789.,±%()+-eE ^²⁻µ", "mL", "min", "s", "points", "vol%", "×10"]),
        max_size=12,
    ).map("".join),
    st.sampled_from([Kind.VOLUME, Kind.TIME, Kind.MOLE_FRACTION, Kind.TEMPERATURE, Kind.SHARE]),
)
def test_garbled_quantities_are_read_or_refused(text: str, kind: Kind) -> None:
    with suppress(UnitError):
        assert isfinite(read(text, kind).value)
