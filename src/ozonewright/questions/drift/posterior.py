"""What the readings say of every model: evidence, draws, and which causes matter in each draw."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ozonewright.questions.drift.cause import Cause
from ozonewright.questions.drift.evidence import DOF, Evidence, log_prior, sampled
from ozonewright.questions.drift.model import Predicted, log_likelihood, predicted
from ozonewright.questions.drift.models import Model
from ozonewright.questions.drift.series import Array, Readings, Setup, Truth
from ozonewright.references.priors import prior

FIRST = 512
STEPS = 4
STEP = 1e-3
WIDER = 1.3
"""The first cloud is drawn this much wider in the rate than the readings alone would have it."""
SHIFT = 0.03
"""A cause that moves the usual run by less does not matter."""
SHIFT_U = 2.0
"""Neither does one that moves it by less than so many standard uncertainties of that run."""
SCATTER_MATTERS = 0.02
"""Scatter above what sound repeats keep within (limits_procedure: REPLICATE_SCATTER_HIGH)."""
STEADY = "steady"


@dataclass(frozen=True, slots=True)
class Weighed:
    """One model with its evidence; `matters` of shape (draws, causes)."""

    model: Model
    evidence: Evidence
    matters: Truth

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
    return tuple(
        _weighed(model, setup, readings, np.random.default_rng([seed, number]))
        for number, model in enumerate(models)
    )


def _weighed(
    model: Model, setup: Setup, readings: Readings, stream: np.random.Generator
) -> Weighed:
    off = prior("MISREAD").centre.value

    def likelihood(z: Array) -> Array:
        theta = model.theta(z)
        return log_likelihood(setup, readings, theta, misread=off if "misread" in theta else 0.0)

    found = sampled(likelihood, _first(model, setup, readings, stream), stream)
    return Weighed(model, found, _matters(model, setup, readings, found.z))


def _first(
    model: Model, setup: Setup, readings: Readings, stream: np.random.Generator
) -> tuple[Array, Array]:
    """Draw from the prior, but the rate about what the readings ask of each draw.

    The conditional of the rate is found by Gauss and Newton; it is drawn from a Student t.
    """
    z = stream.standard_normal((FIRST, len(model.parameters)))
    others = np.delete(z, 0, axis=1)
    z[:, 0] = 0.0
    for _ in range(STEPS):
        step, width = _newton(model, setup, readings, z)
        z[:, 0] = np.clip(z[:, 0] + step, -8.0, 8.0)
    normal, chi = stream.standard_normal(FIRST), stream.chisquare(DOF, FIRST)
    t = normal / np.sqrt(chi / DOF)
    width = WIDER * width
    z[:, 0] += width * t
    log_t = -0.5 * (DOF + 1.0) * np.log1p(t**2 / DOF) - np.log(width) - _HEIGHT
    return z, np.asarray(log_prior(others) + log_t)


_HEIGHT = 0.968619589054724
"""-log of the height of a Student t with five degrees of freedom at its middle."""


def _newton(model: Model, setup: Setup, readings: Readings, z: Array) -> tuple[Array, Array]:
    theta = model.theta(z)
    here = predicted(setup, theta).total
    moved = z.copy()
    moved[:, 0] += STEP
    slope = (predicted(setup, model.theta(moved)).total - here) / STEP
    scatter = np.asarray(theta["scatter"])
    weight = 1.0 / (readings.u_main**2 + (scatter * here) ** 2)
    stiff = (weight * slope**2).sum(axis=1) + 1.0
    step = ((weight * slope * (readings.total - here)).sum(axis=1) - z[:, 0]) / stiff
    return np.clip(step, -1.5, 1.5), np.asarray(stiff**-0.5)


def _matters(model: Model, setup: Setup, readings: Readings, z: Array) -> Truth:
    """Return, for each draw and cause, whether it moves the usual run enough to matter."""
    theta = model.theta(z)
    found = predicted(setup, theta)
    columns: list[Truth] = []
    for cause in model.causes:
        if cause.name == STEADY:
            columns.append(np.zeros(len(z), dtype=bool))
        elif cause.name == "scatter":
            columns.append(np.asarray(theta["scatter"])[:, 0] > SCATTER_MATTERS)
        elif cause.name == "misread":
            columns.append(_misread(setup, readings, found))
        else:
            bare = predicted(setup, model.without(theta, cause))
            columns.append(_moved(setup, readings, found, bare, cause))
    return np.stack(columns, axis=1)


def _moved(
    setup: Setup, readings: Readings, found: Predicted, bare: Predicted, cause: Cause
) -> Truth:
    shift = np.abs(found.total - bare.total)
    made = setup.discharge > 0.0
    enough = np.maximum(SHIFT * np.abs(readings.total), SHIFT_U * readings.u_main)
    over = (shift > enough) & made
    if cause.ordered:
        return np.asarray(over.any(axis=1))
    return np.asarray(over[:, setup.usual])


def _misread(setup: Setup, readings: Readings, found: Predicted) -> Truth:
    off = np.abs(readings.main - found.main)
    enough = np.maximum(SHIFT * np.abs(readings.total), SHIFT_U * readings.u_main)
    return np.asarray(((off > enough) & (setup.discharge > 0.0)).any(axis=1))
