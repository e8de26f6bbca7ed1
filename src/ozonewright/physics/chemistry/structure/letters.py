"""The characters of a SMILES: where its atoms stand in the text, and where it is misspelt."""

from __future__ import annotations

import re
from typing import NamedTuple

_TOKEN = re.compile(
    r"(?P<atom>\[[^\[\]]+\]|Cl|Br|[BCNOPSFI]|[bcnops])"
    r"|(?P<ring>%\d\d|\d)"
    r"|(?P<open>\()|(?P<close>\))"
    r"|(?P<bond>[-=#$:/\\.])"
)

_CROWDED = re.compile(r"H\d\d")


class Slip(NamedTuple):
    """A fault of the text: what, and the number of the character, counted from 1."""

    what: str
    character: int


class Letters(NamedTuple):
    """What the text holds, as far as its spelling goes."""

    atoms: tuple[int, ...]
    """The character at which each atom begins, counted from 1."""
    slip: Slip | None


def letters(*, smiles: str) -> Letters:
    """Place of each atom in a SMILES, and the first slip of its spelling.

    Parameters
    ----------
    smiles : str
        As typed. [-]

    Returns
    -------
    letters : Letters
        The character at which each atom begins, and the first slip, if there is one. [-]

    Raises
    ------
    None

    Valid
    -----
    Spelling alone: characters, brackets, branches and ring numbers, not valences.

    Source
    ------
    weininger_1988
    """
    atoms: list[int] = []
    opened: list[int] = []
    rings: dict[str, int] = {}
    place = 0
    while place < len(smiles):
        token = _TOKEN.match(smiles, place)
        if token is None:
            return Letters(tuple(atoms), _stranger(smiles, place))
        here, text = place + 1, token[0]
        if token["atom"]:
            atoms.append(here)
            if _CROWDED.search(text):
                return Letters(tuple(atoms), Slip("more hydrogens than an atom can bear", here))
        elif not atoms:
            return Letters((), Slip("it must begin with an atom", here))
        elif token["open"]:
            opened.append(here)
        elif token["close"]:
            if not opened:
                return Letters(tuple(atoms), Slip("a bracket closes that was never opened", here))
            opened.pop()
        elif token["ring"] and rings.pop(text.lstrip("%0"), None) is None:
            rings[text.lstrip("%0")] = here
        place = token.end()
    return Letters(tuple(atoms), _left_open(opened, rings))


def _stranger(smiles: str, place: int) -> Slip:
    if smiles.startswith("[]", place):
        return Slip("square brackets with nothing in them", place + 1)
    if smiles[place] == "[":
        return Slip("a square bracket is not closed", place + 1)
    return Slip(f'"{smiles[place]}" means nothing here', place + 1)


def _left_open(opened: list[int], rings: dict[str, int]) -> Slip | None:
    if opened:
        return Slip("a bracket is opened and never closed", opened[-1])
    if rings:
        number, here = max(rings.items(), key=lambda ring: ring[1])
        return Slip(f"ring number {number} is opened and never closed", here)
    return None
