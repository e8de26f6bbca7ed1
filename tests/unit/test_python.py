"""The questions from Python: the examples of docs/python.md, and how an answer reads."""

from __future__ import annotations

import json
import re
from math import exp
from pathlib import Path

import pytest

import ozonewright as oz
from cli.typed import run
from ozonewright.bench.notebook import add_table
from ozonewright.errors import Faults, InputError, MissingValue, NotFound
from ozonewright.notebook import Notebook

DOCS = Path(__file__).resolve().parents[2] / "docs"
MADE = ("methods.md", "agreement.md", "sources.md")
"""Pages made from the code: their blocks are formulas, no examples."""
EXAMPLES = [
    pytest.param(text, id=f"{page.stem}-{number}")
    for page in sorted(DOCS.glob("*.md"))
    if page.name not in MADE
    for number, text in enumerate(
        re.findall(r"```python\n(.*?)```", page.read_text(encoding="utf-8"), re.DOTALL)
    )
]
EVIL = '<img src=x onerror="alert(1)">'


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """The demo's notebook in little: its labels, three runs, no rig."""
    file = tmp_path / "demo.sqlite"
    with Notebook.create(file, "invented") as notebook:
        for label, setting, minutes, rate in (
            ("P1", "t", "4 min", "0.20 g/h"),
            ("C1", "s", "2 min", "0.62 g/h"),
            ("C2", "s", "4 min", "0.60 g/h"),
        ):
            add_table(notebook, {"run": {"label": label, "setting": setting, "on_time": minutes,
                                         "rate": rate}})  # fmt: skip
        entry = {"of": "vanillin, second lot", "what": "remark", "remark": "as in the demo"}
        add_table(notebook, {"entry": entry})
    return file


@pytest.mark.parametrize("text", EXAMPLES)
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
    used = set(re.findall(r"\boz\.(\w+)\(", str(EXAMPLES)))
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
        assert opened.runs == ["P1", "C1", "C2"]
        assert opened.settings == ["s", "t"]
        assert opened.reactions == []
        assert repr(opened) == "notebook invented: 4 entries"
        assert opened.output("C1")["rate_g_per_h"] == pytest.approx(0.62)
        with pytest.raises(InputError, match="no run"):
            opened.output("s")
        with pytest.raises(NotFound):
            opened.setting("none")
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


@pytest.mark.parametrize(
    "ask",
    [
        oz.recipe,
        oz.drift,
        oz.compare,
        oz.generator,
        oz.duty,
        oz.gas_use,
        oz.power,
        lambda **facts: oz.gate({}, **facts),
        lambda **facts: oz.absorber({}, **facts),
        lambda **facts: oz.flask({}, {}, **facts),
        lambda **facts: oz.room({}, **facts),
    ],
)
def test_a_fact_that_no_question_knows_is_refused(ask: object) -> None:
    with pytest.raises(InputError, match="knows no such fact"):
        ask(titrent="0.1 mol/L")  # type: ignore[operator]


def test_public_names_are_listed_and_others_refused() -> None:
    assert set(dir(oz)) == set(oz.__all__)
    with pytest.raises(AttributeError, match="no_such_name"):
        _ = oz.no_such_name


ROOM = {
    "room": {"label": "shed", "volume": "24 m3", "air_changes": "0.5 /h",
             "removal": "2.8 /h ± 1.3 /h", "temperature": "22 °C", "limit": "0.1 ppm"},
}  # fmt: skip
RIG = {
    "rig": {"label": "little", "ambient": {"temperature": "20 °C", "pressure": "101.3 kPa"}},
    "part": [
        {"name": "stone", "kind": "sparger", "form": "stone", "pore": "40 µm"},
        {"name": "bottle", "kind": "bottle", "liquid": "water", "potassium_iodide": "4.0 g",
         "volume": "200 mL", "depth": "15 cm", "bore": "40 mm"},
    ],
}  # fmt: skip


