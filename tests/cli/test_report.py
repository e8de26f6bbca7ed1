"""`ozonewright report`: the pages, the single file and the tables say what the answers say."""

from __future__ import annotations

import csv
import json
import re
from html import unescape
from pathlib import Path

import pdfplumber
import pytest

from cli.typed import run
from ozonewright.bench.notebook import add_table
from ozonewright.bench.report import parts
from ozonewright.bench.subject import subject_of
from ozonewright.notebook import Notebook
from ozonewright.report.folder import fill
from ozonewright.report.page import html
from ozonewright.report.paper import pdf
from ozonewright.show.sheet.notebook import sheet, title_block
from web.in_process import SETTING, client_of, run_table

EVIL = '#panic("x") <script>alert(1)</script> $a^b$ *b* `c` \\ @d [e] =cmd()'
"""Markup of the typesetter, of a page and of a spreadsheet, as a person may type it."""
RIG = {
    "rig": {"label": "long line", "ambient": {"temperature": "20 °C", "pressure": "101.325 kPa"}},
    "part": [
        {"name": "pump", "kind": "pump", "free_flow": "3.0 L/min", "shut_off": "18 kPa"},
        {"name": "line", "kind": "tube", "bore": "2 mm", "length": "1 m"},
        {"name": "bottle", "kind": "bottle", "liquid": "water", "volume": "200 mL",
         "depth": "15 cm"},
    ],
}  # fmt: skip
REACTION = {
    "reaction": {
        "label": "vanillin", "rig": "long line", "solvent": "methanol", "volume": "100 mL",
        "temperature": "-40 °C", "work_up": "reductive", "output": "0.62 g/h ± 5 %",
        "uptake": "88 % ± 3.5 points",
        "quench": {"reagent": "triphenylphosphine", "equivalents": 1.10},
    },
    "substrate": [{"smiles": "C/C=C/c1ccc(O)c(OC)c1", "amount": "10.0 mmol"}],
}  # fmt: skip


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A notebook with three runs, one corrected and one of evil words, a rig, a reaction."""
    file = tmp_path_factory.mktemp("book") / "bench.sqlite"
    with Notebook.create(file, "garden workshop (invented)") as notebook:
        for table in (
            run_table("C1", "240 s ± 1.5 s", "28.46 mL"),
            run_table("C2", "480 s ± 1.5 s", "56.02 mL"),
            run_table("C3", "120 s ± 1.5 s", "14.90 mL"),
            run_table("B1", "240 s", "0.40 mL", discharge="off"),
            RIG,
            REACTION,
        ):
            add_table(notebook, table)
        third = notebook.get("C3")
        mended = run_table("C3", "120 s ± 1.5 s", "14.09 mL")
        notebook.revise(third.id, mended, reason="typing slip")
        odd = run_table(EVIL, "240 s", "28.00 mL", remark=EVIL)
        odd["run"].pop("setting")
        add_table(notebook, odd)
        add_table(notebook, run_table("C9", "240 s", "1.00 mL", remark="wrong bottle"))
        notebook.withdraw(notebook.get("C9").id, reason="spoiled at the bench")
        entry = {"when": "2026-05-09T10:20:00", "of": "vanillin", "what": "remark", "remark": "hm"}
        add_table(notebook, {"entry": entry})
    return file


@pytest.fixture(scope="module")
def whole(book: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The report of the whole notebook in its three forms, of one asking."""
    folder = tmp_path_factory.mktemp("out")
    with Notebook.open(book, read_only=True) as notebook:
        subject = subject_of(notebook, None)
        found = list(parts(notebook, subject))
        block, sections = title_block(notebook, subject), list(sheet(notebook, subject, found))
        (folder / "all.pdf").write_bytes(pdf(sections, block))
        with (folder / "all.html").open("w", encoding="utf-8") as file:
            file.writelines(html(sections, block))
        (folder / "tables").mkdir()
        fill(folder / "tables", found, block)
    return folder


def text_of(pdf: Path) -> str:
    with pdfplumber.open(pdf) as pages:
        return " ".join(" ".join(page.extract_text().split()) for page in pages.pages)


