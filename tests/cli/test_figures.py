"""`--figures DIR`: the figures of an answer as files, whatever the question."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from cli.typed import run

ROOM = """
[room]
label = "shed"
volume = "24 m3"
air_changes = "0.5 /h"
removal = "2.8 /h"
temperature = "22 °C"
limit = "0.1 ppm"
"""
EXAMPLES = Path(__file__).resolve().parents[2] / "docs" / "examples"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Documents to ask of."""
    (tmp_path / "room.toml").write_text(ROOM, encoding="utf-8")
    for name, rate in (("a", "0.62 g/h ± 2 %"), ("b", "0.20 g/h ± 2 %")):
        text = f'[run]\nsetting = "{name}"\non_time = "4 min"\nrate = "{rate}"\n'
        (tmp_path / f"{name}.toml").write_text(text, encoding="utf-8")
    return tmp_path


@pytest.mark.parametrize(
    ("words", "stems"),
    [
        (
            ("duty", "--on", "6 min", "--off", "9 min", "--time-constant", "4.6 min"),
            ["timer-warmth"],
        ),
        (("room", "room.toml", "--release", "100 mg/h"), ["shed-ozone"]),
        (("compare", "a.toml", "b.toml"), ["a-and-b-outputs"]),
        (
            ("drift", "--points", "2 min: 0.92 g/h", "--points", "4 min: 0.81 g/h"),
            ["series-left-over", "series-next-titres", "series-series"],
        ),
    ],
)
def test_every_figure_is_written_with_its_numbers(
    folder: Path, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...], stems: list[str]
) -> None:
    monkeypatch.chdir(folder)
    done = run(*words, "--figures", "out", "--json")
    assert done.returncode == 0
    assert done.stdout.lstrip().startswith("{")  # what is told of the files stands apart
    written = sorted((folder / "out").iterdir())
    assert [path.name for path in written] == [
        f"{stem}.{ending}" for stem in stems for ending in ("csv", "png", "svg")
    ]
    for path in written:
        assert f"{Path('out') / path.name} is written." in done.stderr
    for path in (folder / "out").glob("*.csv"):
        head, *rows = csv.reader(path.read_text(encoding="utf-8").splitlines())
        assert rows
        assert any(" / " in cell for cell in head)


def test_a_reaction_gives_its_marks_and_structures(tmp_path: Path) -> None:
    """The marks by hand (design): look from 42, stop by 58 min."""
    done = run("reaction", str(EXAMPLES / "reaction.toml"), "--figures", str(tmp_path / "out"))
    assert done.returncode == 0
    rows = dict(
        csv.reader(
            (tmp_path / "out" / "vanillin-second-lot-marks.csv")
            .read_text(encoding="utf-8")
            .splitlines()
        )
    )
    assert float(rows["look from"]) == pytest.approx(42.0, abs=0.5)
    assert float(rows["stop by"]) == pytest.approx(58.0, abs=0.5)
    assert (tmp_path / "out" / "vanillin-second-lot-substrate-1.svg").exists()


def test_what_has_no_figure_and_where_none_can_be_written_is_told(folder: Path) -> None:
    room = str(folder / "room.toml")
    oxygen = run("room", room, "--oxygen", "1 L/min", "--figures", str(folder / "out"))
    assert (oxygen.returncode, "only ozone is drawn" in oxygen.stderr) == (2, True)
    inside = str(folder / "room.toml" / "out")
    refused = run("room", room, "--release", "100 mg/h", "--figures", inside)
    assert (refused.returncode, "can't be written here" in refused.stderr) == (2, True)
