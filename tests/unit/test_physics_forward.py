"""The assay in the other direction, against hand sums and against the way back."""

from __future__ import annotations

import numpy as np
import pytest

from ozonewright.physics.assay import forward, iodometry


def test_ozone_delivered_by_hand() -> None:
    # 2 µmol/s for 100 s, a quarter lost.
    found = forward.ozone_delivered(production=2e-6, on_time=np.array([0.0, 100.0]), loss=0.25)
    assert found == pytest.approx([0.0, 1.5e-4])


def test_bottles_in_series_by_hand() -> None:
    # Of 100, the first bottle takes 90, the second 9, the third 0.9.
    caught = [forward.ozone_in_bottle(delivered=100.0, capture=0.9, place=n) for n in (1, 2, 3)]
    assert caught == pytest.approx([90.0, 9.0, 0.9])


def test_a_perfect_bottle_leaves_nothing() -> None:
    assert forward.ozone_in_bottle(delivered=1.0, capture=1.0, place=2) == 0.0


def test_titre_by_hand() -> None:
    # 0.5 mmol of ozone takes 1 mmol of thiosulfate: 10.00 mL of 0.1 mol/L (sac_undated).
    found = forward.titre_expected(
        ozone=0.5e-3, recovery=1.0, surplus=0.0, concentration=100.0, blank=0.2e-6
    )
    assert found == pytest.approx(10.2e-6)
    # Half the iodate lost and a surplus of 0.25 mmol: 5.00 and 2.50 mL.
    found = forward.titre_expected(
        ozone=0.5e-3, recovery=0.5, surplus=0.25e-3, concentration=100.0, blank=0.0
    )
    assert found == pytest.approx(7.5e-6)


def test_standard_titre_and_its_inverse() -> None:
    known = {
        "mass": 0.8917e-3, "purity": 0.998, "molar_mass": 0.2139998, "equivalents": 6.0,
        "flask": 250e-6, "aliquot": 10e-6,
    }  # fmt: skip
    titre = forward.standard_titre_expected(concentration=50.0, **known)
    assert iodometry.thiosulfate_from_standard(titre=titre, **known) == pytest.approx(50.0)
    # By hand: 0.8917 × 0.998 / 213.9998 × 10/250 × 6 / 0.05 mol/L.
    assert titre == pytest.approx(19.9608e-6, rel=1e-5)
