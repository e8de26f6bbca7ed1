"""How warm the tube was in runs that do not say so: from readings logged, or a temperature log."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import datetime

import numpy as np

from ozonewright.bench.log import events_of, logged
from ozonewright.documents.convert_entry import logged_quantity
from ozonewright.documents.entry import EntryDocument
from ozonewright.documents.section import validated
from ozonewright.errors import AppError, Faults, MissingValue
from ozonewright.notebook import Entry, Notebook
from ozonewright.notebook.tables import with_offset
from ozonewright.physics.generator.falling import mean_between
from ozonewright.questions.duty import Bodies, fitted_bodies, warmed_once, warmed_through
from ozonewright.records.run import Run
from ozonewright.records.temperature_log import TemperatureLog
from ozonewright.uncertain import Measured
from ozonewright.units import Kind

TUBE = "tube temperature"
Reading = tuple[datetime, Measured]


def readings_of(notebook: Notebook, label: str) -> list[Reading]:
    """Return the temperatures of the tube that were logged of a run, in order of their time."""
    return sorted(_readings(logged(notebook, label)), key=lambda one: one[0])


def _readings(entries: Sequence[Entry]) -> list[Reading]:
    found = []
    for entry in entries:
        document = validated(EntryDocument, entry.data)
        value = logged_quantity(document) if document.entry.what == TUBE else None
        if value is not None:
            when = with_offset(document.entry.when or entry.when, entry.offsets.get("entry.when"))
            found.append((when, value.measured(TUBE)))
    return found


def log_of_entries(notebook: Notebook, label: str) -> TemperatureLog:
    """Return the temperatures logged of a run or reaction as a log, with its discharge events."""
    entries = logged(notebook, label)
    read = sorted(_readings(entries), key=lambda one: one[0])
    if not read:
        raise MissingValue(
            "no temperature of the tube was logged of this label",
            got=label,
            fix=f'Log some: ozonewright log --of "{label}" "{TUBE}" --value "41 °C".',
        )
    events = sorted(events_of(entries), key=lambda event: event.at.wall)
    switches = [
        (event.at.wall, event.what == "discharge on")
        for event in events
        if event.what in ("discharge on", "discharge off", "stop")
    ]
    begun = read[0][0]
    return TemperatureLog(
        times=tuple((when - begun).total_seconds() for when, _ in read),
        temperatures=tuple(value.value for _, value in read),
        on=tuple(_on(switches, when) for when, _ in read),
        switched=bool(switches),
        begun=begun,
    )


def _on(switches: Sequence[tuple[datetime, bool]], when: datetime) -> bool:
    """Return whether the discharge is on from a moment on; taken as on where nobody logged it."""
    before = [on for at, on in switches if at <= when]
    return before[-1] if before else not switches


def with_walls(
    runs: Sequence[Run],
    readings: Mapping[str, Sequence[Reading]],
    log: TemperatureLog | None,
) -> tuple[list[Run], dict[str, str]]:
    """Return the runs with a temperature of the tube where one can be told, and from where it is.

    What a run states itself stands. Then come readings logged of it, a log that covers it by the
    clock, and the warming fitted to a log that does not.
    """
    bodies = None if log is None else _bodies(log)
    found, ways = [], {}
    for run in runs:
        wall, way = (None, "") if run.wall else _wall(run, readings, log, bodies)
        if wall is not None:
            ways[run.label or run.place] = way
            run = replace(run, wall=wall)
        found.append(run)
    return found, ways


def _bodies(log: TemperatureLog) -> Bodies | None:
    try:
        return fitted_bodies(log)
    except AppError as error:
        # A log of a run that stays warm holds no time constant; its readings count all the same.
        if log.begun is None:
            raise Faults([error.at("log")]) from error
        return None


def _wall(
    run: Run,
    readings: Mapping[str, Sequence[Reading]],
    log: TemperatureLog | None,
    bodies: Bodies | None,
) -> tuple[Measured | None, str]:
    read = readings.get(run.label or "", ())
    if read:
        mean = float(np.mean([value.value for _, value in read]))
        return _input(mean, max(value.u for _, value in read)), "readings"
    covered = None if log is None else _covered(run, log)
    if covered is not None:
        return _input(covered, 0.0), "clock"
    if bodies is not None and bodies.ambient is not None:
        warm = _by_start(run, bodies)
        return (None, "") if warm is None else (_input(warm, 0.0), "warming")
    return None, ""


def _input(value: float, u: float) -> Measured:
    return Measured(value, u, "wall", Kind.TEMPERATURE, basis="logged")


def _covered(run: Run, log: TemperatureLog) -> float | None:
    """Return the mean of a log over a run's on-time, where its clock covers all of it."""
    if log.begun is None or run.started is None or run.on_time is None:
        return None
    begin = (run.started.astimezone() - log.begun).total_seconds()
    end = begin + run.on_time.value
    if begin < log.times[0] or end > log.times[-1]:
        return None
    return mean_between(
        times=np.array(log.times), values=np.array(log.temperatures), begin=begin, end=end
    )


def _by_start(run: Run, bodies: Bodies) -> float | None:
    """Return the temperature that the warming of a log foretells for a run's start."""
    assert bodies.ambient is not None
    room = run.gas.temperature.value if run.gas.temperature else bodies.ambient.value
    if run.start == "cold" and run.on_time is not None:
        return warmed_once(bodies, room, run.on_time.value)
    return warmed_through(bodies, room) if run.start in ("warm", "diverted") else None
