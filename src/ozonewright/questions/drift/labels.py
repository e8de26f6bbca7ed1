"""From weighed models to the probability of causes, told-alike groups and classes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np

from ozonewright.questions.drift.causes import BY_NAME
from ozonewright.questions.drift.posterior import STEADY, Weighed
from ozonewright.questions.drift.series import Array

SLIP = "slip"


@dataclass(frozen=True, slots=True)
class Labelled:
    """Draws of one model under one label, with their part in the whole."""

    weighed: Weighed
    label: str
    share: Array
    """Shape (draws,); sums to the probability of this label by this model."""


def label_of(names: Sequence[str]) -> str:
    """Return the label of the causes that matter: ``a``, ``a+b`` or ``steady``."""
    return "+".join(name for name in BY_NAME if name in names) or STEADY


def family_of(label: str) -> str:
    """Return the told-alike group of a label."""
    return "+".join(dict.fromkeys(BY_NAME[name].family for name in label.split("+")))


def class_of(label: str) -> str:
    """Return the class of a label."""
    return "+".join(dict.fromkeys(BY_NAME[name].kind for name in label.split("+")))


def labelled(weighed: Sequence[Weighed], times: float = 1.0) -> tuple[Labelled, ...]:
    """Return the draws of all models by label; `times` widens what was thought of the causes."""
    parts = [
        (one.evidence.log_z, one.share) if times == 1.0 else one.rescaled(times) for one in weighed
    ]
    log_z = np.array([z for z, _ in parts]) + np.log([one.model.weight for one in weighed])
    chance = np.exp(log_z - log_z.max())
    chance /= chance.sum()
    found = []
    for one, whole, (_, share) in zip(weighed, chance, parts, strict=True):
        for pattern in product((False, True), repeat=one.matters.shape[1]):
            mask = (one.matters == pattern).all(axis=1)
            if not mask.any():
                continue
            names = [c.name for c, on in zip(one.model.causes, pattern, strict=True) if on]
            # Where nothing else matters, a usual slip that does is no steady series.
            slips = mask & one.slips & (not names)
            for label, rows in ((label_of(names), mask & ~slips), (SLIP, slips)):
                if rows.any():
                    found.append(Labelled(one, label, whole * share * rows))
    return tuple(found)


def probabilities(found: Sequence[Labelled]) -> dict[str, float]:
    """Return the probability of each label, largest first."""
    out: dict[str, float] = {}
    for one in found:
        out[one.label] = out.get(one.label, 0.0) + float(one.share.sum())
    return dict(sorted(out.items(), key=lambda item: -item[1]))


def summed(chances: Mapping[str, float], by: str) -> dict[str, float]:
    """Return probabilities of groups (``family``) or classes (``class``), largest first."""
    name = family_of if by == "family" else class_of
    out: dict[str, float] = {}
    for label, chance in chances.items():
        out[name(label)] = out.get(name(label), 0.0) + chance
    return dict(sorted(out.items(), key=lambda item: -item[1]))
