"""What may have moved the result, each with its size on this result where it can be computed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ozonewright.physics.assay.iodometry import ozone_from_thiosulfate, passed_all_bottles
from ozonewright.physics.chemistry.acid import acid_needed, protons_released
from ozonewright.physics.chemistry.iodine import (
    free_iodine,
    iodine_carried_off,
    triiodide_constant,
)
from ozonewright.physics.gas.flow import volume_flow
from ozonewright.questions.output.sheet import ROOM_TEMPERATURE
from ozonewright.records.run import Bottle, Gas, Run, Titration
from ozonewright.references.acids import acid
from ozonewright.references.constants import NORMAL_PRESSURE, WATER_EXPANSION
from ozonewright.references.limits import limit
from ozonewright.results import Note
from ozonewright.units import Kind, size

ROUNDING = 1e-9
SMALL_BLANK = 0.1 * size(Kind.VOLUME, "mL")
"""The step for which the effect of a missing blank is told."""
WARM_ROOM = 5.0
"""Kelvin from 20 °C for which the effect of an unknown temperature is told."""
TOTAL_FACTOR = 3.0
"""About 1 mmol is read as within this factor (common practice, no source)."""
CARRIED_WORTH_TELLING = 0.005
OLD_TITRANT_DAYS = 14
"""Thiosulfate drifts; standardise again within two weeks (common practice, no source)."""

Values = Mapping[str, float]


def judge(run: Run, values: Values) -> tuple[Note, ...]:
    """Return the notes on one run, from its record and the values computed from it."""
    notes: list[Note] = []
    if run.titration is not None:
        notes += _titres(run.titration, values, run.discharge_on)
        if run.discharge_on:
            notes += _guard(run.titration, values)
        notes += _iodide(run, values)
        notes += _acid(run, values)
        notes += _iodine(run, values)
        notes += _titrant(run)
    notes += _procedure(run, values)
    return tuple(notes)


def _titres(titration: Titration, values: Values, discharge_on: bool) -> Iterator[Note]:
    main = titration.titres[0][0].value
    blanked = bool(titration.blanks) or "field_blank" in values
    # a field blank is itself the blank
    if discharge_on and not blanked and main > 0.0:
        yield Note("no-blank", values={"share": SMALL_BLANK / main, "step": SMALL_BLANK})
    if titration.burette is not None:
        yield from _burette(titration, main)
    for number, readings in enumerate(titration.titres, start=1):
        blank = (
            titration.blanks[min(number, len(titration.blanks)) - 1] if titration.blanks else None
        )
        if blank is not None and readings[0].value < blank.value - 2.0 * (readings[0].u + blank.u):
            yield Note("titre-below-blank", "wrong", {"bottle": number})
    if titration.temperature is None:
        yield Note(
            "temperature-unknown",
            "advice",
            {"share": WATER_EXPANSION * WARM_ROOM, "step": WARM_ROOM},
        )


def _burette(titration: Titration, main: float) -> Iterator[Note]:
    assert titration.burette is not None
    capacity, tolerance = titration.burette.capacity, titration.burette.tolerance
    filled = main / capacity
    about = {"titre": main, "capacity": capacity, "filled": filled}
    if filled > limit("BURETTE_HIGH").value:
        yield Note("burette-refilled", values=about)
    elif filled < limit("BURETTE_LOW").value and main > 0.0:
        u = tolerance.u if tolerance else titration.titres[0][0].u
        yield Note("titre-small", values=about | {"share": u / main})
    if tolerance is None:
        yield Note("burette-class-unknown", "advice", {"capacity": capacity})


def _guard(titration: Titration, values: Values) -> Iterator[Note]:
    if len(titration.titres) < 2:
        yield Note("no-guard")
        return
    share = values.get("guard_share", 0.0)
    count = len(titration.titres)
    first, last = values["thiosulfate_1"], values[f"thiosulfate_{count}"]
    if last > first > 0.0:
        yield Note("guard-above-first", values={"share": share})
    elif first > 0.0 and share > limit("GUARD_SHARE_HIGH").value:
        lost = passed_all_bottles(first=first, last=last, bottles=count)
        yield Note("guard-high", values={"share": share, "lost": lost})


def _iodide(run: Run, values: Values) -> Iterator[Note]:
    ratios = {
        place: values[f"iodide_ratio_{place}"]
        for place in range(1, len(run.bottles) + 1)
        if f"iodide_ratio_{place}" in values and values[f"iodide_ratio_{place}"] > 0.0
    }
    if ratios:
        worst = min(ratios, key=lambda place: ratios[place])
        if ratios[worst] < 1.0:
            yield Note("iodide-spent", "wrong", {"ratio": ratios[worst], "bottle": worst})
        elif ratios[worst] < limit("IODIDE_RATIO_LOW").value:
            yield Note("iodide-low", values={"ratio": ratios[worst], "bottle": worst})
    for place, bottle in enumerate(run.bottles, start=1):
        if bottle.sparger == "frit":
            yield Note("frit-in-iodide", values={"bottle": place})


def _acid(run: Run, values: Values) -> Iterator[Note]:
    given = run.acid
    if given is None:
        yield Note("acid-unknown", "advice")
        return
    if given.when == "before":
        yield Note("acid-before")
    if given.when is None:
        yield Note("acid-when-unknown", "advice")
    per_molecule = protons_released(pH=limit("ACID_PH_HIGH").value, pK=acid(given.kind).pK)
    offered = given.volume.value * given.concentration.value * per_molecule
    for place, bottle in enumerate(run.bottles, start=1):
        if bottle.volume is None:
            continue
        needed = acid_needed(
            ozone=ozone_from_thiosulfate(thiosulfate=values[f"thiosulfate_{place}"]),
            volume=bottle.volume.value + given.volume.value,
            pH=limit("ACID_PH_HIGH").value,
        )
        if offered < needed:
            yield Note(
                "acid-short",
                values={"bottle": place, "offered": offered, "needed": needed, "acid": given.kind},
            )
            return


def _iodine(run: Run, values: Values) -> Iterator[Note]:
    """Iodine that the gas carries off the first bottle: half of the last rate, over the run."""
    first = run.bottles[0] if run.bottles else None
    if first is None or first.volume is None or "iodide_1" not in values or run.on_time is None:
        return
    if run.gas.flow is None:
        return
    carried = _carried(first, values, _through_bottle(run.gas), run.on_time.value, _warmth(run))
    if carried > CARRIED_WORTH_TELLING:
        guarded = run.titration is not None and len(run.titration.titres) > 1
        yield Note(
            "iodine-carried-guarded" if guarded else "iodine-carried",
            "advice" if guarded else "doubt",
            {"share": carried},
        )


def _through_bottle(gas: Gas) -> float:
    """Return the volume flow, of a normal flow at the pressure of the room or the normal one."""
    assert gas.flow is not None
    if gas.flow.kind is Kind.VOLUME_FLOW:
        return gas.flow.value
    return float(
        volume_flow(
            molar_flow=gas.flow.value,
            temperature=gas.temperature.value if gas.temperature else ROOM_TEMPERATURE,
            pressure=gas.pressure.value if gas.pressure else NORMAL_PRESSURE,
        )
    )


def _warmth(run: Run) -> float:
    return run.gas.temperature.value if run.gas.temperature else ROOM_TEMPERATURE


def _carried(bottle: Bottle, values: Values, flow: float, on_time: float, warm: float) -> float:
    assert bottle.volume is not None
    volume = bottle.volume.value
    iodine = ozone_from_thiosulfate(thiosulfate=values["thiosulfate_1"]) / volume
    left = values["iodide_1"] / volume - iodine
    if iodine <= 0.0 or left <= 0.0:
        return 0.0
    free = free_iodine(iodine=iodine, iodide=left, constant=triiodide_constant(temperature=warm))
    rate = iodine_carried_off(free_share=free, gas_flow=flow, volume=volume, temperature=warm)
    return float(min(0.5 * rate * on_time, 1.0))


def _titrant(run: Run) -> Iterator[Note]:
    assert run.titration is not None
    titrant = run.titration.titrant
    if titrant.standard is not None and titrant.standard.startswith("sodium thiosulfate"):
        yield Note("titrant-by-weight")
    elif titrant.standard is not None and titrant.purity is None:
        yield Note("purity-unknown", "advice", {"standard": titrant.standard})
    if titrant.standardised and run.started:
        days = (run.started.date() - titrant.standardised).days
        if days > OLD_TITRANT_DAYS:
            yield Note("titrant-old", values={"days": days})
        if days < 0:
            yield Note("titrant-later", "advice", {"days": -days})


def _procedure(run: Run, values: Values) -> Iterator[Note]:
    flow = run.gas.flow
    titrated = run.titration is not None
    highest = limit("FLOW_HIGH").value * (1.0 + ROUNDING)
    if titrated and flow and flow.kind is Kind.VOLUME_FLOW and flow.value > highest:
        yield Note("flow-high", values={"flow": flow.value})
    ozone, about = values.get("ozone", 0.0), limit("OZONE_TOTAL").value
    near = about / TOTAL_FACTOR <= ozone <= about * TOTAL_FACTOR
    if titrated and run.discharge_on and ozone > 0.0 and not near:
        yield Note("total-far", values={"ozone": ozone})
    feed = run.gas.feed
    if feed is not None and feed.name in ("room air", "dry air") and run.discharge_on:
        yield Note("nitrite", "doubt" if feed.name == "room air" else "advice")
