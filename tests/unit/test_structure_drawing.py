"""Drawings of structures: whole, without colours of their own, told in words."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from ozonewright.questions.reaction.structure import products, read_substrate
from ozonewright.show.structure_drawing import product_drawing, site_words, substrate_drawing

SVG = "{http://www.w3.org/2000/svg}"
SUBSTRATES = (
    "C/C=C/c1ccc(O)c(OC)c1", "C=C(C)C1CC=C(C)CC1", "CC(C)=CCCC(C)CC=O", "C=CCSCC(OC)OC",
    "c1ccc2ncccc2c1", "C=C", "CC#CC", "CC(C)=CCC/C=C(\\C)CC/C=C(\\C)CCC=C(C)C", "C=Cc1ccncc1",
    "C[C@H](CC=O)CCC=C(C)C",
)  # fmt: skip


@pytest.mark.parametrize("smiles", SUBSTRATES)
def test_every_site_is_ringed_and_numbered(smiles: str) -> None:
    substrate = read_substrate(smiles)
    drawing = ElementTree.fromstring(substrate_drawing(substrate))
    numbers = [text.text for text in drawing.iter(f"{SVG}text")]
    wanted = [
        str(number) for number, line in enumerate(substrate.sites, 1) for _ in range(line.count)
    ]
    assert numbers == wanted
    outlines = [*drawing.iter(f"{SVG}circle")]
    outlines += [path for path in drawing.iter(f"{SVG}path") if "A11 11" in path.attrib["d"]]
    assert len(outlines) == len(wanted)


@pytest.mark.parametrize("smiles", SUBSTRATES)
def test_the_ink_is_that_of_the_page(smiles: str) -> None:
    text = substrate_drawing(read_substrate(smiles))
    assert "style" not in text
    assert "#" not in re.sub(r'aria-label="[^"]*"', "", text)
    assert set(re.findall(r'(?:fill|stroke)="([^"]*)"', text)) <= {"currentColor", "none"}


@pytest.mark.parametrize("smiles", SUBSTRATES)
def test_everything_stands_inside_the_frame(smiles: str) -> None:
    drawing = ElementTree.fromstring(substrate_drawing(read_substrate(smiles)))
    left, top, wide, high = map(float, drawing.attrib["viewBox"].split())
    for text in drawing.iter(f"{SVG}text"):
        assert left + 5.0 <= float(text.attrib["x"]) <= left + wide - 5.0
        assert top + 10.0 <= float(text.attrib["y"]) <= top + high - 2.0


def test_the_first_site_has_another_outline_than_the_next() -> None:
    drawing = substrate_drawing(read_substrate("C=C(C)C1CC=C(C)CC1"))
    assert drawing.count("A11 11 0 0 0") == 4
    assert drawing.count("stroke-dasharray") == 1


def test_the_drawing_is_told_in_words() -> None:
    substrate = read_substrate("C/C=C/c1ccc(O)c(OC)c1")
    label = ElementTree.fromstring(substrate_drawing(substrate)).attrib["aria-label"]
    assert label == (
        "Structure of C10H12O2, C/C=C/c1ccc(O)c(OC)c1. "
        "Sites in order: 1 aryl alkene; 2 electron-rich aromatic ring."
    )
    assert site_words(read_substrate("C=CC=C").sites) == ["1 diene, 2 of them"]


def test_products_bear_no_marks() -> None:
    made = products(read_substrate("C=CCCCC"), "reductive")
    assert made is not None
    for one in made:
        drawing = ElementTree.fromstring(product_drawing(one.smiles))
        assert one.formula in drawing.attrib["aria-label"]
        assert [*drawing.iter(f"{SVG}text")] == []
        assert [*drawing.iter(f"{SVG}path")]
