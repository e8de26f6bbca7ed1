"""What stands in the flask before the work-up: ozonides, or hydroperoxides in an alcohol."""

from __future__ import annotations

from collections.abc import Sequence

from rdkit import Chem

from ozonewright.physics.chemistry.structure.sites import Site

SINGLE, DOUBLE = Chem.BondType.SINGLE, Chem.BondType.DOUBLE


def ozonide(*, structure: Chem.Mol, attacked: Sequence[Site]) -> Chem.Mol:
    """Secondary ozonide (1,2,4-trioxolane) at each double bond attacked.

    Parameters
    ----------
    structure : Mol
        Substrate. [-]
    attacked : sequence of Site
        Its double bonds that the ozone takes; other sites are left as they are. [-]

    Returns
    -------
    ozonide : Mol
        Substrate and three oxygens for each. [-]

    Raises
    ------
    None

    Valid
    -----
    Solvents that do not trap the carbonyl oxide. Between two ketones (tetrasubstituted) dimeric
    peroxides form instead.

    Source
    ------
    ozonolysis_textbooks
    """
    changed = Chem.RWMol(structure)
    for here, there in _double(attacked):
        changed.RemoveBond(here, there)
        bridge, one, two = (changed.AddAtom(Chem.Atom(8)) for _ in range(3))
        for first, second in ((here, bridge), (bridge, there), (here, one), (one, two),
                              (two, there)):  # fmt: skip
            changed.AddBond(first, second, SINGLE)
    return _finished(changed)


def alkoxy_hydroperoxides(
    *, structure: Chem.Mol, attacked: Sequence[Site], alcohol: Chem.Mol
) -> tuple[Chem.Mol, Chem.Mol]:
    """Carbonyl and alkoxy hydroperoxide that form in an alcohol, for both ways to split.

    Parameters
    ----------
    structure : Mol
        Substrate. [-]
    attacked : sequence of Site
        Its double bonds that the ozone takes; other sites are left as they are. [-]
    alcohol : Mol
        The solvent, with one hydroxyl. [-]

    Returns
    -------
    splits : tuple of Mol
        Fragments when the one, or the other, carbon of each double bond bears the hydroperoxide.
        [-]

    Raises
    ------
    None

    Valid
    -----
    The alcohol in excess; every carbonyl oxide is trapped.

    Source
    ------
    ozonolysis_textbooks
    """
    first, second = (_split(structure, attacked, alcohol, turned=turned) for turned in (0, 1))
    return first, second


def _split(
    structure: Chem.Mol, attacked: Sequence[Site], alcohol: Chem.Mol, *, turned: int
) -> Chem.Mol:
    changed = Chem.RWMol(structure)
    (hydroxyl,) = alcohol.GetSubstructMatch(Chem.MolFromSmarts("[OX2;H1]"))
    for cut in _double(attacked):
        carbonyl, oxide = cut[turned], cut[1 - turned]
        changed.RemoveBond(carbonyl, oxide)
        changed.AddBond(carbonyl, changed.AddAtom(Chem.Atom(8)), DOUBLE)
        inner, outer = changed.AddAtom(Chem.Atom(8)), changed.AddAtom(Chem.Atom(8))
        changed.AddBond(oxide, inner, SINGLE)
        changed.AddBond(inner, outer, SINGLE)
        offset = changed.GetNumAtoms()
        changed.InsertMol(alcohol)
        changed.AddBond(oxide, offset + hydroxyl, SINGLE)
    return _finished(changed)


def _double(attacked: Sequence[Site]) -> list[tuple[int, int]]:
    return [site.cuts[0] for site in attacked if site.kind.act == "alkene"]


def _finished(changed: Chem.RWMol) -> Chem.Mol:
    Chem.SanitizeMol(changed)
    Chem.AssignStereochemistry(changed, cleanIt=True, force=True)
    done: Chem.Mol = changed.GetMol()
    return done
