"""Ozone itself: in the gas, condensed, and kept as peroxide in the flask; what quenches it."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.physics.hazards.destruct import (
    bed_heat,
    bed_temperature_rise,
    tail_capacity,
    time_to_exhaustion,
)
from ozonewright.physics.hazards.ozone import condensed_share, energy_of_peroxide
from ozonewright.physics.hazards.solvent import vapour_of
from ozonewright.questions.gate.asked import PRACTICE
from ozonewright.questions.gate.facts import Facts
from ozonewright.questions.gate.line import amount
from ozonewright.questions.gate.result import Check, Verdict
from ozonewright.records.rig import Part
from ozonewright.references.constants import IODIDE_PER_OZONE, M_KI, O3_FORMATION_ENTHALPY
from ozonewright.references.hazards import hazard
from ozonewright.references.reagents import reagent
from ozonewright.results import Note
from ozonewright.uncertain import Measured
from ozonewright.units import Kind, size

QUARTER_BAR = 0.5
"""Of the explosive limit, from which the concentration is to be lowered (judgement, no source)."""
KILOJOULE = 1000.0
MUCH, TOO_MUCH = 15.0 * KILOJOULE, 60.0 * KILOJOULE
"""Energy of the peroxides in one flask: about 50 and 200 mmol (judgement, no source)."""


def ozone(facts: Facts) -> Iterator[Check]:
    """Yield the checks of ozone in gas, trap and flask."""
    yield _explosive(facts)
    yield from _condensed(facts)
    yield _tail(facts)
    yield from _bed_heat(facts)
    if facts.reaction is not None:
        yield _inventory(facts)
        yield from _quench(facts)


def _fraction(facts: Facts) -> float | None:
    """Return the highest share of ozone in the gas."""
    if facts.output is None or not facts.flow_low:
        return None
    return facts.output / facts.flow_low


def _explosive(facts: Facts) -> Check:
    limit = hazard("OZONE_EXPLOSIVE")
    found = _fraction(facts)
    if found is None:
        return Check(
            code="ozone-in-gas",
            verdict="stop",
            limit=amount(Kind.MOLE_FRACTION, "vol%", limit.value),
            text=Note("gate-ozone-unknown"),
            mend=Note("gate-ozone-unknown-mend"),
            source=limit.source,
            unknown=tuple(
                name
                for name, value in (("output", facts.output), ("flow", facts.flow_low))
                if not value
            ),
        )
    verdict: Verdict = (
        "stop" if found >= limit.value else "fix" if found > QUARTER_BAR * limit.value else "go"
    )
    return Check(
        code="ozone-in-gas",
        verdict=verdict,
        value=amount(Kind.MOLE_FRACTION, "vol%", found),
        limit=amount(Kind.MOLE_FRACTION, "vol%", limit.value),
        text=Note("gate-ozone", values={"found": found, "limit": limit.value}),
        mend=None if verdict == "go" else Note("gate-ozone-mend"),
        source=limit.source,
    )


ROOM = 293.15
"""Where no bath is written; the checklist must rule a cold trap out besides. [K]"""
NEAR = 0.5


def _condensed(facts: Facts) -> Iterator[Check]:
    """The coldest place that the gas meets: bath of a bottle, or the reaction itself."""
    baths = [part.quantities["bath"] for part in facts.rig.parts if "bath" in part.quantities]
    if facts.reaction is not None:
        if facts.reaction.temperature is None:
            yield Check(
                code="condensed-ozone",
                verdict="stop",
                text=Note("gate-cold-unknown"),
                mend=Note("gate-cold-unknown-mend"),
                source="chemicals_library",
                unknown=("reaction.temperature",),
            )
            return
        baths.append(facts.reaction.temperature)
    if not baths:
        baths = [Measured(ROOM, 0.0, "room", Kind.TEMPERATURE)]
    cold = min(bath.value - 2.0 * bath.u for bath in baths)
    fraction = _fraction(facts)
    share = condensed_share(
        mole_fraction=fraction if fraction is not None else 1.0,
        pressure=max(facts.pressure, size(Kind.PRESSURE, "atm")),
        vapour_pressure=vapour_of(substance="ozone", temperature=cold).pressure,
    )
    ruled_out = facts.rig.checklist.get("no_cold_trap") is True
    verdict: Verdict = "fix" if share > NEAR else "go"
    if share >= 1.0 or not ruled_out:
        verdict = "stop"
    yield Check(
        code="condensed-ozone",
        verdict=verdict,
        value=amount(Kind.TEMPERATURE, "°C", cold, 3),
        text=Note("gate-cold", values={"cold": cold, "share": float(share)}),
        mend=None if verdict == "go" else Note("gate-cold-mend"),
        source="chemicals_library",
        unknown=_of_the_trap(fraction, ruled_out) if verdict != "go" else (),
    )


def _of_the_trap(fraction: float | None, ruled_out: bool) -> tuple[str, ...]:
    return (
        *(() if ruled_out else ("checklist.no_cold_trap",)),
        *(("flow", "output") if fraction is None else ()),
    )


def _tail(facts: Facts) -> Check:
    """Reagent of the tail bottles against all ozone that the run could send."""
    margin = hazard("TAIL_MARGIN")
    tails = facts.rig.of_kind("tail bottle")
    capacity = None if not tails else _least(tuple(_capacity(part) for part in tails))
    arriving = (
        facts.output * facts.on_time
        if facts.output is not None and facts.on_time is not None
        else None
    )
    if capacity is None or arriving is None:
        return Check(
            code="tail-capacity",
            verdict="stop",
            text=Note("gate-tail-unknown", values={"tail": bool(tails)}),
            mend=Note("gate-tail-unknown-mend"),
            source=PRACTICE,
            unknown=(
                *(f"{part.name}: reagent, mass" for part in tails if _capacity(part) is None),
                *(("output",) if facts.output is None else ()),
                *(("on-time",) if facts.on_time is None else ()),
            ),
        )
    share = capacity / arriving if arriving > 0.0 else float("inf")
    verdict: Verdict = "stop" if share < 1.0 else "fix" if share < margin.value else "go"
    return Check(
        code="tail-capacity",
        verdict=verdict,
        value=amount(Kind.AMOUNT, "mmol", capacity),
        limit=amount(Kind.AMOUNT, "mmol", margin.value * arriving),
        text=Note(
            "gate-tail",
            values={"capacity": capacity, "arriving": arriving, "lasts": _lasts(facts, capacity)},
        ),
        mend=None
        if verdict == "go"
        else Note("gate-tail-mend", values={"wanted": margin.value * arriving}),
        source=PRACTICE,
    )


def _lasts(facts: Facts, capacity: float) -> float | None:
    """Return how long the tail takes all that the tube makes; None where it makes nothing."""
    if not facts.output:
        return None
    return float(time_to_exhaustion(capacity=capacity, arriving=facts.output))


WARM_BED, HOT_BED = 60.0, 150.0
"""Rise of the gas in a destruct bed that loses no heat. [K] (judgement, no source)"""


def _bed_heat(facts: Facts) -> Iterator[Check]:
    """All ozone that could reach a destruct bed, decomposed there; no solvent comes so far."""
    if not facts.rig.of_kind("destruct"):
        return
    if facts.output is None or not facts.flow_low:
        yield Check(
            code="bed-heat",
            verdict="stop",
            text=Note("gate-bed-unknown"),
            mend=Note("gate-ozone-unknown-mend"),
            source="ruscic_2004",
            unknown=tuple(
                name
                for name, value in (("output", facts.output), ("flow", facts.flow_low))
                if not value
            ),
        )
        return
    heat = bed_heat(
        ozone=facts.output,
        ozone_enthalpy=O3_FORMATION_ENTHALPY,
        vapour=0.0,
        vapour_enthalpy=0.0,
    )
    rise = float(
        bed_temperature_rise(
            heat=heat,
            gas_flow=facts.flow_low,
            heat_capacity=hazard("GAS_HEAT_CAPACITY").value,
        )
    )
    verdict: Verdict = "stop" if rise > HOT_BED else "fix" if rise > WARM_BED else "go"
    yield Check(
        code="bed-heat",
        verdict=verdict,
        value=amount(Kind.TEMPERATURE_DIFFERENCE, "K", rise),
        limit=amount(Kind.TEMPERATURE_DIFFERENCE, "K", WARM_BED),
        text=Note("gate-bed", values={"rise": rise}),
        mend=None if verdict == "go" else Note("gate-bed-mend"),
        source="ruscic_2004",
    )


def _least(values: tuple[float | None, ...]) -> float | None:
    """Return the sum, unless one is not known: then nothing is counted on."""
    return None if None in values else sum(value for value in values if value is not None)


def _capacity(part: Part) -> float | None:
    """Return the ozone that a tail bottle takes, or None where its reagent is not stated."""
    words = part.words.get("reagent", "").casefold()
    mass, strength, volume = (part.value(name) for name in ("mass", "concentration", "volume"))
    if "iodide" in words:
        per, molar_mass = IODIDE_PER_OZONE, M_KI
    elif "thiosulfate" in words:
        per = hazard("THIOSULFATE_PER_OZONE_TAIL").value
        molar_mass = None
    else:
        return None
    if strength is not None and volume is not None:
        return float(tail_capacity(reagent=strength * volume, per_ozone=per))
    if mass is not None and molar_mass is not None:
        return float(tail_capacity(reagent=mass / molar_mass, per_ozone=per))
    return None


def _inventory(facts: Facts) -> Check:
    heat = hazard("PEROXIDE_HEAT")
    if facts.ozone_wanted is None:
        return Check(
            code="peroxide-inventory",
            verdict="stop",
            text=Note("gate-inventory-unknown"),
            mend=Note("gate-inventory-unknown-mend"),
            source=heat.source,
            unknown=("reaction.substrate",),
        )
    energy = float(
        energy_of_peroxide(amount=facts.ozone_wanted, enthalpy=heat.value + 2.0 * (heat.u or 0.0))
    )
    verdict: Verdict = "stop" if energy > TOO_MUCH else "fix" if energy > MUCH else "go"
    return Check(
        code="peroxide-inventory",
        verdict=verdict,
        value=amount(Kind.ENERGY, "kJ", energy),
        limit=amount(Kind.ENERGY, "kJ", MUCH),
        text=Note("gate-inventory", values={"energy": energy, "amount": facts.ozone_wanted}),
        mend=None if verdict == "go" else Note("gate-inventory-mend"),
        source=heat.source,
    )


FLASHES = ("dimethyl sulfide",)
ACETONE = "acetone"


def _quench(facts: Facts) -> Iterator[Check]:
    reaction = facts.reaction
    assert reaction is not None
    names = tuple(quench.reagent for quench in reaction.quenches)
    yield Check(
        code="quench-ready",
        verdict="go" if names else "stop",
        text=Note("gate-quench", values={"reagents": names}),
        mend=None if names else Note("gate-quench-mend"),
        source=PRACTICE,
        unknown=() if names else ("reaction.quench",),
    )
    hydrogen = tuple(name for name in names if reagent(name).hydrogen)
    flashing = tuple(name for name in names if name in FLASHES)
    if not names or hydrogen or flashing:
        purged = bool(facts.rig.checklist.get("inert_gas_ready"))
        yield Check(
            code="purge-before-quench",
            verdict="go" if purged else "stop",
            value=Note(
                "gate-answer", values={"answer": facts.rig.checklist.get("inert_gas_ready")}
            ),
            text=Note(
                "gate-purge", values={"hydrogen": hydrogen, "flashing": flashing, "ready": purged}
            ),
            mend=None if purged else Note("gate-purge-mend"),
            source=PRACTICE,
            unknown=()
            if "inert_gas_ready" in facts.rig.checklist
            else ("checklist.inert_gas_ready",),
        )
    acetone = any(name == ACETONE for name, _ in reaction.solvent) or not reaction.solvent
    peroxide = (
        any("peroxide" in name for name in names)
        or not names
        or reaction.work_up in ("oxidative", None)
    )
    if acetone:
        yield Check(
            code="acetone-peroxide",
            verdict="stop" if peroxide else "fix",
            text=Note("gate-acetone", values={"peroxide": peroxide}),
            mend=Note("gate-acetone-mend"),
            source=PRACTICE,
        )
