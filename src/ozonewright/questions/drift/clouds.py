"""Where the search for a posterior begins: the rate found for each draw, and peaks climbed.

Two clouds. In one, everything is drawn from what was thought beforehand, and the rate about what
the readings then ask for. In the other, the best of these have climbed to a peak by Gauss and
Newton, and draws surround it: a sharp peak that no draw from the prior would meet.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from ozonewright.questions.drift.evidence import DOF, FROM_PRIOR, log_prior, t_log_density
from ozonewright.questions.drift.model import predicted
from ozonewright.questions.drift.models import Model
from ozonewright.questions.drift.series import Array, Readings, Setup

FIRST = 512
STEPS = 3
STEP = 1e-3
ENOUGH_RUNS = 48
"""A first cloud needs no more runs; it is only where the search begins."""
WIDER = 1.3
"""The first cloud is drawn this much wider in the rate than the readings alone would have it."""
CLIMBERS = 12
CLIMBS = 8
DAMPING = 1.0
FAR = 6.0
"""Standard deviations of the prior beyond which nobody climbs."""
AROUND = 1.5
"""Draws about a peak spread this much wider than its curvature says."""


def first_clouds(
    model: Model,
    setup: Setup,
    readings: Readings,
    log_likelihood: Callable[[Array], Array],
    stream: np.random.Generator,
) -> list[tuple[Array, Array]]:
    """Return two clouds with the logarithm of the density that each was drawn from."""
    few_setup, few = setup, readings
    if len(setup) > ENOUGH_RUNS:
        some = np.linspace(0, len(setup) - 1, ENOUGH_RUNS).round().astype(int).tolist()
        few_setup, few = setup.take(some), readings.take(some)
    z, log_q = _by_rate(model, few_setup, few, stream)
    weight = log_prior(z) + log_likelihood(z)
    best = z[np.argsort(weight)[-CLIMBERS:]]
    return [(z, log_q), _about(*_climbed(model, few_setup, few, best), stream)]


def _by_rate(
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
    told = predicted(setup, theta)
    here = told.total
    if "capacity" in theta or "acid" in theta:
        moved = z.copy()
        moved[:, 0] += STEP
        slope = (predicted(setup, model.theta(moved)).total - here) / STEP
    else:
        # All ozone goes with the rate, whose logarithm is drawn.
        slope = told.ozone * model.parameters[0].spread
    scatter = np.asarray(theta["scatter"])
    weight = 1.0 / (readings.u_main**2 + (scatter * here) ** 2)
    stiff = (weight * slope**2).sum(axis=1) + 1.0
    step = ((weight * slope * (readings.total - here)).sum(axis=1) - z[:, 0]) / stiff
    return np.clip(step, -1.5, 1.5), np.asarray(stiff**-0.5)


def _climbed(model: Model, setup: Setup, readings: Readings, z: Array) -> tuple[Array, Array]:
    """Return the peaks above these draws, and a root of the covariance at each.

    The scatter stays as drawn: it has no residual of its own.
    """
    dimension = z.shape[1]
    damping = DAMPING
    for _ in range(CLIMBS):
        slope, off = _slopes(model, setup, readings, z)
        square = np.swapaxes(slope, 1, 2) @ slope + (1.0 + damping) * np.eye(dimension)
        pull = np.einsum("knd,kn->kd", slope, off) - z
        pull[:, SCATTER] = 0.0
        step = np.linalg.solve(square, pull[:, :, None])[:, :, 0]
        z = np.clip(z + np.clip(step, -1.0, 1.0), -FAR, FAR)
        damping *= 0.3
    slope, _ = _slopes(model, setup, readings, z)
    square = np.swapaxes(slope, 1, 2) @ slope + np.eye(dimension)
    return z, np.linalg.cholesky(np.linalg.inv(square))


SCATTER = 1
"""Place of the scatter among the parameters of every model but that of large scatter."""


def _slopes(model: Model, setup: Setup, readings: Readings, z: Array) -> tuple[Array, Array]:
    """Return slopes of the readings by each parameter, and what is left, in standard deviations."""
    count, dimension = z.shape
    moved = z[:, None, :] + STEP * np.concatenate([np.zeros((1, dimension)), np.eye(dimension)])
    theta = model.theta(moved.reshape(-1, dimension))
    told = predicted(setup, theta)
    main = told.main.reshape(count, dimension + 1, -1)
    scatter = np.asarray(model.theta(z)["scatter"])
    u = (
        readings.u_main**2
        + (scatter * main[:, 0]) ** 2
        + (told.rate.reshape(main.shape)[:, 0] * setup.u_on_time) ** 2
    ) ** 0.5
    slope = (main[:, 1:] - main[:, :1]) / STEP / u[:, None, :]
    off = (readings.main - main[:, 0]) / u
    if readings.guarded.any():
        guard = told.guard.reshape(main.shape)
        u = (
            np.where(readings.guarded, readings.u_guard, 1.0) ** 2 + (scatter * guard[:, 0]) ** 2
        ) ** 0.5
        there = readings.guarded / u
        slope = np.concatenate(
            [slope, (guard[:, 1:] - guard[:, :1]) / STEP * there[:, None, :]], axis=2
        )
        off = np.concatenate([off, (np.nan_to_num(readings.guard) - guard[:, 0]) * there], axis=1)
    slope[:, SCATTER] = 0.0
    return np.swapaxes(slope, 1, 2), off


def _about(peaks: Array, roots: Array, stream: np.random.Generator) -> tuple[Array, Array]:
    """Draw about the peaks, and a tenth from the prior; return the density of the mixture."""
    dimension = peaks.shape[1]
    own = round(FIRST * FROM_PRIOR)
    normal = stream.standard_normal((FIRST, dimension))
    t = normal[own:] / np.sqrt(stream.chisquare(DOF, FIRST - own) / DOF)[:, None]
    which = np.arange(FIRST - own) % len(peaks)
    wide = AROUND * roots
    drawn = peaks[which] + np.einsum("kij,kj->ki", wide[which], t)
    z = np.concatenate([normal[:own], drawn])
    each = np.stack([t_log_density(z, peak, root) for peak, root in zip(peaks, wide, strict=True)])
    most = each.max(axis=0)
    kernels = most + np.log(np.exp(each - most).mean(axis=0))
    log_q = np.logaddexp(np.log(1.0 - FROM_PRIOR) + kernels, np.log(FROM_PRIOR) + log_prior(z))
    return z, np.asarray(log_q)
