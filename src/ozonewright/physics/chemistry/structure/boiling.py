"""The boiling point of a molecule from its groups."""

from __future__ import annotations

from functools import cache

from rdkit import Chem

from ozonewright.references.boiling_groups import boiling_groups

BASE = 198.2
"""What a molecule of no groups would have. [K]"""


@cache
def _pattern(smarts: str) -> Chem.Mol:
    return Chem.MolFromSmarts(smarts)


def boiling_point_joback_1987(*, structure: Chem.Mol) -> float | None:
    """Boiling point of a molecule, summed over its groups.

    Parameters
    ----------
    structure : Mol
        The molecule. [-]

    Returns
    -------
    boiling_point : float
        None where it holds a group that the table has not. [K]

    Raises
    ------
    None

    Valid
    -----
    Below 500 K within 28 K (one standard deviation over 2300 substances of the library chemicals);
    above it reads too high, by 60 K at 600 K.

    Source
    ------
    joback_1987, from memory

    Notes
    -----
    T_b = 198.2 K + sum of the groups; each atom belongs to one group, large groups first.

    Example
    -------
    1-hexene: 334 K; measured 337 K.
    """
    todo = set(range(structure.GetNumAtoms()))
    found = BASE
    for group in boiling_groups():
        for atoms in structure.GetSubstructMatches(_pattern(group.pattern)):
            if todo.issuperset(atoms):
                todo.difference_update(atoms)
                found += group.share
    return None if todo else found


def donates_hydrogen(*, structure: Chem.Mol) -> bool:
    """Whether hydrogen bonds hold the liquid together: hydrogen on oxygen or nitrogen.

    Parameters
    ----------
    structure : Mol
        The molecule. [-]

    Returns
    -------
    donates : bool
        Whether it bears such a hydrogen. [-]

    Raises
    ------
    None

    Valid
    -----
    Any molecule.

    Source
    ------
    geometry
    """
    return bool(structure.HasSubstructMatch(_pattern("[O,N;!H0]")))
