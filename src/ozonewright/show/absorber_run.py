"""A simulated run as lines of text."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.absorber import RunPoint, SimulatedRun
from ozonewright.show.absorber import Number, band
from ozonewright.show.numbers import percent, power_of_ten, quantity, significant
from ozonewright.show.pages import Answer
from ozonewright.show.signs import sign_lines
from ozonewright.show.words import sentence
from ozonewright.show.wrap import wrapped
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind, number

ROWS = 12
"""Lines of the course that a terminal shows."""
HEADS = ("min", "converted", "product", "over-reacted", "off-gas, g/Nm³")


def run_line(run: SimulatedRun) -> str:
    """Return the one line that answers: how long, how sure, what slips."""
    if not isinstance(run.on_time, Estimate):
        return "Not done within the time simulated"
    return (
        f"{band(run.on_time, Kind.TIME, 'min')} min to 99 % converted; "
        f"uptake {band(run.uptake, Kind.SHARE, '%')} %"
    )


def run_parts(run: SimulatedRun) -> Answer:
    """Return the answer of the page."""
    if not isinstance(run.on_time, Estimate):
        return Answer("–", "", run_line(run), "Of the flask as it is.", "")
    low, high = (significant(number(end, Kind.TIME, "min"), 2) for end in run.on_time.interval)
    return Answer(
        significant(number(run.on_time.value, Kind.TIME, "min"), 2),
        "min",
        f"uptake {band(run.uptake, Kind.SHARE, '%')} %",
        "On-time until 99 % is converted, by the model of the flask.",
        f"95 %: {low} to {high} min.",
    )


def run_details(run: SimulatedRun) -> Iterator[tuple[str, str]]:
    """Yield the figures behind the answer, as words and value."""
    if run.look_from is not None and run.stop_by is not None:
        yield "look from", quantity(run.look_from, Kind.TIME, "min", figures=2)
        stop = quantity(run.stop_by, Kind.TIME, "min", figures=2)
        yield (
            "stop by, by the clock alone",
            f"{stop}, mean product {percent(run.best_product or 0)}",
        )
        if run.correction is not None:
            alone = band(run.modelled, Kind.SHARE, "%")
            yield "uptake by the model alone", f"{alone} %; the slip stated corrects it"
        yield "product at 99 % converted", f"{band(run.product, Kind.SHARE, '%')} %"
        yield "over-reacted then", f"{_from_nought(run.spoilt, Kind.SHARE, '%', 0.01)} %"
        yield (
            "each minute too long costs",
            f"{_from_nought(run.late, Kind.SHARE, '%', 0.01)} % of it",
        )
        yield "off-gas half-way", f"{_gas(run.off_gas_before)} g/Nm³"
        yield "off-gas after the end", f"{_gas(run.off_gas_after)} g/Nm³"
        yield (
            "dissolved at stop-by",
            f"{_from_nought(run.dissolved, Kind.CONCENTRATION, 'mmol/L', 0.001)} mmol/L",
        )
        assert isinstance(run.purge, Estimate)
        unit = "s" if number(run.purge.value, Kind.TIME, "min") < 1.0 else "min"
        yield "purge to a hundredth of it", quantity(run.purge.value, Kind.TIME, unit, figures=2)
        yield "substrate the gas carries off", f"{_share(run.raw_off)} %"
        yield "product the gas carries off", f"{_share(run.made_off)} %"
        yield (
            "solvent it carries off",
            f"{band(run.solvent, Kind.AMOUNT, 'mmol')} mmol, {_share(run.solvent_share)} % of it",
        )
        yield "ozone the solvent takes", f"{_share(run.to_solvent)} %"
    balance = max(run.ozone_balance or 0.0, run.carbon_balance or 0.0, 1e-15)
    yield (
        "balance of ozone and carbon",
        f"closed to {power_of_ten(balance)} in {run.draws + 1} runs",
    )


def _gas(value: Number) -> str:
    return band(value, Kind.NORMAL_CONCENTRATION, "g/Nm3")


def _share(value: Number) -> str:
    return _from_nought(value, Kind.SHARE, "%", 0.01)


def _dissolved(value: Number) -> str:
    return _from_nought(value, Kind.CONCENTRATION, "mmol/L", 0.001)


def _from_nought(value: Number, kind: Kind, unit: str, least: float) -> str:
    """Return a value and its interval; below `least` it says so, and none is below nought."""
    assert isinstance(value, Estimate)
    shown = [max(number(end, kind, unit), 0.0) for end in (value.value, *value.interval)]
    told = [significant(one, 2) if one >= least else f"under {least:g}" for one in shown]
    return told[0] if max(shown) < least else f"{told[0]} ({told[1]} to {told[2]})"


def point_cells(point: RunPoint) -> tuple[str, ...]:
    """Return the cells of one moment, in the order of the heads."""
    assert point.time is not None and point.off_gas is not None  # noqa: PT018
    shares = (
        f"{_whole(middle)} ({_whole(low)}–{_whole(high)}) %"
        for middle, low, high in (
            (point.converted, point.converted_low, point.converted_high),
            (point.product, point.product_low, point.product_high),
        )
    )
    off_gas = number(point.off_gas, Kind.NORMAL_CONCENTRATION, "g/Nm3")
    return (
        significant(number(point.time, Kind.TIME, "min"), 3),
        *shares,
        f"{_whole(point.spoilt)} %",
        f"{off_gas:.1f}",
    )


def _whole(share: float | None) -> str:
    return f"{abs(round(100.0 * (share or 0.0))):d}"


def run_text(run: SimulatedRun) -> str:
    """Return the answer for a terminal."""
    return "\n".join(_lines(run)) + "\n"


def _lines(run: SimulatedRun) -> Iterator[str]:
    yield run_line(run)
    yield from (f"  {words:<30} {value}" for words, value in run_details(run))
    if run.signs:
        yield from ("", "Signs of the end")
        for line in sign_lines(run.signs):
            yield from wrapped(line, "  ", "    ")
    yield from ("", "Course (middle, 95 %)", _columns(HEADS))
    yield from (_columns(point_cells(point)) for point in course(run))
    yield from ("", "Notes")
    for note in run.notes:
        yield from wrapped(sentence(note), "  ", "    ")
    if run.unknowns:
        yield from wrapped(f"Not determined, taken as none: {', '.join(run.unknowns)}.")
    yield from wrapped(f"Methods: {'; '.join(run.methods)}.")
    yield from wrapped(f"Sources: {', '.join(run.sources)} (docs/sources.md).")


def course(run: SimulatedRun) -> list[RunPoint]:
    """Return the moments that a table shows: until twice the on-time."""
    points = [point for point in run.points if point.time]
    if isinstance(run.on_time, Estimate):
        last = 2.0 * run.on_time.value
        points = [point for point in points if point.time and point.time <= last] or points
    step = max(len(points) // ROWS, 1)
    return points[step - 1 :: step]


def _columns(cells: tuple[str, ...]) -> str:
    widths = (8, 16, 16, 14, 16)
    return "".join(f"{cell:>{width}}" for cell, width in zip(cells, widths, strict=True))
