"""How readily substrate and product leave with the gas: typed, or worked out from the structure."""

from __future__ import annotations

from ozonewright.physics.chemistry.structure.boiling import (
    boiling_point_joback_1987,
    donates_hydrogen,
)
from ozonewright.physics.chemistry.structure.reading import molecule
from ozonewright.questions.reaction.structure import Cut, products, read_substrate
from ozonewright.records.flask import Volatile
from ozonewright.records.reaction import Substrate
from ozonewright.references.ozone_solubility import absorption
from ozonewright.uncertain import Measured
from ozonewright.units import Kind


def volatile_substrate(substrate: Substrate, place: int) -> Volatile | None:
    """Return how readily a substrate leaves; None where nothing tells it."""
    return _volatile(
        substrate.smiles, substrate.boiling_point, f"boiling point of substrate {place}",
        substrate.vapour_pressure,
    )  # fmt: skip


def volatile_product(substrate: Substrate, place: int, cut: Cut) -> Volatile | None:
    """Return how readily the product leaves: the heaviest carbonyl, as if it stood free already.

    Ozonide or hydroperoxide are heavier, so this is the most that can go.
    """
    made = products(read_substrate(substrate.smiles), "reductive", cut) or ()
    main = next((one for one in made if one.role == "product"), None)
    if main is None:
        return None
    name = f"boiling point of the product of substrate {place}"
    return _volatile(main.smiles, substrate.product_boiling_point, name)


def _volatile(
    smiles: str, boiling: Measured | None, name: str, vapour: Measured | None = None
) -> Volatile | None:
    structure = molecule(smiles=smiles)
    donates = donates_hydrogen(structure=structure)
    if vapour is not None or boiling is not None:
        return Volatile(boiling, vapour, donates)
    sum_of_groups = boiling_point_joback_1987(structure=structure)
    if sum_of_groups is None:
        return None
    bend, u = absorption("BOILING_BEND").value, absorption("BOILING_U").value
    # the sum reads too high above the bend, about twice as much as it should rise
    over = 0.5 * max(sum_of_groups - bend, 0.0)
    told = Measured(
        min(sum_of_groups, bend) + over, u + over, name, Kind.TEMPERATURE, basis="structure"
    )
    return Volatile(told, None, donates, estimated=True)
