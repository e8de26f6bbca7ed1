"""Vapour pressures against another library's equations and a handbook; limits and flash points."""

from __future__ import annotations

import warnings

import numpy as np
import pytest

from ozonewright.errors import NotApplicable, UnknownSubstance
from ozonewright.physics.hazards import vapour
from ozonewright.physics.hazards.solvent import temperature_of_fraction, vapour_of
from ozonewright.references.flammability import flammability
from ozonewright.references.solvents import solvents
from ozonewright.references.tables import rows
from ozonewright.references.vapour import vapour_pressure_data

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    from chemicals import vapor_pressure as library

ATM = 101325.0
NAMES = [row["name"] for row in rows("vapour")]
LIQUIDS = [name for name in NAMES if name != "ozone"]


def antoine(cas: str, temperature: float) -> float | None:
    """The equation after Poling in the library chemicals: not the one that is shipped."""
    table = library.Psat_data_AntoinePoling
    if cas not in table.index:
        return None
    row = table.loc[cas]
    if not row.Tmin <= temperature <= row.Tmax:
        return None
    return float(10.0 ** (row.A - row.B / (temperature + row.C)))


def cas_of(name: str) -> str:
    return {"dimethyl sulfide": "75-18-3"}.get(name) or solvents()[name].cas


@pytest.mark.parametrize("name", LIQUIDS)
def test_against_another_equation_of_the_library(name: str) -> None:
    """Poling's equation where both hold: within 5 %, the acid, whose tables differ, within 12 %."""
    compared = 0
    for temperature in (273.15, 283.15, 298.15, 313.15, 323.15):
        other = antoine(cas_of(name), temperature)
        if other is not None and temperature > vapour_pressure_data(name).freezes:
            ours = vapour_of(substance=name, temperature=temperature).pressure
            assert ours == pytest.approx(other, rel=0.12 if name == "propionic acid" else 0.05)
            compared += 1
    assert compared or name == "acetonitrile"


@pytest.mark.parametrize("name", [name for name in LIQUIDS if name in solvents()])
def test_at_the_boiling_point_it_is_one_atmosphere(name: str) -> None:
    """Boiling points of the solvents' own table, within 2.5 % of pressure (0.7 K)."""
    found = vapour_of(substance=name, temperature=solvents()[name].boiling_point)
    assert found.pressure == pytest.approx(ATM, rel=0.025)


@pytest.mark.parametrize(
    ("celsius", "torr"), [(-13.5, 10.0), (-3.0, 20.0), (9.1, 40.0), (27.0, 100.0), (42.0, 200.0)]
)
def test_ethyl_acetate_against_a_handbook(celsius: float, torr: float) -> None:
    """Handbook table of boiling points at reduced pressure (Stull), from memory; within 6 %."""
    found = vapour_of(substance="ethyl acetate", temperature=celsius + 273.15)
    assert found.pressure / 133.322 == pytest.approx(torr, rel=0.06)


def test_ethyl_acetate_of_the_bench_notes() -> None:
    """About 3.2 vol% at 0 °C; a quarter of the lower limit of 2 vol% at about -27 °C."""
    found = vapour_of(substance="ethyl acetate", temperature=273.15)
    assert found.pressure / ATM == pytest.approx(0.032, abs=0.001)
    cold = temperature_of_fraction(substance="ethyl acetate", fraction=0.005, pressure=ATM)
    assert cold - 273.15 == pytest.approx(-27.0, abs=0.5)


@pytest.mark.parametrize(
    ("name", "celsius", "frozen"),
    [
        ("acetic acid", 10.0, True),
        ("acetic acid", 20.0, False),
        ("cyclohexane", 0.0, True),
        ("water", -5.0, True),
        ("acetonitrile", -78.0, True),
        ("DCM", -78.0, False),
        ("methanol", -78.0, False),
    ],
)
def test_frozen_solvents_are_known_as_frozen(name: str, celsius: float, frozen: bool) -> None:
    found = vapour_of(substance=name, temperature=celsius + 273.15)
    assert found.frozen is frozen
    edge = vapour_of(substance=name, temperature=vapour_pressure_data(name).freezes)
    assert found.pressure >= edge.pressure


def test_arrays_are_taken() -> None:
    found = vapour_of(substance="tetrahydrofuran", temperature=np.array([150.0, 250.0, 300.0]))
    assert found.frozen
    assert np.all(np.diff(found.pressure) > 0.0)
    assert found.spread[2] == pytest.approx(0.01)
    assert found.spread[1] > 0.01


def test_every_equation_rises_over_its_range() -> None:
    for name in NAMES:
        data = vapour_pressure_data(name)
        ladder = np.linspace(data.freezes, 0.97 * data.critical_temperature, 200)
        assert np.all(np.diff(vapour_of(substance=name, temperature=ladder).pressure) > 0.0)


def test_a_fraction_that_no_liquid_has_is_refused() -> None:
    with pytest.raises(NotApplicable, match="no temperature of the liquid"):
        temperature_of_fraction(substance="acetic acid", fraction=0.001, pressure=ATM)


def test_an_unknown_substance_names_the_nearest() -> None:
    with pytest.raises(UnknownSubstance, match="methanol"):
        vapour_pressure_data("methanool")


def test_vapour_in_gas_by_hand() -> None:
    assert vapour.vapour_fraction(vapour_pressure=2026.5, pressure=ATM) == pytest.approx(0.02)
    share = vapour.share_of_lower_limit(fractions=[0.01, 0.01], limits=[0.02, 0.04])
    assert share == pytest.approx(0.75)


@pytest.mark.parametrize("name", [n for n in solvents() if n not in ("water", "chloroform")])
def test_limits_are_the_lower_of_the_two_tables(name: str) -> None:
    air, oxygen = flammability(name, "air"), flammability(name, "oxygen")
    assert air.burns
    assert oxygen.burns
    assert air.lower
    assert oxygen.lower
    assert oxygen.lower <= air.lower
    assert oxygen.upper is None or oxygen.upper > (air.upper or 0.0)
    for row in air.rows:
        assert row.lower is None or air.lower <= row.lower


def test_published_limits_as_the_notes_have_them() -> None:
    """IEC 60079-20-1 beside NFPA 497: heptane 0.85 and 1.0, ethyl acetate -4 °C, upper 12.8."""
    assert flammability("heptane", "air").lower == pytest.approx(0.0085)
    found = flammability("ethyl acetate", "air")
    assert found.flash_point == pytest.approx(273.15 - 4.0)
    assert found.upper == pytest.approx(0.128)
    assert found.ignition == pytest.approx(273.15 + 427.0)


def test_what_is_not_known_is_no_limit() -> None:
    assert flammability("chloroform", "air").burns is False
    assert flammability("chloroform", "oxygen").burns is None
    assert flammability("toluidine", "air").burns is None
    assert flammability("toluidine", "air").evidence == ""
    assert flammability("water", "oxygen").burns is False
    assert flammability("dichloromethane", "oxygen").evidence == "memory"


def test_flash_points_agree_with_vapour_and_limit() -> None:
    """At its flash point a liquid's vapour stands near its lower limit: within a factor of 2.5.

    Pentane's is printed as -40 °C, which stands for anything below.
    """
    for name in solvents():
        limits = flammability(name, "air")
        if limits.flash_point is None or limits.lower is None:
            continue
        found = vapour_of(substance=name, temperature=limits.flash_point)
        if not found.frozen:
            assert 0.4 < found.pressure / ATM / limits.lower < 2.5
