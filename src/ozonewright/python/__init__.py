"""The questions from Python: typed text or files in, an answer out that reads well and computes."""

from ozonewright.python.answers import Answer
from ozonewright.python.book import Book, open_notebook
from ozonewright.python.questions import drift, gas_line, gate, output, reaction, recipe

__all__ = [
    "Answer", "Book", "drift", "gas_line", "gate", "open_notebook", "output", "reaction", "recipe",
]  # fmt: skip
