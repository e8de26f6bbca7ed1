"""A process that adds runs until it is killed; it prints each one after it was confirmed."""

from __future__ import annotations

import sys
from itertools import count
from time import sleep

from ozonewright.notebook import Notebook


def main() -> None:
    """Add ``NAME-0``, ``NAME-1`` … to the notebook given."""
    path, name = sys.argv[1:3]
    with Notebook.open(path) as book:
        for number in count():
            label = f"{name}-{number}"
            book.add("run", {"run": {"label": label, "rate": "0.5 g/h"}})
            print(label, flush=True)
            # A person pauses longer; without any pause the second writer hardly gets its turn.
            sleep(0.003)


main()
