"""Titrant, titre, ozone: limits, behaviour and hand sums."""

from __future__ import annotations

from math import isclose

import numpy as np
import pytest

from ozonewright.physics.assay.iodometry import (
    blank_at,
    iodide_ratio,
    ozone_from_thiosulfate,
    passed_all_bottles,
    thiosulfate_from_salt,
    thiosulfate_from_standard,
    thiosulfate_used,
)

ML = 1e-6
IODATE = {
    "mass": 0.8917e-3,
    "purity": 1.0,
    "molar_mass": 213.9998e-3,
    "equivalents": 6.0,
    "flask": 250 * ML,
    "aliquot": 10 * ML,
    "titre": 19.62 * ML,
}


def test_titrant_of_the_worked_run() -> None:
    # by hand: 0.8917 g ÷ 213.9998 g/mol = 4.16683 mmol; × 6 × 10/250 = 1.000040 mmol in 19.62 mL
    assert isclose(thiosulfate_from_standard(**IODATE), 50.9704, rel_tol=1e-5)


def test_titrant_from_dichromate() -> None:
    # by hand: 1.2259 g ÷ 294.1818 g/mol × 6 × 25/250 ÷ 25.00 mL = 0.10001 mol/L
    found = thiosulfate_from_standard(
        mass=1.2259e-3,
        purity=1.0,
        molar_mass=294.1818e-3,
        equivalents=6.0,
        flask=250 * ML,
        aliquot=25 * ML,
        titre=25 * ML,
    )
    assert isclose(found, 100.01, rel_tol=1e-4)


@pytest.mark.parametrize(
    ("given", "times"),
    [
        ({"mass": 2 * IODATE["mass"]}, 2.0),
        ({"purity": 0.5}, 0.5),
        ({"molar_mass": 2 * IODATE["molar_mass"]}, 0.5),
        ({"equivalents": 3.0}, 0.5),
        ({"flask": 500 * ML}, 0.5),
        ({"aliquot": 20 * ML}, 2.0),
        ({"titre": 39.24 * ML}, 0.5),
    ],
)
def test_titrant_scales(given: dict[str, float], times: float) -> None:
    base = thiosulfate_from_standard(**IODATE)
    assert isclose(thiosulfate_from_standard(**IODATE | given), times * base)


def test_titrant_by_weight_and_the_hydrate_slip() -> None:
    # by hand: 24.817 g of pentahydrate (248.172 g/mol) to 1 L is 0.1000 mol/L; called anhydrous
    # (158.097 g/mol) it would be 1.570 times that
    made = {"mass": 24.817e-3, "purity": 1.0, "flask": 1e-3}
    hydrate = thiosulfate_from_salt(**made, molar_mass=248.172e-3)
    assert isclose(hydrate, 100.0, rel_tol=1e-4)
    assert isclose(
        thiosulfate_from_salt(**made, molar_mass=158.097e-3) / hydrate, 1.570, rel_tol=1e-3
    )


def used(**given: float) -> float:
    base = {"concentration": 50.97, "titre": 28.46 * ML, "blank": 0.18 * ML}
    return float(thiosulfate_used(**{**base, "taken": 1.0, "warmth": 0.0, **given}))


def test_thiosulfate_of_a_bottle() -> None:
    # by hand: 28.28 mL × 0.05097 mol/L = 1.44143 mmol
    assert isclose(used(), 1.44143e-3, rel_tol=1e-5)
    assert used(blank=28.46 * ML) == 0.0
    assert isclose(used(taken=0.2), 5.0 * used())
    assert isclose(used(warmth=0.001), 0.999 * used())
    assert used(titre=0.0) < 0.0  # below its blank; the judgement speaks of it


def test_a_millimole_of_thiosulfate_is_24_mg_of_ozone() -> None:
    # procedure text (key sac_undated): 24.00 mg of ozone per mmol of thiosulfate
    ozone = ozone_from_thiosulfate(thiosulfate=1e-3)
    assert isclose(ozone * 47.997, 24.00e-3, abs_tol=0.005e-3)
    assert np.array_equal(ozone_from_thiosulfate(thiosulfate=np.array([0.0, 2.0])), [0.0, 1.0])


def test_iodide_ratio_of_the_worked_run() -> None:
    # design, section 4, by hand: 24.10 mmol over 2 × 0.721 mmol is 16.7
    assert isclose(iodide_ratio(iodide=24.10, ozone=0.721), 16.7, abs_tol=0.05)
    assert iodide_ratio(iodide=2.0, ozone=1.0) == 1.0


def test_field_blank_between_two_minutes() -> None:
    two = {"early_time": 60.0, "early_blank": 1.0, "late_time": 240.0, "late_blank": 4.0}
    assert blank_at(on_time=60.0, **two) == 1.0
    assert blank_at(on_time=240.0, **two) == 4.0
    assert blank_at(on_time=120.0, **two) == 2.0
    assert np.allclose(blank_at(on_time=np.array([0.0, 300.0]), **two), [0.0, 5.0])


def test_what_slips_past_all_bottles() -> None:
    # by hand: each lets a tenth pass; of 100, 90 + 9 are caught and 1 goes past two bottles,
    # and of 1000 with three bottles 900 + 90 + 9 are caught and 1 goes past
    assert isclose(passed_all_bottles(first=90.0, last=9.0, bottles=2.0), 0.01)
    assert isclose(passed_all_bottles(first=900.0, last=9.0, bottles=3.0), 0.001)
    assert passed_all_bottles(first=90.0, last=0.0, bottles=2.0) == 0.0
    shares = passed_all_bottles(first=np.ones(2), last=np.array([0.5, 1.0]), bottles=2.0)
    assert np.allclose(shares, [0.25, 1.0])
