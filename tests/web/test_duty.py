"""The duty page."""

from __future__ import annotations

from web.in_process import Pages

STORY = {"on": "6 min", "off": "9 min", "time_constant": "4.6 min", "output": "0.62 g/h"}
HEAT = {"rise": "60 K", "ambient": "25 °C", "limit": "70 °C"}


def test_the_form_stands_alone_and_in_a_notebook(pages: Pages, bare: Pages) -> None:
    for client in (pages, bare):
        assert "How do you want to run it?" in client.get("/duty").text


def test_a_pattern_is_answered_with_figure_and_cautions(pages: Pages) -> None:
    """By hand as in tests/unit/test_duty.py."""
    text = pages.get("/duty", params=STORY | HEAT).text.replace("\u00a0", " ")
    for words in ("peaks at 70.46", "delivers 248", "Take care", "limit</text>", "delivers most"):
        assert words in text
    assert "% of the continuous one" in pages.get("/duty", params=STORY).text


def test_every_fault_is_at_its_field(pages: Pages) -> None:
    reply = pages.get("/duty", params={"on": "6", "off": "<b>9</b>"})
    assert reply.status_code == 422
    for place in ("on", "off", "time-constant"):
        assert f'id="{place}-mend"' in reply.text
    assert "<b>9</b>" not in reply.text


def test_every_question_is_named_on_every_page(pages: Pages) -> None:
    for path in ("/", "/runs", "/recipe"):
        text = pages.get(path).text
        assert 'href="/duty"' in text
        assert 'href="/recipe"' in text


def test_an_output_that_falls_has_its_figure(pages: Pages) -> None:
    falls = {"temperature_coefficient": "-0.4 %/K", "output_at": "warm"}
    text = pages.get("/duty", params=STORY | HEAT | falls).text.replace("\u00a0", " ")
    assert "delivers 277.7" in text
    assert "Output against time" in text
    reply = pages.get("/duty", params=STORY | HEAT | {"temperature_coefficient": "-0.4 %/K"})
    assert 'id="output-at-mend"' in reply.text
