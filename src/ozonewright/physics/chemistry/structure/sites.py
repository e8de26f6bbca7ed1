"""Where ozone may attack a molecule, the most willing site first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from rdkit import Chem

from ozonewright.references.ozone_sites import SiteKind, site_kinds

ALKYL, ARYL, VINYL = 1.0, 0.2, 0.5
"""How much a group on a double bond pushes, counted in alkyl groups (common practice, no source).

The published gas rates rise in the same order; tests/unit/test_structure_order.py compares them.
"""
WITHDRAWN = 0.5
"""What an ester, a halogen or an ammonium on the next carbon takes of it."""
WEAK = "[CX4][$([OX2]C=O),F,Cl,Br,I,$([N+]),$(S=O)]"
"""A carbon that bears one of these."""
OXO = "[a;$(a=*)]"
"""An atom of a ring such as a pyrone or pyridone: it has a double bond out of the ring."""


@dataclass(frozen=True, slots=True)
class Site:
    """One place of attack: what, where in the molecule, and how willing."""

    kind: SiteKind
    atoms: tuple[int, ...]
    cuts: tuple[tuple[int, int], ...]
    """The bonds that ozone cleaves here."""
    ozone: int
    """Ozone that it takes to be cleaved or oxidised once."""
    at_last: int
    """Ozone that it takes in the end; more than that for a ring of which only a part is cleaved."""
    push: float
    """Electron push of the groups on a double bond, in alkyl groups."""
    groups: int
    """Groups other than hydrogen on the double or triple bond."""
    alike: tuple[int, ...]
    """Symmetry class: sites that have the same one can't be told apart."""

    @property
    def order(self) -> tuple[int, float]:
        """Sort key: the lower, the sooner attacked."""
        return self.kind.rank, -self.push


@cache
def _pattern(smarts: str) -> Chem.Mol:
    return Chem.MolFromSmarts(smarts)


def sites(*, structure: Chem.Mol) -> tuple[Site, ...]:
    """Sites that ozone may attack, in the order of attack.

    Parameters
    ----------
    structure : Mol
        Sanitised. [-]

    Returns
    -------
    sites : tuple of Site
        The most willing first; equal keys mean that no order is known between them. [-]

    Raises
    ------
    None

    Valid
    -----
    Kinds of the shipped table; strain and crowding are left out.

    Source
    ------
    ozonolysis_textbooks
    """
    ranks = tuple(Chem.CanonicalRankAtoms(structure, breakTies=False))
    found = [*_bonds(structure, ranks), *_rings(structure, ranks), *_atoms(structure, ranks)]
    return tuple(sorted(found, key=lambda site: (site.order, site.atoms)))


def _alike(ranks: tuple[int, ...], atoms: tuple[int, ...]) -> tuple[int, ...]:
    return tuple(sorted(ranks[atom] for atom in atoms))


def _bonds(structure: Chem.Mol, ranks: tuple[int, ...]) -> Iterator[Site]:
    taken: set[tuple[int, int]] = set()
    weak = {hit[0] for hit in structure.GetSubstructMatches(_pattern(WEAK))}
    for kind in site_kinds():
        if kind.on != "bond":
            continue
        for first, second in structure.GetSubstructMatches(_pattern(kind.smarts)):
            bond = (min(first, second), max(first, second))
            if bond in taken:
                continue
            taken.add(bond)
            groups = [
                near
                for here, there in (bond, bond[::-1])
                for near in structure.GetAtomWithIdx(here).GetNeighbors()
                if near.GetIdx() != there
            ]
            push = sum(_push(group, weak) for group in groups)
            yield Site(kind, bond, (bond,), kind.ozone or 0, kind.ozone or 0, push, len(groups),
                       _alike(ranks, bond))  # fmt: skip


def _push(group: Chem.Atom, weak: set[int]) -> float:
    if group.GetIsAromatic():
        return ARYL
    if group.GetAtomicNum() != 6:
        return 0.0
    if group.GetHybridization() != Chem.HybridizationType.SP3:
        return VINYL if group.GetTotalDegree() == 3 else 0.0
    return ALKYL - WITHDRAWN if group.GetIdx() in weak else ALKYL


