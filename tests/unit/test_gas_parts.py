"""The law of each part against its limits and against libraries."""

from __future__ import annotations

from math import inf, log, pi, sqrt

import pytest
from chemicals.viscosity import Herning_Zipperer
from CoolProp.CoolProp import PropsSI
from fluids.fittings import entrance_sharp, exit_normal
from fluids.friction import Colebrook
from fluids.packed_bed import Ergun
from scipy.optimize import brentq

from ozonewright.physics.gas.network.mixing import Mixture, gas_of, mixed, water_ratio
from ozonewright.physics.gas.parts.amounts import density, volume_flow
from ozonewright.physics.gas.parts.annulus import Annulus, annulus_area, laminar_shape
from ozonewright.physics.gas.parts.bed import Bed, breakthrough_time
from ozonewright.physics.gas.parts.compressible import (
    inlet_pressure,
    inlet_pressure_of_loss,
    mass_flux_square,
)
from ozonewright.physics.gas.parts.controller import Controller
from ozonewright.physics.gas.parts.friction import friction_factor
from ozonewright.physics.gas.parts.law import Gas
from ozonewright.physics.gas.parts.reading import (
    Porous,
    linear_of_reading,
    quadratic_of_reading,
    resistance_loss,
)
from ozonewright.physics.gas.parts.suck_back import column_drawn_up
from ozonewright.physics.gas.parts.supply import Held, Pump, ThroughValve, falling
from ozonewright.physics.gas.parts.threshold import Threshold, bubble_point, static_head
from ozonewright.physics.gas.parts.tube import ENDS, Tube, bend_loss, reynolds_number
from ozonewright.physics.gas.parts.valve import (
    CRITICAL,
    NOZZLE,
    Valve,
    conductance_of_hole,
    conductance_of_reading,
    inlet_pressure_iso_6358,
)
from ozonewright.physics.gas.parts.volume import bore_volume, passage_time
from ozonewright.physics.gas.transport import viscosity_herning_1936, viscosity_sutherland
from ozonewright.references.constants import M_AIR, M_O2, R
from ozonewright.references.gas_viscosity import viscosities
from ozonewright.references.liquid_surface import liquid

AMBIENT = 101325.0
AIR = Gas(M_AIR, 18.21e-6, 293.15)
SMALL = 1e-6
"""A flow so small that the gas hardly expands. [mol/s]"""
LITRE_PER_MINUTE = 1e-3 / 60.0


def moles(litres_per_minute: float) -> float:
    return litres_per_minute * LITRE_PER_MINUTE * AMBIENT / (R * 293.15)


def test_a_thin_line_is_hagen_poiseuille() -> None:
    q = volume_flow(flow=SMALL, pressure=AMBIENT, gas=AIR)
    by_hand = 128.0 * 18.21e-6 * 1.5 * q / (pi * 0.002**4)
    got = Tube(0.002, 1.5).inlet(SMALL, AMBIENT, AIR) - AMBIENT
    assert got == pytest.approx(by_hand, rel=1e-5)


def test_a_metre_of_2_mm_line_costs_077_kpa_per_litre_per_minute() -> None:
    # the bench's rule of thumb, at the room's density
    loss = Tube(0.002, 1.0).inlet(moles(0.1), AMBIENT, AIR) - AMBIENT
    assert loss / 0.1 == pytest.approx(770.0, rel=0.01)


def test_a_rough_line_is_darcy_weisbach_with_colebrook() -> None:
    flow, bore, length, rough = moles(300.0), 0.02, 0.5, 1e-4
    area = 0.25 * pi * bore**2
    reynolds = 4.0 * flow * M_AIR / (pi * bore * AIR.viscosity)
    assert reynolds > 10_000.0
    velocity = volume_flow(flow=flow, pressure=AMBIENT, gas=AIR) / area
    rho = AMBIENT * M_AIR / (R * 293.15)
    by_hand = Colebrook(reynolds, rough / bore) * length / bore * 0.5 * rho * velocity**2
    got = Tube(bore, length, roughness=rough).inlet(flow, AMBIENT, AIR) - AMBIENT
    assert got == pytest.approx(by_hand, rel=5e-3)  # it also speeds up, by 0.3 % of the pressure


