"""A report as tables for a spreadsheet or a program: numbers bare, units in the heads."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ozonewright.bench.beside import Beside
from ozonewright.bench.report import LogPart, Part, ReactionPart, RigPart, RunPart, SettingPart
from ozonewright.documents.leaves import leaves
from ozonewright.notebook import Entry
from ozonewright.questions.comparison import Comparison
from ozonewright.results import (
    Fact,
    Listing,
    Note,
    Quantity,
    Result,
    Row,
    declared,
    plain,
)
from ozonewright.show.gate import title
from ozonewright.show.numbers import unit_text
from ozonewright.show.sheet.beside import trouble_text
from ozonewright.show.sheet.blocks import Figure, Section
from ozonewright.show.sheet.typed import logged
from ozonewright.show.words import sentence
from ozonewright.show.words.drift import cause_words
from ozonewright.uncertain import Estimate

DIGITS = ".10g"


@dataclass(frozen=True, slots=True)
class Rows:
    """Rows of the table of that name."""

    table: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def part_rows(part: Part) -> Iterator[Rows]:
    """Yield what one part adds to which table."""
    if isinstance(part, RunPart):
        yield from _answered("runs", part.entry.label, part.found)
        yield _budget(part)
        yield typed_rows(part.history)
    elif isinstance(part, SettingPart):
        if part.mean is not None:
            yield from _answered("settings", part.name, part.mean)
        yield _causes(part)
        yield from _beside(f"setting {part.name}", part.beside)
    elif isinstance(part, RigPart):
        if part.line is not None:
            yield from _answered("gas-lines", part.history[-1].label, part.line)
        yield typed_rows(part.history)
    elif isinstance(part, ReactionPart):
        yield from _reaction(part)
    elif isinstance(part, LogPart):
        table = logged(part.entries)
        yield Rows("log", table.head, table.rows)
        for entry in part.withdrawn:
            yield typed_rows((entry,))


def _reaction(part: ReactionPart) -> Iterator[Rows]:
    label = part.history[-1].label
    if part.plan is not None:
        yield from _answered("reactions", label, part.plan)
    if part.gate is not None:
        rows = tuple(
            (label, title(check), check.verdict, sentence(check.text) if check.text else "")
            for check in part.gate.checks
        )
        yield Rows("gate", ("reaction", "check", "verdict", "why"), rows)
    if part.clearance is not None:
        why = sentence(part.clearance.why) if part.clearance.why else ""
        yield Rows("clearance", ("reaction", "state", "why"), ((label, part.clearance.state, why),))
    yield typed_rows(part.history)
    yield from _beside(f"reaction {label}", part.beside)


TABLES = {
    "compare": "comparisons",
    "claim": "claims",
    "generator": "generators",
    "absorber": "absorbers",
    "duty": "duties",
    "gas-use": "gas-uses",
    "log": "counts",
    "room": "rooms",
}
"""Names of tables by the words of the commands."""


def _beside(of: str, asked: Sequence[Beside]) -> Iterator[Rows]:
    for one in asked:
        if one.found is not None:
            table, label = TABLES[one.question], _label(of, one.found)
            head = ("label", *fact_heads(one.found), *number_heads(one.found))
            yield Rows(table, head, ((label, *facts(one.found), *numbers(one.found)),))
            yield from _told(table, label, one.found)
            yield from _listed(table, label, one.found)
    missing = tuple(
        (of, one.question, trouble_text(one.trouble)) for one in asked if one.trouble is not None
    )
    yield Rows("not-determined", ("of", "question", "what is missing"), missing)


def _label(of: str, found: Result) -> str:
    return f"{found.first} / {found.second}" if isinstance(found, Comparison) else of


def _listed(table: str, of: str, found: Result) -> Iterator[Rows]:
    """Yield a table for each listing of an answer: its facts as text, its figures with units."""
    for name, declaration in declared(found):
        lines = getattr(found, name) if isinstance(declaration, Listing) else ()
        if lines:
            head = ("label", *fact_heads(lines[0]), *number_heads(lines[0]))
            rows = tuple((of, *facts(line), *numbers(line)) for line in lines)
            yield Rows(f"{table}-{name.replace('_', '-')}", head, rows)


def fact_heads(row: Row) -> tuple[str, ...]:
    """Return the heads of the facts of a row."""
    return tuple(one.words for _, one in declared(row) if isinstance(one, Fact))


def facts(row: Row) -> tuple[str, ...]:
    """Return the facts of a row as text."""
    values = plain(row, sentence)
    return tuple(
        "; ".join(map(str, value)) if isinstance(value, list) else "" if value is None
        else str(value)
        for name, one in declared(row)
        if isinstance(one, Fact)
        for value in (values[name],)
    )  # fmt: skip


def _answered(table: str, label: str, found: Result) -> Iterator[Rows]:
    yield Rows(table, ("label", *number_heads(found)), ((label, *numbers(found)),))
    yield from _told(table, label, found)


def _told(table: str, label: str, found: Result) -> Iterator[Rows]:
    """Yield the sum, the notes and the sources of an answer."""
    rows = tuple((label, str(n), sentence(line)) for n, line in enumerate(found.working, start=1))
    yield Rows("working", ("label", "line", "sum"), rows)
    notes = tuple((label, table, note.level, sentence(note)) for note in found.notes)
    yield Rows("notes", ("label", "of", "level", "note"), notes)
    told = tuple((label, table, key) for key in found.sources)
    yield Rows("rests-on", ("label", "of", "source"), told)


def number_heads(found: Row | type[Row]) -> tuple[str, ...]:
    """Return the heads of every figure an answer can have: value, u and 95 % interval."""
    heads: list[str] = []
    for _, declaration in declared(found):
        if isinstance(declaration, Quantity):
            unit = unit_text(declaration.unit) or "1"
            heads.append(f"{declaration.words} / {unit}")
            if not declaration.exact:
                heads += [
                    f"{word} {declaration.words} / {unit}"
                    for word in ("u", "95 % low", "95 % high")
                ]
    return tuple(heads)


def numbers(found: Row) -> tuple[str, ...]:
    """Return the figures of an answer in that order; what can't be known is left empty."""
    cells: list[str] = []
    for name, declaration in declared(found):
        if not isinstance(declaration, Quantity):
            continue
        value = getattr(found, name)
        if isinstance(value, Estimate):
            ends = (declaration.plain(end) for end in value.interval)
            cells.append(_cell(declaration.plain(value.value)))
            cells.append(_cell(declaration.plain_spread(value.u)))
            cells += [_cell(end) for end in ends]
        else:
            cells.append(_cell(declaration.plain(value)))
            cells += [] if declaration.exact else ["", "", ""]
    return tuple(cells)


