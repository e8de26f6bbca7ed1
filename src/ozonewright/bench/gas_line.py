"""What flows through a rig."""

from __future__ import annotations

from collections.abc import Mapping

from ozonewright.bench.load import Source
from ozonewright.bench.rig import load_rig
from ozonewright.documents.convert import feed_record
from ozonewright.documents.run import FEEDS
from ozonewright.documents.typed import Typed, typed
from ozonewright.errors import AppError, Faults, InputError, MissingValue, nearest
from ozonewright.questions.gas_line import GasLine, gas_line
from ozonewright.questions.gas_line.meter import Conditions, Meter, displaced, float_reading
from ozonewright.references.gases import MOLAR_MASS
from ozonewright.units import Kind

METER: dict[str, Kind] = {
    "reading": Kind.VOLUME_FLOW,
    "displaced": Kind.VOLUME,
    "time": Kind.TIME,
    "temperature": Kind.TEMPERATURE,
    "pressure": Kind.PRESSURE,
}
"""What may be typed of a meter, and what kind of quantity it is."""
EXAMPLES = {
    "reading": "0.75 L/min",
    "displaced": "500 mL",
    "time": "38 s",
    "temperature": "21 °C",
    "pressure": "101.3 kPa",
    "scale": "air",
    "gas": "oxygen",
}


def answer(source: Source) -> GasLine:
    """Return the flow through the rig of a file or a table."""
    return gas_line(load_rig(source))


def meter(texts: Mapping[str, str | None]) -> Meter:
    """Return what a meter says, from quantities typed as text; all faults at once."""
    needed = ("displaced", "time") if texts.get("displaced") else ("reading", "scale", "gas")
    faults: list[AppError] = [
        MissingValue("this is needed", where=name, fix=f'Write it as "{EXAMPLES[name]}".')
        for name in (*needed, "temperature", "pressure")
        if not texts.get(name)
    ]
    read: dict[str, Typed] = {}
    for name, kind in METER.items():
        if text := texts.get(name):
            try:
                read[name] = typed(text, (kind,), above=0.0)
            except AppError as error:
                faults.append(error.at(name))
    faults += _unknown(texts.get("scale"), MOLAR_MASS, "scale")
    faults += _unknown(texts.get("gas"), FEEDS, "gas")
    if faults:
        raise Faults(faults)
    conditions = Conditions(
        read["temperature"].measured("temperature"), read["pressure"].measured("pressure")
    )
    if texts.get("displaced"):
        return displaced(
            read["displaced"].measured("volume"), read["time"].measured("time"), conditions
        )
    gas = feed_record(str(texts["gas"]), None)
    return float_reading(read["reading"].measured("reading"), str(texts["scale"]), gas, conditions)


def _unknown(
    name: str | None, known: Mapping[str, float] | tuple[str, ...], where: str
) -> list[AppError]:
    if name is None or name in known:
        return []
    return [
        InputError("this gas is not known here", where=where, got=name, fix=nearest(name, known))
    ]