def test_friction_rises_without_a_jump_where_no_law_holds() -> None:
    assert friction_factor(reynolds=1000.0, roughness=0.0) == pytest.approx(0.064)
    for edge in (2040.0, 4000.0):
        below, above = (
            friction_factor(reynolds=edge * k, roughness=1e-3) for k in (0.9999, 1.0001)
        )
        assert below == pytest.approx(above, rel=1e-3)
    losses = [friction_factor(reynolds=re, roughness=1e-3) * re**2 for re in range(500, 9000, 50)]
    assert losses == sorted(losses)
    assert friction_factor(reynolds=3e4, roughness=1e-3) == pytest.approx(
        Colebrook(3e4, 1e-3), rel=1e-9
    )


def test_a_gas_that_expands_loses_more_than_its_inlet_tells() -> None:
    square = mass_flux_square(flow=moles(50.0), area=0.25 * pi * 0.003**2, gas=AIR)
    got = inlet_pressure(square=square, resistance=40.0, outlet_pressure=AMBIENT)

    def missing(p: float) -> float:
        return p**2 - AMBIENT**2 - square * (40.0 + 2.0 * log(p / AMBIENT))

    assert got == pytest.approx(brentq(missing, AMBIENT, 100.0 * AMBIENT, xtol=1e-9), rel=1e-12)


def test_at_its_end_a_choked_line_stays_above_the_room() -> None:
    square = 4.0 * AMBIENT**2
    got = inlet_pressure(square=square, resistance=10.0, outlet_pressure=AMBIENT)
    at_end = inlet_pressure(square=square, resistance=10.0, outlet_pressure=2.0 * AMBIENT)
    assert got == at_end


def test_no_flow_no_loss() -> None:
    for law in (Tube(0.002, 1.0), Annulus(0.02, 0.001, 0.2), Valve(1e-7), Porous(1e9)):
        assert law.inlet(0.0, AMBIENT, AIR) == AMBIENT


def test_bends_and_ends_add_their_loss() -> None:
    flow = moles(5.0)
    plain, bent, ended = (
        Tube(0.004, 0.5, bends=bends, ends=ends).inlet(flow, AMBIENT, AIR)
        for bends, ends in ((0, 0.0), (3, 0.0), (0, ENDS))
    )
    velocity = volume_flow(flow=flow, pressure=AMBIENT, gas=AIR) / (0.25 * pi * 0.004**2)
    dynamic = 0.5 * density(pressure=AMBIENT, gas=AIR) * velocity**2
    reynolds = reynolds_number(flow=flow, bore=0.004, gas=AIR)
    # two-K method, long-radius elbow: 800/Re + 0.2 (1 + 1/inches)
    one = 800.0 / reynolds + 0.2 * (1.0 + 25.4 / 4.0)
    assert bend_loss(reynolds=reynolds, bore=0.004) == pytest.approx(one)
    assert bent - plain == pytest.approx(3.0 * one * dynamic, rel=0.01)
    assert ended - plain == pytest.approx((entrance_sharp() + exit_normal()) * dynamic, rel=0.01)


def test_a_thin_gap_is_flow_between_plates() -> None:
    assert laminar_shape(ratio=0.9999) == pytest.approx(96.0, rel=1e-4)
    assert laminar_shape(ratio=1e-300) == pytest.approx(64.0, rel=0.01)
    bore, gap, length = 0.03, 0.001, 0.2
    q = volume_flow(flow=SMALL, pressure=AMBIENT, gas=AIR)
    outer, inner = bore / 2.0, bore / 2.0 - gap
    shape = outer**4 - inner**4 - (outer**2 - inner**2) ** 2 / log(outer / inner)
    by_hand = 8.0 * AIR.viscosity * length * q / (pi * shape)
    got = Annulus(bore, gap, length).inlet(SMALL, AMBIENT, AIR) - AMBIENT
    assert got == pytest.approx(by_hand, rel=1e-5)
    assert annulus_area(bore=bore, gap=gap) == pytest.approx(pi * (outer**2 - inner**2))