def _cell(value: float | None) -> str:
    return "" if value is None else f"{value:{DIGITS}}"


def _budget(part: RunPart) -> Rows:
    rows = tuple(
        (part.entry.label, line.input, _cell(None if line.share is None else 100.0 * line.share))
        for line in part.found.budget
    )
    return Rows("budget", ("run", "reading", "share of the variance / %"), rows)


def _causes(part: SettingPart) -> Rows:
    causes = part.drift.causes if part.drift else ()
    rows = tuple(
        (part.name, cause_words(one.cause), _cell(one.probability), one.status, _said(one.implied))
        for one in causes
    )
    head = ("setting", "cause", "probability / 1", "status", "what it would have to be")
    return Rows("causes", head, rows)


def _said(note: Note | None) -> str:
    return sentence(note) if note is not None else ""


def typed_rows(history: Sequence[Entry]) -> Rows:
    """Return every place of every revision, as typed."""
    rows = tuple(
        (
            one.label, one.kind, str(one.revision), one.when.isoformat(), one.by or "", one.deed,
            one.reason or "", place, text,
        )
        for one in history
        for place, text in leaves(one.data)
    )  # fmt: skip
    head = ("label", "kind", "revision", "when", "by", "act", "reason", "place", "text")
    return Rows("typed", head, rows)


def figures_in(section: Section) -> Iterator[Figure]:
    """Yield the figures of one section."""
    for block in section.blocks:
        if isinstance(block, Figure):
            yield block
