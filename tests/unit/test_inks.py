"""The inks of page, report and figure: enough contrast, and told apart with any colour vision.

Contrast is that of WCAG 2.1 (W3C, 2018: relative luminance and contrast ratio, success criteria
1.4.3 and 1.4.11). Colour vision deficiency is simulated with the matrices of severity 1.0 of
Machado, Oliveira and Fernandes (2009), A physiologically-based model for simulation of color
vision deficiency, IEEE Trans. Vis. Comput. Graph. 15 (6), 1291-1298, in linear sRGB; they were
read as quoted by others. Distance is that of CIELAB, 1976 (D65).
"""

from __future__ import annotations

import re
from itertools import combinations
from pathlib import Path

import numpy as np
import pytest

import ozonewright
from ozonewright.show.ink import PAPER, plot_style

HERE = Path(ozonewright.__file__).parent
INK = re.compile(r"--(\w+):\s*(#[0-9a-f]{6})")
TEXT, GRAPHIC = 4.5, 3.0
"""Least contrast of small letters, and of what must be seen in a picture."""
APART = 20.0
"""Least distance of two inks that mean different things; 2.3 is just noticeable."""
VISION = {
    "usual": np.eye(3),
    "protan": np.array([[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216],
                        [-0.003882, -0.048116, 1.051998]]),
    "deutan": np.array([[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413],
                        [-0.011820, 0.042940, 0.968881]]),
    "tritan": np.array([[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602],
                        [0.004733, 0.691367, 0.303900]]),
}  # fmt: skip
TO_XYZ = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])


def linear(ink: str) -> np.ndarray:
    share = np.array([int(ink[at : at + 2], 16) for at in (1, 3, 5)]) / 255.0
    return np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)


def contrast(one: str, other: str) -> float:
    low, high = sorted(float(TO_XYZ[1] @ linear(ink)) for ink in (one, other))
    return (high + 0.05) / (low + 0.05)


def lab(colour: np.ndarray) -> np.ndarray:
    x, y, z = TO_XYZ @ np.clip(colour, 0.0, 1.0) / TO_XYZ.sum(axis=1)
    a, b, c = (t ** (1 / 3) if t > 0.008856 else 7.787 * t + 16 / 116 for t in (x, y, z))
    return np.array([116 * b - 16, 500 * (a - b), 200 * (b - c)])


def distance(one: str, other: str, vision: str) -> float:
    seen = [lab(VISION[vision] @ linear(ink)) for ink in (one, other)]
    return float(np.linalg.norm(seen[0] - seen[1]))


def palettes() -> dict[str, dict[str, str]]:
    """Return the inks of every sheet: light and dark pages, light and dark report, pictures."""
    found = {"pictures": PAPER}
    for file in (HERE / "web/static/paper.css", HERE / "report/report.css"):
        light, _, rest = file.read_text(encoding="utf-8").partition("prefers-color-scheme: dark")
        dark = rest.partition("}")[0]
        found[f"{file.stem}, light"] = dict(INK.findall(light))
        if dark_inks := dict(INK.findall(dark)):
            found[f"{file.stem}, dark"] = found[f"{file.stem}, light"] | dark_inks
    return found


def test_the_yardsticks_agree_with_published_figures() -> None:
    """WCAG: black on white is 21:1 and #767676 the lightest grey of 4.5:1 (4.54:1).

    Lab of sRGB red is 53.2, 80.1, 67.2 in the tables of IEC 61966-2-1 (from memory).
    """
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)
    assert contrast("#777777", "#ffffff") < TEXT
    assert lab(linear("#ff0000")) == pytest.approx([53.2, 80.1, 67.2], abs=0.1)


@pytest.mark.parametrize("sheet", palettes())
def test_letters_and_lines_stand_out_from_their_paper(sheet: str) -> None:
    inks = palettes()[sheet]
    for name in ("ink", "soft", "gas", "accent"):
        assert contrast(inks[name], inks["paper"]) >= TEXT, name


@pytest.mark.parametrize("vision", VISION)
@pytest.mark.parametrize("sheet", palettes())
def test_what_is_measured_and_what_must_stop_are_told_apart(sheet: str, vision: str) -> None:
    inks = palettes()[sheet]
    assert distance(inks["gas"], inks["accent"], vision) >= APART
    assert distance(inks["ink"], inks["accent"], vision) >= APART


def drawn() -> dict[str, dict[str, str]]:
    """Return how each class of the figures is drawn."""
    rules = re.findall(r"\.plot (?:text)?\.?(\w+)[^{]*\{([^}]*)\}", plot_style())
    return {name: dict(re.findall(r"([\w-]+):\s*([^;]+);", body)) for name, body in rules}


LINES = ("line", "level", "chain", "axis", "grid")
MARKS = ("point", "open")


@pytest.mark.parametrize("kinds", [LINES, MARKS])
def test_no_two_lines_or_marks_differ_by_colour_alone(kinds: tuple[str, ...]) -> None:
    """Dashes, width, or filled against open: a photocopy tells them apart too."""
    styles = drawn()
    for one, other in combinations(kinds, 2):
        bare = [
            {key: value == "none" if key == "fill" else value
             for key, value in styles[name].items() if key != "stroke"}
            for name in (one, other)
        ]  # fmt: skip
        assert bare[0] != bare[1], (one, other)


def test_a_pair_that_some_eyes_confuse_is_found() -> None:
    """Red and green of one lightness: far apart for most eyes, near for a deutan."""
    red, green = "#c0504d", "#6f8a3c"
    assert distance(red, green, "usual") > 50.0
    assert distance(red, green, "deutan") < APART
