"""Questions about the air of a room: ozone, oxygen."""

from __future__ import annotations

from ozonewright.bench.load import Source, table_of
from ozonewright.bench.room import OF_OXYGEN, WAYS, ask
from ozonewright.python.answers import Answer, known
from ozonewright.questions.room.oxygen import OxygenAnswer
from ozonewright.questions.room.result import RoomAnswer
from ozonewright.show.room import asked_text
from ozonewright.show.sheet.room import oxygen_section, room_section

OF_OZONE = tuple(name for name in WAYS if name not in OF_OXYGEN)


def room(room: Source, seed: int = 0, **ways: str) -> Answer[RoomAnswer]:
    """Return what people breathe when ozone gets into a room.

    ``release="100 mg/h"``, or ``output`` with ``slip``, ``leak`` and ``destroyed``, or ``purge``;
    or ``concentration`` with ``leak_flow`` and ``gas_space``.
    """
    known(ways, OF_OZONE)
    found = ask(table_of(room), ways, seed=seed).ozone
    assert found is not None  # without a way out it is refused
    return Answer(found, lambda one: asked_text(one, None), room_section)


def room_oxygen(
    room: Source,
    *,
    oxygen: str,
    oxygen_share: str | None = None,
    lasts: str | None = None,
    seed: int = 0,
) -> Answer[OxygenAnswer]:
    """Return how much oxygen collects in a room, or in a box described as one."""
    ways = {"oxygen": oxygen, "oxygen_share": oxygen_share, "lasts": lasts}
    found = ask(table_of(room), ways, seed=seed).oxygen
    assert found is not None  # it was asked for
    return Answer(found, lambda one: asked_text(None, one), oxygen_section)
