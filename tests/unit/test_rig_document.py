"""The rig document: every kind of part read, every fault with its place and its mend."""

from __future__ import annotations

import copy
import re
import tomllib
from pathlib import Path
from typing import Any

import pytest

from ozonewright.bench.rig import load_rig, rig_of
from ozonewright.documents.parts import PARTS
from ozonewright.errors import AppError, Faults, InputError
from ozonewright.notebook import Notebook
from ozonewright.questions.gas_line.gaps import unknowns

DOCS = Path(__file__).resolve().parents[2] / "docs" / "documents.md"
TEXTS = [
    text
    for text in re.findall(r"```toml\n(.*?)```", DOCS.read_text(encoding="utf-8"), re.DOTALL)
    if "[rig]" in text
]
SMALL = tomllib.loads(TEXTS[0])


def faults(change: dict[int, dict[str, Any]]) -> dict[str, str]:
    table = copy.deepcopy(SMALL)
    for number, fields in change.items():
        table["part"][number].update(fields)
    with pytest.raises(Faults) as caught:
        rig_of(table)
    return {fault.where: fault.what for fault in caught.value}


def with_part(**fields: Any) -> dict[str, str]:
    table = copy.deepcopy(SMALL)
    table["part"].append(fields)
    with pytest.raises(Faults) as caught:
        rig_of(table)
    return {fault.where: fault.what for fault in caught.value}


@pytest.mark.parametrize("text", TEXTS)
def test_rigs_in_the_docs_work(text: str) -> None:
    rig = load_rig(tomllib.loads(text))
    assert len(rig.parts) == text.count("[[part]]")


def test_the_docs_show_every_kind_of_part() -> None:
    shown = {part["kind"] for text in TEXTS for part in tomllib.loads(text)["part"]}
    assert shown == set(PARTS)


def test_every_kind_stands_in_the_table_of_fields() -> None:
    table = DOCS.read_text(encoding="utf-8").partition("| kind | fields |")[2]
    heads = [line.split("|")[1] for line in table.splitlines() if line.startswith("| `")]
    assert {word for head in heads for word in re.findall("`(.*?)`", head)} == set(PARTS)


def test_a_part_is_read_in_si() -> None:
    rig = rig_of(SMALL)
    pump, line, valve, stone, bottle = rig.parts
    assert [part.after for part in rig.parts] == [(), ("pump",), ("line",), ("valve",), ("stone",)]
    assert pump.value("free_flow") == pytest.approx(3.0e-3 / 60.0)
    assert line.value("bore") == pytest.approx(0.002)
    assert line.material == ("PTFE",)
    assert "direction" not in valve.words  # nobody said which way it points
    assert stone.value("pore") is None
    assert bottle.words["liquid"] == "water"
    assert pump.gas is not None
    assert pump.gas.name == "room air"
    assert unknowns(rig) == ["rig.ambient.humidity", "valve.direction"]


def test_two_words_of_the_trade_are_one_kind() -> None:
    rig = rig_of(tomllib.loads(TEXTS[3]))
    assert [part.kind for part in rig.parts if part.name in ("manifold", "bed")] == [
        "tee",
        "destruct",
    ]


def test_a_cylinder_keeps_gauge_and_gas() -> None:
    (cylinder,) = rig_of(tomllib.loads(TEXTS[2])).of_kind("cylinder")
    assert cylinder.gauge == {"pressure": True}
    assert cylinder.gas is not None
    assert cylinder.gas.name == "oxygen"
    assert cylinder.gas.dew_point is not None
    assert cylinder.value("pressure") == pytest.approx(150e5)


def test_parts_without_a_name_are_counted() -> None:
    table = copy.deepcopy(SMALL)
    for part in table["part"]:
        del part["name"]
    table["part"].insert(2, {"kind": "tube", "bore": "4 mm", "length": "1 m"})
    table["part"].insert(3, {"kind": "tee", "name": "tube 3"})
    table["part"].insert(4, {"kind": "tube", "bore": "4 mm", "length": "1 m"})
    names = [part.name for part in rig_of(table).parts]
    assert names[:5] == ["pump", "tube", "tube 2", "tube 3", "tube 4"]


