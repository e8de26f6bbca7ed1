"""The bench story of drift, clause by clause, and what must never be answered."""

from __future__ import annotations

import pytest

from ozonewright.bench.drift import About, drift_of, drift_of_points
from ozonewright.errors import AppError, Faults, Inconsistent, MissingValue
from ozonewright.questions.drift import Drift
from ozonewright.show.drift import drift_text
from ozonewright.units import Kind, number

STORY = ["2 min: 0.92 g/h", "4 min: 0.81 g/h", "8 min: 0.76 g/h"]


@pytest.fixture(scope="module")
def story() -> Drift:
    return drift_of_points(STORY)


def of(found: Drift, cause: str):  # type: ignore[no-untyped-def]
    return next(row for row in found.causes if row.cause == cause)


def test_a_line_with_a_surplus_of_about_seven_milligrams(story: Drift) -> None:
    """By hand: increments 23.33 mg in 2 min and 47.33 mg in 4 min, so 11.7 mg/min and 7 mg."""
    assert story.fit is not None
    assert story.fit.intercept is not None
    assert story.fit.slope is not None
    assert number(story.fit.intercept.value, Kind.MASS, "mg") == pytest.approx(7.1, abs=0.3)
    assert number(story.fit.slope.value, Kind.MASS_RATE, "mg/min") == pytest.approx(11.75, abs=0.1)
    assert of(story, "blank-surplus").status == "fits"


def test_a_generator_that_settles_fits_too(story: Drift) -> None:
    assert {of(story, name).status for name in ("cold-start", "carried-warming")} == {"fits"}


def test_three_points_cannot_tell(story: Drift) -> None:
    assert not story.determined
    assert story.verdict is None
    assert story.threshold == 0.95


def test_hold_up_has_the_wrong_sign(story: Drift) -> None:
    row = of(story, "hold-up")
    assert (row.status, row.ruled_out) == ("wrong sign", True)
    assert row.probability is not None
    assert 0.0 < row.probability < 0.001


def test_iodine_carried_off_is_too_small(story: Drift) -> None:
    assert of(story, "iodine-loss").status == "too small"
    assert "absorber.bottles.potassium_iodide" in story.unknowns


def test_the_cheapest_is_a_field_blank_with_its_millilitres(story: Drift) -> None:
    """7.1 mg over 2.400 mg/mL of 0.1 mol/L is 2.9 mL."""
    row = next(row for row in story.next if row.cheapest)
    assert (row.discharge, row.on_time) == ("off", 120.0)
    assert number(row.titre["blank-surplus"], Kind.VOLUME, "mL") == pytest.approx(2.9, abs=0.15)
    others = [titre for cause, titre in row.titre.items() if cause != "blank-surplus"]
    assert max(number(titre, Kind.VOLUME, "mL") for titre in others) < 0.2
    assert len(others) >= 4


def test_then_a_diverted_run_tells_which(story: Drift) -> None:
    row = next(row for row in story.next if row.cheapest)
    assert row.then is not None
    assert (row.then.values["start"], row.then.values["on_time"]) == ("diverted", 30.0)


def test_what_cannot_be_seen_is_not_given_a_probability(story: Drift) -> None:
    for name in ("slip", "aerial-oxidation"):
        assert (of(story, name).status, of(story, name).probability) == ("can't be told", None)


def test_probabilities_sum_to_one(story: Drift) -> None:
    assert sum(row.probability for row in story.groups) == pytest.approx(1.0, abs=0.02)
    assert sum(row.probability for row in story.classes) == pytest.approx(1.0, abs=0.02)


def test_the_text_says_it(story: Drift) -> None:
    text = " ".join(drift_text(story).split())
    assert text.startswith("not determined. A line with a surplus of about 7 mg (a blank")
    for part in (
        "so does a generator that settles; three points can't tell.",
        "gas held in the line (wrong sign)",
        "Too small if the trap is the usual one: iodine carried off; say yours.",
        "gas on, discharge off, same bottle, 2 min: about 2.9 mL of 0.1 mol/L means a blank",
        "below 0.20 mL means the generator or handling",
        "then a diverted run of 30 s",
    ):
        assert part in text


