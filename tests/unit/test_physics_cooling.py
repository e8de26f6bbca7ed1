"""Air on a tube and through its box: textbook examples, limits, figures by hand."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from ozonewright.errors import OutOfBounds
from ozonewright.physics.generator.box_air import (
    air_density,
    air_needed,
    air_rise,
    fan_flow,
    opening_resistance,
)
from ozonewright.physics.generator.cooling import (
    across_churchill_1977,
    heat_given_off,
    rise_of_heat,
    still_churchill_1975,
)

ROOM = {"temperature": 298.15, "pressure": 101325.0}


def test_a_cylinder_across_a_stream_as_a_textbook_has_it() -> None:
    # incropera_2007, example 7.4, from memory: Re 6071, Pr 0.70 give Nu 40.6
    found = across_churchill_1977(reynolds=np.array([6071.0]), prandtl=0.70)
    assert found == pytest.approx([40.6], rel=0.005)


def test_a_cylinder_in_still_air_as_a_textbook_has_it() -> None:
    # incropera_2007, example 9.4, from memory: Ra 5.073e6, Pr 0.697 give Nu 23.3; by a calculator
    # 23.09, so the example rounds on its way
    assert still_churchill_1975(rayleigh=5.073e6, prandtl=0.697) == pytest.approx(23.3, rel=0.01)


def test_air_through_a_box_by_hand() -> None:
    # 30 W, 10 m3/h at 25 °C: 0.11354 mol/s × 29.3 J/(mol K) = 3.327 W/K
    assert air_rise(heat=30.0, flow=10.0 / 3600.0, **ROOM) == pytest.approx(9.017, rel=1e-3)
    assert air_needed(heat=30.0, rise=9.017, **ROOM) * 3600.0 == pytest.approx(10.0, rel=1e-3)
    # 101325 × 0.028965 / (8.3145 × 298.15)
    assert air_density(**ROOM) == pytest.approx(1.184, rel=1e-3)


def test_a_fan_against_openings_by_hand() -> None:
    # 1.184 / (0.6 × 0.002)² = 822 000; 25 Pa (1 - q/q0) = 822 000 q² at q0 30 m3/h: 14.35 m3/h
    resistance = opening_resistance(area=20e-4, density=1.184, discharge=0.6)
    assert resistance == pytest.approx(822_200, rel=1e-3)
    flow = fan_flow(free_flow=30.0 / 3600.0, shut_off=25.0, resistance=resistance)
    assert flow * 3600.0 == pytest.approx(14.35, rel=1e-3)
    assert 25.0 * (1.0 - flow * 120.0) == pytest.approx(resistance * flow**2)
    free = fan_flow(free_flow=np.array([0.01]), shut_off=25.0, resistance=0.0)
    assert free == pytest.approx([0.01])
    assert fan_flow(free_flow=0.01, shut_off=25.0, resistance=1e12) < 1e-4


TUBE: dict[str, Any] = {
    "air": 298.15, "pressure": 101325.0, "velocity": 0.0, "diameter": 0.02, "length": 0.2,
    "viscosity": 1.85e-5, "films": 1.0,
}  # fmt: skip


def test_heat_by_hand() -> None:
    """A black-body sum for radiation alone: no film, 60 K over 25 °C, 0.012566 m², 0.9."""
    shine = heat_given_off(rise=60.0, **(TUBE | {"films": 0.0}))
    assert shine == pytest.approx(0.012566 * 0.9 * 5.670374e-8 * (358.15**4 - 298.15**4), rel=1e-4)


def test_more_air_means_a_cooler_tube() -> None:
    velocities = np.array([0.0, 0.02, 0.5, 2.0, 8.0])
    rises = rise_of_heat(heat=20.0, **(TUBE | {"velocity": velocities}))
    assert np.all(np.diff(rises) <= 1e-9)
    # a breath below the tube's own draught changes nothing
    assert rises[1] == pytest.approx(rises[0])
    one = rise_of_heat(heat=20.0, **(TUBE | {"velocity": 2.0}))
    assert one == pytest.approx(rises[3])
    assert heat_given_off(rise=one, **(TUBE | {"velocity": 2.0})) == pytest.approx(20.0)


def test_a_tube_that_would_glow_is_refused() -> None:
    with pytest.raises(OutOfBounds, match="hotter than"):
        rise_of_heat(heat=2000.0, **TUBE)
