"""Products of 108 textbook cleavages; each row names where its products come from.

The rows of ozonolysis_products.csv were written by hand from published abstracts, textbook
exercises (memory) and common practice, never by this program.
"""

from __future__ import annotations

import csv
from collections import Counter
from pathlib import Path

import pytest
from rdkit import Chem

from ozonewright.physics.chemistry.structure.reading import atoms, molecule
from ozonewright.questions.reaction.structure import Cut, products, read_substrate

TABLE = Path(__file__).with_name("ozonolysis_products.csv")
WORK_UP: dict[str, tuple[str, Cut]] = {
    "reductive": ("reductive", "full"),
    "reductive (1 equiv O3)": ("reductive", "first"),
    "NaBH4": ("borohydride", "full"),
    "oxidative": ("oxidative", "full"),
    "hydrolytic": ("hydrolytic", "full"),
}
"""Our words for those of the table."""


def rows() -> list[dict[str, str]]:
    with TABLE.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file, strict=True))


def name_of(row: dict[str, str]) -> str:
    """Return the name of a row without the strokes that pytest would double."""
    return f"{row['substrate_smiles']} {row['work_up']}".replace("\\", "%")


def canonical(smiles: str) -> list[str]:
    return sorted(Chem.CanonSmiles(part) for part in smiles.split("."))


def test_the_table_is_whole() -> None:
    assert len(rows()) == 108
    assert all(row["source"].strip() for row in rows())
    assert len({(row["substrate_smiles"], row["work_up"]) for row in rows()}) == 108


@pytest.mark.parametrize("row", rows(), ids=name_of)
def test_the_products_are_those_of_the_table(row: dict[str, str]) -> None:
    work_up, cut = WORK_UP[row["work_up"]]
    made = products(read_substrate(row["substrate_smiles"]), work_up, cut)
    assert made is not None
    ours = sorted(one.smiles for one in made for _ in range(one.count))
    assert ours == canonical(row["product_smiles"]), row["source"]


@pytest.mark.parametrize("row", rows(), ids=name_of)
def test_the_ozone_of_a_reductive_row_is_its_oxygen(row: dict[str, str]) -> None:
    """By hand: each double or triple bond keeps two of the three oxygens of one ozone."""
    if not row["work_up"].startswith("reductive"):
        return
    _, cut = WORK_UP[row["work_up"]]
    gained = Counter(atoms(structure=molecule(smiles=row["product_smiles"])))
    gained.subtract(atoms(structure=molecule(smiles=row["substrate_smiles"])))
    assert {element: count for element, count in gained.items() if count} == {
        "O": 2 * read_substrate(row["substrate_smiles"]).demand.of(cut)
    }


@pytest.mark.parametrize(
    ("smiles", "formula", "molar_mass"),
    [
        # CRC Handbook, table of physical constants of organic compounds (from memory)
        ("COc1cc(C=O)ccc1O", "C8H8O3", 152.149),
        ("CC=O", "C2H4O", 44.053),
        ("c1ccc(cc1)P(c1ccccc1)c1ccccc1", "C18H15P", 262.29),
        ("C/C=C/c1ccc(O)c(OC)c1", "C10H12O2", 164.204),
    ],
)
def test_formula_and_molar_mass(smiles: str, formula: str, molar_mass: float) -> None:
    from ozonewright.physics.chemistry.structure import reading

    structure = molecule(smiles=smiles)
    assert reading.formula(structure=structure) == formula
    mass = reading.molar_mass(structure=structure)
    assert mass * 1e3 == pytest.approx(molar_mass, abs=0.006)
