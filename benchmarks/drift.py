"""Drift against worlds of known truth (`drift_worlds.py`), and its speed.

    python benchmarks/run.py drift                      the few worlds and the speeds
    python benchmarks/drift.py PART SEED COUNT FILE     COUNT worlds of each kind, appended as lines

A world is asked for three to five runs, then for what the answer ranks first, or for what a naive
plan has; it stops when something is determined, or after three further runs.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product
from pathlib import Path
from time import process_time

import numpy as np
from drift_worlds import CAUSES, MG, OUTSIDE, Ask, World, world
from figure import Figure

from ozonewright.questions.drift import Rig, SeriesRun
from ozonewright.questions.drift.answer import Weighing, weighing
from ozonewright.questions.drift.candidates import candidates
from ozonewright.questions.drift.following import following
from ozonewright.questions.drift.labels import family_of
from ozonewright.questions.drift.models import hidden_of

FURTHER = 3
TITRANT = 100.0
PLANS = ("ours", "longer", "blank, diverted", "repeat")
MATTERS = 0.03
GREY = 0.25
"""A true shift this near the limit of mattering may be called steady or by its name."""


@dataclass(frozen=True)
class Outcome:
    """What was said after the starting runs and after each further one."""

    cause: str
    size: float
    plan: str
    truths: tuple[str, ...]
    verdicts: tuple[str | None, ...]
    leaders: tuple[tuple[str, float], ...]
    hidden: tuple[bool, ...]
    """The true cause was told to be invisible in these runs."""
    warned: tuple[bool, ...]


def play(made: World, plan: str, seed: int) -> Outcome:
    """Ask a world by a plan until something is determined."""
    stream = np.random.default_rng([seed, PLANS.index(plan)])
    asked = list(made.starts)
    runs = [_run(made, ask, stream, place) for place, ask in enumerate(asked)]
    truth = _truths(made)
    verdicts: list[str | None] = []
    leaders, hidden, warned = [], [], []
    for step in range(FURTHER + 1):
        got = weighing(_told(made, runs), Rig(), order=True, seed=seed)
        verdicts.append(got.verdict.verdict)
        leaders.append((got.verdict.leader, got.verdict.groups[got.verdict.leader]))
        hidden.append(made.cause in hidden_of(got.facts))
        warned.append(not got.verdict.fits or got.verdict.chances.get("other", 0.0) > 0.02)
        if got.verdict.determined or step == FURTHER:
            break
        ask = _next(plan, step, made, got, runs, seed)
        runs.append(_run(made, ask, stream, len(runs)))
    return Outcome(
        made.cause, made.size, plan, truth, tuple(verdicts), tuple(leaders), tuple(hidden),
        tuple(warned),
    )  # fmt: skip


def _run(made: World, ask: Ask, stream: np.random.Generator, place: int) -> SeriesRun:
    total, guard = made.read(ask, stream)
    return SeriesRun(
        label=str(place + 1),
        on_time=ask.seconds,
        ozone=total * MG,
        u_ozone=made.u(total) * MG,
        u_on_time=1.0,
        discharge_on=ask.discharge,
        start=ask.start if ask.discharge else None,  # type: ignore[arg-type]
        rest=made.rest if place else None,
        guard=guard * MG if ask.guard else None,
        u_guard=0.12 * MG * made.stated,
        bottles=2 if ask.guard else 1,
        flow=1.0e-3 / 60.0 * ask.flow,
        iodide_times=ask.iodide,
        acid_times=ask.acid,
        guessed=False,
    )


def _told(made: World, runs: Sequence[SeriesRun]) -> list[SeriesRun]:
    """Return the runs as the person tells them: in a wrong order where the world has it so."""
    if not made.shuffled:
        return list(runs)
    count = len(made.starts)
    return sorted(runs[:count], key=lambda run: run.on_time) + list(runs[count:])


def _next(
    plan: str, step: int, made: World, got: Weighing, runs: Sequence[SeriesRun], seed: int
) -> Ask:
    times = [ask.seconds for ask in made.starts]
    if plan == "longer":
        return Ask(max(times) * (1.5 + 0.5 * step))
    if plan == "repeat":
        return Ask(max(times))
    if plan == "blank, diverted":
        return Ask(max(times), discharge=False) if step == 0 else Ask(30.0, "diverted")
    told = following(got.found, runs, got.setup, TITRANT, np.random.default_rng([seed, 9]))
    best = told.rows[0]
    assert best.on_time is not None
    changed = best.change.split(" and ")
    return Ask(
        best.on_time,
        best.start,
        best.discharge == "on",
        iodide=3.0 if "iodide" in changed else 1.0,
        acid=3.0 if "acid" in changed else 1.0,
        flow=0.5 if best.change == "flow" else 1.0,
        guard=best.change == "guard",
    )


def _truths(made: World) -> tuple[str, ...]:
    """Return what a right verdict may name: steady too where the shift hardly matters."""
    if made.cause == "steady" and "power" not in made.values:
        return ("steady",)
    if made.cause == "cold-start" and "blank" in made.values:
        return _both(made)
    name = "other" if "power" in made.values else made.cause
    return tuple(one or "steady" for one in _named(name, made.shift, made))


def _named(name: str, shift: float, made: World) -> tuple[str, ...]:
    """Return what may be said of a cause that shifts so much: its name, nothing, or either."""
    limit = max(MATTERS, 2.0 * made.noise)
    if shift < limit * (1.0 - GREY):
        return ("",)
    return (name, "") if shift < limit * (1.0 + GREY) else (name,)


def _both(made: World) -> tuple[str, ...]:
    """Return what may be said of a blank and a cold start at once, each judged by its own shift."""
    bare = replace(made, values={**made.values, "blank": 0.0}).shift
    blank = {key: value for key, value in made.values.items() if key != "excess"}
    alone = replace(made, values=blank, cause="blank-surplus").shift
    pairs = product(_named("blank-surplus", alone, made), _named("cold-start", bare, made))
    return tuple("+".join(name for name in pair if name) or "steady" for pair in pairs)


MEMBER = {"warming": "cold-start", "start-stop": "timing-surplus", "trap-full": "iodide-spent"}
"""A member of each told-alike group, to find its group and class by."""


def right(outcome: Outcome, step: int, how: Callable[[str], str] = family_of) -> bool | None:
    """Return whether what was said after so many further runs is right; None: nothing was said.

    `how` tells what counts as the same: the cause (`str`), its group, or its class.
    """
    said = outcome.verdicts[min(step, len(outcome.verdicts) - 1)]
    if said is None:
        return None
    parts = said.split("+")
    if how is str and any(part in MEMBER for part in parts):
        # A group is no wrong cause: the cause is left open.
        return None if right(outcome, step) else False
    said = "+".join(MEMBER.get(part, part) for part in parts)
    return how(said) in {how(name) for name in outcome.truths}


PARTS: dict[str, tuple[tuple[str, ...], tuple[float, ...], tuple[str, ...]]] = {
    "large": (CAUSES, (10.0,), PLANS[:1]),
    "naive": (CAUSES, (10.0,), PLANS[1:]),
    "small": (CAUSES, (3.0, 1.0), PLANS[:1]),
    "outside": (OUTSIDE, (10.0, 3.0), PLANS[:1]),
}
"""What is played: worlds, sizes of effect, plans."""


def games(part: str, seeds: Sequence[int]) -> Iterator[tuple[str, int, Outcome]]:
    """Play one part of the benchmark."""
    names, sizes, plans = PARTS[part]
    for seed in seeds:
        for size in sizes:
            for name in names:
                for plan in plans:
                    yield name, seed, play(world(name, size, seed), plan, seed)


def record(part: str, seed: int, count: int, path: Path) -> None:
    """Play worlds and append what was said of each to a file, a line for each."""
    with path.open("a", encoding="utf-8") as file:
        for name, number, found in games(part, range(seed, seed + count)):
            file.write(json.dumps({"world": name, "seed": number, **vars(found)}) + "\n")
            file.flush()


def series(count: int, *, alike: bool = True) -> list[SeriesRun]:
    """Return runs of one setting: 7 mg of surplus, 11.75 mg/min, a scatter of 0.8 %.

    Of five on-times in turn, or no two of the same.
    """
    stream = np.random.default_rng(count)
    more = 0.0 if alike else 0.001
    minutes = [(2.0, 4.0, 8.0, 3.0, 6.0)[place % 5] + more * place for place in range(count)]
    return [
        SeriesRun(
            label=str(place),
            on_time=60.0 * t,
            ozone=(7.0 + 11.75 * t) * (1.0 + 0.008 * stream.standard_normal()) * MG,
            u_ozone=0.006 * (7.0 + 11.75 * t) * MG,
            u_on_time=1.0,
            guessed=False,
        )
        for place, t in enumerate(minutes)
    ]


def _seconds(count: int, *, alike: bool = True) -> tuple[float, float]:
    """Return processor seconds of weighing so many runs, and of the next measurement."""
    runs = series(count, alike=alike)
    start = process_time()
    got = weighing(runs, Rig(), order=True)
    middle = process_time()
    following(got.found, runs, got.setup, TITRANT, np.random.default_rng(1))
    return middle - start, process_time() - middle


def main() -> list[Figure]:
    """Return speeds, and what is said of one world of each cause at ten times the noise."""
    _seconds(3)
    twelve, hundred, many = (_seconds(count) for count in (12, 100, 500))
    unlike, most = (_seconds(count, alike=False) for count in (100, 500))
    played = [found for _, _, found in games("large", [SMALL_SEED])]
    said = [right(found, FURTHER) for found in played if found.verdicts[-1] is not None]
    return [
        Figure("12 runs, singles and pairs", twelve[0], "s", at_most=2.0),
        Figure("next measurement, 12 runs", twelve[1], "s", at_most=5.0),
        Figure("100 runs", hundred[0], "s"),
        Figure("500 runs", many[0], "s"),
        Figure("500 runs over five times 100", many[0] / (5.0 * hundred[0]), at_most=1.5),
        Figure("100 runs, no two set alike", unlike[0], "s"),
        Figure("500 runs, no two set alike", most[0], "s"),
        Figure("the same, over five times 100", most[0] / (5.0 * unlike[0]), at_most=1.5),
        Figure("candidates", float(len(candidates(series(12)))), ""),
        Figure("worlds of 10 × the noise, one of each cause", float(len(played)), ""),
        Figure("of these determined within three further runs", float(len(said)), ""),
    ]


SMALL_SEED = 5


if __name__ == "__main__":
    record(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]), Path(sys.argv[4]))
