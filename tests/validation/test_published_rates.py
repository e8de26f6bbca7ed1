"""Published rates that no table of ours holds: order of kinds of site, and how cold slows them."""

from __future__ import annotations

from itertools import pairwise
from math import exp, log

import pytest

from ozonewright.physics.chemistry.structure.reading import molecule
from ozonewright.physics.chemistry.structure.sites import sites
from ozonewright.questions.reaction.structure import read_substrate
from ozonewright.references.ozone_rates import ozone_rates
from ozonewright.references.ozone_solubility import absorption

GAS = [
    # cm³/molecule/s in air: grosjean_1998, grosjean_1994, alossaily_2025, catechol_2021, pccp_2010
    ("methyl acrylate", "C=CC(=O)OC", 1.05e-18),
    ("vinyl acetate", "C=COC(C)=O", 3.20e-18),
    ("4-methyl-1-pentene", "C=CCC(C)C", 9.4e-18),
    ("1,2-benzenediol", "Oc1ccccc1O", 9.60e-18),
    ("2-methyl-3-buten-2-ol", "C=CC(C)(C)O", 1.00e-17),
    ("1-pentene", "C=CCCC", 1.09e-17),
    ("3-buten-2-ol", "C=CC(C)O", 1.62e-17),
    ("cis-3-hexenyl acetate", "CC/C=C\\CCOC(C)=O", 5.90e-17),
    ("linalool", "CC(C)=CCCC(C)(O)C=C", 3.12e-16),
]
ALIKE = 1.2
"""Rates closer than this are no order: the texts differ by as much."""


def first(smiles: str) -> tuple[int, int]:
    """Return the rank of the site that goes first, and the groups on it."""
    site = sites(structure=molecule(smiles=smiles))[0]
    return site.kind.rank, site.groups


def test_kinds_of_site_stand_in_the_order_of_the_gas() -> None:
    """What is slower in the gas by more than a fifth never stands before what is faster."""
    for slow, slow_smiles, low in GAS:
        for fast, fast_smiles, high in GAS:
            if high > ALIKE * low:
                assert first(slow_smiles)[0] >= first(fast_smiles)[0], (slow, fast)


def test_more_groups_make_a_plain_double_bond_faster() -> None:
    plain = [(first(smiles)[1], rate) for _, smiles, rate in GAS if first(smiles)[0] == 6]
    by_groups = {groups: [rate for count, rate in plain if count == groups] for groups, _ in plain}
    assert sorted(by_groups) == [1, 2, 3]
    assert max(by_groups[1]) < min(by_groups[2]) < min(by_groups[3])
    # so does the table of rates in solution
    table = {rate.groups: rate.datum.value for rate in ozone_rates() if rate.kind == "alkene"
             and rate.stands_for_kind}  # fmt: skip
    assert all(table[a] < table[b] for a, b in pairwise(sorted(g for g in table if g)))


def test_an_order_that_is_wrong_is_caught() -> None:
    acrylate, pentene = (first(smiles)[0] for smiles in ("C=CC(=O)OC", "C=CCCC"))
    assert acrylate > pentene


def energy(*, factor: float, activation: float, at: float, printed: float) -> float:
    """Return the activation energy in kJ/mol, the printed constant being met to a tenth."""
    assert factor * exp(-activation / (8.314462618 * at)) == pytest.approx(printed, rel=0.1)
    return activation / 1e3


def test_double_bonds_slow_in_the_cold_as_taken() -> None:
    """The band of 0 to 24 kJ/mol, from memory, holds both published values of double bonds."""
    band = absorption("ACTIVATION")
    assert band.u is not None
    centre, half = band.value / 1e3, 3.0**0.5 * band.u / 1e3
    # pccp_2010, 217 to 301 K: 5.21e-15 exp(-15.66 kJ/RT), 9.4e-18 at 298 K
    pentene = energy(factor=5.21e-15, activation=15.66e3, at=298.0, printed=9.4e-18)
    # alossaily_2025: 3.52e-13 exp(-2115/T), 3.12e-16 at 298 K
    linalool = energy(factor=3.52e-13, activation=2115.0 * 8.314462618, at=298.0,
                      printed=3.12e-16)  # fmt: skip
    for published in (pentene, linalool):
        assert centre - half < published < centre + half
    # cresol_1996: about 30 kJ/mol for a phenol in water; the band is not meant for phenols
    assert centre + half < 30.0


def test_cold_at_minus_78_is_within_the_band() -> None:
    """From 25 to -78 °C, 15.66 kJ/mol slows by a factor of 28: the band reaches from 1 to 170."""
    cold = 1.0 / 195.15 - 1.0 / 298.15
    slower = 15.66e3 / 8.314462618 * cold
    most = absorption("ACTIVATION").value + 3.0**0.5 * (absorption("ACTIVATION").u or 0.0)
    assert slower == pytest.approx(log(28.1), rel=0.01)
    assert most / 8.314462618 * cold > slower


def test_an_enone_is_as_slow_as_published() -> None:
    """barron_2006: 480 ± 30 L/(mol s) for progesterone, of which the enone is the one site."""
    enone = read_substrate("CC(=O)C1CCC2C3CCC4=CC(=O)CCC4(C)C3CCC12C").sites[0]
    assert enone.itself
    assert enone.rate is not None
    assert enone.rate.datum.value == pytest.approx(0.480)
