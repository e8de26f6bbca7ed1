"""Three hundred alkenes of every sort: atoms, charge and masses balance for every work-up."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable
from typing import get_args

import pytest
from rdkit import Chem
from rdkit.Chem.Descriptors import MolWt

from ozonewright.physics.chemistry.structure.reading import atoms
from ozonewright.questions.reaction.structure import Cut, Product, peroxides, products
from ozonewright.questions.reaction.structure import read_substrate as read

GROUPS = ("C", "CC", "CCC", "C(C)C", "C5CCCC5", "CCOC(C)=O", "CC#N", "C(=O)OC", "CCCl", "Cc7ccccc7",
          "CO[Si](C)(C)C", "C(F)(F)F", "c6ccc(C)cc6", "CNC(C)=O", "CC(C)(C)C(=O)O")  # fmt: skip
TERPENES = (
    "C=C(C)C1CC=C(C)CC1", "CC1=CCC2CC1C2(C)C", "C=C1CCC2CC1C2(C)C", "CC1=CCC2C(C1)C2(C)C",
    "CC1=CCC(=C(C)C)CC1", "CC(C)=CCCC(=C)C=C", "CC(C)=CCCC(C)(O)C=C", "CC(C)=CCC/C(C)=C/CO",
    "C=C(C)C1CC=C(C)C(=O)C1", "CC1=CCCC2(C)CCC(C(C)(C)O)CC12", "C=C1CCC2(C)CCC=C(C)C2C1",
    "CC(C)=CCCC(C)CC=O", "C=CC(C)(O)CCC=C(C)CCC=C(C)C", "C=C1CCC=C(C)CCC2C1CC2(C)C",
)  # fmt: skip
"""Skeletons of terpenes, written by hand."""


def pick(draw: random.Random) -> str:
    return draw.choice(GROUPS)


def fatty(draw: random.Random) -> str:
    middle = draw.choice(("/C=C\\", "/C=C/", "/C=C\\C/C=C\\"))
    ends = "C" * draw.randint(2, 9), "C" * draw.randint(2, 9)
    return f"{ends[0]}{middle}{ends[1]}C(=O)O{'C' * draw.randint(1, 3)}"


def ring(draw: random.Random) -> str:
    size = "C" * draw.randint(3, 10)
    return draw.choice((f"C1=C{size}1", f"C1({pick(draw)})=C{size}1", f"C=C1C{size}1",
                        f"C1({pick(draw)})=C({pick(draw)}){size}1"))  # fmt: skip


SORTS: dict[str, Callable[[random.Random], str]] = {
    "ring": ring,
    "terminal": lambda draw: f"C=C{pick(draw)}",
    "disubstituted": lambda draw: f"C({pick(draw)})=C{pick(draw)}",
    "trisubstituted": lambda draw: f"C(C)({pick(draw)})=C{pick(draw)}",
    "tetrasubstituted": lambda draw: f"C({pick(draw)})(C)=C({pick(draw)}){pick(draw)}",
    "diene": lambda draw: f"C({pick(draw)})=CC=C{pick(draw)}",
    "skipped diene": lambda draw: f"C({pick(draw)})=CCC=C{pick(draw)}",
    "terpene": lambda draw: draw.choice(TERPENES),
    "fatty ester": fatty,
    "styrene": lambda draw: f"C({pick(draw)})=Cc1cc({pick(draw)})ccc1",
    "enol ether": lambda draw: f"C({pick(draw)})=C({pick(draw)})OC{'C' * draw.randint(0, 3)}",
    "sulfide": lambda draw: f"C({pick(draw)})=CCCSC{pick(draw)}",
}  # fmt: skip


def three_hundred() -> list[tuple[str, str]]:
    """Return 300 different alkenes: 25 of each sort, as far as there are so many."""
    draw = random.Random(20260509)
    found: dict[str, str] = {}
    while len(found) < 300:
        for sort, make in SORTS.items():
            found.setdefault(Chem.CanonSmiles(make(draw)), sort)
    return list(found.items())[:300]


ALKENES = three_hundred()


def all_atoms(made: tuple[Product, ...]) -> Counter[str]:
    total: Counter[str] = Counter()
    for one in made:
        for element, count in atoms(structure=Chem.MolFromSmiles(one.smiles)).items():
            total[element] += count * one.count
    return total


def groups(smarts: str, parts: tuple[Product, ...]) -> int:
    pattern = Chem.MolFromSmarts(smarts)
    return sum(
        one.count * len(Chem.MolFromSmiles(one.smiles).GetSubstructMatches(pattern))
        for one in parts
    )


def test_there_are_three_hundred_of_all_sorts() -> None:
    assert len(ALKENES) == 300
    assert all(count >= 10 for count in Counter(sort for _, sort in ALKENES).values())


@pytest.mark.parametrize(("smiles", "sort"), ALKENES)
def test_atoms_charges_and_masses_balance(smiles: str, sort: str) -> None:
    substrate = read(smiles)
    before = atoms(structure=substrate.structure)
    for cut in get_args(Cut):
        plain = products(substrate, "reductive", cut)
        if plain is None:
            assert cut == "first"
            continue
        ozone = substrate.demand.of(cut)
        sulfides = sum(line.count for line in substrate.sites if line.kind == "sulfide")
        # by hand: a cleaved bond keeps two oxygens of its ozone, a sulfide one
        gain = Counter({"O": 2 * ozone - sulfides})
        assert all_atoms(plain) == before + gain
        aldehydes = groups("[$([CX3;H2]),$([CX3;H1][#6])]=[OX1]", plain)
        ketones = groups("[#6][CX3](=[OX1])[#6]", plain)
        reduced = products(substrate, "borohydride", cut)
        oxidised = products(substrate, "oxidative", cut)
        assert reduced is not None
        assert oxidised is not None
        # each C=O takes one H2, each aldehyde one O
        assert all_atoms(reduced) == before + gain + Counter({"H": 2 * (aldehydes + ketones)})
        assert all_atoms(oxidised) == before + gain + Counter({"O": aldehydes})
        for made in (plain, reduced, oxidised):
            assert all(Chem.GetFormalCharge(Chem.MolFromSmiles(one.smiles)) == 0 for one in made)
            assert made[0].role == "product"


@pytest.mark.parametrize(("smiles", "sort"), ALKENES[::5])
def test_the_molar_mass_is_that_of_the_library(smiles: str, sort: str) -> None:
    """Its weights differ from ours by less than 0.011 g/mol each (sulfur, 32.067)."""
    library = MolWt(Chem.MolFromSmiles(smiles))
    assert read(smiles).molar_mass * 1e3 == pytest.approx(library, rel=1.5e-4)


@pytest.mark.parametrize(("smiles", "sort"), ALKENES[::3])
def test_an_ozonide_holds_its_ozone_and_an_alcohol_adds_itself(smiles: str, sort: str) -> None:
    substrate = read(smiles)
    bonds = sum(line.count for line in substrate.sites if line.sites[0].kind.on == "bond")
    (one,) = peroxides(substrate, "full")
    gained = atoms(structure=Chem.MolFromSmiles(one.smiles))
    gained.subtract(atoms(structure=substrate.structure))
    assert {key: count for key, count in gained.items() if count} == {"O": 3 * bonds}
    trapped = peroxides(substrate, "full", alcohol="CO")
    assert trapped
    for part in trapped:
        structure = Chem.MolFromSmiles(part.smiles)
        assert structure.HasSubstructMatch(Chem.MolFromSmarts("[#6][OX2][CX4][OX2][OX2;H1]"))


@pytest.mark.parametrize(("smiles", "sort"), ALKENES[::7])
def test_the_order_of_the_atoms_as_typed_does_not_matter(smiles: str, sort: str) -> None:
    structure = Chem.MolFromSmiles(smiles)
    substrate = read(smiles)
    for start in range(0, structure.GetNumAtoms(), 4):
        other = read(Chem.MolToSmiles(structure, rootedAtAtom=start, canonical=False))
        assert other.smiles == substrate.smiles
        assert products(other, "oxidative", "full") == products(substrate, "oxidative", "full")


def test_one_ring_alkene_gives_one_product() -> None:
    for smiles, sort in ALKENES:
        if sort == "ring" and smiles.count("=") == 1 and not smiles.startswith("C=C1"):
            made = products(read(smiles), "reductive")
            assert made is not None
            assert sum(one.count for one in made) == 1
