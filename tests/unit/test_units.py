"""Quantities as text: every accepted spelling, every refusal with its mend."""

from __future__ import annotations

from math import isclose

import pytest

from ozonewright.errors import UnitError
from ozonewright.units import Kind, Reading, number, parse, read, size, slug
from ozonewright.units.table import ACCEPTED, HINTS, POINTS, to_si

THIN, NARROW, HARD, FIGURE = "\u2009", "\u202f", "\u00a0", "\u2007"


# Expected values are definitions: 1 mL = 1e-6 m3, 1 min = 60 s, 0 °C = 273.15 K, 1 atm = 101325 Pa.
@pytest.mark.parametrize(
    ("text", "kind", "si"),
    [
        ("18.46 mL", Kind.VOLUME, 18.46e-6),
        ("18.46 ml", Kind.VOLUME, 18.46e-6),
        ("18.46mL", Kind.VOLUME, 18.46e-6),
        ("18,46 mL", Kind.VOLUME, 18.46e-6),
        (f"18.46{THIN}mL", Kind.VOLUME, 18.46e-6),
        (f"18.46{NARROW}mL", Kind.VOLUME, 18.46e-6),
        (f"18.46{HARD}mL", Kind.VOLUME, 18.46e-6),
        (f"1{THIN}250 mL", Kind.VOLUME, 1250e-6),
        (f"1{NARROW}250{FIGURE}mL", Kind.VOLUME, 1250e-6),
        ("  250   mL ", Kind.VOLUME, 250e-6),
        (".5 mL", Kind.VOLUME, 0.5e-6),
        ("5. mL", Kind.VOLUME, 5e-6),
        ("+5 mL", Kind.VOLUME, 5e-6),
        ("5e-1 mL", Kind.VOLUME, 0.5e-6),
        ("5E-1 mL", Kind.VOLUME, 0.5e-6),
        ("250 cm³", Kind.VOLUME, 250e-6),
        ("250 cm3", Kind.VOLUME, 250e-6),
        ("250 cm^3", Kind.VOLUME, 250e-6),
        ("0,250 mL", Kind.VOLUME, 0.25e-6),
        ("100 µL", Kind.VOLUME, 100e-9),
        ("100 μL", Kind.VOLUME, 100e-9),
        ("100 uL", Kind.VOLUME, 100e-9),
        ("12 µm", Kind.LENGTH, 12e-6),
        ("12 μm", Kind.LENGTH, 12e-6),
        ("4 min 30 s", Kind.TIME, 270.0),
        ("4min30s", Kind.TIME, 270.0),
        ("4 min 0 s", Kind.TIME, 240.0),
        ("1 h 5 min 2.5 s", Kind.TIME, 3902.5),
        ("1 d 2 h", Kind.TIME, 93600.0),
        ("240 s", Kind.TIME, 240.0),
        ("0,80 L/min", Kind.VOLUME_FLOW, 0.80e-3 / 60.0),
        ("0.80 L / min", Kind.VOLUME_FLOW, 0.80e-3 / 60.0),
        ("0.80 L min-1", Kind.VOLUME_FLOW, 0.80e-3 / 60.0),
        ("0.80 L min⁻¹", Kind.VOLUME_FLOW, 0.80e-3 / 60.0),
        ("0.80 L·min⁻¹", Kind.VOLUME_FLOW, 0.80e-3 / 60.0),
        ("0.80 L\u2215min", Kind.VOLUME_FLOW, 0.80e-3 / 60.0),
        ("0.0510 mol/L", Kind.CONCENTRATION, 51.0),
        ("0.0510 mol L-1", Kind.CONCENTRATION, 51.0),
        ("0.0510 mol·L⁻¹", Kind.CONCENTRATION, 51.0),
        ("5.10e-2 mol/l", Kind.CONCENTRATION, 51.0),
        ("5.10×10⁻² mol/L", Kind.CONCENTRATION, 51.0),
        ("5.10 x 10^-2 mol/L", Kind.CONCENTRATION, 51.0),
        ("5.10 * 10-2 mol/L", Kind.CONCENTRATION, 51.0),
        ("51 mM", Kind.CONCENTRATION, 51.0),
        ("0.051 M", Kind.CONCENTRATION, 51.0),
        ("1.96 mg/m³", Kind.MASS_CONCENTRATION, 1.96e-6),
        ("1.96 mg m-3", Kind.MASS_CONCENTRATION, 1.96e-6),
        ("\u221240 °C", Kind.TEMPERATURE, 233.15),
        ("-40 °C", Kind.TEMPERATURE, 233.15),
        ("\u201340 °C", Kind.TEMPERATURE, 233.15),
        ("\u221240 deg C", Kind.TEMPERATURE, 233.15),
        ("22 ℃", Kind.TEMPERATURE, 295.15),
        ("22 ºC", Kind.TEMPERATURE, 295.15),
        ("22 ° C", Kind.TEMPERATURE, 295.15),
        ("295.15 K", Kind.TEMPERATURE, 295.15),
        ("60 °C", Kind.TEMPERATURE_DIFFERENCE, 60.0),
        ("60 K", Kind.TEMPERATURE_DIFFERENCE, 60.0),
        ("0.5 /h", Kind.RATE, 0.5 / 3600.0),
        ("0.5 1/h", Kind.RATE, 0.5 / 3600.0),
        ("0.5 h⁻¹", Kind.RATE, 0.5 / 3600.0),
        ("101.3 kPa", Kind.PRESSURE, 101300.0),
        ("101.3 kPa abs", Kind.PRESSURE, 101300.0),
        ("760 Torr", Kind.PRESSURE, 101325.0),
        ("1.5 kPa", Kind.PRESSURE_DIFFERENCE, 1500.0),
        ("1.5 kPa gauge", Kind.PRESSURE_DIFFERENCE, 1500.0),
        ("92 vol%", Kind.MOLE_FRACTION, 0.92),
        ("92 vol-%", Kind.MOLE_FRACTION, 0.92),
        ("92 vol %", Kind.MOLE_FRACTION, 0.92),
        ("92 vol％", Kind.MOLE_FRACTION, 0.92),
        ("0.1 ppm", Kind.MOLE_FRACTION, 1e-7),
        ("98 wt%", Kind.MASS_FRACTION, 0.98),
        ("88 %", Kind.SHARE, 0.88),
        ("88%", Kind.SHARE, 0.88),
        ("2.1e-4 1/K", Kind.EXPANSION, 2.1e-4),
        ("2.1×10⁻⁴ 1/K", Kind.EXPANSION, 2.1e-4),
        ("-21 J/mol/K", Kind.MOLAR_ENTROPY, -21.0),
        ("16.7", Kind.DIMENSIONLESS, 16.7),
        ("13 g/kWh", Kind.YIELD, 13e-3 / 3.6e6),
        ("1 Nm³/h", Kind.NORMAL_FLOW, 44.61503 / 3600.0),  # 1 m3 / 22.41397 L/mol
    ],
)
def test_accepted_spellings(text: str, kind: Kind, si: float) -> None:
    assert isclose(parse(text, kind), si, rel_tol=1e-6)
    assert read(text, kind).kind is kind


