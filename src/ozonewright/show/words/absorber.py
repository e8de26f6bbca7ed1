"""What the absorber says."""

from __future__ import annotations

from collections.abc import Callable

from ozonewright.show.numbers import percent, quantity, significant
from ozonewright.units import Kind

SPARGER = {
    "open tube": "an open tube",
    "pore": "its pore",
    "stone": "its bubble point",
    "seen": "what was seen",
    "unknown": "nothing: a band of 1 to 10 mm",
}
HOLDS = {"iodide": "iodide", "substrate": "substrate", "nothing": "nothing that takes ozone"}


def _mm(length: float) -> str:
    return quantity(length, Kind.LENGTH, "mm", figures=2)


def _minutes(time: float) -> str:
    return quantity(time, Kind.TIME, "min", figures=2)


def _gnm3(concentration: float) -> str:
    return quantity(concentration, Kind.NORMAL_CONCENTRATION, "g/Nm3", figures=2)


def _speed(value: float) -> str:
    return quantity(value, Kind.VELOCITY, "m/s", figures=2)


def _gas(output: float, flow: float, concentration: float) -> str:
    return (
        f"Gas sent in: {quantity(output, Kind.MASS_RATE, 'mg/min', figures=3)} of ozone in "
        f"{quantity(flow, Kind.NORMAL_FLOW, 'NL/min', figures=3)} is "
        f"{quantity(concentration, Kind.NORMAL_CONCENTRATION, 'g/Nm3', figures=3)}."
    )


def _bubbles(sparger: str, bubble: float, rise: float, contact: float, area: float) -> str:
    return (
        f"Bubbles: {_mm(bubble)} by {SPARGER[sparger]}; they rise at {_speed(rise)} and stay "
        f"{quantity(contact, Kind.TIME, 's', figures=2)}. Surface × time per gas: 6/d × t = "
        f"{significant(area, 3)} s/m."
    )


def _films(kl: float, kg: float, partition: float, enhancement: float, hatta: float) -> str:
    return (
        f"Films: liquid {_speed(kl)} × {significant(partition, 3)} (ozone in the liquid over that "
        f"in the gas) × {significant(enhancement, 3)} (enhancement; Hatta number "
        f"{significant(hatta, 3)}); gas {_speed(kg)}. In series: 1/K = 1/gas + 1/liquid."
    )


def _passes(left: float, correction: float) -> str:
    by = "" if correction == 1.0 else f", K times {significant(correction, 3)} by the measurement"
    return (
        f"A bubble keeps exp(-K × 6/d × t) of its ozone, enhancement falling as it goes{by}: "
        f"{percent(left)} leave the first bottle."
    )


def _corrected(by: str, modelled: float, found: float, correction: float) -> str:
    return (
        f"Measured: the {by} says {percent(found, 3)} taken up; the model alone {percent(modelled, 3)}. "
        f"Transfer is {significant(correction, 2)} times the model's, and the curves and changes use that."
    )


def _alone(guard: bool) -> str:
    how = (
        'titrate both bottles and give the guard share (--guard-share "2.9 %")'
        if guard
        else "put an iodide bottle behind and titrate it (--tail-titre, --titrant, --on-time)"
    )
    return (
        "A model alone: bubble sizes and transfer coefficients of bench bottles are known to a "
        f"quarter at best. To know, {how}."
    )


def _band(liquid: str, known: bool, low: float, high: float) -> str:
    first = (
        f"Ozone in {liquid}: only orders of magnitude are known (from memory)"
        if known
        else f"Ozone in {liquid}: no figure is known here"
    )
    return (
        f"{first}; taken as {significant(low, 2)} to {significant(high, 2)} times the gas. To "
        "measure it: bubble until the off-gas no longer changes, move 10 mL into acid-free iodide "
        "solution, acidify, titrate; divide by the ozone in the gas per volume at that temperature."
    )


def _reacts(liquid: str) -> str:
    return (
        f"{liquid} itself takes ozone, slowly or fast: uptake is higher than told, and that ozone is "
        "lost to the reaction."
    )


def _fills(bottle: str, time: float, dissolved: float) -> str:
    return (
        f"{bottle} holds nothing that takes ozone: the uptake told is that of fresh liquid. It falls "
        f"as the liquid fills, to 37 % of it after {_minutes(time)}, and ends near nothing at "
        f"{quantity(dissolved, Kind.MASS_CONCENTRATION, 'mg/L', figures=2)} dissolved (ozone that "
        "goes by itself left out)."
    )


def _lasts(bottle: str, time: float, holds: str, fast: bool) -> str:
    where = "in the skin of the bubbles" if fast else "in the bulk of the liquid"
    return (
        f"{bottle}: ozone meets its {HOLDS[holds]} {where}; it is used up after {_minutes(time)} "
        "at this output. Uptake falls before it is gone."
    )


