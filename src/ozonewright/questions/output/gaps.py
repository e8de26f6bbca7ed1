"""What a run leaves open, and which answers wait for it."""

from __future__ import annotations

from dataclasses import dataclass

from ozonewright.questions.output.result import Output
from ozonewright.results import Row, fact

WAITING = {
    "rate": "output",
    "concentration": "concentration",
    "mass_fraction": "mass fraction",
    "energy_yield": "yield",
    "guard_share": "guard share",
    "iodide_ratio": "iodide ratio",
}
"""Field of the answer, and the word for it."""


@dataclass(frozen=True, kw_only=True)
class Gaps(Row):
    """One document that was read without fault."""

    kind: str = fact("kind", "run")
    label: str | None = fact("label")
    place: str = fact("place", "run")
    unknowns: list[str] = fact("not stated")
    waiting: list[str] = fact("answers that wait")


def gaps(output: Output, place: str) -> Gaps:
    """Return what the answer to a run had to leave out."""
    waiting = [words for name, words in WAITING.items() if getattr(output, name) is None]
    return Gaps(label=output.label, place=place, unknowns=list(output.unknowns), waiting=waiting)
