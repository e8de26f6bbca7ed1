"""The plan of a reaction as one sheet to print and fill in."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from ozonewright import __version__
from ozonewright.questions.reaction.result import ReactionPlan
from ozonewright.show.reaction import (
    answer_line,
    heat_lines,
    product_line,
    quench_line,
    signal_lines,
    substrate_line,
)
from ozonewright.show.recipe import STYLE
from ozonewright.show.signs import sign_lines
from ozonewright.show.words import sentence

BLANKS = (
    ("started", "date, discharge on at"),
    ("output", "output and flow today"),
    ("first sign", "first sign of the end point: on-time, which"),
    ("off", "discharge off at: on-time"),
    ("tail", "tail titre / mL"),
    ("quench", "quench in at, warmest / °C"),
    ("test 1", "peroxide test 1: time, result"),
    ("test 2", "peroxide test 2: time, result"),
    ("yield", "product / g"),
    ("remark", "remark"),
)


def reaction_sheet(plan: ReactionPlan) -> str:
    """Return one HTML page to print: marks, acts in order, blanks to fill in by pen."""
    acts = "".join(f"<li>{escape(sentence(step))}</li>" for step in plan.next)
    rows = "".join(f"<tr><td>{escape(words)}</td><td></td></tr>" for _, words in BLANKS)
    return (
        '<!doctype html><html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>Reaction sheet</title><style>{STYLE}</style></head><body><main>"
        f"<h1>{escape(answer_line(plan))}</h1>"
        f'<p class="soft">{escape(plan.label or "Reaction")}</p>'
        f"<h2>At the bench</h2><ol>{acts}</ol>"
        + "".join(_sections(plan))
        + f"<h2>Readings</h2><table>{rows}</table></main>"
        "<footer><div><small>reaction</small>&nbsp;</div>"
        "<div><small>date, initials</small>&nbsp;</div>"
        f"<div><small>ozonewright</small>{escape(__version__)}</div></footer></body></html>\n"
    )


def _sections(plan: ReactionPlan) -> Iterator[str]:
    for title, lines in (
        ("Substrate", [substrate_line(row) for row in plan.substrates]),
        ("Products in theory", [product_line(row) for row in plan.products]),
        ("Quench", [quench_line(row) for row in plan.quench]),
        ("End point", [*signal_lines(plan), *sign_lines(plan.signs)]),
        ("Heat and peroxide", [f"{words}: {value}" for words, value in heat_lines(plan)]),
        ("Notes", [sentence(n) for n in plan.notes if n.level != "advice"]),
    ):
        if lines:
            yield f"<h2>{escape(title)}</h2>" + "".join(f"<p>{escape(one)}</p>" for one in lines)
