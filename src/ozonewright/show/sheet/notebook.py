"""A whole report: its head, its parts one after another, its sources and its methods."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from ozonewright import __version__
from ozonewright.bench.report import LogPart, Part, ReactionPart, RigPart, RunPart, SettingPart
from ozonewright.bench.subject import MOST_RUNS, QUESTIONS, SLOW, Subject, wanted_of
from ozonewright.notebook import Notebook
from ozonewright.references.sources import MEANING, source
from ozonewright.show.formulas import formulas_of
from ozonewright.show.notebook import WHEN
from ozonewright.show.pages import SourceLine
from ozonewright.show.sheet.beside import beside_sections
from ozonewright.show.sheet.blocks import (
    HEAD,
    Section,
    Table,
    Text,
    TitleBlock,
    kept,
    source_table,
)
from ozonewright.show.sheet.reaction import (
    clearance_section,
    gate_section,
    kept_line,
    reaction_section,
)
from ozonewright.show.sheet.rig import rig_section
from ozonewright.show.sheet.run import run_section
from ozonewright.show.sheet.setting import setting_section
from ozonewright.show.sheet.typed import logged, struck_out

METHODS = (
    "Every formula that the questions of this report take from the program, from the text that "
    "stands beside it in the code. SI inside. Uncertainty follows JCGM 100, first order, with "
    "JCGM 101 (Monte Carlo) where first order is not good enough; the answer says which."
)


def title_block(notebook: Notebook, subject: Subject) -> TitleBlock:
    """Return what closes every page."""
    rigs = notebook.entries(kind="rig", last=1)
    last = notebook.last_entry
    return TitleBlock(
        of=_of(subject),
        notebook=notebook.label,
        rig=f"{rigs[0].label}, {rigs[0].revision}" if rigs else "none yet",
        last=f"{last.when:{WHEN}}" if last else "none yet",
        version=__version__,
    )


def _of(subject: Subject) -> str:
    return subject.label if subject.kind == "notebook" else f"{subject.kind} {subject.label}"


@dataclass
class Gathered:
    """The sources and questions of the sections that have gone by."""

    keys: dict[str, None] = field(default_factory=dict)
    asked: dict[str, None] = field(default_factory=dict)

    def note(self, section: Section) -> Section:
        """Remember what a section rests on."""
        self.keys |= dict.fromkeys(section.keys)
        self.asked |= dict.fromkeys(section.formulas)
        return section


def sheet(
    notebook: Notebook,
    subject: Subject,
    parts: Iterable[Part],
    wanted: frozenset[str] | None = None,
    left_out: int = 0,
) -> Iterator[Section]:
    """Yield the sections of a report; sources and methods of all of them at the end."""
    gathered = Gathered()
    yield _head(notebook, subject, wanted_of(subject) if wanted is None else wanted, left_out)
    for part in parts:
        for section in part_sections(part):
            yield gathered.note(section)
    yield from closing(gathered)


def _head(notebook: Notebook, subject: Subject, wanted: frozenset[str], left_out: int) -> Section:
    entries, revisions = notebook.counts()
    kinds: dict[str, int] = {}
    for entry in notebook.entries():
        kinds[entry.kind] = kinds.get(entry.kind, 0) + 1
    held = ", ".join(f"{count} of kind {kind}" for kind, count in kinds.items())
    of = "" if subject.kind == "notebook" else f"Report of {subject.kind} {subject.label}."
    whole = f"The notebook holds {entries} entries, {revisions} revisions ({held})."
    told = (
        f"{left_out} earlier runs are left out of these pages for their length; each setting "
        "says which. The single file (.html) and the tables (a folder) hold all runs in full."
        if left_out
        else ""
    )
    beside = "Numbers behind ± are one standard uncertainty; “95 %” is a coverage interval."
    blocks = (Text(of), Text(whole), Text(told), Text(_not_asked(wanted)), Text(beside, soft=True))
    return Section(notebook.label, HEAD, kept(blocks))


def _not_asked(wanted: frozenset[str]) -> str:
    """Return which questions were left out, and how they are asked."""
    absent = [word for word in QUESTIONS if word not in wanted]
    if not absent:
        return ""
    where = (
        "they take long, and stand in the report of a setting (--of) or with --only all"
        if frozenset(absent) == SLOW
        else "--only all asks them"
    )
    return f"Not asked here: {', '.join(absent)}; {where}."


def part_sections(part: Part) -> Iterator[Section]:
    """Yield the sections of one part."""
    if isinstance(part, RunPart):
        yield run_section(part.found, part.history)
    elif isinstance(part, SettingPart):
        told = " ".join(_limits(part))
        yield setting_section(part.name, part.runs, part.mean, part.drift, part.trouble, told)
        yield from beside_sections(f"setting {part.name}", part.beside)
    elif isinstance(part, RigPart):
        yield rig_section(part.rig, part.line, part.history, part.trouble)
    elif isinstance(part, ReactionPart):
        yield from _reaction(part)
    elif isinstance(part, LogPart):
        tables = (logged(part.entries), struck_out(part.withdrawn))
        yield Section("Log", "log", kept(tables))


def _limits(part: SettingPart) -> Iterator[str]:
    """Yield what is told of the last runs alone."""
    if part.count > MOST_RUNS:
        yield f"Worked out of its last {MOST_RUNS} of {part.count} runs."
    if part.left_out:
        yield (
            f"Runs 1 to {part.left_out} of {part.count} stand in full in the single file (.html) "
            "and in the tables alone."
        )


def _reaction(part: ReactionPart) -> Iterator[Section]:
    yield reaction_section(part.history[-1].label, part.plan, part.history, part.trouble)
    if part.gate is not None:
        yield gate_section(part.gate, kept_line(part.gate_kept))
    if part.clearance is not None:
        yield clearance_section(part.clearance)
    yield from beside_sections(f"reaction {part.history[-1].label}", part.beside)


def closing(gathered: Gathered) -> Iterator[Section]:
    """Yield the sources and the methods."""
    if gathered.keys:
        found = [source(key) for key in sorted(gathered.keys)]
        lines = [SourceLine(str(one), MEANING[one.read]) for one in found]
        yield Section("Sources", "sources", kept((source_table(lines),)))
    formulas = formulas_of(gathered.asked)
    rows = tuple(
        (f"{one.name.rpartition('.')[2].replace('_', ' ')}: {one.gives}", one.equation, one.valid,
         one.source)
        for one in formulas
    )  # fmt: skip
    head = ("formula", "equation and remarks", "valid", "source")
    if rows:
        table = Table("Formulas", head, rows)
        yield Section("Methods", "methods", kept((Text(METHODS), table)))
