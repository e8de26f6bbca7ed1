"""The drawing of a gas line: everything is on it, nothing lies on anything else."""

from __future__ import annotations

import re
import tomllib
from itertools import combinations
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

from ozonewright.bench.rig import rig_of
from ozonewright.demo import rig_files
from ozonewright.documents.convert_rig import CANONICAL
from ozonewright.documents.parts import PARTS
from ozonewright.records.rig import Rig
from ozonewright.show.drawing import Readout, drawing_file, rig_drawing, style
from ozonewright.show.drawing.facts import FACTS
from ozonewright.show.drawing.layout import items_of, places_of
from ozonewright.show.drawing.pen import SIZE
from ozonewright.show.drawing.symbols import SYMBOLS
from ozonewright.show.drawing.wide import BROADEST

ROOT = Path(__file__).parents[2]
SVG = "{http://www.w3.org/2000/svg}"
DOCS = (ROOT / "docs" / "documents.md").read_text(encoding="utf-8")
TEXTS = [text for text in re.findall(r"```toml\n(.*?)```", DOCS, re.S) if "[rig]" in text]
RIGS = [rig_of(tomllib.loads(text)) for text in (*TEXTS, *rig_files().values())]
KILOPASCAL = 1e3


def line(*parts: dict[str, Any]) -> Rig:
    return rig_of({"rig": {"label": "bench"}, "part": list(parts)})


def tube(name: str, **more: Any) -> dict[str, Any]:
    return {"name": name, "kind": "tube", "bore": "4 mm", "length": "1 m", **more}


PUMP = {"name": "pump", "kind": "pump", "free_flow": "3 L/min", "shut_off": "18 kPa"}
BOTTLE = {"name": "flask", "kind": "bottle", "liquid": "water", "volume": "0.2 L", "depth": "15 cm"}
GENERATOR = {"name": "generator", "kind": "discharge tube", "bore": "30 mm", "length": "20 cm"}
SIMPLE = line(PUMP, GENERATOR, tube("line"), BOTTLE)
KNOWN = Readout(
    flow=dict.fromkeys(("pump", "generator", "line", "flask"), 1e-3),
    pressure={"pump": 0.0, "generator": 5e3, "line": 4.9e3, "flask": 2.0e3},
    drop={"generator": 0.1e3, "line": 2.9e3, "flask": 2.0e3},
    bottleneck="line",
    concentration={"generator": 12.0e-3 * 22.414e-3},
    caption="As measured.",
)


def lettering(svg: str) -> list[tuple[str, tuple[float, float, float, float]]]:
    """Return every word with its box, as wide as letters of a usual typeface are."""
    found = []

    def walk(node: ElementTree.Element, x: float, y: float) -> None:
        if moved := re.match(r"translate\((\S+) (\S+)\)", node.get("transform", "")):
            x, y = x + float(moved[1]), y + float(moved[2])
        if node.tag == f"{SVG}text" and node.text:
            width = 0.52 * SIZE * len(node.text)
            left = x + float(node.get("x", "0"))
            left -= {"middle": width / 2, "end": width}.get(node.get("text-anchor", ""), 0.0)
            base = y + float(node.get("y", "0"))
            found.append((node.text, (left, base - 9.0, left + width, base + 2.0)))
        for child in node:
            walk(child, x, y)

    walk(ElementTree.fromstring(svg), 0.0, 0.0)
    return found


def overlaps(svg: str) -> list[tuple[str, str]]:
    """Return the words that lie on each other."""
    return [
        (one, other)
        for (one, a), (other, b) in combinations(lettering(svg), 2)
        if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
    ]


def test_every_kind_of_part_has_a_symbol_and_words() -> None:
    kinds = {CANONICAL.get(kind, kind) for kind in PARTS}
    assert set(SYMBOLS) == kinds
    assert set(FACTS) == kinds


@pytest.mark.parametrize("rig", RIGS, ids=lambda rig: str(rig.label))
def test_every_part_is_on_both_drawings_and_words_do_not_overlap(rig: Rig) -> None:
    drawn = rig_drawing(rig)
    for svg in (drawn.wide, drawn.tall, drawing_file(rig)):
        words = " ".join(text for text, _ in lettering(svg))
        for item in items_of(rig):
            assert item.name in words
        assert overlaps(svg) == []
    for item in items_of(rig):
        assert item.name in drawn.words


@pytest.mark.parametrize("rig", RIGS, ids=lambda rig: str(rig.label))
def test_words_stay_on_the_sheet(rig: Rig) -> None:
    drawn = rig_drawing(rig)
    for svg, least in ((drawn.wide, 0.9), (drawn.tall, 1.0)):
        box = [float(one) for one in ElementTree.fromstring(svg).get("viewBox", "").split()]
        for text, (left, top, right, foot) in lettering(svg):
            assert left >= box[0], text
            assert right <= box[0] + box[2] / least, text
            assert box[1] <= top < foot <= box[1] + box[3], text