def _breaks(time: float, low: float, high: float, more: bool) -> str:
    last = "all bottles" if more else "the bottle"
    return (
        f"After {_minutes(time)} (95 %: {_minutes(low)} to {_minutes(high)}) a twentieth of the ozone "
        f"passes {last}: stop before, or change the liquid."
    )


CHANGES = {
    "deeper": "10 cm deeper",
    "another": "one more bottle like the last",
    "half flow": "half the flow, the same output",
    "stone": "bubbles of 2 mm, as from a stone",
}

SENTENCES: dict[str, Callable[..., str]] = {
    "absorber-gas": _gas,
    "absorber-bubbles": _bubbles,
    "absorber-films": _films,
    "absorber-passes": _passes,
    "absorber-corrected": _corrected,
    "absorber-model-alone": _alone,
    "absorber-solubility-band": _band,
    "absorber-liquid-reacts": _reacts,
    "absorber-fills": _fills,
    "absorber-lasts": _lasts,
    "absorber-breaks": _breaks,
    "absorber-bubble-tiny": lambda bubble: (
        f"Bubbles of {_mm(bubble)}: no law here was tested below 0.1 mm, where they shrink away as "
        "they rise. Check the size and its unit."
    ),
    "absorber-run-not-done": lambda time: (
        f"Not done in {_minutes(time)}: the flask takes up too little. Smaller bubbles, more depth, or "
        "check output, amount and volume for a slip."
    ),
    "absorber-off-gas-tells": lambda half, end: (
        f"The off-gas tells the end: {_gnm3(half)} half-way, rising to {_gnm3(end)}. Watch it in a "
        "small iodide bottle behind the flask."
    ),
    "absorber-off-gas-silent": lambda half, end: (
        f"The off-gas does not tell the end: {_gnm3(half)} half-way, {_gnm3(end)} after it. Use a dye, "
        "a sample or the clock."
    ),
    "absorber-run-solubility": lambda liquid, known: (
        f"Ozone in {liquid}: {'orders of magnitude' if known else 'no figure'} known, a band is taken; "
        "it is most of the width of what is told here. A tail titre during the run beats it."
    ),
    "absorber-run-mixed": lambda liquid: f"A mixture: taken as {liquid}, of which there is most.",
    "absorber-run-strips": lambda which, share, high: (
        f"The gas carries {which} off: {percent(share)} of what "
        f"{'was there' if which == 'substrate' else 'could be made'} by stop-by, up to "
        f"{percent(high)}. A colder bath or less gas keeps it."
    ),
    "absorber-run-strips-estimated": lambda: (
        "Boiling points not typed are summed over the groups of the structure (30 K either way), and "
        "vapour pressures follow from them. The product is taken as its free carbonyl, so that is the "
        "most that can go with the gas. Type boiling_point or vapour_pressure to know it better."
    ),
    "absorber-run-strips-unknown": lambda name: (
        f"How readily {name} or its product leaves with the gas is not determined, and taken as not "
        "at all: type boiling_point and product_boiling_point."
    ),
    "absorber-run-solvent-unknown": lambda liquid, reacts: (
        f"Ozone's own reaction with {liquid} is not determined, and taken as none"
        + (
            "."
            if reacts == "no"
            else f"; yet {liquid} is known to take ozone, so uptake is higher "
            "than told and that ozone is lost to the reaction."
        )
    ),
    "absorber-run-solvent-takes": lambda liquid, evidence: (
        f"Ozone's own reaction with {liquid} is taken as measured in water, ten times more or less"
        f"{' (from memory)' if evidence == 'memory' else ''}."
    ),
    "absorber-run-dries": lambda liquid, share: (
        f"The gas carries off {percent(share)} of the {liquid} by stop-by: the liquid stands lower "
        "and the rest is more concentrated. Reckon with its vapour in the off-gas; a colder bath "
        "keeps it."
    ),
    "absorber-nothing-helps": lambda: (
        "Nothing tried brings a tenth of a point: leave the absorber as it is."
    ),
    "absorber-flow-of-line": lambda flow: (
        f"Flow not stated: {quantity(flow, Kind.NORMAL_FLOW, 'NL/min', figures=3)} as the gas line "
        "gives it, taken as exact."
    ),
    "absorber-bubble-unknown": lambda bottle: (
        f"Nothing tells the sparger before {bottle}: bubbles are taken as 1 to 10 mm. State its bore, "
        'pore or bubble point, or what you see (--bubble "3 mm").'
    ),
    "absorber-no-frit": lambda bottle: (
        f"{bottle} holds iodide behind a stone or frit: iodine and iodate stay in its pores, and the "
        "published procedure wants an open tube. With iodide the open tube is nearly as good."
    ),
    "absorber-salty": lambda bottle: (
        f"{bottle}: more salt than the law of salting-out was measured for (0.6 mol/L)."
    ),
    "absorber-slugs": lambda bottle: (
        f"So much gas in {bottle} that bubbles merge into slugs: uptake is lower than told."
    ),
}
