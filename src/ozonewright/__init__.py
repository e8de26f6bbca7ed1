"""Ozone on a bench: output, reaction and clearance, each figure with its uncertainty and source.

The questions from Python (docs/python.md), loaded when one is asked for.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ozonewright.python.answers import Answer
    from ozonewright.python.book import Book, open_notebook
    from ozonewright.python.hazards import room, room_oxygen
    from ozonewright.python.questions import drift, gas_line, gate, output, reaction, recipe
    from ozonewright.python.settings import claim, compare, generator
    from ozonewright.python.soundness import agreement, check
    from ozonewright.python.supply import absorber, duty, flask, gas_use, power

__version__ = "0.1.0"

__all__ = [
    "Answer",
    "Book",
    "__version__",
    "absorber",
    "agreement",
    "check",
    "claim",
    "compare",
    "drift",
    "duty",
    "flask",
    "gas_line",
    "gas_use",
    "gate",
    "generator",
    "open_notebook",
    "output",
    "power",
    "reaction",
    "recipe",
    "room",
    "room_oxygen",
]


def __getattr__(name: str) -> object:
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    names = import_module("ozonewright.python").NAMES
    return getattr(import_module(f"ozonewright.python.{names[name]}"), name)


def __dir__() -> list[str]:
    return sorted(__all__)