@pytest.mark.parametrize(
    ("text", "kind", "what", "fix"),
    [
        ("5 ML", Kind.VOLUME, "ML is a megalitre", "18.46 mL"),
        ("0.1 N", Kind.CONCENTRATION, "normality depends on the reaction", "mol/L"),
        ("1,234 mL", Kind.VOLUME, "decimal comma or a thousands separator", "1.234 or 1234"),
        ("5 mL ± 1,234 mL", Kind.VOLUME, "decimal comma or a thousands separator", "1.234"),
        ("1.234,5 mL", Kind.VOLUME, "not one number", "18.46 mL"),
        ("12,345,678 mL", Kind.VOLUME, "not one number", "18.46 mL"),
        ("1 234 mL", Kind.VOLUME, "not one number", "18.46 mL"),
        ("2 x 100 mL", Kind.VOLUME, "not one number", "18.46 mL"),
        ("5 - 6 mL", Kind.VOLUME, "not one number", "18.46 mL"),
        ("5 + 6 mL", Kind.VOLUME, "not one number", "18.46 mL"),
        ("4:30", Kind.TIME, "not one number", "4 min 30 s"),
        ("4'30\"", Kind.TIME, "not one number", "4 min 30 s"),
        ("18.46(3) mL", Kind.VOLUME, "digits in brackets", "± 2 %"),
        ("5² mL", Kind.VOLUME, "no unit of volume", "18.46 mL"),
        ("²5 mL", Kind.VOLUME, "no number", "18.46 mL"),
        ("ca. 5 mL", Kind.VOLUME, "no number", "18.46 mL"),
        ("five mL", Kind.VOLUME, "no number", "18.46 mL"),
        ("± 5 mL", Kind.VOLUME, "no number", "18.46 mL"),
        ("", Kind.VOLUME, "nothing is written", "18.46 mL"),
        ("   ", Kind.TEMPERATURE, "nothing is written", "22 °C"),
        ("5", Kind.VOLUME, "unit is missing; a volume", "18.46 mL"),
        ("5", Kind.TEMPERATURE, "unit is missing", "°C, K"),
        ("5 ± 2 %", Kind.VOLUME, "unit is missing", "18.46 mL"),
        ("88 ± 3 %", Kind.SHARE, "two meanings", "± 3 points"),
        ("5 g", Kind.VOLUME, "g is a unit of mass; a volume is wanted", "18.46 mL"),
        ("5 qux", Kind.VOLUME, "qux is no unit of volume", "18.46 mL"),
        ("5 KG", Kind.MASS, "no unit of mass", "Did you mean kg?"),
        ("5 MIN", Kind.TIME, "no unit of time", "Did you mean min?"),
        ("4 m", Kind.TIME, "m is a metre", "4 min 30 s"),
        ("4 minutes", Kind.TIME, "minutes are written min", "4 min 30 s"),
        ("30 sec", Kind.TIME, "seconds are written s", "4 min 30 s"),
        ("4 min 90 s", Kind.TIME, "do not add up", "4 min 30 s"),
        ("30 s 4 min", Kind.TIME, "do not add up", "4 min 30 s"),
        ("4.5 min 30 s", Kind.TIME, "do not add up", "4 min 30 s"),
        ("4 min -30 s", Kind.TIME, "do not add up", "4 min 30 s"),
        ("4 min 4 min", Kind.TIME, "do not add up", "4 min 30 s"),
        ("4 min 30 mL", Kind.TIME, "mL is a unit of volume", "4 min 30 s"),
        ("4 min, 30 s", Kind.TIME, "no unit of time", "4 min 30 s"),
        ("92 %", Kind.MOLE_FRACTION, "percent of what?", "vol%"),
        ("92 %", Kind.MASS_FRACTION, "percent of what?", "wt%"),
        ("150 bar", Kind.CYLINDER_PRESSURE, "gauge or absolute?", "150 bar gauge"),
        ("150 barg", Kind.CYLINDER_PRESSURE, "bar gauge", "150 bar gauge"),
        ("150 bar(g)", Kind.CYLINDER_PRESSURE, "bar gauge", "150 bar gauge"),
        ("1 bar gauge", Kind.PRESSURE, "an absolute pressure", "101.3 kPa"),
        ("1 bar abs", Kind.PRESSURE_DIFFERENCE, "a gauge pressure", "1.5 kPa"),
        ("70 °F", Kind.TEMPERATURE, "°C or K", "22 °C"),
        ("2 slpm", Kind.NORMAL_FLOW, "several meanings", "NL/min"),
        ("2 lpm", Kind.VOLUME_FLOW, "L/min", "0.80 L/min"),
        ("2 NL/min", Kind.VOLUME_FLOW, "NL/min is a unit of normal flow", "0.80 L/min"),
        ("1e99 mL", Kind.VOLUME, "out of range", "18.46 mL"),
        ("1e-99 mL", Kind.VOLUME, "out of range", "18.46 mL"),
        ("0e99 mL", Kind.VOLUME, "out of range", "18.46 mL"),
        ("9" * 60 + " mL", Kind.VOLUME, "out of range", "18.46 mL"),
        ("0." + "1" * 60 + " mL", Kind.VOLUME, "out of range", "18.46 mL"),
        ("9" * 5000 + " mL", Kind.VOLUME, "too long", "18.46 mL"),
        ("5 mL ± 1 mL ± 2 mL", Kind.VOLUME, "two ± signs", "18.46 mL ± 2 %"),
        ("5 mL ±", Kind.VOLUME, "no number can be read behind ±", "18.46 mL ± 2 %"),
        ("5 mL ± a bit", Kind.VOLUME, "no number can be read behind ±", "18.46 mL ± 2 %"),
        ("5 mL ± -1 mL", Kind.VOLUME, "can't be negative", "sign"),
        ("5 mL ± 1 K", Kind.VOLUME, "K is a unit of temperature", "18.46 mL"),
        ("5 mL ± 3 points", Kind.VOLUME, "points belong", "± 3 mL"),
        ("0.1 ppm ± 3 points", Kind.MOLE_FRACTION, "points belong", "ppm"),
        ("88 % ± 3 %", Kind.SHARE, "two meanings", "± 3 points"),
        ("92 vol% ± 3 %", Kind.MOLE_FRACTION, "two meanings", "± 3 points"),
        ("92 vol% ± 3 vol%", Kind.MOLE_FRACTION, "two meanings", "± 3 points"),
        ("98 wt% ± 3 %", Kind.MASS_FRACTION, "two meanings", "± 3 points"),
        ("22 °C ± 2 %", Kind.TEMPERATURE, "means nothing", "22 °C ± 1 K"),
        ("22 °C ± x", Kind.TEMPERATURE, "behind ±", "22 °C ± 1 K"),
        ("88 % ± x", Kind.SHARE, "behind ±", "88 % ± 3 points"),
    ],
)  # fmt: skip
def test_refusals_say_what_is_wrong_and_give_one_valid_example(
    text: str, kind: Kind, what: str, fix: str
) -> None:
    with pytest.raises(UnitError) as caught:
        read(text, kind)
    assert what in caught.value.what
    assert fix in caught.value.fix
    assert caught.value.got == (text if text.strip() else "")


