"""A result as the parts of a page: every number already a text, every note already a sentence."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from ozonewright.questions.output import Output
from ozonewright.questions.setting import SettingOutput
from ozonewright.references.sources import MEANING, source
from ozonewright.results import Note, Quantity, Result, Share, declared
from ozonewright.show.budget import worth_telling
from ozonewright.show.fields import told
from ozonewright.show.numbers import percent, quantity, significant, span, unit_text, with_u
from ozonewright.show.output import answer_line, basis_line
from ozonewright.show.setting import basis
from ozonewright.show.words import sentence
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind, number

LEVELS = {"wrong": ("■", "wrong"), "doubt": ("◪", "doubt"), "advice": ("□", "advice")}
BUDGET_LINES = 8


@dataclass(frozen=True, slots=True)
class Answer:
    """The large line of a page and the one below it."""

    number: str
    unit: str
    beside: str = ""
    basis: str = ""
    sureness: str = ""
    determined: bool = True


@dataclass(frozen=True, slots=True)
class Remark:
    """A note with its mark and the word of its level."""

    level: str
    mark: str
    word: str
    text: str


@dataclass(frozen=True, slots=True)
class BudgetLine:
    """One bar of the budget figure."""

    input: str
    percent: str
    width: str
    """In per cent of the figure, for the bar."""
    largest: bool


@dataclass(frozen=True, slots=True)
class SourceLine:
    """One source, and how much of it was read."""

    text: str
    read: str


@dataclass(frozen=True, slots=True)
class RunNumbers:
    """What the run list shows of a run; units stand in the head of the table."""

    minutes: str = ""
    ozone: str = ""
    rate: str = ""


def output_answer(result: Output) -> Answer:
    """Return the answer of one run."""
    basis = basis_line(result)
    rate = result.rate
    if result.discharge == "off" or rate is None:
        line = answer_line(result)
        return Answer(line[:1].upper() + line[1:], "", basis=basis, determined=False)
    declaration = dict(declared(result))["rate"]
    assert isinstance(declaration, Quantity)
    least = ", u at least" if result.at_least else ""
    sure = ""
    if isinstance(rate, Estimate):
        low, high = rate.interval
        between = span(low, high, declaration.kind, declaration.unit, rate.u)
        sure = f"95 %: {between} ({result.interval_method})."
    text = told(result, "rate", with_u=True) or ""
    return Answer(
        text.removesuffix(unit_text(declaration.unit)).strip(),
        unit_text(declaration.unit),
        f"{told(result, 'rate_amount')}{least}",
        f"{basis}." if basis else "",
        sure,
    )


def setting_answer(found: SettingOutput, drift_asked: bool = True) -> Answer:
    """Return the answer of a setting; where drift was not asked, it says so."""
    if found.rate is None:
        return Answer("Output not determined", "", determined=False)
    rate = found.rate
    doubt = "" if found.surplus_ruled_out else " Surplus not ruled out."
    if not drift_asked:
        doubt += " Drift was not asked yet: the setting's page asks it."
    return Answer(
        quantity(rate.value, Kind.MASS_RATE, "g/h", rate.u).removesuffix("g/h").strip(),
        "g/h",
        basis(found),
        sureness=f"95 %: {span(*rate.interval, Kind.MASS_RATE, 'g/h', rate.u)}.{doubt}",
    )


def remarks(notes: Iterable[Note]) -> tuple[Remark, ...]:
    """Return the notes, what can't be true first."""
    order = list(LEVELS)
    return tuple(
        Remark(note.level, *LEVELS[note.level], sentence(note))
        for note in sorted(notes, key=lambda note: order.index(note.level))
    )


def sentences(notes: Iterable[Note]) -> tuple[str, ...]:
    """Return the words of notes, each beginning as a sentence does."""
    return tuple(text[:1].upper() + text[1:] for text in map(sentence, notes))


def budget_lines(shares: Iterable[Share]) -> tuple[BudgetLine, ...]:
    """Return the bars of the budget, the largest first, down to half a per cent."""
    lines = worth_telling(shares)
    return tuple(
        BudgetLine(
            line.input,
            percent(line.share or 0.0, 2),
            significant(min(100.0 * abs(line.share or 0.0), 100.0), 3),
            place == 0,
        )
        for place, line in enumerate(lines[:BUDGET_LINES])
    )


def source_lines(result: Result) -> tuple[SourceLine, ...]:
    """Return the sources of a result in full."""
    found = (source(key) for key in result.sources)
    return tuple(SourceLine(str(one), MEANING[one.read]) for one in found)


def run_numbers(values: Mapping[str, Any]) -> RunNumbers:
    """Return the numbers of a run from its answer as plain values, stored or fresh."""
    seconds = values.get("on_time_s")
    return RunNumbers(
        "" if seconds is None else f"{number(seconds, Kind.TIME, 'min'):.4g}",
        _number(values, "ozone_mg"),
        _number(values, "rate_g_per_h") if values.get("discharge") != "off" else "",
    )


def _number(values: Mapping[str, Any], key: str) -> str:
    value, u = values.get(key), values.get(f"u_{key}")
    if value is None:
        return ""
    return significant(value) if u is None else with_u(value, u)
