"""How long the gas lasts, and what it costs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ozonewright.errors import Inconsistent, OutOfBounds
from ozonewright.questions.gas_use.alternatives import alternatives
from ozonewright.questions.gas_use.figures import (
    AIR,
    ROOM,
    absolute,
    factor_at,
    figures,
    inputs_of,
    reserve_of,
)
from ozonewright.questions.gas_use.flows import (
    FlowPoint,
    flow_notes,
    flow_rows,
    lowest_flow,
    most_flows,
)
from ozonewright.questions.gas_use.remarks import next_steps, notes, unknowns, working
from ozonewright.questions.gas_use.result import GasUse
from ozonewright.questions.gas_use.supply import Supply
from ozonewright.references.constants import NORMAL_TEMPERATURE
from ozonewright.references.gases import MOLAR_MASS
from ozonewright.uncertain import HALF_WIDTHS, Estimate, Measured, propagate
from ozonewright.units import Kind, number, size

COLDEST, HOTTEST = NORMAL_TEMPERATURE - 20.0, NORMAL_TEMPERATURE + 50.0
VAGUEST = 10.0
"""Largest uncertainty of the temperature that the real-gas table leaves room for. [K]"""
HIGHEST = 300.0 * size(Kind.CYLINDER_PRESSURE, "bar")
TABLE_END = 310.0 * size(Kind.CYLINDER_PRESSURE, "bar")
"""The real-gas table ends at 320 bar; the rest is left for the air pressure."""
FARTHEST = 5.0
"""Standard uncertainties that a draw of a normal reading may lie off."""


def gas_use(supply: Supply, points: Sequence[FlowPoint] = ()) -> GasUse:
    """Return how long the gas lasts and what it costs; `points` are runs at several flows.

    Raises
    ------
    OutOfBounds, Inconsistent
        Outside the table of real gases, or nothing is left above the reserve.
    """
    temperature, ambient = supply.temperature or ROOM, supply.ambient or AIR
    _check(supply, temperature, ambient)
    inputs = inputs_of(supply, temperature, ambient)
    found = propagate(lambda **values: figures(supply, values), inputs)
    centre = {name: measured.value for name, measured in inputs.items()}
    feed, levels = most_flows(points)
    usable, cost = found["usable"].value, found.get("per_hour")
    running = _running(supply, cost)
    ways, way_notes, way_unknowns = alternatives(supply, running)
    per_amount = cost.value / found["flow"].value if cost else None
    several = len(levels) > 1
    return GasUse(
        gas=supply.gas,
        currency=supply.money.currency,
        factor=float(factor_at(supply, centre)),
        mass=found["content"].value * MOLAR_MASS[supply.gas],
        content=found["content"],
        usable=found["usable"],
        flow=found["flow"],
        time=found["time"],
        clock=found.get("clock"),
        discharge=found.get("discharge"),
        per_hour=cost,
        per_gram=found.get("per_gram"),
        per_mmol=found.get("per_mmol"),
        wasted=_wasted(supply, usable),
        **_with_hardware(supply, found),
        outlay=_outlay(supply),
        deposit=supply.money.deposit,
        alternatives=ways,
        flows=tuple(flow_rows(levels, usable, per_amount)) if several else (),
        lowest=lowest_flow(levels) if several else None,
        working=tuple(working(supply, centre, found)),
        notes=(
            *notes(supply),
            *way_notes,
            *(flow_notes(feed, levels) if several else ()),
        ),
        next=tuple(next_steps(supply, found, several)),
        unknowns=(*unknowns(supply), *way_unknowns),
        sources=("bell_2014", "tiesinga_2021", "din_1990"),
        methods=("real-gas content p V/(Z R T), factor from a table made by CoolProp",),
    )


def _check(supply: Supply, temperature: Measured, ambient: Measured) -> None:
    if not COLDEST <= temperature.value <= HOTTEST or temperature.u > VAGUEST:
        raise OutOfBounds(
            "the cylinder's temperature must lie in -20 to 50 °C and be known to 10 K",
            where="temperature",
            got=f"{number(temperature.value, Kind.TEMPERATURE, '°C'):.4g} °C ± "
            f"{temperature.u:.2g} K",
            fix="Lay a thermometer against the cylinder and type what it reads.",
        )
    for where, pressure in (("pressure", supply.pressure), ("full", supply.full)):
        if pressure and pressure.value.value > HIGHEST:
            raise OutOfBounds(
                "more than a cylinder of this table holds (300 bar)",
                where=where,
                got=f"{number(pressure.value.value, Kind.CYLINDER_PRESSURE, 'bar'):.4g} bar",
                fix="Check the unit: bar, not psi or kPa?",
            )
        if pressure and not _within(pressure.value):
            raise OutOfBounds(
                "the pressure is too uncertain: it may be below nought, or above 310 bar",
                where=where,
                got=f"{number(pressure.value.value, Kind.CYLINDER_PRESSURE, 'bar'):.4g} bar ± "
                f"{number(pressure.value.u, Kind.CYLINDER_PRESSURE, 'bar'):.2g} bar",
                fix="Read the gauge again; what stands behind ± is one standard uncertainty.",
            )
    left = absolute(reserve_of(supply), ambient.value)
    for where, pressure in (("pressure", supply.pressure), ("full", supply.full)):
        if pressure and absolute(pressure, ambient.value) <= left:
            raise Inconsistent(
                "nothing is usable: the pressure is not above the reserve",
                where=where,
                got=f"{number(pressure.value.value, Kind.CYLINDER_PRESSURE, 'bar'):.4g} bar",
                fix="State a smaller reserve, or change the cylinder.",
            )


def _within(pressure: Measured) -> bool:
    """Return whether a pressure with its uncertainty stays inside the real-gas table."""
    reach = FARTHEST * pressure.u
    if pressure.shape != "normal":
        reach = HALF_WIDTHS[pressure.shape] * pressure.u
    return pressure.value > reach and pressure.value + reach <= TABLE_END


def _running(supply: Supply, cost: Estimate | None) -> float | None:
    """Return what the cylinder costs while the discharge is on, rests and rent in it. [1/s]"""
    if cost is None:
        return None
    runs_on = supply.rest is not None and supply.rest.gas != "stops"
    gas_time = cost.value + _rent(supply)
    return gas_time / supply.rest.duty if runs_on and supply.rest else gas_time


def _rent(supply: Supply) -> float:
    money = supply.money
    return money.rent / money.use if money.rent is not None and money.use else 0.0


def _with_hardware(supply: Supply, found: Mapping[str, Estimate]) -> dict[str, float | None]:
    money = supply.money
    cost = found.get("per_hour")
    if cost is None or (money.hardware is None and money.rent is None):
        return {}
    more = _rent(supply)
    if money.hardware is not None and money.hardware_life:
        more += money.hardware / money.hardware_life
    share = (cost.value + more) / cost.value
    gram, mmol = found.get("per_gram"), found.get("per_mmol")
    return {
        "hardware_per_hour": cost.value + more,
        "hardware_per_gram": gram.value * share if gram else None,
        "hardware_per_mmol": mmol.value * share if mmol else None,
    }


def _outlay(supply: Supply) -> float | None:
    money = supply.money
    parts = [part for part in (money.price, money.hardware, money.deposit) if part is not None]
    return sum(parts) if money.price is not None else None


def _wasted(supply: Supply, usable: float) -> float | None:
    if supply.rest is None:
        return None
    return 0.0 if supply.rest.gas == "stops" else usable * (1.0 - supply.rest.duty)