@pytest.mark.parametrize("value", [5, 5.0, 10**400])
def test_a_bare_number_is_refused(value: object) -> None:
    with pytest.raises(UnitError, match=r'a number alone has no unit.*"18\.46 mL"'):
        read(value, Kind.VOLUME)  # type: ignore[arg-type]


@pytest.mark.parametrize("value", [True, None, ["5 mL"], {"a": 1}, b"5 mL"])
def test_what_is_no_text_is_refused(value: object) -> None:
    with pytest.raises(UnitError, match="text with a unit is wanted"):
        read(value, Kind.VOLUME)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("text", "kind", "u"),
    [
        ("0.0998 mol/L ± 0.0003", Kind.CONCENTRATION, 0.3),
        ("0.0998 mol/L ± 0.0003 mol/L", Kind.CONCENTRATION, 0.3),
        ("0.0998 mol/L ± 0.3 mmol/L", Kind.CONCENTRATION, 0.3),
        ("0.0998 ± 0.0003 mol/L", Kind.CONCENTRATION, 0.3),
        ("(0.0998 ± 0.0003) mol/L", Kind.CONCENTRATION, 0.3),
        ("0.0998 mol/L +/- 0.0003", Kind.CONCENTRATION, 0.3),
        ("0.0998 mol/L +- 0.0003", Kind.CONCENTRATION, 0.3),
        ("0.0998 mol/L + / - 0.0003", Kind.CONCENTRATION, 0.3),
        ("0,0998 mol/L ± 0,0003", Kind.CONCENTRATION, 0.3),
        ("0.80 L/min ± 4 %", Kind.VOLUME_FLOW, 0.032e-3 / 60.0),
        ("0.80 L/min ± 4%", Kind.VOLUME_FLOW, 0.032e-3 / 60.0),
        ("-40 °C ± 1 K", Kind.TEMPERATURE, 1.0),
        ("-40 °C ± 1 °C", Kind.TEMPERATURE, 1.0),
        ("-40 °C ± 1", Kind.TEMPERATURE, 1.0),
        ("88 % ± 3 points", Kind.SHARE, 0.03),
        ("88 % ± 1 point", Kind.SHARE, 0.01),
        ("88 % ± 3.5 points", Kind.SHARE, 0.035),
        ("92 vol% ± 0.5 points", Kind.MOLE_FRACTION, 0.005),
        ("98 wt% ± 0.5 points", Kind.MASS_FRACTION, 0.005),
        ("0.1 ppm ± 10 %", Kind.MOLE_FRACTION, 1e-8),
        ("2.8 /h ± 1.3 /h", Kind.RATE, 1.3 / 3600.0),
        ("4 min 30 s ± 1.5 s", Kind.TIME, 1.5),
        ("4 min 30 s ± 1 %", Kind.TIME, 2.7),
        ("4 min 30 s ± 2", Kind.TIME, 2.0),
        ("-5 mL ± 10 %", Kind.VOLUME, 0.5e-6),
        ("5 mL ± 0 mL", Kind.VOLUME, 0.0),
        ("16.7 ± 5 %", Kind.DIMENSIONLESS, 0.835),
        ("16.7 ± 0.2", Kind.DIMENSIONLESS, 0.2),
    ],
)
def test_uncertainty_as_typed(text: str, kind: Kind, u: float) -> None:
    found = read(text, kind).u
    assert found is not None
    assert isclose(found, u, rel_tol=1e-9, abs_tol=1e-18)


