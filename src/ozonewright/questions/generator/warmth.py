"""How the output hangs on the temperature of the tube: a straight line through the fit's draws."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from ozonewright.questions.generator.answer import fit_of
from ozonewright.questions.generator.fit import Fit
from ozonewright.questions.generator.model import modelled
from ozonewright.questions.generator.notes import notes_of
from ozonewright.questions.generator.points import Point, Question
from ozonewright.questions.generator.predicted import at
from ozonewright.results import Note
from ozonewright.uncertain import Measured
from ozonewright.units import Kind

TRIED = 7
"""Temperatures from cold to warm through which the line is laid."""
BENT = 0.02
"""Share of the output by which the model may leave the line without a word."""
PASSED = (
    "generator-one-run", "generator-one-flow", "generator-wall-unknown", "generator-cold-start",
    "generator-no-power", "generator-poisoned", "generator-scatter", "generator-left-out",
    "generator-extrapolated", "generator-other-feed",
)  # fmt: skip
"""Notes of the fit that an answer which rests on it repeats."""


@dataclass(frozen=True, slots=True)
class Warmth:
    """Output at a temperature of the tube, and its change with it."""

    rate: Measured
    """At `at`. [mol/s]"""
    coefficient: Measured
    """As a share of that output. [1/K]"""
    at: Measured
    correlation: float
    """Of rate and coefficient."""
    notes: tuple[Note, ...]


def warmth(question: Question, cold: float, warm: float) -> Warmth:
    """Return the output at a place while its tube warms from one temperature to another."""
    fit = fit_of(question)
    walls = np.linspace(cold, warm, TRIED)
    rates = at(fit, [replace(question.point, wall=float(wall)) for wall in walls]).rate
    middle = float(walls.mean())
    columns = np.column_stack([np.ones(TRIED), walls - middle])
    rate, slope = np.linalg.lstsq(columns, rates.T, rcond=None)[0]
    share = slope / rate
    off = float(np.median(np.abs(rates.T - columns @ np.stack([rate, slope])).max(axis=0) / rate))
    return Warmth(
        rate=_input(rate, "output", Kind.AMOUNT_RATE),
        coefficient=_input(share, "temperature coefficient", Kind.PER_KELVIN),
        at=Measured(middle, 0.0, "temperature of the output", Kind.TEMPERATURE, basis="as set"),
        correlation=float(np.corrcoef(rate, share)[0, 1]),
        notes=tuple(_notes(question, fit, share, middle, off)),
    )


def _input(draws: np.ndarray, name: str, kind: Kind) -> Measured:
    return Measured(float(np.mean(draws)), float(np.std(draws, ddof=1)), name, kind, basis="fitted")


def _notes(
    question: Question, fit: Fit, share: np.ndarray, middle: float, off: float
) -> Iterator[Note]:
    low, high = (float(end) for end in np.percentile(share, (2.5, 97.5)))
    yield Note(
        "generator-warmth",
        "advice",
        {"runs": len(question.runs), "flow": question.point.flow, "low": low, "high": high},
    )
    if off > BENT:
        yield Note("generator-warmth-bent", "doubt", {"share": off})
    point: Point = replace(question.point, wall=middle)
    here = modelled(fit.lumped, fit.draws, [point])
    yield from (
        note for note in notes_of(fit, point, here, question.left_out) if note.code in PASSED
    )
