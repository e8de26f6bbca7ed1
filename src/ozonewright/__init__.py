"""Ozone on a bench: output, reaction and clearance, each figure with its uncertainty and source.

The questions from Python (docs/python.md), loaded when one is asked for.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ozonewright.python import (
        Answer,
        Book,
        drift,
        gas_line,
        gate,
        open_notebook,
        output,
        reaction,
        recipe,
    )

__version__ = "0.1.0"

__all__ = [
    "Answer",
    "Book",
    "__version__",
    "drift",
    "gas_line",
    "gate",
    "open_notebook",
    "output",
    "reaction",
    "recipe",
]


def __getattr__(name: str) -> object:
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from ozonewright import python

    return getattr(python, name)


def __dir__() -> list[str]:
    return sorted(__all__)
