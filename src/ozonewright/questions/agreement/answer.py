"""Every outside case, done again by the functions that answer a person's question."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TypeVar

from ozonewright.errors import DataError, nearest
from ozonewright.questions.agreement import (
    absorption,
    comparison,
    discharge,
    energy,
    gas,
    gas_line,
    hazards,
    iodometry,
    photometry,
    structure,
    uncertainty,
)
from ozonewright.questions.agreement.reading import Binding, Found
from ozonewright.questions.agreement.result import Agreement, Comparison
from ozonewright.references.cases import Case, Check
from ozonewright.units import number

Entry = TypeVar("Entry")

BINDINGS: Mapping[str, Binding] = {
    **iodometry.BINDINGS,
    **photometry.BINDINGS,
    **gas.BINDINGS,
    **gas_line.BINDINGS,
    **absorption.BINDINGS,
    **energy.BINDINGS,
    **discharge.BINDINGS,
    **hazards.BINDINGS,
    **uncertainty.BINDINGS,
    **comparison.BINDINGS,
    **structure.BINDINGS,
}
"""The function that does each subject; a test sees to it that none is missing or idle."""


def agreement(cases: Sequence[Case]) -> Agreement:
    """Return our value beside each figure of the cases.

    Raises
    ------
    DataError
        A subject that nothing here calculates, or a figure that its calculation doesn't give.
    """
    lines = tuple(line for case in cases for line in _comparisons(case))
    agreeing = sum(line.agrees for line in lines)
    return Agreement(
        cases=lines,
        case_count=len(cases),
        figure_count=len(lines),
        agree_count=agreeing,
        disagree_count=len(lines) - agreeing,
        memory_count=sum(line.evidence == "memory" for line in lines),
        invented_count=sum(line.evidence == "invented" for line in lines),
        sources=tuple(sorted({case.source for case in cases})),
    )


def _comparisons(case: Case) -> Iterator[Comparison]:
    found = _of(BINDINGS, case.subject, case.id, "nothing calculates this subject")(case.inputs)
    for check in case.checks:
        figure = _of(found, check.name, case.id, "this figure is not calculated")
        got = _printed(figure, check, case.id)
        yield Comparison(
            id=case.id if len(case.checks) == 1 else f"{case.id} {check.name}",
            case=case.id,
            figure=check.name,
            subject=case.subject,
            got=got,
            expected=check.value,
            tolerance=check.tolerance,
            unit=check.unit,
            agrees=check.agrees(got),
            source=case.source,
            locator=case.locator,
            evidence=case.evidence,
            why=case.why,
        )


def _of(known: Mapping[str, Entry], name: str, where: str, what: str) -> Entry:
    if name not in known:
        raise DataError(what, where=where, got=name, fix=nearest(name, known))
    return known[name]


def _printed(figure: Found, check: Check, where: str) -> float:
    if not isinstance(figure.kind, str):
        return number(figure.value, figure.kind, check.unit)
    if figure.kind != check.unit:
        raise DataError(
            f"the case prints {check.name} in another unit than its calculation",
            where=where,
            got=check.unit,
            fix=f"Print it in {figure.kind or 'plain numbers'}.",
        )
    return figure.value
