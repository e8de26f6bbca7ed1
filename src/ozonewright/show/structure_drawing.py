"""Structures as SVG of our own page: ink on nothing, sites ringed and numbered, never by colour.

Lines and letters take the ink of the page (`currentColor`), so that one drawing serves light, dark
and print. What the drawing shows stands in words in its label.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from html import escape
from math import atan2, cos, hypot, pi, sin, tau
from typing import Any

from rdkit import Chem
from rdkit.Chem.Draw import rdMolDraw2D

from ozonewright.physics.chemistry.structure.reading import formula, molecule
from ozonewright.physics.chemistry.structure.sites import Site
from ozonewright.questions.reaction.structure import SiteLine, Substrate

BOND = 36.0
"""Length of a bond on the page, in px."""
LETTERS = 14
"""Smallest letters of atoms, in px."""
MARGIN = 26.0
"""Room around the structure for the numbers of its sites."""
REACH = 11.0
"""Radius of the ring around an atom, and half the width of that around a bond."""
DISC = 8.0
"""Radius of the disc that holds a number."""
WAYS = 24
"""Directions tried for the number of an atom."""
DASHES = ("", "4 3", "1.5 3")
"""Outline of the first, the second and every further line of sites."""
PATH = re.compile(r"<path [^>]*?\bd='([^']+)'([^>]*)/>")
"""A line or letter as the library writes it: its path, and the rest with its style."""
_Point = tuple[float, float]


def substrate_drawing(substrate: Substrate) -> str:
    """Return the substrate with every site ringed and numbered in the order of attack."""
    words = "; ".join(site_words(substrate.sites))
    label = f"Structure of {substrate.formula}, {substrate.smiles}. Sites in order: {words}."
    return _drawing(substrate.structure, substrate.sites, label)


def product_drawing(smiles: str) -> str:
    """Return a product, without marks."""
    structure = molecule(smiles=smiles)
    return _drawing(structure, (), f"Structure of {formula(structure=structure)}, {smiles}.")


def site_words(lines: Sequence[SiteLine]) -> list[str]:
    """Return what each number in the drawing means."""
    return [
        f"{number} {line.kind}" + (f", {line.count} of them" if line.count > 1 else "")
        for number, line in enumerate(lines, 1)
    ]


def _drawing(structure: Chem.Mol, lines: Sequence[SiteLine], label: str) -> str:
    drawer = rdMolDraw2D.MolDraw2DSVG(-1, -1)
    options: Any = drawer.drawOptions()
    options.useBWAtomPalette()
    options.clearBackground = False
    options.scalingFactor = BOND / 1.5
    options.padding = 0.0
    options.minFontSize = LETTERS
    drawer.DrawMolecule(structure)
    drawer.FinishDrawing()
    points = [drawer.GetDrawCoords(atom) for atom in range(structure.GetNumAtoms())]
    marks = _marks(structure, lines, [(point.x, point.y) for point in points])
    wide, high = drawer.Width() + 2.0 * MARGIN, drawer.Height() + 2.0 * MARGIN
    return (
        f'<svg class="structure" xmlns="http://www.w3.org/2000/svg" '
        f'viewBox="{-MARGIN:g} {-MARGIN:g} {wide:g} {high:g}" width="{wide:g}" height="{high:g}" '
        f'role="img" aria-label="{escape(label)}">'
        f"{''.join(_ink(drawer.GetDrawingText()))}{''.join(marks)}</svg>"
    )


def _ink(text: str) -> Iterator[str]:
    """Yield the lines and letters of the library's drawing in the ink of the page."""
    for match in PATH.finditer(text):
        path, style = match[1], match[2]
        if "fill:none" in style:
            yield f'<path d="{path}" fill="none" stroke="currentColor" stroke-width="1.6"/>'
        else:
            yield f'<path d="{path}" fill="currentColor"/>'


