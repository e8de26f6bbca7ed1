"""The staged forward model: from the parameters of a cause to what each run reads."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from ozonewright.physics.assay.settling import (
    bent_output,
    coldness_after_rest,
    coldness_after_run,
    drifted_rate,
    ozone_produced_settling,
)
from ozonewright.physics.assay.staged import (
    iodine_kept,
    ozone_held,
    ozone_shifted,
    share_of_train,
    surplus_of_run,
)
from ozonewright.questions.drift.series import Array, Readings, Setup, start_code

Theta = Mapping[str, Array | float]
"""Parameters by name; arrays of shape (draws, 1). An absent one is neutral."""


@dataclass(frozen=True, slots=True)
class Predicted:
    """What each draw says each run reads; shape (draws, runs). [mol]"""

    main: Array
    guard: Array
    ozone: Array
    """That the discharge made and the trap held, guard included."""
    rate: Array

    @property
    def total(self) -> Array:
        """All bottles."""
        return self.main + self.guard


def predicted(setup: Setup, theta: Theta) -> Predicted:
    """Return what the runs would read."""
    rate = _rate(setup, theta)
    delivered = _delivered(setup, theta, rate)
    slip = theta.get("slip", 0.0)
    ozone = _recovered(setup, theta, delivered * _held(setup, slip))
    surplus = surplus_of_run(
        blank=theta.get("blank", 0.0),
        oxidation=theta.get("aerial", 0.0),
        gas_time=setup.on_time,
    )
    past = setup.guarded * delivered * _past(setup, slip)
    in_guard = past + setup.guarded * surplus * theta.get("blank_in_guard", 1.0)
    main = ozone - past + surplus
    shape = np.broadcast_shapes(np.shape(main), np.shape(rate), (1, len(setup)))
    return Predicted(
        main=np.broadcast_to(main, shape),
        guard=np.broadcast_to(in_guard, shape),
        ozone=np.broadcast_to(ozone, shape),
        rate=np.broadcast_to(rate * setup.discharge, shape),
    )


def _rate(setup: Setup, theta: Theta) -> Array:
    rate = np.asarray(theta["rate"])
    if "creep" in theta:
        rate = np.asarray(drifted_rate(rate=rate, creep=theta["creep"], place=setup.place))
    if "flow_exponent" in theta:
        rate = rate * setup.flow ** np.asarray(theta["flow_exponent"])
    return rate


def _delivered(setup: Setup, theta: Theta, rate: Array) -> Array:
    produced = rate * setup.on_time
    if "excess" in theta:
        produced = np.asarray(
            ozone_produced_settling(
                rate=rate,
                on_time=setup.on_time,
                excess=theta["excess"],
                coldness=_coldness(setup, theta),
                time_constant=theta["settling"],
            )
        )
    in_line = theta.get("stored", 0.0) - np.asarray(theta.get("lag", 0.0))
    late = theta.get("late", 0.0) + in_line * (1.0 - setup.diverted) / setup.flow
    # Gas still on its way brings nothing; it can't bring less.
    out = np.maximum(ozone_shifted(produced=produced, rate=rate, late=late), 0.0)
    if "bend" in theta:
        out = out * bent_output(
            on_time=setup.on_time, reference=setup.base.on_time, bend=theta["bend"]
        )
    for name, value in theta.items():
        if name.startswith("shift "):
            out = out * (1.0 + np.asarray(value) * _changed(setup, name.removeprefix("shift ")))
    return np.asarray(out * setup.discharge)


def _changed(setup: Setup, kind: str) -> Array:
    """Return 1 where a run differs from the first in this."""
    values = {
        "start": start_code(setup.cold, setup.diverted),
        "flow": setup.flow,
        "iodide": setup.iodide,
        "acid": setup.acid,
    }[kind]
    return np.asarray(values != getattr(setup.base, kind), dtype=float)


def _coldness(setup: Setup, theta: Theta) -> Array:
    """Return how cold the generator was at the start of each run; shape (draws, runs) or (runs,).

    Without carried warmth, a run whose start is not stated began cold.
    """
    if "carried" not in theta:
        return np.nan_to_num(setup.cold, nan=1.0)
    settling = np.asarray(theta["settling"])
    rest = np.where(np.isnan(setup.rest), theta.get("rest", 0.0), setup.rest)
    # Both are linear in the coldness before, so that they are worked out for all runs at once.
    kept = np.where(
        setup.discharge > 0.0,
        coldness_after_run(coldness=1.0, on_time=setup.on_time, time_constant=settling),
        1.0,
    )
    gained = np.asarray(
        coldness_after_rest(coldness=0.0, rest=rest, time_constant=settling * theta["cooling"])
    )
    settled = setup.cold == 0.0
    found = np.empty((len(setup), len(settling)))
    cold = np.ones(len(settling))
    for place in range(len(setup)):
        if place:
            before = kept[:, place - 1] * cold
            cold = before + gained[:, place] * (1.0 - before)
        if settled[place]:
            cold = np.zeros(len(settling))
        found[place] = cold
    return found.T


def _held(setup: Setup, slip: Array | float) -> Array | float:
    return 1.0 if _is_none(slip) else share_of_train(slip=slip, bottles=setup.bottles)


def _past(setup: Setup, slip: Array | float) -> Array | float:
    """Return the share that the last bottle of each train holds."""
    if _is_none(slip):
        return 0.0
    whole = share_of_train(slip=slip, bottles=setup.bottles)
    return whole - np.asarray(share_of_train(slip=slip, bottles=setup.bottles - 1.0))


def _is_none(value: Array | float) -> bool:
    return isinstance(value, float) and value == 0.0


def _recovered(setup: Setup, theta: Theta, caught: Array | float) -> Array:
    ozone = np.asarray(caught)
    if "capacity" in theta:
        ozone = np.asarray(ozone_held(delivered=ozone, capacity=theta["capacity"] * setup.iodide))
    if "loss" in theta:
        loss = theta["loss"] * setup.loss * setup.flow
        ozone = ozone * iodine_kept(loss=loss, on_time=setup.on_time)
    if "acid" in theta:
        back = np.asarray(ozone_held(delivered=ozone, capacity=theta["acid"] * setup.acid))
        ozone = back + theta.get("neutral", 0.0) * (ozone - back)
    return ozone


BY_ORDER = {"creep", "carried"}
"""What makes the place of a run and the rest before it count."""


def foretold(setup: Setup, theta: Theta) -> Predicted:
    """Return what `predicted` does; runs that were set alike are worked out once."""
    if len(setup.first) == len(setup) or BY_ORDER.intersection(theta):
        return predicted(setup, theta)
    each = predicted(setup.take(setup.first), theta)
    return Predicted(
        main=each.main[:, setup.like],
        guard=each.guard[:, setup.like],
        ozone=each.ozone[:, setup.like],
        rate=each.rate[:, setup.like],
    )


AT_ONCE = 32768
"""Numbers of an array that stay in the processor's cache; more draws are taken in pieces."""


