"""From run records to the runs of a series: what each read, and what was set."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ozonewright.bench.output import output_of
from ozonewright.errors import AppError, Faults, Inconsistent, MissingValue, OutOfBounds
from ozonewright.physics.assay.plan import amount_of_ozone, ozone_for_titre
from ozonewright.physics.chemistry.acid import acid_needed, protons_released
from ozonewright.questions.drift import SeriesRun
from ozonewright.questions.output import Output
from ozonewright.records import run as records
from ozonewright.references.acids import acid
from ozonewright.references.constants import M_KI
from ozonewright.references.limits import limit
from ozonewright.references.priors import prior
from ozonewright.uncertain import Estimate, Measured
from ozonewright.units import Kind

DIGITS = "from digits"
ALIKE = 0.02
"""Share by which a typed rate and the ozone of the same run may differ, beyond 3 u."""
BEYOND = 3.0


def in_order(runs: Sequence[records.Run]) -> tuple[tuple[records.Run, ...], bool]:
    """Return the runs by their start, and whether all have one."""
    started = [run.started for run in runs if run.started is not None]
    zones = {moment.tzinfo is None for moment in started}
    if len(started) < len(runs) or len(zones) != 1:
        return tuple(runs), False
    moments = dict(zip(map(id, runs), started, strict=True))
    return tuple(sorted(runs, key=lambda run: moments[id(run)])), True


def series_of(runs: Sequence[records.Run]) -> tuple[SeriesRun, ...]:
    """Return the runs as drift needs them, in the order given; all faults at once."""
    faults: list[AppError] = []
    found: list[SeriesRun] = []
    before: records.Run | None = None
    for number, run in enumerate(runs, start=1):
        try:
            found.append(_one(run, output_of(_as_timed(run), ()), number, before))
        except AppError as error:
            faults.append(error.at(run.label or run.place))
        before = run
    if faults:
        raise Faults(faults)
    return tuple(found)


def _as_timed(run: records.Run) -> records.Run:
    """Return the run with its on-time as well kept as two hands keep it, where nothing is stated.

    The digits of "1 min" alone would let it be anything down to nought.
    """
    if run.on_time is None or run.on_time.basis != DIGITS:
        return run
    return replace(run, on_time=replace(run.on_time, u=_timing(run.on_time), shape="normal"))


def _one(run: records.Run, found: Output, number: int, before: records.Run | None) -> SeriesRun:
    if run.on_time is None:
        raise MissingValue(
            "drift needs the on-time of every run",
            where="on_time",
            fix='Write on_time = "240 s", for a field blank the minutes of gas.',
        )
    ozone = found.ozone_amount
    if not isinstance(ozone, Estimate):
        raise MissingValue(
            "nothing says how much ozone came", where="titration", fix="Give titres or collected."
        )
    _same_twice(run, ozone)
    u_ozone = _u(run, found)
    if u_ozone <= 0.0:
        raise OutOfBounds(
            "a reading without any uncertainty can't be weighed",
            where="titration" if run.titration else "collected",
            got="± 0",
            fix="State what the reading is worth, or leave the ± out.",
        )
    gas, bottle = run.gas, run.bottles[0] if run.bottles else None
    guarded = len(found.bottles) > 1
    return SeriesRun(
        label=run.label or str(number),
        on_time=run.on_time.value,
        ozone=ozone.value,
        u_ozone=u_ozone,
        u_on_time=_timing(run.on_time),
        discharge_on=run.discharge_on,
        start=run.start,
        rest=_rest(run, before),
        guard=_guard(found) if guarded else None,
        u_guard=_u_titre(run, found, len(found.bottles) - 1) if guarded else 0.0,
        bottles=max(len(run.bottles), len(found.bottles), 1),
        flow=gas.flow.value if gas.flow and gas.flow.kind is Kind.VOLUME_FLOW else None,
        iodide=_iodide(bottle),
        volume=bottle.volume.value if bottle and bottle.volume else None,
        protons=_protons(run),
        guessed=_guessed(run),
    )


def _same_twice(run: records.Run, ozone: Estimate) -> None:
    """Refuse a typed rate that the ozone of the same run contradicts."""
    if run.rate is None or run.on_time is None or (run.titration or run.collected) is None:
        return
    scale = 1.0 if run.rate.kind is Kind.AMOUNT_RATE else None
    rate, u = run.rate.value, run.rate.u
    if scale is None:
        rate, u = float(amount_of_ozone(mass=rate)), float(amount_of_ozone(mass=u))
    typed, u_typed = rate * run.on_time.value, u * run.on_time.value
    allowed = max(ALIKE * ozone.value, BEYOND * (u_typed**2 + ozone.u**2) ** 0.5)
    if abs(typed - ozone.value) > allowed:
        raise Inconsistent(
            "the rate and the ozone of this run disagree",
            where="rate",
            got=f"{typed / ozone.value:.3g} times the ozone read" if ozone.value else "no ozone",
            fix="Mend one of them, or leave the rate out; ozone is rate times on-time.",
        )


def _timing(on_time: Measured) -> float:
    """Return how well the on-time was kept: as stated, else what two hands usually manage."""
    return prior("TIMING_USUAL").centre.value if on_time.basis == DIGITS else on_time.u


def _rest(run: records.Run, before: records.Run | None) -> float | None:
    """Return the rest before the run: as stated, else from the end of the run before."""
    if run.rest_before is not None:
        return run.rest_before.value
    if before is None or None in (run.started, before.started, before.on_time):
        return None
    assert run.started is not None
    assert before.started is not None
    assert before.on_time is not None
    gap = (run.started - before.started).total_seconds() - before.on_time.value
    return gap if gap >= 0.0 else None


def _guard(found: Output) -> float:
    mass = found.bottles[-1].ozone
    assert mass is not None
    return float(amount_of_ozone(mass=mass))


def _u(run: records.Run, found: Output) -> float:
    """Return what this run's own readings leave open; a shared titrant moves all runs alike."""
    if run.titration is not None:
        count = len(run.titration.titres)
        main = range(count - 1) if count > 1 else range(1)
        return float(sum(_u_titre(run, found, place) ** 2 for place in main) ** 0.5)
    if run.collected is not None:
        amount = run.collected.kind is Kind.AMOUNT
        return run.collected.u if amount else float(amount_of_ozone(mass=run.collected.u))
    assert run.rate is not None
    assert run.on_time is not None
    u = run.rate.u * run.on_time.value
    return u if run.rate.kind is Kind.AMOUNT_RATE else float(amount_of_ozone(mass=u))


