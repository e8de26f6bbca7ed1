"""Reports: the demo's notebook as pages to print, and the memory that long notebooks take.

Times and memory are of fresh processes; the memory is the most that one held at any time.
"""

from __future__ import annotations

import resource
import subprocess
import sys
from multiprocessing import get_context
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter

from figure import Figure

from ozonewright.bench.notebook import add_table
from ozonewright.notebook import Notebook

ROUNDS = 5
FEW, MANY = 250, 2_000
SETTINGS = 10
KIB = 1024.0


def asked(*words: str) -> None:
    """Run the command in a fresh process."""
    subprocess.run([sys.executable, "-m", "ozonewright", *words], check=True, capture_output=True)


def seconds(*words: str) -> tuple[float, float]:
    """Return how long a fresh process takes, by the clock and of the processor; medians."""
    clock, busy = [], []
    for _ in range(ROUNDS):
        start, before = perf_counter(), _busy()
        asked(*words)
        clock.append(perf_counter() - start)
        busy.append(_busy() - before)
    return median(clock), median(busy)


def _busy() -> float:
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def _held(words: tuple[str, ...]) -> float:
    asked(*words)
    return resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / KIB


def mebibytes(*words: str) -> float:
    """Return the most memory that the command held."""
    # In a process of its own: the figure is the largest of all children that it ever had.
    with get_context("spawn").Pool(1) as alone:
        return alone.apply(_held, (words,))


def long_notebook(path: Path, count: int) -> Path:
    """Write so many invented runs."""
    with Notebook.create(path, f"{count} invented runs") as notebook, notebook.atomic():
        for number in range(count):
            run = {"label": f"R{number}", "setting": f"setting {number % SETTINGS}",
                   "on_time": f"{120 + number % 400} s"}  # fmt: skip
            titration = {"titres": [f"{20 + number % 17}.{number % 100:02} mL"],
                         "titrant": {"concentration": "0.0510 mol/L"}}  # fmt: skip
            add_table(notebook, {"run": run, "titration": titration})
    return path


def main() -> list[Figure]:
    """Return the figures of issue 10 that concern reports."""
    with TemporaryDirectory() as name:
        folder = Path(name)
        asked("demo", str(folder / "demo"))
        demo = ("report", "--notebook", str(folder / "demo" / "demo.sqlite"))
        pdf = seconds(*demo, "--out", str(folder / "demo.pdf"))
        html = seconds(*demo, "--out", str(folder / "demo.html"))
        run = seconds(*demo, "--of", "C2", "--out", str(folder / "run.pdf"))
        held = {}
        for count in (FEW, MANY):
            book = str(long_notebook(folder / f"{count}.sqlite", count))
            for ending in ("html", "pdf"):
                out = str(folder / f"{count}.{ending}")
                held[count, ending] = mebibytes("report", "--notebook", book, "--out", out)
    return [
        Figure("PDF of the demo's notebook, of the processor", pdf[1], "s", at_most=5.0),
        Figure("the same by the clock", pdf[0], "s"),
        Figure("single file of it, of the processor", html[1], "s"),
        Figure("PDF of one run, of the processor", run[1], "s"),
        *(
            Figure(f"memory of the report of {count:,} runs, {ending}", most, "MiB")
            for (count, ending), most in held.items()
        ),
        Figure(
            f"single file of {MANY:,} runs over {FEW:,}, memory",
            held[MANY, "html"] / held[FEW, "html"],
            at_most=1.5,
        ),
    ]
