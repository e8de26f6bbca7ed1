"""Questions about what a generator was measured to give: two settings, a label, its map."""

from __future__ import annotations

from ozonewright.bench import generator as generator_bench
from ozonewright.bench.claim import claim_of_files
from ozonewright.bench.compare import RATES, compare_files, compare_typed
from ozonewright.bench.load import Source
from ozonewright.errors import Inconsistent
from ozonewright.python.answers import Answer, known
from ozonewright.questions.claim import Claim
from ozonewright.questions.comparison import Comparison
from ozonewright.questions.generator import Generator
from ozonewright.show.claim import claim_text
from ozonewright.show.compare import comparison_text
from ozonewright.show.generator import generator_text
from ozonewright.show.sheet.claim import claim_section
from ozonewright.show.sheet.comparison import comparison_section
from ozonewright.show.sheet.generator import generator_section

TYPED = ("first", "second", *RATES)
"""Facts of a comparison that is typed without runs."""


def compare(*runs: Source, difference: str | None = None, **typed: str) -> Answer[Comparison]:
    """Return two settings beside each other: what else differed, and whether the ratio is real.

    Either the runs of two settings, or ``first_rates="0.62 g/h; 0.61 g/h"`` and
    ``second_rates``, named by ``first`` and ``second``.
    """
    known(typed, TYPED)
    if runs and typed:
        raise Inconsistent(
            "runs and typed outputs are given", got=", ".join(typed), fix="Leave one of them out."
        )
    if runs:
        return comparison_answer(compare_files(runs, difference))
    return comparison_answer(compare_typed(typed | {"difference": difference or ""}))


def comparison_answer(found: Comparison) -> Answer[Comparison]:
    """Return a comparison as an answer."""
    return Answer(found, comparison_text, comparison_section)


def claim(*runs: Source, label: str) -> Answer[Claim]:
    """Return a label such as ``"4 g/h"`` beside a run, or the runs of one setting."""
    return claim_answer(claim_of_files(runs, label))


def claim_answer(found: Claim) -> Answer[Claim]:
    """Return a claim as an answer."""
    return Answer(found, claim_text, claim_section)


def generator(*runs: Source, **asked: str) -> Answer[Generator]:
    """Return where a generator runs on its map, and what a change would bring.

    ``at="flow=1.2 L/min"`` asks of another place; prices and wishes are named as the command's
    options are.
    """
    known(asked, (*generator_bench.TEXTS, "log"))
    question = generator_bench.question_of_files(runs, asked)
    return generator_answer(generator_bench.answered(question))


def generator_answer(found: Generator) -> Answer[Generator]:
    """Return a generator's map as an answer."""
    return Answer(found, generator_text, generator_section)
