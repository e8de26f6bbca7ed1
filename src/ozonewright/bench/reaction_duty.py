"""A reaction's plan with its generator on a timer: the output as the tube warms and cools.

Apart from `bench.reaction`, because a fit of the generator loads much.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any, NamedTuple

from ozonewright.bench.duty import timer
from ozonewright.bench.load import Source, table_of
from ozonewright.bench.reaction import reaction_plan
from ozonewright.errors import Inconsistent, MissingValue
from ozonewright.notebook import Notebook
from ozonewright.questions.duty import Duty
from ozonewright.questions.reaction.given import Supply, supply_of
from ozonewright.questions.reaction.result import ReactionPlan, TimerRow
from ozonewright.results import Note
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind, number

HEAT = (
    "log", "readings", "time_constant", "rise", "ambient", "limit", "temperature_coefficient",
    "output_at",
)  # fmt: skip
"""What may be said of the tube, in the words of `bench.duty`."""
TRIED = {"on": "1 min", "off": "1 min"}
"""Any pattern: from it the question of duty tells those that stay below the limit."""
PASSED = ("duty-above-limit", "duty-near-limit", "duty-no-fit", "duty-warmth-unknown")
"""Notes of the timer that the plan repeats, beside those of the fit."""


class Pattern(NamedTuple):
    """A timer as text, and whether the limit chose it; without times the discharge runs on."""

    times: Mapping[str, str]
    chosen: bool


def plan_under_duty(
    source: Source,
    texts: Mapping[str, str | None],
    notebook: Notebook | None = None,
    rig: Source | None = None,
) -> ReactionPlan:
    """Return the plan with the timer of the document, or the best pattern below the limit.

    The output is the mean while on of the repeated pattern: of the generator fitted to the runs of
    the setting, or as typed with a temperature coefficient.
    """
    table = table_of(source)
    plain = reaction_plan(table, notebook)
    written = dict(table["reaction"])
    asked = {name: texts.get(name) for name in HEAT} | _output(written, plain)
    book = notebook if "setting" in asked or texts.get("readings") else None
    stated = written.get("timer")
    pattern = Pattern(stated, False) if stated else _chosen(asked, book)
    found = timer({**asked, **(pattern.times or TRIED)}, book)
    if pattern.times:
        written["timer"] = dict(pattern.times)
    supply = _supply(found, pattern, written)
    plan = reaction_plan({**table, "reaction": written}, notebook, supply, rig)
    return replace(
        plan,
        timer=_row(found, pattern),
        notes=(*plan.notes, *_notes(found, pattern)),
        sources=tuple(dict.fromkeys((*plan.sources, *found.sources))),
    )


def _output(written: Mapping[str, Any], plain: ReactionPlan) -> dict[str, str]:
    """Return the output in the words of the timer: as typed, of the setting, of the run."""
    if "output" in written:
        return {"output": str(written["output"])}
    if "setting" in written:
        return {"setting": str(written["setting"])}
    if isinstance(plain.output, Estimate):
        value, u = (
            number(one, Kind.MASS_RATE, "g/h") for one in (plain.output.value, plain.output.u)
        )
        return {"output": f"{value:.6g} g/h ± {u:.3g}"}
    return {}


def _chosen(asked: Mapping[str, str | None], notebook: Notebook | None) -> Pattern:
    """Return the pattern that delivers most below the limit; no times where no rest is needed."""
    if not asked.get("limit"):
        raise MissingValue(
            "neither a timer nor a limit is stated",
            where="limit",
            fix='Write timer = { on = "5 min", off = "5 min" } in the reaction, or say '
            '--limit "70 °C".',
        )
    found = timer({**asked, **TRIED}, notebook)
    if found.limit_reached is None:
        raise MissingValue(
            "without rise and ambient nobody knows how warm the tube becomes",
            where="rise",
            fix="Give a temperature log, or --rise and --ambient.",
        )
    if not found.limit_reached and found.safe_on is None:
        return Pattern({}, True)
    best = [row for row in found.patterns if row.best and row.on and row.off]
    if not best:
        raise Inconsistent(
            "no on-time of a minute or more stays below this limit",
            where="limit",
            got=str(asked["limit"]),
            fix="Cool the tube, run it at less power, or state the timer yourself.",
        )
    on, off = (number(one or 0.0, Kind.TIME, "min") for one in (best[0].on, best[0].off))
    return Pattern({"on": f"{on:g} min", "off": f"{off:g} min"}, True)


def _supply(found: Duty, pattern: Pattern, written: Mapping[str, Any]) -> Supply | None:
    """Return the output under the timer; None where it is as without one."""
    rate = found.rate_on if pattern.times else found.rate_steady
    if not isinstance(rate, Estimate):
        return None
    return supply_of(rate, way="timer", name=str(written.get("setting") or ""))


def _row(found: Duty, pattern: Pattern) -> TimerRow:
    on_timer = bool(pattern.times)
    return TimerRow(
        on=found.on if on_timer else None,
        off=found.off if on_timer else None,
        chosen=pattern.chosen,
        limit=found.limit,
        peak_temperature=found.peak_temperature if on_timer else found.steady_temperature,
        rate_on=found.rate_on if on_timer else found.rate_steady,
        rate_cold=found.rate_cold,
        ozone_rate=found.ozone_rate if on_timer else None,
    )


def _notes(found: Duty, pattern: Pattern) -> Iterator[Note]:
    if isinstance(found.rate_on, Estimate):
        yield Note("reaction-under-timer", "advice")
    if not pattern.times:
        yield Note("reaction-no-rest-needed", "advice")
        return
    for note in found.notes:
        if note.code in PASSED or note.code.startswith("generator-"):
            yield note
