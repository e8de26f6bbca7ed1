"""What the gas line says."""

from __future__ import annotations

from collections.abc import Callable

from ozonewright.show.numbers import quantity, significant
from ozonewright.units import Kind


def _kpa(pressure: float) -> str:
    return quantity(pressure, Kind.PRESSURE_DIFFERENCE, "kPa", figures=3)


def _cm(length: float, figures: int = 2) -> str:
    return quantity(length, Kind.LENGTH, "cm", figures=figures)


def _ml(volume: float) -> str:
    return quantity(volume, Kind.VOLUME, "mL", figures=2)


def _lmin(flow: float) -> str:
    return quantity(flow, Kind.VOLUME_FLOW, "L/min", figures=3)


def _no_flow(bottle: str | None, depth: float | None, works: float | None) -> str:
    if bottle is None or depth is None:
        return "Nothing flows: look for a reversed valve, a cap, or a supplier that is too weak."
    if works is None:
        return (
            f"Nothing flows, and without the liquid of {bottle} nothing would: look for a reversed "
            "valve, a blocked part, or a supplier that is too weak."
        )
    return (
        f"Nothing flows: {_cm(depth)} of liquid in {bottle} need more pressure than is left for "
        f"it. Gas comes through at less than {_cm(works)}; at {_cm(0.5 * works)} half of that "
        "pressure is left to drive it."
    )


def _joined(junction: str, count: int, silent: str) -> str:
    law = (
        f"{count} outlets join at {junction}. With a check valve at each and pumps that give less "
        "against more pressure, joining never lowers the flow; near-zero flow means a blocked or "
        "leaking joint or a reversed valve. Test each leg: take it off the tee, hold its end under "
        "water and count bubbles; then shut it with a finger: the pump's note must drop."
    )
    return f"{law} No gas comes by {silent}." if silent else law


def _safety(bottle: str, liquid: float | None, safety: str | None, holds: bool | None) -> str:
    amount = "" if liquid is None else f" {_ml(liquid)}"
    if safety is None:
        return (
            f"No empty safety bottle before {bottle}: put one there that is larger than its liquid"
            f"{', more than' + amount if amount else ''}."
        )
    if holds is None:
        return f"Whether {safety} can hold all the liquid of {bottle} is not known: state both volumes."
    return f"{safety} is smaller than the{amount} in {bottle}: it can't hold all of it."


def _suck_back(
    bottle: str,
    height: float | None,
    volume: float | None,
    leaky: float,
    leaky_volume: float,
    assumed: float | None,
) -> str:
    taken = (
        ""
        if assumed is None
        else f" The line was taken as {quantity(assumed, Kind.TEMPERATURE_DIFFERENCE, 'K', figures=2)}"
        " warmer than the room (common practice, no source)."
    )
    held = ""
    if height is not None and height < leaky and volume is not None:
        held = f" A tight check valve keeps it to {_cm(height)} and {_ml(volume)}."
    return (
        f"When the gas stops and the line cools, {bottle} is drawn {_cm(leaky)} up above its "
        f"surface, {_ml(leaky_volume)} of it.{held}{taken}"
    )


def _over(pressure: float, dial: bool) -> str:
    why = " behind a regulator with a flow dial, as usual" if dial else ""
    return (
        f"With the outlet blocked {_kpa(pressure)} stand in the line{why}: too much for ordinary "
        "glass (above 50 kPa; common practice). Fit a relief, or a bubbler as deep as you allow."
    )


def _rotameter(part: str, reading: float, true: float, model: float) -> str:
    return (
        f"{part} reads {_lmin(reading)} on its scale; of this gas that is {_lmin(true)} at the "
        f"pressure there. The line lets {_lmin(model)} through by its parts."
    )


SENTENCES: dict[str, Callable[..., str]] = {
    "gas-line-no-flow": _no_flow,
    "gas-line-unlimited": lambda: (
        "Nothing in this line limits the flow: state the needle valve (passes, at), the regulator's "
        "flow, or the tubes with their bores."
    ),
    "gas-line-reversed": lambda part: f"{part} is the wrong way round: no gas passes. Turn it.",
    "gas-line-no-check-valve": lambda bottle: (
        f"No check valve before {bottle}: when the gas stops, its liquid can run back to the "
        "supplier. Put one behind the discharge tube, and an empty safety bottle."
    ),
    "gas-line-safety-bottle": _safety,
    "gas-line-suck-back": _suck_back,
    "gas-line-over-pressure": _over,
    "gas-line-blocked": lambda pressure: (
        f"With the outlet blocked {_kpa(pressure)} stand in the line: tie the joints."
    ),
    "gas-line-dead-leg": lambda begin, end: (
        f"Nothing flows from {begin} to {end}: gas stands there; purge it before you open it."
    ),
    "gas-line-room-taken": lambda temperature, pressure: (
        "The room's temperature or pressure is not stated; "
        f"{quantity(temperature, Kind.TEMPERATURE, '°C', figures=3)} and {_kpa(pressure)} were taken."
    ),
    "gas-line-lossless": lambda places: (
        f"Not stated, and so counted as no loss: {places}. The true flow is lower."
    ),
    "gas-line-open-end": lambda parts: f"Gas leaves {parts} into the room; no vent is written.",
    "gas-line-unused-outlet": lambda pump, count: (
        f"{count} {'outlet' if count == 1 else 'outlets'} of {pump} lead nowhere: their gas is not "
        "counted."
    ),
    "gas-line-joined": _joined,
    "gas-line-transition": lambda part, reynolds: (
        f"In {part} the flow is between laminar and turbulent (Re {significant(reynolds, 2)}): its "
        "loss is unsure to about 30 %."
    ),
    "gas-line-rotameter": _rotameter,
    "gas-line-desiccant": lambda part, time: (
        f"{part} is full of water after about {quantity(time, Kind.TIME, 'h', figures=2)} of this "
        "flow; the first moist gas comes earlier."
    ),
    "gas-line-hold-up-from": lambda supplier: (
        f"There is no discharge tube in this rig: the hold-up is counted from {supplier}."
    ),
    "gas-line-meter-float": lambda scale: (
        f"The scale was taken as drawn for {scale} at 20 °C and 101.325 kPa. Small ball floats "
        "follow viscosity too and may be 10 % off."
    ),
    "gas-line-meter-wet": lambda: (
        "Gas over water leaves with its vapour; the normal flow is of dry gas. Levels inside and "
        "outside must stand equal at the end."
    ),
}
