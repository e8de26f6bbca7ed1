"""Two sums of the gate by hand, where a run of mutants found nobody watching a term."""

from __future__ import annotations

import pytest

from unit.gate_world import asked, world


def test_the_energy_of_the_peroxide_is_taken_at_its_highest() -> None:
    """267 kJ/mol and twice its 30 kJ/mol of doubt (cataldo_2014): 327 kJ for each mole."""
    (check,) = (one for one in asked(world()).checks if one.code == "peroxide-inventory")
    assert check.text is not None
    energy, amount = (check.text.values[name] for name in ("energy", "amount"))
    assert energy / amount == pytest.approx(327e3)
    assert amount == pytest.approx(10.0e-3, rel=0.02)


def test_vapours_count_together_by_their_limits_in_oxygen() -> None:
    """Dichloromethane burns from 11.7 % in oxygen, from 13 % in air: each over its own, added."""
    table = world()
    table["reaction"]["reaction"] |= {
        "solvent": "methanol 50 %, dichloromethane 50 %",
        "temperature": "-30.0 °C",
    }
    checks = [check for check in asked(table).checks if check.code == "vapour"]
    limits = [c.limit.values["value"] for c in checks if c.value.values["unit"] == "vol%"]
    assert sorted(limits) == pytest.approx([0.06, 0.117])
    alone = [
        c.value.values["value"] / c.limit.values["value"]
        for c in checks
        if c.value.values["unit"] == "vol%"
    ]
    together = [c.value.values["value"] for c in checks if c.value.values["unit"] == "%"]
    assert together == [pytest.approx(sum(alone))]