def test_the_measuring_of_words_sees_an_overlap() -> None:
    head = '<svg xmlns="http://www.w3.org/2000/svg"><text x="0" y="10">one word</text>'
    assert overlaps(f'{head}<text x="20" y="14">other</text></svg>')
    assert not overlaps(f'{head}<text x="0" y="30">other</text></svg>')


@pytest.mark.parametrize("rig", RIGS, ids=lambda rig: str(rig.label))
def test_strokes_have_a_look_and_carry_none_of_their_own(rig: Rig) -> None:
    drawn = rig_drawing(rig, KNOWN)
    looks = set(re.findall(r"\.([a-z]+)\b", style()))
    for svg in (drawn.wide, drawn.tall):
        used = {name for names in re.findall(r'class="([^"]+)"', svg) for name in names.split()}
        assert used - looks == set()
        assert "style" not in svg
        assert "<script" not in svg


def test_a_sparger_is_drawn_in_its_bottle() -> None:
    stone = {"name": "stone", "kind": "sparger", "form": "stone", "bubble_point": "2.9 kPa"}
    items = items_of(line(PUMP, tube("line"), stone, BOTTLE))
    assert [item.name for item in items] == ["pump", "line", "flask"]
    assert "opens at 2.9 kPa" in items[-1].facts
    two = line(PUMP, stone, BOTTLE, BOTTLE | {"name": "other", "after": "stone"})
    assert [item.name for item in items_of(two)] == ["pump", "stone", "flask", "other"]


def test_branches_stand_in_lanes_of_their_own() -> None:
    rig = line(PUMP, tube("leg 1", after="pump"), tube("leg 2", after="pump"),
               {"name": "join", "kind": "tee", "after": ["leg 1", "leg 2"]}, BOTTLE)  # fmt: skip
    places = dict(zip([item.name for item in items_of(rig)], places_of(items_of(rig)), strict=True))
    assert places["leg 1"].column == places["leg 2"].column == 1
    assert {places["leg 1"].lane, places["leg 2"].lane} == {0, 1}
    assert places["join"].lane == places["flask"].lane == places["pump"].lane == 0
    assert "after leg 1 and leg 2" in rig_drawing(rig).words


def test_two_branches_share_a_lane_only_where_there_is_room() -> None:
    cap = {"kind": "cap"}
    rig = line(
        PUMP, {"name": "tee 1", "kind": "tee"}, {"name": "gauge 1", **cap},
        tube("a", after="tee 1"), tube("b"), tube("c"), {"name": "tee 2", "kind": "tee"},
        {"name": "gauge 2", **cap}, {"name": "gauge 3", **cap, "after": "tee 2"},
        tube("d", after="tee 2"), tube("e"),
    )  # fmt: skip
    lanes = {
        item.name: place.lane
        for item, place in zip(items_of(rig), places_of(items_of(rig)), strict=True)
    }
    assert lanes["gauge 1"] == 1
    assert {lanes["gauge 2"], lanes["gauge 3"]} == {1, 2}
    assert overlaps(rig_drawing(rig).wide) == []


def test_fifty_parts_are_broken_into_rows() -> None:
    rig = line(PUMP, *(tube(f"line {number}") for number in range(48)), BOTTLE)
    drawn = rig_drawing(rig, Readout(
        pressure={f"line {n}": 5e3 - 100.0 * n for n in range(48)},
        drop={f"line {n}": 100.0 for n in range(48)},
        bottleneck="line 30",
    ))  # fmt: skip
    assert overlaps(drawn.wide) == []
    root = ElementTree.fromstring(drawn.wide)
    assert float(root.get("width", "0")) <= BROADEST + 20.0
    assert len(re.findall("kPa gauge", drawn.wide)) >= 3


def test_a_branch_that_runs_on_into_the_next_row_is_drawn_in_both() -> None:
    long = [tube(f"line {number}") for number in range(30)]
    end = {"name": "end", "kind": "tee", "after": ["line 29", "aside"]}
    aside = tube("aside", after="tee")
    rig = line(PUMP, {"name": "tee", "kind": "tee"}, *long, end, aside, BOTTLE | {"after": "end"})
    assert overlaps(rig_drawing(rig).wide) == []


def test_a_ring_is_drawn_too() -> None:
    rig = line(PUMP, {"name": "tee", "kind": "tee", "after": ["pump", "back"]}, tube("out"),
               tube("back"))  # fmt: skip
    assert "back" in rig_drawing(rig, KNOWN).wide


