"""What the readings say of every model: evidence, draws, and which causes matter in each draw."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ozonewright.questions.drift.cause import Cause
from ozonewright.questions.drift.clouds import first_clouds
from ozonewright.questions.drift.evidence import Evidence, sampled
from ozonewright.questions.drift.model import BY_ORDER, Predicted, Theta, log_likelihood, predicted
from ozonewright.questions.drift.models import Model
from ozonewright.questions.drift.series import Array, Readings, Setup, Truth
from ozonewright.references.priors import prior

SHIFT = 0.03
"""A cause that moves the usual run by less does not matter."""
SHIFT_U = 2.0
"""Neither does one that moves it by less than so many standard uncertainties of that run."""
SCATTER_MATTERS = 0.02
"""Scatter above what sound repeats keep within (limits_procedure: REPLICATE_SCATTER_HIGH)."""
STEADY = "steady"
HOPELESS = 20.0
"""A model whose first clouds find no likelihood within so many nats of the best is left there."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """One model with its evidence; `matters` of shape (draws, causes), `slips` of (draws,)."""

    model: Model
    evidence: Evidence
    matters: Truth
    slips: Truth
    """Whether what passes the bottles of any set-up is so much that it matters."""

    @property
    def share(self) -> Array:
        """Weights of the draws; they sum to 1."""
        weight = np.exp(self.evidence.log_weight - self.evidence.log_weight.max())
        return np.asarray(weight / weight.sum())

    def rescaled(self, times: float) -> tuple[float, Array]:
        """Return log evidence and weights had the priors of the causes been so much wider."""
        own = self.model.own
        z = self.evidence.z[:, own]
        change = -0.5 * (z**2).sum(axis=1) * (1.0 / times**2 - 1.0) - len(own) * np.log(times)
        log_weight = self.evidence.log_weight + change
        most = log_weight.max()
        weight = np.exp(log_weight - most)
        return float(most + np.log(weight.mean())), np.asarray(weight / weight.sum())


def weigh(
    models: Sequence[Model], setup: Setup, readings: Readings, seed: int
) -> tuple[Weighed, ...]:
    """Return every model weighed; the same seed gives the same draws."""
    best = -np.inf
    found = []
    for number, model in enumerate(models):
        stream = np.random.default_rng([seed, number])
        found.append(_weighed(model, setup, readings, stream, best - HOPELESS))
        best = max(best, found[-1].evidence.log_z)
    return tuple(found)


def _weighed(
    model: Model,
    setup: Setup,
    readings: Readings,
    stream: np.random.Generator,
    hopeless: float,
) -> Weighed:
    off = prior("MISREAD").centre.value

    def likelihood(z: Array) -> Array:
        theta = model.theta(z)
        return log_likelihood(setup, readings, theta, misread=off if "misread" in theta else 0.0)

    first = first_clouds(model, setup, readings, likelihood, stream)
    found = sampled(likelihood, first, stream, hopeless)
    matters = _matters(model, setup, readings, found.z)
    return Weighed(model, found, matters, _slips(model, setup, readings, found.z))


def _slips(model: Model, setup: Setup, readings: Readings, z: Array) -> Truth:
    theta = model.theta(z)
    if "slip" not in theta:
        return np.zeros(len(z), dtype=bool)
    tight = {name: value for name, value in theta.items() if name != "slip"}
    places = setup.usual_runs
    return _shifts(setup.take(places), readings.take(places), theta, tight)


def _matters(model: Model, setup: Setup, readings: Readings, z: Array) -> Truth:
    """Return, for each draw and cause, whether it moves the usual run enough to matter."""
    theta = model.theta(z)
    columns: list[Truth] = []
    for cause in model.causes:
        if cause.name == STEADY:
            columns.append(np.zeros(len(z), dtype=bool))
        elif cause.name == "scatter":
            columns.append(np.asarray(theta["scatter"])[:, 0] > SCATTER_MATTERS)
        elif cause.name == "misread":
            columns.append(_misread(setup, readings, predicted(setup, theta)))
        else:
            places = setup.made if cause.ordered else setup.usual_runs
            columns.append(_moved(model, theta, cause, setup.take(places), readings.take(places)))
    return np.stack(columns, axis=1)


def _moved(model: Model, theta: Theta, cause: Cause, setup: Setup, readings: Readings) -> Truth:
    """Return whether the cause moves any of these runs enough."""
    return _shifts(setup, readings, theta, model.without(theta, cause))


def _shifts(setup: Setup, readings: Readings, theta: Theta, without: Theta) -> Truth:
    enough = np.maximum(SHIFT * np.abs(readings.total), SHIFT_U * readings.u_main)
    if not BY_ORDER.intersection(theta):
        # Of runs that were set alike, the one of the least limit decides for all.
        least = np.full(len(setup.first), np.inf)
        np.minimum.at(least, setup.like, enough)
        setup, enough = setup.take(setup.first), least
    shift = np.abs(predicted(setup, theta).total - predicted(setup, without).total)
    return np.asarray((shift > enough).any(axis=1))


def _misread(setup: Setup, readings: Readings, found: Predicted) -> Truth:
    off = np.abs(readings.main - found.main)
    enough = np.maximum(SHIFT * np.abs(readings.total), SHIFT_U * readings.u_main)
    return np.asarray(((off > enough) & (setup.discharge > 0.0)).any(axis=1))
