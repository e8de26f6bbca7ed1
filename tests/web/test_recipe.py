"""The recipe page: steps with numbers in them, faults at their fields."""

from __future__ import annotations

from web.in_process import Pages

BASIC = {"output": "0.6 g/h", "titrant": "0.05 mol/L", "burette": "50 mL"}


def test_the_form_stands_alone_and_in_a_notebook(pages: Pages, bare: Pages) -> None:
    for client in (pages, bare):
        text = client.get("/recipe").text
        assert "How do you want to titrate?" in text


def test_wishes_are_answered_with_steps_and_cautions(pages: Pages) -> None:
    """By hand as in tests/unit/test_recipe.py: 130 s, 18.1 mL, 4.0 g."""
    text = pages.get("/recipe", params=BASIC).text.replace("\u00a0", " ")
    for words in ("2 min 10 s of gas", "18.1 ± 1.7 mL", "4.0 g of potassium iodide", "Take care"):
        assert words in text


def test_every_fault_is_at_its_field(pages: Pages) -> None:
    reply = pages.get("/recipe", params={"output": "0.6", "titrant": "strong"})
    assert reply.status_code == 422
    for place in ("output", "titrant", "burette"):
        assert f'id="{place}-mend"' in reply.text
    assert 'value="strong"' in reply.text


def test_a_plan_that_exceeds_the_burette_is_refused_with_the_change(pages: Pages) -> None:
    reply = pages.get("/recipe", params=BASIC | {"on_time": "20 min"})
    assert reply.status_code == 422
    assert "or use thiosulfate of about" in reply.text


def test_hostile_wishes_stay_text(pages: Pages) -> None:
    reply = pages.get("/recipe", params=BASIC | {"flow": "<b>1</b>"})
    assert "<b>1</b>" not in reply.text
