"""Rigs as pages: drawn, new, corrected, copied; the drawing on the home page."""

from __future__ import annotations

import re
import tomllib
from html import unescape

import pytest

from ozonewright.notebook import Notebook
from web.in_process import Pages, client_of, run_table

RIG = """[rig]
label = "bench 1"
[[part]]
name = "pump"
kind = "pump"
free_flow = "3.0 L/min"
shut_off = "18 kPa"
[[part]]
name = "generator"
kind = "discharge tube"
bore = "30 mm"
length = "20 cm"
[[part]]
name = "flask"
kind = "bottle"
liquid = "water"
volume = "200 mL"
depth = "15 cm"
"""


@pytest.fixture
def drawn(pages: Pages) -> Pages:
    """The pages of a notebook that holds a rig."""
    with Notebook.open(pages.file) as notebook:
        notebook.add("rig", tomllib.loads(RIG))
    return pages


def written(pages: Pages, path: str) -> str:
    """Return the document that a form offers."""
    found = re.search(r"<textarea[^>]*>\n(.*?)</textarea>", pages.get(path).text, re.S)
    assert found
    return unescape(found[1])


def test_a_notebook_without_a_rig_offers_to_draw_one(pages: Pages) -> None:
    text = pages.get("/").text
    assert "/new-rig" in text
    assert "drawing.css" not in text


def test_the_example_of_the_form_is_a_rig_and_can_be_kept(pages: Pages) -> None:
    document = written(pages, "/new-rig")
    reply = pages.send("/new-rig", {"document": document})
    assert reply.status_code == 303
    assert "Kept." in pages.get(reply.headers["location"]).text
    text = pages.get("/").text
    for part in tomllib.loads(document)["part"]:
        assert part["name"] in text or part["kind"] == "sparger"


def test_home_is_the_drawing(drawn: Pages) -> None:
    text = drawn.get("/").text
    assert text.count("<svg") == 2
    assert 'href="/drawing.css"' in text
    assert "bench 1" in text
    assert "As last time, but" in text
    assert "g/Nm³" not in text.split("<figure")[1].split("</figure>")[0]  # no run names the rig


def test_home_has_the_concentration_of_the_run_that_names_the_rig(drawn: Pages) -> None:
    """12.1 g/Nm³: the worked run of the design, by hand; P1 was made with that rig."""
    with Notebook.open(drawn.file) as notebook:
        notebook.add("run", run_table("P1", "240 s", "28.46 mL", rig="bench 1", setting="P"))
    figure = drawn.get("/").text.split("<figure")[1].split("</figure>")[0]
    assert "Concentration: run P1, fed with" in figure
    assert re.search(r">12\.[01]<", figure)
    assert "not measured" in figure


def test_a_rig_alone_makes_a_home_page(bare: Pages) -> None:
    with Notebook.create(bare.file, "new") as notebook:
        notebook.add("rig", tomllib.loads(RIG))
    with client_of(bare.file, bare.file.parent) as client:
        text = client.get("/").text
    assert "No run yet" in text
    assert text.count("<svg") == 2


def test_the_page_of_a_rig(drawn: Pages) -> None:
    text = drawn.get("/rig/bench 1").text
    assert text.count("<svg") == 2
    assert "rig.ambient.temperature" in text
    assert "free_flow = &#34;3.0 L/min&#34;" in text
    assert drawn.get("/rig/C1").status_code == 422


def test_faults_come_back_with_the_document_as_typed(pages: Pages) -> None:
    bad = RIG.replace('"30 mm"', '"0 mm"').replace('"18 kPa"', '"18"')
    reply = pages.send("/new-rig", {"document": bad})
    assert reply.status_code == 422
    text = unescape(reply.text)
    assert "2 to mend" in text
    for place in ("part[1].shut_off", "part[2].bore"):
        assert place in text
    assert 'shut_off = "18"' in text


@pytest.mark.parametrize("document", ["", "x", "[run]\non_time = '4 min'", "#" * 60_001])
def test_what_is_no_rig_is_refused(pages: Pages, document: str) -> None:
    reply = pages.send("/new-rig", {"document": document})
    assert reply.status_code == 422
    with Notebook.open(pages.file) as notebook:
        assert notebook.entries(kind="rig") == []


def test_a_correction_keeps_what_was_there(drawn: Pages) -> None:
    document = written(drawn, "/rig/bench 1/correct").replace("15 cm", "10 cm")
    fields = {"document": document, "revision": "1"}
    assert "why was it wrong?" in drawn.send("/rig/bench 1/correct", fields).text
    reply = drawn.send("/rig/bench 1/correct", fields | {"reason": "misread"})
    assert reply.status_code == 303
    text = drawn.get(reply.headers["location"]).text
    assert "<del>15 cm</del> <ins>10 cm</ins>" in text
    assert "Corrected: misread" in text
    assert "10 cm deep" in text
    drawn.send("/undo", {})
    assert "15 cm deep" in drawn.get("/rig/bench 1").text


def test_a_copy_has_the_next_label(drawn: Pages) -> None:
    document = written(drawn, "/rig/bench 1/copy")
    assert 'label = "bench 2"' in document
    assert drawn.send("/rig/bench 1/copy", {"document": "nonsense"}).status_code == 422
    reply = drawn.send("/rig/bench 1/copy", {"document": document})
    assert reply.status_code == 303
    assert "bench 2" in drawn.get(reply.headers["location"]).text


def test_undo_leads_back_to_the_rig(drawn: Pages) -> None:
    document = written(drawn, "/rig/bench 1/correct").replace("15 cm", "10 cm")
    drawn.send("/rig/bench 1/correct", {"document": document, "revision": "1", "reason": "misread"})
    assert drawn.send("/undo", {}).headers["location"].startswith("/rig/")


def test_a_second_tap_keeps_no_second_rig(pages: Pages) -> None:
    fields = {"document": RIG, "sheet": "one"}
    first, second = pages.send("/new-rig", fields), pages.send("/new-rig", fields)
    assert first.headers["location"] == second.headers["location"]
    with Notebook.open(pages.file) as notebook:
        assert len(notebook.entries(kind="rig")) == 1


def test_search_leads_to_the_rig(drawn: Pages) -> None:
    assert re.search(r'href="/rig/[^"]+">bench 1', drawn.get("/search?q=generator").text)


def test_the_drawing_as_a_file_and_its_look(drawn: Pages, bare: Pages) -> None:
    file = drawn.get("/rig/bench 1/drawing.svg")
    assert file.headers["content-type"].startswith("image/svg+xml")
    assert "attachment" in file.headers["content-disposition"]
    assert "<style>" in file.text
    look = drawn.get("/drawing.css")
    assert look.headers["content-type"].startswith("text/css")
    assert ".rig" in look.text


def test_without_a_notebook_there_is_no_file(bare: Pages) -> None:
    assert bare.get("/rig/x/drawing.svg").status_code == 404


def test_a_rig_that_is_gone_is_withdrawn_and_kept(drawn: Pages) -> None:
    with Notebook.open(drawn.file, read_only=True) as notebook:
        (rig,) = notebook.entries(kind="rig")
    assert "Withdraw this rig" in drawn.get(f"/rig/{rig.id}").text
    reply = drawn.send(f"/rig/{rig.id}/withdraw", {"reason": "kept twice"})
    text = drawn.get(reply.headers["location"]).text
    assert "struck out" in text
    assert "Withdraw this rig" not in text
    with Notebook.open(drawn.file, read_only=True) as notebook:
        assert not notebook.entries(kind="rig")
