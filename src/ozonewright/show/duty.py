"""The answer about a timer as text."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.duty import Duty
from ozonewright.show.fields import told
from ozonewright.show.wrap import foot, noted, numbered, wrapped

CAUTIONS = (
    "High voltage off, discharged and earthed before anything is touched.",
    "Gas on before the discharge, off after it; nothing flammable near the tube.",
    "The limit is that of the weakest part: glue, seal, wire, plastic box.",
)


def answer_line(result: Duty) -> str:
    """Return the one line that answers: the peak and what an hour of the clock brings."""
    peak = told(result, "peak_temperature", with_u=True)
    share = told(result, "peak_share", figures=2)
    parts = [f"peaks at {peak}" if peak else f"peaks at {share} of the continuous rise"]
    if ozone := told(result, "ozone_rate", with_u=True):
        parts.append(f"delivers {ozone.replace('/h', '')} of ozone per clock hour")
    pattern = f"{told(result, 'on', figures=2)} on, {told(result, 'off', figures=2)} off"
    return f"{pattern}: {'; '.join(parts)}"


def output_lines(result: Duty) -> Iterator[str]:
    """Yield how the output moves while the tube warms and cools; nothing where it is constant."""
    if result.rate_on is None:
        return
    start, mean, end, cold, steady = (
        told(result, f"rate_{name}") for name in ("start", "on", "end", "cold", "steady")
    )
    yield (
        f"Output {start} at the start of each on-time, {end} at its end, {mean} as a mean while "
        f"on; cold it is {cold}, after running on {steady}."
    )
    first = told(result, "first_ozone", with_u=True)
    yield f"The first on-time, from cold, delivers {first}."


def limit_line(result: Duty) -> str:
    """Return what the limit allows."""
    if result.limit_reached is None:
        return "Longest on-time: not determined (rise, ambient and limit are needed)."
    limit = told(result, "limit")
    if not result.limit_reached:
        return f"Stays below {limit} even if it runs on, by these numbers."
    longest, safe = (told(result, name, figures=2) for name in ("longest_on", "safe_on"))
    off = told(result, "off", figures=2)
    first = told(result, "first_on", figures=2)
    planned = f", plan with {safe}" if safe else ""
    return (
        f"Below {limit}: at most {longest} on with {off} off{planned}; a single run from cold at "
        f"most {first}."
    )


def body_lines(result: Duty) -> Iterator[str]:
    """Yield what the log says of each body, and how well the curve meets the readings."""
    if result.residual is None:
        return
    for row in result.bodies:
        which = f"body {row.body}: " if len(result.bodies) > 1 else ""
        rise, tau = (told(row, name, with_u=True) for name in ("rise", "time_constant"))
        yield f"{which}rise {rise}, time constant {tau}"
    scatter = told(result, "residual", figures=2)
    yield f"{result.readings} readings scatter by {scatter} about the curve"


def pattern_lines(result: Duty) -> Iterator[tuple[str, str, str, str]]:
    """Yield on, off, peak and ozone per clock hour of each pattern below the limit."""
    for row in result.patterns:
        yield (
            told(row, "on", figures=2) or "",
            (told(row, "off", figures=2) or "") if row.off else "none",
            told(row, "peak_temperature") or "",
            (told(row, "ozone_rate") or "").replace("/h", ""),
        )


def wasted_line(result: Duty) -> str:
    """Return what passes while the discharge is off; nothing where the gas stops or is unknown."""
    gas = told(result, "gas_wasted")
    if gas is None:
        return ""
    line = f"While the discharge is off {gas.replace('/h', '')} of gas pass without ozone each hour"
    solvent = told(result, "solvent_wasted", figures=2)
    if solvent is not None:
        line += f" and carry off up to {solvent.replace('/h', '')} of {result.solvent}"
    return f"{line}."


def cooling_lines(result: Duty) -> Iterator[tuple[str, str, str, str, str]]:
    """Yield air, its flow, its velocity, its temperature, and that of the tube with its doubt."""
    for row in result.cooling:
        yield (
            row.way,
            told(row, "flow", figures=2) or "–",
            told(row, "velocity", figures=2) or "–",
            told(row, "air_temperature", figures=2) or "–",
            told(row, "temperature", with_u=True) or "–",
        )


def air_line(result: Duty) -> str:
    """Return the air that keeps the box within 10 K; nothing where nobody asked."""
    needed = told(result, "air_needed", figures=2)
    return f"{needed} of air through the box keep it within 10 K of the room." if needed else ""


def duty_text(result: Duty) -> str:
    """Return the whole answer for a terminal."""
    return "\n".join(_lines(result)) + "\n"


def _lines(result: Duty) -> Iterator[str]:
    yield from wrapped(answer_line(result), "")
    for line in (*output_lines(result), limit_line(result), wasted_line(result)):
        yield from wrapped(line, "") if line else ()
    if result.residual is not None:
        yield from ("", "From the log")
        for line in body_lines(result):
            yield from wrapped(line, "  ")
    if result.next:
        yield from ("", "Next")
        yield from numbered(result.next)
    if result.patterns:
        yield from (
            "",
            "Below the limit in 39 of 40 cases, with the shortest rest in whole minutes",
        )
        yield f"  {'on':<8}{'off':<8}{'peak':<10}ozone per clock hour"
        for row, (on, off, peak, ozone) in zip(result.patterns, pattern_lines(result), strict=True):
            mark = "   most" if row.best else ""
            yield f"  {on:<8}{off:<8}{peak:<10}{ozone or '–'}{mark}"
    if result.cooling:
        yield from ("", "What air would bring, the tube running on")
        yield f"  {'air':<28}{'flow':<11}{'velocity':<11}{'air':<9}tube"
        for way, flow, velocity, air, tube in cooling_lines(result):
            yield f"  {way:<28}{flow:<11}{velocity:<11}{air:<9}{tube}"
        yield from wrapped(air_line(result), "  ")
    yield from ("", "Take care")
    for caution in CAUTIONS:
        yield from wrapped(caution, "  ")
    yield from noted(result.notes)
    yield from foot(result.unknowns, result.sources)
