"""The next measurement: ranked, with what each cause would make the burette read."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from ozonewright.physics.assay.plan import titre_for_ozone
from ozonewright.questions.drift.candidates import LONGER, Candidate, candidates
from ozonewright.questions.drift.information import Forecast, bits, forecast
from ozonewright.questions.drift.labels import Labelled, family_of
from ozonewright.questions.drift.result import NextRow
from ozonewright.questions.drift.series import Array, SeriesRun, Setup
from ozonewright.results import Note
from ozonewright.units import Kind, number

TITRATION = 25.0
"""Minutes that any run costs besides its own: bottles, acid, titration (common practice)."""
TOLD = 10
DECISIVE = 0.5
"""Of the most bits that any candidate brings: what a cheap one must bring to be named."""
NOTHING = 0.15
"""Of the most bits: below this a longer run is said to tell next to nothing."""
LIKELY = 0.01
PART = 0.03
"""Probability on either side from which a split of the causes is worth telling."""
SIGMAS = 2.0
PARTS = 2
THEN = 0.7
"""Of the most bits, what a second step must bring to be named."""
LEAST_BITS = 0.2


@dataclass(frozen=True, slots=True)
class Following:
    """The ranked candidates, and what is to be said of them all."""

    rows: tuple[NextRow, ...]
    notes: tuple[Note, ...]


def following(
    found: Sequence[Labelled],
    runs: Sequence[SeriesRun],
    setup: Setup,
    titrant: float,
    stream: np.random.Generator,
) -> Following:
    """Return the candidates ranked by bits over minutes, the cheapest that decides named."""
    wanted = candidates(runs)
    told = forecast(found, setup, wanted, titrant, stream)
    told_bits = bits(told, [family_of(label) for label in told.labels], stream)
    rows = [
        _row(one, place, told, float(told_bits[place]), titrant) for place, one in enumerate(wanted)
    ]
    most = float(told_bits.max())
    cheapest = _cheapest(rows, most)
    final = [
        replace(row, cheapest=True, then=_then(row, found, setup, wanted, titrant, stream))
        if row is cheapest
        else row
        for row in _kept(rows, cheapest)
    ]
    return Following(tuple(final), tuple(_notes(wanted, told_bits, most)))


def _kept(rows: Sequence[NextRow], cheapest: NextRow | None) -> list[NextRow]:
    """Return the best of each kind of run, ranked, and the cheapest that decides."""
    ranked = sorted(rows, key=lambda row: -row.bits / (row.minutes + TITRATION))
    kinds: dict[tuple[str, str, str], NextRow] = {}
    for row in ranked:
        kinds.setdefault((row.start, row.discharge, row.change), row)
    return [row for row in ranked if row in kinds.values() or row is cheapest][:TOLD]


def _then(
    row: NextRow,
    found: Sequence[Labelled],
    setup: Setup,
    wanted: Sequence[Candidate],
    titrant: float,
    stream: np.random.Generator,
) -> Note | None:
    """Return what would tell the causes of the larger side apart, were the titre on that side."""
    assert row.decide is not None
    sides = [row.decide.values["low"], row.decide.values["high"]]
    names = max(sides, key=len)
    left = [one for one in found if one.label in names]
    plain = [one for one in wanted if not one.change]
    if len(names) < PARTS:
        return None
    told = forecast(left, setup, plain, titrant, stream)
    gained = bits(told, told.labels, stream)
    good = [place for place in range(len(plain)) if gained[place] >= THEN * gained.max()]
    if gained.max() < LEAST_BITS:
        return None
    best = plain[min(good, key=lambda place: plain[place].seconds)]
    return _do(best)


def _row(one: Candidate, place: int, told: Forecast, gained: float, titrant: float) -> NextRow:
    means: dict[str, float] = {}
    spreads: dict[str, float] = {}
    for label, chance in zip(told.labels, told.chance, strict=True):
        if "+" in label or chance < LIKELY:
            continue
        mean, spread = told.expected(label, guard=one.change == "guard")
        means[label] = _titre(mean[place], titrant)
        spreads[label] = _titre(spread[place], titrant)
    chances = dict(zip(told.labels, (float(c) for c in told.chance), strict=True))
    return NextRow(
        what=_do(one),
        start=one.start,
        on_time=one.on_time,
        discharge="on" if one.discharge else "off",
        change=one.change,
        bits=gained,
        minutes=number(one.seconds, Kind.TIME, "min"),
        titre=means,
        u_titre=spreads,
        decide=_split(means, spreads, chances, titrant, guard=one.change == "guard"),
    )


def _do(one: Candidate) -> Note:
    values = {
        "on_time": one.on_time,
        "start": one.start,
        "discharge": one.discharge,
        "change": one.change,
        "repeat": one.repeat,
    }
    return Note("drift-do", "advice", values)


def _titre(ozone: float, titrant: float) -> float:
    return float(titre_for_ozone(ozone=ozone, concentration=titrant))


def _split(
    means: Mapping[str, float],
    spreads: Mapping[str, float],
    chances: Mapping[str, float],
    titrant: float,
    *,
    guard: bool,
) -> Note | None:
    """Return the widest gap between the titres of causes, or None where they overlap."""
    order = sorted(means, key=lambda name: means[name])
    best: Note | None = None
    widest = 0.0
    for cut in range(1, len(order)):
        low, high = order[:cut], order[cut:]
        below = max(means[name] + SIGMAS * spreads[name] for name in low)
        above = min(means[name] - SIGMAS * spreads[name] for name in high)
        least = min(sum(chances[name] for name in side) for side in (low, high))
        if least >= PART and above - below > widest:
            widest = above - below
            best = Note(
                "drift-decide",
                "advice",
                {
                    "low": low,
                    "high": high,
                    "below": below,
                    "above": above,
                    "about_low": [means[name] for name in low],
                    "about_high": [means[name] for name in high],
                    "titrant": titrant,
                    "guard": guard,
                },
            )
    return best


def _cheapest(rows: Sequence[NextRow], most: float) -> NextRow | None:
    good = [row for row in rows if row.decide is not None and row.bits >= DECISIVE * most]
    return min(good, key=lambda row: (row.minutes, -row.bits), default=None)


def _notes(wanted: Sequence[Candidate], told: Array, most: float) -> Iterator[Note]:
    """Yield that a longer run, the obvious idea, would tell nothing, where this is so."""
    times = [one.on_time for one in wanted if one.repeat]
    long = Candidate(LONGER * max(times)) if times else None
    if long is not None and long in wanted and most > 0.0:
        gained = float(told[list(wanted).index(long)])
        if gained < NOTHING * most:
            yield Note("drift-longer-tells-nothing", "advice", {"on_time": long.on_time})
