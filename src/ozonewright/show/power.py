"""The answer about powers as text."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.power import Power
from ozonewright.questions.power.result import LoopRow
from ozonewright.results import Quantity, Row, declared
from ozonewright.show.fields import told
from ozonewright.show.numbers import percent, span
from ozonewright.show.wrap import foot, noted, numbered, unmarked, wrapped
from ozonewright.uncertain import Estimate

CAUTIONS = (
    "High voltage kills, and capacitors keep it: supply off at the plug, wait, short and earth "
    "before a lead is clipped on or taken off, every time. Never alone.",
    "Never an ordinary probe or multimeter on a neon, flyback or ignition transformer or the like: "
    "only a probe whose papers name your voltage at your frequency, its earth lead on first.",
    "An oscilloscope is earthed through its plug: nothing of it may float. The sense capacitor "
    "stands between tube and earth, with an arrester across it: if it opens, its lead is at high "
    "voltage. A supply whose middle is earthed leaves no place for it: leave the loop.",
    "Local rules and licensed practice go before anything said here. Without them, plug and "
    "burette are enough: “not determined” is a good answer.",
)
LOOP_FACTS = ("peak", "ignition", "gap_voltage", "dielectric", "gap", "cell", "energy", "manley")
POWERS = (
    "plug", "standby", "discharge", "supply_efficiency", "supply_efficiency_less_standby", "rate",
    "yield_plug", "share_plug", "yield_discharge", "share_discharge",
)  # fmt: skip
Cells = tuple[str, str, str]


def answer_line(found: Power) -> str:
    """Return the one line that answers: what the gas gets of what the plug gives."""
    plug = told(found, "plug", with_u=True)
    if found.discharge is None:
        return f"{plug} at the plug; what the gas gets is not determined"
    line = f"{told(found, 'discharge', with_u=True)} in the gas"
    if plug is None:
        return f"{line}; plug power not stated"
    return f"{line} of {plug} at the plug ({told(found, 'supply_efficiency', figures=2)})"


def yield_line(found: Power) -> str:
    """Return what a kilowatt-hour of either brings."""
    parts = [
        f"{told(found, f'yield_{basis}', with_u=True)} {words}"
        for basis, words in (("plug", "at the plug"), ("discharge", "of the discharge"))
        if getattr(found, f"yield_{basis}") is not None
    ]
    if not parts:
        return "Yield: not determined (no output is stated)."
    return f"{'; '.join(parts)}{' (u at least)' if found.at_least else ''}."


def basis_line(found: Power) -> str:
    """Return how the discharge power is known."""
    if found.loop is not None:
        cycles = f"{found.loop.cycles} cycle{'s' if found.loop.cycles > 1 else ''}"
        return f"From the area of the loop, {cycles} at {told(found.loop, 'frequency', figures=4)}."
    if found.discharge_by == "reading":
        return "Discharge power as stated."
    return f"By {found.discharge_by}." if found.discharge_by else ""


def cells(row: Row, names: tuple[str, ...]) -> Iterator[Cells]:
    """Yield words, value with ± and 95 % of each field that is known."""
    for name in names:
        declaration = dict(declared(row))[name]
        value = getattr(row, name)
        assert isinstance(declaration, Quantity)
        if value is None:
            continue
        between = ""
        if isinstance(value, Estimate) and value.u > 0.0:
            between = span(*value.interval, declaration.kind, declaration.unit, value.u)
        yield declaration.words, told(row, name, with_u=True) or "", between


def power_cells(found: Power) -> tuple[Cells, ...]:
    """Return the powers and yields as rows."""
    return tuple(cells(found, POWERS))


def loop_cells(loop: LoopRow) -> tuple[Cells, ...]:
    """Return what the loop tells as rows."""
    return tuple(cells(loop, LOOP_FACTS))


def power_text(found: Power) -> str:
    """Return the whole answer for a terminal."""
    return "\n".join(_lines(found)) + "\n"


def _lines(found: Power) -> Iterator[str]:
    yield from wrapped(answer_line(found), "")
    yield from wrapped(yield_line(found), "")
    if basis := basis_line(found):
        yield from wrapped(basis, "")
    yield from ("", "Take care")
    for caution in CAUTIONS:
        yield from wrapped(caution, "  ")
    if found.next:
        yield from ("", "Next")
        yield from numbered(found.next)
    if found.working:
        yield from ("", "Working")
        yield from unmarked(found.working)
    yield from ("", "Powers and yields, with 95 %")
    yield from _table(power_cells(found))
    if found.loop is not None:
        yield from ("", "The loop as two capacitors, with 95 %")
        yield from _table(loop_cells(found.loop))
    if found.budget:
        yield from ("", "Where the uncertainty of the discharge power comes from")
        for share in found.budget:
            yield f"  {share.input:<24}{percent(share.share or 0.0):>8}"
    yield from noted(found.notes)
    yield from foot(found.unknowns, found.sources)


def _table(rows: tuple[Cells, ...]) -> Iterator[str]:
    wide = max(len(words) for words, _, _ in rows)
    for words, value, between in rows:
        yield f"  {words:<{wide}}  {value}{f'   {between}' if between else ''}"