def _rings(structure: Chem.Mol, ranks: tuple[int, ...]) -> Iterator[Site]:
    aromatic = [
        frozenset(ring)
        for ring in structure.GetRingInfo().AtomRings()
        if all(structure.GetAtomWithIdx(atom).GetIsAromatic() for atom in ring)
    ]
    for system in _systems(aromatic):
        atoms = tuple(sorted(frozenset().union(*system)))
        kind = _ring_kind(structure, atoms, fused=len(system) > 1)
        cuts = _ring_cuts(structure, system) if kind.act == "ring" else ()
        at_last = _double_bonds(structure, atoms)
        yield Site(kind, atoms, cuts, len(cuts) or at_last, at_last, 0.0, 0, _alike(ranks, atoms))


def _systems(rings: list[frozenset[int]]) -> list[list[frozenset[int]]]:
    """Return the rings by fused system."""
    found: list[list[frozenset[int]]] = []
    for ring in rings:
        near = [system for system in found if any(len(ring & other) > 1 for other in system)]
        found = [system for system in found if system not in near]
        found.append([ring, *(other for system in near for other in system)])
    return found


def _ring_kind(structure: Chem.Mol, atoms: tuple[int, ...], *, fused: bool) -> SiteKind:
    inside = set(atoms)
    for kind in site_kinds():
        if kind.on != "ring" or (kind.act == "ring" and not fused):
            continue
        hits = structure.GetSubstructMatches(_pattern(kind.smarts))
        if any(hit[0] in inside for hit in hits):
            return kind
    raise AssertionError("the last pattern fits every aromatic ring")


def _double_bonds(structure: Chem.Mol, atoms: tuple[int, ...]) -> int:
    """Return the C=C of a ring system in one Kekulé form: the ozone that it may take in the end."""
    plain = Chem.RWMol(structure)
    Chem.Kekulize(plain, clearAromaticFlags=True)
    inside = set(atoms)
    return sum(
        bond.GetBondType() == Chem.BondType.DOUBLE
        and {bond.GetBeginAtomIdx(), bond.GetEndAtomIdx()} <= inside
        and bond.GetBeginAtom().GetAtomicNum() == bond.GetEndAtom().GetAtomicNum() == 6
        for bond in plain.GetBonds()
    )


def _ring_cuts(structure: Chem.Mol, system: list[frozenset[int]]) -> tuple[tuple[int, int], ...]:
    """Return the two bonds that open the ring of a naphthalene or quinoline, if one is willing."""
    if len(system) != 2 or any(len(ring) != 6 for ring in system):
        return ()
    willing = [_outer(structure, ring, other) for ring, other in (system, system[::-1])]
    bare = [outer for outer in willing if outer]
    if not bare or (len(bare) == 2 and _loaded(structure, bare[0]) != _loaded(structure, bare[1])):
        return ()
    first, second, third, fourth = bare[0]
    return ((first, second), (third, fourth))


def _outer(structure: Chem.Mol, ring: frozenset[int], other: frozenset[int]) -> tuple[int, ...]:
    """Return the four carbons of a ring that the other does not share, in line; or nothing."""
    free = ring - other
    if any(structure.GetAtomWithIdx(atom).GetAtomicNum() != 6 for atom in free):
        return ()
    if any((atom,) in structure.GetSubstructMatches(_pattern(OXO)) for atom in ring | other):
        return ()
    for start in sorted(free):
        line = [start]
        while near := [
            atom.GetIdx()
            for atom in structure.GetAtomWithIdx(line[-1]).GetNeighbors()
            if atom.GetIdx() in free and atom.GetIdx() not in line
        ]:
            if len(line) == 1 and len(near) > 1:
                break
            line.append(near[0])
        if len(line) == 4:
            return tuple(line)
    raise AssertionError("four atoms of a ring stand in line")


def _loaded(structure: Chem.Mol, line: tuple[int, ...]) -> int:
    """Return the number of groups on these ring atoms."""
    return sum(structure.GetAtomWithIdx(atom).GetDegree() - 2 for atom in line)


def _atoms(structure: Chem.Mol, ranks: tuple[int, ...]) -> Iterator[Site]:
    for kind in site_kinds():
        if kind.on != "atom":
            continue
        for (atom,) in structure.GetSubstructMatches(_pattern(kind.smarts)):
            yield Site(kind, (atom,), (), kind.ozone or 0, kind.ozone or 0, 0.0, 0, (ranks[atom],))
