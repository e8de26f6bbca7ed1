"""From a SMILES to a molecule, its formula and its molar mass."""

from __future__ import annotations

from collections import Counter
from typing import Any, NoReturn, cast

from rdkit import Chem
from rdkit.Chem.rdMolDescriptors import CalcMolFormula
from rdkit.rdBase import DisableLog

from ozonewright.errors import InputError, MissingValue, OutOfBounds, UnknownSubstance
from ozonewright.physics.chemistry.structure.letters import letters
from ozonewright.references.constants import constant, names

DisableLog("rdApp.*")  # rdkit writes its own messages to standard error; ours name the place

PROBLEMS = {
    "AtomValenceException": "an atom has more bonds than it can",
    "KekulizeException": "an aromatic ring has no possible order of double bonds",
    "AtomKekulizeException": "an atom outside a ring is written as aromatic",
}
LONGEST = 1000
"""Characters of the longest SMILES that is read."""
_EXAMPLE = 'Write one such as "C/C=C/c1ccccc1".'


def molecule(*, smiles: str) -> Chem.Mol:
    """Molecule of a SMILES, its atoms in the canonical order.

    Parameters
    ----------
    smiles : str
        As typed. [-]

    Returns
    -------
    molecule : Mol
        One or more molecules of known elements. [-]

    Raises
    ------
    MissingValue
        Nothing is written.
    OutOfBounds
        Longer than any substrate of the bench.
    InputError
        Misspelt, or a valence that can't be; the character is told.

    Valid
    -----
    Any SMILES; stereochemistry is kept.

    Source
    ------
    weininger_1988
    rdkit_library
    """
    text = smiles.strip()
    if not text:
        raise MissingValue("no structure is written", got=repr(smiles), fix=_EXAMPLE)
    if len(text) > LONGEST:
        raise OutOfBounds(
            f"the SMILES is longer than {LONGEST} characters",
            got=f"{text[:40]}… ({len(text)} characters)",
            fix="Write one molecule of the substrate.",
        )
    raw = _raw(text)
    for problem in Chem.DetectChemistryProblems(raw):
        _stop(text, PROBLEMS[problem.GetType()], letters(smiles=text).atoms[_atom_of(problem)])
    whole = cast("Chem.Mol | None", Chem.MolFromSmiles(text))
    if whole is None:
        _stop(text, "the aromatic atoms make no aromatic ring", _first_aromatic(raw, text))
    for atom in whole.GetAtoms():
        atom.SetAtomMapNum(0)
    return Chem.MolFromSmiles(Chem.MolToSmiles(whole))


def _raw(text: str) -> Chem.Mol:
    spelling = letters(smiles=text)
    if spelling.slip is not None:
        _stop(text, spelling.slip.what, spelling.slip.character)
    found = cast("Chem.Mol | None", Chem.MolFromSmiles(text, sanitize=False))
    if found is not None:
        return found
    ends = [*(place - 1 for place in spelling.atoms[1:]), len(text)]
    for start, end in zip(spelling.atoms, ends, strict=True):
        atom = text[start - 1 : end].split("]")[0] + "]"
        if atom[0] == "[" and cast("Chem.Mol | None", Chem.MolFromSmiles(atom)) is None:
            _stop(text, f"{atom} is no atom", start)
    _stop(text, "the order of bonds and brackets makes no structure", _longest(text))


def _first_aromatic(raw: Chem.Mol, text: str) -> int:
    """Return the character of the first atom written as aromatic."""
    atom = next(atom.GetIdx() for atom in raw.GetAtoms() if atom.GetIsAromatic())
    return letters(smiles=text).atoms[atom]


def _longest(text: str) -> int:
    """Return the character at which the text stops to be the beginning of a structure."""
    return next(end + 1 for end in range(len(text), 0, -1) if _begins(text[:end]))


def _begins(start: str) -> bool:
    """Whether one more carbon, and the brackets closed, make a structure of this."""
    whole = f"{start}C{')' * (start.count('(') - start.count(')'))}"
    return cast("Chem.Mol | None", Chem.MolFromSmiles(whole, sanitize=False)) is not None


def _atom_of(problem: Any) -> int:
    if problem.GetType() == "KekulizeException":
        return int(problem.GetAtomIndices()[0])
    return int(problem.GetAtomIdx())


def _stop(text: str, what: str, character: int) -> NoReturn:
    place = min(character, len(text))
    marked = f"{text[: place - 1]}⟨{text[place - 1]}⟩{text[place:]}"
    raise InputError(
        f"the SMILES can't be read at character {place}: {what}",
        got=marked,
        fix=f"Mend what stands at the mark ⟨ ⟩. {_EXAMPLE}",
    )


def formula(*, structure: Chem.Mol) -> str:
    """Sum formula of a molecule, carbon and hydrogen first.

    Parameters
    ----------
    structure : Mol
        Sanitised. [-]

    Returns
    -------
    formula : str
        In the order of Hill. [-]

    Raises
    ------
    None

    Valid
    -----
    Any molecule.

    Source
    ------
    rdkit_library
    """
    return str(CalcMolFormula(structure))


def atoms(*, structure: Chem.Mol) -> Counter[str]:
    """Number of atoms of each element, hydrogen included.

    Parameters
    ----------
    structure : Mol
        Sanitised. [-]

    Returns
    -------
    atoms : Counter
        Of each element by its symbol. [1]

    Raises
    ------
    None

    Valid
    -----
    Any molecule.

    Source
    ------
    rdkit_library
    """
    found: Counter[str] = Counter()
    for atom in structure.GetAtoms():
        found[atom.GetSymbol()] += 1
        found["H"] += atom.GetTotalNumHs()
    return +found


def molar_mass(*, structure: Chem.Mol) -> float:
    """Molar mass of a molecule, summed from the standard atomic weights.

    Parameters
    ----------
    structure : Mol
        Sanitised, without isotopes. [-]

    Returns
    -------
    molar_mass : float
        Of the whole formula. [kg/mol]

    Raises
    ------
    UnknownSubstance
        An element whose weight stands in no shipped table.

    Valid
    -----
    Elements of natural composition.

    Source
    ------
    prohaska_2022, tables of standard and abridged values
    """
    total = 0.0
    for element, count in atoms(structure=structure).items():
        if f"A_{element}" not in names():
            raise UnknownSubstance(
                "no atomic weight of this element is shipped",
                got=element,
                fix="Ask with a substrate of carbon, hydrogen, nitrogen, oxygen, phosphorus, "
                "sulfur, silicon, boron, selenium or halogen.",
            )
        total += count * constant(f"A_{element}").value
    return total
