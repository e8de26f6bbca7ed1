"""The gate page: what the notebook holds, answers kept in the rig, a verdict kept for the bench."""

from __future__ import annotations

import re

from ozonewright.bench.gate import gate_of
from ozonewright.bench.gate_kept import standing
from ozonewright.notebook import Notebook
from unit.gate_world import world
from web.in_process import Pages


def kept(pages: Pages, *kinds: str) -> None:
    table = world()
    table["rig"]["checklist"] = {"earthed": True}
    table["reaction"]["reaction"]["label"] = "vanillin"
    with Notebook.open(pages.file) as notebook:
        for kind in kinds:
            notebook.add(kind, table[kind])


def hidden(text: str, name: str) -> str:
    found = re.search(rf'name="{name}" value="([^"]*)"', text)
    assert found is not None
    return found[1]


def test_without_a_rig_the_page_says_what_is_needed(pages: Pages) -> None:
    reply = pages.get("/gate")
    assert reply.status_code == 200
    assert "the notebook keeps no rig" in reply.text


def test_every_check_stands_on_the_page(pages: Pages) -> None:
    kept(pages, "rig", "room", "reaction")
    text = pages.get("/gate", params={"reaction": "vanillin"}).text
    for words in ("Stop: ", "off gas", "vapour", "In this order", "If something goes wrong"):
        assert words in text
    assert 'name="checklist.fused"' in text
    assert 'name="checklist.earthed"' not in text


def test_answers_are_kept_in_the_rig(pages: Pages) -> None:
    kept(pages, "rig", "room", "reaction")
    text = pages.get("/gate", params={"reaction": "vanillin"}).text
    form = {
        "token": hidden(text, "token"),
        "of_rig": "workshop",
        "reaction": "vanillin",
        "checklist.fused": "yes",
        "checklist.bled": "no",
    }
    reply = pages.client.post("/gate", data=form, follow_redirects=False)
    assert reply.status_code == 303
    with Notebook.open(pages.file, read_only=True) as notebook:
        (rig,) = notebook.entries(kind="rig")
        assert rig.data["checklist"] == {"earthed": True, "fused": True, "bled": False}
        assert len(notebook.history(rig.id)) == 2


def test_a_verdict_is_kept_until_something_changes(pages: Pages) -> None:
    kept(pages, "rig", "room", "reaction")
    text = pages.get("/gate", params={"reaction": "vanillin"}).text
    form = {"token": hidden(text, "token"), "do": "keep", "reaction": "vanillin"}
    assert pages.client.post("/gate", data=form, follow_redirects=False).status_code == 303
    with Notebook.open(pages.file) as notebook:
        assert standing(notebook, "vanillin").data["entry"]["value"] == "stop"
        (rig,) = notebook.entries(kind="rig")
        notebook.revise(rig.id, rig.data | {"checklist": {}}, reason="other")
        assert standing(notebook, "vanillin") is None
        assert gate_of(notebook, reaction="vanillin").verdict == "stop"


def test_an_unknown_label_is_told(pages: Pages) -> None:
    kept(pages, "rig")
    text = pages.get("/gate", params={"reaction": "vanilin", "slip": "5"}).text
    assert "keeps no reaction" in text
    form = {"token": hidden(pages.get("/gate").text, "token"), "of_rig": "nowhere"}
    assert pages.client.post("/gate", data=form).status_code == 422
