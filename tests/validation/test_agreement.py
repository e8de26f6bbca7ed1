"""The shipped cases done by the functions that answer a person's question.

Expected values, tolerances and sources stand in references/cases/*.toml.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from ozonewright.bench.agreement import agreement
from ozonewright.errors import DataError
from ozonewright.questions.agreement import Comparison
from ozonewright.questions.agreement import agreement as compared
from ozonewright.questions.agreement.answer import BINDINGS
from ozonewright.references.cases import Case, Check, cases
from ozonewright.show.agreement import agreement_text

FOUND = agreement()


@pytest.mark.parametrize("line", FOUND.cases, ids=lambda line: line.id)
def test_agrees(line: Comparison) -> None:
    assert line.agrees, f"ours {line.got}, {line.source} {line.expected} ± {line.tolerance}"


def test_every_subject_is_bound_and_every_binding_is_used() -> None:
    assert {case.subject for case in cases()} == set(BINDINGS)


def test_every_case_and_figure_is_compared() -> None:
    assert {line.case for line in FOUND.cases} == {case.id for case in cases()}
    assert FOUND.figure_count == sum(len(case.checks) for case in cases())
    assert FOUND.agree_count + FOUND.disagree_count == FOUND.figure_count
    assert len({line.id for line in FOUND.cases}) == FOUND.figure_count


def case(name: str) -> Case:
    (found,) = (one for one in cases() if one.id == name)
    return found


def planted(name: str, value: float) -> Case:
    """Return a case whose first figure is another than its source prints."""
    honest = case(name)
    check, *rest = honest.checks
    return replace(honest, checks=(replace(check, value=value), *rest))


def test_a_planted_wrong_case_is_told_as_disagreeing() -> None:
    # 48 mg for 24: the factor of two between ozone and thiosulfate.
    found = compared([planted("I-01", 48.0), case("I-03")])
    assert (found.agree_count, found.disagree_count) == (1, 1)
    assert [line.agrees for line in found.cases] == [False, True]
    text = agreement_text(found)
    assert text.startswith("2 cases, 2 figures: 1 DISAGREE\n")
    assert "■ I-01: ours 23.9985 mg, expected 48 ± 0.005" in text
    assert text.endswith("1 agree, 1 disagree.\n")


def test_a_figure_without_a_value_disagrees() -> None:
    check = case("I-01").checks[0]
    assert not check.agrees(float("nan"))


def test_a_subject_that_nothing_calculates_is_refused() -> None:
    stray = replace(case("I-01"), subject="iodometry.ozone_from_titre")
    with pytest.raises(DataError, match="nothing calculates this subject") as error:
        compared([stray])
    assert "iodometry.ozone_from_titres" in error.value.fix


def test_a_figure_that_is_not_calculated_is_refused() -> None:
    stray = replace(case("I-01"), checks=(Check("ozon", 24.0, "mg", 0.005, "0.005 mg"),))
    with pytest.raises(DataError, match="not calculated"):
        compared([stray])


def test_a_guide_read_in_the_wrong_unit_is_refused() -> None:
    honest = case("Q-01")
    stray = replace(honest, checks=(replace(honest.checks[0], unit="g/L"),))
    with pytest.raises(DataError, match="another unit"):
        compared([stray])
