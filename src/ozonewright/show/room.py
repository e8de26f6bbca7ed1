"""The room's answer as text, and as the parts of a page."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.room.detector import DetectorAnswer
from ozonewright.questions.room.oxygen import OxygenAnswer
from ozonewright.questions.room.result import CaseRow, CourseRow, RoomAnswer
from ozonewright.references.exposure import exposure_limits
from ozonewright.results import Result
from ozonewright.show.figures import Axis, course
from ozonewright.show.numbers import percent, quantity, significant
from ozonewright.show.wrap import foot, marked, unmarked, wrapped
from ozonewright.units import Kind, number, size

MINUTE, HOUR = size(Kind.TIME, "min"), size(Kind.TIME, "h")


def ppm(fraction: float | None, figures: int = 2) -> str:
    """Return a mole fraction in ppm."""
    if fraction is None:
        return "no end"
    return quantity(fraction, Kind.MOLE_FRACTION, "ppm", figures=figures)


def duration(seconds: float | None, never: str = "never") -> str:
    """Return a time in the unit that a person would say."""
    if seconds is None:
        return never
    if seconds < 1.5 * MINUTE:
        return quantity(seconds, Kind.TIME, "s", figures=2)
    unit = "min" if seconds < 3.0 * HOUR else "h"
    return quantity(seconds, Kind.TIME, unit, figures=2)


def answer_line(found: RoomAnswer) -> str:
    """Return the one line that answers."""
    if found.peak is not None and found.release is None:
        head = f"{ppm(found.peak)} of ozone at once"
    elif found.steady_fraction is None:
        head = "Ozone rises without end: nothing takes it away"
    else:
        head = f"{ppm(found.steady_fraction.value)} of ozone in the end"
    return f"{head}; {_limit_words(found)}"


def _limit_words(found: RoomAnswer) -> str:
    if found.limit is None:
        return "no limit is stated, so it can't be called safe"
    if found.minutes_to_limit is None:
        passed = found.rooms_over or 0.0
        doubt = f" at the best estimate, yet in {percent(passed)} of the rooms" if passed else ""
        return f"the limit of {ppm(found.limit)} is not passed{doubt}"
    if found.minutes_to_limit == 0.0:
        return f"above the limit of {ppm(found.limit)} from the first moment"
    return f"the limit of {ppm(found.limit)} is passed after {_to_limit(found)}"


def _to_limit(found: RoomAnswer) -> str:
    assert found.minutes_to_limit is not None
    return duration(found.minutes_to_limit * MINUTE)


def sureness_line(found: RoomAnswer) -> str:
    """Return the interval, in words."""
    if found.steady_fraction is None or found.release is None:
        return ""
    low, high = found.steady_fraction.interval
    words = f"95 % of the rooms that these figures allow: {ppm(low)} to {ppm(high)}"
    if found.earliest is not None:
        words += f"; the soonest pass the limit after {duration(found.earliest)}"
    return words + "."


def facts(found: RoomAnswer) -> Iterator[tuple[str, str]]:
    """Yield the further figures, each with its words."""
    if found.steady is not None and found.release is not None:
        yield (
            "in the end",
            quantity(found.steady.value, Kind.MASS_CONCENTRATION, "mg/m3", found.steady.u),
        )
    if found.steady_without_removal is not None and found.release is not None:
        yield "counting no loss on surfaces", ppm(found.steady_without_removal)
    if found.limit is not None:
        never = "not with this loss"
        late = found.re_entry_latest
        latest = f", at the latest {duration(late)}" if late else ""
        yield "below the limit again", f"{duration(found.re_entry, never)} after it ends{latest}"
    if found.rooms_over is not None:
        yield "chance that the limit is passed", f"{significant(100.0 * found.rooms_over, 2)} %"
    if found.air_changes_needed is not None:
        needed = quantity(found.air_changes_needed.value, Kind.RATE, "1/h", figures=2)
        fan = quantity(found.fan_needed or 0.0, Kind.VOLUME_FLOW, "m3/h", figures=2)
        yield "air changes needed", f"{needed}, {fan} of fresh air"


def case_rows(found: RoomAnswer) -> Iterator[tuple[str, str, str, str]]:
    """Yield every way out as the cells of a table; without a limit no time to it is known."""
    for row in found.cases:
        yield _case(row, "not known" if found.limit is None else duration(row.to_limit))


def _case(row: CaseRow, time: str) -> tuple[str, str, str, str]:
    if row.puff is not None:
        return (
            row.case,
            quantity(row.puff, Kind.MASS, "mg", figures=3),
            f"{ppm(row.peak)} at once",
            time,
        )
    rate = "" if row.release is None else quantity(row.release, Kind.MASS_RATE, "mg/h", figures=3)
    return row.case, rate, "" if row.release is None else ppm(row.steady), time


def _lines(found: RoomAnswer) -> Iterator[str]:
    yield from wrapped(answer_line(found))
    if sureness := sureness_line(found):
        yield from wrapped(sureness)
    yield ""
    for words, text in facts(found):
        yield f"  {words:<32} {text}"
    if len(found.cases) > 1:
        yield from (
            "",
            f"  {'what gets out':<24} {'ozone':>10} {'in the end':>18} {'limit after':>12}",
        )
        for case, rate, end, time in case_rows(found):
            yield f"  {case:<24} {rate:>10} {end:>18} {time:>12}"
    yield from _told(found)


def _told(found: Result) -> Iterator[str]:
    for head, notes in (("Next", found.next), ("Working", found.working), ("Notes", found.notes)):
        if notes:
            yield from ("", head)
        yield from marked(notes) if head == "Notes" else unmarked(notes)
    names = [name.partition(".")[2].replace("_", " ") for name in found.unknowns]
    yield from foot(names, found.sources)


def oxygen_line(found: OxygenAnswer) -> str:
    """Return the one line that answers about oxygen."""
    head = f"{_vol(found.steady)} of oxygen in the end"
    if found.minutes_to_limit is None:
        return f"{head}; it stays below {_vol(found.limit)}"
    time = duration(found.minutes_to_limit * MINUTE)
    return f"{head}; above {_vol(found.limit)} it is enriched, after {time}"


def oxygen_facts(found: OxygenAnswer) -> Iterator[tuple[str, str]]:
    """Yield the further figures about oxygen, each with its words."""
    if found.by_then is not None:
        yield f"after {duration(found.lasts)}", _vol(found.by_then)
    yield "in one room of forty more than", _vol(found.high)
    if found.without_fan is not None:
        yield "enriched after the fan fails", duration(found.without_fan)
    yield "enriched without any fresh air", duration(found.sealed)
    yield "fresh air now", quantity(found.fresh_air or 0.0, Kind.VOLUME_FLOW, "L/min", figures=3)
    needed = found.fresh_air_needed or 0.0
    yield "fresh air needed", quantity(needed, Kind.VOLUME_FLOW, "L/min", figures=3)


def _vol(fraction: float | None) -> str:
    return quantity(fraction or 0.0, Kind.MOLE_FRACTION, "vol%", figures=3)


def asked_text(
    ozone: RoomAnswer | None,
    oxygen: OxygenAnswer | None,
    detector: DetectorAnswer | None = None,
) -> str:
    """Return the answers for a terminal."""
    parts = [_detector_lines(detector)] if detector else []
    parts += [_lines(ozone)] if ozone else []
    parts += [_oxygen_lines(oxygen)] if oxygen else []
    return "\n".join("\n".join(part) + "\n" for part in parts)


def _oxygen_lines(found: OxygenAnswer) -> Iterator[str]:
    yield from wrapped(oxygen_line(found))
    yield ""
    for words, text in oxygen_facts(found):
        yield f"  {words:<32} {text}"
    yield from _told(found)


def detector_line(found: DetectorAnswer) -> str:
    """Return the one line that answers what the detector tells."""
    if found.loss is None:
        return f"{found.readings} readings do not determine the loss of the room"
    loss = quantity(found.loss.value, Kind.RATE, "1/h", found.loss.u)
    return f"the room loses its ozone at {loss}, by {found.readings} readings"


def _detector_lines(found: DetectorAnswer) -> Iterator[str]:
    line = detector_line(found)
    yield from wrapped(line[:1].upper() + line[1:])
    yield ""
    yield from (f"  {words:<32} {text}" for words, text in detector_facts(found))
    yield from _told(found)


def detector_facts(found: DetectorAnswer) -> Iterator[tuple[str, str]]:
    """Yield the further figures of a detector, each with its words."""
    if found.removal is not None:
        removal = quantity(found.removal.value, Kind.RATE, "1/h", found.removal.u)
        yield "removal, air changes taken off", removal
    if found.leak is not None:
        leak = quantity(found.leak.value, Kind.MASS_RATE, "mg/h", found.leak.u)
        yield "ozone let in while it was on", leak
    if found.first is not None:
        first = quantity(found.first.value, Kind.MOLE_FRACTION, "ppm", found.first.u)
        yield "ozone at the first reading", first
    yield "scatter of the readings", ppm(found.scatter)


def limit_rows() -> Iterator[tuple[str, str, str, str, str]]:
    """Yield the shipped limits as the cells of a table: name, limit, basis, state of, how read."""
    for limit in exposure_limits().values():
        assert limit.datum is not None
        yield limit.name, ppm(limit.value), limit.basis, limit.dated, limit.datum.note


def limits_text() -> str:
    """Return the shipped limits for a terminal."""
    lines = ["Limits for ozone; look up the edition in force. None is a default.", ""]
    for name, value, basis, dated, note in limit_rows():
        lines += [f"  {name:<24} {value:<9} {basis} ({dated})"]
        lines += wrapped(note, "    ")
    return "\n".join(lines) + "\n"


def first_half_hour(found: RoomAnswer) -> list[CourseRow]:
    """Return the moments that the figure shows."""
    return [row for row in found.course if (row.time or 0.0) <= 0.5 * HOUR]


def course_figure(found: RoomAnswer) -> str:
    """Return the rise of the ozone over the first half hour as a figure."""
    points = [(0.0, number(found.peak or 0.0, Kind.MOLE_FRACTION, "ppm"))]
    points += [
        (
            number(row.time or 0.0, Kind.TIME, "min"),
            number(row.ozone or 0.0, Kind.MOLE_FRACTION, "ppm"),
        )
        for row in first_half_hour(found)
    ]
    most = max(height for _, height in points)
    limit = number(found.limit, Kind.MOLE_FRACTION, "ppm") if found.limit else 0.0
    y = Axis("ozone, ppm", 1.1 * max(most, limit))
    level = (limit, "limit") if found.limit else None
    return course(points, Axis("minutes", 30.0), y, "Ozone over time", level)
