"""A recorded loop: CSV of time, voltage, and the voltage of a sense capacitor or the charge."""

from __future__ import annotations

import io
import re
from array import array
from collections.abc import Iterator, Sequence
from itertools import islice
from math import isfinite
from typing import Literal, NamedTuple

from ozonewright.errors import AppError, Faults, Inconsistent, InputError, MissingValue, UnitError
from ozonewright.records.loop import Loop
from ozonewright.units import Kind, size
from ozonewright.units.table import ACCEPTED

LONGEST = 60_000_000
"""Letters."""
MOST_SAMPLES = 1_000_000
HEAD_WITHIN = 200
"""Lines of an instrument's own words that may stand above the head."""
MOST_FAULTS = 8
KINDS = {
    "time": Kind.TIME,
    "voltage": Kind.VOLTAGE,
    "sense": Kind.VOLTAGE,
    "charge": Kind.CHARGE,
}
EXAMPLE = 'Name the columns in one line above the numbers: "time (µs),voltage (V),sense (V)".'
_HEAD = re.compile(r"\s*([A-Za-z]+)\s*(?:[(/\[]\s*([^)\]]+?)\s*[)\]]?)?\s*$")
_UNIT = re.compile(r"\s*[(\[]?\s*([A-Za-z\u00b5\u03bc]+)\s*[)\]]?\s*$")


class Column(NamedTuple):
    """Where a column stands, and the size of its unit in SI; None until a unit is found."""

    name: str
    place: int
    factor: float | None


class Head(NamedTuple):
    """The line that names the columns."""

    number: int
    columns: list[Column]
    mark: str
    """What parts the columns."""
    width: int


def read_loop(text: str) -> Loop:
    """Return the record of a CSV; its faults together, by their line."""
    if len(text) > LONGEST:
        raise _too_long(f"{len(text)} letters")
    lines = io.StringIO(text, newline=None)
    head = _head(lines)
    rows = (_cells(line, head.mark) for line in lines)
    if any(column.factor is None for column in head.columns):
        columns = _with_units(head.columns, next(rows, []))
        head = head._replace(columns=columns, number=head.number + 1)
    return _read(rows, head)


def _cells(line: str, mark: str) -> list[str]:
    """Return the cells of a line; a record holds numbers, so a mark inside quotes parts too."""
    return [cell.strip(' "\r\n') for cell in line.split(mark)]


def _head(lines: io.StringIO) -> Head:
    """Return the first line that names all columns."""
    best: tuple[set[str], str] = (set(), "")
    for number, line in enumerate(islice(lines, HEAD_WITHIN), start=1):
        mark = max(",;\t", key=line.count)
        cells = _cells(line, mark)
        found = list(_named(cells))
        names = {column.name for column in found}
        if {"time", "voltage"} < names:
            if {"sense", "charge"} < names:
                raise Inconsistent(
                    "sense and charge tell the same twice", got=line.strip()[:80],
                    fix="Leave one of the two columns out, or name it otherwise.",
                )  # fmt: skip
            return Head(number, found, mark, len(cells))
        if len(names) > len(best[0]):
            best = (names, line.strip()[:80])
    missing = [name for name in ("time", "voltage") if name not in best[0]]
    if not best[0] & {"sense", "charge"}:
        missing.append("sense (or charge)")
    raise MissingValue(
        f"the record has no column {' and '.join(missing)}", got=best[1] or "", fix=EXAMPLE
    )


def _named(cells: Sequence[str]) -> Iterator[Column]:
    for place, cell in enumerate(cells):
        match = _HEAD.match(cell)
        if match and (name := match[1].lower()) in KINDS:
            yield Column(name, place, _factor(name, match[2]) if match[2] else None)


def _factor(name: str, unit: str) -> float:
    kind, unit = KINDS[name], unit.replace("\u03bc", "\u00b5")
    if unit not in ACCEPTED[kind].units:
        shown = ", ".join(ACCEPTED[kind].shown)
        raise UnitError(
            f"{unit} is no unit of {kind.value} known here",
            where=f"column {name}",
            got=unit,
            fix=f"Accepted: {shown}.",
        )
    return size(kind, unit)


