"""Whether documents are sound, and whether the program agrees with what was published."""

from __future__ import annotations

from ozonewright.bench.agreement import agreement as compared
from ozonewright.bench.check import check as gaps_of
from ozonewright.bench.load import Source
from ozonewright.python.answers import Answer
from ozonewright.questions.agreement import Agreement
from ozonewright.questions.output.gaps import Gaps
from ozonewright.show.agreement import agreement_text
from ozonewright.show.check import check_text
from ozonewright.show.sheet.agreement import agreement_section
from ozonewright.show.sheet.check import check_section


def check(*documents: Source) -> list[Answer[Gaps]]:
    """Return what each document leaves open; the faults of all of them are raised together."""
    return [Answer(found, lambda one: check_text([one]), check_section)
            for found in gaps_of(documents)]  # fmt: skip


def agreement() -> Answer[Agreement]:
    """Return every shipped case beside our value; it takes some seconds."""
    return Answer(compared(), agreement_text, agreement_section)