def _u_titre(run: records.Run, found: Output, place: int) -> float:
    """Return the standard uncertainty that a titre brings, as ozone."""
    titration = run.titration
    assert titration is not None
    assert isinstance(found.titrant, Estimate)
    readings = titration.titres[place]
    u = max(
        prior("TITRE_READING").centre.value if one.basis == DIGITS else one.u for one in readings
    )
    if titration.end_point is not None:
        u = (max(one.u for one in readings) ** 2 + titration.end_point.value**2) ** 0.5
    share = 1.0
    if titration.aliquot is not None and titration.made_up_to is not None:
        share = titration.aliquot.value / titration.made_up_to.value
    return float(
        ozone_for_titre(titre=u / len(readings) ** 0.5, concentration=found.titrant.value) / share
    )


def _iodide(bottle: records.Bottle | None) -> float | None:
    if bottle is None:
        return None
    if bottle.iodide_mass is not None:
        return bottle.iodide_mass.value / M_KI
    if bottle.iodide_concentration is not None and bottle.volume is not None:
        return bottle.iodide_concentration.value * bottle.volume.value / M_KI
    return None


def _protons(run: records.Run) -> float | None:
    """Return the protons left for iodate once the pH is reached, or None where none would be."""
    used, bottle = run.acid, run.bottles[0] if run.bottles else None
    if used is None or bottle is None or bottle.volume is None:
        return None
    wanted = limit("ACID_PH_HIGH").value
    given = used.volume.value * used.concentration.value
    given *= float(protons_released(pH=wanted, pK=acid(used.kind).pK))
    volume = bottle.volume.value + used.volume.value
    left = given - float(acid_needed(ozone=0.0, volume=volume, pH=wanted))
    return left if left > 0.0 else None


def _guessed(run: records.Run) -> bool:
    """Whether the digits alone say how sure the reading is."""
    if run.titration is not None:
        first = run.titration.titres[0][0]
        return first.basis == DIGITS and run.titration.end_point is None
    typed = run.collected or run.rate
    return typed is not None and typed.basis == DIGITS
