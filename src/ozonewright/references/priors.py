"""What is thought of the causes of drift before any run: judgement, each row marked so."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ozonewright.references.tables import Datum, datum, named, rows


@dataclass(frozen=True, slots=True)
class Prior:
    """A centre in SI, and how far from it one may be."""

    centre: Datum
    spread: float
    """Standard deviation of the logarithm, logit or value, as the row's note says."""


@cache
def _priors() -> dict[str, Prior]:
    return {row["name"]: Prior(datum(row), float(row["spread"])) for row in rows("drift_priors")}


def prior(name: str) -> Prior:
    """Return what is thought of a quantity beforehand, such as ``BLANK``.

    Raises
    ------
    NoDataInRange
        No such prior; the nearest three are told.
    """
    return named(_priors(), name, "no prior has this name")
