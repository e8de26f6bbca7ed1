"""The output that a timer switches: of the generator fitted to a notebook's runs, or of a setting.

Apart from `bench.duty`, because a fit loads much: fetched when a notebook is asked.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from ozonewright.bench.generator import question_of_notebook
from ozonewright.bench.notebook import outputs_of
from ozonewright.bench.setting import setting_output
from ozonewright.errors import MissingValue
from ozonewright.notebook import Notebook
from ozonewright.questions.duty import Bodies, Falling
from ozonewright.questions.duty.bodies import Pair
from ozonewright.questions.generator import Question, Warmth, warmth
from ozonewright.results import Note
from ozonewright.uncertain import Estimate, Measured
from ozonewright.units import Kind


class Given(NamedTuple):
    """Output while on, how it falls, and what is to be said of both."""

    rate: Measured | None
    falling: Falling | None
    notes: tuple[Note, ...]


def output_of_notebook(
    notebook: Notebook, texts: Mapping[str, str | None], bodies: Bodies
) -> Given:
    """Return the output of a notebook's generator, against the temperature of its tube.

    Where its runs can't be placed on a map, or nobody knows how warm the tube becomes, the mean of
    the setting, as constant. A log serves runs that do not state the temperature of their tube.
    """
    setting = texts.get("setting") or None
    try:
        question = question_of_notebook(
            notebook, setting, {name: texts.get(name) for name in ("at", "log")}
        )
    except MissingValue as error:
        return _mean(notebook, setting, Note("duty-no-fit", "doubt", {"why": error.what}))
    if not bodies.rises or bodies.ambient is None:
        return _mean(notebook, setting, Note("duty-no-fit", "doubt", {"why": "warmth"}))
    return _of_warmth(fitted_warmth(question, bodies))


def fitted_warmth(question: Question, bodies: Bodies) -> Warmth:
    """Return the output while a tube warms from the ambient to where it stays."""
    assert bodies.ambient is not None
    cold = bodies.ambient.value
    return warmth(question, cold, cold + sum(one.value for one in bodies.rises))


def _of_warmth(found: Warmth) -> Given:
    tied: dict[Pair, float] = {(found.rate.name, found.coefficient.name): found.correlation}
    falling = Falling(found.coefficient, found.at, tied, of="generator")
    return Given(found.rate, falling, found.notes)


def _mean(notebook: Notebook, setting: str | None, note: Note) -> Given:
    name = setting or _last_setting(notebook)
    found = setting_output(notebook, name, outputs_of(notebook, name))
    if not isinstance(found.rate, Estimate):
        return Given(None, None, (note, *found.notes))
    rate = Measured(found.rate.value, found.rate.u, "output", Kind.MASS_RATE, basis="answer")
    return Given(rate, None, (note, *found.notes))


def _last_setting(notebook: Notebook) -> str:
    names = [entry.data["run"].get("setting") for entry in notebook.entries(kind="run", last=1)]
    if not names or not names[-1]:
        raise MissingValue(
            "the last run names no setting whose mean could be taken",
            where="setting",
            fix='Say whose output is meant: --setting "…".',
        )
    return str(names[-1])
