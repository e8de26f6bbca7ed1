"""A label beside what was measured: is it credible at these watts and this flow?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ozonewright.physics.generator.energy import highest_yield
from ozonewright.questions.claim.implied import exact, implied, measured, share_of_label
from ozonewright.questions.claim.result import Band, Claim, Measurement
from ozonewright.references.constants import O3_FORMATION_ENTHALPY
from ozonewright.references.yields import Published, published
from ozonewright.results import Note
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind, number

UNITS = {Kind.YIELD: "g/kWh", Kind.MASS_FRACTION: "wt%"}
OF = {Kind.YIELD: "yield", Kind.MASS_FRACTION: "mass fraction"}
MOSTLY_OXYGEN = 0.5
"""Share of oxygen in the feed from which it is judged beside oxygen-fed generators."""
REACHED, SHORT, MORE = "as the label", "not at this setting", "more than the label"
BEYOND_ENERGY, BEYOND_OXYGEN = "beyond the energy put in", "beyond the oxygen fed"
MEND_FIRST = "mend the run first"

Known = Mapping[str, Estimate]


def claim(found: Measurement, label: float) -> Claim:
    """Return what a label (kg/s) means at the power and gas of a run, and what was measured."""
    known, seen = implied(found, exact(label)), implied(found, measured(found.rate))
    limit = float(highest_yield(formation_enthalpy=O3_FORMATION_ENTHALPY))
    verdict = _verdict(found, label, known, limit)
    bands = tuple(_bands(found, known, seen))
    return Claim(
        run=found.run.label,
        setting=found.setting or found.run.setting,
        runs=found.runs,
        label=label,
        rate=found.rate,
        share=share_of_label(found.rate, label),
        verdict=verdict,
        label_yield=known.get("yield"),
        energy_yield=seen.get("yield"),
        yield_limit=limit,
        label_fraction=known.get("fraction"),
        mass_fraction=seen.get("fraction"),
        oxygen_share=known.get("oxygen"),
        bands=bands,
        working=tuple(_working(found, label, known)),
        notes=tuple(_notes(found, verdict, bands)),
        next=tuple(_next(found, verdict)),
        unknowns=_unknowns(found, known),
        sources=tuple(dict.fromkeys(["ruscic_2004", *(b.source for b in bands if b.source)])),
        methods=("the label's grams per hour over the plug's watts, and in the gas of the run",),
    )


def _verdict(found: Measurement, label: float, known: Known, limit: float) -> str:
    """Name how label and measurement stand; impossible beats all that was read."""
    if found.wrong:
        return MEND_FIRST
    if "yield" in known and known["yield"].interval[0] > limit:
        return BEYOND_ENERGY
    if "oxygen" in known and known["oxygen"].interval[0] > 1.0:
        return BEYOND_OXYGEN
    low, high = found.rate.interval
    if high < label:
        return SHORT
    return MORE if low > label else REACHED


def _bands(found: Measurement, known: Known, seen: Known) -> Iterator[Band]:
    names = {Kind.YIELD: "yield", Kind.MASS_FRACTION: "fraction"}
    for one in published():
        if one.feed in _feeds(found):
            yield Band(
                name=one.name,
                quantity=OF[one.kind],
                low=number(one.low, one.kind, UNITS[one.kind]),
                high=number(one.high, one.kind, UNITS[one.kind]),
                unit=UNITS[one.kind],
                label=_place(known.get(names[one.kind]), one),
                measured=_place(seen.get(names[one.kind]), one),
                evidence=one.evidence,
                source=one.source,
            )


def _feeds(found: Measurement) -> tuple[str, ...]:
    feed = found.run.gas.feed
    if feed is None or "oxygen" not in feed.parts:
        return ("air", "oxygen")
    return ("oxygen",) if feed.parts["oxygen"].value > MOSTLY_OXYGEN else ("air",)


def _place(value: Estimate | None, band: Published) -> str | None:
    if value is None:
        return None
    if value.value < band.low:
        return "below"
    return "above" if value.value > band.high else "inside"


def _working(found: Measurement, label: float, known: Known) -> Iterator[Note]:
    yield Note("claim-share", values={"rate": found.rate.value, "label": label})
    if "yield" in known and found.run.power is not None:
        yield Note(
            "claim-yield",
            values={"label": label, "power": found.run.power.value, "yield": known["yield"].value},
        )
    if "fraction" in known and found.feed_flow is not None:
        yield Note(
            "claim-fraction",
            values={
                "label": label,
                "flow": found.feed_flow.value,
                "fraction": known["fraction"].value,
            },
        )
    if "oxygen" in known:
        yield Note("claim-oxygen", values={"share": known["oxygen"].value})


def _notes(found: Measurement, verdict: str, bands: tuple[Band, ...]) -> Iterator[Note]:
    if verdict == MEND_FIRST:
        yield Note("claim-wrong-run", "wrong", {"codes": found.wrong})
    if verdict in (BEYOND_ENERGY, BEYOND_OXYGEN):
        yield Note(f"claim-{verdict.replace(' ', '-')}", "wrong")
    yields = [band for band in bands if band.quantity == OF[Kind.YIELD]]
    if any(band.label for band in yields):
        yield Note("claim-bands", "advice", {"inside": _named(yields, "label")})
    if any(band.measured for band in yields):
        yield Note("claim-measured-bands", "advice", {"inside": _named(yields, "measured")})
    if found.run.gas.feed is None:
        yield Note("claim-feed-unknown")
    if not found.slip_known:
        yield Note("claim-slip-unknown")
    if found.runs == 1:
        yield Note("claim-one-run", "advice")
    elif found.run.power is not None or found.feed_flow is not None:
        yield Note("claim-last-run", "advice", {"label": found.run.label or found.run.place})
    if found.run.power is not None and found.run.power_at != "plug":
        yield Note("claim-not-at-plug")
    yield Note("claim-label-silent", "advice")


def _named(bands: list[Band], which: str) -> tuple[str, ...]:
    return tuple(band.name for band in bands if getattr(band, which) == "inside")


def _next(found: Measurement, verdict: str) -> Iterator[Note]:
    if verdict == MEND_FIRST:
        yield Note("claim-mend-run", "advice")
        return
    if found.run.power is None or found.feed_flow is None:
        yield Note("claim-type-more", "advice")
    if verdict != REACHED:
        yield Note("claim-ask", "advice")
    if found.runs == 1:
        yield Note("claim-repeat", "advice")


def _unknowns(found: Measurement, known: Known) -> tuple[str, ...]:
    missing = []
    if "yield" not in known:
        missing.append("electrical.power")
    if found.feed_flow is None:
        missing.append("gas.flow")
    if found.run.gas.feed is None:
        missing.append("gas.feed")
    return tuple(missing)
