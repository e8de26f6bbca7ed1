"""The questions from Python: the examples of docs/python.md, and how an answer reads."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

import ozonewright as oz
from cli.typed import run
from ozonewright.bench.notebook import add_table
from ozonewright.errors import InputError, MissingValue, NotFound
from ozonewright.notebook import Notebook

DOCS = Path(__file__).resolve().parents[2] / "docs"
EXAMPLES = re.findall(
    r"```python\n(.*?)```", (DOCS / "python.md").read_text(encoding="utf-8"), re.DOTALL
)
EVIL = '<img src=x onerror="alert(1)">'


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """The demo's notebook in little: its labels, two runs, no rig."""
    file = tmp_path / "demo.sqlite"
    with Notebook.create(file, "invented") as notebook:
        for label, minutes, rate in (("C1", "2 min", "0.62 g/h"), ("C2", "4 min", "0.60 g/h")):
            add_table(notebook, {"run": {"label": label, "setting": "s", "on_time": minutes,
                                         "rate": rate}})  # fmt: skip
        entry = {"of": "vanillin, second lot", "what": "remark", "remark": "as in the demo"}
        add_table(notebook, {"entry": entry})
    return file


@pytest.mark.parametrize("text", EXAMPLES, ids=range(len(EXAMPLES)))
def test_every_example_of_the_docs_runs(
    text: str, book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:  # fmt: skip
    for file in (DOCS / "examples").iterdir():
        (tmp_path / file.name).write_bytes(file.read_bytes())
    monkeypatch.chdir(tmp_path)
    exec(compile(text, "docs/python.md", "exec"), {})
    assert capsys.readouterr().out.strip()


def test_there_is_an_example_of_every_question() -> None:
    used = set(re.findall(r"\boz\.(\w+)\(", "".join(EXAMPLES)))
    assert used == set(oz.__all__) - {"Answer", "Book", "__version__"}


def test_an_answer_prints_and_computes_as_the_command_does() -> None:
    """35.62 mg in 240 s is 0.5343 g/h (by hand, in the design of the run document)."""
    file = str(DOCS / "examples" / "run.toml")
    found = oz.output(file)
    assert f"{found}\n" == run("output", file).stdout
    assert dict(found) == json.loads(run("output", file, "--json").stdout)
    assert found["rate_g_per_h"] == pytest.approx(0.5343, abs=5e-5)
    assert repr(found).startswith("C4, concentrator 0.8 L/min: 0.5343 ± 0.0036 g/h")
    assert len(found) == len(found.values_by_key)


def test_an_answer_in_a_cell_shows_number_and_escapes_what_was_typed() -> None:
    found = oz.output({"run": {"label": EVIL, "on_time": "4 min", "rate": "0.53 g/h"}})
    drawn = found._repr_html_()
    assert "0.530" in drawn
    assert "<img" not in drawn
    assert "&lt;img" in drawn


def test_figures_in_a_cell_carry_their_inks(book: Path) -> None:
    with oz.open_notebook(book) as opened:
        drawn = opened.setting("s")._repr_html_()
    assert drawn.count("<svg") > 2
    assert "var(--" not in drawn


def test_a_notebook_tells_what_it_holds(book: Path) -> None:
    with oz.open_notebook(book) as opened:
        assert opened.runs == ["C1", "C2"]
        assert opened.settings == ["s"]
        assert opened.reactions == []
        assert repr(opened) == "notebook invented: 3 entries"
        assert opened.output("C1")["rate_g_per_h"] == pytest.approx(0.62)
        with pytest.raises(InputError, match="no run"):
            opened.output("s")
        with pytest.raises(NotFound):
            opened.setting("t")
        with pytest.raises(MissingValue, match="no rig"):
            opened.gate()
        with pytest.raises(NotFound):
            opened.reaction("none")
        with pytest.raises(NotFound):
            opened.drift("none")


def test_a_setting_without_any_output_says_so(tmp_path: Path) -> None:
    file = tmp_path / "b.sqlite"
    with Notebook.create(file, "b") as notebook:
        add_table(notebook, {"run": {"label": "a", "setting": "s", "collected": "3 mg"}})
    with oz.open_notebook(file) as opened, pytest.raises(MissingValue, match="has an output"):
        opened.setting("s")


@pytest.mark.parametrize("ask", [oz.recipe, oz.drift, lambda **facts: oz.gate({}, **facts)])
def test_a_fact_that_no_question_knows_is_refused(ask: object) -> None:
    with pytest.raises(InputError, match="knows no such fact"):
        ask(titrent="0.1 mol/L")  # type: ignore[operator]


def test_public_names_are_listed_and_others_refused() -> None:
    assert set(dir(oz)) == set(oz.__all__)
    with pytest.raises(AttributeError, match="no_such_name"):
        _ = oz.no_such_name
