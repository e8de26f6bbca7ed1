"""The notebook's commands as a person types them."""

from __future__ import annotations

import json
import sqlite3
from pathlib import Path

import pytest

from cli.typed import Done, run

ROOT = Path(__file__).parents[2]
EXAMPLE = ROOT / "docs" / "examples" / "run.toml"
BLANK = EXAMPLE.read_text("utf-8").replace('discharge = "on"', 'discharge = "off"')


@pytest.fixture
def book(tmp_path: Path) -> Path:
    path = tmp_path / "b.sqlite"
    assert run("notebook", "new", str(path), "--label", "garden").returncode == 0
    return path


def ask(book: Path, act: str, *words: str) -> Done:
    return run("notebook", act, "--notebook", str(book), *words)


def variant(tmp_path: Path, name: str, *changes: tuple[str, str]) -> Path:
    text = EXAMPLE.read_text("utf-8")
    for old, new in (('"C4"', f'"{name}"'), *changes):
        assert old in text
        text = text.replace(old, new)
    path = tmp_path / f"{name}.toml"
    path.write_text(text, encoding="utf-8")
    return path


def test_add_list_show_history_verify(book: Path, tmp_path: Path) -> None:
    done = ask(book, "add", str(EXAMPLE))
    assert done.stdout.startswith("stored: run C4, revision 1")
    rows = json.loads(ask(book, "list", "--json").stdout)
    assert {"id", "kind", "label", "revision", "when"} <= rows[0].keys()
    assert rows[0]["label"] == "C4"
    assert "28.46 mL" in ask(book, "show", "C4").stdout
    assert json.loads(ask(book, "show", "C4", "--json").stdout)["data"]["run"]["label"] == "C4"
    mended = variant(tmp_path, "C4", ("28.46 mL", "28.64 mL"))
    assert ask(book, "revise", "C4", str(mended), "--reason", "typing slip").returncode == 0
    history = ask(book, "history", "C4").stdout
    assert "typing slip" in history
    assert '"28.46 mL"' in history
    assert '"28.64 mL"' in history
    assert len(json.loads(ask(book, "history", "C4", "--json").stdout)) == 2
    verified = ask(book, "verify")
    assert verified.returncode == 0
    assert verified.stdout.startswith("Sound: 1 entries, 2 stored answers")


def test_the_word_notebook_may_be_left_out(book: Path) -> None:
    assert run("add", "--notebook", str(book), str(EXAMPLE)).returncode == 0
    assert "C4" in run("list", "--notebook", str(book)).stdout


def test_nothing_is_half_added(book: Path, tmp_path: Path) -> None:
    bad = tmp_path / "bad.toml"
    bad.write_text('[run]\nrate = "0.5"\n', encoding="utf-8")
    done = ask(book, "add", str(EXAMPLE), str(bad))
    assert done.returncode == 2
    assert "run.rate" in done.stderr
    assert ask(book, "list").stdout == "No entries.\n"


def test_copy_withdraw_undo(book: Path) -> None:
    ask(book, "add", str(EXAMPLE))
    printed = ask(book, "copy", "C4", "--set", "run.on_time=300 s").stdout
    assert 'on_time = "300 s"' in printed
    assert "titres" not in printed
    words = ["--set", "run.on_time=300 s", "--set", "titration.titres=35.1 mL, 1.2 mL"]
    added = ask(book, "copy", "C4", *words, "--set", "run.label=C5", "--add")
    assert added.stdout.startswith("stored: run C5")
    assert ask(book, "copy", "C4", "--set", "nonsense").returncode == 2
    assert ask(book, "withdraw", "C5", "--reason", "wrong bottle").stdout.startswith("withdrawn")
    assert "C5" not in ask(book, "list").stdout
    assert "withdrawn" in ask(book, "list", "--withdrawn").stdout
    assert "# withdrawn: wrong bottle" in ask(book, "show", "C5").stdout
    assert ask(book, "undo").stdout.startswith("undone: run C5")
    assert "C5" in ask(book, "list").stdout
    for _ in range(3):
        done = ask(book, "undo")
    assert done.stdout == "Nothing to undo.\n"


def test_export_import_backup(book: Path, tmp_path: Path) -> None:
    ask(book, "add", str(EXAMPLE))
    assert ask(book, "export", str(tmp_path / "out")).stdout.startswith("1 entries")
    other = tmp_path / "other.sqlite"
    run("notebook", "new", str(other))
    assert "1 entries are new" in ask(other, "import", str(tmp_path / "out")).stdout
    assert "0 entries are new" in ask(other, "import", str(book)).stdout
    assert ask(other, "verify").returncode == 0
    assert ask(book, "backup", str(tmp_path / "copy.sqlite")).returncode == 0
    assert ask(book, "backup", str(tmp_path / "copy.sqlite")).returncode == 2


