"""Other ways: a concentrator instead of the cylinder, a second tube for the same gas."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ozonewright.questions.gas_use.result import AlternativeRow
from ozonewright.questions.gas_use.supply import Supply
from ozonewright.references.constants import M_O3
from ozonewright.results import Note


@dataclass(frozen=True, slots=True)
class Way:
    """What runs, what it costs to run, and what it yields."""

    name: str
    price: float
    running: float | None
    """Cost while the discharge is on. [1/s]"""
    output: float | None
    """Ozone. [mol/s]"""


def alternatives(
    supply: Supply, running: float | None
) -> tuple[tuple[AlternativeRow, ...], tuple[Note, ...], tuple[str, ...]]:
    """Return a line for each way that has a price, with notes and unknowns.

    `running` is the cost of the cylinder while the discharge is on, rests and rent included. [1/s]
    """
    now = supply.output.value if supply.output else None
    rows, notes, unknowns = [], [], []
    for way in _ways(supply, running):
        row = _row(way, running, now)
        rows.append(row)
        stem = way.name.replace(" ", "_")
        if way.output is None:
            unknowns.append(f"{stem}_output")
        if running is not None and way.running is None:
            unknowns.append(f"{stem}_power or energy_price")
        elif running is not None and row.break_even is None:
            notes.append(Note("gas-use-never", values={"name": way.name}))
        elif way.name == "concentrator" and way.output is None:
            notes.append(Note("gas-use-concentrator-output"))
    return tuple(rows), tuple(notes), tuple(unknowns)


def _ways(supply: Supply, running: float | None) -> Iterator[Way]:
    money = supply.money
    if money.concentrator is not None:
        power, energy = supply.concentrator_power, money.energy
        cost = power * energy if power is not None and energy is not None else None
        if cost is not None and supply.rest and supply.rest.gas != "stops":
            cost /= supply.rest.duty
        yield Way("concentrator", money.concentrator, cost, supply.concentrator_output)
    if money.second_tube is not None:
        extra = 0.0
        if supply.second_tube_power is not None and money.energy is not None:
            extra = supply.second_tube_power * money.energy
        cost = running + extra if running is not None else None
        yield Way("second tube", money.second_tube, cost, supply.second_tube_output)


def _row(way: Way, running: float | None, now: float | None) -> AlternativeRow:
    per_mol = way.running / way.output if way.running is not None and way.output else None
    hours, amount = _break_even(way, running, now)
    return AlternativeRow(
        name=way.name,
        price=way.price,
        per_hour=way.running,
        per_gram=per_mol / M_O3 if per_mol is not None else None,
        per_mmol=per_mol,
        break_even=hours,
        break_even_mass=amount * M_O3 if amount is not None else None,
    )


def _break_even(
    way: Way, running: float | None, now: float | None
) -> tuple[float | None, float | None]:
    """Return time with the discharge on [s] and ozone [mol] after which the price is earned.

    By the gram where both outputs are known; else by the hour, as if the output stayed.
    """
    if running is None or way.running is None:
        return None, None
    if way.output and now:
        saved = running / now - way.running / way.output
        return (way.price / saved / way.output, way.price / saved) if saved > 0.0 else (None, None)
    saved = running - way.running
    return (way.price / saved, None) if saved > 0.0 else (None, None)
