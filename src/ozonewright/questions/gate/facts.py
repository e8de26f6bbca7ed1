"""What the gate knows: rig, room, reaction, and what other questions answered of them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ozonewright.records.reaction import Reaction
from ozonewright.records.rig import Part, Rig
from ozonewright.records.room import Room

SUPPLIERS = ("pump", "cylinder", "concentrator")
ENRICHED = 0.235
"""Oxygen above which a feed counts as oxygen (osha_1993)."""


@dataclass(frozen=True, slots=True)
class Breathed:
    """What people would breathe, from the room question; shares are of the limit."""

    hose_off: float | None
    """Until the limit is passed with the hose off, in one room of forty sooner. [s]"""
    steady: float | None
    """In the end with what slips past the flask or leaks. [1]"""
    steady_high: float | None
    """The same in one room of forty, or more. [1]"""
    lost: float
    """Share of the output that was taken to get into the room."""
    slip: float | None
    """Share that slips past the flask, at the most; None where nobody said."""
    limit: float
    """[1, mole fraction]"""


@dataclass(frozen=True, slots=True)
class Facts:
    """All that is known; None where nobody said."""

    rig: Rig
    room: Room | None = None
    reaction: Reaction | None = None
    output: float | None = None
    """Ozone, at most. [mol/s]"""
    flow_low: float | None = None
    flow_high: float | None = None
    """Dry gas, at the least and at the most. [mol/s]"""
    breathed: Breathed | None = None
    ozone_wanted: float | None = None
    """Ozone that the reaction is to take up. [mol]"""
    on_time: float | None = None
    """Longest the discharge may be on. [s]"""
    residue_locked: bool | None = None
    """Of an earlier flask that the notebook knows."""

    @property
    def oxygen(self) -> bool:
        """Whether the feed is oxygen, or may be."""
        suppliers = self.rig.of_kind(*SUPPLIERS)
        parts = [one.gas.parts.get("oxygen") for one in suppliers if one.gas and one.gas_stated]
        if not suppliers or len(parts) < len(suppliers):
            return True
        return any(part is None or part.value > ENRICHED for part in parts)

    @property
    def pressure(self) -> float:
        """Pressure of the room; unknown, that of a bench three kilometres up, where more boils."""
        found = self.rig.ambient.pressure or (self.room.pressure if self.room else None)
        return found.value if found is not None else HIGH_BENCH

    @property
    def flasks(self) -> tuple[Part, ...]:
        """Bottles that hold what the ozone is for."""
        every = self.rig.of_kind("bottle")
        named = tuple(one for one in every if one.words.get("role") in ("flask", "primary"))
        return named or tuple(one for one in every if one.words.get("role") != "drying")

    @property
    def tail_behind(self) -> bool:
        """Whether a tail bottle follows the flask."""
        return any(part.kind == "tail bottle" for part in self.behind(*self.flasks))

    @property
    def end_behind(self) -> bool:
        """Whether what is left is destroyed, or led outdoors or into a hood."""
        behind = self.behind(*self.flasks)
        vents = [part for part in behind if part.kind == "vent"]
        led = bool(vents) and all(part.words.get("to") in ("outdoors", "hood") for part in vents)
        return led or any(part.kind == "destruct" for part in behind)

    @property
    def off_gas_kept(self) -> bool:
        """Whether what leaves the flask is taken care of."""
        return bool(self.flasks) and self.tail_behind and self.end_behind

    def behind(self, *parts: Part) -> tuple[Part, ...]:
        """Return what the gas passes after all of these parts."""
        return tuple(self._reached(parts, forwards=True))

    def before(self, *parts: Part) -> tuple[Part, ...]:
        """Return what the gas passed before any of these parts."""
        return tuple(self._reached(parts, forwards=False))

    def _reached(self, parts: tuple[Part, ...], *, forwards: bool) -> Iterator[Part]:
        names = {part.name for part in parts}
        seen: set[str] = set()
        growing = True
        while growing:
            growing = False
            for part in self.rig.parts:
                if part.name in seen:
                    continue
                if forwards and names & set(part.after):
                    seen.add(part.name)
                    names.add(part.name)
                    growing = True
                if not forwards and any(
                    part.name in other.after for other in self.rig.parts if other.name in names
                ):
                    seen.add(part.name)
                    names.add(part.name)
                    growing = True
        yield from (part for part in self.rig.parts if part.name in seen)


HIGH_BENCH = 70_000.0
"""Pressure of the air three kilometres up. [Pa] (common practice, no source)"""
