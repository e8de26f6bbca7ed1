"""Rounding, only here and only when shown: uncertainty to two figures, value to match."""

from __future__ import annotations

from math import floor, isfinite, log10

from ozonewright.units import Kind, number, size

PRETTY = {"Nm3": "Nm³", "m3": "m³", "cm3": "cm³", "m2": "m²"}
FIGURES = 4
"""Significant figures of a number without a stated uncertainty."""


def unit_text(unit: str) -> str:
    """Return a unit as it is printed: ``g/Nm³``."""
    for plain, pretty in PRETTY.items():
        unit = unit.replace(plain, pretty)
    return "/" + unit[2:] if unit.startswith("1/") else unit


def significant(value: float, figures: int = FIGURES) -> str:
    """Return a number with so many significant figures, without an exponent where readable."""
    if not isfinite(value):
        return str(value)
    if value == 0.0:
        return "0"
    decimals = figures - 1 - floor(log10(abs(float(f"{value:.{figures - 1}e}"))))
    if -4 <= decimals <= 12:
        return _minus(f"{round(value, decimals):.{max(decimals, 0)}f}")
    return _minus(f"{value:.{figures - 1}e}")


def with_u(value: float, u: float) -> str:
    """Return ``0.5343 ± 0.0036``: u to two figures, the value to match."""
    if u <= 0.0 or not isfinite(u):
        return significant(value)
    decimals = 1 - floor(log10(float(f"{u:.1e}")))
    if decimals > 9 or decimals < -6:
        return f"{significant(value)} ± {significant(u, 2)}"
    shown = max(decimals, 0)
    return f"{_minus(f'{round(value, decimals):.{shown}f}')} ± {round(u, decimals):.{shown}f}"


def stated(value: float, limit: float) -> str:
    """Return a figure as its source states it, with the limit it sets: ``24.000 ± 0.005``.

    Both have as many decimals as the finer of the two needs, and none is lost.
    """
    width = f"{limit:.2g}"
    if "e" in width and limit < 1e-8:
        return f"{significant(value)} ± {limit:.0e}"
    decimals = max(_decimals(value), _decimals(float(width)))
    return f"{_minus(f'{value:.{decimals}f}')} ± {float(width):.{decimals}f}"


def _decimals(value: float) -> int:
    """Return how many decimals a typed number has."""
    mantissa, _, exponent = repr(value).partition("e")
    typed = len(mantissa.partition(".")[2].rstrip("0"))
    return max(typed - int(exponent or 0), 0)


def _minus(text: str) -> str:
    return text.replace("-", "\u2212") if "e" not in text else text


def quantity(
    value: float, kind: Kind, unit: str, u: float | None = None, figures: int = FIGURES
) -> str:
    """Return an SI value in a unit, with its uncertainty where there is one."""
    shown = number(value, kind, unit)
    text = significant(shown, figures) if u is None else with_u(shown, u / size(kind, unit))
    label = unit_text(unit)
    return f"{text} {label}".strip()


SUPERSCRIPT = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")


def power_of_ten(value: float) -> str:
    """Return a number of many decades to two figures: ``6.3 × 10³``, ``480``."""
    if 0.1 <= abs(value) < 1e3 or value == 0.0:
        return significant(value, 2)
    mantissa, exponent = f"{value:.1e}".split("e")
    return f"{_minus(mantissa)} × 10{str(int(exponent)).translate(SUPERSCRIPT)}"


def percent(share: float, figures: int = 2) -> str:
    """Return a share as per cent: ``2.9 %``."""
    return f"{significant(100.0 * share, figures)} %"


def span(low: float, high: float, kind: Kind, unit: str, u: float) -> str:
    """Return ``0.5272 to 0.5414 g/h``, rounded like the uncertainty."""
    step = u / size(kind, unit)
    ends = [number(end, kind, unit) for end in (low, high)]
    if step <= 0.0:
        return f"{significant(ends[0])} to {significant(ends[1])} {unit_text(unit)}"
    decimals = max(1 - floor(log10(float(f"{step:.1e}"))), 0)
    low_text, high_text = (_minus(f"{end:.{decimals}f}") for end in ends)
    return f"{low_text} to {high_text} {unit_text(unit)}".strip()
