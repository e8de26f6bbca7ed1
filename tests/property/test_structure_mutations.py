"""SMILES damaged at random end in an answer or in a clear error, never in a trace."""

from __future__ import annotations

import random
from typing import get_args

from ozonewright.errors import AppError
from ozonewright.questions.reaction.cautions import cautions
from ozonewright.questions.reaction.structure import Cut, peroxides, products, read_substrate
from ozonewright.show.structure_drawing import substrate_drawing
from ozonewright.show.words import sentence

SOUND = (
    "C/C=C/c1ccc(O)c(OC)c1", "C=C(C)C1CC=C(C)CC1", "c1ccc2ncccc2c1", "CC(C)=CCCC(C)CC=O",
    "C=CC(=O)OC", "C[C@H](N)C(=O)O", "C=CCN(C)C", "C=C[N+](=O)[O-]", "C#CCCCC", "C=CCSC",
    "c1ccc2[nH]ccc2c1", "O=C1C=CC(=O)C=C1", "C=C=C(C)C", "C=CC[Si](C)(C)C", "[CH2:1]=[CH2:2]",
)  # fmt: skip
LETTERS = "CCCCCNOSPFIBclnos()[]=#-/\\123@+.H%:$*~ 0"


def damaged(draw: random.Random) -> str:
    letters = list(draw.choice(SOUND))
    for _ in range(draw.randint(1, 2)):
        place = draw.randrange(len(letters))
        act = draw.choice(("cut", "put", "change"))
        if act == "put":
            letters.insert(place, draw.choice(LETTERS))
        elif act == "change":
            letters[place] = draw.choice(LETTERS)
        elif len(letters) > 1:
            del letters[place]
    return "".join(letters)


def ends_in_an_answer(smiles: str) -> bool:
    """Do all that a plan and a page do with a structure; False where it is refused."""
    try:
        substrate = read_substrate(smiles)
    except AppError:
        return False
    for cut in get_args(Cut):
        made = products(substrate, "oxidative", cut)
        assert all(sentence(note) for note in cautions(substrate, cut, made))
        peroxides(substrate, cut, alcohol="CO")
    assert substrate_drawing(substrate).startswith("<svg")
    return True


def test_damaged_structures_end_in_words() -> None:
    """Every refusal has a mend, as tests/contract/test_errors.py sees to."""
    draw = random.Random(20260509)
    answered = sum(ends_in_an_answer(damaged(draw)) for _ in range(800))
    assert 60 < answered < 740