def _with_units(head: list[Column], below: list[str]) -> list[Column]:
    """Return the columns with their units, from the line below where the head has none."""
    found = []
    faults: list[AppError] = []
    for column in head:
        cell = below[column.place] if column.place < len(below) else ""
        if column.factor is None and (match := _UNIT.match(cell)):
            column = column._replace(factor=_factor(column.name, match[1]))
        if column.factor is None:
            faults.append(
                UnitError(
                    "the unit is missing",
                    where=f"column {column.name}",
                    fix=f'Write it in the head: "{column.name} ({_usual(column.name)})".',
                )
            )
        found.append(column)
    if faults:
        raise Faults(faults)
    return found


def _usual(name: str) -> str:
    return ACCEPTED[KINDS[name]].shown[0]


def _read(rows: Iterator[list[str]], head: Head) -> Loop:
    by_name = {column.name: column for column in head.columns}
    of: Literal["sense", "charge"] = "sense" if "sense" in by_name else "charge"
    wanted = [by_name[name] for name in ("time", "voltage", of)]
    kept = (array("d"), array("d"), array("d"))
    faults: list[AppError] = []
    start = 0.0
    for line, row in enumerate(rows, start=head.number + 1):
        if not any(row):
            continue
        try:
            sample = _sample(row, wanted, head)
            if kept[0]:
                _check_clock(sample[0] - start, kept[0][-1], row[wanted[0].place])
            else:
                start = sample[0]
        except AppError as error:
            faults.append(error.at(f"line {line}"))
            if len(faults) == MOST_FAULTS:
                break
            continue
        for channel, value in zip(kept, (sample[0] - start, *sample[1:]), strict=True):
            channel.append(value)
        if len(kept[0]) > MOST_SAMPLES:
            raise _too_long(f"more than {MOST_SAMPLES} samples")
    if faults:
        raise Faults(faults)
    if not kept[0]:
        raise MissingValue("the record has a head and no numbers", fix=EXAMPLE)
    return Loop(*kept, of=of)


def _sample(row: list[str], wanted: Sequence[Column], head: Head) -> list[float]:
    if any(row[head.width :]):
        raise InputError(
            "this line has more columns than the head",
            got=head.mark.join(row)[:60],
            fix="Decimal commas need semicolons between the columns.",
        )
    return [_value(row, column, decimal_comma=head.mark != ",") for column in wanted]


def _value(row: list[str], column: Column, *, decimal_comma: bool) -> float:
    text = row[column.place] if column.place < len(row) else ""
    try:
        value = float(text.replace(",", ".") if decimal_comma else text)
    except ValueError:
        raise InputError(
            "no number can be read",
            where=column.name,
            got=text,
            fix="Leave the line out; decimal commas need semicolons between the columns.",
        ) from None
    if not isfinite(value) or abs(value) > OUT_OF_SCALE:
        raise InputError(
            "the instrument was out of its range here",
            where=column.name,
            got=text,
            fix="Set a larger range on this channel and record again.",
        )
    assert column.factor is not None
    return value * column.factor


OUT_OF_SCALE = 1e15
"""Instruments write a huge number where a channel was beyond its range."""


def _check_clock(time: float, before: float, written: str) -> None:
    if time > before:
        return
    if time == before:
        raise Inconsistent(
            "this line has the time of the line above",
            got=written,
            fix="Times are written with too few figures: export them with more.",
        )
    raise Inconsistent(
        "the clock runs backwards here",
        got=written,
        fix="Give each record a file of its own.",
    )


def _too_long(got: str) -> InputError:
    return InputError(
        "the record is far too long",
        got=got,
        fix="Twenty to a hundred cycles of some hundred samples are plenty: export fewer.",
    )
