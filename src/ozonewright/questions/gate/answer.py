"""All checks of a rig, a room and a reaction, and the worst of them."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.gate.air import air
from ozonewright.questions.gate.asked import asked
from ozonewright.questions.gate.facts import Facts
from ozonewright.questions.gate.line import line
from ozonewright.questions.gate.materials import materials
from ozonewright.questions.gate.ozone import ozone
from ozonewright.questions.gate.result import ORDER, Check, Gate, worst
from ozonewright.questions.gate.vapour import vapour
from ozonewright.results import Note


def gate(facts: Facts) -> Gate:
    """Return the verdict of every check, the worst first, and of all together."""
    checks = (
        *line(facts),
        *materials(facts),
        *air(facts),
        *ozone(facts),
        *vapour(facts),
        *asked(facts),
    )
    unknowns = _unknowns(checks)
    return Gate(
        verdict=worst(tuple(check.verdict for check in checks)),
        rig=facts.rig.label,
        room=facts.room.label if facts.room else None,
        reaction=facts.reaction.label if facts.reaction else None,
        checks=tuple(sorted(checks, key=lambda check: -ORDER.index(check.verdict))),
        notes=tuple(_notes(facts)),
        next=tuple(_next(checks, unknowns)),
        unknowns=unknowns,
        sources=tuple(dict.fromkeys(_sources(checks))),
        methods=("worst verdict wins; what is not stated counts as the worst",),
    )


def _unknowns(checks: tuple[Check, ...]) -> tuple[str, ...]:
    """Name what was not stated and would settle a check that is not go."""
    places = (place for check in checks if check.verdict != "go" for place in check.unknown)
    return tuple(dict.fromkeys(places))


def _notes(facts: Facts) -> Iterator[Note]:
    if facts.reaction is None:
        yield Note("gate-assay-only", "doubt")
    yield Note("gate-local-rules", "doubt")
    if facts.rig.ambient.pressure is None and (facts.room is None or not facts.room.pressure):
        yield Note("gate-high-bench", "advice", {"pressure": facts.pressure})


def _next(checks: tuple[Check, ...], unknowns: tuple[str, ...]) -> Iterator[Note]:
    """What mends most: a hazard that is known to be there before questions that are open."""
    known = [check for check in checks if check.verdict != "go" and not check.unknown]
    for verdict in ("stop", "fix"):
        for check in known:
            if check.verdict == verdict and check.mend is not None:
                yield check.mend
    if unknowns:
        yield Note("gate-questions", "advice", {"count": len(unknowns), "places": unknowns})


def _sources(checks: tuple[Check, ...]) -> Iterator[str]:
    for check in checks:
        for source in check.source.split(", "):
            if "_" in source:
                yield source
