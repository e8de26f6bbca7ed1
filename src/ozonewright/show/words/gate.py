"""What the gate says: why each check stands where it stands, and the one thing that mends it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from ozonewright.show import checklist
from ozonewright.show.numbers import percent, quantity
from ozonewright.units import Kind


def _ppm(value: float) -> str:
    return quantity(value, Kind.MOLE_FRACTION, "ppm", figures=2)


def _vol(value: float) -> str:
    return quantity(value, Kind.MOLE_FRACTION, "vol%", figures=2)


def _degrees(value: float) -> str:
    return quantity(value, Kind.TEMPERATURE, "°C", figures=3)


def _time(seconds: float) -> str:
    if seconds < 90.0:
        return f"{max(seconds, 1.0):.0f} s"
    return quantity(seconds, Kind.TIME, "min", figures=2)


def _off_gas(**v: Any) -> str:
    if not v["flask"]:
        return "No bottle or flask is written in the rig: where the gas ends is not known."
    if v["tail"] and v["end"]:
        text = "A tail bottle and then a destruct, or a way outdoors, take what leaves the flask."
        if v["hose_off"] is not None:
            text += f" With the hose off {_ppm(v['limit'])} is passed in {_time(v['hose_off'])}."
        return text
    what = "nothing" if not v["tail"] and not v["end"] else "only a part of what is needed"
    text = f"There is {what} after the flask."
    if v["hose_off"] is not None:
        text += (
            f" With the hose off {_ppm(v['limit'])} is passed in {_time(v['hose_off'])}"
            " (one room in forty sooner)"
        )
        if v["steady"] is not None:
            text += (
                f"; with {percent(v['lost'])} of the output slipping past the room settles at "
                f"{_ppm(v['steady'] * v['limit'])}"
            )
        text += "."
    return text


def _suck_back(**v: Any) -> str:
    if v["valve"] and v["bottle"] and v["room"] is not None and v["liquid"] is not None:
        volumes = (
            f"{quantity(v['room'], Kind.VOLUME, 'mL', figures=3)} for "
            f"{quantity(v['liquid'], Kind.VOLUME, 'mL', figures=3)} of liquid"
        )
        enough = "" if v["room"] >= v["liquid"] else ", which is too small"
        return (
            f"A check valve and an empty safety bottle stand before the liquid: {volumes}{enough}."
        )
    missing = [
        word
        for word, there in (
            ("check valve known to point with the gas", v["valve"]),
            ("empty safety bottle", v["bottle"]),
        )
        if not there
    ]
    if missing:
        return f"Before the liquid there is no {' and no '.join(missing)}."
    return "How much the safety bottle holds, or how much liquid could come back, is not stated."


def _materials(**v: Any) -> str:
    told = [f"{name} of {part}: {WORD[rating]} {medium}" for part, name, rating, medium in v["bad"]]
    if v["unnamed"]:
        told.append(f"material not stated: {', '.join(v['unnamed'])}")
    return "; ".join(told) + "." if told else "Every part bears what it meets."


WORD = {
    "short": "for short runs in",
    "avoid": "not for",
    "disputed": "sources disagree on",
    "unknown": "no rating known for",
}


def _vapour(**v: Any) -> str:
    gas = "oxygen" if v["oxygen"] else "air"
    where = {
        "stop": "inside its limits or above them",
        "fix": "between a quarter of the lower limit and the limit",
        "go": "at or below a quarter of the lower limit",
    }[v["verdict"]]
    frozen = ", though frozen there" if v["frozen"] else ""
    flash = f" Flash point {_degrees(v['flash_point'])}." if v["flash_point"] is not None else ""
    return (
        f"{v['solvent'].capitalize()} at {_degrees(v['temperature'])}{frozen} is up to "
        f"{_vol(v['fraction'])} in {gas}: {where} ({_vol(v['lower'])}).{flash}"
    )


def _vapour_mend(solvent: str, below: float | None) -> str:
    if below is None:
        return (
            f"Take another solvent than {solvent}: it freezes before its vapour is under control."
        )
    return f"Below {_degrees(below)} the vapour is under a quarter of the lower limit."


def _purge(**v: Any) -> str:
    why = " and ".join(
        part
        for part in (
            f"{', '.join(v['hydrogen'])} gives off hydrogen" if v["hydrogen"] else "",
            f"{', '.join(v['flashing'])} catches fire in the cold" if v["flashing"] else "",
        )
        if part
    )
    ready = "ready" if v["ready"] else "not said to be ready"
    return f"{why or 'The quench is not known'}: the oxygen must be purged first; inert gas is {ready}."


def _questions(count: int, places: Sequence[str]) -> str:
    """Return what to state and how much to answer; each open answer has its own line anyway."""
    asked = sum(place.startswith("checklist.") for place in places)
    told = [place for place in places if not place.startswith("checklist.")]
    parts = []
    if told:
        parts.append(f"State {', '.join(told)}")
    if asked:
        many = "one question" if asked == 1 else f"{asked} questions"
        parts.append(f"{'answer' if told else 'Answer'} {many} of the checklist")
    return f"{', and '.join(parts)}: that would settle the rest."


SENTENCES: dict[str, Callable[..., str]] = {
    "gate-figure": lambda kind, unit, value, figures: quantity(value, kind, unit, figures=figures),
    "gate-answer": lambda answer: checklist.ANSWERS[answer],
    "gate-count": lambda count: f"{count} to look at",
    "gate-asked": checklist.told,
    "gate-asked-mend": checklist.mend,
    "gate-off-gas": _off_gas,
    "gate-off-gas-mend": lambda **v: (
        "Put a tail bottle (iodide or thiosulfate) and then a destruct behind the flask, or lead the gas "
        "outdoors, and test every joint."
    ),
    "gate-suck-back": _suck_back,
    "gate-suck-back-mend": lambda **v: (
        "Put a check valve (blow through it both ways, then state its direction) and an empty bottle larger "
        "than the liquid before it; gas first on, last off."
    ),
    "gate-carbon": lambda content, oxygen: (
        ("Carbon" if content else "The destruct's content is not stated, and carbon")
        + f" burns with {'oxygen' if oxygen else 'solvent vapour'} and ozone."
    ),
    "gate-carbon-mend": lambda: (
        "Use a manganese-dioxide catalyst behind a wet trap and a drying bottle, or a wet trap alone and a "
        "way outdoors; state the destruct's content."
    ),
    "gate-carbon-none": lambda content: f"The destruct holds {content}, no carbon.",
    "gate-dry-bed": lambda dry, trap: (
        "A wet trap and something that dries stand before the catalyst."
        if dry and trap
        else "Water kills a catalyst and solvent burns on it: "
        + ("no wet trap stands before it." if dry else "wet gas may reach it.")
    ),
    "gate-dry-bed-mend": lambda: (
        "Wet trap first, then a drying bottle, then the bed; state wet = false when its gas is dry."
    ),
    "gate-materials": _materials,
    "gate-materials-mend": lambda: (
        "Replace with PTFE, FEP, PFA, glass or PVDF; short joints of FKM."
    ),
    "gate-dried-air": lambda dried: (
        "The air is dried before the tube."
        if dried
        else "Air reaches the tube undried: little ozone, nitric acid film, nitrite in the titration."
    ),
    "gate-dried-air-mend": lambda: (
        "Put a desiccant column with end colour and a dust filter before the tube."
    ),
    "gate-room-unknown": lambda: "What people would breathe is not known.",
    "gate-room-unknown-mend": lambda: (
        "State the room with its air changes and its limit, and the output."
    ),
    "gate-room-ozone": lambda steady, high, limit, lost, stated: (
        f"With {percent(lost)} of the output let into the room"
        + ("" if stated else " (slip not stated, so all of it)")
        + f" it settles at {_ppm(steady)}, in one room of forty above {_ppm(high)}; the limit is "
        f"{_ppm(limit)}."
    ),
    "gate-room-ozone-mend": lambda kept: (
        "Test the joints and state what leaks, or raise the air changes."
        if kept
        else "Lead the tail outdoors or through a destruct, or raise the air changes; state the slip once it is "
        "measured."
    ),
    "gate-feed": lambda parts: (
        "What the tube is fed with is stated."
        if not parts
        else f"What {', '.join(parts)} draws in is not stated; it counts as oxygen."
    ),
    "gate-feed-mend": lambda: 'State it: gas = "room air", or what else it is.',
    "gate-no-oxygen": lambda: "The feed is air: nothing enriches the room.",
    "gate-oxygen-outdoors": lambda: "The oxygen is led outdoors.",
    "gate-oxygen-unknown": lambda: "How far the oxygen enriches the room is not known.",
    "gate-oxygen": lambda found, limit: (
        f"All oxygen let out, without a fan the room settles at {_vol3(found)}; above "
        f"{_vol3(limit)} it counts as enriched."
    ),
    "gate-oxygen-mend": lambda: (
        "State the flow and the room's air changes, lead the gas outdoors, or move more fresh air."
    ),
    "gate-ozone-unknown": lambda: "How much of the gas is ozone is not known.",
    "gate-ozone-unknown-mend": lambda: "State the output and the flow.",
    "gate-ozone": lambda found, limit: (
        f"The gas holds up to {_vol(found)} of ozone; from {_vol(limit)} in oxygen it explodes."
    ),
    "gate-ozone-mend": lambda: "Raise the flow, or lower the power.",
    "gate-cold-unknown": lambda: "How cold the flask is, is not stated: too cold, ozone condenses.",
    "gate-cold-unknown-mend": lambda: "State the temperature of the reaction.",
    "gate-cold": lambda cold, share: (
        f"At {_degrees(cold)} the ozone of the gas is at {percent(share)} of what would condense."
        if share < 1.0
        else f"At {_degrees(cold)} liquid ozone may form, which explodes."
    ),
    "gate-cold-mend": lambda: (
        "Never liquid nitrogen: dry ice (−78 °C) is cold enough, and ozone boils at −112 °C."
    ),
    "gate-tail-unknown": lambda tail: (
        "What the tail bottle can take, or what may reach it, is not stated."
        if tail
        else "There is no tail bottle."
    ),
    "gate-tail-unknown-mend": lambda: (
        "State reagent and mass (or concentration and volume) of the tail bottle, the output and the on-time."
    ),
    "gate-tail": lambda capacity, arriving, lasts: (
        f"The tail takes {_mmol(capacity)} of ozone"
        + (
            f", the whole output for {quantity(lasts, Kind.TIME, 'min', figures=2)}"
            if lasts
            else ""
        )
        + f"; at the most {_mmol(arriving)} could reach it."
    ),
    "gate-tail-mend": lambda wanted: f"Give it reagent for {_mmol(wanted)} of ozone.",
    "gate-bed-unknown": lambda: "How hot the destruct bed may become is not known.",
    "gate-bed": lambda rise: (
        f"If all ozone reached the destruct, its gas would leave {quantity(rise, Kind.TEMPERATURE_DIFFERENCE, 'K', figures=2)} warmer."
    ),
    "gate-bed-mend": lambda: (
        "Raise the flow or lower the output; a metal or glass housing, nothing that melts or burns beside it."
    ),
    "gate-inventory-unknown": lambda: "How much peroxide will stand in the flask is not known.",
    "gate-inventory-unknown-mend": lambda: "State the substrates and their amounts.",
    "gate-inventory": lambda energy, amount: (
        f"Up to {_mmol(amount)} of ozonide holds {quantity(energy, Kind.ENERGY, 'kJ', figures=2)}."
    ),
    "gate-inventory-mend": lambda: (
        "Make smaller lots, stay dilute and cold, quench before the next."
    ),
    "gate-quench": lambda reagents: (
        f"Quench: {', '.join(reagents)}."
        if reagents
        else "No quench is stated: peroxides would stay."
    ),
    "gate-quench-mend": lambda: "State a quench, weigh it out, and keep it beside the flask.",
    "gate-purge": _purge,
    "gate-purge-mend": lambda: (
        "Have nitrogen or argon ready; then answer checklist.inert_gas_ready."
    ),
    "gate-acetone": lambda peroxide: (
        "Acetone with acid and peroxide gives an explosive cyclic peroxide."
        if peroxide
        else "Acetone as solvent is never to meet acid or peroxide."
    ),
    "gate-acetone-mend": lambda: "Take another solvent.",
    "gate-vapour": _vapour,
    "gate-vapour-mend": _vapour_mend,
    "gate-vapour-mixture": lambda share: (
        f"Together the vapours are up to {percent(share)} of their lower limits, as if the liquids did not mix."
    ),
    "gate-vapour-mixture-mend": lambda: "Work colder, or in one solvent.",
    "gate-vapour-none": lambda solvent: f"{solvent.capitalize()} does not burn.",
    "gate-vapour-unknown": lambda solvent: (
        f"Whether the vapour of {solvent} burns here is not known."
        if solvent
        else "The solvent is not stated."
    ),
    "gate-vapour-unknown-mend": lambda solvent: (
        "State the solvent and its temperature; take one whose limits are known."
    ),
    "gate-assay-only": lambda: (
        "No reaction is named: the gate holds for an assay in water, not for a flask with solvent."
    ),
    "gate-local-rules": lambda: (
        "Local rules and licensed practice go before anything this program says. It gives no electrical design."
    ),
    "gate-high-bench": lambda pressure: (
        f"The room's pressure is not stated; solvent vapour is counted as at "
        f"{quantity(pressure, Kind.PRESSURE, 'kPa', figures=2)}, high in the mountains."
    ),
    "gate-questions": _questions,
}


def _vol3(value: float) -> str:
    return quantity(value, Kind.MOLE_FRACTION, "vol%", figures=3)


def _mmol(value: float) -> str:
    return quantity(value, Kind.AMOUNT, "mmol", figures=2)
