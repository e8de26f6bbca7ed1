"""The pages of comparison and claim."""

from __future__ import annotations

import pytest

from ozonewright.demo.truth import AIR, OXYGEN
from web.in_process import Pages

LISTS = {
    "first": "oxygen",
    "first_rates": "0.62 g/h; 0.61 g/h; 0.63 g/h",
    "second": "dry air",
    "second_rates": "0.30 g/h; 0.31 g/h; 0.32 g/h",
}


def plain(text: str) -> str:
    return text.replace("\u00a0", " ")


def test_two_lists_without_a_notebook(bare: Pages) -> None:
    """0.62 ÷ 0.31 = 2."""
    assert "Which two do you want to compare?" in bare.get("/compare").text
    text = plain(bare.get("/compare", params=LISTS).text)
    for words in ("2.000 ±", "told apart", "oxygen over dry air", "Output of every run", "flow"):
        assert words in text


def test_a_notebook_of_one_setting_takes_lists_too(pages: Pages) -> None:
    assert 'name="first_rates"' in pages.get("/compare").text


def test_two_settings_of_the_notebook(example: Pages) -> None:
    assert 'name="first_rates"' not in example.get("/compare").text
    half = example.get("/compare", params={"first": AIR})
    assert half.status_code == 200
    asked = {"first": OXYGEN, "second": AIR, "difference": "5 %"}
    text = plain(example.get("/compare", params=asked).text)
    for words in ("What differs", "oxygen in the feed", "93 vol%", "per oxygen fed", "Sources"):
        assert words in text


@pytest.mark.parametrize(
    ("change", "place"),
    [
        ({"first_rates": "0.62"}, "first-rates"),
        ({"second_rates": "0.30 g/h; <i>2</i>"}, "second-rates"),
        ({"second_rates": ""}, "second-rates"),
        ({"second": "oxygen"}, "second"),
        ({"difference": "five"}, "difference"),
    ],
)
def test_faults_of_a_comparison_are_at_their_field(
    bare: Pages, change: dict[str, str], place: str
) -> None:
    reply = bare.get("/compare", params=LISTS | change)
    assert reply.status_code == 422
    assert f'id="{place}-mend"' in reply.text
    assert "<i>" not in reply.text


def test_a_setting_beside_itself_is_refused(example: Pages) -> None:
    reply = example.get("/compare", params={"first": AIR, "second": AIR})
    assert reply.status_code == 422
    assert "not compared with itself" in reply.text


def test_a_label_without_a_notebook(bare: Pages) -> None:
    """0.53 of 4 g/h is 13 %; 4 g/h over 41 W is 97.6 g/kWh."""
    assert "What does the label say?" in bare.get("/claim").text
    asked = {"label": "4 g/h", "run.rate": "0.53 g/h ± 0.01", "electrical.power": "41 W"}
    text = plain(bare.get("/claim", params=asked).text)
    for words in ("13 %", "not at this setting", "97.6 ± 1.4 g/kWh", "Feed not stated"):
        assert words in text


def test_a_label_beside_a_setting(example: Pages) -> None:
    text = plain(example.get("/claim", params={"label": "4 g/h", "setting": AIR}).text)
    for words in ("4.8 %", "measured below", "small air-cooled tube on room air", "from memory"):
        assert words in text
    typed = example.get("/claim", params={"label": "4 g/h", "run.rate": "0.53 g/h"})
    assert "4.8" not in plain(typed.text).partition("Next")[0]


@pytest.mark.parametrize(
    ("asked", "place"),
    [
        ({"label": "4"}, "label"),
        ({"run.rate": "0.53 g/h"}, "label"),
        ({"label": "4 g/h", "run.rate": "0.53"}, "run-rate"),
        ({"label": "4 g/h", "run.rate": "1 g/h", "electrical.power": "41"}, "electrical-power"),
    ],
)
def test_faults_of_a_claim_are_at_their_field(
    bare: Pages, asked: dict[str, str], place: str
) -> None:
    reply = bare.get("/claim", params=asked)
    assert reply.status_code == 422
    assert f'id="{place}-mend"' in reply.text


def test_both_are_named_among_the_questions(pages: Pages) -> None:
    text = pages.get("/").text
    assert 'href="/compare"' in text
    assert 'href="/claim"' in text
