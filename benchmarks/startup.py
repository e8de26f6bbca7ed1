"""Time to a first answer: fresh processes against `python -c "import click"`.

A round starts every command once, so that a slow spell of the machine strikes all of them; the
ratios are of medians over the rounds. Bytecode is compiled before the first round, as it is after
`make setup`.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter

from figure import Figure

ROUNDS = 25
RUN = Path(__file__).parents[1] / "docs" / "examples" / "run.toml"
SHORTEST = """\
[run]
on_time = "4 min"
[titration]
titres = ["28.46 mL"]
[titration.titrant]
concentration = "0.0510 mol/L"
"""
"""The shortest run that answers; its on-time is so unsure that Monte Carlo is needed."""
CLICK = "import click"
HELP, FULL, JSON, SHORT = "--help", "output RUN.toml", "output RUN.toml --json", "shortest run"


def commands(folder: Path) -> dict[str, list[str]]:
    """Return each command by the name it has in the table."""
    short = folder / "run.toml"
    short.write_text(SHORTEST, encoding="utf-8")
    ours = str(Path(sys.executable).with_name("ozonewright"))
    return {
        CLICK: [sys.executable, "-c", CLICK],
        HELP: [ours, "--help"],
        FULL: [ours, "output", str(RUN)],
        JSON: [ours, "output", str(RUN), "--json"],
        SHORT: [ours, "output", str(short)],
    }


def seconds(command: list[str], environment: dict[str, str]) -> float:
    """Return how long a fresh process takes from start to end."""
    start = perf_counter()
    subprocess.run(command, env=environment, stdout=subprocess.DEVNULL, check=True)
    return perf_counter() - start


def main() -> list[Figure]:
    """Return the figures of issue 2 and the times behind them."""
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    times: dict[str, list[float]] = {}
    with TemporaryDirectory() as folder:
        known = commands(Path(folder))
        for command in known.values():
            seconds(command, environment)
        for _ in range(ROUNDS):
            for name, command in known.items():
                times.setdefault(name, []).append(seconds(command, environment))
    middle = {name: median(several) for name, several in times.items()}

    def ratio(name: str) -> float:
        return middle[name] / middle[CLICK]

    return [
        Figure(f"`ozonewright {HELP}` over `{CLICK}`", ratio(HELP), at_most=1.5),
        Figure(f"`ozonewright {FULL}` over `{CLICK}`", ratio(FULL), at_most=5.0),
        Figure("the same with `--json`", ratio(JSON), at_most=5.0),
        Figure("the same for the shortest run", ratio(SHORT), at_most=5.0),
        *(Figure(f"`{name}`", 1e3 * middle[name], "ms") for name in times),
    ]
