"""One function for each question that needs no notebook."""

from __future__ import annotations

from collections.abc import Sequence

from ozonewright.bench import drift as drift_bench
from ozonewright.bench import gate as gate_bench
from ozonewright.bench.gas_line import answer
from ozonewright.bench.load import Source
from ozonewright.bench.output import outputs
from ozonewright.bench.reaction import reaction_plan
from ozonewright.bench.recipe import FIELDS, plan
from ozonewright.bench.rig import load_rig
from ozonewright.python.answers import Answer, known
from ozonewright.questions.drift import Drift, Start
from ozonewright.questions.gas_line import GasLine
from ozonewright.questions.gate import Gate
from ozonewright.questions.output import Output
from ozonewright.questions.reaction.result import ReactionPlan
from ozonewright.questions.recipe import Recipe
from ozonewright.show.drift import drift_text
from ozonewright.show.gas_line import gas_line_text
from ozonewright.show.gate import gate_text
from ozonewright.show.output import output_text
from ozonewright.show.reaction import reaction_text
from ozonewright.show.recipe import recipe_text
from ozonewright.show.sheet.reaction import gate_section, reaction_section
from ozonewright.show.sheet.recipe import recipe_section
from ozonewright.show.sheet.rig import rig_section
from ozonewright.show.sheet.run import run_section
from ozonewright.show.sheet.setting import drift_section


def output(run: Source, *blanks: Source) -> Answer[Output]:
    """Return the ozone output of one run: the name of a file, or the same table as a dict.

    Further sources are field blanks of its setting.
    """
    return Answer(outputs([run, *blanks])[0], output_text, run_section)


def recipe(**wishes: str) -> Answer[Recipe]:
    """Return how to set up the next titration; ``output``, ``titrant`` and ``burette`` are needed.

    Each is text with its unit, and named as the command's options are.
    """
    known(wishes, (*FIELDS, "acid"))
    return Answer(plan(wishes), recipe_text, recipe_section)


def drift(
    *runs: Source,
    points: Sequence[str] = (),
    field_blanks: Sequence[str] = (),
    start: Start | None = None,
    in_order: bool = False,
    setting: str | None = None,
    **facts: str,
) -> Answer[Drift]:
    """Return why runs disagree, and what to measure next.

    Either runs, or points such as ``"2 min: 0.92 g/h"``; what is known of all of them
    (``titrant="0.1 mol/L"``) is named as the command's options are.
    """
    known(facts, drift_bench.FIELDS)
    about = drift_bench.About(dict(facts), start, in_order, tuple(field_blanks))
    found = (
        drift_bench.drift_of(runs, about, setting)
        if runs
        else drift_bench.drift_of_points(points, about)
    )
    return Answer(found, drift_text, drift_section)


def gas_line(rig: Source) -> Answer[GasLine]:
    """Return what flows through a rig, and where its pressure is lost."""
    record = load_rig(rig)
    return Answer(answer(rig), gas_line_text, lambda found: rig_section(record, found))


def reaction(reaction: Source) -> Answer[ReactionPlan]:
    """Return the plan of a reaction that states its own output."""
    return plan_answer(reaction_plan(reaction))


def plan_answer(plan: ReactionPlan) -> Answer[ReactionPlan]:
    """Return a plan as an answer."""
    return Answer(
        plan, reaction_text, lambda found: reaction_section(found.label or "reaction", found)
    )


def gate(
    rig: Source, room: Source | None = None, reaction: Source | None = None, **facts: str
) -> Answer[Gate]:
    """Return go, fix or stop of a rig, in a room, for a reaction."""
    known(facts, gate_bench.TYPED)
    return Answer(gate_bench.ask(rig, room, reaction, facts), gate_text, gate_section)
