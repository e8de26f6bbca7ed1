"""The gases a feed is made of."""

from __future__ import annotations

from ozonewright.references.constants import M_AIR, M_AR, M_N2, M_O2, constant

MOLAR_MASS = {"oxygen": M_O2, "nitrogen": M_N2, "argon": M_AR, "air": M_AIR}

DRY_AIR = {
    "oxygen": constant("X_O2_AIR"),
    "nitrogen": constant("X_N2_AIR"),
    "argon": constant("X_AR_AIR"),
}
"""Mole fraction of each part of dry air; the 0.04 % that is missing is carbon dioxide."""
