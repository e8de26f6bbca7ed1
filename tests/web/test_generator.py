"""The generator page."""

from __future__ import annotations

from web.in_process import Pages


def test_the_form_stands_alone_and_in_a_notebook(pages: Pages, bare: Pages) -> None:
    assert "Where does the generator run?" in pages.get("/generator").text
    assert "This needs runs" in bare.get("/generator").text


def test_a_place_is_answered_with_map_changes_and_notes(pages: Pages) -> None:
    place = {"at": "flow=1.2 L/min, wall=45 °C", "prices": "cooler wall=15 EUR"}
    reply = pages.get("/generator", params=place | {"output": "0.1 g/h"})
    text = reply.text.replace("\u00a0", " ")
    assert reply.status_code == 200
    for words in (
        'class="band"', "What a change would bring", "twice the flow", "for 1 EUR",
        "output, g/h", "Output over flow and tube temperature", "In words, and to save",
        "least gas that is enough ozone", "never known",
    ):  # fmt: skip
        assert words in text, words


def test_every_fault_is_at_its_field(pages: Pages) -> None:
    reply = pages.get("/generator", params={"at": "flow=<b>fast</b>", "output": "much"})
    assert reply.status_code == 422
    assert 'id="output-mend"' in reply.text
    assert "<b>fast</b>" not in reply.text
