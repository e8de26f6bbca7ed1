"""Writes the pages of docs/ that are made from the code: methods, sources, agreement.

python docs/make.py          writes them
python docs/make.py --check  says which are stale, exit 1
"""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import sys
from pathlib import Path

from ozonewright import physics
from ozonewright.bench.agreement import agreement
from ozonewright.references import sources_page
from ozonewright.show.agreement import agreement_page
from ozonewright.show.formulas import body, sections

FOLDER = Path(__file__).parent


def methods_page() -> str:
    """Return the page of every formula: what it gives, where it holds, where it is from."""
    out = [
        "# Methods",
        "",
        "Every formula in use, made from the docstrings of `src/ozonewright/physics` by "
        "`python docs/make.py`. SI inside; source keys are in [sources.md](sources.md). "
        "Uncertainty follows JCGM 100 (first order, budget, effective degrees of freedom) with "
        "JCGM 101 (Monte Carlo) where first order is not good enough; the result says which.",
    ]
    for module in sorted(
        pkgutil.walk_packages(physics.__path__, physics.__name__ + "."), key=lambda m: m.name
    ):
        if module.ispkg:
            continue
        out += _module(module.name)
    return "\n".join(out) + "\n"


def _module(name: str) -> list[str]:
    module = importlib.import_module(name)
    functions = [
        item
        for _, item in inspect.getmembers(module, inspect.isfunction)
        if item.__module__ == name and not item.__name__.startswith("_")
    ]
    if not functions:
        return []
    out = ["", f"## {name.removeprefix('ozonewright.physics.')}", "", str(module.__doc__)]
    for item in sorted(functions, key=lambda function: function.__code__.co_firstlineno):
        parts = sections(item.__doc__ or "")
        out += ["", f"### {item.__name__}", "", parts["Summary"], ""]
        out += ["```python", *body(item), "```", ""]
        if notes := parts.get("Notes"):
            out += [notes, ""]
        out += [f"- Valid: {' '.join(parts['Valid'].split())}"]
        out += [f"- Source: {' '.join(parts['Source'].split())}"]
    return out


PAGES = {
    "methods.md": methods_page,
    "sources.md": sources_page,
    "agreement.md": lambda: agreement_page(agreement()),
}


def main() -> int:
    """Write or check the pages."""
    stale = []
    for name, page in PAGES.items():
        path, text = FOLDER / name, page()
        if path.exists() and path.read_text(encoding="utf-8") == text:
            continue
        stale.append(name)
        if "--check" not in sys.argv:
            path.write_text(text, encoding="utf-8")
    if stale:
        print(("stale: " if "--check" in sys.argv else "written: ") + ", ".join(stale))
    return int("--check" in sys.argv and bool(stale))


if __name__ == "__main__":
    sys.exit(main())
