"""The plan of a reaction as the parts of a page."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from ozonewright.questions.reaction.result import ProductRow, ReactionPlan
from ozonewright.questions.reaction.structure import read_substrate
from ozonewright.show.numbers import quantity, span
from ozonewright.show.pages import Answer, Remark, SourceLine, remarks, sentences, source_lines
from ozonewright.show.reaction import (
    CASES,
    answer_line,
    heat_lines,
    minutes,
    quench_line,
    signal_lines,
    site_line,
    substrate_line,
    sums,
)
from ozonewright.show.reaction_sheet import BLANKS
from ozonewright.show.reaction_simulated import simulated_lines
from ozonewright.show.signs import sign_lines
from ozonewright.show.structure_drawing import product_drawing, substrate_drawing
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind


@dataclass(frozen=True, slots=True)
class Drawn:
    """One structure with what is told below it."""

    figure: Markup
    name: str
    lines: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class TailLine:
    """One way to the tail bottle; units stand in the head of the table."""

    case: str
    ozone: str
    salt: str


@dataclass(frozen=True, slots=True)
class PlanView:
    """Every part of a plan as text and drawing."""

    answer: Answer
    next: tuple[str, ...]
    """What stands in the frame: the marks at the bench."""
    substrates: tuple[Drawn, ...]
    products: tuple[Drawn, ...]
    work_up: str
    quench: tuple[str, ...]
    sums: tuple[tuple[str, str], ...]
    heat: tuple[tuple[str, str], ...]
    tail: tuple[TailLine, ...]
    simulated: tuple[tuple[str, str], ...]
    signals: tuple[str, ...]
    signs: tuple[str, ...]
    """What they should show, by the simulated run."""
    steps: tuple[str, ...]
    remarks: tuple[Remark, ...]
    unknowns: tuple[str, ...]
    sources: tuple[SourceLine, ...]
    blanks: tuple[str, ...]


def plan_view(plan: ReactionPlan) -> PlanView:
    """Return the parts of a page that shows a plan."""
    return PlanView(
        answer=plan_answer(plan),
        next=_next(plan),
        substrates=_substrates(plan),
        products=tuple(_product(row) for row in plan.products),
        work_up=plan.work_up or "",
        quench=tuple(quench_line(row) for row in plan.quench),
        sums=tuple(sums(plan)),
        heat=tuple(heat_lines(plan)),
        tail=tuple(
            TailLine(
                CASES[row.case],
                quantity(row.ozone or 0.0, Kind.AMOUNT, "mmol", figures=2).removesuffix(" mmol"),
                quantity(row.potassium_iodide or 0.0, Kind.MASS, "g", figures=2).removesuffix(" g"),
            )
            for row in plan.tail
        ),
        simulated=tuple(simulated_lines(plan)),
        signals=tuple(signal_lines(plan)),
        signs=tuple(sign_lines(plan.signs)),
        steps=sentences(plan.next),
        remarks=remarks(plan.notes),
        unknowns=plan.unknowns,
        sources=source_lines(plan),
        blanks=tuple(words for _, words in BLANKS),
    )


def plan_answer(plan: ReactionPlan) -> Answer:
    """Return the large line: the on-time, and below it when to look and to stop."""
    if not isinstance(plan.on_time, Estimate):
        return Answer(answer_line(plan), "", determined=False)
    low, high = plan.on_time.interval
    between = span(low, high, Kind.TIME, "min", plan.on_time.u)
    on_time = quantity(plan.on_time.value, Kind.TIME, "min", u=plan.on_time.u)
    return Answer(
        on_time.removesuffix("min").strip(),
        "min",
        "of on-time",
        basis=f"Look from {minutes(plan.look_from)} min; stop by {minutes(plan.stop_by)} min.",
        sureness=f"95 %: {between} ({plan.interval_method}).",
    )


def _next(plan: ReactionPlan) -> tuple[str, ...]:
    grave = [text for text in remarks(plan.notes) if text.level == "wrong"]
    if grave:
        return (grave[0].text,)
    return sentences([note for note in plan.next if note.code == "reaction-step-look"])


def _substrates(plan: ReactionPlan) -> tuple[Drawn, ...]:
    alone = len(plan.substrates) == 1
    return tuple(
        Drawn(
            Markup(substrate_drawing(read_substrate(row.smiles))),
            substrate_line(row),
            tuple(
                f"{number} {site_line(site)}"
                for number, site in enumerate(
                    (one for one in plan.sites if alone or one.of == row.smiles), start=1
                )
            ),
        )
        for row in plan.substrates
    )


def _product(row: ProductRow) -> Drawn:
    mass = quantity(row.mass or 0.0, Kind.MASS, "g", figures=3)
    amount = quantity(row.amount or 0.0, Kind.AMOUNT, "mmol", figures=3)
    return Drawn(
        Markup(product_drawing(row.smiles)),
        f"{mass} in theory",
        (f"{row.role}, {row.formula}, {amount}",),
    )
