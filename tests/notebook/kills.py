"""Killing writers at random moments, for the tests and (more of it) for the benchmark."""

from __future__ import annotations

import random
import signal
import subprocess
import sys
import time
from pathlib import Path

from ozonewright.notebook import Notebook

WRITER = Path(__file__).with_name("writer.py")


def killed_rounds(path: Path, rounds: int, writers: int, seed: int) -> tuple[int, set[str]]:
    """Start writers and kill them, again and again; return kills and the labels confirmed.

    Every round begins at the first confirmed entry, so that the kill falls among writes.
    """
    chance, confirmed, kills = random.Random(seed), set[str](), 0
    for number in range(rounds):
        running = [
            subprocess.Popen(
                [sys.executable, str(WRITER), str(path), f"{seed}-{number}-{name}"],
                stdout=subprocess.PIPE,
                text=True,
            )
            for name in range(writers)
        ]
        first = [one.stdout.readline() for one in running if one.stdout]
        time.sleep(chance.uniform(0.0, 0.03))
        for one in running:
            one.send_signal(signal.SIGKILL)
            kills += 1
        for one, line in zip(running, first, strict=True):
            rest, _ = one.communicate()
            confirmed |= {label for label in (line + rest).split("\n")[:-1] if label}
    return kills, confirmed


def lost(path: Path, confirmed: set[str]) -> tuple[set[str], list[str]]:
    """Return what was confirmed and is not there, and what is wrong with the file."""
    with Notebook.open(path) as book:
        there = {entry.label for entry in book.entries()}
        return confirmed - there, book.integrity()
