"""Gas use against sums done by hand, and its refusals."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from ozonewright.bench.gas_use import use_of_gas
from ozonewright.documents.money import one_currency, price
from ozonewright.errors import AppError, Faults, Inconsistent, NoDataInRange, OutOfBounds, UnitError
from ozonewright.physics.gas.cylinder import amount_in_cylinder, compressibility_factor
from ozonewright.questions.gas_use.flows import FlowPoint, flow_notes, lowest_flow, most_flows
from ozonewright.references.cylinder_gas import cylinder_gas, cylinder_gases
from ozonewright.results import plain
from ozonewright.show.gas_use import gas_use_text
from ozonewright.show.words import sentence

BASIC = {
    "cylinder": "10.0 L",
    "pressure": "150 bar abs",
    "temperature": "15 °C",
    "ambient": "100 kPa",
    "flow": "0.500 NL/min",
    "reserve": "10 bar abs",
}
NORMAL_LITRE = 22.41397e-3


def keys(**texts: str) -> dict[str, Any]:
    return plain(use_of_gas(BASIC | texts), sentence)


def codes(**texts: str) -> set[str]:
    found = use_of_gas(BASIC | texts)
    return {note.code for note in (*found.notes, *found.next)}


def test_factor_of_a_scalar_and_of_arrays() -> None:
    """0.9291 and 0.9311: CoolProp 8.0.0, oxygen at 15 °C and 150 and 200 bar."""
    one = compressibility_factor(gas="oxygen", temperature=288.15, pressure=150e5)
    assert isinstance(one, float)
    assert one == pytest.approx(0.92906, abs=2e-5)
    both = compressibility_factor(
        gas="oxygen", temperature=288.15, pressure=np.array([150e5, 200e5])
    )
    assert both == pytest.approx([0.92906, 0.93115], abs=2e-5)
    grid = compressibility_factor(
        gas="oxygen", temperature=np.array([[273.15], [293.15]]), pressure=np.array([0.0, 150e5])
    )
    assert grid.shape == (2, 2)  # type: ignore[union-attr]
    assert grid[:, 0] == pytest.approx([1.0, 1.0])  # type: ignore[index]


@pytest.mark.parametrize(
    ("temperature", "pressure"), [(200.0, 1e7), (400.0, 1e7), (288.15, -1.0), (288.15, 321e5),
                                  (np.array([288.15, 400.0]), 1e7), (float("nan"), 1e7)],
)  # fmt: skip
def test_nothing_is_extrapolated(temperature: Any, pressure: float) -> None:
    with pytest.raises(NoDataInRange):
        compressibility_factor(gas="oxygen", temperature=temperature, pressure=pressure)


def test_an_unknown_gas_is_told_with_those_known() -> None:
    assert cylinder_gases() == ("oxygen", "nitrogen", "air")
    with pytest.raises(AppError, match="nitrogen"):
        cylinder_gas("nitrogn")


def test_content_of_the_ideal_gas_by_hand() -> None:
    """1 bar × 24.790 L ÷ (8.314463 × 298.15 K) = 1.0000 mol."""
    found = amount_in_cylinder(
        volume=24.78957e-3, temperature=298.15, pressure=1e5, compressibility=1.0
    )
    assert found == pytest.approx(1.0, rel=1e-6)


def test_content_and_hours_by_hand() -> None:
    """150e5 × 0.01 ÷ (0.92906 × 8.314463 × 288.15) = 67.389 mol, × 22.41397 L = 1.5105 Nm³.

    At 10 bar the factor is 0.9926 (CoolProp 8.0.0): 4.2050 mol, 0.09425 Nm³. So 1.4162 Nm³, at
    30 NL/h 47.21 h (hand calculation).
    """
    found = keys()
    assert found["gas_nm3"] == pytest.approx(1.5105, abs=1e-4)
    assert found["usable_nm3"] == pytest.approx(1.4162, abs=1e-4)
    assert found["hours"] == pytest.approx(47.21, abs=0.01)
    assert found["gas_kg"] == pytest.approx(67.389 * 0.031998, abs=1e-3)
    assert found["cost_per_hour"] is None


def test_costs_by_hand() -> None:
    """130 ÷ 47.21 h = 2.754; ÷ 0.6 g/h = 4.590; × 0.047997 g/mmol = 0.2203 (hand calculation)."""
    found = keys(price="130", output="0.6 g/h")
    assert found["cost_per_hour"] == pytest.approx(2.754, abs=1e-3)
    assert found["cost_per_gram"] == pytest.approx(4.590, abs=2e-3)
    assert found["cost_per_mmol"] == pytest.approx(0.2203, abs=1e-4)
    assert found["u_cost_per_gram"] > 0.0
    assert keys(price="130", output="12.5008 mmol/h")["cost_per_gram"] == pytest.approx(
        4.590, abs=2e-3
    )


def test_gauge_is_air_pressure_more() -> None:
    assert keys(pressure="149 bar gauge", reserve="9 bar gauge")["usable_nm3"] == pytest.approx(
        keys()["usable_nm3"], rel=1e-9
    )


def test_litres_are_taken_at_the_conditions_beside_them() -> None:
    """0.5 L/min × 100 ÷ 101.325 × 273.15 ÷ 288.15 = 0.46778 NL/min (hand calculation)."""
    assert keys(flow="0.500 L/min")["flow_nl_per_min"] == pytest.approx(0.46778, abs=2e-5)


def test_a_fuller_cylinder_is_what_the_price_buys() -> None:
    """From 200 bar, 15 °C: 2.0097 − 0.09425 = 1.9154 Nm³; 130 ÷ 1.9154 × 0.030 = 2.036 per h.

    The content is 200e5 × 0.01 ÷ (0.93115 × 8.314463 × 288.15) = 89.65 mol (hand calculation).
    """
    assert keys(price="130", full="200 bar abs")["cost_per_hour"] == pytest.approx(2.036, abs=2e-3)


def test_gas_that_runs_while_the_generator_rests_is_paid_for() -> None:
    """6 min on, 9 min off: duty 0.4, so a gram costs 2.5 times as much and 60 % is wasted."""
    plainly = keys(price="130", output="0.6 g/h")
    rest = {"price": "130", "output": "0.6 g/h", "on": "6 min", "off": "9 min"}
    runs, stops = keys(**rest), keys(**rest, gas_at_rest="stops")
    assert runs["cost_per_gram"] == pytest.approx(2.5 * plainly["cost_per_gram"])
    assert runs["wasted_nm3"] == pytest.approx(0.6 * plainly["usable_nm3"])
    assert runs["clock_hours"] == pytest.approx(plainly["hours"])
    assert runs["discharge_hours"] == pytest.approx(0.4 * plainly["hours"])
    assert runs["unknowns"][-1] == "gas_at_rest"
    assert stops["cost_per_gram"] == pytest.approx(plainly["cost_per_gram"])
    assert stops["wasted_nm3"] == 0.0
    assert stops["clock_hours"] == pytest.approx(2.5 * plainly["hours"])
    assert stops["discharge_hours"] == pytest.approx(plainly["hours"])


def test_hardware_and_rent_are_spread_and_the_deposit_is_capital() -> None:
    """180 ÷ 2000 h + 80 ÷ 100 h = 0.89 per hour more; outlay 130 + 180 + 150 (hand calculation)."""
    more = {"hardware": "180", "hardware_life": "2000 h", "rent": "80", "use": "100 h"}
    found = keys(price="130", output="0.6 g/h", deposit="150", **more)
    without = keys(price="130", output="0.6 g/h")
    assert found["with_hardware_per_hour"] == pytest.approx(without["cost_per_hour"] + 0.89)
    assert found["with_hardware_per_gram"] == pytest.approx(
        without["cost_per_gram"] + 0.89 / 0.6, rel=1e-6
    )
    assert found["with_hardware_per_mmol"] == pytest.approx(
        found["with_hardware_per_gram"] * 0.047997, rel=1e-6
    )
    assert (found["outlay"], found["deposit"]) == (460.0, 150.0)
    assert found["cost_per_hour"] == pytest.approx(without["cost_per_hour"])
    rented = keys(price="130", rent="80", use="100 h")
    assert rented["with_hardware_per_hour"] == pytest.approx(without["cost_per_hour"] + 0.8)
    assert rented["with_hardware_per_gram"] is None


def test_a_concentrator_pays_by_the_hour_where_its_output_is_unknown() -> None:
    """0.35 kW × 0.30 = 0.105 per hour; 600 ÷ (2.754 − 0.105) = 226.5 h (hand calculation)."""
    energy = {"energy_price": "0.30", "concentrator_price": "600", "concentrator_power": "350 W"}
    (row,) = keys(price="130", **energy)["alternatives"]
    assert row["cost_per_hour"] == pytest.approx(0.105)
    assert row["break_even_hours"] == pytest.approx(226.5, abs=0.2)
    assert row["break_even_g"] is None
    assert "gas-use-concentrator-output" in codes(price="130", **energy)


def test_a_concentrator_pays_by_the_gram_where_both_outputs_are_known() -> None:
    """4.590 − 0.105 ÷ 0.5 = 4.380 per gram; 600 ÷ 4.380 = 137.0 g, ÷ 0.5 = 274.0 h (by hand)."""
    (row,) = keys(
        price="130", output="0.6 g/h", energy_price="0.30", concentrator_price="600",
        concentrator_power="350 W", concentrator_output="0.5 g/h",
    )["alternatives"]  # fmt: skip
    assert row["cost_per_gram"] == pytest.approx(0.21, abs=1e-4)
    assert row["break_even_g"] == pytest.approx(137.0, abs=0.2)
    assert row["break_even_hours"] == pytest.approx(274.0, abs=0.4)


def test_a_concentrator_that_runs_through_the_rests_costs_electricity() -> None:
    texts = {"energy_price": "0.30", "concentrator_price": "600", "concentrator_power": "350 W",
             "price": "130", "on": "6 min", "off": "9 min"}  # fmt: skip
    assert keys(**texts)["alternatives"][0]["cost_per_hour"] == pytest.approx(0.105 / 0.4)
    stopped = keys(**texts, gas_at_rest="stops")["alternatives"][0]
    assert stopped["cost_per_hour"] == pytest.approx(0.105)


def test_a_second_tube_uses_the_same_gas() -> None:
    """2.754 ÷ 0.9 = 3.060 per gram; 80 ÷ (4.590 − 3.060) = 52.3 g, ÷ 0.9 = 58.1 h (by hand)."""
    texts = {"price": "130", "output": "0.6 g/h", "second_tube_price": "80"}
    (row,) = keys(**texts, second_tube_output="0.9 g/h")["alternatives"]
    assert row["cost_per_gram"] == pytest.approx(3.060, abs=2e-3)
    assert row["break_even_g"] == pytest.approx(52.3, abs=0.1)
    assert row["break_even_hours"] == pytest.approx(58.1, abs=0.1)
    (powered,) = keys(**texts, second_tube_output="0.9 g/h", second_tube_power="40 W",
                      energy_price="0.25")["alternatives"]  # fmt: skip
    assert powered["cost_per_hour"] == pytest.approx(row["cost_per_hour"] + 0.01)


def test_what_never_pays_and_what_cannot_be_told() -> None:
    texts = {"price": "130", "output": "0.6 g/h", "second_tube_price": "80"}
    assert "gas-use-never" in codes(**texts, second_tube_output="0.5 g/h")
    assert "second_tube_output" in keys(**texts)["unknowns"]
    dear = {"energy_price": "30", "concentrator_price": "600", "concentrator_power": "350 W"}
    assert "gas-use-never" in codes(price="130", **dear)
    unpowered = keys(price="130", concentrator_price="600")
    assert unpowered["alternatives"][0]["break_even_hours"] is None
    assert "concentrator_power or energy_price" in unpowered["unknowns"]
    assert keys(concentrator_price="600")["alternatives"][0]["cost_per_hour"] is None
    assert keys(second_tube_price="80")["alternatives"][0]["cost_per_hour"] is None


def test_what_is_not_stated_is_named_and_widens() -> None:
    bare = {"cylinder": "10.0 L", "pressure": "150 bar gauge", "flow": "0.500 L/min"}
    found = use_of_gas(bare | {"price": "130"})
    assert found.unknowns == ("temperature", "ambient", "reserve", "output")
    assert {note.code for note in found.notes} >= {
        "gas-use-temperature-unknown", "gas-use-ambient-unknown", "gas-use-flow-basis",
        "gas-use-reserve-unknown", "gas-use-full-unknown", "gas-use-basis",
    }  # fmt: skip
    stated = use_of_gas(bare | {"temperature": "20 °C", "ambient": "101.325 kPa"})
    assert found.usable.u > 2.0 * stated.usable.u  # type: ignore[union-attr]
    assert "price" in stated.unknowns


@pytest.mark.parametrize(
    ("texts", "kind", "where"),
    [
        ({"pressure": "9 bar abs"}, Inconsistent, "pressure"),
        ({"full": "10 bar abs"}, Inconsistent, "full"),
        ({"pressure": "400 bar abs"}, OutOfBounds, "pressure"),
        ({"pressure": "150 bar abs ± 90 bar"}, OutOfBounds, "pressure"),
        ({"pressure": "299 bar abs ± 5 bar"}, OutOfBounds, "pressure"),
        ({"full": "200 bar abs ± 60 bar"}, OutOfBounds, "full"),
        ({"temperature": "60 °C"}, OutOfBounds, "temperature"),
        ({"temperature": "20 °C ± 15 K"}, OutOfBounds, "temperature"),
    ],
)
def test_what_has_no_answer_is_refused(
    texts: dict[str, str], kind: type[AppError], where: str
) -> None:
    with pytest.raises(kind) as caught:
        use_of_gas(BASIC | texts)
    assert caught.value.where == where


def test_every_fault_is_told_at_once() -> None:
    with pytest.raises(Faults) as caught:
        use_of_gas({"pressure": "150 bar", "gas": "helium", "rent": "5 EUR", "price": "1 USD",
                    "hardware": "much", "on": "6 min", "gas_at_rest": "leaks"})  # fmt: skip
    assert {fault.where for fault in caught.value} == {
        "pressure", "gas", "price, rent", "hardware", "off", "gas_at_rest", "cylinder", "flow",
        "use", "hardware_life",
    }  # fmt: skip


@pytest.mark.parametrize("place", ["flow", "output"])
def test_a_divisor_of_one_digit_is_asked_for_again(place: str) -> None:
    one = {"flow": "1 NL/min", "output": "1 g/h"}[place]
    with pytest.raises(Faults) as caught:
        use_of_gas(BASIC | {place: one})
    assert "1.0 " in next(iter(caught.value)).fix
    assert use_of_gas(BASIC | {place: f"{one} ± 20 %"}).time is not None
    with pytest.raises(Faults, match="worse than 20 %"):
        use_of_gas(BASIC | {place: f"{one} ± 40 %"})


@pytest.mark.parametrize(
    ("text", "amount", "currency"),
    [("130", 130.0, ""), ("130 EUR", 130.0, "EUR"), ("€ 12,50", 12.5, "€"), ("0.3kr", 0.3, "kr")],
)
def test_prices_are_read(text: str, amount: float, currency: str) -> None:
    assert price(text) == (amount, currency)


@pytest.mark.parametrize("text", ["", "free", "1,234", "-5", "5 EUR/kWh", "5 or 6", "EUR 5 EUR"])
def test_prices_that_are_none_are_refused(text: str) -> None:
    with pytest.raises(UnitError):
        price(text)


def test_one_currency_or_none() -> None:
    assert one_currency({"a": price("5 EUR"), "b": price("7")}) == "EUR"
    assert one_currency({}) == ""
    with pytest.raises(Inconsistent, match="EUR, USD"):
        one_currency({"a": price("5 EUR"), "b": price("7 USD")})


def points(*pairs: tuple[float, float], u: float = 0.01, feed: str = "oxygen") -> list[FlowPoint]:
    return [FlowPoint(f"R{n}", feed, flow, rate, u) for n, (flow, rate) in enumerate(pairs)]


def test_lowest_flow_that_keeps_the_output() -> None:
    """1.00 at the best; 0.93 at 0.5 and 0.70 at 0.25: 0.5 keeps nine tenths (by hand)."""
    made = points((0.25, 0.70), (0.5, 0.92), (0.51, 0.94), (1.0, 1.0))
    _, levels = most_flows([*made, *points((1.0, 0.2), feed="air")])
    assert [level.runs for level in levels] == [1, 2, 1]
    assert lowest_flow(levels) == pytest.approx(0.505)
    assert [note.code for note in flow_notes("oxygen", levels)] == ["gas-use-lowest-flow"]


@pytest.mark.parametrize(
    ("pairs", "u", "code"),
    [
        (((0.5, 0.95), (1.0, 1.0)), 0.01, "gas-use-lower-untried"),
        (((0.2, 0.5), (0.5, 0.92), (1.0, 1.0)), 0.05, "gas-use-flow-not-determined"),
        (((0.5, 1.0), (1.0, 0.8)), 0.01, "gas-use-less-is-more"),
    ],
)
def test_flows_say_what_they_cannot_tell(
    pairs: tuple[tuple[float, float], ...], u: float, code: str
) -> None:
    _, levels = most_flows(points(*pairs, u=u))
    assert code in {note.code for note in flow_notes("oxygen", levels)}


def test_no_runs_no_flows() -> None:
    assert most_flows([]) == ("", [])


def test_text_says_what_the_keys_say() -> None:
    texts = BASIC | {"price": "130 EUR", "output": "0.60 g/h", "deposit": "150 EUR",
                     "hardware": "180 EUR", "hardware_life": "2000 h", "on": "6 min",
                     "off": "9 min", "concentrator_price": "600 EUR", "energy_price": "0.3 EUR",
                     "concentrator_power": "350 W", "concentrator_output": "0.5 g/h",
                     "flow": "0.500 L/min"}  # fmt: skip
    text = gas_use_text(use_of_gas(texts))
    assert "EUR per gram of ozone" in text.splitlines()[0]
    for words in ("600 EUR", "pays after", "0.468 NL/min", "150 EUR"):
        assert words in text
    assert gas_use_text(use_of_gas(BASIC | {"price": "130"})).startswith("47.2")
    assert max(len(line) for line in text.splitlines()) <= 80
