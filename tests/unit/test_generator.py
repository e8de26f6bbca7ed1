"""The generator question: fit, predictions, changes, wishes, what it refuses and what it says."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from ozonewright.errors import Inconsistent, NotConverged
from ozonewright.questions.generator import Generator, Price, Question, TubeRun, Wish, generator
from ozonewright.questions.generator.fit import fitted
from ozonewright.questions.generator.lumped import unknowns_of
from ozonewright.questions.generator.model import modelled
from ozonewright.uncertain import Estimate
from unit.tubes import point, tube

GRAM_PER_HOUR = 1e-3 / 3600.0
SEVERAL = (
    tube("slow", point(0.4), 0.500),
    tube("usual", point(0.8), 0.560),
    tube("cool", point(0.8, wall=305.0), 0.580),
    tube("fast", point(2.0), 0.590),
    tube("air", point(0.8, feed="air"), 0.240),
)


def asked(runs: tuple[TubeRun, ...] = SEVERAL, **changed: Any) -> Generator:
    at = changed.pop("point", runs[-1].point)
    return generator(Question(runs, at, **changed))


def codes(found: Generator) -> set[str]:
    return {note.code for note in found.notes}


@pytest.fixture(scope="module")
def several() -> Generator:
    return asked(
        point=SEVERAL[1].point,
        prices={"cooler wall": Price(15.0, "EUR"), "second tube beside": Price(0.0, "EUR")},
        wishes=(
            Wish("concentration", 0.5 * 14.0 * 22.41397e-6),
            Wish("output", 0.5 * GRAM_PER_HOUR),
            Wish("output", 50.0 * GRAM_PER_HOUR),
            Wish("cost", gas_price=0.2, energy_price=1e-7, currency="EUR"),
        ),
    )


def test_the_fit_goes_through_the_runs(several: Generator) -> None:
    for row in several.runs:
        assert row.ratio == pytest.approx(1.0, abs=0.08)
    assert isinstance(several.rate, Estimate)
    low, high = several.rate.interval
    assert low < 0.560 * GRAM_PER_HOUR < high
    assert several.rate.u < 0.1 * several.rate.value


def test_figures_of_a_place_belong_together(several: Generator) -> None:
    rate, strength, flow = several.rate, several.concentration, several.flow
    assert isinstance(rate, Estimate)
    assert isinstance(strength, Estimate)
    assert isinstance(several.energy_yield, Estimate)
    assert flow is not None
    # by hand: ozonised gas is the feed less half the ozone, in moles
    moles = flow - 0.5 * rate.value / 0.047997
    assert strength.value == pytest.approx(rate.value / moles, rel=1e-3)
    assert several.energy_yield.value == pytest.approx(rate.value / 38.0, rel=1e-3)
    assert several.specific_energy == pytest.approx(38.0 / flow)


def test_what_the_runs_tell_of_the_tube(several: Generator) -> None:
    told = {row.name: row.told for row in several.lumped}
    assert told["efficiency"] > 0.95
    assert told["gap"] < 0.3


def test_changes_have_the_right_signs_and_the_cheap_gain_leads(several: Generator) -> None:
    ratios = {row.change: row.ratio.value for row in several.upgrades}
    assert ratios["twice the flow"] > 1.0 > ratios["half the flow"]
    assert ratios["cooler wall"] > 1.0
    assert ratios["second tube beside"] > 1.2
    assert "oxygen feed" not in ratios
    assert "dry feed" not in ratios
    assert several.upgrades[0].change == "cooler wall"
    assert several.upgrades[0].gain_per_price > 0.0
    assert several.upgrades[1].gain_per_price is None


def test_wishes_are_served_or_refused(several: Generator) -> None:
    strong, enough, too_much, cheap = several.best
    assert isinstance(strong.concentration, Estimate)
    assert strong.concentration.value >= 0.5 * 14.0 * 22.41397e-6
    assert isinstance(enough.rate, Estimate)
    assert enough.rate.value >= 0.5 * GRAM_PER_HOUR
    assert enough.flow < SEVERAL[1].point.flow
    assert too_much.flow is None
    assert cheap.cost > 0.0
    assert cheap.currency == "EUR"


def test_a_run_to_make_is_named(several: Generator) -> None:
    shares = [row.share for row in several.sharper]
    assert shares == sorted(shares, reverse=True)
    assert all(0.0 <= share <= 1.0 for share in shares)
    assert several.next[0].values["run"] == several.sharper[0].change


def test_air_is_told_of_its_oxides_and_of_oxygen() -> None:
    found = asked()
    assert isinstance(found.nox, Estimate)
    assert found.nox.value > 0.0
    ratios = {row.change: row.ratio for row in found.upgrades}
    assert ratios["oxygen feed"].interval[0] > 1.5
    assert {"generator-nox", "generator-poisoned"} & codes(found)


def test_one_run_gives_a_wide_answer_that_says_why() -> None:
    found = asked((tube("only", point(0.8, wall=None), 0.5),))
    assert "generator-one-run" in codes(found)
    assert "generator-wall-unknown" in codes(found)
    assert "electrical.wall" in found.unknowns
    assert found.wall is None
    twice = next(row.ratio for row in found.upgrades if row.change == "twice the flow")
    assert twice.interval[1] - twice.interval[0] > 0.1


def test_one_flow_is_named() -> None:
    runs = tuple(tube(name, point(0.8), 0.5) for name in "ab")
    assert "generator-one-flow" in codes(asked(runs))


def test_without_power_there_is_no_efficiency() -> None:
    runs = (tube("a", point(0.8, power=None), 0.5), tube("b", point(2.0, power=None), 0.55))
    found = asked(runs)
    assert found.efficiency is None
    assert found.energy_yield is None
    assert "electrical.power" in found.unknowns
    assert "generator-no-power" in codes(found)
    assert "half more power" not in {row.change for row in found.upgrades}
    assert isinstance(found.rate, Estimate)
    assert found.rate.interval[0] < 0.55 * GRAM_PER_HOUR < found.rate.interval[1]


def test_damp_that_nobody_read_is_named() -> None:
    found = asked((tube("a", point(0.8, feed="air", water=None), 0.2),))
    assert "generator-damp-unknown" in codes(found)
    assert "dry feed" in {row.change for row in found.upgrades}


def test_far_places_and_other_feeds_are_said_to_be() -> None:
    runs = SEVERAL[:2]
    found = asked(runs, point=replace(point(9.0, feed="air"), power=100.0))
    assert {"generator-extrapolated", "generator-other-feed"} <= codes(found)


def test_power_at_the_discharge_is_its_own_basis() -> None:
    runs = (
        tube("plug", point(0.8), 0.5),
        tube("gap", replace(point(2.0), power=20.0, power_at="discharge"), 0.55),
    )
    assert "supply" in unknowns_of([run.point for run in runs]).names
    alone = (replace(runs[1], label="alone"),)
    assert asked(alone).power_at == "discharge"
    assert unknowns_of([alone[0].point]).basis == "discharge"


@pytest.mark.parametrize(("litres", "grams"), [(0.8, 60.0), (0.01, 1.5)])
def test_impossible_outputs_are_refused(litres: float, grams: float) -> None:
    with pytest.raises(Inconsistent, match="more ozone than"):
        asked((tube("odd", point(litres), grams),))


def test_two_tubes_in_a_row_are_one_of_twice_the_gap_and_power() -> None:
    lumped = unknowns_of([point(0.8)])
    zero = np.zeros((1, len(lumped.names)))
    one, row, beside = (
        modelled(lumped, zero, [place]).rate[0, 0]
        for place in (point(0.8), point(0.8, series=2.0), point(1.6, parallel=2.0))
    )
    assert one < row < 2.0 * one
    assert beside == pytest.approx(2.0 * one)


@pytest.mark.slow
def test_intervals_hold_what_made_the_runs() -> None:
    """Worlds drawn from what is thought beforehand: 95 % intervals hold about 95 % of truths."""
    places = [point(0.4), point(0.8, wall=345.0), point(0.8, wall=310.0), point(2.0), point(2.0)]
    wanted = [point(1.2, wall=320.0), point(4.0), point(0.3)]
    lumped = unknowns_of([*places, *wanted])
    efficiency, scatter = (lumped.names.index(name) for name in ("efficiency", "scatter"))
    held = []
    for seed in range(16):
        random = np.random.default_rng(seed)
        truth = random.standard_normal((1, len(lumped.names)))
        truth[0, efficiency] = min(truth[0, efficiency], 2.0)
        spread = np.hypot(lumped.values(truth)["scatter"][0, 0], 0.01)
        rates = modelled(lumped, truth, places).rate[0]
        rates = rates * np.exp(spread * random.standard_normal(len(places)))
        runs = [
            tube(str(number), place, rate * 47.997 * 3600.0)
            for number, (place, rate) in enumerate(zip(places, rates, strict=True))
        ]
        draws = fitted(runs, wanted).draws
        low, high = np.percentile(modelled(lumped, draws, wanted).rate, (2.5, 97.5), axis=0)
        true = modelled(lumped, truth, wanted).rate[0]
        held.append((low <= true) & (true <= high))
        own = np.percentile(draws[:, [efficiency, scatter]], (2.5, 97.5), axis=0)
        held[-1] = np.append(
            held[-1], (own[0] <= truth[0, [0, scatter]]) & (truth[0, [0, scatter]] <= own[1])
        )
    share = float(np.mean(held))
    # 80 intervals, five of each world tied: one standard deviation is about 0.04
    assert 0.85 < share < 1.0


def test_runs_that_no_thought_generator_makes_are_refused() -> None:
    """A wall at which all gas burns, of a run that gave ozone."""
    with pytest.raises(NotConverged, match="no generator that is thought of"):
        asked((tube("odd", point(0.8, wall=700.0), 0.5),))


def test_a_poisoned_run_is_fitted_too() -> None:
    """A run in air near its end: 0.8 mg/h beside 0.75 g/h at more flow."""
    runs = (
        tube("slow", point(0.6, feed="air"), 0.0008),
        tube("warm", point(1.5, feed="air", wall=345.0), 0.1631),
        tube("usual", point(1.5, feed="air"), 0.3316),
        tube("fast", point(4.0, feed="air"), 0.7482),
    )
    found = asked(runs)
    assert isinstance(found.rate, Estimate)
    low, high = found.rate.interval
    assert low < 0.7482 * GRAM_PER_HOUR < high
    assert found.moved > 0.02
