"""The gas-line page: a rig of the notebook, its values moved, or a document from the address."""

from __future__ import annotations

import re
import tomllib

import pytest

from ozonewright.notebook import Notebook
from unit.rigs import DESIGN
from web.in_process import Pages

RIG = DESIGN.replace('"pump air, long thin line"', '"bench"')
"""The rig of the design, section 4: about 1.87 L/min; with 4 mm bore about 2.09 L/min, by hand."""


@pytest.fixture
def lined(pages: Pages) -> Pages:
    """The pages of a notebook that holds the rig of the design, and another."""
    with Notebook.open(pages.file) as notebook:
        notebook.add("rig", tomllib.loads(RIG.replace('"bench"', '"other"')))
        notebook.add("rig", tomllib.loads(RIG))
    return pages


def flow(text: str) -> float:
    """Return the answer of the page."""
    found = re.search(r'<h1 class="answer"><span>([\d.]+)', text)
    assert found
    return float(found[1])


def test_the_line_of_the_last_rig_is_answered_and_drawn(lined: Pages) -> None:
    text = lined.get("/gas-line").text
    assert flow(text) == pytest.approx(1.87, abs=0.05)
    assert text.count("<svg") == 2
    for words in ("What would bring more", "bottleneck", "kPa gauge", "other"):
        assert words in text


def test_a_value_moved_shows_what_flows_and_keeps_the_rig(lined: Pages) -> None:
    asked = {"rig": "bench", "part[2].bore": "4 mm", "part[2].length": "1 m"}
    text = lined.get("/gas-line", params=asked).text.replace("\u00a0", " ")
    assert flow(text) == pytest.approx(2.09, abs=0.05)
    assert "With line, bore 4 mm instead of 2 mm. As the rig stands: 1.8" in text
    assert 'value="4 mm"' in text
    with Notebook.open(lined.file, read_only=True) as notebook:
        assert notebook.get("bench").data["part"][1]["bore"] == "2 mm"


def test_a_moved_value_that_cannot_be_is_told_at_its_field(lined: Pages) -> None:
    reply = lined.get("/gas-line", params={"rig": "bench", "part[2].bore": "0 mm"})
    assert reply.status_code == 422
    assert 'id="part-2-bore-mend"' in reply.text
    assert 'value="0 mm"' in reply.text


def test_too_deep_is_no_flow_and_says_so(lined: Pages) -> None:
    text = lined.get("/gas-line", params={"rig": "bench", "part[5].depth": "3 m"}).text
    assert "No flow" in text


def test_another_rig_can_be_asked_for(lined: Pages) -> None:
    text = lined.get("/gas-line", params={"rig": "other"}).text
    assert "Move a value of other" in text
    assert lined.get("/gas-line", params={"rig": "nothing"}).status_code == 404


def test_a_notebook_without_a_rig_says_what_to_do(pages: Pages) -> None:
    assert 'href="/new-rig"' in pages.get("/gas-line").text


def test_without_a_notebook_a_document_is_answered(bare: Pages) -> None:
    assert "What flows through your line?" in bare.get("/gas-line").text
    text = bare.get("/gas-line", params={"document": RIG}).text
    assert flow(text) == pytest.approx(1.87, abs=0.05)
    assert "Move a value" not in text


def test_a_document_with_faults_comes_back_as_typed(bare: Pages) -> None:
    reply = bare.get("/gas-line", params={"document": RIG.replace('"2 mm"', '"0 mm"')})
    assert reply.status_code == 422
    assert "part[2].bore" in reply.text
    assert "1 to mend" in reply.text
    assert bare.get("/gas-line", params={"document": "no TOML"}).status_code == 422


def test_home_and_rig_show_the_flow(lined: Pages) -> None:
    for path in ("/", "/rig/bench"):
        text = lined.get(path).text
        assert "at the room&#39;s conditions" in text
        assert "kPa gauge" in text


def test_a_rig_without_an_answer_is_drawn_all_the_same(pages: Pages) -> None:
    table = tomllib.loads(RIG)
    table["part"] = table["part"][1:]  # no supplier
    with Notebook.open(pages.file) as notebook:
        notebook.add("rig", table)
    text = pages.get("/").text
    assert text.count("<svg") == 2
    assert "No flow can be worked out" in text
