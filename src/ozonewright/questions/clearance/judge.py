"""Evaporation is locked until two negatives, far enough apart, after the time of the quench."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from ozonewright.errors import Faults, OutOfBounds
from ozonewright.questions.clearance.result import Clearance, TestRow
from ozonewright.questions.clearance.waste import notes_of_waste, waste_rows
from ozonewright.records.clearance import Flask, PeroxideTest
from ozonewright.references.hazards import hazard
from ozonewright.references.reagents import reagent
from ozonewright.results import Note

STRIPS = "strip"
OLD = timedelta(days=1)
"""After which the last negative is called old (common practice, no source)."""


@dataclass(frozen=True)
class Verdict:
    """Why the flask is locked or clear, and what is needed."""

    why: Note
    needed: tuple[Note, ...] = ()
    clear: bool = False


def clearance(flask: Flask) -> Clearance:
    """Return whether the solution may be evaporated.

    Raises
    ------
    Faults
        A test or a quench is dated in the future.
    """
    _refuse_future(flask)
    waiting = _waiting(flask)
    ready = flask.quenched + waiting if flask.quenched and waiting else None
    counted = _counted(flask, ready)
    verdict = _verdict(flask, ready, counted)
    return Clearance(
        reaction=flask.label,
        state="clear" if verdict.clear else "locked",
        why=verdict.why,
        needed=verdict.needed,
        quenched=flask.quenched,
        ready=ready,
        tests=tuple(
            TestRow(
                when=one.when,
                reading=one.reading,
                method=one.method,
                by=one.by,
                counts=one in counted,
            )
            for one in flask.tests
        ),
        waste=tuple(waste_rows(flask)),
        notes=tuple(_notes(flask, ready, counted)),
        unknowns=tuple(_unknowns(flask, waiting)),
        sources=("hkust_undated", "iowa_state_2016", "rit_2017"),
        methods=("two negative tests, far enough apart, after the quench",),
    )


def _refuse_future(flask: Flask) -> None:
    late = [
        OutOfBounds(
            "this is dated in the future",
            where=what,
            got=when.isoformat(timespec="minutes"),
            fix="Correct its time; until then nothing is cleared.",
        )
        for what, when in (
            *(("peroxide test", one.when) for one in flask.tests),
            *((("quench", flask.quenched),) if flask.quenched else ()),
        )
        if when > flask.now
    ]
    if late:
        raise Faults(late)


def _waiting(flask: Flask) -> timedelta | None:
    """Return how long the quench takes: as stated, else the longest of the table."""
    if flask.waiting is not None:
        return timedelta(seconds=flask.waiting.value)
    quenches = flask.reaction.quenches if flask.reaction else ()
    if not quenches:
        return None
    return timedelta(seconds=max(reagent(one.reagent).waiting for one in quenches))


def _counted(flask: Flask, ready: datetime | None) -> tuple[PeroxideTest, ...]:
    """Return the negatives that count: after the quench's time, after the last positive."""
    if ready is None:
        return ()
    positives = [one.when for one in flask.tests if one.reading == "positive"]
    since = max([ready, *positives])
    if flask.ozone and flask.quenched and flask.ozone >= flask.quenched:
        return ()
    return tuple(
        one
        for one in flask.tests
        if one.reading == "negative" and one.when >= ready and one.when >= since
        and one.when not in positives
    )  # fmt: skip


def _verdict(flask: Flask, ready: datetime | None, counted: tuple[PeroxideTest, ...]) -> Verdict:
    if flask.quenched is None:
        return Verdict(Note("clearance-no-quench"), (Note("clearance-need-quench"), TWO))
    if flask.ozone is not None and flask.ozone >= flask.quenched:
        why = Note("clearance-ozone-after", values={"when": flask.ozone})
        return Verdict(why, (Note("clearance-need-quench"), TWO))
    if ready is None:
        return Verdict(Note("clearance-waiting-unknown"), (Note("clearance-need-waiting"), TWO))
    if flask.now < ready:
        why = Note("clearance-waiting", values={"ready": ready})
        return Verdict(why, (Note("clearance-need-wait", values={"ready": ready}), TWO))
    return _by_tests(flask, ready, counted)


def _by_tests(flask: Flask, ready: datetime, counted: tuple[PeroxideTest, ...]) -> Verdict:
    apart = timedelta(seconds=hazard("TWO_NEGATIVES_APART").value)
    if not counted:
        positives = [one for one in flask.tests if one.reading == "positive"]
        if positives:
            why = Note("clearance-positive", values={"when": positives[-1].when})
            return Verdict(why, (Note("clearance-need-more-quench"), TWO))
        early = bool(flask.tests)
        why = Note("clearance-early", values={"ready": ready}) if early else NO_TESTS
        return Verdict(why, (TWO,))
    first, last = counted[0].when, counted[-1].when
    if last - first < apart:
        again = Note("clearance-need-second", values={"after": first + apart})
        code = "clearance-one-negative" if len(counted) == 1 else "clearance-too-close"
        return Verdict(Note(code, values={"first": first, "last": last}), (again,))
    return Verdict(Note("clearance-clear", values={"first": first, "last": last}), clear=True)


TWO = Note("clearance-need-two")
NO_TESTS = Note("clearance-no-tests")


def _notes(
    flask: Flask, ready: datetime | None, counted: tuple[PeroxideTest, ...]
) -> Iterator[Note]:
    if any(one.changed for one in flask.tests):
        yield Note("clearance-changed", "wrong")
    if ready and any(one.when < ready for one in flask.tests):
        yield Note("clearance-some-early", values={"ready": ready})
    if any(one.method is None for one in counted):
        yield Note("clearance-method-unknown")
    if counted and all(STRIPS in (one.method or STRIPS).casefold() for one in counted):
        yield Note("clearance-strips-only")
    yield Note("clearance-strips")
    usual = _waiting(Flask(flask.label, flask.now, flask.reaction))
    if flask.waiting and usual and usual.total_seconds() > flask.waiting.value:
        yield Note("clearance-short-wait", values={"usual": usual.total_seconds()})
    if counted and flask.now - counted[-1].when > OLD:
        yield Note("clearance-old", values={"last": counted[-1].when})
    yield Note("clearance-evaporate", "advice")
    yield from notes_of_waste(flask)


def _unknowns(flask: Flask, waiting: timedelta | None) -> Iterator[str]:
    if flask.reaction is None:
        yield "reaction"
    if flask.quenched is None:
        yield "quench"
    if waiting is None:
        yield "quench time"
