"""The worked example: what it is made from comes back, and the same seed gives the same files."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from ozonewright.bench.drift import drift_of
from ozonewright.demo import MARK, TRUTH, Demo, demo, run_files, store
from ozonewright.demo.truth import AIR, OXYGEN, SLOW
from ozonewright.errors import Inconsistent, InputError
from ozonewright.questions.drift import Drift
from ozonewright.show.demo import notes_text
from ozonewright.units import Kind, number, parse

OUTPUT = {setting.name: parse(setting.output, Kind.MASS_RATE) for setting in TRUTH.settings}
ODD = {"C4", "P2", "A0"}
"""Runs that something happened to."""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("demo")
    store(made, run_files())
    return made


@pytest.fixture(scope="module")
def found(folder: Path) -> Demo:
    return demo(folder)


def test_a_dozen_runs_answer_with_what_is_true(found: Demo) -> None:
    assert len(found.outputs) == 12
    for run in found.outputs:
        if run.label not in ODD:
            truth = OUTPUT[run.setting]
            # Run-to-run scatter of 0.7 % besides the readings; three standard deviations.
            allowed = 3.0 * (run.rate.u**2 + (0.007 * truth) ** 2) ** 0.5
            assert run.rate.value == pytest.approx(truth, abs=allowed), run.label


@pytest.mark.parametrize("seed", range(20))
def test_other_noise_keeps_readings_in_their_good_range(seed: int) -> None:
    for text in run_files(seed).values():
        table = tomllib.loads(text)
        if table.get("run", {}) and "titration" in table and table["run"]["discharge"] == "on":
            first, guard = (float(one.split()[0]) for one in table["titration"]["titres"])
            # 30 to 100 % of the 50 mL burette, but the shortest air and pair runs a little less
            assert 15.0 < first < 50.0
            assert 0.3 < guard < 3.0


def test_the_slip_reads_as_the_missing_half_minute(found: Demo) -> None:
    slip = next(run for run in found.outputs if run.label == "C4")
    assert slip.rate.value / OUTPUT[OXYGEN] == pytest.approx(270.0 / 300.0, rel=0.03)


def test_the_field_blank_proves_the_surplus(found: Demo) -> None:
    blank = next(run for run in found.outputs if run.discharge == "off")
    # Two bottles of 1.5 mg; two readings of 0.02 mL (1.2 mg/mL) each with a blank besides.
    assert parse("3.0 mg", Kind.MASS) == pytest.approx(
        blank.ozone.value, abs=parse("0.15 mg", Kind.MASS)
    )
    rates = [run.rate.value for run in found.without_field_blank]
    assert rates == sorted(rates, reverse=True)
    minutes = [run.on_time.value for run in found.without_field_blank]
    assert minutes == sorted(minutes)
    shortest = found.without_field_blank[0]
    expected = OUTPUT[AIR] + parse("3.0 mg", Kind.MASS) / shortest.on_time.value
    assert shortest.rate.value == pytest.approx(expected, rel=0.03)


def test_the_pair_shares_its_minutes_and_differs_beyond_its_readings(found: Demo) -> None:
    first, second = (run for run in found.outputs if run.setting == SLOW)
    assert first.on_time.value == second.on_time.value
    apart = abs(first.rate.value - second.rate.value)
    assert apart > 4.0 * (first.rate.u**2 + second.rate.u**2) ** 0.5


def test_the_guard_lets_two_or_three_per_cent_pass(found: Demo) -> None:
    for run in found.outputs:
        if run.discharge == "on":
            assert 0.015 < run.guard_share.value < 0.04, run.label


def test_same_seed_same_bytes_other_seed_other_readings() -> None:
    assert run_files(7) == run_files(7)
    assert run_files(7) != run_files(8)


def test_everything_is_marked_invented() -> None:
    files = {**run_files(), "notes.md": notes_text(TRUTH, 7)}
    assert all(MARK.partition(":")[0] in text for text in files.values())
    assert tomllib.loads(files["truth.toml"])["evidence"] == "invented"


def test_notes_tell_what_there_is_to_find() -> None:
    text = notes_text(TRUTH, 7)
    assert "C4 was planned for 300 s and typed so; the gas was on for 270 s" in text
    assert "The field blank A0 proves it" in text
    assert f'drift --notebook demo.sqlite --setting "{AIR}"` must determine it' in text
    assert "P1 and P2 ran equally long" in text


def test_the_same_files_may_be_written_again(folder: Path) -> None:
    store(folder, run_files())
    for name, text in run_files().items():
        assert (folder / name).read_text(encoding="utf-8") == text


def test_a_changed_file_is_left_alone_and_nothing_is_written(tmp_path: Path) -> None:
    mine = tmp_path / "runs" / "C1.toml"
    mine.parent.mkdir()
    mine.write_text("mine", encoding="utf-8")
    with pytest.raises(Inconsistent, match=r"runs/C1\.toml"):
        store(tmp_path, run_files())
    assert mine.read_text(encoding="utf-8") == "mine"
    assert [path.name for path in mine.parent.iterdir()] == ["C1.toml"]


def test_a_folder_that_is_a_file_is_told(tmp_path: Path) -> None:
    file = tmp_path / "file"
    file.write_text("", encoding="utf-8")
    with pytest.raises(InputError, match="can't be written"):
        store(file, run_files())


def drift_of_demo(seed: int, setting: str) -> Drift:
    tables = [tomllib.loads(text) for name, text in run_files(seed).items() if "runs/" in name]
    return drift_of([table for table in tables if table["run"]["setting"] == setting])


@pytest.mark.parametrize(
    "seed", [7, *(pytest.param(seed, marks=pytest.mark.slow) for seed in range(3))]
)
def test_drift_determines_what_it_must_and_no_more(seed: int) -> None:
    """The truth: a surplus of 1.5 mg in each bottle of one setting; of the pair nothing tells."""
    found = drift_of_demo(seed, AIR)
    assert (found.determined, found.verdict) == (True, "blank-surplus")
    assert found.fit is not None
    surplus = number(found.fit.intercept.value, Kind.MASS, "mg")
    assert surplus == pytest.approx(3.0, abs=3.0 * number(found.fit.intercept.u, Kind.MASS, "mg"))
    pair = drift_of_demo(seed, SLOW)
    assert (pair.determined, pair.verdict) == (False, None)
    assert pair.next