@pytest.mark.parametrize(
    ("text", "kind", "digit"),
    [
        ("18.46 mL", Kind.VOLUME, 0.01e-6),
        ("18,4 mL", Kind.VOLUME, 0.1e-6),
        ("18 mL", Kind.VOLUME, 1e-6),
        ("1.5e3 mL", Kind.VOLUME, 100e-6),
        ("4 min", Kind.TIME, 60.0),
        ("4 min 0 s", Kind.TIME, 1.0),
        ("4 min 30.5 s", Kind.TIME, 0.1),
        ("22 °C", Kind.TEMPERATURE, 1.0),
        ("92 vol%", Kind.MOLE_FRACTION, 0.01),
    ],
)
def test_the_last_digit_typed(text: str, kind: Kind, digit: float) -> None:
    reading = read(text, kind)
    assert reading.u is None
    assert isclose(reading.digit, digit)


def test_the_field_may_allow_two_kinds() -> None:
    kinds = (Kind.VOLUME_FLOW, Kind.NORMAL_FLOW)
    assert read("0.8 L/min", *kinds).kind is Kind.VOLUME_FLOW
    assert read("0.8 NL/min", *kinds).kind is Kind.NORMAL_FLOW
    with pytest.raises(UnitError, match="volume flow or normal flow"):
        read("0.8", *kinds)


