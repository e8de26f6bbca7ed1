"""The drawn map: its geometry by hand, what stands on it, and the same as a table."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest

from ozonewright.bench.generator import Mapped, answered_with_maps, map_over, map_text
from ozonewright.errors import MissingValue
from ozonewright.questions.generator import Question
from ozonewright.questions.generator.map import mapped
from ozonewright.questions.generator.model import modelled
from ozonewright.show.contours import band, levels, line, line_path
from ozonewright.show.generator_map import map_figure_of
from ozonewright.show.sheet.blocks import Figure
from ozonewright.show.sheet.generator_maps import mapped_section
from unit.tubes import point, tube


def same(place: tuple[float, float]) -> tuple[float, float]:
    return place


def area(path: str) -> float:
    """By the surveyor's formula, of all rings of a path."""
    whole = 0.0
    for ring in re.findall(r"M([^z]*)z", path):
        places = [tuple(map(float, pair.split())) for pair in ring.split("L")]
        turned = [*places[1:], places[0]]
        whole += 0.5 * abs(
            sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(places, turned, strict=True))
        )
    return whole


GRID = np.linspace(0.0, 10.0, 11)


def test_a_slope_is_cut_where_it_has_the_height() -> None:
    """A field that is its own x: above 3.5 lies 6.5 of 10, and the line is upright."""
    field = np.repeat(GRID[:, None], 11, axis=1)
    assert area(band(GRID, GRID, field, 3.5, same)) == pytest.approx(65.0)
    pieces = line(GRID, GRID, field, 3.5)
    assert {place[0] for piece in pieces for place in piece} == {3.5}
    # ten pieces that touch are one stroke
    assert line_path(pieces, same).count("M") == 1
    assert band(GRID, GRID, field, 11.0, same) == ""
    assert area(band(GRID, GRID, field, -1.0, same)) == pytest.approx(100.0)


def test_a_hill_is_ringed_once() -> None:
    """Above 9 of 25 - r² lies a circle of radius 4: 50.27, of which a polygon has a little less."""
    x = np.linspace(-5.0, 5.0, 41)
    field = 25.0 - x[:, None] ** 2 - x[None, :] ** 2
    assert area(band(x, x, field, 9.0, same)) == pytest.approx(50.27, rel=0.01)
    assert line_path(line(x, x, field, 9.0), same).count("M") == 1


def test_heights_are_round() -> None:
    assert levels(np.array([0.12, 0.61])) == pytest.approx([0.2, 0.3, 0.4, 0.5, 0.6])
    assert levels(np.array([3.0, 3.0])) == []
    assert levels(np.array([-0.3, 0.3]), 3) == pytest.approx([-0.2, 0.0, 0.2])


@pytest.fixture(scope="module")
def found() -> Mapped:
    runs = (
        tube("slow", point(0.4), 0.500),
        tube("usual", point(0.8), 0.560),
        tube("weak", point(0.8, power=28.0), 0.45),
        tube("fast", point(2.0, wall=None), 0.590),
    )
    return answered_with_maps(Question(runs, runs[1].point))


def test_runs_stand_on_the_map(found: Mapped) -> None:
    wall = map_figure_of(map_over(found, "wall"), found.question)
    power = map_figure_of(map_over(found, "power"), found.question, "concentration")
    # the run whose temperature nobody read is on the map over power alone
    assert wall.svg.count("<circle") == 3
    assert power.svg.count("<circle") == 4
    assert wall.svg.count('class="open"') == 1
    assert 'class="open"' not in power.svg
    for drawn in (wall, power):
        assert 'class="here"' in drawn.svg
        assert 'role="img"' in drawn.svg
        assert "usual</text>" in drawn.svg
        assert drawn.svg.count('class="shade"') > 2
        assert len(drawn.svg) < 40_000
        assert len(drawn.rows) == 625
        assert all(len(row) == len(drawn.head) == 4 for row in drawn.rows)
    assert "lines: concentration, g/Nm³" in power.svg


def test_numbers_and_words_say_what_the_map_shows(found: Mapped) -> None:
    """Output rises with flow and falls with temperature; concentration falls with flow."""
    drawn = map_figure_of(map_over(found, "wall"), found.question)
    cells = np.array([[float(cell) for cell in row] for row in drawn.rows]).reshape(25, 25, 4)
    assert np.all(np.diff(cells[:, :, 2], axis=0) >= 0.0)
    assert np.all(np.diff(cells[:, :, 2], axis=1) <= 0.0)
    assert drawn.words.count("NL/min") == 25
    drawn = map_figure_of(map_over(found, "wall"), found.question, "concentration")
    cells = np.array([[float(cell) for cell in row] for row in drawn.rows]).reshape(25, 25, 4)
    assert np.all(np.diff(cells[:, :, 2], axis=0) < 0.0)


def test_maps_stand_on_the_sheet(found: Mapped) -> None:
    figures = [one for one in mapped_section(found).blocks if isinstance(one, Figure)]
    assert [one.title for one in figures[1:]] == [
        "Output over flow and tube temperature",
        "Concentration over flow and power",
    ]


def test_text_and_drawing_are_of_one_map(found: Mapped) -> None:
    lines = map_text(found, "wall").splitlines()
    assert lines[0].split(",")[:2] == ["flow (NL/min)", "tube temperature (°C)"]
    assert len(lines) == 1 + 25 * 25
    flow, _, rate, low, high, strength = map(float, lines[1].split(","))
    assert low < rate < high
    # by hand: g/h over NL/h of feed less half the ozone (1 g of ozone is 0.467 NL)
    assert strength == pytest.approx(1000.0 * rate / (60.0 * flow - 0.2335 * rate), rel=1e-3)


def test_a_map_over_power_needs_power() -> None:
    runs = (tube("bare", point(0.8, power=None), 0.5),)
    found = answered_with_maps(Question(runs, runs[0].point))
    assert [one.over for one in found.maps] == ["wall"]
    for wrong in (lambda: map_over(found, "power"), lambda: map_text(found, "power")):
        with pytest.raises(MissingValue, match="needs the power"):
            wrong()


def test_a_map_says_what_the_answer_says_at_each_place(found: Mapped) -> None:
    """Places between the nodes too, each worked out by itself with all draws."""
    question, fit = found.question, found.fit
    flows = np.linspace(0.5, 1.6, 24) * question.point.flow
    powers = np.linspace(0.5, 1.6, 24) * float(question.point.power or 0.0)
    drawn = mapped(fit, question.point, flows, powers)
    for i, j in ((0, 0), (1, 22), (11, 12), (17, 5), (23, 23)):
        place = replace(question.point, flow=float(flows[i]), power=float(powers[j]))
        rates = modelled(fit.lumped, fit.draws, [place]).rate[:, 0]
        low, middle, high = np.percentile(rates, (2.5, 50.0, 97.5))
        assert drawn.rate[i, j] == pytest.approx(middle, rel=0.01)
        assert drawn.low[i, j] == pytest.approx(low, rel=0.03)
        assert drawn.high[i, j] == pytest.approx(high, rel=0.03)
