"""What is told beside the figures of a room."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.room.air import Air
from ozonewright.questions.room.result import RoomAnswer
from ozonewright.records.room import Room
from ozonewright.references.hazards import hazard
from ozonewright.results import Note


def notes(answer: RoomAnswer, room: Room) -> Iterator[Note]:
    """Yield the notes, the gravest first."""
    highest = answer.peak or 0.0
    if answer.steady_fraction is not None:
        highest = max(highest, answer.steady_fraction.value)
    grave = hazard("OZONE_IDLH").value
    if highest >= grave or answer.steady_fraction is None:
        yield Note("room-grave", "wrong", {"grave": grave})
    yield from _about_limit(answer, room)
    if room.air_changes is None:
        yield Note("room-air-changes-unknown")
    if room.removal is None:
        found = hazard("ROOM_REMOVAL")
        yield Note("room-removal-published", values={"value": found.value, "u": found.u})
    if room.temperature is None:
        assumed = hazard("REFERENCE_TEMPERATURE_AIR").value
        yield Note("room-temperature-assumed", "advice", {"temperature": assumed})
    yield Note("room-mixed")
    yield Note(
        "room-odour",
        values={"low": hazard("ODOUR_LOW").value, "high": hazard("ODOUR_HIGH").value},
    )


def _about_limit(answer: RoomAnswer, room: Room) -> Iterator[Note]:
    limit = room.limit
    if limit is None:
        yield Note("room-limit-unknown", "wrong")
        return
    if limit.own:
        yield Note("room-limit-own", "advice", {"limit": limit.name})
    else:
        assert limit.datum is not None
        yield Note(
            "room-limit-table",
            "advice",
            {
                "name": limit.name,
                "value": limit.value,
                "basis": limit.basis,
                "dated": limit.dated,
                "evidence": limit.datum.evidence,
                "note": limit.datum.note,
            },
        )
    if answer.mean is not None and limit.average is not None:
        yield Note("room-mean", values={"mean": answer.mean, "time": limit.average})


def working(answer: RoomAnswer, room: Room, air: Air) -> Iterator[Note]:
    """Yield the sum, line by line."""
    yield Note(
        "room-sum-loss",
        values={"fresh": float(air.fresh), "removal": float(air.removal), "loss": answer.loss},
    )
    if answer.steady is not None and answer.release is not None:
        assert answer.steady_fraction is not None
        yield Note(
            "room-sum-steady",
            values={
                "release": answer.release,
                "volume": answer.volume,
                "loss": answer.loss,
                "steady": answer.steady.value,
                "fraction": answer.steady_fraction.value,
            },
        )
    if answer.peak is not None:
        values = {"mass": answer.puff, "volume": answer.volume, "peak": answer.peak}
        yield Note("room-sum-puff", values=values)
    if answer.minutes_to_limit is not None and answer.release and answer.loss:
        yield Note("room-sum-time", values={"minutes": answer.minutes_to_limit})


def next_steps(answer: RoomAnswer, room: Room) -> Iterator[Note]:
    """Yield what to do, most useful first."""
    if room.limit is None:
        yield Note("room-next-limit", "advice")
    elif answer.minutes_to_limit is not None:
        yield Note("room-next-catch", "wrong")
        needed = answer.air_changes_needed
        if needed is not None and needed.value > 0.0:
            yield Note(
                "room-next-air",
                "advice",
                {"needed": needed.value, "high": needed.interval[1], "fan": answer.fan_needed},
            )
    elif answer.rooms_over:
        yield Note("room-next-detector", "advice", {"share": answer.rooms_over})
    if room.air_changes is None or room.removal is None:
        yield Note("room-next-measure", "advice")
