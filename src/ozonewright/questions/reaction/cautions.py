"""What to mind about a structure that may be ozonised: notes, the gravest first."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from rdkit import Chem

from ozonewright.questions.reaction.contest import CONVERTED, contest
from ozonewright.questions.reaction.structure import Cut, Product, Substrate
from ozonewright.results import Level, Note

OF_A_KIND: dict[str, tuple[str, Level]] = {
    "phosphine": ("structure-phosphine", "doubt"),
    "sulfide": ("structure-sulfide", "doubt"),
    "enamine": ("structure-enamine", "doubt"),
    "amine": ("structure-amine", "wrong"),
    "enol ether": ("structure-enol-ether", "doubt"),
    "enol ester": ("structure-enol-ester", "doubt"),
    "allene": ("structure-allene", "doubt"),
    "electron-poor alkene": ("structure-electron-poor", "doubt"),
    "vinyl halide": ("structure-vinyl-halide", "wrong"),
    "alkyne": ("structure-alkyne", "doubt"),
    "electron-rich aromatic ring": ("structure-ring-follows", "doubt"),
    "sulfur heteroaromatic ring": ("structure-thiophene", "doubt"),
    "silane": ("structure-silane", "doubt"),
    "acetal": ("structure-acetal", "advice"),
    "benzylic ether": ("structure-benzylic-ether", "advice"),
    "aldehyde": ("structure-aldehyde", "advice"),
}
"""The note that a kind of site brings with it."""
ALSO: tuple[tuple[str, str, Level], ...] = (
    ("structure-imine", "[CX3]=[NX2]", "doubt"),
    ("structure-azo", "[#6][NX2]=[NX2][#6]", "doubt"),
    ("structure-allylic-alcohol", "C=C[CX4][OX2;H1]", "doubt"),
    ("structure-alkyl-iodide", "[CX4]I", "doubt"),
    ("structure-tetrasubstituted", "[#6][CX3]([#6])=[CX3]([#6])[#6]", "doubt"),
)
"""Further groups that bring a note, by their pattern."""
TOLD = 1e-4
"""A loss below this is not worth a note."""
MUCH = 0.1
"""A loss above this makes the cut itself doubtful."""
UNSTABLE = "[CX3;$([H1]),$([H2])](=O)[CX4;!H0][CX3]=O"
"""An aldehyde with another carbonyl one carbon on, such as malonaldehyde."""


@cache
def _pattern(smarts: str) -> Chem.Mol:
    return Chem.MolFromSmarts(smarts)


def cautions(substrate: Substrate, cut: Cut, made: tuple[Product, ...] | None) -> list[Note]:
    """Return what to mind about a substrate, a cut and its products."""
    found = [
        *_of_kinds(substrate, cut),
        *_of_groups(substrate),
        *_of_several(substrate, cut, made),
        *_of_products(substrate, made or ()),
        *_of_contest(substrate, cut),
    ]
    grave = ("wrong", "doubt", "advice")
    return sorted(found, key=lambda note: grave.index(note.level))


def _of_kinds(substrate: Substrate, cut: Cut) -> Iterator[Note]:
    told: set[str] = set()
    for line in substrate.sites:
        if line.kind in OF_A_KIND and line.kind not in told:
            told.add(line.kind)
            code, level = OF_A_KIND[line.kind]
            yield Note(code, level, {"smiles": substrate.smiles})
    if not any(line.sites[0].kind.on == "bond" for line in substrate.sites):
        yield Note("structure-ring-cleaved", "doubt", {"smiles": substrate.smiles})


def _of_groups(substrate: Substrate) -> Iterator[Note]:
    for code, smarts, level in ALSO:
        if substrate.structure.HasSubstructMatch(_pattern(smarts)):
            yield Note(code, level, {"smiles": substrate.smiles})


def _of_several(substrate: Substrate, cut: Cut, made: tuple[Product, ...] | None) -> Iterator[Note]:
    """Yield what several double bonds in one vessel bring about."""
    bonds = [line for line in substrate.sites if line.sites[0].kind.on == "bond"]
    count = sum(line.count for line in bonds)
    values = {"smiles": substrate.smiles, "count": count}
    if made is None:
        yield Note("structure-first-unknown", "wrong", {**values, "alike": bonds[0].count})
    elif count < 2:
        return
    elif cut == "first":
        yield Note("structure-one-of-several", "doubt", values)
    elif cut == "selective" and substrate.demand.selective < substrate.demand.full:
        left = substrate.demand.full - substrate.demand.selective
        yield Note("structure-slow-left", "advice", {**values, "left": left})
    else:
        yield Note("structure-all-of-several", "advice", values)


def _of_products(substrate: Substrate, made: tuple[Product, ...]) -> Iterator[Note]:
    for one in made:
        if Chem.MolFromSmiles(one.smiles).HasSubstructMatch(_pattern(UNSTABLE)):
            yield Note("structure-unstable-product", "doubt", {"product": one.smiles})


def _of_contest(substrate: Substrate, cut: Cut) -> Iterator[Note]:
    """Yield what the next site in line loses while the wanted one is cleaved."""
    found = contest(substrate, cut)
    if found is None or found.high < TOLD:
        return
    values = {
        "smiles": substrate.smiles,
        "wanted": found.wanted.kind,
        "rival": found.rival.kind,
        "low": found.low,
        "high": found.high,
        "converted": CONVERTED,
    }
    yield Note("structure-contest", "doubt" if found.high > MUCH else "advice", values)
