"""Mutants of physics and questions: which change of the code does no test see?

    .venv/bin/python benchmarks/mutants.py physics.gas           40 of each module at most
    .venv/bin/python benchmarks/mutants.py questions.gate --tests tests/unit/test_gate.py

mutmut makes the mutants and runs the tests that come by each; `[tool.mutmut]` in pyproject.toml
says which. It works in a copy under build/mutants, so that neither the sources nor the caches of
the environment are touched. Statistics of the tests take some minutes before the first mutant.

A mutant that survives there is tried once more in a fresh process against the cases from outside:
their answers are kept for the length of a process, so that mutmut, which forks, can't see them.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import re
import shutil
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parents[1]
SURVIVED, NO_TESTS, TIMEOUTS = 0, 33, (24, 36, 152, -24)
"""Exit codes as mutmut keeps them."""
MUTMUT = Path(sys.executable).with_name("mutmut")
CASES = "tests/validation/test_agreement.py"


def copied(rooms: str, tests: list[str]) -> Path:
    """Copy what git knows into a folder of its own; there, only the rooms asked for change."""
    folder = ROOT / "build" / "mutants" / rooms
    named = subprocess.run(
        ["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True, check=True
    )
    for name in filter(None, named.stdout.split("\0")):
        if (ROOT / name).is_file():
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(ROOT / name, folder / name)
    text = (folder / "pyproject.toml").read_text(encoding="utf-8")
    only = f'only_mutate = ["src/ozonewright/{rooms.replace(".", "/")}*"]'
    text = re.sub(r"^only_mutate = .*$", only, text, flags=re.M)
    if tests:
        chosen = f"pytest_add_cli_args_test_selection = {json.dumps(tests)}"
        text = re.sub(r"^pytest_add_cli_args_test_selection = .*$", chosen, text, flags=re.M)
    (folder / "pyproject.toml").write_text(text, encoding="utf-8")
    return folder


def codes(folder: Path) -> Iterator[tuple[str, int | None]]:
    """Yield every mutant with its exit code, None where it was not tried."""
    for file in sorted(folder.glob("mutants/src/**/*.meta")):
        yield from json.loads(file.read_text(encoding="utf-8"))["exit_code_by_key"].items()


def module_of(mutant: str) -> str:
    """Return the module without the name of the program."""
    return mutant.rpartition(".")[0].partition(".")[2]


def drawn(folder: Path, most: int, seed: int) -> list[str]:
    """Return at most so many mutants of each module, drawn at random."""
    names: dict[str, list[str]] = {}
    for name, _ in codes(folder):
        names.setdefault(module_of(name), []).append(name)
    chance = random.Random(seed)
    return [
        name
        for _, all_of in sorted(names.items())
        for name in (all_of if len(all_of) <= most else chance.sample(all_of, most))
    ]


def mutmut(folder: Path, names: list[str], processes: int) -> None:
    """Let mutmut try some mutants."""
    command = [str(MUTMUT), "run", "--max-children", str(processes), *names]
    subprocess.run(command, cwd=folder, env=os.environ | {"PYTHONPATH": ""}, check=False)


def seen_by_the_cases(folder: Path, mutant: str) -> bool:
    """Return whether the cases from outside see a mutant, in a process of its own."""
    if not module_of(mutant).startswith("physics"):
        return False
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "-xq", "-p", "no:cacheprovider", CASES],
        cwd=folder / "mutants",
        env=os.environ | {"PYTHONPATH": "src", "MUTANT_UNDER_TEST": mutant},
        capture_output=True,
        check=False,
    )
    return done.returncode != 0


def main() -> int:
    """Draw, try, and print the score of each room and the survivors."""
    parser = argparse.ArgumentParser(description=str(__doc__).splitlines()[0])
    parser.add_argument("rooms", help="physics, physics.gas, questions.gate, …")
    parser.add_argument("--most", type=int, default=40, help="mutants of each module")
    parser.add_argument("--seed", type=int, default=10)
    parser.add_argument("--tests", nargs="*", default=[], help="instead of those of pyproject")
    parser.add_argument("--processes", type=int, default=2)
    asked = parser.parse_args()
    folder = copied(asked.rooms, asked.tests)
    mutmut(folder, ["no.such.mutant*"], asked.processes)  # makes them all, and tries none
    mutmut(folder, drawn(folder, asked.most, asked.seed), asked.processes)
    scores: dict[str, Counter[str]] = {}
    for name, code in codes(folder):
        if code is None:
            continue
        room = ".".join(module_of(name).split(".")[:2])
        end = "timeout" if code in TIMEOUTS else "killed"
        if code in (SURVIVED, NO_TESTS) and not seen_by_the_cases(folder, name):
            end = "survived"
            shown = subprocess.run(
                [str(MUTMUT), "show", name], cwd=folder, capture_output=True, text=True, check=False
            )
            print(name, *re.findall(r"^[-+] .*$", shown.stdout, re.M), sep="\n")
        scores.setdefault(room, Counter())[end] += 1
    for room, ends in sorted(scores.items()):
        caught = ends["killed"] + ends["timeout"]
        print(f"{room}: {dict(ends)}, {100.0 * caught / ends.total():.0f} %")
    return 0


if __name__ == "__main__":
    sys.exit(main())
