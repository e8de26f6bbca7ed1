"""Every page of a notebook: what it says, what it keeps, what it refuses."""

from __future__ import annotations

import io
import re
import zipfile
from pathlib import Path

import pytest

from ozonewright.notebook import Notebook
from web.in_process import SETTING, Pages, client_of

NEW = {
    "run.label": "C4",
    "run.setting": SETTING,
    "run.on_time": "4 min",
    "titration.titres[1]": "28.46 mL",
    "titration.titrant.concentration": "0.0510 mol/L",
    "sheet": "1",
}


def test_home_shows_the_present_output_and_the_next_thing(pages: Pages) -> None:
    text = pages.get("/").text
    assert "mean of 3 runs" in text
    assert text.count('class="next"') == 1
    assert "garden workshop (invented)" in text
    for label in ("C1", "C2", "C3", "B1"):
        assert f">{label}</a>" in text


def test_home_tells_what_drift_said_once_it_was_asked(pages: Pages) -> None:
    """The setting's page asks drift; from then on home has its figure and its words."""
    assert "Drift was not asked yet" in pages.get("/").text
    sureness = re.compile(r'<p class="soft">(95 %: [^<]+)</p>')
    asked = sureness.search(pages.get("/setting", params={"name": SETTING}).text)
    home = sureness.search(pages.get("/").text)
    assert asked
    assert home
    assert home[1] == asked[1]


def test_a_run_shows_answer_working_budget_notes_history(pages: Pages) -> None:
    text = pages.get("/run/C1").text
    # by hand, less the field blank B1 in bottle 1, the guard titres being equal:
    # (28.46 - 0.40) mL x 0.0510 mol/L / 2 x 47.997 g/mol / 240 s = 0.5151 g/h
    assert "0.5151" in text
    for words in ("Working", "Where the uncertainty comes from", "Notes", "Sources", "History"):
        assert words in text
    assert 'class="bar"' in text


def test_typed_text_stays_readable_under_its_correction(pages: Pages) -> None:
    text = pages.get("/run/C3").text
    assert "<del>14.90 mL</del>" in text.replace("\u00a0", " ")
    assert "typing slip" in text


def test_a_setting_shows_mean_and_figure(pages: Pages) -> None:
    text = pages.get("/setting", params={"name": SETTING}).text
    assert "mean of 3 runs" in text
    assert "<svg" in text
    assert "on-time, min" in text


def test_a_run_is_kept_and_shown(pages: Pages) -> None:
    reply = pages.send("/new", NEW)
    assert reply.status_code == 303
    text = pages.get(reply.headers["location"]).text
    assert "Kept." in text
    with Notebook.open(pages.file, read_only=True) as notebook:
        entry = notebook.get("C4")
        assert entry.data["run"]["on_time"] == "4 min"
        assert entry.source == "page"
        assert [one.label for one in notebook.stored_results()] == ["C4"]


def test_a_second_tap_keeps_no_second_run(pages: Pages) -> None:
    first, second = pages.send("/new", NEW), pages.send("/new", NEW)
    assert first.headers["location"] == second.headers["location"]
    with Notebook.open(pages.file, read_only=True) as notebook:
        assert [one.label for one in notebook.entries()].count("C4") == 1


def test_faults_come_back_at_their_fields_with_all_that_was_typed(pages: Pages) -> None:
    typed = NEW | {"run.on_time": "4", "gas.flow": "1,234 L/min", "run.remark": "<b>wet</b>"}
    reply = pages.send("/new", typed)
    assert reply.status_code == 422
    assert "2 to mend" in reply.text
    for place in ("run-on-time", "gas-flow"):
        assert f'id="{place}-mend"' in reply.text
    assert 'value="1,234 L/min"' in reply.text
    assert "&lt;b&gt;wet&lt;/b&gt;" in reply.text
    with Notebook.open(pages.file, read_only=True) as notebook:
        assert "C4" not in [one.label for one in notebook.entries()]


def test_one_more_bottle_keeps_what_was_typed(pages: Pages) -> None:
    reply = pages.send("/new", NEW | {"more": "bottle", "titration.titres[2]": "1.0 mL"})
    assert 'name="titration.titres[3]"' in reply.text
    assert 'value="28.46 mL"' in reply.text


def test_a_copy_leaves_out_what_must_be_read_anew(pages: Pages) -> None:
    fields = pages.fields("/run/C2/copy")
    assert fields["run.label"] == "C4"
    assert fields["titration.titres[1]"] == ""
    assert fields["gas.flow"] == "0.80 L/min ± 4 %"
    reply = pages.send(
        "/run/C2/copy",
        fields
        | {
            "run.on_time": "4 min",
            "titration.titres[1]": "27.9 mL",
            "titration.titres[2]": "1.0 mL",
        },
    )
    assert reply.status_code == 303
    with Notebook.open(pages.file, read_only=True) as notebook:
        assert notebook.get("C4").data["gas"]["feed"]["oxygen"] == "92 vol%"


def test_a_correction_changes_only_what_was_changed(pages: Pages) -> None:
    with Notebook.open(pages.file, read_only=True) as notebook:
        before = notebook.get("C1")
    fields = pages.fields("/run/C1/correct") | {"titration.titres[1]": "28.64 mL"}
    reply = pages.send("/run/C1/correct", fields | {"reason": "misread"})
    assert reply.status_code == 303
    with Notebook.open(pages.file, read_only=True) as notebook:
        after = notebook.get("C1")
    expected = before.data
    expected["titration"]["titres"][0] = "28.64 mL"
    assert after.data == expected
    assert (after.revision, after.reason) == (2, "misread")


