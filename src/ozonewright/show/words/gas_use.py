"""What the gas use says."""

from __future__ import annotations

from collections.abc import Callable

from ozonewright.references.constants import NORMAL_MOLAR_VOLUME, R
from ozonewright.show.numbers import percent, quantity, significant
from ozonewright.units import Kind, number, size


def _litres(volume: float) -> str:
    return quantity(volume, Kind.VOLUME, "L")


def _bar(pressure: float) -> str:
    return quantity(pressure, Kind.CYLINDER_PRESSURE, "bar")


def _normal(amount: float) -> str:
    return quantity(amount, Kind.NORMAL_VOLUME, "Nm3")


def _flow(flow: float) -> str:
    return quantity(flow, Kind.NORMAL_FLOW, "NL/min", figures=3)


def _hours(time: float) -> str:
    return f"{significant(number(time, Kind.TIME, 'h'), 3)} h"


def money(value: float, currency: str, per: str = "", figures: int = 3) -> str:
    """Return ``2.75 EUR per hour``; the currency is what was typed, or nothing."""
    return " ".join(part for part in (significant(value, figures), currency, per) if part)


def typed_money(value: float, currency: str) -> str:
    """Return a price as it was typed, with its currency."""
    return " ".join(part for part in (f"{value:.10g}", currency) if part)


def _hour(cost: float, currency: str) -> str:
    return money(number(cost, Kind.PRICE_PER_TIME, "1/hour"), currency, "per hour")


def _content(
    volume: float, temperature: float, pressure: float, factor: float, amount: float
) -> str:
    bar_litres = R / size(Kind.CYLINDER_PRESSURE, "bar") / size(Kind.VOLUME, "L")
    return (
        f"{_bar(pressure)} × {_litres(volume)} ÷ ({factor:.4f} × {bar_litres:.6f} L bar/mol/K × "
        f"{temperature:.2f} K) = {quantity(amount, Kind.AMOUNT, 'mol')}; × "
        f"{number(NORMAL_MOLAR_VOLUME, Kind.VOLUME, 'L'):.3f} L/mol = {_normal(amount)}"
    )


SENTENCES: dict[str, Callable[..., str]] = {
    "gas-use-content": lambda **values: f"in the cylinder (absolute): {_content(**values)}",
    "gas-use-left": lambda **values: f"left at the reserve: {_content(**values)}",
    "gas-use-flow": lambda given, pressure, temperature, flow: (
        f"flow: {quantity(given, Kind.VOLUME_FLOW, 'L/min', figures=3)} × "
        f"{quantity(pressure, Kind.PRESSURE, 'kPa')} ÷ 101.325 kPa × 273.15 K ÷ "
        f"{temperature:.2f} K = {_flow(flow)}"
    ),
    "gas-use-time": lambda usable, flow, time: (
        f"time: {_normal(usable)} × 1000 ÷ {_flow(flow)} ÷ 60 = {_hours(time)}"
    ),
    "gas-use-cost": lambda price, cost, bought, currency: (
        f"cost: {typed_money(price, currency)} ÷ {_hours(bought)} = {_hour(cost, currency)} of gas"
    ),
    "gas-use-gram": lambda cost, output, duty, gram, mmol, currency: (
        f"ozone: {_hour(cost, currency)} ÷ {quantity(output, Kind.MASS_RATE, 'g/h', figures=3)}"
        + (f" ÷ {significant(duty, 3)} (share of the clock with the discharge on)" if duty else "")
        + f" = {money(number(gram, Kind.PRICE_PER_MASS, '1/gram'), currency, 'per gram')}; × "
        f"0.047997 = {money(number(mmol, Kind.PRICE_PER_AMOUNT, '1/mmol'), currency, 'per mmol')}"
    ),
    "gas-use-temperature-unknown": lambda: (
        "Temperature of the cylinder not stated: 20 ± 5 °C taken. Every 5 °C move the content by "
        "2 to 3 %."
    ),
    "gas-use-ambient-unknown": lambda: (
        "Air pressure not stated: 101.3 ± 3 kPa taken, for the flow in L/min."
    ),
    "gas-use-flow-basis": lambda: (
        "The flow in L/min is taken as true flow at the cylinder's temperature and the air pressure: "
        "a rotameter's scale made for air reads 5 % high for oxygen."
    ),
    "gas-use-reserve-unknown": lambda reserve: (
        f"Reserve not stated: {number(reserve, Kind.CYLINDER_PRESSURE, 'bar'):g} bar gauge is left in the cylinder (common practice, no "
        "source)."
    ),
    "gas-use-full-unknown": lambda: (
        "The price is taken for the gas from this pressure down; state the pressure of a full "
        "cylinder where the gauge reads less than that."
    ),
    "gas-use-deposit": lambda deposit, currency: (
        f"The deposit of {typed_money(deposit, currency)} is capital: it comes back with the cylinder and "
        "is in no cost above."
    ),
    "gas-use-basis": lambda: (
        "NL and Nm³ are amounts on the basis of 22.41397 L/mol (ideal gas, 0 °C, 101.325 kPa). A "
        "real normal litre of oxygen is 22.392 L/mol, so a supplier's figure may be 0.1 % smaller."
    ),
    "gas-use-stop-gas": lambda times, wasted, stated: (
        ("" if stated else "Gas at rest not stated and taken as running on. ")
        + f"Close the gas while the generator rests: {percent(wasted)} of it goes unused, and a gram "
        f"costs {significant(times, 3)} times what it could. Purge before the discharge goes on again."
    ),
    "gas-use-half-flow": lambda flow: (
        f"Measure the output at about {_flow(flow)}: cost goes with flow, so half the flow halves "
        "the cost of a gram as far as the output holds."
    ),
    "gas-use-output-unknown": lambda: "Output not stated: with it a gram and a mmol get a price.",
    "gas-use-never": lambda name: f"The {name} never pays: what it saves is less than it costs.",
    "gas-use-concentrator-output": lambda: (
        "The output with concentrator oxygen is not stated, so the hours of the concentrator take it "
        "as equal; measure it before you buy."
    ),
    "gas-use-less-is-more": lambda flow, feed: (
        f"Fed with {feed}, the best output lies at {_flow(flow)} and falls by more than a tenth at "
        "the highest flow measured: use no more."
    ),
    "gas-use-lowest-flow": lambda flow, feed, share, kept, runs: (
        f"Fed with {feed}: {_flow(flow)} is the lowest measured flow that keeps "
        f"{percent(kept)} of the best output ({percent(share)}, from "
        f"{'1 run' if runs == 1 else f'{runs} runs'})."
    ),
    "gas-use-lower-untried": lambda flow: (
        f"No run below {_flow(flow)}: a still lower flow may do as well."
    ),
    "gas-use-flow-not-determined": lambda spread, flow: (
        f"Not determined: the shares are known to {percent(spread)} only, which does not tell the "
        f"output at {_flow(flow)} from less than 90 %. Repeat the runs."
    ),
}
