"""What the gate answers: checks, each with the number behind it and the one thing that mends it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from ozonewright.results import Note, Result, Row, fact, listing

Verdict = Literal["go", "fix", "stop"]
ORDER: tuple[Verdict, ...] = ("go", "fix", "stop")


def worst(verdicts: tuple[Verdict, ...]) -> Verdict:
    """Return the worst of several verdicts; nothing checked is no go."""
    return max(verdicts, key=ORDER.index, default="stop")


@dataclass(frozen=True, kw_only=True)
class Check(Row):
    """One check."""

    code: str = fact("check", "")
    verdict: Verdict = fact("verdict", "stop")
    value: Note | None = fact("value")
    limit: Note | None = fact("limit")
    text: Note | None = fact("why")
    mend: Note | None = fact("mends it")
    source: str = fact("source", "")
    unknown: tuple[str, ...] = fact("not stated", ())
    """Places that were left empty and would settle this check."""


@dataclass(frozen=True, kw_only=True)
class Gate(Result):
    """The worst of all checks, and each of them."""

    verdict: Verdict = fact("verdict", "stop")
    rig: str | None = fact("rig")
    room: str | None = fact("room")
    reaction: str | None = fact("reaction")
    checks: tuple[Check, ...] = listing("checks")
