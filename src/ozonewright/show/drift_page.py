"""Drift as the parts of a page."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ozonewright.questions.drift import Drift, NextRow
from ozonewright.show.drift import (
    DETERMINED,
    answer_line,
    cheapest_text,
    likely,
    next_texts,
    run_texts,
    shown,
    status_text,
    telling,
)
from ozonewright.show.drift_figures import titres_figure
from ozonewright.show.numbers import quantity, significant
from ozonewright.show.words import sentence
from ozonewright.show.words.drift import cause_words
from ozonewright.units import Kind

NEXT_SHOWN = 5


@dataclass(frozen=True, slots=True)
class CauseLine:
    """One cause with its bar."""

    words: str
    name: str
    chance: str
    width: str
    status: str
    implied: str
    largest: bool


@dataclass(frozen=True, slots=True)
class FurtherRun:
    """One further run."""

    what: str
    decide: str


@dataclass(frozen=True, slots=True)
class SeriesRow:
    """One run of the series."""

    label: str
    on_time: str
    ozone: str
    rate: str
    kind: str


def heading(found: Drift) -> str:
    """Return the answer as a sentence begins."""
    line = answer_line(found)
    return line if found.setting else line[:1].upper() + line[1:]


def chosen_run(found: Drift) -> NextRow | None:
    """Return the further run that is told first: the cheapest that decides, else the best."""
    rows = telling(found.next)
    return next((row for row in rows if row.cheapest), rows[0] if rows else None)


def next_text(found: Drift) -> str:
    """Return what to do next, with the rule in millilitres."""
    row = chosen_run(found)
    if row is None:
        return DETERMINED if found.determined else ""
    return cheapest_text(found) if row.cheapest else " ".join(next_texts(row))


def chosen_words(found: Drift) -> str:
    """Return the run whose titres are drawn."""
    row = chosen_run(found)
    return sentence(row.what) if row is not None and row.what is not None else ""


def chosen_figure(found: Drift) -> str:
    """Return its titres by cause, or nothing."""
    row = chosen_run(found)
    if row is None or found.titrant is None:
        return ""
    return titres_figure(row, quantity(found.titrant, Kind.CONCENTRATION, "mol/L", figures=3))


def further_runs(found: Drift) -> Iterator[FurtherRun]:
    """Yield the further runs that tell most for their time."""
    for row in telling(found.next)[:NEXT_SHOWN]:
        yield FurtherRun(*next_texts(row))


def cause_lines(found: Drift) -> Iterator[CauseLine]:
    """Yield a line for each cause that is likely at all."""
    for place, row in enumerate(likely(found.causes)):
        chance = row.probability or 0.0
        yield CauseLine(
            words=cause_words(row.cause),
            name=row.cause,
            chance=shown(row.probability),
            width=significant(100.0 * chance, 3),
            status=status_text(row),
            implied=sentence(row.implied) if row.implied and row.status == "fits" else "",
            largest=place == 0 and found.determined,
        )


def series_rows(found: Drift) -> Iterator[SeriesRow]:
    """Yield every run of the series."""
    for row in found.points:
        yield SeriesRow(row.label, *run_texts(row))
