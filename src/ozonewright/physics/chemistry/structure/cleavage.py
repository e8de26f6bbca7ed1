"""What becomes of a molecule when ozone cleaves some of its sites and the work-up follows."""

from __future__ import annotations

from collections.abc import Sequence

from rdkit import Chem

from ozonewright.errors import NotApplicable
from ozonewright.physics.chemistry.structure.reading import atoms
from ozonewright.physics.chemistry.structure.sites import Site

WORK_UPS = ("reductive", "borohydride", "oxidative", "hydrolytic")
CARBONYL = Chem.MolFromSmarts("[$([CX3;H2]),$([CX3;H1][#6]),$([CX3]([#6])[#6])]=[OX1]")
"""Aldehydes and ketones, not esters, acids or amides."""
ALDEHYDE = Chem.MolFromSmarts("[$([CX3;H2]),$([CX3;H1][#6])]=[OX1]")
SINGLE, DOUBLE = Chem.BondType.SINGLE, Chem.BondType.DOUBLE


def cleaved(*, structure: Chem.Mol, attacked: Sequence[Site], work_up: str) -> Chem.Mol:
    """Products after ozone has taken the sites and the work-up is done, as one set of fragments.

    Parameters
    ----------
    structure : Mol
        Substrate. [-]
    attacked : sequence of Site
        Sites of this substrate that the ozone takes. [-]
    work_up : str
        reductive, borohydride, oxidative or hydrolytic. [-]

    Returns
    -------
    products : Mol
        All products of one molecule of substrate. [-]

    Raises
    ------
    NotApplicable
        No such work-up.

    Valid
    -----
    Full conversion of the sites named; no site beside them reacts.

    Source
    ------
    ozonolysis_textbooks

    Notes
    -----
    Both carbons of a double bond end as C=O. Bonds are cut and oxygens added on the molecule
    itself, so that a ring opens to one product. An alkyne gives the diketone by reduction, the
    acids otherwise. Borohydride turns every aldehyde and ketone to the alcohol, the oxidative
    work-up every aldehyde to the acid: those that were there before as well.
    """
    if work_up not in WORK_UPS:
        raise NotApplicable("no such work-up", got=work_up, fix=f"Write {', '.join(WORK_UPS)}.")
    changed = Chem.RWMol(structure)
    for site in attacked:
        if site.kind.act == "oxide":
            _oxide(changed, site.atoms[0])
        elif site.kind.act == "alkyne":
            _alkyne(changed, site.cuts[0], keep=work_up in ("reductive", "borohydride"))
        else:
            _cut(changed, site)
    Chem.SanitizeMol(changed)
    if work_up == "borohydride":
        _reduced(changed)
    elif work_up == "oxidative":
        _oxidised(changed)
    Chem.SanitizeMol(changed)
    Chem.AssignStereochemistry(changed, cleanIt=True, force=True)
    done: Chem.Mol = changed.GetMol()
    _check(structure, done)
    return done


def _cut(changed: Chem.RWMol, site: Site) -> None:
    for here, there in site.cuts:
        changed.RemoveBond(here, there)
        _oxygen(changed, here)
        _oxygen(changed, there)
    if site.kind.act == "ring":
        opened = {atom for cut in site.cuts for atom in cut}
        for atom in opened:
            changed.GetAtomWithIdx(atom).SetIsAromatic(False)
            for bond in changed.GetAtomWithIdx(atom).GetBonds():
                if bond.GetIsAromatic():
                    bond.SetIsAromatic(False)
                    bond.SetBondType(SINGLE)


def _oxygen(changed: Chem.RWMol, atom: int, order: Chem.BondType = DOUBLE) -> None:
    changed.AddBond(atom, changed.AddAtom(Chem.Atom(8)), order)


def _alkyne(changed: Chem.RWMol, cut: tuple[int, int], *, keep: bool) -> None:
    if keep:
        changed.GetBondBetweenAtoms(*cut).SetBondType(SINGLE)
    else:
        changed.RemoveBond(*cut)
    for atom in cut:
        terminal = changed.GetAtomWithIdx(atom).GetDegree() == (1 if keep else 0)
        _oxygen(changed, atom)
        if not keep:
            _oxygen(changed, atom, DOUBLE if terminal else SINGLE)


def _oxide(changed: Chem.RWMol, atom: int) -> None:
    if changed.GetAtomWithIdx(atom).GetAtomicNum() != 7:
        _oxygen(changed, atom)
        return
    oxygen = changed.AddAtom(Chem.Atom(8))
    changed.GetAtomWithIdx(oxygen).SetFormalCharge(-1)
    changed.GetAtomWithIdx(atom).SetFormalCharge(1)
    changed.AddBond(atom, oxygen, SINGLE)


def _reduced(changed: Chem.RWMol) -> None:
    for hit in changed.GetSubstructMatches(CARBONYL):
        changed.GetBondBetweenAtoms(hit[0], hit[-1]).SetBondType(SINGLE)


def _oxidised(changed: Chem.RWMol) -> None:
    for hit in changed.GetSubstructMatches(ALDEHYDE):
        _oxygen(changed, hit[0], SINGLE)


def _check(before: Chem.Mol, after: Chem.Mol) -> None:
    gained = dict(atoms(structure=after))
    for element, count in atoms(structure=before).items():
        gained[element] = gained.get(element, 0) - count
    if any(count for element, count in gained.items() if element not in "OH"):
        raise AssertionError(f"atoms got lost: {gained}")