@pytest.mark.parametrize(
    ("text", "basis", "pascal"),
    [
        ("150 bar gauge", "gauge", 150e5),
        ("151 bar abs", "abs", 151e5),
        ("151 bar absolute", "abs", 151e5),
        ("15 MPa gauge ± 0.2 MPa", "gauge", 15e6),
        ("15 MPa gauge ± 2 %", "gauge", 15e6),
    ],
)
def test_cylinder_pressure_says_gauge_or_absolute(text: str, basis: str, pascal: float) -> None:
    reading = read(text, Kind.CYLINDER_PRESSURE)
    assert (reading.basis, reading.value) == (basis, pascal)


def test_the_typed_text_is_kept() -> None:
    text = f"18,46{THIN}mL"
    reading = read(text, Kind.VOLUME)
    assert isinstance(reading, Reading)
    assert (reading.text, reading.unit) == (text, "mL")


@pytest.mark.parametrize("kind", list(Kind))
def test_every_kind_reads_its_own_example_and_shown_units(kind: Kind) -> None:
    read(ACCEPTED[kind].example, kind)
    end = " gauge" if kind is Kind.CYLINDER_PRESSURE else ""
    for unit in ACCEPTED[kind].shown:
        known = f"1{unit}" if unit.startswith("/") else unit
        assert isclose(parse(f"3 {unit}{end}", kind), to_si(3.0, kind, known))


@pytest.mark.parametrize("unit", sorted(HINTS))
def test_no_hint_hides_a_unit_of_the_same_kind(unit: str) -> None:
    kinds = [kind for kind in Kind if unit in ACCEPTED[kind].units]
    assert not kinds or unit == "m"


def test_points_are_the_kinds_in_per_cent() -> None:
    assert set(POINTS) == {k for k in Kind if any(unit.endswith("%") for unit in ACCEPTED[k].units)}


@pytest.mark.parametrize(
    ("unit", "ending"),
    [
        ("mg", "mg"),
        ("g/h", "g_per_h"),
        ("g/Nm3", "g_per_nm3"),
        ("wt%", "wt_percent"),
        ("vol%", "vol_percent"),
        ("%", "percent"),
        ("g/kWh", "g_per_kwh"),
        ("mol/L", "mol_per_l"),
        ("1/h", "per_h"),
        ("°C", "c"),
        ("µL", "ul"),
        ("", ""),
    ],
)
def test_key_endings(unit: str, ending: str) -> None:
    assert slug(unit) == ending


def test_numbers_leave_si_by_one_door() -> None:
    assert isclose(number(295.15, Kind.TEMPERATURE, "°C"), 22.0)
    assert isclose(number(240.0, Kind.TIME, "min"), 4.0)
    assert size(Kind.TEMPERATURE, "°C") == 1.0
