"""Drift with a warming that heat or a fitted generator has told, and without."""

from __future__ import annotations

from collections.abc import Iterator
from math import exp
from pathlib import Path

import numpy as np
import pytest

from ozonewright.bench.drift import About, drift_of_points
from ozonewright.bench.drift_warmth import warmth_of_log
from ozonewright.bench.notebook import add_table
from ozonewright.documents.load import read_text
from ozonewright.errors import AppError, Faults
from ozonewright.notebook import Notebook
from ozonewright.physics.generator.falling import cold_excess
from ozonewright.questions.drift import Drift, Known, SeriesRun
from ozonewright.questions.drift.cause import parameter
from ozonewright.questions.drift.causes import BY_NAME
from ozonewright.questions.drift.series import Facts, Rig
from ozonewright.questions.drift.setup import facts_of
from ozonewright.questions.drift.warmth import cooling, excesses, settling
from ozonewright.references.priors import prior
from ozonewright.show.words import sentence
from unit.test_duty import log
from unit.test_duty_output import written


def facts(**known: Known) -> Facts:
    runs = [SeriesRun("a", 120.0, 1e-4, 1e-6), SeriesRun("b", 240.0, 2e-4, 1e-6)]
    return facts_of(runs, Rig(**known), order=True)


def test_nothing_known_leaves_the_table_as_it_is() -> None:
    falls = prior("WARMING_FALLS").centre.value
    assert settling(facts()) == parameter("settling", "SETTLING")
    assert cooling(facts()) == parameter("cooling", "COOLING")
    assert excesses(facts()) == (
        (falls, parameter("excess", "WARMING")),
        (1.0 - falls, parameter("excess", "WARMING", "below")),
    )


def test_what_is_known_takes_the_place_of_the_guess() -> None:
    found = facts(settling=Known(276.0, 27.6), excess=Known(0.12, 0.012))
    # by hand: 10 % stated and 20 % of the table; 10 % and 30 %
    assert settling(found).centre == 276.0
    assert settling(found).spread == pytest.approx((0.1**2 + 0.2**2) ** 0.5)
    assert cooling(found).centre == 1.0
    (chance, falling), (other, _) = excesses(found)
    assert falling.centre == 0.12
    assert falling.spread == pytest.approx((0.1**2 + 0.3**2) ** 0.5)
    # nothing is ruled out beforehand
    assert chance == pytest.approx(0.999)
    assert other == pytest.approx(0.001)


def test_an_output_that_rises_comes_first_and_doubt_keeps_both() -> None:
    rising = excesses(facts(excess=Known(-0.2, 0.02)))
    assert [one.shape for _, one in rising] == ["below", "log"]

    assert rising[0][1].value(np.array([0.0]))[0] == pytest.approx(-0.2)
    doubtful = excesses(facts(excess=Known(0.0, 0.05)))
    assert [chance for chance, _ in doubtful] == pytest.approx([0.5, 0.5])
    assert doubtful[0][1].spread == parameter("excess", "WARMING").spread


def cold_runs(excess: float, minutes: float) -> list[str]:
    """Points of 10 mg/min with a cold output that settles, by its closed form."""
    return [
        f"{t} min: {10.0 * (t + excess * minutes * (1.0 - exp(-t / minutes))):.2f} mg ± 0.3"
        for t in (1, 2, 4, 8, 12)
    ]


def chance(found: Drift, name: str) -> float:
    """A group that is not listed is below a thousandth."""
    return next((row.probability or 0.0 for row in found.groups if row.group == name), 0.0)


def test_known_warmth_moves_the_verdict() -> None:
    """A surplus of 35 % that settles in 3 min; then a tube that can't do that."""
    points = cold_runs(0.35, 3.0)
    plain, right, wrong = (
        chance(drift_of_points(points, About(texts, "cold", True)), "warming")
        for texts in (
            {},
            {"time_constant": "3.0 min ± 0.2 min", "cold_excess": "35 % ± 4 points"},
            {"cold_excess": "0.5 % ± 0.2 points"},
        )
    )
    assert wrong < 0.3 * plain
    assert right > plain


def test_what_was_taken_is_told() -> None:
    about = About({"time_constant": "4.6 min ± 0.3 min", "cold_excess": "-5 % ± 1 points"})
    found = drift_of_points(cold_runs(0.1, 3.0)[:3], about)
    said = " ".join(sentence(note) for note in found.assumed)
    assert "4.60 ± 0.30 min" in said
    assert "5.0 % less" in said
    with pytest.raises(Faults, match="cold_excess"):
        drift_of_points(["1 min: 1 mg", "2 min: 2 mg"], About({"cold_excess": "-120 %"}))
    assert "cold-start" in BY_NAME


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Notebook]:
    with Notebook.create(tmp_path / "b.sqlite", "bench") as notebook:
        yield notebook


def test_a_log_and_a_fit_tell_it(book: Notebook) -> None:
    runs = [written("cold", "0.60 g/h ± 1 %", "30 °C"), written("warm", "0.54 g/h ± 1 %", "80 °C")]
    add_table(book, read_text("".join(runs)))
    alone = warmth_of_log(log((60.0, 4.6)))
    assert alone.keys() == {"settling"}
    assert alone["settling"].value == pytest.approx(276.0, rel=0.02)
    found = warmth_of_log(log((60.0, 4.6)), book, "oxygen")
    # read: 0.60 at 30 °C and 0.54 at 80 °C are 11 % over 50 K
    assert 0.02 < found["excess"].value < 0.16
    assert found["excess"].u > 0.0


def test_runs_that_tell_no_map_leave_the_excess_open(book: Notebook) -> None:
    add_table(book, read_text(written("a", "0.5 g/h", flow="")))
    assert warmth_of_log(log((60.0, 4.6)), book, "oxygen").keys() == {"settling"}


@pytest.mark.parametrize("text", ["\n", "time (min), temperature (°C)\n1,20\n0,21"])
def test_a_faulty_log_is_told(text: str) -> None:
    with pytest.raises(AppError, match="log"):
        warmth_of_log(text)


def test_the_excess_by_hand() -> None:
    # 1 + 0.004 · 30 over 1 - 0.004 · 30, at a reference halfway: 1.12 / 0.88 - 1
    assert cold_excess(coefficient=-0.004, cold=-30.0, rise=60.0) == pytest.approx(
        0.27273, abs=1e-5
    )
