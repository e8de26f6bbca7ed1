"""`ozonewright output` and `check` as a person types them: text, JSON, exit codes."""

from __future__ import annotations

import json
from io import BytesIO, TextIOWrapper
from pathlib import Path
from unittest import mock

import pytest

from cli.typed import run

ROOT = Path(__file__).parents[2]
EXAMPLE = ROOT / "docs" / "examples" / "run.toml"
LEAST = """[run]
on_time = "4 min"
[titration]
titres = ["28.46 mL"]
[titration.titrant]
concentration = "0.0510 mol/L"
"""


@pytest.fixture
def least(tmp_path: Path) -> Path:
    path = tmp_path / "least.toml"
    path.write_text(LEAST, encoding="utf-8")
    return path


def test_the_answer_is_the_first_line_and_next_follows() -> None:
    done = run("output", str(EXAMPLE))
    assert done.returncode == 0
    assert done.stdout.startswith("C4, concentrator 0.8 L/min: 0.5343 ± 0.0036 g/h (11.1 mmol/h")
    assert done.stdout.index("\nNext\n") < done.stdout.index("\nWorking\n")
    assert max(map(len, done.stdout.splitlines())) <= 80


def test_a_time_by_its_digits_is_asked_for_to_the_second(least: Path) -> None:
    said = " ".join(run("output", str(least)).stdout.split())
    assert "0.522 ± 0.079 g/h (10.9 mmol/h, u at least)" in said
    assert 'type it to the second, as in "4 min 0 s"' in said


def test_one_run_is_an_object_and_several_are_a_list(least: Path) -> None:
    one = json.loads(run("output", str(EXAMPLE), "--json").stdout)
    two = json.loads(run("output", str(EXAMPLE), str(least), "--json").stdout)
    assert one["label"] == "C4"
    assert [found["label"] for found in two["runs"]] == ["C4", None]
    assert two["runs"][0]["rate_g_per_h"] == one["rate_g_per_h"]


def test_every_fault_is_told_on_standard_error_with_exit_2(tmp_path: Path) -> None:
    path = tmp_path / "faulty.toml"
    text = LEAST.replace('"28.46 mL"', '"28,460 mL"').replace('"4 min"', '"4:00"')
    path.write_text(text + 'strength = "1 N"\n', encoding="utf-8")
    done = run("output", str(path))
    assert done.returncode == 2
    assert done.stdout == ""
    for place in ("run.on_time", "titration.titres[1]", "titration.titrant.strength"):
        assert place in done.stderr
    assert "3 faults" in done.stderr
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "no [run] is written here"),
        ("[run\n", "this is not TOML"),
        ("run = 3\n", "run must be a table"),
        ("[[run]]\n[[run]]\n", "run[2]"),
        ('[rum]\non_time = "4 min"\n', "Nearest: run"),
    ],
)
def test_broken_files(tmp_path: Path, text: str, says: str) -> None:
    path = tmp_path / "broken.toml"
    path.write_text(text, encoding="utf-8")
    done = run("output", str(path))
    assert done.returncode == 2
    assert says in done.stderr


def test_a_missing_file_and_bytes(tmp_path: Path) -> None:
    assert "can't be read" in run("output", str(tmp_path / "none.toml")).stderr
    path = tmp_path / "bytes.toml"
    path.write_bytes(b"\xff\xfe\x00")
    assert "UTF-8" in run("output", str(path)).stderr
    assert run("output", str(tmp_path)).returncode == 2


def test_windows_files_are_fine(tmp_path: Path) -> None:
    path = tmp_path / "windows.toml"
    path.write_bytes(b"\xef\xbb\xbf" + LEAST.replace("\n", "\r\n").encode())
    assert run("output", str(path)).returncode == 0


def test_check_says_what_is_open(least: Path) -> None:
    done = run("check", str(EXAMPLE), str(least))
    assert done.returncode == 0
    assert done.stdout.startswith("Sound: 2 runs.")
    assert "answers that wait for it: concentration" in done.stdout
    found = json.loads(run("check", str(least), "--json").stdout)
    assert "gas.flow" in found["documents"][0]["unknowns"]


def test_check_tells_faults(tmp_path: Path) -> None:
    path = tmp_path / "faulty.toml"
    path.write_text(LEAST.replace("4 min", "4"), encoding="utf-8")
    assert run("check", str(path)).returncode == 2


def test_a_document_on_standard_input() -> None:
    marked = ("\ufeff" + LEAST).encode()
    with mock.patch("sys.stdin", TextIOWrapper(BytesIO(marked), encoding="utf-8")):
        assert run("output", "-").stdout.startswith("0.522 ± 0.079 g/h")
    with mock.patch("sys.stdin", TextIOWrapper(BytesIO(b"\xff\xfe"), encoding="utf-8")):
        done = run("output", "-")
    assert done.returncode == 2
    assert "not text in UTF-8" in done.stderr


def test_help_and_unknown_commands() -> None:
    assert "output" in run("--help").stdout
    assert run("outptu").returncode == 2
    assert run("output").returncode == 2
