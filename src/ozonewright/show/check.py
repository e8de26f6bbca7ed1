"""What documents hold and leave open, as text."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from ozonewright.questions.output.gaps import Gaps
from ozonewright.show.wrap import wrapped


def check_text(documents: Sequence[Gaps]) -> str:
    """Return a line for each document, and under it what is not stated."""
    counts = Counter(one.kind for one in documents)
    told = (f"{count} {kind if count == 1 else kind + 's'}" for kind, count in counts.items())
    head = f"Sound: {', '.join(told)}."
    return "\n".join([head, *(line for one in documents for line in _lines(one))]) + "\n"


def _lines(document: Gaps) -> Iterator[str]:
    yield f"{document.kind} {document.label or document.place}"
    if document.unknowns:
        yield from wrapped("not stated: " + ", ".join(document.unknowns), "  ", "    ")
    if document.waiting:
        yield from wrapped("answers that wait for it: " + ", ".join(document.waiting), "  ", "    ")
    if not document.unknowns and not document.waiting:
        asked = "for its flow; the gate asks for more" if document.kind == "rig" else ""
        yield f"  everything is stated {asked}".rstrip()
