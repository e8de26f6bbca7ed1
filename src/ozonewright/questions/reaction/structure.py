"""A substrate as ozone sees it: sites in order, ozone demand, products, peroxides."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import groupby
from typing import Literal

from rdkit import Chem

from ozonewright.errors import Inconsistent, InputError
from ozonewright.physics.chemistry.structure.cleavage import cleaved
from ozonewright.physics.chemistry.structure.peroxides import alkoxy_hydroperoxides, ozonide
from ozonewright.physics.chemistry.structure.reading import formula, molar_mass, molecule
from ozonewright.physics.chemistry.structure.sites import Site, sites
from ozonewright.questions.reaction.refusals import refuse
from ozonewright.references.ozone_rates import Rate, ozone_rates

Cut = Literal["first", "selective", "full"]
"""How far: the first bond; all that are fast beside the rest; every double and triple bond."""
PLAIN: Cut = "selective"
"""How far ozone is to go where nothing is said: all bonds that are fast beside the rest."""
FAST = 6
"""Rank of a plain alkene: whatever ranks behind it is slower by powers of ten."""


@dataclass(frozen=True, slots=True)
class SiteLine:
    """Sites of one kind and one willingness."""

    kind: str
    count: int
    rate: Rate | None
    """Published rate constant of this compound or of the one that stands for its kind."""
    itself: bool
    """Whether the rate constant is that of this very compound."""
    sites: tuple[Site, ...]


@dataclass(frozen=True, slots=True)
class Demand:
    """Ozone per molecule of substrate. [mol/mol]"""

    first: int
    """Until the first bond is cleaved; what takes ozone sooner is counted in."""
    selective: int
    full: int
    rings: int
    """What the aromatic rings would take on top, in the end."""

    def of(self, cut: Cut) -> int:
        """Return the ozone for a cut."""
        return {"first": self.first, "selective": self.selective, "full": self.full}[cut]


@dataclass(frozen=True, slots=True)
class Substrate:
    """A structure that may be ozonised."""

    smiles: str
    formula: str
    molar_mass: float
    """[kg/mol]"""
    structure: Chem.Mol
    sites: tuple[SiteLine, ...]
    """In the order of attack."""
    demand: Demand

    @property
    def all_sites(self) -> tuple[Site, ...]:
        """Return every single site, in the order of attack."""
        return tuple(site for line in self.sites for site in line.sites)


@dataclass(frozen=True, slots=True)
class Product:
    """What one molecule of substrate gives."""

    smiles: str
    formula: str
    molar_mass: float
    """[kg/mol]"""
    count: int
    """Molecules of it from one molecule of substrate."""
    role: Literal["product", "co-product"]
    """The product is the heaviest; all others are co-products."""


@dataclass(frozen=True, slots=True)
class Peroxide:
    """What may stand in the flask before the work-up."""

    kind: Literal["ozonide", "alkoxy hydroperoxide"]
    smiles: str
    formula: str
    molar_mass: float
    """[kg/mol]"""


@cache
def read_substrate(smiles: str) -> Substrate:
    """Return the substrate of a SMILES with its sites and its ozone demand.

    Raises
    ------
    InputError
        It can't be read, must not be ozonised, or has nothing that ozone cleaves.
    """
    structure = molecule(smiles=smiles)
    refuse(structure, smiles)
    found = sites(structure=structure)
    if not _cleavable(found):
        raise _nothing(found, smiles)
    text = Chem.MolToSmiles(structure)
    return Substrate(
        smiles=text,
        formula=formula(structure=structure),
        molar_mass=molar_mass(structure=structure),
        structure=structure,
        sites=tuple(_lines(found, text)),
        demand=_demand(found),
    )


def _nothing(found: Sequence[Site], typed: str) -> InputError:
    rings = sorted({site.kind.kind for site in found if site.kind.on == "ring"})
    if rings:
        return InputError(
            f"no double or triple bond beside the {rings[0]}: the ring alone reacts slowly, to no "
            "selective product, and its ozonides are explosive",
            got=typed,
            fix="Choose a substrate with a C=C or C≡C, or another oxidation.",
        )
    return InputError(
        "nothing in this structure is cleaved by ozone",
        got=typed,
        fix="Check the SMILES: a double bond between carbons is written C=C.",
    )


def _lines(found: Sequence[Site], text: str) -> Iterator[SiteLine]:
    for (_, kind), group in groupby(found, key=lambda site: (site.order, site.kind.kind)):
        alike = tuple(group)
        rate, itself = _rate(kind, alike[0].groups, text)
        yield SiteLine(kind, len(alike), rate, itself, alike)


@cache
def _canonical(smiles: str) -> str:
    return Chem.MolToSmiles(Chem.MolFromSmiles(smiles))


def _rate(kind: str, groups: int, text: str) -> tuple[Rate | None, bool]:
    """Return the rate constant of a site and whether it is that of this very compound."""
    of_kind = [rate for rate in ozone_rates() if rate.kind == kind]
    for rate in of_kind:
        if _canonical(rate.smiles) == text:
            return rate, True
    for rate in of_kind:
        if rate.stands_for_kind and (rate.groups is None or rate.groups == groups):
            return rate, False
    return None, False


def _cleavable(found: Sequence[Site]) -> list[Site]:
    """Return the sites that ozone cleaves; a ring only where nothing else is there."""
    bonds = [site for site in found if site.kind.on == "bond"]
    return bonds or [site for site in found if site.cuts]


def attacked(found: Sequence[Site], cut: Cut) -> tuple[Site, ...] | None:
    """Return the sites that ozone takes for a cut, or None where the first can't be told."""
    if cut == "first" and not _first_is_told(found):
        return None
    return counted(found, cut)


