"""The recipe against sums done by hand, and its refusals."""

from __future__ import annotations

import re

import pytest

from ozonewright.bench.recipe import plan
from ozonewright.errors import Faults, Inconsistent
from ozonewright.results import plain
from ozonewright.show.recipe import recipe_sheet, recipe_text
from ozonewright.show.words import sentence

BASIC = {"output": "0.6 g/h", "titrant": "0.05 mol/L", "burette": "50 mL"}


def keys(**texts: str) -> dict[str, object]:
    return plain(plan(BASIC | texts), sentence)


def test_on_time_and_titre_by_hand() -> None:
    """0.6 g/h is 12.50 mmol/h; 17.5 mL × 0.05 mol/L ÷ 2 = 0.4375 mmol, 126 s, so 130 s.

    130 s give 0.4514 mmol and 2 × 0.4514 ÷ 0.05 = 18.06 mL (hand calculation).
    """
    found = keys()
    assert found["on_time_min"] == pytest.approx(130 / 60)
    assert found["titre_ml"] == pytest.approx(18.06, abs=0.005)
    assert found["ozone_mmol"] == pytest.approx(0.4514, abs=5e-5)


def test_iodide_is_the_published_strength_by_default() -> None:
    """200 mL of 20 g/L are 4.0 g, 24.10 mmol; 24.10 ÷ (2 × 0.4514) = 26.7 (hand calculation)."""
    found = keys()
    assert found["iodide_g"] == pytest.approx(4.0)
    assert found["volume_ml"] == pytest.approx(200.0)
    assert found["iodide_ratio"] == pytest.approx(26.7, abs=0.05)


def test_acid_covers_hydroxide_and_pH_with_margin() -> None:
    """2 × 0.4514 + 200 × 10^-2.5 = 1.535 mmol of protons; sulfuric acid gives 1.764 at pH 2.5.

    1.535 × 1.5 ÷ 1.764 = 1.306 mmol (hand calculation, pK 1.99 from memory).
    """
    assert keys()["acid_mmol"] == pytest.approx(1.306, abs=0.002)


def test_acid_solution_is_at_least_the_published_volume() -> None:
    assert keys(acid_strength="1 mol/L")["acid_solution_ml"] == pytest.approx(5.0)


def test_iodate_for_the_standardisation_by_hand() -> None:
    """17.5 mL × 0.05 ÷ 6 × 214.00 × 250 ÷ 10 = 0.7802 g (hand calculation)."""
    assert keys()["iodate_g"] == pytest.approx(0.7802, abs=5e-5)


def test_amount_rate_is_the_same_wish() -> None:
    assert keys(output="12.5008 mmol/h")["titre_ml"] == pytest.approx(18.06, abs=0.01)


def test_small_burette_gets_a_smaller_titre() -> None:
    found = keys(burette="10 mL", titrant="0.1 mol/L")
    assert 3.0 <= found["titre_ml"] <= 10.0  # type: ignore[operator]


@pytest.mark.parametrize(
    ("texts", "where", "says"),
    [
        ({"titrant": "0.004 mol/L", "burette": "10 mL"}, "titrant", "mol/L"),
        ({"iodide": "0.2 g"}, "iodide", "Weigh more"),
        ({"flow": "2 L/min"}, "flow", "1 L/min"),
        ({"on_time": "10 min"}, "on_time", "Run"),
        ({"acid": "acetic acid", "acid_strength": "1 mol/L"}, "acid", "stronger"),
    ],
)
def test_a_plan_that_exceeds_something_is_refused_with_the_change(
    texts: dict[str, str], where: str, says: str
) -> None:
    with pytest.raises(Inconsistent) as caught:
        plan(BASIC | texts)
    assert caught.value.where == where
    assert says in caught.value.fix


def test_every_fault_is_told_at_once() -> None:
    with pytest.raises(Faults) as caught:
        plan({"titrant": "0.05", "flow": "fast", "acid": "vinegar"})
    assert {fault.where for fault in caught.value} == {
        "titrant",
        "flow",
        "output",
        "burette",
        "acid",
    }


@pytest.mark.parametrize(
    ("texts", "code"),
    [
        ({"on_time": "40 s"}, "recipe-short"),
        ({"on_time": "40 s"}, "recipe-titre-small"),
        ({"on_time": "60 s", "titrant": "0.02 mol/L"}, "recipe-total-far"),
        ({"output": "0.6 g/h ± 50 %"}, "recipe-output-guessed"),
    ],
)
def test_notes_fire(texts: dict[str, str], code: str) -> None:
    assert code in {note.code for note in plan(BASIC | texts).notes}


def test_a_sound_plan_has_no_notes() -> None:
    assert plan(BASIC | {"output": "0.6 g/h ± 5 %", "flow": "0.8 L/min"}).notes == ()


def test_text_and_sheet_say_the_same_numbers() -> None:
    found = plan(BASIC | {"acid_strength": "1 mol/L"})
    text, sheet = " ".join(recipe_text(found).split()), recipe_sheet(found)
    for words in ("2 min 10 s", "18.1", "4.0 g", "5 mL of sulfuric acid"):
        assert words in text
        assert words in sheet


def test_sheet_holds_no_markup_of_the_user() -> None:
    assert not re.search(r"<(script|link|img)", recipe_sheet(plan(BASIC)))
