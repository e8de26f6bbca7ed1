"""The shipped cases redone with plain arithmetic, apart from the program's own formulae.

A slip of the pen in an expected figure shows here. Nothing below imports physics.
"""

from __future__ import annotations

from math import exp, log, sqrt

import pytest

from ozonewright.references.cases import Case, cases

FOUND = {case.id: case for case in cases()}
R = 8.314462618
O3, O2, AIR = 47.997, 31.998, 28.9647
KIO3, K2CR2O7, KI = 213.9998, 294.1818, 166.0028
NORMAL = R * 273.15 / 101325.0
CARRIER = {"oxygen": O2, "dry air": AIR}


def size(case: Case, name: str) -> float:
    """The figure of an input; the unit is known to who writes the sum."""
    return float(str(case.inputs[name]).split()[0])


def agrees(case: Case, **got: float) -> None:
    for check in case.checks:
        assert check.agrees(got[check.name]), (case.id, check, got[check.name])


def of(subject: str) -> list[Case]:
    found = [case for case in cases() if case.subject == subject]
    assert found, subject
    return found


def parameters(subject: str) -> pytest.MarkDecorator:
    return pytest.mark.parametrize("case", of(subject), ids=lambda case: case.id)


@parameters("iodometry.ozone_from_titres")
def test_ozone(case: Case) -> None:
    blank = size(case, "blank")
    net = [float(text.split()[0]) - blank for text in case.inputs["titres"]]
    amount = sum(net) * size(case, "titrant") / 2.0
    agrees(case, ozone=amount * O3, ozone_amount=amount, guard_share=100.0 * net[-1] / sum(net))


def test_titrants() -> None:
    for case in of("iodometry.titrant_from_iodate"):
        amount = size(case, "mass") / KIO3 * size(case, "aliquot") / size(case, "flask")
        agrees(case, titrant=6e3 * amount / size(case, "titre"))
    case = FOUND["I-04"]
    agrees(case, titrant=6e3 * size(case, "mass") / K2CR2O7 / size(case, "titre"))


@parameters("iodometry.rate")
def test_rates(case: Case) -> None:
    amount, unit = str(case.inputs["on_time"]).split()
    hours = float(amount) / {"s": 3600.0, "min": 60.0}[unit]
    rate = size(case, "ozone") / hours
    agrees(case, mass_rate=rate / 1e3, mass_rate_per_minute=rate / 60.0, amount_rate=rate / O3)


def test_iodide() -> None:
    case = FOUND["I-07"]
    agrees(case, concentration=20.0 / KI, amount=0.2 * 20.0 / KI * 1e3)
    case = FOUND["D-06"]
    agrees(case, ratio=4000.0 / KI / (28.28 * size(case, "titrant")))


@parameters("iodometry.free_iodine")
def test_free_iodine(case: Case) -> None:
    total, pool, constant = 5e-3, size(case, "iodide"), float(case.inputs["constant"])
    half = (total + pool + 1.0 / constant) / 2.0
    free = total - (half - sqrt(half * half - total * pool))
    agrees(case, free=free, share=100.0 * free / total)


@parameters("iodometry.triiodide_constant")
def test_triiodide(case: Case) -> None:
    T, T0 = 273.15 + size(case, "temperature"), 298.15
    heat = 17000.0 / R * (1.0 / T - 1.0 / T0) - 21.0 / R * (log(T / T0) + T0 / T - 1.0)
    agrees(case, constant=698.0 * exp(heat))


@parameters("iodometry.iodine_loss")
def test_iodine_loss(case: Case) -> None:
    per_minute = size(case, "free_share") / (0.2 * 0.030 * R * 298.15)
    agrees(case, loss_per_minute=per_minute)


def test_example_gas() -> None:
    feed = 101300.0 * 3.2e-3 / (R * 295.15)
    ozone = 35.62e-3 / O3
    ozonised = feed - ozone / 2.0
    mass = feed * (0.92 * O2 + 0.04 * 28.014 + 0.04 * 39.95)
    agrees(
        FOUND["D-04"],
        concentration=35.62e-3 / (ozonised * NORMAL),
        mass_fraction=100.0 * 35.62e-3 / mass,
        mole_fraction=100.0 * ozone / ozonised,
    )
    agrees(FOUND["D-05"], **{"yield": 0.5343 / 0.041})


