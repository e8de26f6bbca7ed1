"""What happens when the gas stops or is stopped: suck-back, blocked outlets, dead legs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from ozonewright.physics.gas.parts.suck_back import column_drawn_up
from ozonewright.physics.gas.parts.threshold import GRAVITY
from ozonewright.physics.gas.parts.volume import bore_volume
from ozonewright.questions.gas_line.laws import density_of, temperature_of
from ozonewright.questions.gas_line.model import Solved
from ozonewright.questions.gas_line.result import SuckBack
from ozonewright.questions.gas_line.room import Room
from ozonewright.questions.gas_line.shape import BOTTLES, SUPPLIERS
from ozonewright.questions.gas_line.volumes import volume_of
from ozonewright.records.rig import Part, Rig
from ozonewright.results import Note
from ozonewright.units import Kind, size

WARM = 10.0 * size(Kind.TEMPERATURE_DIFFERENCE, "K")
"""How much warmer than the room the gas in a running line is taken where nothing says so (common
practice, no source)."""
GLASS_HIGH = 50.0 * size(Kind.PRESSURE_DIFFERENCE, "kPa")
"""Above this gauge pressure ordinary glass and its joints are at risk (common practice)."""
BARRIERS = ("check valve", *SUPPLIERS, *BOTTLES)
"""Behind these, gas is shut in when the flow stops."""


@dataclass(frozen=True, slots=True)
class Upstream:
    """What stands before a bottle."""

    shut_in: tuple[Part, ...]
    """Back to the next part that gas can't go back through."""
    all: tuple[Part, ...]
    """Back to the suppliers."""


def upstream(rig: Rig, bottle: Part) -> Upstream:
    """Return the parts before a bottle."""
    return Upstream(tuple(_back(rig, bottle, BARRIERS)), tuple(_back(rig, bottle, SUPPLIERS)))


def _back(rig: Rig, part: Part, barriers: tuple[str, ...]) -> Iterator[Part]:
    waiting, seen = list(part.after), set()
    while waiting:
        name = waiting.pop(0)
        if name in seen:
            continue
        seen.add(name)
        before = next(one for one in rig.parts if one.name == name)
        yield before
        if before.kind not in barriers:
            waiting += before.after


def bottles_of(rig: Rig) -> list[Part]:
    """Return the bottles with liquid, in the order written."""
    return [part for part in rig.parts if part.kind in BOTTLES]


def suck_back(rig: Rig, room: Room, bottle: Part) -> SuckBack:
    """Return what a bottle draws up when the gas stops and all before it cools."""
    before = upstream(rig, bottle)
    safety = [part for part in before.all if part.kind == "safety bottle"]
    name, holds = _holds(safety, bottle)
    tight = _drawn_up(before.shut_in, before.all, room, bottle)
    leaky = _drawn_up(before.all, before.all, room, bottle)
    return SuckBack(
        bottle=bottle.name,
        height=tight.height,
        volume=tight.volume,
        gas=tight.gas,
        height_leaky=leaky.height,
        volume_leaky=leaky.volume,
        safety_bottle=name,
        safety_bottle_holds=holds,
    )


class _Drawn(NamedTuple):
    height: float | None = None
    volume: float | None = None
    gas: float | None = None


def _drawn_up(parts: Sequence[Part], line: Sequence[Part], room: Room, bottle: Part) -> _Drawn:
    shut_in = [part for part in parts if part.kind not in ("check valve", *SUPPLIERS)]
    volumes = [volume_of(part) for part in shut_in]
    known = [volume for volume in volumes if volume is not None]
    bore, density, depth = _bore(line), density_of(bottle, room), bottle.value("depth")
    if len(known) < len(volumes) or bore is None or density is None or depth is None:
        return _Drawn()
    gas = sum(known)
    area = float(bore_volume(bore=bore, length=1.0))
    warm = any(_running(part) is not None for part in shut_in)
    left = sum(
        volume * _cold(part, room) / _hot(part, room, warm)
        for part, volume in zip(shut_in, known, strict=True)
    )
    column = column_drawn_up(
        volume=gas,
        shrink=max(1.0 - left / gas, 0.0) if gas else 0.0,
        area=area,
        depth=depth,
        weight=density * GRAVITY,
        pressure=room.pressure,
    )
    drawn, liquid = float(column) * area, bottle.value("volume")
    return _Drawn(
        height=max(float(column) - depth, 0.0),
        volume=drawn if liquid is None else min(drawn, liquid),
        gas=gas,
    )


