"""`ozonewright generator` as a person types it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from cli.typed import run
from ozonewright.bench.notebook import add_file
from ozonewright.notebook import Notebook

RUN = """
[[run]]
label = "{label}"
setting = "{setting}"
on_time = "4 min"
rate = "{rate}"
[run.gas]
feed = {feed}
{flow}
temperature = "22 °C"
pressure = "101.3 kPa"
[run.electrical]
power = "38 W"
wall = "{wall} °C"
"""
CONCENTRATOR = '{ oxygen = "93 vol%", argon = "4 vol%", nitrogen = "3 vol%" }'
AIR = '"dry air"'


def typed_run(label: str, rate: str, wall: int, flow: str, feed: str = CONCENTRATOR) -> str:
    setting = "air" if feed == AIR else "oxygen"
    line = f'flow = "{flow}"' if flow else ""
    return RUN.format(
        label=label, setting=setting, rate=rate, wall=wall, flow=line, feed=feed
    ).lstrip()


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("generator")
    file = folder / "runs.toml"
    runs = [
        typed_run("air", "0.24 g/h ± 0.005", 55, "0.80 L/min", AIR),
        typed_run("lost", "0.24 g/h ± 0.005", 55, "", AIR),
        typed_run("slow", "0.53 g/h ± 0.01", 65, "0.80 L/min"),
        typed_run("fast", "0.57 g/h ± 0.01", 60, "2.0 L/min"),
    ]
    file.write_text("".join(runs), encoding="utf-8")
    with Notebook.create(folder / "b.sqlite", "bench") as notebook:
        add_file(notebook, file)
    return folder / "b.sqlite"


def test_json_has_the_promised_keys(book: Path) -> None:
    at = "flow=1.2 L/min, wall=45 °C"
    done = run("generator", "--notebook", str(book), "--at", at, "--json")
    assert done.returncode == 0, done.stderr
    found = json.loads(done.stdout)
    wanted = (
        "efficiency u_efficiency rate_g_per_h interval_rate_g_per_h concentration_g_per_nm3 "
        "yield_g_per_kwh gas_temperature_c nox_mol_percent_of_ozone upgrades notes unknowns"
    )
    assert set(wanted.split()) <= found.keys()
    low, high = found["interval_rate_g_per_h"]
    assert low < found["rate_g_per_h"] < high
    assert 0.5 < found["rate_g_per_h"] < 0.65
    assert found["wall_c"] == pytest.approx(45.0)
    # by hand: 1.2 L/min at 22 °C and 101.3 kPa are 1.11 NL/min
    assert found["flow_nl_per_min"] == pytest.approx(1.110, abs=0.001)
    assert found["at"] == at
    assert "gas.flow" in found["unknowns"]


def test_a_setting_of_the_usual_notebook(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("OZONEWRIGHT_NOTEBOOK", str(book))
    prices = ("--prices", "oxygen feed=180 EUR, cooler wall=15 EUR")
    wishes = ("--concentration", "2 g/Nm3", "--output", "9 g/h")
    costs = ("--gas-price", "9 EUR", "--energy-price", "0.30 EUR")
    done = run("generator", "--setting", "air", *prices, *wishes, *costs)
    assert done.returncode == 0, done.stderr
    for words in (
        "of ozone at 0.740 NL/min of feed", "concentrator oxygen", "180 EUR", "EUR/g",
        "nitrogen oxides", ") cm³", "One run only", "lost (no flow", "no flow from a tenth", "Next",
    ):  # fmt: skip
        assert words in done.stdout, words


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--at", "flow=fast"], "at.flow"),
        (["--at", "flux=2 L/min"], "Nearest: flow"),
        (["--at", "feed=argon"], "this feed is not known"),
        (["--at", "wall="], "nothing stands behind"),
        (["--at", "tubes beside=0"], "tubes are counted"),
        (["--prices", "gold plate=3 EUR"], "no change has this name"),
        (["--prices", "dry feed=3 EUR, cooler wall=4 CHF"], "two currencies"),
        (["--gas-price", "9 EUR"], "energy"),
        (["--setting", "oxigen"], "Nearest: oxygen"),
    ],
)
def test_what_is_wrong_is_told(book: Path, words: list[str], told: str) -> None:
    done = run("generator", "--notebook", str(book), *words)
    assert done.returncode == 2
    assert told in done.stderr


def test_all_faults_at_once(book: Path) -> None:
    words = ("--at", "flow=0 L/min, power=hot", "--output", "much")
    done = run("generator", "--notebook", str(book), *words)
    for place in ("at.flow", "at.power", "output"):
        assert place in done.stderr


def test_runs_that_say_too_little(tmp_path: Path) -> None:
    file = tmp_path / "run.toml"
    file.write_text(typed_run("bare", "0.5 g/h", 60, ""), encoding="utf-8")
    done = run("generator", str(file))
    assert done.returncode == 2
    assert "bare lacks gas.flow" in done.stderr
    assert run("generator").returncode == 2
    assert run("generator", str(file), "--setting", "x").returncode == 2


def test_files_and_other_places(tmp_path: Path) -> None:
    file = tmp_path / "run.toml"
    file.write_text(typed_run("one", "0.500 g/h ± 0.005", 60, "0.80 L/min"), encoding="utf-8")
    table = tmp_path / "map.csv"
    assert run("generator", str(file), "--map", str(table)).returncode == 0
    lines = table.read_text(encoding="utf-8").splitlines()
    assert len(lines) == 1 + 41 * 41
    flow, power, middle, low, high, _ = map(float, lines[1 + 20 * 41 + 20].split(","))
    # the middle of the map is the run: 0.80 L/min at 22 °C are 0.740 NL/min
    assert flow == pytest.approx(0.740, abs=0.001)
    assert power == pytest.approx(38.0)
    assert low < middle < high
    assert middle == pytest.approx(0.5, rel=0.05)
    drawing = tmp_path / "map.svg"
    assert run("generator", str(file), "--map", str(drawing), "--map-over", "wall").returncode == 0
    assert "tube temperature" in drawing.read_text(encoding="utf-8")
    assert "End it .csv or .svg" in run("generator", str(file), "--map", "map.png").stderr
    at = "flow=1,5 NL/min, feed=room air, dew point=-40 °C, tubes behind=2, power=30 W"
    done = run("generator", str(file), "--at", at, "--json")
    assert done.returncode == 0, done.stderr
    found = json.loads(done.stdout)
    assert found["flow_nl_per_min"] == pytest.approx(1.5)
    assert found["power_w"] == pytest.approx(30.0)
    assert {"generator-other-feed"} <= {note["code"] for note in found["notes"]}