@parameters("gas.fractions")
def test_fractions(case: Case) -> None:
    x = size(case, "concentration") / O3 * NORMAL
    heavy = x * O3
    share = heavy / (heavy + (1.0 - x) * CARRIER[case.inputs["carrier"]])
    agrees(case, mole_fraction=100.0 * x, mass_fraction=100.0 * share)


def mole_fraction(case: Case) -> float:
    w = size(case, "mass_fraction") / 100.0
    return (w / O3) / (w / O3 + (1.0 - w) / CARRIER[case.inputs["carrier"]])


@parameters("gas.from_mass_fraction")
def test_from_mass_fraction(case: Case) -> None:
    x = mole_fraction(case)
    agrees(case, mole_fraction=100.0 * x, concentration=x * O3 / NORMAL)


@parameters("gas.mass_per_volume_from_mass_fraction")
def test_unit_table(case: Case) -> None:
    agrees(case, concentration=mole_fraction(case) * O3 * 101325.0 / (R * 293.15))


@parameters("gas.mass_per_volume")
def test_mass_per_volume(case: Case) -> None:
    T, ppm = 273.15 + size(case, "temperature"), size(case, "mole_fraction")
    agrees(case, concentration=ppm * 1e-3 * O3 * 101325.0 / (R * T))


@parameters("gas.concentration_at")
def test_other_states(case: Case) -> None:
    T, p = 273.15 + size(case, "temperature"), size(case, "pressure")
    agrees(case, concentration=50.0 * 273.15 / T * p / 101.325)


@parameters("gas.molar_volume")
def test_molar_volumes(case: Case) -> None:
    T, p = 273.15 + size(case, "temperature"), size(case, "pressure")
    agrees(case, volume=R * T / p)


def test_rotameter() -> None:
    agrees(FOUND["F-01"], flow=sqrt(AIR / O2))
    agrees(FOUND["F-01-reverse"], flow=sqrt(O2 / AIR))


@parameters("energy.limit")
def test_energy_limit(case: Case) -> None:
    per_kg = size(case, "formation_enthalpy") / O3 * 1e3 / 3600.0
    agrees(case, energy=per_kg, **{"yield": 1e3 / per_kg})


def test_share_of_the_limit() -> None:
    agrees(FOUND["G-02"], share=100.0 * 67.0 * 142.67 / O3 / 3600.0)


def ice(T: float) -> float:
    """The sublimation pressure of IAPWS R14-08(2011), in Pa."""
    theta = T / 273.16
    terms = ((-21.2144006, 1 / 300), (27.3203819, 1.20666667), (-6.10598130, 1.70333333))
    return 611.657 * exp(sum(a * theta**b for a, b in terms) / theta)


def water(T: float) -> float:
    """The vapour pressure of Wagner and Pruß 2002, equation 2.5, in Pa."""
    tau = 1.0 - T / 647.096
    terms = (
        (-7.85951783, 1.0), (1.84408259, 1.5), (-11.7866497, 3.0), (22.6807411, 3.5),
        (-15.9618719, 4.0), (1.80122502, 7.5),
    )  # fmt: skip
    return 22.064e6 * exp(647.096 / T * sum(a * tau**b for a, b in terms))


def test_water() -> None:
    agrees(FOUND["W-01"], pressure=water(298.15))
    agrees(FOUND["W-02"], pressure=ice(230.0))
    agrees(FOUND["W-03"], pressure=water(273.16))
    agrees(FOUND["I-06-water"], water=100.0 * water(295.15) / 101325.0)
    agrees(FOUND["A-09-content"], water=7.0 * AIR / 18.015)
    low, high = 180.0, 273.16
    while high - low > 1e-6:
        middle = (low + high) / 2.0
        low, high = (middle, high) if ice(middle) < 11.3e-6 * 101325.0 else (low, middle)
    agrees(FOUND["A-09"], frost_point=low - 273.15)


def test_a_wrong_published_statement_is_caught() -> None:
    """The article of C-02 puts the value in air 10 % below the one in oxygen."""
    check = next(check for check in FOUND["C-03"].checks if check.name == "mass_fraction")
    assert not check.agrees(6.84 * 0.9)


NA, ATM = 6.02214076e23, 101325.0


def of_molecule(absorptivity: float) -> float:
    """The cross-section in cm² of a decadic absorptivity in L/mol/cm."""
    return absorptivity * 1e3 * log(10.0) / NA


