"""The few words and figures that stand beside a part."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from ozonewright.records.rig import Part
from ozonewright.show.numbers import quantity
from ozonewright.units import CELSIUS_ZERO, Kind

FIGURES = 3
NAMES = {"oxygen": "O₂", "nitrogen": "N₂", "argon": "Ar"}


def _size(part: Part, name: str, kind: Kind, unit: str, words: str = "{}") -> Iterator[str]:
    value = part.value(name)
    if value is not None:
        yield words.format(_trimmed(quantity(value, kind, unit, figures=FIGURES)))


def _trimmed(text: str) -> str:
    """Return ``4 mm`` for ``4.00 mm``: a size as it is spoken."""
    number, _, unit = text.partition(" ")
    if "." in number:
        number = number.rstrip("0").rstrip(".")
    return f"{number} {unit}"


def _bore(part: Part, words: str = "⌀ {}") -> Iterator[str]:
    yield from _size(part, "bore", Kind.LENGTH, "mm", words)


def _length(part: Part) -> Iterator[str]:
    value = part.value("length")
    if value is not None:
        unit = "m" if value >= 1.0 else "cm" if value >= 0.3 else "mm"
        yield from _size(part, "length", Kind.LENGTH, unit)


def _pump(part: Part) -> Iterator[str]:
    yield from _size(part, "free_flow", Kind.VOLUME_FLOW, "L/min", "free {}")
    yield from _size(part, "shut_off", Kind.PRESSURE_DIFFERENCE, "kPa", "shuts at {}")
    if part.curve:
        free, shut = part.curve[0], part.curve[-1]
        flow = quantity(free[1].value, Kind.VOLUME_FLOW, "L/min", figures=FIGURES)
        end = quantity(shut[0].value, Kind.PRESSURE_DIFFERENCE, "kPa", figures=FIGURES)
        yield f"curve from {_trimmed(flow)} to {_trimmed(end)}"
    outlets = part.counts.get("outlets", 1)
    if outlets > 1:
        yield f"{outlets} outlets"


def _gas(part: Part) -> Iterator[str]:
    if part.gas is None:
        return
    for name, share in part.gas.parts.items():
        if name == "oxygen":
            text = quantity(share.value, Kind.MOLE_FRACTION, "vol%", figures=FIGURES)
            yield f"{_trimmed(text)} {NAMES[name]}"


def _cylinder(part: Part) -> Iterator[str]:
    yield from _gas(part)
    yield from _size(part, "volume", Kind.VOLUME, "L")
    yield from _size(part, "pressure", Kind.CYLINDER_PRESSURE, "bar")
    yield from _size(part, "regulator", Kind.PRESSURE_DIFFERENCE, "kPa", "set to {}")


def _concentrator(part: Part) -> Iterator[str]:
    yield from _gas(part)
    yield from _size(part, "shut_off", Kind.PRESSURE_DIFFERENCE, "kPa", "shuts at {}")


def _tube(part: Part) -> Iterator[str]:
    yield from _bore(part)
    yield from _length(part)
    if bends := part.counts.get("bends"):
        yield "1 bend" if bends == 1 else f"{bends} bends"


def _check_valve(part: Part) -> Iterator[str]:
    yield from _size(part, "cracking", Kind.PRESSURE_DIFFERENCE, "kPa", "opens at {}")
    if part.words.get("direction") == "reversed":
        yield "reversed"


def _rotameter(part: Part) -> Iterator[str]:
    if gas := part.words.get("calibrated_for"):
        yield f"for {gas}"


def _discharge_tube(part: Part) -> Iterator[str]:
    yield from _length(part)
    yield from _size(part, "gap", Kind.LENGTH, "mm", "gap {}")
    yield from _size(part, "power", Kind.POWER, "W")


def _bottle(part: Part) -> Iterator[str]:
    volume = " ".join(_size(part, "volume", Kind.VOLUME, "mL"))
    if words := f"{volume} {part.words.get('liquid', '')}".strip():
        yield words
    yield from _size(part, "depth", Kind.LENGTH, "cm", "{} deep")
    temperature = part.value("bath") or part.value("temperature")
    if temperature is not None and temperature < CELSIUS_ZERO:
        yield quantity(temperature, Kind.TEMPERATURE, "°C", figures=2)


def _tail_bottle(part: Part) -> Iterator[str]:
    yield from _bottle(part)
    if reagent := part.words.get("reagent"):
        yield reagent


def _sparger(part: Part) -> Iterator[str]:
    form = part.words.get("form", "")
    if form and form != "open tube" and form not in part.name:
        yield form
    yield from _size(part, "pore", Kind.LENGTH, "µm", "pore {}")
    yield from _size(part, "bubble_point", Kind.PRESSURE_DIFFERENCE, "kPa", "opens at {}")


def _content(part: Part) -> Iterator[str]:
    content = part.words.get("content", "")
    if content and content not in part.name:
        yield content


def _vent(part: Part) -> Iterator[str]:
    where = part.words.get("to")
    if where:
        yield {"room": "to the room", "hood": "to the hood", "outdoors": "outdoors"}[where]


FACTS: dict[str, Callable[[Part], Iterator[str]]] = {
    "pump": _pump,
    "cylinder": _cylinder,
    "concentrator": _concentrator,
    "tube": _tube,
    "connector": _bore,
    "check valve": _check_valve,
    "rotameter": _rotameter,
    "flow controller": lambda part: _size(part, "flow", Kind.NORMAL_FLOW, "NL/min"),
    "needle valve": lambda part: iter(()),
    "discharge tube": _discharge_tube,
    "safety bottle": lambda part: _size(part, "volume", Kind.VOLUME, "mL"),
    "bottle": _bottle,
    "tail bottle": _tail_bottle,
    "sparger": _sparger,
    "desiccant column": _content,
    "destruct": _content,
    "leak": lambda part: _bore(part, "hole ⌀ {}"),
    "tee": lambda part: iter(()),
    "vent": _vent,
    "cap": lambda part: iter(()),
}


def facts(part: Part) -> tuple[str, ...]:
    """Return what is said of a part, shortest form."""
    return tuple(FACTS[part.kind](part))
