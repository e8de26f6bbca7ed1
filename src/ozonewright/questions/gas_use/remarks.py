"""The sum line by line, what to mind, and what to do next."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ozonewright.physics.gas.cylinder import compressibility_factor
from ozonewright.questions.gas_use.figures import Values, absolute, amount_at, reserve_of
from ozonewright.questions.gas_use.flows import half_flow
from ozonewright.questions.gas_use.supply import Supply
from ozonewright.references.constants import M_O3
from ozonewright.references.limits import limit
from ozonewright.results import Note
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind


def working(supply: Supply, centre: Values, found: Mapping[str, Estimate]) -> Iterator[Note]:
    ambient = centre["ambient"]
    common = {"volume": centre["volume"], "temperature": centre["temperature"]}
    for code, pressure in (
        ("gas-use-content", absolute(supply.pressure, ambient, centre["pressure"])),
        ("gas-use-left", absolute(reserve_of(supply), ambient)),
    ):
        factor = compressibility_factor(
            gas=supply.gas, temperature=centre["temperature"], pressure=pressure
        )
        amount = amount_at(supply, centre, pressure)
        yield Note(code, values={**common, "pressure": pressure, "factor": factor,
                                 "amount": amount})  # fmt: skip
    usable, flow = found["usable"].value, found["flow"].value
    if supply.flow.kind is not Kind.NORMAL_FLOW:
        yield Note("gas-use-flow", values={"given": centre["flow"], "pressure": ambient,
                   "temperature": centre["temperature"], "flow": flow})  # fmt: skip
    yield Note("gas-use-time", values={"usable": usable, "flow": flow,
               "time": found["time"].value})  # fmt: skip
    cost = found.get("per_hour")
    if cost is None:
        return
    yield Note("gas-use-cost", values={"price": supply.money.price, "cost": cost.value,
               "bought": supply.money.price / cost.value if supply.money.price else 0.0,
               "currency": supply.money.currency})  # fmt: skip
    if gram := found.get("per_gram"):
        runs_on = supply.rest is not None and supply.rest.gas != "stops"
        yield Note("gas-use-gram", values={"cost": cost.value, "output": centre["output"] * M_O3,
                   "duty": supply.rest.duty if runs_on and supply.rest else None,
                   "gram": gram.value, "mmol": found["per_mmol"].value,
                   "currency": supply.money.currency})  # fmt: skip


def notes(supply: Supply) -> Iterator[Note]:
    if supply.temperature is None:
        yield Note("gas-use-temperature-unknown")
    if supply.ambient is None and supply.flow.kind is not Kind.NORMAL_FLOW:
        yield Note("gas-use-ambient-unknown")
    if supply.flow.kind is not Kind.NORMAL_FLOW:
        yield Note("gas-use-flow-basis", "advice")
    if supply.reserve is None:
        reserve = limit("CYLINDER_RESERVE").value
        yield Note("gas-use-reserve-unknown", values={"reserve": reserve})
    if supply.money.price is not None and supply.full is None:
        yield Note("gas-use-full-unknown", "advice")
    if supply.money.deposit is not None:
        yield Note("gas-use-deposit", "advice", {"deposit": supply.money.deposit,
                   "currency": supply.money.currency})  # fmt: skip
    yield Note("gas-use-basis", "advice")


def next_steps(supply: Supply, found: Mapping[str, Estimate], several: bool) -> Iterator[Note]:
    rest = supply.rest
    if rest is not None and rest.gas != "stops":
        yield Note("gas-use-stop-gas", "advice", {"times": 1.0 / rest.duty,
                   "wasted": 1.0 - rest.duty, "stated": rest.gas is not None})  # fmt: skip
    if not several:
        yield Note("gas-use-half-flow", "advice", {"flow": half_flow(found["flow"].value)})
    if supply.output is None and supply.money.price is not None:
        yield Note("gas-use-output-unknown", "advice")


def unknowns(supply: Supply) -> Iterator[str]:
    yield from (
        name
        for name in ("temperature", "ambient", "reserve", "output")
        if getattr(supply, name) is None
    )
    if supply.money.price is None:
        yield "price"
    if supply.rest is not None and supply.rest.gas is None:
        yield "gas_at_rest"