@parameters("photometry.triiodide")
def test_triiodide_seen(case: Case) -> None:
    seen = size(case, "absorbance") / size(case, "absorptivity") / size(case, "path")
    agrees(case, triiodide=seen, ozone=seen * size(case, "volume") * 1e3 * O3)


@parameters("photometry.dissolved")
def test_dissolved_seen(case: Case) -> None:
    seen = size(case, "absorbance") / size(case, "absorptivity") / size(case, "path")
    milli = "mmol" in case.checks[0].unit
    agrees(case, amount=seen * (1e3 if milli else 1.0), dissolved=seen * O3 * 1e3)


def test_the_two_cross_sections() -> None:
    per_length = ATM / (R * 273.15) * 1e-6 * NA
    for name, absorptivity in (("U-01", 2963.0), ("U-02", 2998.1)):
        area = of_molecule(absorptivity)
        agrees(FOUND[name], coefficient=area * per_length, molecule=area)
    for case in of("photometry.cross_section"):
        agrees(case, molecule=of_molecule(size(case, "absorptivity")))
    agrees(FOUND["U-03"], change=100.0 * (304.39 / 308 - 1), readings=100.0 * (308 / 304.39 - 1))
    for name in ("U-03-1147", "U-03-11476"):
        agrees(FOUND[name], change=100.0 * (1.1329e-17 / size(FOUND[name], "old") - 1.0))


@parameters("photometry.indigo")
def test_indigo(case: Case) -> None:
    diluted = size(case, "whole") / size(case, "sample")
    bleached = size(case, "bleached") / size(case, "path") / size(case, "factor")
    agrees(case, dissolved=bleached * diluted)


def test_tolerances_of_a_photometer() -> None:
    warm, pressure = 100.0 / 298.15, 200.0 / 760.0
    agrees(
        FOUND["PD-13"],
        of_temperature=warm,
        of_pressure=pressure,
        together=sqrt(0.25 + warm**2 + pressure**2),
    )


GAS_KINETICS = {  # cm³ and molecules: at 300 K, power of T/300 K, activation in K
    "O_O2_O2": (6.0e-34, -2.6, 0), "O_O3": (8.0e-12, 0, 2060), "NO_O3": (3.0e-12, 0, 1500),
    "NO2_O3": (1.2e-13, 0, 2450), "OH_O3": (1.7e-12, 0, 940), "HO2_O3": (1.0e-14, 0, 490),
    "H_O3": (1.4e-10, 0, 470), "O1D_O2": (3.3e-11, 0, -55), "O1D_N2": (2.15e-11, 0, -110),
    "O1D_H2O": (1.63e-10, 0, -60),
}  # fmt: skip


@parameters("discharge.rate")
def test_gas_kinetics(case: Case) -> None:
    a, n, b = GAS_KINETICS[case.inputs["reaction"]]
    agrees(case, rate=a * (298.15 / 300.0) ** n * exp(-b / 298.15))


@parameters("discharge.life_of_atom")
def test_life_of_an_atom(case: Case) -> None:
    molecules = ATM / (R * 298.15) * NA * 1e-6
    k = 6.0e-34 * (298.15 / 300.0) ** -2.6
    agrees(case, life=1.0 / (k * molecules**2 * size(case, "oxygen") / 100.0))


@parameters("absorption.volatility")
def test_volatility(case: Case) -> None:
    T = 273.15 + size(case, "temperature")
    agrees(case, volatility=exp(12.19 - 2297.0 / T))


def test_kilopascals_for_atmospheres_are_caught() -> None:
    """The text that hands the equation on prints kPa: water would hold a hundred times as much."""
    assert not FOUND["AB-23"].checks[0].agrees(88.7 / 101.325)


def test_natural_for_decadic_absorbance_is_caught() -> None:
    check = FOUND["U-01"].checks[0]
    assert not check.agrees(304.39 / log(10.0))
    assert not check.agrees(308.0)


def test_a_rate_constant_of_another_temperature_is_caught() -> None:
    a, n, b = GAS_KINETICS["O_O3"]
    assert not FOUND["K-02"].checks[0].agrees(a * (299.15 / 300.0) ** n * exp(-b / 299.15))


def test_the_factor_of_two_is_caught() -> None:
    assert not FOUND["I-01"].checks[0].agrees(48.0)
