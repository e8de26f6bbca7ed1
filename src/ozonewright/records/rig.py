"""A rig: the parts of its gas line, which follows which, and the room's air."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from ozonewright.records.run import Feed
from ozonewright.uncertain import Measured


@dataclass(frozen=True, slots=True)
class Ambient:
    """Air around the rig."""

    temperature: Measured | None = None
    pressure: Measured | None = None
    humidity: Measured | None = None
    """Relative humidity."""
    dew_point: Measured | None = None


@dataclass(frozen=True, slots=True)
class Part:
    """One part; its quantities and words stand under the names of the document's fields."""

    name: str
    kind: str
    place: str
    """Where in the document it stands, for messages."""
    after: tuple[str, ...] = ()
    material: tuple[str, ...] = ()
    quantities: Mapping[str, Measured] = field(default_factory=dict)
    words: Mapping[str, str] = field(default_factory=dict)
    counts: Mapping[str, int] = field(default_factory=dict)
    curve: tuple[tuple[Measured, Measured], ...] = ()
    """Of a pump: gauge pressure and flow at the room's conditions, pressure rising."""
    gas: Feed | None = None
    """Of a supplier; room air where it is not stated."""
    gas_stated: bool = False
    gauge: Mapping[str, bool] = field(default_factory=dict)
    """Of each cylinder pressure: whether it was stated as gauge."""
    wet: bool | None = None
    """Of a destruct bed: whether wet gas reaches it."""

    def value(self, name: str) -> float | None:
        """Return a quantity in SI, or None where it was not stated."""
        found = self.quantities.get(name)
        return None if found is None else found.value


@dataclass(frozen=True, slots=True)
class Rig:
    """A gas line."""

    label: str | None = None
    by: str | None = None
    remark: str | None = None
    ambient: Ambient = Ambient()
    parts: tuple[Part, ...] = ()
    checklist: Mapping[str, bool] = field(default_factory=dict)
    """What was answered of the gate's questions; yes is the safe answer."""

    def of_kind(self, *kinds: str) -> tuple[Part, ...]:
        """Return the parts of these kinds, in the order written."""
        return tuple(part for part in self.parts if part.kind in kinds)