@pytest.mark.parametrize(
    ("number", "fields", "where"),
    [
        (1, {"bore": "0 mm"}, "part[2].bore"),
        (1, {"length": "-1 m"}, "part[2].length"),
        (1, {"bends": -1}, "part[2].bends"),
        (1, {"roughness": "1 mm"}, "part[2].roughness"),
        (2, {"kind": "chek valve"}, "part[3].kind"),
        (2, {"kind": 7}, "part[3].kind"),
        (2, {"at": "2 kPa"}, "part[3].passes"),
        (2, {"passes": "2 L/min"}, "part[3].at"),
        (2, {"passes": "2 L/min", "at": "0.5 kPa"}, "part[3].at"),
        (2, {"after": "lien"}, "part[3].after"),
        (2, {"after": "valve"}, "part[3].after"),
        (2, {"after": []}, "part[3].after"),
        (2, {"name": "line"}, "part[3].name"),
        (3, {"pore": "100 µm"}, "part[4].pore"),
        (3, {"passes": "2 L/min", "at": "2 kPa"}, "part[4].at"),
        (4, {"capacity": "100 mL"}, "part[5].volume"),
        (0, {"curve": [["0 kPa", "3 L/min"], ["18 kPa", "0 L/min"]]}, "part[1].curve"),
        (0, {"outlets": 0}, "part[1].outlets"),
        (0, {"outlets": 2}, "part[1].flow_of"),
        (0, {"free_flow": None}, "part[1].free_flow"),
    ],
)
def test_a_fault_has_its_place(number: int, fields: dict[str, Any], where: str) -> None:
    assert list(faults({number: fields})) == [where]


@pytest.mark.parametrize(
    "curve",
    [
        [["0 kPa", "1 L/min"], ["1 kPa", "2 L/min"]],
        [["0 kPa", "2 L/min"], ["0 kPa", "1 L/min"]],
        [["0 kPa", "2 L/min"], ["1 kPa", "2 L/min"]],
        [["0 kPa", "2 L/min"]],
        [["0 kPa", "2 L/min", "x"], ["1 kPa", "2 L/min"]],
        "steep",
        [["0 kPa", "-2 L/min"], ["1 kPa", "-3 L/min"]],
    ],
)
def test_no_curve_of_a_pump(curve: Any) -> None:
    assert faults({0: {"free_flow": None, "shut_off": None, "curve": curve}}).keys() == {
        "part[1].curve"
    }


@pytest.mark.parametrize(
    ("fields", "where"),
    [
        ({"kind": "cylinder", "gas": "oxygen"}, "part[6].regulator"),
        ({"kind": "cylinder", "gas": "neon", "flow": "1 L/min"}, "part[6].gas"),
        ({"kind": "rotameter", "reading": "1 L/min"}, "part[6].calibrated_for"),
        ({"kind": "leak"}, "part[6].bore"),
        (
            {"kind": "discharge tube", "bore": "4 mm", "gap": "2 mm", "length": "1 m"},
            "part[6].gap",
        ),
        ({"name": "x"}, "part[6].kind"),
    ],
)
def test_a_further_part_with_a_fault(fields: dict[str, Any], where: str) -> None:
    assert list(with_part(**fields)) == [where]


def test_faults_of_the_whole() -> None:
    for table, where in [
        ({"rig": {}, "part": []}, "part"),
        ({"rig": {}, "part": SMALL["part"][0]}, "part"),
        ({"rig": {}, "part": ["pump"]}, "part[1]"),
        (
            {
                "rig": {"ambient": {"humidity": "50 %", "dew_point": "9 °C"}},
                "part": SMALL["part"],
            },
            "rig.ambient.dew_point",
        ),
    ]:
        with pytest.raises(Faults) as caught:
            rig_of(table)
        assert [fault.where for fault in caught.value] == [where]


def test_a_file_without_a_rig_or_with_two() -> None:
    for table in ({"run": {"rate": "0.5 g/h"}}, {"rig": [{}, {}], "part": []}):
        with pytest.raises((InputError, AppError)):
            load_rig(table)


def test_what_is_left_open_is_named() -> None:
    table = {
        "rig": {},
        "part": [
            {"kind": "pump", "free_flow": "3 L/min", "shut_off": "18 kPa"},
            {"kind": "check valve"},
            {"kind": "destruct"},
            {"kind": "sparger", "form": "stone"},
            {"kind": "bottle"},
        ],
    }
    assert unknowns(rig_of(table)) == [
        "rig.ambient.temperature",
        "rig.ambient.pressure",
        "rig.ambient.humidity",
        "check valve.cracking",
        "check valve.direction",
        "destruct.grain",
        "destruct.bore",
        "destruct.length",
        "sparger.bore",
        "bottle.density",
        "bottle.volume",
        "bottle.depth",
    ]


def test_the_notebook_keeps_a_rig(tmp_path: Path) -> None:
    with Notebook.create(tmp_path / "book.sqlite", "b") as book:
        id = book.add("rig", SMALL).id
        assert book.get(id).data == SMALL
