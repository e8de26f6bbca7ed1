"""What was assumed, what is not known, and what is to be said of the answer."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ozonewright.questions.drift.result import CauseRow
from ozonewright.questions.drift.series import Facts, Rig, SeriesRun
from ozonewright.questions.drift.verdict import Verdict
from ozonewright.references.priors import prior
from ozonewright.results import Note

FEW = 3
NOT_ALONE = 0.02
"""Probability of the unlisted from which it is told."""


def assumed(runs: Sequence[SeriesRun], rig: Rig, facts: Facts) -> Iterator[Note]:
    """Yield what was taken for granted."""
    made = [run for run in runs if run.discharge_on]
    if not facts.order:
        yield Note("drift-assumed-order", "advice")
    if any(run.start is None for run in made):
        yield Note("drift-assumed-cold", "advice")
    if facts.guessed:
        yield Note("drift-assumed-u", "advice", {"timing": prior("TIMING_USUAL").centre.value})
    if not (facts.iodide and facts.loss):
        yield Note("drift-assumed-trap", "advice")
    if rig.titrant is None:
        yield Note("drift-assumed-titrant", "advice", {"titrant": prior("TITRANT").centre.value})
    yield from _warmth(rig)
    yield Note("drift-assumed-priors", "advice")


def _warmth(rig: Rig) -> Iterator[Note]:
    """Yield what is known of the warming, in place of what is thought beforehand."""
    if rig.settling is not None:
        values = {"value": rig.settling.value, "u": rig.settling.u}
        yield Note("drift-known-settling", "advice", values)
    if rig.excess is not None:
        values = {"value": rig.excess.value, "u": rig.excess.u}
        yield Note("drift-known-excess", "advice", values)


def unknowns(runs: Sequence[SeriesRun], rig: Rig, facts: Facts) -> Iterator[str]:
    """Yield what was left open and would sharpen the answer."""
    made = [run for run in runs if run.discharge_on]
    missing = {
        "run.started": not facts.order,
        "run.start": any(run.start is None for run in made),
        "run.rest_before": not facts.rests,
        "a run with discharge = off": not facts.blank,
        "absorber.bottles.potassium_iodide": not facts.iodide,
        "absorber.bottles.volume": any(run.volume is None for run in made),
        "gas.flow": any(run.flow is None for run in made),
        "absorber.acid": not facts.acid,
        "guard bottle": not facts.guard,
        "hold-up": rig.hold_up is None,
    }
    yield from (place for place, is_missing in missing.items() if is_missing)


def notes(
    verdict: Verdict, facts: Facts, runs: Sequence[SeriesRun], rows: Sequence[CauseRow]
) -> Iterator[Note]:
    """Yield how far the answer can be trusted."""
    if not verdict.fits:
        yield Note("drift-nothing-fits", "wrong")
    if not verdict.stands:
        yield Note("drift-hangs-on-priors", values={"leader": verdict.leader})
    if len({run.on_time for run in runs if run.discharge_on}) < 2:
        yield Note("drift-same-minutes")
    if facts.on_runs < FEW:
        yield Note("drift-two-runs")
    if not facts.blank:
        yield Note("drift-no-blank", "advice")
    hidden = [row.cause for row in rows if row.status == "can't be told"]
    if hidden:
        yield Note("drift-hidden", "advice", {"causes": hidden})
    others = {row.cause: row.probability or 0.0 for row in rows}
    if others.get("other", 0.0) >= NOT_ALONE:
        yield Note("drift-unlisted", values={"chance": others["other"]})
    if facts.guessed:
        yield Note("drift-u-matters", "advice", {"threshold": verdict.threshold})
    if not facts.order:
        yield Note("drift-order-matters", "advice", {"threshold": verdict.threshold})
