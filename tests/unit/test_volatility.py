"""What gas carries out of a liquid: against the library chemicals, and by hand."""

from __future__ import annotations

import warnings
from math import exp

import numpy as np
import pytest
from rdkit import Chem

from ozonewright.physics.chemistry.structure.boiling import (
    boiling_point_joback_1987,
    donates_hydrogen,
)
from ozonewright.physics.liquid.volatility import (
    drying,
    gas_over_liquid,
    stripping,
    vapour_pressure_of_boiling_point,
)
from ozonewright.questions.reaction.volatile import volatile_product, volatile_substrate
from ozonewright.records.reaction import Substrate
from ozonewright.references.boiling_groups import boiling_groups
from ozonewright.references.ozone_solvents import ozone_with

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    from chemicals import Tb
    from chemicals.vapor_pressure import Psat_data_Perrys2_8 as TABLE

VOLATILE = ("111-65-9", "592-41-6", "100-42-5", "110-83-8", "123-38-6", "67-64-1", "141-78-6")
"""Octane, 1-hexene, styrene, cyclohexene, propanal, acetone, ethyl acetate."""


def by_library(cas: str, kelvin: float) -> float:
    """The equation after Perry 2-8, not used for these in this program."""
    row = TABLE.loc[cas]
    exponent = row["C1"] + row["C2"] / kelvin + row["C3"] * np.log(kelvin)
    return float(np.exp(exponent + row["C4"] * kelvin ** row["C5"]))


@pytest.mark.parametrize("cas", VOLATILE)
def test_vapour_pressure_of_a_boiling_point_is_that_of_the_library(cas: str) -> None:
    kelvin = np.array([233.15, 273.15, 293.15])
    found = vapour_pressure_of_boiling_point(
        boiling_point=Tb(cas), temperature=kelvin, fishtine=1.0
    )
    wanted = np.array([by_library(cas, one) for one in kelvin])
    # within two standard uncertainties of the table's 0.35
    assert np.abs(np.log(found / wanted)).max() < 0.7


def test_at_the_boiling_point_it_is_one_bar() -> None:
    found = vapour_pressure_of_boiling_point(boiling_point=350.0, temperature=350.0, fishtine=1.25)
    assert found == pytest.approx(1e5)


def test_alcohols_are_held_back() -> None:
    found = [
        vapour_pressure_of_boiling_point(
            boiling_point=Tb("71-36-3"), temperature=293.15, fishtine=k
        )
        for k in (1.0, 1.25)
    ]
    wanted = by_library("71-36-3", 293.15)
    assert abs(np.log(found[1] / wanted)) < abs(np.log(found[0] / wanted))
    assert abs(np.log(found[1] / wanted)) < 1.6


def test_gas_over_liquid_by_hand() -> None:
    # 20 kPa over 10 mol/L at 300 K: 20e3/(8.31446 * 300 * 1e4)
    found = gas_over_liquid(
        vapour_pressure=20e3, activity=np.array([1.0, 3.0]), temperature=300.0, liquid=1e4
    )
    assert found == pytest.approx([8.0181e-4, 24.054e-4], rel=1e-4)


def test_stripping_is_at_most_what_balance_allows() -> None:
    given = {"flow": 1.3e-5, "volume": 1e-4, "ratio": 8e-4}
    free = stripping(**given, through=0.02, area_time=1e6)
    assert free == pytest.approx(1.3e-5 * 8e-4 / 1e-4)
    short = stripping(**given, through=np.array([0.02, 0.0]), area_time=40.0)
    assert short == pytest.approx([free * (1.0 - exp(-0.8)), 0.0])


def test_drying_by_hand() -> None:
    # half vapour doubles the gas: as much solvent as gas, 1 mol/s of 1e-4 m3/mol out of 1 m3
    assert drying(gas_flow=1.0, fraction=0.5, molar_volume=1e-4, volume=1.0) == pytest.approx(1e-4)


CHECKED = {
    "C=CCCCC": "592-41-6", "C=Cc1ccccc1": "100-42-5", "C1=CCCCC1": "110-83-8",
    "CC1=CCC(CC1)C(C)=C": "138-86-3", "O=Cc1ccccc1": "100-52-7", "CCCCCCCCC=O": "124-19-6",
    "CC(C)=O": "67-64-1", "CCOC(C)=O": "141-78-6", "OCC=C": "107-18-6", "C#CCCCC": "693-02-7",
    "CC#N": "75-05-8", "O=C1CCCCC1": "108-94-1", "ClC=CCl": "156-59-2",
}  # fmt: skip


@pytest.mark.parametrize(("smiles", "cas"), CHECKED.items())
def test_boiling_point_of_groups_is_near_that_of_the_library(smiles: str, cas: str) -> None:
    found = boiling_point_joback_1987(structure=Chem.MolFromSmiles(smiles))
    assert found is not None
    # two standard uncertainties of the table's 30 K
    assert found == pytest.approx(Tb(cas), abs=60.0)


def test_groups_by_hand() -> None:
    # styrene: ring 5 x 26.73 + 31.01, chain 24.96 + 18.18, 198.2 of the law
    found = boiling_point_joback_1987(structure=Chem.MolFromSmiles("C=Cc1ccccc1"))
    assert found == pytest.approx(198.2 + 5 * 26.73 + 31.01 + 24.96 + 18.18)
    assert boiling_point_joback_1987(structure=Chem.MolFromSmiles("C[Si](C)(C)C")) is None


def test_every_group_is_a_pattern() -> None:
    assert len(boiling_groups()) > 30
    assert all(Chem.MolFromSmarts(one.pattern) is not None for one in boiling_groups())


def test_hydrogen_bonds_are_seen() -> None:
    seen = [
        donates_hydrogen(structure=Chem.MolFromSmiles(s)) for s in ("CCO", "CNC", "COC", "CC=O")
    ]
    assert seen == [True, True, False, False]


def test_product_is_the_heaviest_carbonyl() -> None:
    isoeugenol = Substrate("C/C=C/c1ccc(O)c(OC)c1")
    found = volatile_product(isoeugenol, 1, "selective")
    assert found is not None
    assert found.boiling_point is not None
    # vanillin boils at 558 K (from memory)
    assert found.boiling_point.value == pytest.approx(558.0, abs=2.0 * found.boiling_point.u)
    assert found.donates
    assert found.estimated


def test_what_has_no_groups_or_no_product_is_not_known() -> None:
    silane = Substrate("C=CC[Si](C)(C)C")
    assert volatile_substrate(silane, 1) is None
    two_alike = Substrate("CC=CCC(CC=CCC)C")
    assert volatile_product(two_alike, 1, "first") is None


def test_ozone_with_solvents_is_that_of_the_published_law() -> None:
    known = ozone_with("isopropanol")
    assert known is not None
    # ln k = 29.64 - 8500/T in L/(mol s): 3.10 at 25 °C, activation energy 8500 K x R
    assert known.rate_constant == pytest.approx(exp(29.64 - 8500.0 / 298.15) * 1e-3, rel=0.01)
    assert known.energy == pytest.approx(8500.0 * 8.314, rel=0.01)
    assert ozone_with("ethyl acetate") is None