def test_verify_tells_a_figure_that_changed_with_its_version(book: Path) -> None:
    ask(book, "add", str(EXAMPLE))
    connection = sqlite3.connect(book, isolation_level=None)
    (body,) = connection.execute("SELECT body FROM result").fetchone()
    values = json.loads(body)
    values["rate"] *= 1.01
    connection.execute("DROP TRIGGER result_no_update")
    trigger = "CREATE TRIGGER result_no_update BEFORE UPDATE ON result "
    connection.execute("UPDATE result SET body = ?", [json.dumps(values)])
    connection.execute(trigger + "BEGIN SELECT RAISE(ABORT, 'result is append-only'); END")
    connection.close()
    done = ask(book, "verify")
    assert done.returncode == 3
    assert "1 figures differ" in done.stdout
    assert "version 0.1.0" in done.stdout
    found = json.loads(ask(book, "verify", "--json").stdout)
    assert found["sound"] is False
    assert found["differences"][0]["figure"] == "rate"


def test_output_of_a_notebook_and_of_a_setting(book: Path, tmp_path: Path) -> None:
    blank = tmp_path / "blank.toml"
    blank.write_text(BLANK.replace('"C4"', '"B1"').replace("28.46", "1.18"), encoding="utf-8")
    longer = variant(tmp_path, "C5", ("240 s", "300 s"), ("28.46 mL", "35.30 mL"))
    again = variant(tmp_path, "C6", ("28.46 mL", "28.60 mL"))
    ask(book, "add", str(EXAMPLE), str(blank), str(longer), str(again))
    runs = json.loads(run("output", "--notebook", str(book), "--json").stdout)["runs"]
    assert [found["label"] for found in runs] == ["C4", "B1", "C5", "C6"]
    assert "field blank" in run("output", "--notebook", str(book)).stdout
    words = ["output", "--notebook", str(book), "--setting", "concentrator 0.8 L/min"]
    mean = json.loads(run(*words, "--json").stdout)
    rates = [found["rate_g_per_h"] for found in runs if found["discharge"] == "on"]
    assert mean["rate_g_per_h"] == pytest.approx(sum(rates) / 3)
    assert mean["count"] == 3
    # A field blank of 1.18 mL is a surplus that nobody can miss, and it is taken off each run.
    assert mean["cause"] == "blank-surplus"
    assert mean["surplus_ruled_out"] is True
    assert "(mean of 3 runs)" in run(*words).stdout
    wrong = run("output", "--notebook", str(book), "--setting", "concentrator 0.8")
    assert wrong.returncode == 2
    assert "Nearest: concentrator 0.8 L/min" in wrong.stderr


def test_no_notebook_and_no_run_are_told(tmp_path: Path) -> None:
    assert run("list", "--notebook", str(tmp_path / "none.sqlite")).returncode == 2
    assert run("output").returncode == 2


def test_typed_text_cannot_steer_the_terminal(book: Path, tmp_path: Path) -> None:
    file = tmp_path / "evil.toml"
    evil = "e\u001b[31m\u202eabc"
    file.write_text(
        '[run]\nlabel = "e\\u001b[31m\\u202eabc"\nrate = "0.5 g/h"\nremark = "a\\r\\nb\\u009b"\n',
        encoding="utf-8",
    )
    told = [
        ask(book, "add", str(file)),
        ask(book, "list"),
        ask(book, "show", evil),
        ask(book, "show", "another"),
    ]
    for done in told:
        assert "\\u202e" in done.stdout + done.stderr
        assert not {"\u001b", "\u202e", "\u009b", "\r"} & set(done.stdout + done.stderr)


def test_a_table_of_runs_goes_in_and_out(book: Path, tmp_path: Path) -> None:
    file, out = tmp_path / "runs.csv", tmp_path / "out.csv"
    file.write_text("label,setting,on time / min,rate / g/h\nT1,'=x,2,0.92\nT2,'=x,4,0.71\n")
    assert ask(book, "add", str(file)).returncode == 0
    table = ask(book, "table", "--setting", "=x").stdout
    assert table.splitlines()[1].startswith("T1,'=x,,on,120,")
    out.write_text(table, encoding="utf-8")
    assert ask(book, "add", str(out)).returncode == 0
    assert len(json.loads(ask(book, "list", "--setting", "=x", "--json").stdout)) == 4
    assert ask(book, "import", str(file)).returncode == 2
