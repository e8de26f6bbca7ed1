"""The gas-use page: an answer from what is in the address, faults at their fields."""

from __future__ import annotations

from ozonewright.bench.notebook import add_table
from ozonewright.notebook import Notebook
from web.in_process import Pages

BASIC = {
    "cylinder": "10.0 L",
    "pressure": "150 bar abs",
    "temperature": "15 °C",
    "ambient": "100 kPa",
    "flow": "0.500 NL/min",
    "reserve": "10 bar abs",
}


def test_the_form_stands_alone_and_in_a_notebook(pages: Pages, bare: Pages) -> None:
    for client in (pages, bare):
        assert "How long does the gas last?" in client.get("/gas-use").text


def test_a_supply_is_answered(bare: Pages) -> None:
    """By hand as in tests/unit/test_gas_use.py: 47.2 h, 4.59 per gram; 226.5 h to pay."""
    asked = BASIC | {"price": "130 EUR", "output": "0.6 g/h", "energy_price": "0.3",
                     "concentrator_price": "600", "concentrator_power": "350 W"}  # fmt: skip
    text = bare.get("/gas-use", params=asked).text.replace("\u00a0", " ")
    for words in ("47.2", "4.59", "EUR per gram of ozone", "pays after 227 h", "1.510", "Working"):
        assert words in text
    hour = bare.get("/gas-use", params=BASIC | {"price": "130"}).text.replace("\u00a0", " ")
    assert "per hour" in hour


def test_rests_are_told_beside_the_answer(bare: Pages) -> None:
    asked = BASIC | {"on": "6 min", "off": "9 min"}
    assert "18.88" in bare.get("/gas-use", params=asked).text  # 0.4 of 47.21 h, by hand


def test_every_fault_is_at_its_field(bare: Pages) -> None:
    reply = bare.get("/gas-use", params={"cylinder": "10", "pressure": "150 bar", "rent": "5"})
    assert reply.status_code == 422
    for place in ("cylinder", "pressure", "flow", "use"):
        assert f'id="{place}-mend"' in reply.text


def test_flows_of_the_notebook_are_shown(pages: Pages) -> None:
    """0.50 of 0.54 g/h is 92.6 % (by hand)."""
    with Notebook.open(pages.file) as notebook:
        for label, flow, rate in (
            ("F1", "0.5 NL/min", "0.50 g/h"),
            ("F2", "1.00 NL/min", "0.54 g/h"),
        ):
            add_table(notebook, {
                "run": {"label": label, "on_time": "4 min", "rate": rate},
                "gas": {"flow": flow, "feed": "oxygen"},
            })  # fmt: skip
    text = pages.get("/gas-use", params=BASIC).text.replace("\u00a0", " ")
    assert "Outputs at several flows" in text
    assert "93 %" in text
