"""Structures whose ozonolysis is a bad idea or can't be foretold: refused, with the reason."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from rdkit import Chem

from ozonewright.errors import InputError

ORGANIC = {"H", "B", "C", "N", "O", "F", "Si", "P", "S", "Cl", "Se", "Br", "I"}


class Group(NamedTuple):
    """A pattern, why it is refused, and what to do instead."""

    smarts: str
    what: str
    fix: str


REFUSED = (
    Group("C=[CX2]=[O,N,S]", "a ketene: it takes ozone and then goes on by itself",
            "Make the acid, ester or amide of it first, or choose another substrate."),
    Group("[OX2][OX2]", "it is a peroxide already",
            "Reduce the peroxide before ozone comes near it."),
    Group("[#7]=[N+]=[#7-,#6-]", "an azide: it may explode, and phosphine or sulfide turns it",
            "Bring in the azide after the ozonolysis."),
    Group("[#6]=[N+]=[N-]", "a diazo compound: ozone takes it at once, with much heat",
            "Bring in the group after the ozonolysis."),
    Group("[C-]#[N+]", "an isocyanide: ozone takes it first, and not cleanly",
            "Bring in the group after the ozonolysis."),
    Group("[NX3;!$(N=*)][NX3,NX2]",
            "a hydrazine or hydrazone: ozone takes it sooner than a double bond, and not cleanly",
            "Free the carbonyl or protect the nitrogen first."),
    Group("[NX3;+0;!$(NC=O)][OX2]", "a hydroxylamine: ozone takes it sooner than a double bond, "
          "to a mixture of nitrogen oxides",
          "Protect it first, or bring in the group after the ozonolysis."),
    Group("[#6][NX2]=O", "a nitroso compound: ozone turns it to the nitro compound first",
            "Make the nitro compound first, or choose another substrate."),
    Group("[SX2;H1]", "a thiol: ozone takes it first, to a mixture of sulfur acids",
            "Protect the sulfur first."),
    Group("[SX2][SX2]", "a disulfide: ozone takes it first, to a mixture of sulfur acids",
            "Choose another protection of the sulfur."),
    Group("[#6]=[SX1]", "a thiocarbonyl: ozone takes it first, to a mixture",
            "Make the carbonyl compound first."),
    Group("[#34]", "selenium: ozone takes it first, and the selenoxide may eliminate by itself",
            "Remove the selenium first."),
    Group("[#5]", "boron: ozone breaks carbon-boron bonds",
            "Bring in the boron after the ozonolysis."),
    Group("[PX3][F,Cl,Br,I]", "a phosphorus halide: neither dry nor stable against ozone",
            "Choose another substrate."),
    Group("[#15;!H0]", "a phosphorus-hydrogen bond: ozone takes it first, and not cleanly",
            "Choose another substrate."),
    Group("[NX3;!H0;!$(N[C,S,P]=[O,S,N]);!$(NC#N);!$(N[!#6;!#1]);!$(N=*);!$(NC=C)]",
            "a primary or secondary amine: ozone takes it sooner than a double bond, and what "
            "comes out (hydroxylamine, nitro compound, imine with the new aldehyde) is a mixture",
            "Protect it as an amide or carbamate first and write that structure. Acid slows the "
            "attack a thousandfold, but the products are not foretold here."),
    Group("[a;r5;#7X3,#8]",
            "a furan, pyrrole, indole or the like: the ring reacts as fast as a double bond and "
            "opens to mixtures",
            "Keep the ring away from ozone: cleave the double bond by another method."),
)  # fmt: skip


@cache
def _patterns() -> tuple[tuple[Chem.Mol, Group], ...]:
    return tuple((Chem.MolFromSmarts(one.smarts), one) for one in REFUSED)


def refuse(structure: Chem.Mol, typed: str) -> None:
    """Raise if this is no single, neutral, whole molecule of known elements that may be ozonised.

    Raises
    ------
    InputError
        A mixture, salt, ion, radical, isotope, metal, or one of the refused groups.
    """
    if len(Chem.GetMolFrags(structure)) > 1:
        raise InputError("a salt or a mixture: one substrate is one molecule", got=typed,
                         fix='Write each substrate in its own [[substrate]], without ".", and '
                         "an acid or amine in its neutral form.")  # fmt: skip
    _refuse_atoms(structure, typed)
    for pattern, one in _patterns():
        if structure.HasSubstructMatch(pattern):
            raise InputError(one.what, got=typed, fix=one.fix)


def _refuse_atoms(structure: Chem.Mol, typed: str) -> None:
    strange = {atom.GetSymbol() for atom in structure.GetAtoms()} - ORGANIC
    if strange:
        raise InputError(f"{', '.join(sorted(strange))} in the structure: a metal or an element "
                         "whose way with ozone is not known here", got=typed,
                         fix="Choose a substrate without it.")  # fmt: skip
    if any(atom.GetNumRadicalElectrons() for atom in structure.GetAtoms()):
        raise InputError("a radical or an open valence", got=typed,
                         fix="Write the whole molecule: hydrogens belong inside square "
                         'brackets, as in "[CH3]".')  # fmt: skip
    if Chem.GetFormalCharge(structure):
        raise InputError("an ion without its counter-ion", got=typed,
                         fix="Write the neutral acid, amine or alcohol.")  # fmt: skip
    if any(atom.GetIsotope() for atom in structure.GetAtoms()):
        raise InputError("an isotope: masses here are those of natural elements", got=typed,
                         fix="Write it without the isotope and mind the molar mass.")  # fmt: skip
