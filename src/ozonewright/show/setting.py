"""The output of a setting as text."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.setting import SettingOutput
from ozonewright.show.numbers import quantity, span
from ozonewright.show.wrap import noted, numbered, wrapped
from ozonewright.units import Kind


def answer_line(found: SettingOutput) -> str:
    """Return the one line that answers."""
    assert found.rate is not None
    rate = quantity(found.rate.value, Kind.MASS_RATE, "g/h", found.rate.u)
    doubt = "" if found.surplus_ruled_out else "; surplus not ruled out"
    return f"{found.setting}: {rate} ({basis(found)}{doubt})"


def basis(found: SettingOutput) -> str:
    """Return what the output is made of: ``mean of 4 runs``."""
    if found.by == "slope":
        return f"slope of {found.count} runs, surplus taken off"
    return "1 run" if found.count == 1 else f"mean of {found.count} runs"


def setting_text(found: SettingOutput) -> str:
    """Return the answer, what to do next, the runs and the notes."""
    return "\n".join(_lines(found)) + "\n"


def _lines(found: SettingOutput) -> Iterator[str]:
    assert found.rate is not None
    yield from wrapped(answer_line(found))
    yield f"95 %: {span(*found.rate.interval, Kind.MASS_RATE, 'g/h', found.rate.u)}"
    yield from ("", "Next")
    yield from numbered(found.next[:3])
    yield from ("", "Runs")
    for row in found.runs:
        minutes = quantity(row.on_time, Kind.TIME, "s") if row.on_time else ""
        ozone = quantity(row.ozone, Kind.MASS, "mg") if row.ozone is not None else ""
        rate = quantity(row.rate or 0.0, Kind.MASS_RATE, "g/h")
        yield f"  {row.label[:16]:<16} {minutes:>10} {ozone:>12} {rate:>13}"
    yield from noted(found.notes)
