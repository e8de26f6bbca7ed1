"""Theoretical yields, and the quench with what it leaves behind."""

from __future__ import annotations

from collections.abc import Sequence

from ozonewright.physics.chemistry.work_up import gas_volume, reagent_amount, solution_volume
from ozonewright.questions.reaction.dose import amount_of
from ozonewright.questions.reaction.given import Piece, Structure
from ozonewright.questions.reaction.result import ProductRow, QuenchRow
from ozonewright.records.reaction import Quench, Reaction
from ozonewright.references.constants import NORMAL_PRESSURE
from ozonewright.references.limits import limit
from ozonewright.references.reagents import Reagent, reagent
from ozonewright.units import Kind
from ozonewright.units.table import to_si

COLD_FLASH = to_si(0.0, Kind.TEMPERATURE, "°C")
"""A liquid that catches fire below this is one whose vapour matters in oxygen (no source)."""


def products_of(reaction: Reaction, structures: Sequence[Structure]) -> tuple[ProductRow, ...]:
    """Return each product once, with what all substrates together give in theory."""
    moles: dict[tuple[str, str], float] = {}
    pieces: dict[tuple[str, str], Piece] = {}
    for substrate, structure in zip(reaction.substrates, structures, strict=True):
        amount = amount_of(substrate, structure)
        for piece in structure.products:
            key = (piece.smiles, piece.role)
            moles[key] = moles.get(key, 0.0) + amount * piece.per_mole
            pieces[key] = piece
    return tuple(_row(pieces[key], amount) for key, amount in moles.items())


def _row(piece: Piece, amount: float) -> ProductRow:
    return ProductRow(
        smiles=piece.smiles,
        formula=piece.formula,
        role=piece.role,
        molar_mass=piece.molar_mass,
        amount=amount,
        mass=amount * piece.molar_mass,
    )


def quench_of(quench: Quench, ozone: float) -> QuenchRow:
    """Return how much of a quench an amount of ozone taken up needs, and what it leaves."""
    known = reagent(quench.reagent)
    amount = float(reagent_amount(ozone=ozone, equivalents=quench.equivalents))
    left_behind = min(known.by_per_ozone, quench.equivalents) * ozone
    return QuenchRow(
        reagent=known.name,
        equivalents=quench.equivalents,
        amount=amount,
        mass=amount * known.molar_mass,
        volume=_volume(known, amount),
        by_product=known.by_product,
        by_product_mass=left_behind * known.by_molar_mass,
        hydrogen=_hydrogen(known, amount),
        waiting=known.waiting,
        low_flash=known.flash_point is not None and known.flash_point < COLD_FLASH,
        evidence=known.evidence,
    )


def _volume(known: Reagent, amount: float) -> float | None:
    if known.density is None:
        return None
    return float(
        solution_volume(
            amount=amount,
            molar_mass=known.molar_mass,
            strength=known.strength or 1.0,
            density=known.density,
        )
    )


def _hydrogen(known: Reagent, amount: float) -> float | None:
    """Return the hydrogen if all of the reagent went to it, at room temperature."""
    if known.hydrogen == 0.0:
        return 0.0
    return float(
        gas_volume(
            amount=amount * known.hydrogen,
            temperature=limit("ROOM_BEFORE_COOLING").value,
            pressure=NORMAL_PRESSURE,
        )
    )