def test_the_same_input_gives_the_same_answer(story: Drift) -> None:
    assert drift_of_points(STORY) == story


def test_a_field_blank_settles_it() -> None:
    """A blank of 7 mg read by itself, as 2.9 mL of 0.1 mol/L."""
    found = drift_of_points(STORY, About(field_blanks=("4 min: 7.0 mg",), in_order=True))
    assert found.verdict == "blank-surplus"
    assert of(found, "timing-surplus").ruled_out


def test_an_empty_field_blank_clears_the_blank() -> None:
    found = drift_of_points(STORY, About(field_blanks=("4 min: 0.0 mg ± 0.1 mg",)))
    assert (of(found, "blank-surplus").probability or 0.0) < 0.001
    assert found.verdict != "blank-surplus"


def test_iodide_and_flow_that_are_stated_leave_no_room_for_the_trap() -> None:
    about = About({"iodide": "4 g", "flow": "1 L/min", "volume": "200 mL"})
    found = drift_of_points(STORY, about)
    assert (of(found, "iodine-loss").probability or 0.0) < 1e-5
    assert "gas.flow" not in found.unknowns


def test_titres_need_a_titrant() -> None:
    """12.78 mL of 0.1 mol/L is 30.67 mg, by hand."""
    texts = ["2 min: 12.78 mL", "4 min: 22.50 mL"]
    with pytest.raises(AppError, match="titrant"):
        drift_of_points(texts)
    found = drift_of_points(texts, About({"titrant": "0.1 mol/L"}))
    assert found.points[0].ozone is not None
    assert number(found.points[0].ozone, Kind.MASS, "mg") == pytest.approx(30.67, abs=0.01)


def test_runs_that_rise_with_time_are_no_blank() -> None:
    """By hand: 18 s of hold-up at 10 mg/min take 3 mg off every run."""
    found = drift_of_points(
        ["2 min: 17.0 mg ± 0.1 mg", "4 min: 37.0 mg ± 0.2 mg", "8 min: 77.0 mg ± 0.4 mg"]
    )
    assert of(found, "blank-surplus").status == "wrong sign"
    assert of(found, "hold-up").status == "fits"


def test_one_run_is_refused() -> None:
    with pytest.raises(MissingValue, match="two runs"):
        drift_of_points(["2 min: 0.92 g/h"])


def test_no_run_is_refused() -> None:
    with pytest.raises(MissingValue, match="no run made ozone"):
        drift_of_points([])


def test_equal_times_answer_without_a_line() -> None:
    found = drift_of_points(["4 min: 36 mg ± 0.2 mg", "4 min: 36.1 mg ± 0.2 mg"])
    assert found.fit is None
    assert not found.determined
    assert {note.code for note in found.notes} >= {"drift-same-minutes", "drift-two-runs"}


def test_runs_that_contradict_each_other_are_scatter_or_misread() -> None:
    found = drift_of_points(
        ["4 min: 36 mg ± 0.2 mg", "4 min: 60 mg ± 0.2 mg", "4 min: 36.2 mg ± 0.2 mg"]
    )
    assert max(found.causes, key=lambda row: row.probability or 0.0).cause == "misread"
    assert (of(found, "steady").probability or 0.0) < 0.001


def test_no_time_is_refused() -> None:
    with pytest.raises(Faults, match="must be above 0"):
        drift_of_points(["0 min: 0.92 g/h", "4 min: 0.81 g/h"])


def test_a_rate_and_a_mass_that_disagree_are_refused() -> None:
    table = {"run": [{"on_time": "4 min", "collected": "36 mg", "rate": "0.80 g/h"},
                     {"on_time": "2 min", "collected": "18 mg", "rate": "0.54 g/h"}]}  # fmt: skip
    with pytest.raises(Faults, match="the rate and the ozone of this run disagree"):
        drift_of([table])


def test_runs_of_two_settings_are_refused() -> None:
    table = {"run": [{"on_time": "4 min", "collected": "36 mg", "setting": name} for name in "ab"]}
    with pytest.raises(Inconsistent, match="more than one setting"):
        drift_of([table])
