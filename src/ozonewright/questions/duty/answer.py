"""From a timer's pattern and the tube's time constant to warmth and delivery."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from ozonewright.errors import Inconsistent
from ozonewright.physics.generator.duty import peak_share, trough_share
from ozonewright.physics.hazards.vapour import vapour_carried
from ozonewright.questions.duty.cooling import cooling, cooling_notes
from ozonewright.questions.duty.limits import patterns, times
from ozonewright.questions.duty.notes import next_of, notes_of, unknowns_of
from ozonewright.questions.duty.output import outputs, refuse_below_nothing, weighed
from ozonewright.questions.duty.result import BodyRow, Duty, ReadingRow
from ozonewright.questions.duty.timer import Timer, series
from ozonewright.uncertain import alone, propagate
from ozonewright.units import Kind, number


def duty(timer: Timer) -> Duty:
    """Return what the pattern does."""
    ambient = timer.bodies.ambient
    if timer.limit and ambient and timer.limit.value <= ambient.value:
        raise Inconsistent(
            "the limit is not above the ambient",
            where="limit",
            got=f"{number(timer.limit.value, Kind.TEMPERATURE, '°C'):.4g} °C",
            fix='Type the highest temperature the tube may have, such as "70 °C".',
        )
    refuse_below_nothing(timer)
    found = propagate(_calculation(timer), timer.inputs(), correlation=timer.correlation)
    limits = times(timer)
    rows, needed = cooling(timer.fan) if timer.fan else ((), None)
    told: dict[str, Any] = {**found, **limits}
    return Duty(
        **told,
        limit=timer.limit.value if timer.limit else None,
        ambient=ambient.value if ambient else None,
        bodies=_rows(timer),
        residual=timer.bodies.fitted.residual if timer.bodies.fitted else None,
        readings=len(timer.bodies.log.times) if timer.bodies.log else None,
        log=tuple(_readings(timer)),
        on=timer.on.value,
        off=timer.off.value,
        starts_per_hour=1.0 / (timer.on.value + timer.off.value),
        patterns=patterns(timer),
        solvent=timer.wet.name if timer.wet else None,
        cooling=rows,
        air_needed=needed,
        notes=(
            *notes_of(timer, found, limits),
            *(cooling_notes(timer.fan) if timer.fan else ()),
        ),
        next=tuple(next_of(timer, limits)),
        unknowns=tuple(unknowns_of(timer)),
        sources=("incropera_2007", "stout_undated", *(FILMS_FROM if timer.fan else ())),
        methods=(METHODS[len(timer.bodies.time_constants)],),
    )


FILMS_FROM = ("churchill_1975", "churchill_1977")
METHODS = {1: "one body of one time constant", 2: "two bodies that warm side by side"}


def _rows(timer: Timer) -> tuple[BodyRow, ...]:
    """Return the bodies with what is known of each."""
    rises = timer.bodies.rises or (None,) * len(timer.bodies.time_constants)
    return tuple(
        BodyRow(
            body=number,
            rise=alone(rise),
            time_constant=alone(tau),
        )
        for number, (rise, tau) in enumerate(
            zip(rises, timer.bodies.time_constants, strict=True), start=1
        )
    )


def _readings(timer: Timer) -> Iterator[ReadingRow]:
    """Yield the readings of the log with the curve beside them."""
    log, fit = timer.bodies.log, timer.bodies.fitted
    if log is None or fit is None:
        return
    for time, read, on, fitted in zip(log.times, log.temperatures, log.on, fit.course, strict=True):
        yield ReadingRow(time=time, read=read, fitted=float(fitted), on=on)


def _calculation(timer: Timer) -> Any:
    def calculation(**v: Any) -> Mapping[str, Any]:
        pattern = {"on_time": v["on"], "off_time": v["off"]}
        rises = series(v, "rise")
        out = {
            "on_share": v["on"] / (v["on"] + v["off"]),
            "peak_share": weighed(peak_share, v, **pattern),
            "trough_share": weighed(trough_share, v, **pattern),
        }
        if len(timer.bodies.time_constants) == 1:
            out["time_constant"] = 1.0 * v["tau_0"]
        if "rate" in v:
            out |= outputs(timer, v)
        if rises and "ambient" in v:
            out["peak_temperature"] = v["ambient"] + out["peak_share"] * sum(rises)
            out["steady_temperature"] = v["ambient"] + sum(rises)
        if "flow" in v and timer.gas == "runs on":
            out["gas_wasted"] = v["flow"] * (1.0 - out["on_share"])
            if timer.wet is not None:
                out["solvent_wasted"] = vapour_carried(
                    gas_flow=out["gas_wasted"],
                    fraction=v["vapour"],
                    molar_mass=timer.wet.molar_mass,
                )
        return out

    return calculation