@pytest.fixture(scope="module")
def sheets(whole: Path) -> list[tuple[str, int, int]]:
    """Text, width and height of every page, in points."""
    with pdfplumber.open(whole / "all.pdf") as pages:
        return [(one.extract_text(), round(one.width), round(one.height)) for one in pages.pages]


@pytest.fixture(scope="module")
def printed(sheets: list[tuple[str, int, int]]) -> str:
    return " ".join(" ".join(text.split()) for text, _, _ in sheets).replace("\u00a0", " ")


@pytest.fixture(scope="module")
def page(whole: Path) -> str:
    return (whole / "all.html").read_text(encoding="utf-8")


def rows_of(file: Path) -> list[dict[str, str]]:
    with file.open(encoding="utf-8", newline="") as text:
        return list(csv.DictReader(text))


def test_command_page_paper_and_json_tell_the_same(
    book: Path, whole: Path, printed: str, page: str, tmp_path: Path
) -> None:
    told = run("output", "--notebook", str(book)).stdout
    found = {
        one["label"]: one
        for one in json.loads(run("output", "--notebook", str(book), "--json").stdout)["runs"]
    }
    tables = {row["label"]: row for row in rows_of(whole / "tables" / "runs.csv")}
    with client_of(book, tmp_path) as client, Notebook.open(book, read_only=True) as notebook:
        for label in ("C1", "C2", "C3"):
            value, u = found[label]["rate_g_per_h"], found[label]["u_rate_g_per_h"]
            shown = f"{value:.4f} ± {u:.4f}"
            shown_page = shown.replace(" ± ", "\u00a0± ")
            served = client.get(f"/run/{notebook.get(label).id}").text
            assert shown in told
            assert shown in printed
            assert shown_page in page
            assert shown_page in served
            assert float(tables[label]["output / g/h"]) == pytest.approx(value, rel=1e-9)
            assert float(tables[label]["u output / g/h"]) == pytest.approx(u, rel=1e-9)


def test_the_sum_can_be_done_again_from_the_paper(printed: str) -> None:
    """Bottle 1 of C1 less the field blank: (28.46 − 0.40) mL × 0.0510 mol/L = 1.431 mmol."""
    line = "28.46 mL × 0.05100 mol/L less the field blank = 1.431 mmol thiosulfate"
    assert line in printed


def test_every_note_of_a_run_stands_on_paper_and_in_the_file(
    book: Path, printed: str, page: str
) -> None:
    told = json.loads(run("output", "--notebook", str(book), "--json").stdout)["runs"]
    notes = [note for one in told if one["label"] in ("C1", "C2", "C3") for note in one["notes"]]
    assert notes
    for note in notes:
        assert squeezed(note["text"]) in squeezed(printed)
        assert squeezed(note["text"]) in squeezed(re.sub("<[^>]+>", "", page))


def squeezed(text: str) -> str:
    return re.sub(r"[\s\u00a0\u200b]+", "", unescape(text))


def test_corrections_and_what_was_struck_out_are_told(printed: str, page: str) -> None:
    for text in (printed, page):
        assert "titration.titres: " in text
        assert "typing slip" in text
        assert "14.90 mL" in text
        assert "spoiled at the bench" in text


def test_the_gate_and_the_clearance_stand_there(printed: str) -> None:
    assert "Gate vanillin" in printed
    assert "Clearance vanillin" in printed
    assert "Locked, do not evaporate" in printed
    assert "2.89 g of triphenylphosphine" in printed  # design: by hand


def test_formulas_in_use_stand_in_the_appendix(printed: str, page: str) -> None:
    assert "Methods" in printed
    appendix = page[page.index(">Methods<") :]
    for text in (printed[printed.index("Methods") :], appendix):
        assert "thiosulfate used" in text
        assert "tiesinga_2021" in text


