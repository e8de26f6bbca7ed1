"""What documents hold and leave open, as text."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from textwrap import fill

from ozonewright.questions.output.gaps import Gaps

WIDTH = 80


def check_text(documents: Sequence[Gaps]) -> str:
    """Return a line for each document, and under it what is not stated."""
    count = len(documents)
    head = f"Sound: {count} {'run' if count == 1 else 'runs'}."
    return "\n".join([head, *(line for one in documents for line in _lines(one))]) + "\n"


def _lines(document: Gaps) -> Iterator[str]:
    yield f"{document.kind} {document.label or document.place}"
    if document.unknowns:
        yield _wrapped("not stated: " + ", ".join(document.unknowns))
    if document.waiting:
        yield _wrapped("answers that wait for it: " + ", ".join(document.waiting))
    if not document.unknowns and not document.waiting:
        yield "  everything is stated"


def _wrapped(text: str) -> str:
    return fill(text, WIDTH, initial_indent="  ", subsequent_indent="    ", break_on_hyphens=False)