@pytest.mark.parametrize("critical", [0.2, CRITICAL, NOZZLE])
@pytest.mark.parametrize("ratio", [0.1, 0.3, 0.5, 0.6, 0.9, 0.999])
def test_the_inlet_of_a_valve_is_the_iso_ellipse_read_backwards(
    critical: float, ratio: float
) -> None:
    inlet = AMBIENT / ratio
    share = sqrt(1.0 - ((ratio - critical) / (1.0 - critical)) ** 2) if ratio > critical else 1.0
    got = inlet_pressure_iso_6358(
        reduced_flow=inlet * share, critical_ratio=critical, outlet_pressure=AMBIENT
    )
    assert got == pytest.approx(inlet, rel=1e-9)


@pytest.mark.parametrize("over", [5e3, 5e4, 2e5])
def test_a_valve_gives_back_its_own_reading(over: float) -> None:
    flow = moles(1.0)
    conductance = conductance_of_reading(
        flow=flow,
        inlet_pressure=AMBIENT + over,
        outlet_pressure=AMBIENT,
        critical_ratio=CRITICAL,
        gas=AIR,
    )
    assert Valve(conductance).inlet(flow, AMBIENT, AIR) == pytest.approx(AMBIENT + over)


def test_a_hole_chokes_like_a_nozzle() -> None:
    # 0.6847 p A / sqrt(R T/M), heat ratio 1.4, and a coefficient of 0.8
    area, pressure = 0.25 * pi * 0.001**2, 3e5
    mass_flow = 0.8 * 0.6847 * area * pressure / sqrt(R * 293.15 / M_AIR)
    law = Valve(conductance_of_hole(bore=0.001), NOZZLE)
    assert law.inlet(mass_flow / M_AIR, AMBIENT, AIR) == pytest.approx(pressure)


def test_a_bed_is_ergun() -> None:
    flow = moles(0.5)
    area = 0.25 * pi * 0.03**2
    velocity = volume_flow(flow=flow, pressure=AMBIENT, gas=AIR) / area
    rho = density(pressure=AMBIENT, gas=AIR)
    by_hand = (
        150.0 * AIR.viscosity * velocity * 0.6**2 / (0.4**3 * 0.003**2)
        + 1.75 * rho * velocity**2 * 0.6 / (0.4**3 * 0.003)
    ) * 0.2
    assert by_hand == pytest.approx(
        Ergun(dp=0.003, voidage=0.4, vs=velocity, rho=rho, mu=AIR.viscosity, L=0.2)
    )
    got = Bed(0.03, 0.2, 0.003).inlet(flow, AMBIENT, AIR) - AMBIENT
    assert got == pytest.approx(by_hand, rel=1e-3)
    assert Bed(0.03, 0.2, 0.003).inlet(0.0, AMBIENT, AIR) == AMBIENT


def test_a_bed_known_by_a_reading_gives_it_back_and_goes_with_viscosity() -> None:
    flow = moles(2.0)
    linear = linear_of_reading(flow=flow, loss=800.0, pressure=AMBIENT, gas=AIR)
    law = Porous(linear)
    assert law.inlet(flow, AMBIENT, AIR) - AMBIENT == pytest.approx(800.0, rel=5e-3)
    thick = AIR._replace(viscosity=2.0 * AIR.viscosity)
    assert law.inlet(flow, AMBIENT, thick) - AMBIENT == pytest.approx(1600.0, rel=1e-2)


