"""How much a further run would tell of the cause: expected drop of entropy, in bits."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from ozonewright.physics.assay.plan import ozone_for_titre
from ozonewright.physics.assay.staged import share_of_train
from ozonewright.questions.drift.candidates import Candidate, setup_of_candidates
from ozonewright.questions.drift.cause import parameter
from ozonewright.questions.drift.labels import Labelled
from ozonewright.questions.drift.model import predicted
from ozonewright.questions.drift.series import Array, Places, Setup
from ozonewright.references.priors import prior

PER_LABEL = 96
OUTCOMES = 192
LEAST = 0.003
"""Labels of less probability are left out of the forecast."""


@dataclass(frozen=True, slots=True)
class Forecast:
    """What each draw of each label says each candidate would read. [mol]"""

    labels: tuple[str, ...]
    chance: Array
    """Of each label; sums to 1."""
    of_label: Places
    """Number of the label of each draw; shape (draws,)."""
    main: Array
    """Shape (draws, candidates)."""
    u_main: Array
    guard: Array
    u_guard: Array
    guarded: Array
    """Whether the candidate has a guard bottle; shape (candidates,)."""

    def expected(self, label: str, *, guard: bool = False) -> tuple[Array, Array]:
        """Return mean and standard deviation of the reading of each candidate.

        Of all bottles but a guard bottle, or with `guard` of that one.
        """
        mask = self.of_label == self.labels.index(label)
        read, u = (self.guard, self.u_guard) if guard else (self.main, self.u_main)
        spread = (read[mask].var(axis=0) + (u[mask] ** 2).mean(axis=0)) ** 0.5
        return read[mask].mean(axis=0), spread


def forecast(
    found: Sequence[Labelled],
    setup: Setup,
    wanted: Sequence[Candidate],
    titrant: float,
    stream: np.random.Generator,
) -> Forecast:
    """Return what the candidates would read under each label that is still in question."""
    chances: dict[str, float] = {}
    for one in found:
        chances[one.label] = chances.get(one.label, 0.0) + float(one.share.sum())
    labels = tuple(label for label, chance in chances.items() if chance >= LEAST)
    columns = setup_of_candidates(setup, wanted)
    reading = float(
        ozone_for_titre(titre=prior("TITRE_READING").centre.value, concentration=titrant)
    )
    blocks = [
        block
        for number, label in enumerate(labels)
        for block in _draws(found, label, number, columns, reading, stream)
    ]
    chance = np.array([chances[label] for label in labels])
    return Forecast(
        labels=labels,
        chance=chance / chance.sum(),
        of_label=np.concatenate([block[0] for block in blocks]),
        main=np.concatenate([block[1] for block in blocks]),
        u_main=np.concatenate([block[2] for block in blocks]),
        guard=np.concatenate([block[3] for block in blocks]),
        u_guard=np.concatenate([block[4] for block in blocks]),
        guarded=columns.guarded,
    )


def _draws(
    found: Sequence[Labelled],
    label: str,
    number: int,
    columns: Setup,
    reading: float,
    stream: np.random.Generator,
) -> list[tuple[Places, Array, Array, Array, Array]]:
    """Resample one label over its models, and run each draw through every candidate."""
    own = [one for one in found if one.label == label and float(one.share.sum()) > 0.0]
    ends = np.cumsum(np.concatenate([one.share for one in own]))
    steps = (np.arange(PER_LABEL) + stream.random()) / PER_LABEL * ends[-1]
    chosen = np.searchsorted(ends, steps).clip(max=len(ends) - 1)
    begin = 0
    blocks: list[tuple[Places, Array, Array, Array, Array]] = []
    for one in own:
        size = len(one.share)
        rows = chosen[(chosen >= begin) & (chosen < begin + size)] - begin
        begin += size
        if not len(rows):
            continue
        theta = one.weighed.model.theta(one.weighed.evidence.z[rows])
        theta = _with_unseen(theta, columns, stream, len(rows))
        told = predicted(columns, theta)
        scatter = np.asarray(theta["scatter"])
        u_main = (
            reading**2 + (scatter * told.main) ** 2 + (told.rate * columns.u_on_time) ** 2
        ) ** 0.5
        u_guard = (reading**2 + (scatter * told.guard) ** 2) ** 0.5
        labels = np.full(len(rows), number)
        blocks.append((labels, told.main, u_main, told.guard, u_guard))
    return blocks


def _with_unseen(
    theta: Mapping[str, Array | float], columns: Setup, stream: np.random.Generator, count: int
) -> dict[str, Array | float]:
    """Return the parameters with what a change of set-up would bring in, drawn from the priors."""
    unseen = [
        parameter("flow_exponent", "FLOW_EXPONENT", "value"),
        parameter("blank_in_guard", "BLANK_IN_GUARD", "logit"),
    ]
    out: dict[str, Array | float] = {
        one.name: one.value(stream.standard_normal((count, 1))) for one in unseen
    }
    out |= theta
    if "slip" not in theta and columns.guarded.any():
        slip = parameter("slip", "SLIP_USUAL", "logit").value(stream.standard_normal((count, 1)))
        # What was read so far is what fewer bottles held, so more was made.
        held = share_of_train(slip=slip, bottles=columns.bottles.min())
        out |= {"slip": slip, "rate": np.asarray(theta["rate"]) / held}
    return out


def bits(forecast: Forecast, groups: Sequence[str], stream: np.random.Generator) -> Array:
    """Return the expected drop of entropy over groups of labels, for each candidate.

    `groups` names the group of each label: causes that are told alike count as one.
    """
    names = list(dict.fromkeys(groups))
    group = np.array([names.index(name) for name in groups])
    counts = np.bincount(forecast.of_label, minlength=len(forecast.labels))
    weight = forecast.chance[forecast.of_label] / counts[forecast.of_label]
    ends = np.cumsum(weight)
    own = np.searchsorted(ends, (np.arange(OUTCOMES) + 0.5) / OUTCOMES * ends[-1])
    own = own.clip(max=len(ends) - 1)
    member = np.zeros((len(weight), len(names)))
    member[np.arange(len(weight)), group[forecast.of_label]] = 1.0
    before = _entropy((weight @ member)[None, :])[0]
    found = []
    for place in range(forecast.main.shape[1]):
        after = _after(forecast, place, own, weight, member, stream)
        found.append(max(before - float(_entropy(after).mean()), 0.0) + 0.0)
    return np.array(found)


def _after(
    forecast: Forecast,
    place: int,
    own: Places,
    weight: Array,
    member: Array,
    stream: np.random.Generator,
) -> Array:
    """Return the probability of each group after each simulated outcome, its own draw left out."""
    log_like = _log_like(forecast.main[:, place], forecast.u_main[:, place], own, stream)
    if forecast.guarded[place]:
        log_like += _log_like(forecast.guard[:, place], forecast.u_guard[:, place], own, stream)
    log_like[np.arange(len(own)), own] = -np.inf
    log_like -= log_like.max(axis=1, keepdims=True)
    chance = (np.exp(log_like) * weight) @ member
    return np.asarray(chance / chance.sum(axis=1, keepdims=True))


def _log_like(
    mean: Array,
    u: Array,
    own: Places,
    stream: np.random.Generator,
) -> Array:
    read = mean[own] + u[own] * stream.standard_normal(len(own))
    return np.asarray(-0.5 * ((read[:, None] - mean) / u) ** 2 - np.log(u))


def _entropy(chance: Array) -> Array:
    """Return entropy in bits along the last axis."""
    safe = np.where(chance > 0.0, chance, 1.0)
    return np.asarray((chance * -np.log2(safe)).sum(axis=-1))