def _holds(safety: list[Part], bottle: Part) -> tuple[str | None, bool | None]:
    """Return the largest safety bottle before a bottle, and whether it holds all its liquid."""
    if not safety:
        return None, False
    sized = [part for part in safety if part.value("volume") is not None]
    liquid = bottle.value("volume")
    if not sized or liquid is None:
        return safety[0].name, None
    largest = max(sized, key=lambda part: part.value("volume") or 0.0)
    return largest.name, (largest.value("volume") or 0.0) >= liquid


def _bore(line: Sequence[Part]) -> float | None:
    """Return the bore next to the liquid."""
    return next(
        (bore for part in line if (bore := part.value("bore")) is not None and
         part.kind in ("sparger", "tube", "connector")),
        None,
    )  # fmt: skip


def _running(part: Part) -> float | None:
    return part.value("wall_temperature") or part.value("temperature")


def _hot(part: Part, room: Room, warm: bool) -> float:
    if part.kind in BOTTLES:
        return room.temperature
    stated = _running(part)
    if stated is not None:
        return stated
    return room.temperature if warm else room.temperature + WARM


def _cold(part: Part, room: Room) -> float:
    if part.kind in BOTTLES:
        bath = part.value("bath")
        return min(temperature_of(part, room), room.temperature) if bath is None else bath
    return room.temperature


def blocked_pressure(found: Solved) -> float:
    """Return the highest pressure that stands in the line when its outlet is blocked."""
    return max(supply.shut_off for supply in found.supplies.values())


def direction_notes(found: Solved) -> Iterator[Note]:
    """Yield what could send liquid or pressure the wrong way."""
    rig, room = found.rig, found.room
    for part in rig.of_kind("check valve"):
        if part.words.get("direction") == "reversed":
            yield Note("gas-line-reversed", "wrong", {"part": part.name})
    bottles = bottles_of(rig)
    if bottles and not any(
        part.kind == "check valve" and part.words.get("direction") != "reversed"
        for part in upstream(rig, bottles[0]).all
    ):
        yield Note("gas-line-no-check-valve", values={"bottle": bottles[0].name})
    yield from _drawn(found, bottles)
    yield from _pressed(found, room)
    yield from _still(found)


def _drawn(found: Solved, bottles: list[Part]) -> Iterator[Note]:
    for place, bottle in enumerate(bottles):
        back = suck_back(found.rig, found.room, bottle)
        if place == 0 and not back.safety_bottle_holds:
            yield Note(
                "gas-line-safety-bottle",
                values={
                    "bottle": bottle.name,
                    "liquid": bottle.value("volume"),
                    "safety": back.safety_bottle,
                    "holds": back.safety_bottle_holds,
                },
            )
        if back.height_leaky is not None and back.height_leaky > 0.0:
            warm = any(_running(part) is not None for part in upstream(found.rig, bottle).all)
            yield Note(
                "gas-line-suck-back",
                "advice",
                {
                    "bottle": bottle.name,
                    "height": back.height,
                    "volume": back.volume,
                    "leaky": back.height_leaky,
                    "leaky_volume": back.volume_leaky,
                    "assumed": None if warm or place > 0 else WARM,
                },
            )


def _pressed(found: Solved, room: Room) -> Iterator[Note]:
    gauge = blocked_pressure(found) - room.pressure
    dial = any("flow" in part.quantities for part in found.rig.of_kind("cylinder"))
    if gauge > GLASS_HIGH:
        yield Note("gas-line-over-pressure", values={"pressure": gauge, "dial": dial})
    else:
        yield Note("gas-line-blocked", "advice", {"pressure": gauge})


def _still(found: Solved) -> Iterator[Note]:
    for leg, flow in zip(found.shape.legs, found.flows, strict=True):
        last = leg.last
        if flow == 0.0 and found.delivered > 0.0 and last is not None:
            begin = leg.supplier.name if leg.supplier else leg.head or ""
            yield Note("gas-line-dead-leg", "advice", {"begin": begin, "end": last.name})