def log_likelihood(
    setup: Setup, readings: Readings, theta: Theta, *, misread: float = 0.0
) -> Array:
    """Return the logarithm of the chance of the readings; shape (draws,).

    With `misread`, one run of unknown place has that share of its ozone as an error besides; the
    mean over the places is taken in closed form.
    """
    draws, rows = len(np.asarray(theta["rate"])), max(AT_ONCE // len(setup), 1)
    if "carried" in theta:
        rows *= 4  # each piece costs a walk through the runs
    return np.concatenate(
        [
            _log_likelihood(setup, readings, _rows(theta, start, start + rows), misread)
            for start in range(0, draws, rows)
        ]
    )


def _rows(theta: Theta, start: int, end: int) -> Theta:
    return {
        name: value if isinstance(value, float) else value[start:end]
        for name, value in theta.items()
    }


def _log_likelihood(setup: Setup, readings: Readings, theta: Theta, misread: float) -> Array:
    found = foretold(setup, theta)
    scatter = np.asarray(theta.get("scatter", 0.0))
    main, guard = _variances(setup, readings, found, scatter)
    plain = _log_normal(readings.main - found.main, main)
    guarded = readings.guarded
    if guarded.any():
        plain = plain + np.where(
            guarded, _log_normal(_filled(readings.guard) - found.guard, guard), 0.0
        )
    if not misread:
        return np.asarray(plain.sum(axis=1))
    off = misread * found.ozone
    wrong = _log_normal(readings.main - found.main, main + off**2)
    if guarded.any():
        both = _log_normal(_filled(readings.guard) - found.guard, guard + off**2)
        wrong = wrong + np.where(guarded, both, 0.0)
    gain = np.where(setup.discharge > 0.0, wrong - plain, -np.inf)
    most = gain.max(axis=1, keepdims=True)
    mean = np.exp(gain - most).sum(axis=1) / setup.discharge.sum()
    return np.asarray(plain.sum(axis=1) + most[:, 0] + np.log(mean))


def _filled(guard: Array) -> Array:
    return np.nan_to_num(guard, nan=0.0)


def _variances(
    setup: Setup, readings: Readings, found: Predicted, scatter: Array
) -> tuple[Array, Array]:
    main = readings.u_main**2 + (scatter * found.main) ** 2 + (found.rate * setup.u_on_time) ** 2
    u_guard = np.where(readings.guarded, readings.u_guard, 1.0)
    return np.asarray(main), np.asarray(u_guard**2 + (scatter * found.guard) ** 2)


def _log_normal(off: Array, variance: Array) -> Array:
    return np.asarray(-0.5 * (off**2 / variance + np.log(2.0 * np.pi * variance)))
