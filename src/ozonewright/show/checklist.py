"""The questions that only a person at the bench can answer, and what mends a no."""

from __future__ import annotations

ASKED = {
    "earthed": (
        "Case, supply and every metal part are earthed",
        "have a qualified person earth them and measure it",
    ),
    "residual-current-device": (
        "A residual-current device is in the mains lead, and was tested",
        "put one in and press its test button",
    ),
    "fused": ("The supply has the fuse it was made for", "fit the fuse that the supply asks for"),
    "bled": (
        "Stored charge is bled off, waited for and shorted before anything is touched",
        "fit a bleed resistor, wait, and short with an insulated stick",
    ),
    "never-open-circuit": (
        "The supply never runs without its tube",
        "connect the tube first, and lock the plug so that it can't be pulled",
    ),
    "supply-sound": (
        "The supply has not failed or tripped without a known reason",
        "have it repaired by a qualified person, or use another",
    ),
    "fan-proven": (
        "Airflow over the tube is proven before the high voltage comes on, "
        "and its failure switches off",
        "fit a flow or fan interlock",
    ),
    "no-oxygen-joint-in-box": (
        "No oxygen joint lies in the box with the high voltage",
        "lead the gas through in one piece, or ventilate the box below 23.5 % of oxygen",
    ),
    "no-glued-joint": (
        "No joint that is warm or carries gas is glued",
        "use clamps and fittings; hot-melt glue is fuel and softens",
    ),
    "nothing-flammable-near": (
        "Nothing flammable is near the tube, no plastic touches what becomes hot",
        "clear it away",
    ),
    "attended": (
        "Somebody stays while it runs; no timer runs it alone",
        "stay, or fit a flow switch and a thermal cut-out, and never with solvent",
    ),
    "joints-tested": (
        "Every joint after the tube was tested with the discharge off",
        "wet each joint with soap solution under pressure, or hold iodide paper to it",
    ),
    "oxygen-clean": (
        "Regulator, hoses and tape are oxygen-clean, no oil or grease; valves are opened slowly",
        "clean or replace them; open the cylinder slowly, standing aside",
    ),
    "cylinder-chained": ("The cylinder stands upright and is chained", "chain it"),
    "cylinder-shaded": ("The cylinder stands in the shade", "move it out of the sun"),
    "no-cold-trap": (
        "No trap or bath that the gas meets is colder than dry ice (−78 °C)",
        "never liquid nitrogen: it condenses ozone, which explodes",
    ),
    "no-spark": (
        "No spark, flame or hot surface is near the flask, and it is earthed",
        "move stirrers, switches and hot plates away, and earth what is metal",
    ),
    "no-acetone": (
        "No acetone comes near acid or peroxide, nor was the glass rinsed with it",
        "rinse with methanol and water",
    ),
    "old-residue-cleared": (
        "No residue of an earlier run waits for its two negative peroxide tests",
        "quench and test it first (clearance)",
    ),
    "shielded": ("Shield, goggles and gloves are in place", "put them on"),
    "detector": (
        "An ozone detector runs where people breathe",
        "set one up; the nose tires within minutes",
    ),
}
"""By code: what yes means, and what mends a no."""

ANSWERS = {True: "yes", False: "no", None: "not answered"}


def told(code: str, answer: bool | None) -> str:
    """Return a statement with its answer."""
    statement = ASKED[code][0]
    if answer:
        return f"{statement}."
    return f"{statement}: {ANSWERS[answer]}."


def mend(code: str) -> str:
    """Return what makes an answer yes."""
    act = ASKED[code][1]
    return f"{act[0].upper()}{act[1:]}; then answer yes in the checklist."
