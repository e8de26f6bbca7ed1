"""From the meter to the dry flow, and what the ozone makes of it."""

from __future__ import annotations

from ozonewright.physics.gas.flow import (
    feed_flow,
    mean_molar_mass,
    molar_flow,
    ozone_mass_fraction,
    ozonised_flow,
    rotameter_flow,
)
from ozonewright.physics.gas.water import (
    TRIPLE_TEMPERATURE,
    saturation_pressure_ice,
    saturation_pressure_water,
    water_fraction,
)
from ozonewright.questions.output.sheet import ROOM_TEMPERATURE, Calculation, Sheet, nothing
from ozonewright.records.run import Gas
from ozonewright.references.constants import M_O3, NORMAL_PRESSURE
from ozonewright.references.gases import MOLAR_MASS
from ozonewright.uncertain import Measured
from ozonewright.units import Kind


def gas_of(sheet: Sheet, gas: Gas) -> None:
    flow = dry_flow(sheet, gas)
    if flow is None:
        return
    rate = sheet.outputs["rate"]
    feed, behind = _both_sides(gas, flow, rate)
    sheet.outputs["feed_flow"] = feed
    sheet.outputs["ozonised_flow"] = behind
    sheet.outputs["concentration"] = lambda v: rate(v) * M_O3 / behind(v)
    sheet.outputs["mole_fraction"] = lambda v: rate(v) / behind(v)
    molar_mass = _feed_molar_mass(sheet, gas)
    if molar_mass is None:
        sheet.unknowns.append("gas.feed")
        return
    sheet.outputs["mass_fraction"] = lambda v: ozone_mass_fraction(
        ozone_rate=rate(v), feed_flow=feed(v), feed_molar_mass=molar_mass(v)
    )
    if gas.feed and "oxygen" in gas.feed.parts:
        oxygen = sheet.take(gas.feed.parts["oxygen"])
        sheet.outputs["oxygen_flow"] = lambda v: oxygen(v) * feed(v)


def _both_sides(gas: Gas, flow: Calculation, rate: Calculation) -> tuple[Calculation, Calculation]:
    """Feed and ozonised gas, from the one that the meter saw."""
    if gas.meter.at == "after bottles":
        return lambda v: feed_flow(ozonised_flow=flow(v), ozone_rate=rate(v)), flow
    return flow, lambda v: ozonised_flow(feed_flow=flow(v), ozone_rate=rate(v))


def _feed_molar_mass(sheet: Sheet, gas: Gas) -> Calculation | None:
    if gas.feed is None:
        return None
    parts = [(sheet.take(part), MOLAR_MASS[name]) for name, part in gas.feed.parts.items()]
    return lambda v: mean_molar_mass(
        fractions=[part(v) for part, _ in parts], molar_masses=[mass for _, mass in parts]
    )


def dry_flow(sheet: Sheet, gas: Gas) -> Calculation | None:
    """Dry molar flow at the meter, or None with the missing fields named."""
    if gas.flow is None:
        sheet.unknowns.append("gas.flow")
        return None
    flow = sheet.take(gas.flow)
    if gas.flow.kind is Kind.NORMAL_FLOW:
        return flow
    missing = [f"gas.{name}" for name in ("temperature", "pressure") if getattr(gas, name) is None]
    if missing:
        sheet.unknowns += missing
        return None
    assert gas.temperature is not None
    assert gas.pressure is not None
    warm, pressure = sheet.take(gas.temperature), sheet.take(gas.pressure)
    true = _true_flow(sheet, gas, flow, warm, pressure)
    if true is None:
        sheet.unknowns.append("gas.feed")
        return None
    water = _water(sheet, gas, warm, pressure)
    return lambda v: molar_flow(
        volume_flow=true(v), temperature=warm(v), pressure=pressure(v), water_fraction=water(v)
    )


def _true_flow(
    sheet: Sheet, gas: Gas, flow: Calculation, warm: Calculation, pressure: Calculation
) -> Calculation | None:
    if gas.meter.kind != "rotameter":
        return flow
    molar_mass = _feed_molar_mass(sheet, gas)
    if molar_mass is None or gas.meter.calibrated_for is None:
        return None
    sheet.sources.append("unnamed_rotameter_table")
    scale = gas.meter
    if scale.calibrated_temperature is None or scale.calibrated_pressure is None:
        sheet.assumed.append("rotameter-scale")
    at = (
        sheet.take(scale.calibrated_temperature)
        if scale.calibrated_temperature
        else lambda v: ROOM_TEMPERATURE
    )
    under = (
        sheet.take(scale.calibrated_pressure)
        if scale.calibrated_pressure
        else lambda v: NORMAL_PRESSURE
    )
    calibrated = MOLAR_MASS[gas.meter.calibrated_for]
    return lambda v: rotameter_flow(
        reading=flow(v),
        calibrated_molar_mass=calibrated,
        calibrated_temperature=at(v),
        calibrated_pressure=under(v),
        molar_mass=molar_mass(v),
        temperature=warm(v),
        pressure=pressure(v),
    )


def _water(sheet: Sheet, gas: Gas, warm: Calculation, pressure: Calculation) -> Calculation:
    """Mole fraction of water at the meter: by dew point, saturated behind water, else dry."""
    meter, feed = gas.meter, gas.feed
    saturated = meter.kind in ("wet", "displacement") or meter.at != "before tube"
    if saturated and not meter.dried:
        sheet.sources.append("wagner_2002")
        return lambda v: water_fraction(
            water_pressure=saturation_pressure_water(temperature=warm(v)), pressure=pressure(v)
        )
    if meter.dried:
        return nothing
    if feed is not None and feed.dew_point is not None:
        point = sheet.take(feed.dew_point)
        frozen = feed.dew_point.value < TRIPLE_TEMPERATURE
        over = saturation_pressure_ice if frozen else saturation_pressure_water
        sheet.sources.append("iapws_2011" if frozen else "wagner_2002")
        return lambda v: water_fraction(
            water_pressure=over(temperature=point(v)), pressure=pressure(v)
        )
    if feed is not None and feed.may_be_moist:
        sheet.unknowns.append("gas.dew_point")
        sheet.assumed.append("moisture-unknown")
        # between bone dry and saturated: a rectangle over the whole of it
        part = sheet.take(
            Measured(
                0.5,
                12.0**-0.5,
                "moisture of the room air",
                Kind.SHARE,
                "rectangular",
                basis="assumed",
            )
        )
        return lambda v: (
            part(v)
            * water_fraction(
                water_pressure=saturation_pressure_water(temperature=warm(v)), pressure=pressure(v)
            )
        )
    if feed is None:
        sheet.assumed.append("feed-dry")
    return nothing
