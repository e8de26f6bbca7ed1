"""From the runs of one generator to where it runs on its map, and what a change would bring."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

import numpy as np

from ozonewright.physics.gas.flow import ozonised_flow
from ozonewright.questions.generator.bases import supply_of, yield_of_discharge
from ozonewright.questions.generator.changes import changes, runs_to_make
from ozonewright.questions.generator.fit import Fit, fitted
from ozonewright.questions.generator.lumped import Array
from ozonewright.questions.generator.model import Modelled
from ozonewright.questions.generator.notes import (
    next_notes,
    notes_of,
    notes_of_warmth,
    unknowns_of_runs,
)
from ozonewright.questions.generator.points import Point, Price, Question
from ozonewright.questions.generator.predicted import at, estimate
from ozonewright.questions.generator.refusals import refuse_impossible
from ozonewright.questions.generator.result import (
    CurveRow,
    Generator,
    LumpedRow,
    RunRow,
    Sharper,
    Upgrade,
)
from ozonewright.questions.generator.wishes import best_points
from ozonewright.references.constants import M_O3
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind, number

PLATEAU = 4.0
"""Times the flow with which the present output is compared."""
DRAWN, MOST_DRAWN = 24, 1.3
"""Flows of the curve, and its end over the highest flow of the runs."""
ALIKE = 0.05
"""Difference of power or oxygen up to which a run belongs to the curve."""
SOURCES = ("atkinson_2004", "burkholder_2019", "mcbride_2002", "kogelschatz_2003", "ter_braak_2006")


def generator(question: Question) -> Generator:
    """Return where the generator runs on its map, and what a change would bring."""
    return answer_of(question, fit_of(question))


def fit_of(question: Question) -> Fit:
    """Return what the runs leave open of the generator."""
    for run in question.runs:
        refuse_impossible(run)
    return fitted(question.runs, [question.point])


def answer_of(question: Question, fit: Fit) -> Generator:
    """Return the answer from a fit to the runs."""
    here = at(fit, [question.point])
    point, pattern = question.point, question.pattern
    known = any(run.point.power is not None for run in question.runs) and point.power is not None
    energy = estimate(here.rate[:, 0] * M_O3 / here.power[:, 0]) if known else None
    supply = supply_of(question.runs)
    most = at(fit, [replace(point, flow=PLATEAU * point.flow)])
    upgrades = tuple(_upgrades(fit, point, here, question.prices))
    sharper = tuple(_sharper(fit, point, here))
    return Generator(
        setting=question.setting,
        at=question.asked,
        flow=point.flow,
        power=point.power,
        power_at=point.power_at,
        wall=point.wall,
        efficiency=estimate(fit.lumped.values(fit.draws)["efficiency"][:, 0]) if known else None,
        rate=_rate(here, 0),
        on_share=pattern.share if pattern else None,
        ozone_rate=estimate(here.rate[:, 0] * M_O3 * pattern.share) if pattern else None,
        concentration=_concentration(here, 0, point),
        energy_yield=energy,
        supply_efficiency=supply,
        yield_discharge=yield_of_discharge(energy, fit.lumped.basis, supply),
        specific_energy=point.power / point.flow if point.power is not None else None,
        gas_temperature=estimate(here.temperature[:, 0]),
        nox=estimate(here.nox[:, 0]) if point.nitrogen > 0.0 else 0.0,
        share_of_most=estimate(here.rate[:, 0] / most.rate[:, 0]),
        runs=tuple(_rows(fit, point)),
        lumped=tuple(_lumped(fit, known=known)),
        upgrades=upgrades,
        curve=tuple(_curve(fit, point)),
        best=tuple(best_points(fit, point, question.wishes)),
        sharper=sharper,
        moved=fit.moved,
        notes=(
            *notes_of(fit, point, here, question.left_out),
            *notes_of_warmth(question.pattern, question.walls_from),
        ),
        next=tuple(next_notes(question.runs, sharper)),
        unknowns=unknowns_of_runs(question.runs, point, question.left_out),
        sources=SOURCES + (("eliasson_1991",) if point.nitrogen > 0.0 else ()),
        methods=("plug flow with lumped constants, fitted to the runs by draws led in stages",),
    )


def _rate(made: Modelled, column: int) -> Estimate:
    return estimate(made.rate[:, column] * M_O3)


def _concentration(made: Modelled, column: int, point: Point) -> Estimate:
    rate = made.rate[:, column]
    return estimate(rate * M_O3 / ozonised_flow(feed_flow=point.flow, ozone_rate=rate))


def _curve(fit: Fit, point: Point) -> Iterator[CurveRow]:
    """Yield the output from a low flow to twice the highest of the place and the runs."""
    most = MOST_DRAWN * max(point.flow, *(run.point.flow for run in fit.runs))
    flows = most * np.linspace(1.0 / DRAWN, 1.0, DRAWN)
    places = [replace(point, flow=float(flow)) for flow in flows]
    made = at(fit, places)
    for column, place in enumerate(places):
        yield CurveRow(
            flow=place.flow,
            rate=_rate(made, column),
            concentration=_concentration(made, column, place),
        )


def _alike(run: Point, point: Point) -> bool:
    if run.power is None or point.power is None:
        same = run.power is point.power
    else:
        same = abs(run.power - point.power) < ALIKE * point.power
    return same and abs(run.oxygen - point.oxygen) < ALIKE


def _rows(fit: Fit, point: Point) -> Iterator[RunRow]:
    made = at(fit, [run.point for run in fit.runs])
    for column, run in enumerate(fit.runs):
        modelled = _rate(made, column)
        measured = run.rate.value * M_O3
        yield RunRow(
            label=run.label,
            setting=run.setting,
            flow=run.point.flow,
            measured=measured,
            modelled=modelled,
            ratio=measured / modelled.value,
            alike=_alike(run.point, point),
        )


def _lumped(fit: Fit, *, known: bool) -> Iterator[LumpedRow]:
    values = fit.lumped.values(fit.draws)
    for column, name in enumerate(fit.lumped.names):
        if name == "efficiency" and not known:
            continue
        thought = fit.lumped.belief(name)
        left = float(np.var(fit.draws[:, column]))
        reach = np.exp(1.96 * thought.spread)
        centre = thought.centre.value
        yield LumpedRow(
            name=name.replace("_", " "),
            value=estimate(values[name][:, 0]),
            beforehand=(float(centre / reach), float(centre * reach)),
            told=1.0 - left if left < 1.0 else 0.0,
        )


def _upgrades(
    fit: Fit, point: Point, here: Modelled, prices: Mapping[str, Price]
) -> Iterator[Upgrade]:
    named = list(changes(point))
    made = at(fit, [changed for _, changed in named])
    found = []
    for column, (name, changed) in enumerate(named):
        rate, ratio = _rate(made, column), made.rate[:, column] / here.rate[:, 0]
        price = prices.get(name)
        gain = rate.value - _rate(here, 0).value
        found.append(
            Upgrade(
                change=name,
                rate=rate,
                ratio=estimate(ratio),
                concentration=_concentration(made, column, changed),
                sure=float(np.mean(ratio > 1.0)),
                price=price.amount if price else None,
                currency=price.currency if price else "",
                gain_per_price=_per_price(gain, price),
            )
        )
    yield from sorted(found, key=_rank)


def _rank(row: Upgrade) -> tuple[bool, float]:
    """Order by the gain for the money where a price is known, then by the gain."""
    assert isinstance(row.ratio, Estimate)
    if row.gain_per_price is not None:
        return False, -row.gain_per_price
    return True, -row.ratio.value


def _per_price(gain: float, price: Price | None) -> float | None:
    if price is None or price.amount <= 0.0:
        return None
    return number(gain, Kind.MASS_RATE, "mg/h") / price.amount


def _sharper(fit: Fit, point: Point, here: Modelled) -> Iterator[Sharper]:
    """Yield how much of the doubt about the changes each run would take away, most first.

    Draws of the fit are taken as jointly normal: what a run tells of a change is the square of
    their correlation, less what the scatter of the run hides.
    """
    wanted = at(fit, [changed for _, changed in changes(point)])
    targets = np.log(wanted.rate / here.rate)
    offered = list(runs_to_make(point))
    shown = np.log(at(fit, [run for _, run in offered]).rate)
    scatter = float(np.median(fit.lumped.values(fit.draws)["scatter"]))
    found = [
        Sharper(change=name, share=_taken(targets, shown[:, column], scatter))
        for column, (name, _) in enumerate(offered)
    ]
    yield from sorted(found, key=lambda row: -(row.share or 0.0))


def _taken(targets: Array, seen: Array, scatter: float) -> float:
    apart = seen - seen.mean()
    variance = float(apart @ apart) / len(apart)
    shared = (targets - targets.mean(axis=0)).T @ apart / len(apart)
    return float((shared**2).sum() / (variance + scatter**2) / targets.var(axis=0).sum())
