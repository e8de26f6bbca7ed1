"""Run the benchmarks and print a table of each: `python benchmarks/run.py [names]`.

A benchmark is a file beside this one whose `main()` returns its figures. Exit 1 if a figure breaks
its bound.
"""

from __future__ import annotations

import platform
import sys
from importlib import import_module
from pathlib import Path

from figure import Figure

HERE = Path(__file__).parent
NO_BENCHMARKS = {"run", "figure", "drift_worlds", "drift_table", "mutants"}
ONLY_BY_NAME = {"reliability"}
"""Takes about an hour."""


def known() -> list[str]:
    """Return the names of all benchmarks."""
    return sorted(path.stem for path in HERE.glob("*.py") if path.stem not in NO_BENCHMARKS)


def table(name: str, figures: list[Figure]) -> str:
    """Return the figures of one benchmark as a Markdown table."""
    rows = [f"## {name}", "", "| figure | measured | bound | kept |", "|---|---|---|---|"]
    for figure in figures:
        kept = ("yes" if figure.holds else "**no**") if figure.bound else ""
        rows.append(
            f"| {figure.what} | {figure.value:.3g} {figure.unit} | {figure.bound} | {kept} |"
        )
    return "\n".join(rows)


def main(wanted: list[str]) -> int:
    """Run the benchmarks named, or all."""
    names = known()
    if strange := [name for name in wanted if name not in names]:
        print(f"No benchmark {', '.join(strange)}. Known: {', '.join(names)}.", file=sys.stderr)
        return 2
    print(f"Python {platform.python_version()}, {platform.machine()}\n")
    kept = True
    for name in wanted or [name for name in names if name not in ONLY_BY_NAME]:
        figures = list(import_module(name).main())
        print(table(name, figures) + "\n", flush=True)
        kept = kept and all(figure.holds for figure in figures)
    return 0 if kept else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