def test_a_title_block_closes_every_sheet(sheets: list[tuple[str, int, int]]) -> None:
    for number, (text, width, height) in enumerate(sheets, start=1):
        assert "garden workshop" in text
        assert "date, initials" in text
        assert f"{number}/{len(sheets)}" in text
        assert (width, height) == (595, 842)


def test_markup_in_typed_text_is_text(printed: str, page: str, whole: Path) -> None:
    assert squeezed(EVIL) in squeezed(printed)
    assert "<script" not in page
    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in page
    label = next(
        row["label"] for row in rows_of(whole / "tables" / "runs.csv") if "#" in row["label"]
    )
    assert label == EVIL


def test_the_single_file_asks_nothing_of_others(page: str) -> None:
    assert not re.findall(r"""(?:src|href)\s*=|@import|url\(""", page)
    links = set(re.findall(r"https?://[^\s\"'<]+", page)) - {"http://www.w3.org/2000/svg"}
    assert all(link.startswith("http") and f'"{link}"' not in page for link in links)


def test_ids_of_the_single_file_are_used_once(page: str) -> None:
    ids = re.findall(r'\bid="([^"]+)"', page)
    assert len(ids) == len(set(ids))


def test_tables_have_units_in_their_heads_and_figures_their_numbers(whole: Path) -> None:
    tables = whole / "tables"
    typed = rows_of(tables / "typed.csv")
    assert {row["revision"] for row in typed if row["label"] == "C3"} == {"1", "2"}
    drawn = sorted(one.name for one in (tables / "figures").glob("*collected*"))
    assert [name.rpartition(".")[2] for name in drawn] == ["csv", "png", "svg"]
    behind = rows_of(next((tables / "figures").glob("*collected.csv")))
    assert [row["on-time / min"] for row in behind][:2] == ["4.00000", "8.00000"]
    assert next((tables / "figures").glob("*.png")).read_bytes().startswith(b"\x89PNG")
    assert {row["setting"] for row in rows_of(tables / "causes.csv")} <= {SETTING}


@pytest.mark.parametrize("of", ["C1", "vanillin", "long line"])
def test_a_part_alone_is_the_same_bytes_twice(book: Path, tmp_path: Path, of: str) -> None:
    out = tmp_path / "part.pdf"
    told = ("report", "--notebook", str(book), "--of", of, "--paper", "letter", "--out", str(out))
    assert run(*told).returncode == 0
    first = out.read_bytes()
    with pdfplumber.open(out) as pages:
        assert (round(pages.pages[0].width), round(pages.pages[0].height)) == (612, 792)
    assert run(*told).returncode == 0
    assert out.read_bytes() == first


@pytest.mark.parametrize(
    ("of", "out", "words"),
    [
        ("C11", "a.pdf", "Nearest: C1"),
        ("C1", "a.docx", "End it in .pdf or .html"),
        ("C1", "nowhere/a.pdf", "can't be written"),
        ("C1", "full", "not empty"),
        ("C1", "full/kept.txt/..", "can't be written"),
        ("C1", "taken", "a file of this name is there"),
        ("C1", "full.pdf", "this is a folder"),
        ("C1", "full/a.pdf/b.pdf", "can't be written"),
    ],
)
def test_what_must_be_mended_is_told_and_nothing_is_written(
    book: Path, tmp_path: Path, of: str, out: str, words: str
) -> None:
    (tmp_path / "full").mkdir()
    (tmp_path / "taken").write_text("mine", encoding="utf-8")
    (tmp_path / "full.pdf").mkdir()
    (tmp_path / "full" / "kept.txt").write_text("mine", encoding="utf-8")
    done = run("report", "--notebook", str(book), "--of", of, "--out", str(tmp_path / out))
    assert done.returncode == 2
    assert words in done.stderr
    assert sorted(one.name for one in tmp_path.rglob("*")) == [
        "full", "full.pdf", "kept.txt", "taken"
    ]  # fmt: skip


