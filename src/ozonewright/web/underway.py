"""Answers that take their time: worked out beside, so that a page can say so meanwhile."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor, wait
from dataclasses import dataclass, field
from threading import Lock
from time import monotonic
from typing import Generic, TypeVar

Made = TypeVar("Made")
FORGOTTEN = 60.0
"""Seconds after which what nobody came back for is dropped."""
AT_ONCE = 4
"""Answers worked out at the same time."""


@dataclass(frozen=True)
class _Begun(Generic[Made]):
    outcome: Future[Made]
    since: float = field(default_factory=monotonic)


class Underway(Generic[Made]):
    """What is being worked out, each once, however often it is asked for meanwhile."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._begun: dict[object, _Begun[Made]] = {}
        self._hands = ThreadPoolExecutor(AT_ONCE)

    def ask(self, key: object, make: Callable[[], Made], patience: float) -> Made | None:
        """Return what `make` returns or raises; None if it is still at it after `patience`. [s]"""
        with self._lock:
            self._forget()
            begun = self._begun.get(key)
            if begun is None:
                begun = self._begun[key] = _Begun(self._hands.submit(make))
        done, _ = wait([begun.outcome], patience)
        if not done:
            return None
        self._drop(key)
        return begun.outcome.result()

    def seconds(self, key: object) -> float:
        """Return for how long something has been worked on."""
        with self._lock:
            begun = self._begun.get(key)
            return monotonic() - begun.since if begun else 0.0

    def _drop(self, key: object) -> None:
        with self._lock:
            self._begun.pop(key, None)

    def _forget(self) -> None:
        late = monotonic() - FORGOTTEN
        done = [key for key, one in self._begun.items() if one.since < late and one.outcome.done()]
        for key in done:
            del self._begun[key]
