"""Contents of cylinders against CoolProp, from which the shipped table was made."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI

from ozonewright.physics.gas.cylinder import amount_in_cylinder, compressibility_factor

ROOT = Path(__file__).parents[2]
CELSIUS_ZERO = 273.15


@pytest.mark.parametrize(("gas", "fluid"), [("oxygen", "Oxygen"), ("nitrogen", "Nitrogen"),
                                            ("air", "Air")])  # fmt: skip
def test_content_agrees_with_coolprop(gas: str, fluid: str) -> None:
    """1 to 250 bar, -20 to 50 °C, on and between the points of the table, edges included."""
    draw = np.random.default_rng(7)
    temperature = np.append(draw.uniform(-20.0, 50.0, 400), [-20.0, -20.0, 50.0, 50.0])
    temperature += CELSIUS_ZERO
    pressure = np.append(draw.uniform(1e5, 250e5, 400), [1e5, 250e5, 1e5, 250e5])
    density = PropsSI("Dmolar", "T", temperature, "P", pressure, fluid)
    found = amount_in_cylinder(
        volume=0.010,
        temperature=temperature,
        pressure=pressure,
        compressibility=compressibility_factor(gas=gas, temperature=temperature, pressure=pressure),
    )
    assert np.max(np.abs(found / (0.010 * density) - 1.0)) < 3e-5


def test_the_shipped_table_is_what_the_script_makes() -> None:
    script = ROOT / "docs" / "make_cylinder_gas.py"
    done = subprocess.run(
        [sys.executable, str(script), "--check"], capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stdout) == (0, "fresh\n")