def test_each_further_question_gives_the_numbers_of_its_command(tmp_path: Path) -> None:
    """By hand (design): 100 mg/h in this room is 1.263 mg/m3 in the end, about 0.64 ppm."""
    run_file = str(DOCS / "examples" / "run.toml")
    assert oz.room(ROOM, release="100 mg/h")["steady_mg_per_m3"] == pytest.approx(1.263, abs=5e-4)
    claim = oz.claim(run_file, label="4 g/h")
    assert f"{claim}\n" == run("claim", run_file, "--label", "4 g/h").stdout
    supply = ("10.0 L", "150 bar gauge", "0.50 NL/min")
    gas = oz.gas_use(**dict(zip(("cylinder", "pressure", "flow"), supply, strict=True)))
    asked = ("--cylinder", supply[0], "--pressure", supply[1], "--flow", supply[2])
    assert dict(gas) == json.loads(run("gas-use", *asked, "--json").stdout)
    (sound,) = oz.check(run_file)
    assert f"{sound}\n" == run("check", run_file).stdout
    for one in (claim, gas, sound):
        assert "<table" in one._repr_html_() or "<ul" in one._repr_html_()


def test_figures_are_saved_as_picture_and_numbers(tmp_path: Path) -> None:
    """Below its limit a tube on a timer never passes the continuous rise: a share under 100 %."""
    found = oz.duty(on="6 min", off="9 min", time_constant="4.6 min")
    paths = found.save_figures(tmp_path / "new" / "folder")
    assert [path.name for path in paths] == [
        "timer-warmth.svg", "timer-warmth.png", "timer-warmth.csv"
    ]  # fmt: skip
    assert paths[1].read_bytes().startswith(b"\x89PNG")
    head, *rows = paths[2].read_text(encoding="utf-8").splitlines()
    assert head == "time / min,of the continuous rise / %"
    assert max(float(row.split(",")[1]) for row in rows) < 100.0
    with pytest.raises(InputError, match="no figure"):
        oz.claim(str(DOCS / "examples" / "run.toml"), label="4 g/h").save_figures(tmp_path)
    with pytest.raises(InputError, match="can't be written"):
        found.save_figures(paths[0] / "inside")


def test_the_further_questions_of_a_notebook(book: Path) -> None:
    """The detector's readings are made to fall by e in 20 min: a loss of 3 per hour."""
    with Notebook.open(book) as notebook:
        for table in (ROOM, RIG):
            add_table(notebook, table)
        for minute in range(6):
            ppm = 0.5 * exp(-3.0 * minute / 60.0)
            entry = {"when": f"2026-05-09T10:{minute:02}:00", "of": "shed", "what": "detector",
                     "value": f"{ppm:.4f} ppm"}  # fmt: skip
            add_table(notebook, {"entry": entry})
        press = {"when": "2026-05-09T10:00:00", "of": "C2", "what": "discharge on"}
        add_table(notebook, {"entry": press})
    with oz.open_notebook(book) as opened:
        ratio = opened.compare("s", "t")
        assert ratio["ratio"] == pytest.approx(0.61 / 0.20, rel=1e-3)
        assert "<svg" in ratio._repr_html_()
        assert opened.claim("t", label="2 g/h")["share_of_label_percent"] == pytest.approx(10.0)
        room = opened.room("shed", release="100 mg/h")
        assert room["steady_mg_per_m3"] == pytest.approx(1.263, abs=5e-4)
        assert opened.detector("shed")["loss_per_h"] == pytest.approx(3.0, rel=0.01)
        uptake = opened.absorber("little", output="0.6 g/h", flow="0.8 NL/min")
        assert uptake._repr_html_().count("<svg") == 4
        assert opened.gas_use(cylinder="10.0 L", pressure="150 bar gauge", flow="0.50 NL/min")
        count = opened.count("C2")
        assert count["discharge"] == "on"
        assert "Events" in count._repr_html_()
        with pytest.raises(MissingValue):
            opened.generator("s")
        with pytest.raises(NotFound, match="room"):
            opened.room("none", release="1 mg/h")
        with pytest.raises(Faults, match="how much gets out"):
            oz.room(ROOM)
        with pytest.raises(InputError, match="Leave one"):
            oz.compare(str(DOCS / "examples" / "run.toml"), first="a")