def test_a_correction_of_what_was_changed_meanwhile_is_not_kept(pages: Pages) -> None:
    fields = pages.fields("/run/C1/correct") | {"reason": "misread"}
    pages.send("/run/C1/correct", fields | {"titration.titres[1]": "28.64 mL"})
    late = pages.send("/run/C1/correct", fields | {"titration.titres[1]": "28.46 mL ± 0.02 mL"})
    assert late.status_code == 422
    assert "changed meanwhile" in late.text
    assert "28.46 mL ± 0.02 mL" in late.text


@pytest.mark.parametrize("reason", ["", "because"])
def test_a_correction_needs_one_of_the_reasons(pages: Pages, reason: str) -> None:
    fields = pages.fields("/run/C1/correct") | {"titration.titres[1]": "28.64 mL"}
    reply = pages.send("/run/C1/correct", fields | {"reason": reason})
    assert reply.status_code == 422
    assert "Tap one of the reasons" in reply.text


def test_withdraw_and_undo(pages: Pages) -> None:
    reply = pages.send("/run/C1/withdraw", {"reason": "kept twice"})
    assert "Withdrawn" in pages.get(reply.headers["location"]).text
    assert "mean of 2 runs" in pages.get("/").text
    undone = pages.send("/undo", {})
    assert undone.headers["location"].endswith("?done=undone")
    assert "mean of 3 runs" in pages.get("/").text


def test_undo_with_nothing_left(pages: Pages) -> None:
    for _ in range(9):
        reply = pages.send("/undo", {})
    assert reply.headers["location"] == "/?done=nothing"
    assert "nothing left to undo" in pages.get("/?done=nothing").text


def test_search_finds_by_typed_text(pages: Pages) -> None:
    text = pages.get("/search", params={"q": "56.02"}).text
    assert ">C2</a>" in text
    assert ">C1</a>" not in text
    assert "0 entries hold" in pages.get("/search", params={"q": "vanillin"}).text
    assert pages.get("/search").status_code == 200


def test_unknown_entry_names_the_nearest(pages: Pages) -> None:
    reply = pages.get("/run/C33")
    assert reply.status_code == 404
    assert ">C3</a>" in reply.text


@pytest.mark.parametrize("path", ["/nope", "/setting?name=nope", "/run/C1/nope"])
def test_unknown_pages_are_404_with_a_way_on(pages: Pages, path: str) -> None:
    reply = pages.get(path)
    assert reply.status_code == 404
    assert "<h1>" in reply.text


def test_backup_is_a_notebook(pages: Pages, tmp_path: Path) -> None:
    reply = pages.get("/backup")
    copy = tmp_path / "copy.sqlite"
    copy.write_bytes(reply.content)
    with Notebook.open(copy, read_only=True) as notebook:
        assert len(notebook.entries()) == 4
    assert "attachment" in reply.headers["content-disposition"]


def test_export_is_an_archive_of_text(pages: Pages) -> None:
    archive = zipfile.ZipFile(io.BytesIO(pages.get("/export").content))
    text = b"".join(archive.read(name) for name in archive.namelist())
    assert b"14.90 mL" in text


def test_pages_follow_what_another_program_writes(pages: Pages) -> None:
    assert ">C9</a>" not in pages.get("/").text
    with Notebook.open(pages.file) as notebook:
        data = notebook.get("C1").data
        data["run"]["label"] = "C9"
        notebook.add("run", data)
    assert ">C9</a>" in pages.get("/").text


@pytest.mark.parametrize(
    "content", [b"", b"not a notebook at all", b"SQLite format 3\0" + b"x" * 4000]
)
def test_a_file_that_is_no_notebook_says_so(tmp_path: Path, content: bytes) -> None:
    file = tmp_path / "odd.sqlite"
    file.write_bytes(content)
    with client_of(file, tmp_path) as client:
        reply = client.get("/")
        assert reply.status_code == 500
        assert "notebook" in reply.text
        assert "made a mistake" not in reply.text
    assert file.read_bytes() == content


def test_an_empty_notebook_offers_a_new_run(tmp_path: Path) -> None:
    Notebook.create(tmp_path / "empty.sqlite", "empty").close()
    with client_of(tmp_path / "empty.sqlite", tmp_path) as client:
        for path in ("/", "/runs", "/new", "/search?q=a"):
            assert client.get(path).status_code == 200
        assert "No run yet" in client.get("/").text


@pytest.mark.parametrize("path", ["/report", "/report?of=C1&paper=letter"])
def test_a_report_is_sent_as_pages_to_print(pages: Pages, path: str) -> None:
    reply = pages.get(path)
    assert reply.status_code == 200
    assert reply.headers["content-type"] == "application/pdf"
    assert reply.content.startswith(b"%PDF")


def test_the_buttons_of_reports_lead_to_them(pages: Pages) -> None:
    with Notebook.open(pages.file, read_only=True) as notebook:
        run = notebook.get("C1").id
    asked = {"/": "/report", f"/run/{run}": f"/report?of={run}"}
    for path, wanted in asked.items():
        assert f'href="{wanted}"' in pages.get(path).text
    setting = pages.get("/setting?name=concentrator%200.8%20L%2Fmin").text
    assert 'href="/report?of=setting%3A%20concentrator%200.8%20L%2Fmin"' in setting


def test_a_report_of_nothing_known_names_the_nearest(pages: Pages) -> None:
    reply = pages.get("/report?of=C11")
    assert reply.status_code == 404
    assert "Perhaps one of these was meant" in reply.text
    assert "Perhaps one of these was meant" in reply.text


def test_a_report_without_a_notebook_leads_home(bare: Pages) -> None:
    assert bare.get("/report", follow_redirects=False).headers["location"] == "/"
