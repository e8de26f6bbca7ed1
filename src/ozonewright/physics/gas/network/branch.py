"""A branch: parts in series, from a supplier, a junction or the open to a junction or the open."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ozonewright.physics.gas.parts.law import Gas, Law
from ozonewright.physics.gas.parts.supply import Supply


@dataclass(frozen=True, slots=True)
class Branch:
    """Parts in series. An end is the number of a junction, or an absolute pressure."""

    laws: tuple[Law, ...]
    gases: tuple[Gas, ...]
    """The gas in each part."""
    tail: int | float
    head: int | float | Supply
    head_gas: Gas
    """The gas at its beginning."""
    shut: bool = False
    """Whether nothing passes, such as a valve the wrong way round or a cap."""

    @property
    def least(self) -> float:
        """The least flow: none, where a part lets gas pass one way only."""
        supplied = not isinstance(self.head, int | float)
        one_way = supplied or self.shut or any(law.one_way for law in self.laws)
        return 0.0 if one_way else -float("inf")

    @property
    def most(self) -> float:
        """The most flow that its parts and its supplier let pass."""
        if self.shut:
            return 0.0
        limits = [law.most for law in self.laws]
        if not isinstance(self.head, int | float):
            limits.append(self.head.most)
        return min(limits, default=float("inf"))

    def head_needed(self, flow: float, tail: float) -> float:
        """Return the pressure at its head that drives a flow against the pressure at its tail."""
        pressure = tail
        for law, gas in zip(reversed(self.laws), reversed(self.gases), strict=True):
            pressure = law.inlet(flow, pressure, gas)
        return pressure

    def tail_needed(self, flow: float, head: float) -> float:
        """Return the pressure at its tail that drives a flow backwards out of its head."""
        pressure = head
        for law, gas in zip(self.laws, self.gases, strict=True):
            pressure = law.inlet(flow, pressure, gas)
        return pressure


@dataclass(frozen=True, slots=True)
class Network:
    """Branches and the number of junctions between them."""

    branches: Sequence[Branch]
    junctions: int
    guess: float
    """Flow of about the right size. [mol/s]"""
    ambient: float
