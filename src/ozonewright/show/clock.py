"""Times of day and lengths of time as a person at the bench reads them."""

from __future__ import annotations

from datetime import datetime, timedelta

from ozonewright.units import Kind, size

MINUTE = round(size(Kind.TIME, "min"))
HOUR = round(size(Kind.TIME, "h"))


def time_of_day(when: datetime) -> str:
    """Return ``12:03:05``, in the zone in which it was written."""
    return f"{when:%H:%M:%S}"


def day_time(when: datetime) -> str:
    """Return ``9 May 12:03:05``."""
    return f"{when.day} {when:%b} {time_of_day(when)}"


def minutes_seconds(seconds: float) -> str:
    """Return ``9 min 33 s``; ``33 s`` below a minute, hours above one."""
    whole = round(abs(seconds))
    hours, minutes, rest = whole // HOUR, whole % HOUR // MINUTE, whole % MINUTE
    parts = [(hours, "h"), (minutes, "min"), (rest, "s")]
    told = " ".join(f"{count} {unit}" for count, unit in parts if count) or "0 s"
    return f"\u2212{told}" if seconds < 0.0 and whole else told


def digits(seconds: float) -> str:
    """Return ``32:41``, as a clock that counts; ``1:02:03`` from an hour on."""
    whole = max(timedelta(), timedelta(seconds=seconds)) // timedelta(seconds=1)
    hours, minutes, rest = whole // HOUR, whole % HOUR // MINUTE, whole % MINUTE
    return f"{hours}:{minutes:02}:{rest:02}" if hours else f"{minutes:02}:{rest:02}"
