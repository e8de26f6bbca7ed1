"""What documents hold and leave open, as text."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from textwrap import fill

from ozonewright.questions.output.gaps import Gaps

WIDTH = 80


def check_text(documents: Sequence[Gaps]) -> str:
    """Return a line for each document, and under it what is not stated."""
    counts = Counter(one.kind for one in documents)
    told = (f"{count} {kind if count == 1 else kind + 's'}" for kind, count in counts.items())
    head = f"Sound: {', '.join(told)}."
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
