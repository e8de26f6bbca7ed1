"""What the server works on: one notebook file, or none yet."""

from __future__ import annotations

import hashlib
import secrets
from collections import OrderedDict
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from threading import Lock
from typing import Generic, TypeVar

from ozonewright.notebook import Notebook
from ozonewright.questions.output import Output
from ozonewright.web.phone import Phones
from ozonewright.web.underway import Underway

Kept = TypeVar("Kept")
STAMP_BYTES = 100
"""The head of a notebook file; its change counter moves with every entry written."""


class Few(Generic[Kept]):
    """The last few of something by key; threads may share it."""

    def __init__(self, most: int) -> None:
        self._most, self._lock = most, Lock()
        self._kept: OrderedDict[object, Kept] = OrderedDict()

    def get(self, key: object) -> Kept | None:
        """Return what is kept under a key."""
        with self._lock:
            if key in self._kept:
                self._kept.move_to_end(key)
            return self._kept.get(key)

    def drop(self, key: object) -> None:
        """Forget what is kept under a key."""
        with self._lock:
            self._kept.pop(key, None)

    def put(self, key: object, value: Kept) -> Kept:
        """Keep a value; the one unused longest makes room."""
        with self._lock:
            self._kept[key] = value
            while len(self._kept) > self._most:
                self._kept.popitem(last=False)
        return value


@dataclass
class Desk:
    """One for each server; every request opens the file anew."""

    notebook: Path | None
    folder: Path
    phones: Phones | None = None
    """Telephones at the bench, where they are served."""
    token: str = field(default_factory=lambda: secrets.token_urlsafe(24))
    sent: Few[str] = field(default_factory=lambda: Few(64))
    """Where a form already acted upon led to: a second tap on *keep* makes no second run."""
    answers: Few[Output] = field(default_factory=lambda: Few(2000))
    """What was worked out from a revision, by its fingerprint and those of its field blanks."""
    drift_asked: Few[bool] = field(default_factory=lambda: Few(64))
    """Settings of which drift was asked since the file last changed; then it is known at once."""
    pages: Few[bytes] = field(default_factory=lambda: Few(64))
    """Pages as long as the file stays as it is."""
    patience: float | None = None
    """Seconds an answer is waited for before a page says that it is being worked out; None: all."""
    underway: Underway[tuple[bytes, int]] = field(default_factory=Underway)
    """Answers being worked out: page and status."""
    pen: Lock = field(default_factory=Lock)
    """Whoever writes holds it: the store lets one write at a time, and those who only knock again
    and again there may wait for ever."""

    @property
    def file(self) -> Path | None:
        """The notebook, once there is a file."""
        return self.notebook if self.notebook is not None and self.notebook.exists() else None

    @contextmanager
    def writing(self) -> Iterator[Notebook]:
        """Open the notebook to write in it, in the order in which the acts came."""
        assert self.notebook is not None
        with self.pen, Notebook.open(self.notebook) as notebook:
            yield notebook

    def stamp(self) -> tuple[object, ...] | None:
        """Return what changes whenever the notebook file does; None while there is none."""
        if self.notebook is None:
            return None
        try:
            status = self.notebook.stat()
            with self.notebook.open("rb") as file:
                head = file.read(STAMP_BYTES)
        except OSError:
            return None
        return str(self.notebook), status.st_ino, status.st_size, status.st_mtime_ns, head


def fingerprint(path: str, form: Mapping[str, str]) -> str:
    """Return what tells one sent form from another."""
    digest = hashlib.sha256(path.encode())
    for name, text in sorted(form.items()):
        digest.update(f"\0{len(name)} {name}\0{len(text)} {text}".encode())
    return digest.hexdigest()