def test_a_check_valve_opens_then_loses_with_the_square_of_the_flow() -> None:
    flow = moles(5.0)
    more = quadratic_of_reading(flow=flow, loss=2000.0, pressure=AMBIENT, gas=AIR)
    law = Threshold(1000.0, quadratic=more)
    assert law.one_way
    assert law.inlet(0.0, AMBIENT, AIR) - AMBIENT == pytest.approx(1000.0)
    assert law.inlet(flow, AMBIENT, AIR) - AMBIENT == pytest.approx(3000.0)
    assert law.inlet(flow / 2.0, AMBIENT, AIR) - AMBIENT == pytest.approx(1500.0)
    assert Threshold(1000.0).inlet(flow, AMBIENT, AIR) == AMBIENT + 1000.0
    assert resistance_loss(
        flow=flow, linear=0.0, quadratic=more, pressure=AMBIENT, gas=AIR
    ) == pytest.approx(2000.0)


def test_bubbles_and_depth() -> None:
    assert bubble_point(surface_tension=0.07274, pore=100e-6) == pytest.approx(2909.6)
    assert static_head(density=998.2, depth=0.15) == pytest.approx(998.2 * 9.80665 * 0.15)


def test_a_flow_controller_needs_its_least_drop() -> None:
    law = Controller(1e-3, 5000.0)
    assert law.inlet(1e-3, AMBIENT, AIR) == pytest.approx(AMBIENT + 5000.0)
    assert law.inlet(5e-4, AMBIENT, AIR) == pytest.approx(AMBIENT + 1250.0)


def test_a_pump_follows_its_curve() -> None:
    curve = falling(curve=((0.0, 5e-5), (9e3, 3e-5), (18e3, 0.0)))
    pump = Pump(curve, AMBIENT, 293.15)
    for gauge, q in ((0.0, 5e-5), (4.5e3, 4e-5), (9e3, 3e-5), (13.5e3, 1.5e-5), (18e3, 0.0)):
        flow = q * AMBIENT / (R * 293.15)
        assert pump.outlet(flow, AIR) - AMBIENT == pytest.approx(gauge, abs=1e-6)
    assert pump.shut_off == pytest.approx(AMBIENT + 18e3)
    # beyond its free flow the first piece goes on: it would have to be sucked at
    assert pump.outlet(6e-5 * AMBIENT / (R * 293.15), AIR) < AMBIENT
    assert pump.most == inf


def test_a_level_piece_of_a_curve_is_let_fall_by_a_trifle() -> None:
    curve = falling(curve=((0.0, 5e-5), (9e3, 5e-5), (18e3, 0.0)))
    assert curve[1][1] == pytest.approx(5e-5 * (1.0 - 1e-4))
    flow = 5e-5 * (1.0 - 1e-4) * AMBIENT / (R * 293.15)
    assert Pump(curve, AMBIENT, 293.15).outlet(flow, AIR) == pytest.approx(AMBIENT + 9e3)


def test_regulators_and_concentrators() -> None:
    held = Held(2e5)
    assert held.outlet(1.0, AIR) == held.shut_off == 2e5
    store = ThroughValve(AMBIENT + 55e3, 1e-3, AMBIENT)
    assert store.shut_off == store.outlet(0.0, AIR) == AMBIENT + 55e3
    assert store.outlet(1e-3, AIR) == pytest.approx(AMBIENT)
    assert store.outlet(1.1e-3, AIR) < AMBIENT
    half = (AMBIENT + 55e3) ** 2 - 0.25 * ((AMBIENT + 55e3) ** 2 - AMBIENT**2)
    assert store.outlet(5e-4, AIR) == pytest.approx(sqrt(half))


@pytest.mark.parametrize("name", ["Air", "Oxygen", "Nitrogen", "Argon"])
@pytest.mark.parametrize("celsius", [-40.0, 0.0, 20.0, 60.0, 100.0])
def test_viscosity_is_that_of_the_property_library(name: str, celsius: float) -> None:
    temperature = 273.15 + celsius
    figures = viscosities()[name.lower()]
    got = viscosity_sutherland(temperature=temperature, **figures._asdict())
    assert got == pytest.approx(PropsSI("V", "T", temperature, "P", AMBIENT, name), rel=2e-3)


