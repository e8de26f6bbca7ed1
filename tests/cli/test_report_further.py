"""Further questions of a setting and a reaction in its report: as the commands answer them.

What the notebook holds too little for is told as not determined, with what is missing.
"""

from __future__ import annotations

import csv
import json
import re
from html import unescape
from math import exp
from pathlib import Path

import pdfplumber
import pytest

from cli.typed import run
from ozonewright.bench.notebook import add_table
from ozonewright.bench.report import parts
from ozonewright.bench.subject import subject_of
from ozonewright.notebook import Notebook
from ozonewright.report.page import html
from ozonewright.report.paper import pdf
from ozonewright.show.sheet.notebook import sheet, title_block
from web.in_process import run_table

EVIL = "=1+1 <b>#panic"
RIG = {
    "rig": {"label": "bench", "ambient": {"temperature": "20 °C", "pressure": "101.3 kPa"}},
    "part": [
        {"name": "bottle of gas", "kind": "cylinder", "gas": "oxygen", "volume": "10.0 L",
         "pressure": "150 bar gauge", "flow": "0.80 L/min"},
        {"name": "ozone tube", "kind": "discharge tube", "bore": "26 mm", "gap": "1.2 mm",
         "length": "160 mm", "power": "38 W", "claimed": "4 g/h"},
        {"name": "stone", "kind": "sparger", "form": "stone", "pore": "40 µm"},
        {"name": "iodide bottle", "kind": "bottle", "liquid": "water",
         "potassium_iodide": "4.0 g", "volume": "200 mL", "depth": "15 cm", "bore": "40 mm"},
        {"name": "guard tube", "kind": "sparger", "form": "open tube", "bore": "4 mm"},
        {"name": "guard bottle", "kind": "bottle", "role": "guard", "liquid": "water",
         "potassium_iodide": "4.0 g", "volume": "200 mL", "depth": "15 cm", "bore": "40 mm"},
    ],
}  # fmt: skip
ROOM = {
    "room": {"label": "shed", "volume": "24 m3", "air_changes": "0.5 /h",
             "removal": "2.8 /h ± 1.3 /h", "temperature": "22 °C", "limit": "0.1 ppm"},
}  # fmt: skip
REACTION = {
    "reaction": {
        "label": "vanillin", "rig": "bench", "room": "shed", "solvent": "methanol",
        "volume": "100 mL", "temperature": "-40 °C", "work_up": "reductive",
        "output": "0.62 g/h ± 5 %", "uptake": "88 % ± 3.5 points",
        "quench": {"reagent": "triphenylphosphine", "equivalents": 1.10},
    },
    "substrate": [{"smiles": "C/C=C/c1ccc(O)c(OC)c1", "amount": "10.0 mmol"}],
}  # fmt: skip
GAS = {
    "feed": "oxygen", "flow": "0.80 L/min ± 4 %", "temperature": "22 °C", "pressure": "101.3 kPa",
}  # fmt: skip


def write(file: Path) -> Path:
    """Write a notebook: one setting that can be asked everything, one that can be asked little."""
    with Notebook.create(file, "invented") as notebook:
        for table in (RIG, ROOM):
            add_table(notebook, table)
        for label, on_time, titre in (("C1", "240 s", "28.46 mL"), ("C2", "480 s", "56.02 mL")):
            made = run_table(label, f"{on_time} ± 1.5 s", titre, setting="oxygen", rig="bench")
            made["run"] |= {"rest_before": "15 min"}
            add_table(notebook, made | {"gas": GAS, "electrical": {"power": "38 W"}})
        for label in ("A1", EVIL):
            little = run_table(label, "240 s", "9.40 mL", setting="air")
            add_table(notebook, {name: little[name] for name in ("run", "titration")})
        for minute in range(12):
            warm = 20.0 + 40.0 * (1.0 - exp(-minute / 4.0))
            entry = {"when": f"2026-05-09T10:{minute:02}:00", "of": "C2",
                     "what": "tube temperature", "value": f"{warm:.1f} °C"}  # fmt: skip
            add_table(notebook, {"entry": entry})
        add_table(notebook, REACTION)
        press = {"when": "2026-05-09T12:00:00", "of": "vanillin", "what": "discharge on"}
        add_table(notebook, {"entry": press})
    return file


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """That notebook."""
    return write(tmp_path_factory.mktemp("book") / "bench.sqlite")


