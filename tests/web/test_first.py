"""The first question: a time and a titre, the answer, a notebook begun."""

from __future__ import annotations

from pathlib import Path

import pytest

from ozonewright.notebook import Notebook
from web.in_process import Pages, client_of

READINGS = {
    "run.on_time": "4 min",
    "titration.titres[1]": "28.46 mL",
    "titration.titrant.concentration": "0.0510 mol/L",
}


def test_without_a_notebook_one_question_is_asked(bare: Pages) -> None:
    text = bare.get("/").text
    assert "What do you have in front of you?" in text
    assert bare.get("/runs").headers["location"] == "/"


def test_the_answer_is_there_at_once(bare: Pages) -> None:
    text = bare.asked().text
    # design section 4, by hand: 34.8 mg, 0.522 g/h
    assert "0.522" in text
    assert "34.8" in text
    assert "Keep it in a notebook" in text


def test_what_is_wrong_comes_back_as_typed(bare: Pages) -> None:
    reply = bare.asked(**{"run.on_time": "four minutes"})
    assert reply.status_code == 422
    assert 'value="four minutes"' in reply.text
    assert 'aria-invalid="true"' in reply.text


def test_a_notebook_is_begun(bare: Pages, tmp_path: Path) -> None:
    fields = READINGS | {"notebook.file": "workshop", "notebook.label": "shed", "run.label": "C1"}
    reply = bare.send("/begin", fields)
    assert reply.status_code == 303
    assert "Kept." in bare.get(reply.headers["location"]).text
    with Notebook.open(tmp_path / "workshop.sqlite", read_only=True) as notebook:
        assert notebook.label == "shed"
        assert notebook.get("C1").data["titration"]["titres"] == ["28.46 mL"]
    assert "C1" in bare.get("/").text


@pytest.mark.parametrize("name", ["", "../away", "a/b", ".hidden", "/etc/x", "taken", "x\0y"])
def test_a_file_is_made_only_here_and_never_over_another(
    bare: Pages, tmp_path: Path, name: str
) -> None:
    (tmp_path / "taken.sqlite").write_text("mine")
    before = sorted(tmp_path.iterdir())
    reply = bare.send("/begin", READINGS | {"notebook.file": name})
    assert reply.status_code == 422
    assert 'value="28.46 mL"' in reply.text
    assert sorted(tmp_path.iterdir()) == before
    assert (tmp_path / "taken.sqlite").read_text() == "mine"


def test_a_file_not_there_yet_is_named_and_begun(tmp_path: Path) -> None:
    file = tmp_path / "later.sqlite"
    with client_of(file, tmp_path) as client:
        pages = Pages(client, file)
        assert "later.sqlite" in client.get("/").text
        assert not file.exists()
        assert pages.send("/begin", READINGS | {"notebook.file": "later"}).status_code == 303
    assert file.exists()
