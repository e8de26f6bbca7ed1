"""Reads a quantity typed by a person: number, unit, and perhaps its uncertainty.

Nothing is guessed. What could mean two things is refused with one valid example.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from ozonewright.errors import UnitError
from ozonewright.units.table import ACCEPTED, HINTS, POINTS, VOLTAGE, Kind, size, to_si


class Reading(NamedTuple):
    """A quantity as typed, in SI."""

    value: float
    u: float | None
    """One standard uncertainty as typed, or None."""
    digit: float
    """The size of one unit of the last digit typed."""
    kind: Kind
    unit: str
    basis: str
    """``gauge`` or ``abs`` where the text says so, else empty."""
    text: str


_NUMBER = r"[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d+)?"
_THIN_SPACES = "\u2009\u202f\u00a0\u2007\u2008\u200a"
_SUPERSCRIPTS = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺", "0123456789-+")
_SAME = str.maketrans(
    {
        "\u2212": "-",
        "\u2013": "-",
        "\u2011": "-",
        "μ": "µ",
        "º": "°",
        "·": " ",
        "⋅": " ",
        "∙": " ",
        "℃": "°C",
        "\u2215": "/",
        "\u2044": "/",
        "％": "%",
    }
)
_OF_A_WAVE = re.compile(
    r"(?i:(?<![\w/])([km]?V)[\s_]*(peak|rms|p\s*-?\s*p|peak[\s-]*(?:to[\s-]*)?peak)$)"
)
"""A voltage that says what it is of the wave, in the usual spellings."""
_BASIS = re.compile(r"\s*\b(gauge|abs(?:olute)?)$")


LONGEST = 200
"""Letters of the longest text that may still be one quantity."""
LARGEST, SMALLEST = 1e40, 1e-40
"""No reading of a bench lies outside these, whatever its unit."""


def parse(text: str, kind: Kind) -> float:
    """Return the SI value of a quantity typed as text; an uncertainty is read and left out."""
    return read(text, kind).value


def read(text: str, *kinds: Kind) -> Reading:
    """Return the quantity typed in `text`; the field allows `kinds` (usually one)."""
    _check_text(text, kinds[0])
    tidy = _tidied(text)
    if not tidy:
        raise UnitError("nothing is written here", fix=f"Write for example {_example(kinds[0])}.")
    main, sign, spread = _split_spread(tidy, text, kinds[0])
    basis = ""
    if "pressure" in kinds[0].value and (match := _BASIS.search(main)):
        basis = match[1][:5] if match[1] == "gauge" else "abs"
        main = main[: match.start()].strip()
    value, digit, unit, kind = _value(main, spread if sign else "", text, kinds)
    _check_basis(kind, basis, text)
    u = _spread(spread, value, unit, kind, text) if sign else None
    return Reading(value, u, digit, kind, unit, basis, text)


def _check_text(text: object, kind: Kind) -> None:
    number = isinstance(text, int | float) and not isinstance(text, bool)
    if number:
        fix = f"Write it as {_example(kind)}."
        raise UnitError("a number alone has no unit", got=str(text), fix=fix)
    fix = f"Write for example {_example(kind)}."
    if not isinstance(text, str):
        raise UnitError("text with a unit is wanted", got=str(text), fix=fix)
    if len(text) > LONGEST:
        raise UnitError("this is too long for one quantity", got=text, fix=fix)


def _example(kind: Kind, *, spread: bool = False) -> str:
    behind = ""
    if spread:
        named = {Kind.TEMPERATURE: " ± 1 K", **dict.fromkeys(POINTS, " ± 3 points")}
        behind = named.get(kind, " ± 2 %")
    return f'"{ACCEPTED[kind].example}{behind}"'


def _tidied(text: str) -> str:
    """Bring the many ways of typing one sign to one: minus, micro, degree, powers, spaces."""
    joined = re.sub(rf"(?<=\d)[{_THIN_SPACES}](?=\d{{3}}(?!\d))", "", text)
    plain = joined.translate(_SAME)
    # a power of ten shows itself by ^, a sign or superscripts; "2 x 100 mL" is none
    plain = re.sub(r"\s*[×x*]\s*10(?=[⁻⁺⁰¹²³⁴⁵⁶⁷⁸⁹]|\^|[+-]\d)\^?\s*", "e", plain)
    plain = re.sub(
        r"(?<=[A-Za-zµ°])[⁻⁺]?[⁰¹²³⁴⁵⁶⁷⁸⁹]+", lambda m: m[0].translate(_SUPERSCRIPTS), plain
    )
    plain = re.sub(r"\+\s*/\s*-|\+-", "±", plain)
    plain = re.sub(r"(?i)\bdeg\s*C\b", "°C", plain)
    plain = re.sub(r"°\s+C\b", "°C", plain)
    return " ".join(plain.split())


def _split_spread(tidy: str, text: str, kind: Kind) -> tuple[str, str, str]:
    main, sign, spread = tidy.partition("±")
    if "±" in spread:
        raise UnitError(
            "two ± signs", got=text, fix=f"Write one, as in {_example(kind, spread=True)}."
        )
    main, spread = main.strip(), spread.strip()
    if main.startswith("(") and (close := spread.find(")")) >= 0:
        # (18.46 ± 0.03) mL: the unit stands behind the bracket and belongs to both
        main, spread = main[1:].strip() + " " + spread[close + 1 :].strip(), spread[:close].strip()
    return main, sign, spread


def _number(text: str, typed: str, kind: Kind) -> tuple[float, float]:
    """Return a number and the size of one unit of its last digit."""
    mantissa, _, exponent = text.lower().partition("e")
    if re.fullmatch(r"[+-]?[1-9]\d{0,2},\d{3}", mantissa):
        raise UnitError(
            f"{mantissa} may be a decimal comma or a thousands separator",
            got=typed,
            fix=f"Write {mantissa.replace(',', '.')} or {mantissa.replace(',', '')}.",
        )
    mantissa = mantissa.replace(",", ".")
    power = int(exponent or 0)
    decimals = len(mantissa.partition(".")[2])
    value = float(f"{mantissa}e{max(min(power, 999), -999)}")
    if decimals > 40 or (value and not SMALLEST < abs(value) < LARGEST) or abs(power) > 40:
        raise UnitError("the number is out of range", got=typed, fix=f"Write {_example(kind)}.")
    return value, 10.0 ** (power - decimals)


def _value(
    main: str, spread: str, text: str, kinds: tuple[Kind, ...]
) -> tuple[float, float, str, Kind]:
    """Read the part before ±: one number with its unit, or a time in pieces."""
    if kinds == (Kind.TIME,) and len(pieces := _time_pieces(main)) > 1:
        return *_compound_time(pieces, text), Kind.TIME
    match = re.fullmatch(rf"({_NUMBER})\s*(.*)", main)
    if not match:
        raise UnitError("no number can be read", got=text, fix=f"Write {_example(kinds[0])}.")
    if re.match(r"\(\d+\)", match[2]):
        fix = f"Write the standard uncertainty as in {_example(kinds[0], spread=True)}."
        raise UnitError("digits in brackets may mean several things", got=text, fix=fix)
    if re.match(r"(?!1/)[\d.,:;'\"+x×*-]", match[2]):
        fix = f"Write {_example(kinds[0])}."
        raise UnitError("this is not one number with one unit", got=text, fix=fix)
    digits, unit = match[1], _unit_spelling(match[2])
    if not unit and spread:
        # 18.46 ± 0.03 mL: the unit stands once, at the end
        unit = _unit_spelling(re.sub(rf"^{_NUMBER}\s*", "", spread))
        unit = "" if unit == "%" and not any(kind in POINTS for kind in kinds) else unit
    for kind in kinds:
        if unit in ACCEPTED[kind].units:
            value, digit = _number(digits, text, kind)
            return to_si(value, kind, unit), digit * size(kind, unit), unit, kind
    raise _wrong_unit(unit, text, kinds)


def _time_pieces(main: str) -> list[tuple[str, str]]:
    pieces = re.findall(rf"({_NUMBER})\s*([A-Za-z]+)\s*", main)
    rebuilt = "".join(number + unit for number, unit in pieces)
    return pieces if rebuilt == main.replace(" ", "") else []


def _compound_time(pieces: list[tuple[str, str]], text: str) -> tuple[float, float, str]:
    """Add up ``1 h 5 min 30 s``: units fall, only the last number may have decimals."""
    units = ACCEPTED[Kind.TIME].units
    total, digit, last = 0.0, 0.0, float("inf")
    for place, (number, unit) in enumerate(pieces):
        if unit not in units:
            raise _wrong_unit(unit, text, (Kind.TIME,))
        value, digit = _number(number, text, Kind.TIME)
        whole = place == len(pieces) - 1 or value == int(value)
        fits = place == 0 or 0 <= value * units[unit] < last
        if units[unit] >= last or not whole or not fits or (place > 0 and number[0] in "+-"):
            raise UnitError(
                "the pieces of this time do not add up to one time",
                got=text,
                fix='Write "4 min 30 s".',
            )
        total, digit, last = total + value * units[unit], digit * units[unit], units[unit]
    return total, digit, pieces[-1][1]


def _unit_spelling(unit: str) -> str:
    """Return the one spelling of a unit: ``mol L-1``, ``mol/l`` stay or become ``mol/L``."""
    text = unit.strip()
    text = re.sub(r"\s*/\s*", "/", text)
    text = re.sub(r"\^", "", text)
    if text.startswith("/"):
        text = "1" + text
    text = re.sub(r"^([A-Za-zµ°]+)-1$", r"1/\1", text)
    text = re.sub(r"^([A-Za-zµ°%0-9]+) ([A-Za-zµ°]+?)(\d?)-1$", r"\1/\2\3", text)
    text = re.sub(r"^([A-Za-zµ°%0-9]+) ([A-Za-zµ°]+)-3$", r"\1/\g<2>3", text)
    text = re.sub(r"^(vol|wt|mol)\s*-?\s*%$", r"\1%", text)
    if match := _OF_A_WAVE.match(text):
        word = match[2].lower()
        text = f"{match[1]} {word if word in ('peak', 'rms') else 'pp'}"
    return text


def _wrong_unit(unit: str, text: str, kinds: tuple[Kind, ...]) -> UnitError:
    wanted = ", ".join(u for kind in kinds for u in ACCEPTED[kind].shown if u)
    name = " or ".join(kind.value for kind in kinds)
    fix = f"Accepted: {wanted}; for example {_example(kinds[0])}."
    if not unit:
        return UnitError(f"the unit is missing; a {name} is wanted", got=text, fix=fix)
    if unit == "%" and any(kind in (Kind.MOLE_FRACTION, Kind.MASS_FRACTION) for kind in kinds):
        return UnitError("percent of what? vol% and wt% differ", got=text, fix=fix)
    if unit in VOLTAGE and Kind.PEAK_VOLTAGE in kinds:
        fix = f'Write "{text} peak" (from nought to the top), "{text} pp" (from bottom to top)'
        fix += f' or "{text} rms".' if Kind.RMS_VOLTAGE in kinds else "."
        return UnitError("peak, peak-to-peak or rms?", got=text, fix=fix)
    if hint := HINTS.get(unit):
        return UnitError(hint, got=text, fix=fix)
    other = [kind.value for kind in ACCEPTED if unit in ACCEPTED[kind].units]
    if other:
        return UnitError(f"{unit} is a unit of {other[0]}; a {name} is wanted", got=text, fix=fix)
    alike = {u for kind in kinds for u in ACCEPTED[kind].units if u.lower() == unit.lower()}
    if alike:
        fix = f"Did you mean {' or '.join(sorted(alike))}? " + fix
    return UnitError(f"{unit} is no unit of {name} known here", got=text, fix=fix)


def _check_basis(kind: Kind, basis: str, text: str) -> None:
    if kind is Kind.CYLINDER_PRESSURE and not basis:
        raise UnitError(
            "gauge or absolute?", got=text, fix='Write "150 bar gauge" or "151 bar abs".'
        )
    if kind is Kind.PRESSURE and basis == "gauge":
        raise UnitError("an absolute pressure is wanted", got=text, fix='Write "101.3 kPa".')
    if kind is Kind.PRESSURE_DIFFERENCE and basis == "abs":
        raise UnitError("a gauge pressure is wanted", got=text, fix='Write "1.5 kPa".')


def _spread(spread: str, value: float, unit: str, kind: Kind, text: str) -> float:
    """Return the standard uncertainty typed behind ±, in SI."""
    match = re.fullmatch(rf"({_NUMBER})\s*(.*)", spread)
    if not match:
        raise UnitError(
            "no number can be read behind ±",
            got=text,
            fix=f"Write the standard uncertainty as in {_example(kind, spread=True)}.",
        )
    amount, _ = _number(match[1], text, kind)
    given = _unit_spelling(match[2])
    if amount < 0:
        raise UnitError("an uncertainty can't be negative", got=text, fix="Leave out the sign.")
    if given in ("points", "point"):
        if kind not in POINTS or "%" not in unit:
            raise UnitError(
                "points belong to a quantity in %",
                got=text,
                fix=f"Write ± {match[1]} {unit} or a share of the value in %.",
            )
        return amount * size(kind, unit)
    if "%" in given:
        return _relative(amount, match[1], value, unit, kind, text)
    if not given:
        return amount * size(kind, unit)
    units = ACCEPTED[kind].units
    if kind in (Kind.PEAK_VOLTAGE, Kind.RMS_VOLTAGE) and given in VOLTAGE:
        # 16 kV pp ± 0.2 kV: the same of the wave is meant
        given = f"{given} {unit.partition(' ')[2]}"
    if given not in units:
        raise _wrong_unit(given, text, (kind,))
    return amount * size(kind, given)


def _relative(amount: float, typed: str, value: float, unit: str, kind: Kind, text: str) -> float:
    if kind in POINTS and "%" in unit:
        raise UnitError(
            "± % of a quantity in % has two meanings",
            got=text,
            fix=f"Write ± {typed} points for an absolute uncertainty.",
        )
    if kind is Kind.TEMPERATURE:
        raise UnitError(
            "a share of a temperature means nothing", got=text, fix='Write "22 °C ± 1 K".'
        )
    return abs(value) * amount / 100.0