def _marks(
    structure: Chem.Mol, lines: Sequence[SiteLine], points: Sequence[_Point]
) -> Iterator[str]:
    middle = _mean(points)
    for number, line in enumerate(lines, 1):
        dash = DASHES[min(number, len(DASHES)) - 1]
        for site in line.sites:
            yield from _mark(structure, site, points, middle, number, dash)


def _mark(
    structure: Chem.Mol,
    site: Site,
    points: Sequence[_Point],
    middle: _Point,
    number: int,
    dash: str,
) -> Iterator[str]:
    outline = f' stroke-dasharray="{dash}"' if dash else ""
    style = f'fill="none" stroke="currentColor" stroke-width="1.2"{outline}'
    at = [points[atom] for atom in site.atoms]
    if site.kind.on == "ring":
        rings = [ring for ring in structure.GetRingInfo().AtomRings()
                 if set(ring) <= set(site.atoms)]  # fmt: skip
        centre = _mean([points[atom] for atom in rings[0]])
        yield _circle(centre, DISC + 1.0, style)
        yield _number(centre, number)
    elif site.kind.on == "bond":
        yield _capsule(at[0], at[1], style)
        yield _number(_aside(at, middle), number)
    else:
        near = structure.GetAtomWithIdx(site.atoms[0]).GetNeighbors()
        yield _circle(at[0], REACH, style)
        yield _number(_free(at[0], [points[atom.GetIdx()] for atom in near]), number)


def _mean(points: Sequence[_Point]) -> _Point:
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)


def _circle(at: _Point, radius: float, style: str) -> str:
    return f'<circle cx="{at[0]:.1f}" cy="{at[1]:.1f}" r="{radius:g}" {style}/>'


def _capsule(start: _Point, end: _Point, style: str) -> str:
    """Return a rounded outline around a bond."""
    (x, y), (far_x, far_y) = start, end
    length = hypot(far_x - x, far_y - y)
    side_x, side_y = -(far_y - y) / length * REACH, (far_x - x) / length * REACH
    return (
        f'<path d="M{x + side_x:.1f} {y + side_y:.1f}L{far_x + side_x:.1f} {far_y + side_y:.1f}'
        f"A{REACH:g} {REACH:g} 0 0 0 {far_x - side_x:.1f} {far_y - side_y:.1f}"
        f"L{x - side_x:.1f} {y - side_y:.1f}"
        f'A{REACH:g} {REACH:g} 0 0 0 {x + side_x:.1f} {y + side_y:.1f}Z" {style}/>'
    )


def _aside(bond: Sequence[_Point], middle: _Point) -> _Point:
    """Return a place beside a bond, on the side away from the middle of the structure."""
    (x, y), (far_x, far_y) = bond
    length = hypot(far_x - x, far_y - y)
    side_x, side_y = -(far_y - y) / length, (far_x - x) / length
    here_x, here_y = (x + far_x) / 2.0, (y + far_y) / 2.0
    outward = (here_x - middle[0]) * side_x + (here_y - middle[1]) * side_y
    reach = (REACH + DISC + 1.0) * (1.0 if outward >= 0.0 else -1.0)
    return here_x + side_x * reach, here_y + side_y * reach


def _free(at: _Point, near: Sequence[_Point]) -> _Point:
    """Return a place beside an atom, in the widest gap between its bonds."""
    bonds = [atan2(y - at[1], x - at[0]) for x, y in near] or [pi / 2.0]
    ways = [tau * step / WAYS for step in range(WAYS)]
    way = max(ways, key=lambda way: min(_between(way, bond) for bond in bonds))
    reach = REACH + DISC
    return at[0] + reach * cos(way), at[1] + reach * sin(way)


def _between(one: float, other: float) -> float:
    """Return the angle between two directions."""
    return abs((one - other + pi) % tau - pi)


def _number(at: _Point, number: int) -> str:
    return (
        f'<text x="{at[0]:.1f}" y="{at[1] + 4.0:.1f}" text-anchor="middle" font-size="12" '
        f'font-weight="600" fill="currentColor">{number}</text>'
    )
