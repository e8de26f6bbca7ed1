"""The room: what people breathe, oxygen that collects."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.physics.hazards.oxygen import oxygen_steady
from ozonewright.questions.gate.asked import PRACTICE
from ozonewright.questions.gate.facts import SUPPLIERS, Facts
from ozonewright.questions.gate.line import amount
from ozonewright.questions.gate.result import Check, Verdict
from ozonewright.references.constants import NORMAL_PRESSURE, X_O2_AIR, R
from ozonewright.references.hazards import hazard
from ozonewright.results import Note
from ozonewright.units import Kind

HALF = 0.5
"""Of the limit, from which the room is to be mended (common practice, no source)."""


def air(facts: Facts) -> Iterator[Check]:
    """Yield the checks of the room and of the feed."""
    unstated = tuple(part.name for part in facts.rig.of_kind(*SUPPLIERS) if not part.gas_stated)
    yield Check(
        code="feed",
        verdict="fix" if unstated else "go",
        text=Note("gate-feed", values={"parts": unstated}),
        mend=Note("gate-feed-mend") if unstated else None,
        source=PRACTICE,
        unknown=tuple(f"{name}: gas" for name in unstated),
    )
    yield _breathed(facts)
    yield _oxygen(facts)


def _breathed(facts: Facts) -> Check:
    breathed = facts.breathed
    if breathed is None or breathed.steady is None or breathed.steady_high is None:
        return Check(
            code="room-ozone",
            verdict="stop",
            text=Note("gate-room-unknown"),
            mend=Note("gate-room-unknown-mend"),
            source="osha_1997, lee_1999",
            unknown=_of_the_room(facts),
        )
    share = breathed.steady_high
    verdict: Verdict = "stop" if share > 1.0 else "fix" if share > HALF else "go"
    return Check(
        code="room-ozone",
        verdict=verdict,
        value=amount(Kind.MOLE_FRACTION, "ppm", share * breathed.limit),
        limit=amount(Kind.MOLE_FRACTION, "ppm", breathed.limit),
        text=Note(
            "gate-room-ozone",
            values={
                "steady": breathed.steady * breathed.limit,
                "high": share * breathed.limit,
                "limit": breathed.limit,
                "lost": breathed.lost,
                "stated": breathed.slip is not None or facts.off_gas_kept,
            },
        ),
        mend=None
        if verdict == "go"
        else Note("gate-room-ozone-mend", values={"kept": facts.off_gas_kept}),
        source="osha_1997, lee_1999",
        unknown=("slip",)
        if breathed.slip is None and not facts.off_gas_kept and verdict != "go"
        else (),
    )


def _of_the_room(facts: Facts) -> tuple[str, ...]:
    if facts.room is None:
        return ("room",)
    missing = tuple(
        f"room.{name}" for name in ("air_changes", "limit") if getattr(facts.room, name) is None
    )
    return (*missing, *(("output",) if facts.output is None else ()))


def _oxygen(facts: Facts) -> Check:
    """All oxygen that the supply gives, let out in the room."""
    limit = hazard("OXYGEN_ENRICHED")
    if not facts.oxygen:
        return Check(
            code="oxygen-in-room",
            verdict="go",
            text=Note("gate-no-oxygen"),
            source=limit.source,
        )
    behind = facts.behind(*facts.rig.of_kind(*SUPPLIERS))
    vents = [part for part in behind if part.kind == "vent"]
    if vents and all(part.words.get("to") == "outdoors" for part in vents):
        return Check(
            code="oxygen-in-room",
            verdict="go",
            text=Note("gate-oxygen-outdoors"),
            source=limit.source,
        )
    room, fresh = facts.room, _fresh_air(facts)
    if room is None or fresh is None or facts.flow_high is None:
        return Check(
            code="oxygen-in-room",
            verdict="stop",
            limit=amount(Kind.MOLE_FRACTION, "vol%", limit.value, 3),
            text=Note("gate-oxygen-unknown"),
            mend=Note("gate-oxygen-mend"),
            source=limit.source,
            unknown=tuple(
                name
                for name, value in (
                    ("room.air_changes", fresh),
                    ("flow", facts.flow_high),
                )
                if value is None
            ),
        )
    warm = room.temperature.value if room.temperature else WARM
    flow = facts.flow_high * R * warm / min(facts.pressure, NORMAL_PRESSURE)
    found = float(
        oxygen_steady(flow=flow, oxygen=1.0, fresh_air=fresh, air_oxygen=X_O2_AIR)
        if fresh > 0.0
        else 1.0
    )
    verdict: Verdict = "stop" if found > limit.value else "go"
    return Check(
        code="oxygen-in-room",
        verdict=verdict,
        value=amount(Kind.MOLE_FRACTION, "vol%", found, 3),
        limit=amount(Kind.MOLE_FRACTION, "vol%", limit.value, 3),
        text=Note("gate-oxygen", values={"found": found, "limit": limit.value}),
        mend=None if verdict == "go" else Note("gate-oxygen-mend"),
        source=limit.source,
    )


WARM = 308.15
"""Of a room whose temperature nobody stated: the gas then takes the most space. [K]"""


def _fresh_air(facts: Facts) -> float | None:
    """Return fresh air without a fan: a fan may fail. [m3/s]"""
    room = facts.room
    if room is None or room.air_changes is None:
        return None
    low = max(room.air_changes.value - 2.0 * room.air_changes.u, 0.0)
    return low * room.volume.value
