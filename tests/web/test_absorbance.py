"""Runs on the page whose ozone was read as an absorbance."""

from __future__ import annotations

import re
from html import unescape
from typing import Any

import pytest

from ozonewright.notebook import Notebook
from web.in_process import Pages

ULTRAVIOLET = {
    "ultraviolet.absorbance": "0.690 ± 0.005",
    "ultraviolet.path": "1.00 mm ± 0.005 mm",
    "ultraviolet.temperature": "22 °C",
    "ultraviolet.pressure": "101.3 kPa",
}


def kept(pages: Pages, **fields: str) -> tuple[str, dict[str, Any]]:
    reply = pages.send("/new", {"run.label": "A1", "sheet": "s"} | fields)
    assert reply.status_code == 303, reply.text
    with Notebook.open(pages.file, read_only=True) as notebook:
        [entry] = notebook.entries(kind="run", last=1)
    page = pages.get(reply.headers["location"])
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", "", page.text))), entry.data


def test_the_gas_in_ultraviolet_light(pages: Pages) -> None:
    text, table = kept(pages, **ULTRAVIOLET)
    assert table["ultraviolet"]["absorbance"] == "0.690 ± 0.005"
    # by hand with 1.1329e-17 cm2 (40 CFR 50 app. D, 2023): 0.690 ln 10 / (sigma 1 mm) is
    # 1.4024e24 /m3, 111.8 g/m3 in the cell, by 295.15/273.15 and 101.325/101.3 120.8 g/Nm3
    found = re.search(r"([\d.]+) ± [\d.]+ g/Nm", text)
    assert found
    assert float(found[1]) == pytest.approx(120.8, abs=0.6)


def test_the_earlier_cross_section_is_chosen(pages: Pages) -> None:
    _, table = kept(pages, **ULTRAVIOLET | {"ultraviolet.cross_section": "1961"})
    assert table["ultraviolet"]["cross_section"] == "1961"


def test_the_yellow_of_two_bottles(pages: Pages) -> None:
    text, table = kept(
        pages,
        **{
            "run.on_time": "60 s",
            "triiodide.absorbances[1]": "0.264; 0.264",
            "triiodide.absorbances[2]": "0.0",
            "triiodide.path": "1.00 cm",
            "triiodide.volume": "50.0 mL",
        },
    )
    assert table["triiodide"]["absorbances"][0] == ["0.264", "0.264"]
    # 0.264 in 1 cm is 1.00e-5 mol/L, in 50 mL 24.0 µg of ozone with 26 400 L/(mol cm)
    found = re.search(r"Ozone: [^=]+= ([\d.]+) mg", text)
    assert found
    assert float(found[1]) == pytest.approx(0.0240, rel=2e-3)


def test_what_the_method_cannot_bear_stands_beside_its_field(pages: Pages) -> None:
    fields = {"run.label": "A2", "sheet": "t"} | ULTRAVIOLET | {"ultraviolet.absorbance": "3.4"}
    reply = pages.send("/new", fields)
    assert reply.status_code == 422
    beside = reply.text.partition('name="ultraviolet.absorbance"')[2].partition('name="')[0]
    assert "3.4" in beside
    assert "shorter" in beside
