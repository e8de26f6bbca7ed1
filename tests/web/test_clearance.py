"""The clearance page: choose a reaction, log a test, see it locked or clear."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from ozonewright.notebook import Notebook
from web.in_process import Pages

LABEL = "vanillin / second <lot>"
REACTION = {
    "reaction": {
        "label": LABEL,
        "solvent": "methanol",
        "quench": {"reagent": "triphenylphosphine", "equivalents": 1.1},
    },
    "substrate": [{"smiles": "C=CCCCC", "amount": "10.0 mmol"}],
}


@pytest.fixture
def flask(pages: Pages) -> Pages:
    with Notebook.open(pages.file) as notebook:
        notebook.add("reaction", REACTION)
    return pages


def shown(pages: Pages) -> str:
    return pages.get("/clearance", params={"of": LABEL}).text


def send(pages: Pages, reading: str, minutes: float = 0.0, **more: str) -> int:
    when = (datetime.now() - timedelta(minutes=minutes)).isoformat(timespec="seconds")
    fields = {"of": LABEL, "reading": reading, "at": when if minutes else "", **more}
    return pages.send("/clearance", fields).status_code


def test_without_a_reaction_the_page_says_what_to_add(pages: Pages) -> None:
    assert "The notebook holds no reaction yet" in pages.get("/clearance").text


def test_a_reaction_is_chosen(flask: Pages) -> None:
    text = flask.get("/clearance").text
    assert "vanillin / second &lt;lot&gt;" in text
    assert "Locked, do not evaporate" in shown(flask)


def test_quench_and_two_negatives_clear_it(flask: Pages) -> None:
    assert send(flask, "quench", 200.0) == 303
    assert send(flask, "negative", 30.0, method="strip", by="AB") == 303
    assert "A second negative test" in shown(flask)
    assert send(flask, "negative", method="iodide") == 303
    text = shown(flask)
    assert "Clear to evaporate" in text
    assert "AB" in text
    assert send(flask, "positive") == 303
    assert "Locked, do not evaporate" in shown(flask)


def test_a_time_of_the_quench_is_read(flask: Pages) -> None:
    assert send(flask, "quench", **{"entry.value": "soon"}) == 422
    assert send(flask, "quench", **{"entry.value": "30 min"}) == 303
    assert "The quench is at work until" in shown(flask)


def test_what_can_not_be_kept_comes_back(flask: Pages) -> None:
    fields = {"of": LABEL, "reading": "negative", "at": "later"}
    reply = flask.send("/clearance", fields)
    assert reply.status_code == 422
    assert 'id="at-mend"' in reply.text
    assert flask.send("/clearance", {"of": LABEL}).status_code == 422


def test_an_unknown_reaction_is_not_found(flask: Pages) -> None:
    assert flask.get("/clearance", params={"of": "nobody"}).status_code == 404
