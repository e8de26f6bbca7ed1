"""A temperature log: CSV of times, temperatures and, if it was switched, the discharge."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Sequence
from datetime import datetime

from ozonewright.errors import AppError, Faults, Inconsistent, InputError, MissingValue
from ozonewright.records.temperature_log import TemperatureLog
from ozonewright.units import Kind, read

LONGEST = 2_000_000
COLUMNS = ("time", "temperature", "discharge")
_HEAD = re.compile(r"\s*(\w+)\s*(?:[(/\[]\s*([^)\]]+?)\s*[)\]]?)?\s*$")
EXAMPLE = 'Begin with "time (min), temperature (°C), discharge", then a line for each reading.'


def read_temperature_log(text: str) -> TemperatureLog:
    """Return the log of a CSV; all faults at once, by their line."""
    if len(text) > LONGEST:
        raise InputError(
            "the log is far too long", got=f"{len(text)} letters", fix="Leave out most lines."
        )
    lines = [row for row in csv.reader(io.StringIO(text)) if any(cell.strip() for cell in row)]
    if not lines:
        raise MissingValue("the log is empty", fix=EXAMPLE)
    columns = _columns(lines[0])
    faults: list[AppError] = []
    times: list[float] = []
    temperatures: list[float] = []
    on: list[bool] = []
    for number, row in enumerate(lines[1:], start=2):
        try:
            time, temperature, switched = _reading(row, columns)
        except AppError as error:
            faults.append(error.at(f"line {number}"))
            continue
        if times and time <= times[-1]:
            faults.append(_backwards(number, row))
            continue
        times.append(time)
        temperatures.append(temperature)
        on.append(switched)
    if faults:
        raise Faults(faults)
    if not times:
        raise MissingValue("the log has a head and no reading", fix=EXAMPLE)
    return TemperatureLog(
        times=tuple(time - times[0] for time in times),
        temperatures=tuple(temperatures),
        on=tuple(on),
        switched="discharge" in columns,
        begun=_begun(lines[1:], columns),
    )


def _backwards(number: int, row: Sequence[str]) -> AppError:
    return Inconsistent(
        "this time is not later than the one before it",
        where=f"line {number}",
        got=", ".join(row)[:60],
        fix="Was the clock set back? Give each part a log of its own, or mend the times.",
    )


def _columns(head: Sequence[str]) -> dict[str, tuple[int, str]]:
    """Return place and unit of each column by its name."""
    found: dict[str, tuple[int, str]] = {}
    for place, cell in enumerate(head):
        match = _HEAD.match(cell)
        if match and match[1].lower() in COLUMNS:
            found[match[1].lower()] = (place, match[2] or "")
    missing = [name for name in COLUMNS[:2] if name not in found]
    if missing:
        raise MissingValue(
            f"the log has no column {' and '.join(missing)}", got=", ".join(head)[:80], fix=EXAMPLE
        )
    return found


def _reading(row: Sequence[str], columns: dict[str, tuple[int, str]]) -> tuple[float, float, bool]:
    def cell(name: str) -> str:
        place, unit = columns[name]
        text = row[place].strip() if place < len(row) else ""
        bare = re.fullmatch(r"[+-]?[\d.,]+", text)
        return f"{text} {unit}" if unit and bare else text

    temperature = read(cell("temperature"), Kind.TEMPERATURE).value
    on = _switch(cell("discharge")) if "discharge" in columns else True
    return _time(cell("time")), temperature, on


def _time(text: str) -> float:
    try:
        return datetime.fromisoformat(text).timestamp()
    except ValueError:
        return read(text, Kind.TIME).value


def _begun(rows: Sequence[Sequence[str]], columns: dict[str, tuple[int, str]]) -> datetime | None:
    """Return when the first reading was made, where the log has times of a clock."""
    try:
        return datetime.fromisoformat(rows[0][columns["time"][0]].strip()).astimezone()
    except ValueError:
        return None


def _switch(text: str) -> bool:
    if text.lower() in ("on", "1"):
        return True
    if text.lower() in ("off", "0"):
        return False
    raise InputError(
        "the discharge is on or off", where="discharge", got=text, fix="Write on or off."
    )