@pytest.fixture(scope="module")
def told(book: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """Text of the pages and of the single file of a setting, and of the reaction."""
    folder = tmp_path_factory.mktemp("out")
    with Notebook.open(book, read_only=True) as notebook:
        for of in ("oxygen", "vanillin"):
            subject = subject_of(notebook, of)
            block, found = title_block(notebook, subject), list(parts(notebook, subject))
            sections = list(sheet(notebook, subject, found))
            (folder / f"{of}.pdf").write_bytes(pdf(sections, block))
            (folder / f"{of}.html").write_text("".join(html(sections, block)), encoding="utf-8")
    return {file.name: bare(_text(file)) for file in folder.iterdir()}


def _text(file: Path) -> str:
    if file.suffix == ".html":
        return unescape(re.sub("<[^>]+>", " ", file.read_text(encoding="utf-8")))
    with pdfplumber.open(file) as pages:
        return " ".join(page.extract_text() for page in pages.pages)


def bare(text: str) -> str:
    return re.sub(r"[\s\u00a0\u200b]+", "", text)


def answered(book: Path, *words: str) -> dict[str, object]:
    done = run(*words, "--json")
    assert done.returncode == 0, done.stderr
    found = json.loads(done.stdout)
    assert isinstance(found, dict)
    return found


def _lines(found: dict[str, object]) -> list[str]:
    """Return the sums and notes of an answer: texts with its numbers in them."""
    working, notes = found["working"], found["notes"]
    assert isinstance(working, list) and isinstance(notes, list)  # noqa: PT018
    return [line[1:] for line in working] + [note["text"][1:] for note in notes]


@pytest.mark.parametrize(
    "words",
    [
        ("compare", "--notebook", "{book}", "oxygen", "air"),
        ("claim", "--notebook", "{book}", "--setting", "oxygen", "--label", "4 g/h"),
        ("generator", "--notebook", "{book}", "--setting", "oxygen"),
    ],
    ids=lambda words: words[0],
)
def test_the_report_of_a_setting_says_what_the_command_says(
    book: Path, told: dict[str, str], words: tuple[str, ...]
) -> None:
    found = answered(book, *(word.format(book=book) for word in words))
    lines = _lines(found)
    assert lines
    for line in lines:
        for ending in ("pdf", "html"):
            assert bare(line) in told[f"oxygen.{ending}"], line


def test_gas_use_duty_and_absorber_are_asked_with_what_was_measured(
    book: Path, told: dict[str, str]
) -> None:
    """The tube was made to warm by 40 K with a time constant of 4 min."""
    with Notebook.open(book, read_only=True) as notebook:
        assert notebook.settings() == ["air", "oxygen"]
    for ending in ("pdf", "html"):
        page = told[f"oxygen.{ending}"]
        assert bare("8.0 min on, 15 min off: peaks at") in page
        rise, tau = r"(?:39\.\d+|40\.\d+)", r"(?:3\.9\d*|4\.0\d*)"
        assert re.search(rf"rise{rise}±\d\.\d+K,timeconstant{tau}", page)
        assert bare("Of oxygen, as long as it flows.") in page
        assert bare("Absorber of bench") in page
        assert bare("mg/min sent in, corrected by the guard share") in page


def test_the_room_and_the_count_stand_in_the_report_of_a_reaction(
    book: Path, told: dict[str, str]
) -> None:
    """By hand: 0.62 g/h into 24 m³ at 3.3 losses per hour is 7.83 mg/m³, near 3.9 ppm."""
    for ending in ("pdf", "html"):
        page = told[f"vanillin.{ending}"]
        assert bare("3.9 ppm of ozone in the end") in page or bare("4.0 ppm of ozone") in page
        assert bare("nothing after the flask") in page
        assert bare("Count of vanillin") in page
        assert bare("discharge on") in page


def test_what_the_notebook_can_t_tell_is_not_determined(book: Path, tmp_path: Path) -> None:
    out = tmp_path / "air.html"
    assert run("report", "--notebook", str(book), "--of", "air", "--out", str(out)).returncode == 0
    page = bare(_text(out))
    head = bare("Not determined of setting air")
    assert head in page
    for word, missing in (
        ("claim", "the last run names no rig"),
        ("generator", "no run says enough"),
        ("absorber", "the last run names no rig"),
        ("duty", "does not tell a pattern"),
        ("gas-use", "the last run names no rig"),
    ):
        assert bare(f"{word} not determined:") in page[page.index(head) :]
        assert bare(missing) in page[page.index(head) :]


def test_tables_hold_the_further_answers_with_units(book: Path, tmp_path: Path) -> None:
    out = tmp_path / "tables"
    words = ("report", "--notebook", str(book), "--out", str(out), "--only", "all")
    assert run(*words).returncode == 0
    (claim,) = rows_of(out / "claims.csv")
    assert claim["verdict"]
    assert float(claim["the label / g/h"]) == pytest.approx(4.0)
    found = answered(book, "compare", "--notebook", str(book), "oxygen", "air")
    (ratio,) = rows_of(out / "comparisons.csv")
    assert ratio["label"] == "oxygen / air"
    assert float(ratio["first over second / 1"]) == pytest.approx(found["ratio"], rel=1e-9)
    assert {row["question"] for row in rows_of(out / "not-determined.csv")} == {
        "claim", "generator", "absorber", "duty", "gas-use"
    }  # fmt: skip
    assert [row["label"] for row in rows_of(out / "rooms.csv")] == ["reaction vanillin"]
    assert rows_of(out / "comparisons-differs.csv")
    for file in out.rglob("*.csv"):
        for row in csv.reader(file.read_text(encoding="utf-8").splitlines()):
            assert not [cell for cell in row if cell.startswith(("=", "@"))]


def rows_of(file: Path) -> list[dict[str, str]]:
    with file.open(encoding="utf-8", newline="") as text:
        return list(csv.DictReader(text))


def test_only_asks_what_is_named_and_says_what_was_left_out(book: Path, tmp_path: Path) -> None:
    out = tmp_path / "a.html"
    words = ("report", "--notebook", str(book), "--of", "oxygen", "--out", str(out))
    assert run(*words, "--only", "claim").returncode == 0
    page = bare(_text(out))
    assert bare("Claim of oxygen") in page
    assert bare("Comparison oxygen") not in page
    assert bare("Not asked here: drift, compare, generator") in page
    wrong = run(*words, "--only", "clain")
    assert wrong.returncode == 2
    assert "Nearest: claim" in wrong.stderr


def test_slow_questions_are_left_out_of_the_whole_and_said_to_be(
    book: Path, tmp_path: Path
) -> None:
    out = tmp_path / "all.html"
    assert run("report", "--notebook", str(book), "--out", str(out)).returncode == 0
    page = bare(_text(out))
    assert bare("Not asked here: generator, absorber; they take long") in page
    assert bare("Comparison oxygen with air") in page
    assert bare("Generator, oxygen") not in page
    source = out.read_text(encoding="utf-8")
    assert "<b>#panic" not in source
    assert "=1+1 &lt;b&gt;#panic" in source
