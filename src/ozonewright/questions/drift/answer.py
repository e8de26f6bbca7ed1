"""Which causes fit, whether it is determined, and what to measure next."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import log

import numpy as np

from ozonewright.errors import MissingValue
from ozonewright.questions.drift.causes import BY_NAME
from ozonewright.questions.drift.following import following
from ozonewright.questions.drift.implied import curves_of, implied
from ozonewright.questions.drift.labels import Labelled, class_of, family_of
from ozonewright.questions.drift.line import line_of, points_of, steps_of
from ozonewright.questions.drift.models import Model, hidden_of, models_of
from ozonewright.questions.drift.posterior import Weighed, weigh
from ozonewright.questions.drift.result import CauseRow, Drift, GroupRow
from ozonewright.questions.drift.series import Facts, Readings, Rig, SeriesRun, Setup, readings_of
from ozonewright.questions.drift.setup import facts_of, setup_of
from ozonewright.questions.drift.status import (
    MISFIT,
    RULED_OUT,
    Trend,
    reason_by_trend,
    status,
    trend_of,
)
from ozonewright.questions.drift.told import assumed, notes, unknowns
from ozonewright.questions.drift.verdict import Verdict, best_misfit, judged
from ozonewright.references.priors import prior

SEED = 20
TOLD_PAIR = 0.01
"""Probability from which two causes at once are listed, or one that hides in these runs."""
TOLD_GROUP = 0.001
SOURCES = ("york_2004", "palmer_1984", "sander_2023")
METHODS = (
    "weighted line with errors in both",
    "evidence of each cause by importance sampling",
    "expected drop of entropy of the causes",
)


@dataclass(frozen=True, slots=True)
class Weighing:
    """Everything that was worked out of a series."""

    facts: Facts
    setup: Setup
    readings: Readings
    weighed: tuple[Weighed, ...]
    verdict: Verdict
    found: tuple[Labelled, ...]


def weighing(runs: Sequence[SeriesRun], rig: Rig, *, order: bool, seed: int = SEED) -> Weighing:
    """Weigh every cause that the series can show.

    Raises
    ------
    MissingValue
        Fewer than two runs with the discharge on.
    """
    made = sum(run.discharge_on for run in runs)
    if made < 2:
        raise MissingValue(
            "drift needs two runs with the discharge on" if made else "no run made ozone",
            where="runs",
            got=f"{made}",
            fix="Add a run of other minutes; three or more tell most.",
        )
    facts = facts_of(runs, rig, order=order)
    setup, readings = setup_of(runs, rig, facts), readings_of(runs)
    weighed = weigh(models_of(facts), setup, readings, seed)
    verdict, found = judged(
        weighed,
        setup,
        readings,
        sure_facts=order and not facts.guessed,
        hidden=hidden_of(facts),
        stream=np.random.default_rng([seed, 1]),
    )
    return Weighing(facts, setup, readings, weighed, verdict, found)


def drift(
    runs: Sequence[SeriesRun],
    rig: Rig | None = None,
    *,
    order: bool = False,
    setting: str | None = None,
    seed: int = SEED,
) -> Drift:
    """Return why the runs of one setting disagree; `order` says that theirs is known."""
    rig = rig or Rig()
    got = weighing(runs, rig, order=order, seed=seed)
    titrant = rig.titrant or prior("TITRANT").centre.value
    rows = tuple(_cause_rows(got))
    further = following(got.found, runs, got.setup, titrant, np.random.default_rng([seed, 2]))
    return Drift(
        setting=setting,
        determined=got.verdict.determined,
        verdict=got.verdict.verdict,
        even=got.verdict.even,
        threshold=got.verdict.threshold,
        points=tuple(points_of(runs)),
        steps=tuple(steps_of(runs)),
        fit=line_of(runs),
        causes=rows,
        groups=tuple(_group_rows(got.verdict.groups)),
        classes=tuple(_group_rows(got.verdict.classes)),
        next=further.rows,
        curves=tuple(curves_of(got.weighed, got.setup, rows)),
        titrant=titrant,
        assumed=tuple(assumed(runs, rig, got.facts)),
        unknowns=tuple(unknowns(runs, rig, got.facts)),
        notes=(*notes(got.verdict, got.facts, runs, rows), *further.notes),
        sources=SOURCES,
        methods=METHODS,
    )


def _group_rows(chances: Mapping[str, float]) -> Iterator[GroupRow]:
    for name, chance in chances.items():
        if chance >= TOLD_GROUP:
            yield GroupRow(group=name, probability=chance)


def _cause_rows(got: Weighing) -> Iterator[CauseRow]:
    """Yield every single cause, the likeliest first, then the pairs that are likely enough."""
    trend = trend_of(got.setup, got.readings)
    single = [_single_row(got, name, trend) for name in BY_NAME]
    yield from sorted(single, key=lambda row: -(row.probability or 0.0))
    for label, chance in got.verdict.chances.items():
        if "+" in label and chance >= TOLD_PAIR:
            yield CauseRow(
                cause=label,
                group=family_of(label),
                kind=class_of(label),
                probability=chance,
                status="fits",
            )


def _single_row(got: Weighing, name: str, trend: Trend | None) -> CauseRow:
    cause = BY_NAME[name]
    own = [
        one for one in got.weighed if len(one.model.causes) == 1 and one.model.causes[0] == cause
    ]
    chance = got.verdict.chances.get(name, 0.0)
    if not cause.shows(got.facts):
        return CauseRow(
            cause=name,
            group=cause.family,
            kind=cause.kind,
            probability=chance if chance >= TOLD_PAIR else None,
            status="can't be told",
        )
    best = max(own, key=lambda one: one.evidence.log_z + log(one.model.weight))
    models: list[Model] = [one.model for one in own]
    reason = reason_by_trend(cause, models, got.setup, trend, _rate_z(got))
    misfit = best_misfit(best, got.setup, got.readings)
    word, why = status(chance, reason, misfit, len(got.setup))
    return CauseRow(
        cause=name,
        group=cause.family,
        kind=cause.kind,
        probability=chance,
        status=word,
        reason=why,
        ruled_out=chance < RULED_OUT and why != "",
        implied=implied(best) if misfit <= MISFIT * len(got.setup) else None,
    )


def _rate_z(got: Weighing) -> float:
    """Return the middle output of the runs in standard deviations of what was thought before."""
    made = got.setup.discharge > 0.0
    rate = float(np.median(got.readings.total[made] / got.setup.on_time[made]))
    shape = got.weighed[0].model.parameters[0]
    return (log(max(rate, shape.centre * 1e-6)) - log(shape.centre)) / shape.spread