def test_profiles_and_bottleneck_are_told_in_words() -> None:
    """5.0 kPa behind the pump, 2.9 lost in the line: 2.0 before the bottle; 12.0 g/Nm³."""
    drawn = rig_drawing(SIMPLE, KNOWN)
    across = [text for text, _ in lettering(drawn.wide)]
    for words in ("kPa gauge", "5.0", "2.0", "0.0", "bottleneck, 2.9", "▼ bottleneck",
                  "g/Nm³", "12.0", "not measured", "1.34 NL/min"):  # fmt: skip
        assert words in across
    down = [text for text, _ in lettering(drawn.tall)]
    for words in ("4.9 kPa, loses 2.9", "◀ bottleneck", "12.0 g/Nm³ behind it", "1.34 NL/min"):
        assert words in down
    assert "line, ⌀ 4 mm, 1 m, after generator, loses 2.9 kPa, the bottleneck" in drawn.words
    assert drawn.caption == "As measured."


def test_the_bottleneck_is_marked_where_it_is_the_supplier() -> None:
    drawn = rig_drawing(SIMPLE, Readout(bottleneck="pump"))
    assert "▼ bottleneck" in drawn.wide
    assert "kPa gauge" not in drawn.wide


def test_the_slip_is_drawn_where_it_was_measured() -> None:
    known = Readout(concentration={"generator": 2.7e-4, "flask": 0.08e-4})
    across = [text for text, _ in lettering(rig_drawing(SIMPLE, known).wide)]
    assert "0.36" in across  # 0.08e-4 kg/mol ÷ 0.022414 m3/mol = 0.357 g/m3
    assert "not measured" not in across


def test_a_steep_step_and_one_at_the_end_have_their_words_on_the_sheet() -> None:
    steep = Readout(pressure={"generator": 9e3, "line": 9e3, "flask": 9e3},
                    drop={"flask": 9e3}, bottleneck="flask")  # fmt: skip
    drawn = rig_drawing(SIMPLE, steep)
    assert "bottleneck, 9.0" in [text for text, _ in lettering(drawn.wide)]
    assert overlaps(drawn.wide) == []


def test_a_hostile_name_stays_text() -> None:
    drawn = rig_drawing(line(PUMP | {"name": "<script>x"}, BOTTLE))
    assert "<script" not in drawn.wide + drawn.tall


def test_the_file_brings_its_own_colours_for_light_and_dark() -> None:
    text = drawing_file(SIMPLE, KNOWN)
    root = ElementTree.fromstring(text)
    (look,) = root.findall(f"{SVG}style")
    assert look.text
    assert "prefers-color-scheme: dark" in look.text
    assert "As measured." in text
    assert root.find(f"{SVG}title") is not None
    assert drawing_file(line(PUMP, BOTTLE)).startswith("<svg")


WORDS = [
    ({"name": "valve", "kind": "check valve", "cracking": "2 kPa", "direction": "reversed"},
     ("opens at 2 kPa", "reversed")),
    ({"name": "bottle", "kind": "cylinder", "gas": "oxygen", "flow": "0.5 L/min", "volume": "10 L",
      "pressure": "150 bar gauge"}, ("100 vol% O₂", "10 L", "150 bar")),
    ({"name": "air", "kind": "pump", "curve": [["0 kPa", "3 L/min"], ["18 kPa", "0 L/min"]],
      "outlets": 2, "flow_of": "each outlet"}, ("curve from 3 L/min to 18 kPa", "2 outlets")),
    ({"name": "cold", "kind": "bottle", "liquid": "methanol", "volume": "100 mL", "depth": "6 cm",
      "temperature": "-40 °C"}, ("100 mL methanol", "6 cm deep", "−40 °C")),
    (tube("hose", length="40 cm", bends=1), ("⌀ 4 mm", "40 cm", "1 bend")),
    ({"name": "duct", "kind": "vent", "to": "hood"}, ("to the hood",)),
    ({"name": "dryer", "kind": "desiccant column", "content": "silica gel"}, ("silica gel",)),
    ({"name": "silica gel", "kind": "desiccant column", "content": "silica gel"}, ()),
    ({"name": "end", "kind": "vent"}, ()),
    ({"name": "thing", "kind": "sparger", "form": "frit", "pore": "100 µm"},
     ("frit", "pore 100 µm")),
]  # fmt: skip


@pytest.mark.parametrize(
    ("part", "words"), WORDS, ids=lambda one: ascii(one)[:24].replace("\\", "")
)
def test_what_is_said_of_a_part(part: dict[str, Any], words: tuple[str, ...]) -> None:
    rig = line(part)
    assert items_of(rig)[0].facts == words
    assert rig_drawing(rig).wide