def test_a_mixture_is_as_thick_as_another_library_says() -> None:
    fractions, viscous = [0.93, 0.04, 0.03], [20.3e-6, 22.3e-6, 17.6e-6]
    masses = [31.998e-3, 39.95e-3, 28.014e-3]
    got = viscosity_herning_1936(fractions=fractions, viscosities=viscous, molar_masses=masses)
    assert got == pytest.approx(Herning_Zipperer(fractions, viscous, [m * 1e3 for m in masses]))


def test_air_of_its_parts_is_air() -> None:
    air = gas_of(mixture=Mixture(0.2095, 0.7812, 0.0093), temperature=293.15)
    assert air.molar_mass == pytest.approx(M_AIR, rel=5e-4)
    assert air.viscosity == pytest.approx(PropsSI("V", "T", 293.15, "P", AMBIENT, "Air"), rel=5e-3)
    assert air.wet == 1.0
    assert gas_of(mixture=Mixture(1.0, 0.0, 0.0), temperature=293.15).molar_mass == M_O2


def test_wet_gas_is_more_and_lighter() -> None:
    # at 20 °C water has 2.339 kPa (any steam table)
    ratio = water_ratio(temperature=293.15, pressure=AMBIENT)
    assert ratio == pytest.approx(2339.0 / (AMBIENT - 2339.0), rel=1e-3)
    wet = gas_of(mixture=Mixture(0.21, 0.78, 0.01, ratio), temperature=293.15)
    assert wet.wet == pytest.approx(1.0 + ratio)
    assert wet.molar_mass < M_AIR


def test_mixing_weighs_by_flow() -> None:
    one, other = Mixture(1.0, 0.0, 0.0, 0.02), Mixture(0.2, 0.8, 0.0, 0.0)
    assert mixed(flows=[1.0, 3.0], mixtures=[one, other]) == pytest.approx((0.4, 0.6, 0.0, 0.005))


def test_volumes_and_times() -> None:
    assert bore_volume(bore=0.002, length=1.0) == pytest.approx(3.14159e-6, rel=1e-5)
    time = passage_time(volume=1e-3, flow=moles(1.0), pressure=AMBIENT, gas=AIR)
    assert time == pytest.approx(60.0)
    assert breakthrough_time(mass=0.1, capacity=0.2, water_flow=1e-6) == pytest.approx(2e4)
    assert inlet_pressure_of_loss(outlet_pressure=1e5, loss=1.0) == pytest.approx(
        100001.0, abs=1e-4
    )


def test_cooling_gas_draws_up_the_height_of_its_missing_pressure() -> None:
    # so much gas that the column takes no room: 1 % of 101325 + 1471 Pa over 9806.65 N/m3
    weight = 1000.0 * 9.80665
    got = column_drawn_up(
        volume=1.0, shrink=0.01, area=1e-6, depth=0.15, weight=weight, pressure=AMBIENT
    )
    assert got == pytest.approx(0.01 * (AMBIENT + 0.15 * weight) / weight, rel=1e-4)
    # so little gas that it keeps its pressure: the column fills what is missing
    little = column_drawn_up(
        volume=1e-9, shrink=0.01, area=1e-5, depth=0.0, weight=weight, pressure=AMBIENT
    )
    assert little == pytest.approx(0.01 * 1e-9 / 1e-5, rel=1e-2)
    still = column_drawn_up(
        volume=1e-4, shrink=0.0, area=1e-5, depth=0.1, weight=weight, pressure=AMBIENT
    )
    assert still == 0.0


def test_liquids_answer_to_their_names() -> None:
    assert liquid("water").surface_tension == pytest.approx(72.74e-3)
    assert liquid("DCM").name == "dichloromethane"
