"""The clocks of this computer: the wall clock, and one that nobody sets."""

from __future__ import annotations

import secrets
import sys
import time
from datetime import datetime
from functools import cache
from pathlib import Path

from ozonewright.records.event import Moment

BOOT = Path("/proc/sys/kernel/random/boot_id")


def now() -> Moment:
    """Return the present by both clocks."""
    name, began = _boot()
    return Moment(datetime.now().astimezone(), steady() - began, name)


def steady() -> float:
    """Return seconds of a clock that runs on while the computer sleeps."""
    boottime = getattr(time, "CLOCK_BOOTTIME", None)
    if boottime is not None:
        return time.clock_gettime(boottime)
    if sys.platform == "darwin":
        # time.monotonic() stands still there during sleep; this one does not.
        return time.clock_gettime(time.CLOCK_MONOTONIC)
    return time.monotonic()


@cache
def _boot() -> tuple[str, float]:
    """Return the name of the running system and when it began, by the clock nobody sets.

    Where the system has no name, this process stands for it, which is on the safe side: after its
    end the wall clock counts, and the gap is told.
    """
    try:
        return BOOT.read_text(encoding="ascii").strip(), 0.0
    except OSError:
        return f"process {secrets.token_hex(8)}", steady()
