"""The sums, line by line, for a pocket calculator."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from ozonewright.physics.generator.electrical import peak_of_sine
from ozonewright.questions.power.result import LoopRow
from ozonewright.results import Note
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind

if TYPE_CHECKING:
    from ozonewright.questions.power.answer import Asked

Found = Mapping[str, Estimate]


def working_of(asked: Asked, found: Found, row: LoopRow | None, limit: float) -> Iterator[Note]:
    """Yield each sum of the answer."""
    if asked.energy is not None:
        energy, time = asked.energy
        yield Note(
            "power-sum-plug",
            values={"energy": energy.value, "time": time.value, "power": found["plug"].value},
        )
    yield from _discharge(asked, found, row)
    if "supply_efficiency" in found:
        values = {name: found[name].value for name in ("discharge", "plug")}
        yield Note("power-sum-supply", values={**values, "share": found["supply_efficiency"].value})
    for basis in ("plug", "discharge"):
        if f"yield_{basis}" in found:
            yield Note(
                "power-sum-yield",
                values={
                    "basis": basis,
                    "rate": found["rate"].value,
                    "power": found[basis].value,
                    "found": found[f"yield_{basis}"].value,
                    "limit": limit,
                },
            )


def _discharge(asked: Asked, found: Found, row: LoopRow | None) -> Iterator[Note]:
    if row is not None and isinstance(row.energy, Estimate):
        yield Note(
            "power-sum-loop",
            values={
                "energy": row.energy.value,
                "frequency": row.frequency,
                "power": found["discharge"].value,
            },
        )
    if (manley := asked.manley) is None:
        return
    peak = manley.voltage.value
    if manley.voltage.kind is Kind.RMS_VOLTAGE:
        peak = float(peak_of_sine(rms_voltage=peak))
        yield Note("power-sum-peak", values={"rms": manley.voltage.value, "peak": peak})
    yield Note(
        "power-sum-manley",
        values={
            "frequency": manley.frequency.value,
            "dielectric": manley.dielectric.value,
            "gap": manley.gap.value,
            "gap_voltage": manley.gap_voltage.value,
            "peak": peak,
            "power": found["discharge"].value,
        },
    )
