"""What the count says."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from ozonewright.show.clock import day_time, minutes_seconds

SENTENCES: dict[str, Callable[..., str]] = {
    "count-ahead": lambda events: (
        f"Ahead of this computer's clock, so not counted yet: {', '.join(events)}. Is the clock right?"
    ),
    "count-clock-set": lambda by, after: _clock_set(by, after),
    "count-restart-back": lambda by: (
        f"The clock stood {minutes_seconds(by)} earlier after a restart than before it. How long the restart took isn't known: it counts as no time, so the true on-time may be longer."
    ),
    "count-gap": lambda length, begin, end: (
        f"Restarted between {day_time(begin)} and {day_time(end)}: {minutes_seconds(length)} of on-time rest on the wall clock, and on the gas and discharge having stayed on. If the power failed, log when."
    ),
    "count-no-gas": lambda logged: (
        "Discharge on, gas off: nothing is counted, and the tube may overheat."
        if logged
        else "Discharge on, but no gas was logged: nothing is counted."
    ),
    "count-run-on-short": lambda needed: (
        f"The gas went off less than {minutes_seconds(needed)} after the discharge (common practice, no source): ozone may stand in line and vessel."
    ),
    "count-sent-later": lambda events, longest: (
        f"{'One press was' if events == 1 else f'{events} presses were'} kept on the page and sent later, up to {minutes_seconds(longest)}; each counts at its own time."
    ),
    "count-no-plan": lambda what, where, fix: (
        f"No plan, so no marks and no amount: {f'{where}: ' if where else ''}{what}. {fix}"
    ),
    "count-past": lambda mark, by: f"{minutes_seconds(by)} past the last mark, {mark}.",
    "count-press-doubt": lambda u: (
        f"Each press counts as {minutes_seconds(u)} uncertain (standard uncertainty; common practice, no source). The generator's start and the ozone held up in the line are not in it."
    ),
    "count-log-gas": lambda: (
        'If gas flows, log "gas on" (with --at for the time it began); if not, discharge off now.'
    ),
    "count-stop-now": lambda mark: f"Stop: the last mark ({mark}) is past.",
    "count-mark-in": lambda mark, left: (
        f"{mark[:1].upper()}{mark[1:]}, in {minutes_seconds(left)} of on-time."
    ),
    "count-discharge": lambda: "Gas is on. Discharge on starts the count.",
    "count-run-on": lambda left: f"Leave the gas on for {minutes_seconds(left)} more; last off.",
    "count-gas-off": lambda: "The line is swept. Gas may go off.",
    "count-begin": lambda: "Gas on first.",
    "count-no-output": lambda: (
        'No output is known, so only time is counted: log "output" with its value, or name a setting.'
    ),
    "count-no-uptake": lambda: (
        'No uptake is known: what was sent in is told, not what was taken up. Log "uptake" with its value.'
    ),
}


def _clock_set(by: float, after: datetime) -> str:
    way = "back" if by < 0.0 else "forward"
    return (
        f"The wall clock was set {way} by {minutes_seconds(abs(by))} after {day_time(after)}; "
        "the count goes by the clock that nobody sets, so no time is lost or won."
    )
