"""Cases about structures and about sites that compete for ozone."""

from __future__ import annotations

from ozonewright.physics.chemistry.competition import share_taken
from ozonewright.physics.chemistry.heat import energy_per_mass
from ozonewright.physics.chemistry.structure.peroxides import ozonide
from ozonewright.physics.chemistry.structure.reading import molar_mass, molecule
from ozonewright.physics.chemistry.structure.sites import sites
from ozonewright.questions.agreement.reading import Binding, Found, Inputs, si
from ozonewright.units import Kind


def _competition(inputs: Inputs) -> dict[str, Found]:
    fast, slow = (si(inputs, name, Kind.RATE_CONSTANT) for name in ("fast", "slow"))
    taken = share_taken(converted=si(inputs, "converted", Kind.SHARE), ratio=slow / fast)
    return {"taken": Found(float(taken), Kind.SHARE)}


def _molar_mass(inputs: Inputs) -> dict[str, Found]:
    structure = molecule(smiles=inputs["smiles"])
    return {"molar_mass": Found(molar_mass(structure=structure), Kind.MOLAR_MASS)}


def _ozonide(inputs: Inputs) -> dict[str, Found]:
    structure = molecule(smiles=inputs["smiles"])
    made = ozonide(structure=structure, attacked=sites(structure=structure))
    return {"molar_mass": Found(molar_mass(structure=made), Kind.MOLAR_MASS)}


def _energy(inputs: Inputs) -> dict[str, Found]:
    """An ozonide's energy of decomposition by its mass, from its molar energy and its structure."""
    structure = molecule(smiles=inputs["smiles"])
    made = ozonide(structure=structure, attacked=sites(structure=structure))
    found = energy_per_mass(
        molar_energy=si(inputs, "molar_energy", Kind.MOLAR_ENERGY),
        molar_mass=molar_mass(structure=made),
    )
    return {"energy": Found(float(found), Kind.SPECIFIC_ENERGY)}


BINDINGS: dict[str, Binding] = {
    "structure.competition": _competition,
    "structure.molar_mass": _molar_mass,
    "structure.ozonide_molar_mass": _ozonide,
    "structure.ozonide_energy": _energy,
}
