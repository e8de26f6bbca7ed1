"""A reaction on a sheet: its plan, its gate and its clearance as they stand."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ozonewright.errors import AppError
from ozonewright.notebook import Entry
from ozonewright.questions.clearance import Clearance
from ozonewright.questions.gate import Gate
from ozonewright.questions.reaction.result import ReactionPlan
from ozonewright.show import clearance as clearing
from ozonewright.show import gate as gating
from ozonewright.show.notebook import WHEN
from ozonewright.show.pages import Remark, remarks, sentences
from ozonewright.show.reaction import product_line
from ozonewright.show.reaction_page import Drawn, plan_view
from ozonewright.show.sheet.blocks import (
    Block,
    Figure,
    Lines,
    Notes,
    Section,
    Table,
    Text,
    kept,
)
from ozonewright.show.sheet.figures import plan_figure
from ozonewright.show.sheet.run import not_stated
from ozonewright.show.sheet.setting import troubles
from ozonewright.show.sheet.typed import document
from ozonewright.show.words import sentence


def reaction_section(
    label: str,
    plan: ReactionPlan | None,
    history: Sequence[Entry] = (),
    trouble: Sequence[AppError] = (),
) -> Section:
    """Return the section of one reaction's plan."""
    return Section(
        f"Reaction {label}",
        "reaction",
        kept(
            (
                *(plan_blocks(plan) if plan else ()),
                *troubles(trouble),
                *(document(history) if history else ()),
            )
        ),
        plan.sources if plan else (),
        ("reaction",) if plan else (),
    )


def plan_blocks(plan: ReactionPlan) -> Iterator[Block]:
    """Yield the plan as the pages show it."""
    view = plan_view(plan)
    yield view.answer
    figure = plan_figure(plan)
    if figure is not None:
        yield figure
    yield Lines("At the bench", view.steps, numbered=True)
    name = plan.label or "reaction"
    for number, drawn in enumerate(view.substrates, start=1):
        yield _structure(f"{name}, substrate {number}", "Substrate", drawn)
        yield Lines("Ozone takes, in this order", drawn.lines)
    pairs = zip(plan.products, view.products, strict=True)
    for number, (row, drawn) in enumerate(pairs, start=1):
        yield _structure(f"{name}, product {number}", "Product", drawn, product_line(row))
    yield Lines("Quench", view.quench)
    yield Table("The sum", ("figure", "value"), view.sums)
    yield Table("Heat and peroxide", ("figure", "value"), view.heat)
    rows = tuple((one.case, one.ozone, one.salt) for one in view.tail)
    head = ("way to the tail bottle", "ozone / mmol", "potassium iodide / g")
    yield Table("Tail bottle, twice the least", head, rows, frozenset({1, 2}))
    yield Lines("End point", view.signals)
    yield Notes("Notes", view.remarks)
    yield not_stated(view.unknowns)


def _structure(name: str, head: str, drawn: Drawn, words: str = "") -> Figure:
    told = words or f"{head}: {drawn.name}"
    return Figure(name, head, str(drawn.figure), told, caption=words or drawn.name)


def gate_section(found: Gate, told: str = "") -> Section:
    """Return the gate as it is worked out now, and what is told of the one that was kept."""
    of = "; ".join(
        f"{name} {label}"
        for name, label in (("rig", found.rig), ("room", found.room), ("reaction", found.reaction))
        if label
    )
    return Section(
        f"Gate {found.reaction or found.rig or ''}".strip(),
        "gate",
        kept(
            (
                Text(f"{gating.MARKS[found.verdict]} {gating.answer_line(found)}."),
                Text(f"Of {of}." if of else "", soft=True),
                Text(told, soft=True),
                Lines("Next", sentences(found.next[:3]), numbered=True),
                Notes("Checks", tuple(_checks(found))),
                Lines("Notes", sentences(found.notes)),
            )
        ),
        found.sources,
        ("gate",),
        level=2,
    )


def kept_line(entry: Entry | None) -> str:
    """Return which gate the notebook keeps, if it still stands."""
    if entry is None:
        return "No gate that still stands was kept in the notebook."
    main = entry.data["entry"]
    return f"Kept {entry.when:{WHEN}}: {main.get('value')}. {main.get('remark') or ''}".strip()


def _checks(found: Gate) -> Iterator[Remark]:
    levels = {"stop": "wrong", "fix": "doubt", "go": "advice"}
    for verdict in gating.HEADS:
        for check in found.checks:
            if check.verdict == verdict:
                numbers = f" [{told}]" if (told := gating.figures(check)) else ""
                why = sentence(check.text) if check.text else ""
                mend = f" → {sentence(check.mend)}" if check.mend else ""
                words = f"{gating.title(check)}: {why}{numbers}{mend}"
                yield Remark(levels[verdict], gating.MARKS[verdict], verdict, words)


def clearance_section(found: Clearance, asked: str = "") -> Section:
    """Return the clearance as it stands."""
    mark, words = clearing.STATES[found.state]
    tests = tuple(clearing.test_texts(row) for row in found.tests)
    waste = tuple(clearing.waste_texts(row) for row in found.waste)
    return Section(
        f"Clearance {found.reaction}",
        "clearance",
        kept(
            (
                Text(f"{mark} {words}."),
                Text(clearing.why_line(found)),
                Text(asked, soft=True),
                Lines("Needed", sentences(found.needed), numbered=True),
                Table("Peroxide tests", ("when", "reading", "method", "by", ""), tests),
                Table("Waste", ("stream", "neutraliser", "how", "never with"), waste),
                Notes("Notes", remarks(found.notes)),
            )
        ),
        found.sources,
        ("clearance",),
        level=2,
    )