def test_paper_says_which_runs_it_has_no_room_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("ozonewright.report.write.MOST_ON_PAPER", 3)
    file = tmp_path / "b.sqlite"
    with Notebook.create(file, "b") as notebook:
        for setting in ("first", "second"):
            for number in range(1, 6):
                label = f"{setting[0].upper()}{number}"
                add_table(notebook, run_table(label, "240 s", "28.46 mL", setting=setting))
    out = tmp_path / "a.pdf"
    words = ("report", "--notebook", str(file), "--only", "gate", "--out")
    assert run(*words, str(out)).returncode == 0
    printed = text_of(out)
    assert "7 earlier runs are left out of these pages for their length" in printed
    assert "Runs 1 to 2 of 5 stand in full in the single file (.html)" in printed  # the last used
    assert "Runs 1 to 5 of 5 stand in full in the single file (.html)" in printed
    assert {label for label in re.findall(r"Run ([FS]\d)\b", printed)} == {"S3", "S4", "S5"}
    assert run(*words, str(tmp_path / "a.html")).returncode == 0
    page = (tmp_path / "a.html").read_text(encoding="utf-8")
    assert len(set(re.findall(r">Run ([FS]\d)<", page))) == 10
    assert "left out of these pages" not in page


def test_long_work_tells_how_far_it_is(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("ozonewright.cli.report.EVERY", 2)
    file = tmp_path / "b.sqlite"
    with Notebook.create(file, "b") as notebook:
        for number in range(5):
            add_table(notebook, run_table(f"C{number}", "240 s", "28.46 mL"))
    done = run("report", "--notebook", str(file), "--only", "gate", "--out", str(tmp_path / "t"))
    assert done.stderr.splitlines() == ["2 runs so far", "4 runs so far"]
    assert done.stdout == f"{tmp_path / 't'} is written.\n"


def test_a_run_struck_out_says_so(book: Path, tmp_path: Path) -> None:
    out = tmp_path / "run.pdf"
    assert run("report", "--notebook", str(book), "--of", "C9", "--out", str(out)).returncode == 0
    assert "Withdrawn: struck out, and kept." in text_of(out)


def test_a_name_that_two_things_have_is_refused(tmp_path: Path) -> None:
    file = tmp_path / "b.sqlite"
    with Notebook.create(file, "b") as notebook:
        table = run_table("twin", "240 s", "28.46 mL", setting="twin")
        entry = add_table(notebook, table)[0]
        add_table(notebook, run_table("two", "240 s", "28.46 mL"))
        add_table(notebook, run_table("two", "240 s", "29.46 mL"))
    told = ("report", "--notebook", str(file), "--out", str(tmp_path / "a.html"), "--of")
    assert "setting: twin" in run(*told, "twin").stderr
    assert "Use an id" in run(*told, "two").stderr
    assert run(*told, "setting: twin").returncode == 0
    assert run(*told, entry.id).returncode == 0


@pytest.mark.parametrize("letter", ["\x07", "\x00", "\u202e", "\ufffe", "L" * 400, "]]>&<svg>"])
def test_no_letter_that_was_typed_stops_a_report(tmp_path: Path, letter: str) -> None:
    file, label = tmp_path / "b.sqlite", f"a{letter}b"
    with Notebook.create(file, label) as notebook:
        add_table(notebook, run_table(label, "240 s", "28.46 mL", remark=label))
    for out in (tmp_path / "a.pdf", tmp_path / "a.html", tmp_path / "tables"):
        done = run("report", "--notebook", str(file), "--out", str(out), "--of", label)
        assert (done.returncode, done.stderr) == (0, "")
    page = (tmp_path / "a.html").read_text(encoding="utf-8")
    assert not set(page) & {"\x00", "\x07", "\u202e", "\ufffe"}
    assert "<svg>" not in page


def test_an_empty_notebook_gives_a_page(tmp_path: Path) -> None:
    file = tmp_path / "b.sqlite"
    with Notebook.create(file, "nothing yet"):
        pass
    out = tmp_path / "a.pdf"
    assert run("report", "--notebook", str(file), "--out", str(out)).returncode == 0
    assert "nothing yet" in text_of(out)
    assert "empty" in run("report", "--notebook", str(file), "--out", str(out), "--of", "x").stderr