def _first_is_told(found: Sequence[Site]) -> bool:
    bonds = _cleavable(found)
    alike = [site for site in bonds if site.order == bonds[0].order]
    return len({site.alike for site in alike}) == 1


def counted(found: Sequence[Site], cut: Cut) -> tuple[Site, ...]:
    """Return as many sites as a cut takes; where the first can't be told, one of the equal ones.

    Good for ozone, heat and peroxide, which are the same whichever goes; not for products.
    """
    bonds = _cleavable(found)
    if cut == "selective":
        limit = max(FAST, bonds[0].kind.rank)
        bonds = [site for site in bonds if site.kind.rank <= limit]
    elif cut == "first":
        bonds = [site for site in bonds if site is bonds[0] or _cumulated(site, bonds[0])]
    oxides = [site for site in found if site.kind.act == "oxide"]
    return (*oxides, *bonds)


def _cumulated(one: Site, other: Site) -> bool:
    """Whether two double bonds share a carbon: an allene goes as a whole."""
    return bool(set(one.atoms) & set(other.atoms))


def _demand(found: Sequence[Site]) -> Demand:
    bonds = _cleavable(found)
    oxides = sum(site.ozone for site in found if site.kind.act == "oxide")
    rings = [site for site in found if site.kind.on == "ring"]
    selective = counted(found, "selective")
    return Demand(
        first=oxides + bonds[0].ozone,
        selective=sum(site.ozone for site in selective),
        full=oxides + sum(site.ozone for site in bonds),
        rings=sum(site.at_last - (site.ozone if site in bonds else 0) for site in rings),
    )


def products(
    substrate: Substrate, work_up: str, cut: Cut = "selective"
) -> tuple[Product, ...] | None:
    """Return the products of a cut and work-up, the heaviest first, or None if it can't be told.

    Raises
    ------
    NotApplicable
        No such work-up.
    Inconsistent
        Water alone as the work-up of a double bond.
    """
    taken = attacked(substrate.all_sites, cut)
    if taken is None:
        return None
    if work_up == "hydrolytic" and any(site.kind.act != "alkyne" for site in taken):
        raise Inconsistent(
            "water alone leaves the ozonide of a double bond to break up by itself, with peroxide",
            got="hydrolytic",
            fix="Write reductive, borohydride or oxidative; hydrolytic is for alkynes.",
        )
    done = cleaved(structure=substrate.structure, attacked=taken, work_up=work_up)
    return tuple(_products(done))


def _products(done: Chem.Mol) -> Iterator[Product]:
    counted: dict[str, list[Chem.Mol]] = {}
    for part in Chem.GetMolFrags(done, asMols=True):
        counted.setdefault(Chem.MolToSmiles(part), []).append(part)
    masses = {text: molar_mass(structure=parts[0]) for text, parts in counted.items()}
    heaviest = max(masses.values())
    for text, parts in sorted(counted.items(), key=lambda item: (-masses[item[0]], item[0])):
        yield Product(
            smiles=text,
            formula=formula(structure=parts[0]),
            molar_mass=masses[text],
            count=len(parts),
            role="product" if masses[text] == heaviest else "co-product",
        )


def peroxides(
    substrate: Substrate, cut: Cut = "selective", alcohol: str | None = None
) -> tuple[Peroxide, ...]:
    """Return the peroxides that may stand in the flask, the heaviest first.

    Parameters
    ----------
    substrate : Substrate
        What is ozonised.
    cut : Cut
        How far.
    alcohol : str, optional
        SMILES of a solvent that traps the carbonyl oxide; without it ozonides form.

    Notes
    -----
    Nothing where no double bond is cleaved, or where the first can't be told. With several double
    bonds in an alcohol, both ways to split are shown, not every mixture of them.
    """
    found = attacked(substrate.all_sites, cut) or ()
    taken = [site for site in found if site.kind.act == "alkene"]
    if not taken:
        return ()
    kind: Literal["ozonide", "alkoxy hydroperoxide"] = "ozonide"
    made: tuple[Chem.Mol, ...] = (ozonide(structure=substrate.structure, attacked=taken),)
    if alcohol is not None:
        kind = "alkoxy hydroperoxide"
        made = alkoxy_hydroperoxides(
            structure=substrate.structure, attacked=taken, alcohol=molecule(smiles=alcohol)
        )
    peroxide = Chem.MolFromSmarts("[OX2][OX2]")
    parts = {
        Chem.MolToSmiles(part): part
        for whole in made
        for part in Chem.GetMolFrags(whole, asMols=True)
        if part.HasSubstructMatch(peroxide)
    }
    found_all = [
        Peroxide(kind, text, formula(structure=part), molar_mass(structure=part))
        for text, part in parts.items()
    ]
    return tuple(sorted(found_all, key=lambda one: (-one.molar_mass, one.smiles)))
