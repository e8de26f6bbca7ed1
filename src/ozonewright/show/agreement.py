"""The agreement table, as text and as a page of the documentation."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from ozonewright.questions.agreement import Agreement, Comparison
from ozonewright.references.tables import EVIDENCE
from ozonewright.show.numbers import stated, unit_text, with_u

TOPICS = {
    "iodometry": "Titration",
    "gas": "Gas",
    "energy": "Energy",
    "photometry": "Photometer",
    "absorption": "Absorption",
    "discharge": "Discharge",
    "uncertainty": "Uncertainty",
}
"""Heading of each part, by the first word of a subject; a new topic stands under its own word."""
GRADES = {
    "published": "published",
    "library": "data library",
    "common practice": "common practice",
    "memory": "from memory",
    "invented": "by hand",
}
HEAD = ("case", "figure", "ours", "expected", "", "source", "evidence")


def answer_line(found: Agreement) -> str:
    """Return the one line that answers."""
    counted = f"{found.case_count} cases, {found.figure_count} figures"
    if found.disagree_count:
        return f"{counted}: {found.disagree_count} DISAGREE"
    return f"{counted}: all agree"


def count_lines(found: Agreement) -> Iterator[str]:
    """Yield the counts: how many agree, and on what evidence they rest."""
    grades = Counter(line.evidence for line in found.cases)
    told = ", ".join(f"{grades[grade]} {GRADES[grade]}" for grade in EVIDENCE if grades[grade])
    yield f"Figures by evidence: {told}."
    yield (
        f"{found.case_count} cases, {found.figure_count} figures: {found.agree_count} agree, "
        f"{found.disagree_count} disagree."
    )


def agreement_text(found: Agreement) -> str:
    """Return the whole answer: every figure beside ours, counts last."""
    return "\n".join(_lines(found)) + "\n"


def _lines(found: Agreement) -> Iterator[str]:
    yield answer_line(found)
    rows = [_cells(line) for line in found.cases]
    widths = [max(len(row[place]) for row in (HEAD, *rows)) for place in range(len(HEAD))]
    for topic, lines in _topics(found).items():
        yield from ("", topic)
        yield _row(HEAD, widths)
        last = ""
        for line in lines:
            case, *rest = _cells(line)
            mark = " " if line.agrees else "■"
            yield _row(("" if case == last else case, *rest), widths, mark)
            last = case
    yield ""
    yield from _disagreements(found)
    yield (
        "Expected ± the greatest permitted difference. By hand: worked out on invented readings. "
        "Sources: docs/sources.md."
    )
    yield from count_lines(found)


def _row(cells: tuple[str, ...], widths: list[int], mark: str = " ") -> str:
    padded = (
        f"{cell:>{width}}" if place in (2, 3) else f"{cell:<{width}}"
        for place, (cell, width) in enumerate(zip(cells, widths, strict=True))
    )
    return f"{mark} {'  '.join(padded)}".rstrip()


def _cells(line: Comparison) -> tuple[str, ...]:
    ours = with_u(line.got, line.tolerance).partition(" ±")[0]
    return (
        line.case,
        line.figure.replace("_", " "),
        ours,
        stated(line.expected, line.tolerance),
        unit_text(line.unit),
        line.source,
        GRADES[line.evidence],
    )


def topic_rows(found: Agreement) -> dict[str, tuple[tuple[str, ...], ...]]:
    """Return the rows of each topic, whether the figure agrees at their end."""
    return {
        topic: tuple((*_cells(line), "yes" if line.agrees else "no") for line in lines)
        for topic, lines in _topics(found).items()
    }


def _topics(found: Agreement) -> dict[str, list[Comparison]]:
    parts: dict[str, list[Comparison]] = {heading: [] for heading in TOPICS.values()}
    for line in found.cases:
        word = line.subject.partition(".")[0]
        parts.setdefault(TOPICS.get(word, word), []).append(line)
    return {heading: lines for heading, lines in parts.items() if lines}


def _disagreements(found: Agreement) -> Iterator[str]:
    for line in found.cases:
        if not line.agrees:
            yield (
                f"■ {line.id}: ours {line.got:.9g} {line.unit}, expected {line.expected:.9g} ± "
                f"{line.tolerance:.2g} ({line.why}); {line.source}, {line.locator}."
            )


def agreement_page(found: Agreement) -> str:
    """Return the documentation page of the agreement (``docs/agreement.md``)."""
    out = [
        "# Agreement with published values",
        "",
        "Every outside case beside what the program gives, made by `python docs/make.py`; the same "
        "table is printed by `ozonewright agreement`, and the same cases run as tests. The cases "
        "stand in `src/ozonewright/references/cases/`, each with its inputs as printed, its "
        "tolerance and the reason of it; none of the expected values comes from this program. "
        "Sources are in [sources.md](sources.md).",
        "",
        "*From memory* means that the printed page was not at hand; *by hand* means worked out "
        "with a pocket calculator on invented readings.",
    ]
    for topic, lines in _topics(found).items():
        out += ["", f"## {topic}", "", f"| {' | '.join((*HEAD, 'agrees'))} |"]
        out += ["|---|---|--:|--:|---|---|---|---|"]
        for line in lines:
            cells = (*_cells(line), "yes" if line.agrees else "**no**")
            out.append(f"| {' | '.join(cells)} |")
    return "\n".join([*out, "", *count_lines(found)]) + "\n"
