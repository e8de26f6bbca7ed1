"""Ozone itself, tail bottle and destruct, materials: against hand sums and what was read."""

from __future__ import annotations

import pytest

from ozonewright.errors import NoDataInRange, UnknownSubstance
from ozonewright.physics.hazards import destruct, ozone
from ozonewright.physics.hazards.solvent import vapour_of
from ozonewright.references.constants import O3_FORMATION_ENTHALPY
from ozonewright.references.hazards import hazard
from ozonewright.references.materials import disagree, material, ratings, worst
from ozonewright.references.tables import rows


@pytest.mark.parametrize(("kelvin", "condenses"), [(195.15, False), (77.0, True), (120.0, True)])
def test_ozone_condenses_in_a_trap_that_is_too_cold(kelvin: float, condenses: bool) -> None:
    """5 vol% is 5 kPa; ozone has 98 kPa at 161.3 K, so a dry-ice bath leaves it gas by far."""
    found = ozone.condensed_share(
        mole_fraction=0.05,
        pressure=101325.0,
        vapour_pressure=vapour_of(substance="ozone", temperature=kelvin).pressure,
    )
    assert bool(found > 1.0) is condenses


def test_ozone_boils_where_it_is_said_to() -> None:
    """About 1 atm at 161.3 K; 0.61 to 0.64 kPa at 111.5 K (library values of the notes)."""
    boiling = vapour_of(substance="ozone", temperature=161.3).pressure
    assert boiling == pytest.approx(98e3, rel=0.05)
    assert 600.0 < vapour_of(substance="ozone", temperature=111.5).pressure < 650.0


def test_energy_of_peroxide_by_hand() -> None:
    assert ozone.energy_of_peroxide(amount=0.010, enthalpy=267e3) == pytest.approx(2670.0)


def test_tail_bottle_by_hand() -> None:
    # 24.1 mmol of iodide take 12.05 mmol of ozone; 11.1 mmol/h would need 65 min.
    capacity = destruct.tail_capacity(reagent=24.1e-3, per_ozone=2.0)
    assert capacity == pytest.approx(12.05e-3)
    time = destruct.time_to_exhaustion(capacity=capacity, arriving=11.1e-3 / 3600.0)
    assert time / 60.0 == pytest.approx(65.1, abs=0.1)


def test_bed_by_hand() -> None:
    # 1 vol% of ozone at 141.75 kJ/mol: 1417 J per mole of gas, 48.2 K.
    heat = destruct.bed_heat(
        ozone=0.01, ozone_enthalpy=O3_FORMATION_ENTHALPY, vapour=0.0, vapour_enthalpy=2.2e6
    )
    rise = destruct.bed_temperature_rise(heat=heat, gas_flow=1.0, heat_capacity=29.4)
    assert rise == pytest.approx(48.2, abs=0.1)
    # 1 vol% of ethyl acetate (2.24 MJ/mol) burnt besides: sixteen times as much.
    both = destruct.bed_heat(
        ozone=0.01, ozone_enthalpy=O3_FORMATION_ENTHALPY, vapour=0.01, vapour_enthalpy=2.24e6
    )
    assert both / heat == pytest.approx(16.8, abs=0.1)


def test_explosive_limit_as_read() -> None:
    """jcej_1999, abstract: 10 vol%."""
    assert hazard("OZONE_EXPLOSIVE").value == pytest.approx(0.10)


def test_an_unknown_figure_is_told() -> None:
    with pytest.raises(NoDataInRange, match="OZONE_EXPLOSIVE"):
        hazard("OZONE_EXPLOSIVES")


def test_materials_as_the_notes_have_them() -> None:
    assert worst(ratings("PTFE", "ozone")) == "use"
    assert worst(ratings("nylon", "ozone")) == "avoid"
    assert worst(ratings("316", "wet ozone")) == "short"
    assert worst(ratings("glass", "solvent")) == "use"
    assert worst(ratings("hot glue", "oxygen")) == "avoid"
    assert worst(ratings("galvanised steel", "cold")) is None


def test_sources_that_differ_are_seen() -> None:
    assert disagree(ratings("polycarbonate", "ozone"))
    assert disagree(ratings("copper", "ozone"))
    assert not disagree(ratings("nylon", "ozone"))


def test_names_of_materials() -> None:
    assert material("Buna-N") == "NBR"
    assert material(" PMMA ") == "acrylic"
    with pytest.raises(UnknownSubstance, match="PTFE"):
        material("PTFF")
    assert all(ratings(row["name"], "ozone") for row in rows("materials"))
