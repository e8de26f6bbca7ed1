"""How long the gas lasts and what it costs, from quantities typed as text."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, get_args

from ozonewright.bench.notebook import outputs_of
from ozonewright.bench.ozone_rate import ozone_rate
from ozonewright.documents.money import Price, one_currency, price
from ozonewright.documents.typed import Typed, typed
from ozonewright.errors import (
    AppError,
    Faults,
    InputError,
    MissingValue,
    OutOfBounds,
    UnitError,
    nearest,
)
from ozonewright.notebook import Notebook
from ozonewright.questions.gas_use import Bottled, FlowPoint, GasUse, Money, Rest, Supply, gas_use
from ozonewright.questions.gas_use.supply import RestGas
from ozonewright.references.cylinder_gas import cylinder_gas
from ozonewright.references.limits import limit
from ozonewright.uncertain import HALF_WIDTHS, Estimate, Measured
from ozonewright.units import Kind, read, size

FIELDS: dict[str, tuple[Kind, ...]] = {
    "cylinder": (Kind.VOLUME,),
    "pressure": (Kind.CYLINDER_PRESSURE,),
    "flow": (Kind.NORMAL_FLOW, Kind.VOLUME_FLOW),
    "temperature": (Kind.TEMPERATURE,),
    "ambient": (Kind.PRESSURE,),
    "reserve": (Kind.CYLINDER_PRESSURE,),
    "full": (Kind.CYLINDER_PRESSURE,),
    "output": (Kind.MASS_RATE, Kind.AMOUNT_RATE),
    "on": (Kind.TIME,),
    "off": (Kind.TIME,),
    "hardware_life": (Kind.TIME,),
    "use": (Kind.TIME,),
    "concentrator_power": (Kind.POWER,),
    "concentrator_output": (Kind.MASS_RATE, Kind.AMOUNT_RATE),
    "second_tube_power": (Kind.POWER,),
    "second_tube_output": (Kind.MASS_RATE, Kind.AMOUNT_RATE),
}
"""Quantities that may be stated, and what kind each is."""
PRICES = (
    "price", "hardware", "rent", "deposit", "energy_price", "concentrator_price",
    "second_tube_price",
)  # fmt: skip
EXAMPLES = {"cylinder": "10.0 L", "pressure": "150 bar gauge", "flow": "0.50 NL/min"}
"""What is needed, with an example of each."""
TOGETHER = (
    ("hardware", "hardware_life", "2000 h"),
    ("rent", "use", "100 h"),
    ("on", "off", "9 min"),
    ("off", "on", "6 min"),
    ("gas_at_rest", "off", "9 min"),
)
"""A field that means nothing without another."""
DIVIDED_BY = ("flow", "output")
VAGUEST = 0.201
"""Relative uncertainty of a divisor: five standard uncertainties from nought."""
NOT_BELOW_ZERO = ("reserve", "off")


def use_of_gas(texts: Mapping[str, str | None], notebook: Notebook | None = None) -> GasUse:
    """Return how long the gas lasts and what it costs; runs of the notebook tell of other flows."""
    stated = {name: text for name, text in texts.items() if text}
    faults: list[AppError] = []
    read_in = _quantities(stated, faults)
    prices = _prices(stated, faults)
    faults += _gaps(stated)
    gas = stated.get("gas", "oxygen")
    try:
        cylinder_gas(gas)
    except AppError as error:
        faults.append(error.at("gas"))
    at_rest = stated.get("gas_at_rest")
    if at_rest is not None and at_rest not in get_args(RestGas):
        fix = nearest(at_rest, get_args(RestGas))
        faults.append(
            InputError("the gas runs or stops", where="gas_at_rest", got=at_rest, fix=fix)
        )
    currency = ""
    try:
        currency = one_currency(prices)
    except AppError as error:
        faults.append(error)
    if faults:
        raise Faults(faults)
    points = tuple(_points(notebook, gas)) if notebook else ()
    return gas_use(_supply(gas, stated, read_in, prices, currency), points)


def _quantities(stated: Mapping[str, str], faults: list[AppError]) -> dict[str, Typed]:
    found: dict[str, Typed] = {}
    for name, kinds in FIELDS.items():
        if name not in stated:
            continue
        bound = {"least": 0.0} if name in NOT_BELOW_ZERO else {"above": 0.0}
        try:
            found[name] = typed(stated[name], kinds, **bound)  # type: ignore[arg-type]
            if name in DIVIDED_BY:
                _check_divisor(found[name])
        except AppError as error:
            faults.append(error.at(name))
    return found


def _check_divisor(one: Typed) -> None:
    """Refuse a divisor that may be nought: hours and costs would have no upper end."""
    if one.basis == "from digits" and one.u * HALF_WIDTHS["rectangular"] > 0.999 * one.value:
        number, _, unit = one.text.strip().partition(" ")
        raise UnitError(
            "typed to one digit, this may be anything down to nought",
            got=one.text,
            fix=f'Write it as read, such as "{number}.0 {unit}", or state its uncertainty: '
            f'"{number} {unit} ± 5 %".',
        )
    if one.basis == "stated" and one.u > VAGUEST * one.value:
        raise OutOfBounds(
            "known to worse than 20 %: what is divided by it has no useful uncertainty",
            got=one.text,
            fix="Measure it, or ask twice: with the lowest and with the highest value.",
        )


def _prices(stated: Mapping[str, str], faults: list[AppError]) -> dict[str, Price]:
    found: dict[str, Price] = {}
    for name in PRICES:
        if name in stated:
            try:
                found[name] = price(stated[name])
            except AppError as error:
                faults.append(error.at(name))
    return found


def _gaps(stated: Mapping[str, str]) -> Iterator[AppError]:
    for name, example in EXAMPLES.items():
        if name not in stated:
            yield MissingValue("this is needed", where=name, fix=f'Write it as "{example}".')
    for name, other, example in TOGETHER:
        if name in stated and other not in stated:
            yield MissingValue(f"this is needed with {name.replace('_', ' ')}", where=other,
                               fix=f'Write it as "{example}".')  # fmt: skip


def _supply(
    gas: str,
    stated: Mapping[str, str],
    found: Mapping[str, Typed],
    prices: Mapping[str, Price],
    currency: str,
) -> Supply:
    def value(name: str) -> float | None:
        return found[name].value if name in found else None

    def measured(name: str, words: str) -> Measured | None:
        return found[name].measured(words) if name in found else None

    def bottled(name: str, words: str) -> Bottled | None:
        if name not in found:
            return None
        gauge = read(stated[name], Kind.CYLINDER_PRESSURE).basis == "gauge"
        return Bottled(found[name].measured(words), gauge)

    pressure = bottled("pressure", "cylinder pressure")
    assert pressure is not None
    on, off = value("on"), value("off")
    at_rest: Any = stated.get("gas_at_rest")
    return Supply(
        gas=gas,
        volume=found["cylinder"].measured("water capacity"),
        pressure=pressure,
        flow=found["flow"].measured("flow"),
        temperature=measured("temperature", "temperature"),
        ambient=measured("ambient", "ambient pressure"),
        reserve=bottled("reserve", "reserve"),
        full=bottled("full", "full pressure"),
        output=ozone_rate(found["output"]) if "output" in found else None,
        rest=Rest(on, off, at_rest) if on is not None and off is not None else None,
        money=_money(found, prices, currency),
        concentrator_power=value("concentrator_power"),
        concentrator_output=_rate_value(found, "concentrator_output"),
        second_tube_power=value("second_tube_power"),
        second_tube_output=_rate_value(found, "second_tube_output"),
    )


def _money(found: Mapping[str, Typed], prices: Mapping[str, Price], currency: str) -> Money:
    amounts = {name: one.amount for name, one in prices.items()}
    energy = amounts.get("energy_price")
    life, use = found.get("hardware_life"), found.get("use")
    return Money(
        currency=currency,
        price=amounts.get("price"),
        hardware=amounts.get("hardware"),
        hardware_life=life.value if life else None,
        rent=amounts.get("rent"),
        use=use.value if use else None,
        deposit=amounts.get("deposit"),
        energy=energy / size(Kind.ENERGY, "kWh") if energy is not None else None,
        concentrator=amounts.get("concentrator_price"),
        second_tube=amounts.get("second_tube_price"),
    )


def _rate_value(found: Mapping[str, Typed], name: str) -> float | None:
    return ozone_rate(found[name]).value if name in found else None


def _points(notebook: Notebook, gas: str) -> Iterator[FlowPoint]:
    """Yield the runs with discharge and a known flow that were fed with the cylinder's gas."""
    feeds = {
        entry.label: _feed(entry.data.get("gas", {}), gas) for entry in notebook.entries(kind="run")
    }
    for found in outputs_of(notebook):
        feed = feeds.get(found.label or "", "")
        flow, rate = found.feed_flow, found.rate
        known = isinstance(flow, Estimate) and isinstance(rate, Estimate)
        if feed and known and found.discharge == "on":
            assert isinstance(flow, Estimate) and isinstance(rate, Estimate)  # noqa: PT018
            yield FlowPoint(found.label or "", feed, flow.value, rate.value, rate.u)


def _feed(table: Mapping[str, Any], gas: str) -> str:
    """Return a run's feed in words where it is much the same as the gas, else nothing."""
    feed = table.get("feed", "")
    if isinstance(feed, Mapping):
        shares = {name: read(share, Kind.MOLE_FRACTION).value for name, share in feed.items()}
        same = shares.get(gas, 0.0) >= limit("SAME_GAS").value
        return ", ".join(f"{share} {name}" for name, share in feed.items()) if same else ""
    return str(feed) if str(feed).removeprefix("dry ") == gas else ""
