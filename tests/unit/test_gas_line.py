"""The answer to a gas line: the printed rig, the bench story, direction, bad input."""

from __future__ import annotations

from typing import Any

import pytest

from ozonewright.bench.gas_line import answer
from ozonewright.bench.rig import rig_of
from ozonewright.errors import Faults, Inconsistent, UnknownSubstance
from ozonewright.questions.gas_line.model import solved
from ozonewright.show.gas_line import gas_line_text
from ozonewright.show.words import sentence
from unit.rigs import changed, design, drop, flow, inserted, note, rows, story, without

LITRE = 1e-3 / 60.0
NORMAL = 1e-3 / 0.02241397 / 60.0
KPA = 1e3


def test_the_printed_rig_by_hand() -> None:
    """18 (1 - q/3) = line + 1 + 2.9 + 1.468 kPa; q about 1.87 L/min, 1.74 NL/min."""
    found = answer(design())
    assert found.flow_ambient / LITRE == pytest.approx(1.87, abs=0.01)
    assert found.flow / NORMAL == pytest.approx(1.74, abs=0.01)
    assert drop(found, "line") == pytest.approx(1.4, abs=0.05)
    assert drop(found, "valve") == pytest.approx(1.0, abs=0.005)
    assert drop(found, "stone") == pytest.approx(2.9, abs=0.005)
    assert drop(found, "bottle") == pytest.approx(1.468, abs=0.002)
    assert sum(row.share or 0.0 for row in found.parts) == pytest.approx(1.0)
    wide = answer(changed(design(), "line", bore="4 mm"))
    assert wide.flow_ambient / LITRE == pytest.approx(2.09, abs=0.01)
    told = {row.change: row for row in found.what_if}["line: bore 4 mm instead of 2 mm"]
    assert told.flow == pytest.approx(wide.flow, rel=1e-6)
    assert found.largest_loss == "stone"


def test_the_bottleneck_is_the_part_whose_loss_holds_back_most() -> None:
    found = answer(design())
    rig = rig_of(design())
    flows = {
        name: solved(rig, without=frozenset({name})).delivered
        for name in ("pump", "line", "valve", "stone", "bottle")
    }
    assert found.bottleneck == max(flows, key=lambda name: flows[name]) == "pump"
    assert found.bottleneck_flow == pytest.approx(flows["pump"], rel=1e-6)
    # the pump held at its shut-off pressure: 12.6 kPa are left for the line alone, by hand
    # 1 m of 2 mm at 6.5 L/min is turbulent, so no Hagen-Poiseuille: 16.4 L/min would be laminar
    assert flows["pump"] < 16.4 * LITRE / 0.024055


def test_changes_are_ranked_and_never_lower_the_flow() -> None:
    found = answer(design())
    flows = [row.flow for row in found.what_if]
    assert flows == sorted(flows, reverse=True)
    assert all(one > found.flow for one in flows)
    deeper = {row.change: row for row in found.sensitivities}["bottle: 1 cm deeper"]
    by_hand = flow(changed(design(), "bottle", depth="16 cm"))
    assert deeper.flow == pytest.approx(by_hand, rel=1e-6)
    # 0.0979 kPa over the slopes 6 (pump) and about 0.75 kPa per L/min: 0.0145 L/min
    assert (deeper.flow_ambient - found.flow_ambient) / LITRE == pytest.approx(-0.0145, abs=5e-4)


def test_hardly_any_bubbles() -> None:
    """Two outlets, 2 m of 2 mm: the line is the largest loss; joining never lowers the flow.

    By hand: 18 (1 - q/6) = 1.45 q + 1 + 1 + 2.9 + 1.47 kPa gives 2.61 L/min and 3.8 kPa.
    """
    found = answer(story())
    assert found.largest_loss == "line"
    assert found.flow_ambient / LITRE == pytest.approx(2.61, abs=0.02)
    assert drop(found, "line") == pytest.approx(3.8, abs=0.1)
    wider = {row.change: row for row in found.what_if}["line: bore 4 mm instead of 2 mm"]
    assert wider.flow > 1.3 * found.flow
    single = without(story(), "leg 2")
    single["part"][2]["after"] = "leg 1"
    assert found.flow >= flow(single)
    joined = note(found, "gas-line-joined")
    assert joined.level == "advice"
    assert "Test each leg" in sentence(joined)
    back = found.suck_back
    assert back is not None
    assert back.bottle == "bottle"
    assert back.height is not None
    assert back.safety_bottle_holds is False
    assert note(found, "gas-line-safety-bottle").values["safety"] is None
    one = rows(found)
    assert one["leg 1"].flow == pytest.approx(one["leg 2"].flow)
    assert one["join"].flow == pytest.approx(found.flow)


def test_one_leg_reversed_leaves_the_other() -> None:
    table = changed(story(), "leg 2", direction="reversed")
    found = answer(table)
    assert 0.0 < found.flow < answer(story()).flow
    assert note(found, "gas-line-reversed").values == {"part": "leg 2"}
    assert note(found, "gas-line-joined").values["silent"] == "leg 2"
    assert note(found, "gas-line-dead-leg").values == {"begin": "pump", "end": "leg 2"}
    both = changed(table, "leg 1", direction="reversed")
    none = answer(both)
    assert none.flow == 0.0
    assert note(none, "gas-line-no-flow").values["works"] is None
    assert "no flow" in gas_line_text(none)


def test_an_outlet_that_leads_nowhere_is_told() -> None:
    table = without(story(), "leg 2")
    table["part"][2]["after"] = "leg 1"
    assert note(answer(table), "gas-line-unused-outlet").values == {"pump": "pump", "count": 1}


def test_liquid_deeper_than_the_shut_off_pressure() -> None:
    found = answer(changed(design(), "bottle", depth="2 m"))
    assert found.flow == 0.0
    told = note(found, "gas-line-no-flow")
    assert told.level == "wrong"
    # (18 - 1 - 2.9) kPa over 998.2 kg/m3 and g: 144 cm
    assert told.values["works"] == pytest.approx(1.44, abs=0.005)
    assert "72 cm" in sentence(told)
    assert found.what_if[0].change == "bottle: 72 cm deep"
    assert found.what_if[0].gain is None
    assert flow(changed(design(), "bottle", depth="143 cm")) > 0.0
    assert flow(changed(design(), "bottle", depth="145 cm")) == 0.0
    inlets = rows(found)
    assert inlets["line"].inlet == pytest.approx(18e3)
    assert inlets["bottle"].inlet == pytest.approx(18e3 - 3.9e3)


def test_nothing_flows_without_a_bottle_to_blame() -> None:
    table = without(design(), "stone", "bottle")
    table = changed(table, "valve", direction="reversed")
    table = inserted(table, 3, name="end", kind="vent")
    found = answer(table)
    assert note(found, "gas-line-no-flow").values["bottle"] is None
    assert "Nothing flows" in sentence(note(found, "gas-line-no-flow"))
    assert found.suck_back is None


def test_nothing_limits_the_flow() -> None:
    held = {"name": "gas", "kind": "cylinder", "gas": "oxygen", "regulator": "20 kPa"}
    found = answer(inserted(without(design(), "pump", "line"), 0, **held))
    assert found.flow is None
    assert found.flow_ambient is None
    assert note(found, "gas-line-unlimited").level == "wrong"
    assert "limits" in gas_line_text(found)


def test_a_leak_loses_before_the_bottle() -> None:
    table = inserted(design(), 2, name="drip", kind="leak", bore="0.3 mm")
    found = answer(table)
    leak = rows(found)["drip"]
    assert leak.flow is not None
    assert found.supplied == pytest.approx(found.flow + leak.flow)
    assert found.flow < answer(design()).flow
    tight = {row.change: row for row in found.what_if}["drip: made tight"]
    assert tight.flow == pytest.approx(answer(design()).flow, rel=1e-4)
    known = inserted(design(), 2, name="drip", kind="leak", passes="0.2 L/min", at="5 kPa")
    assert {row.change for row in answer(known).what_if} >= {"drip: made tight"}
    last = without(design(), "valve", "stone", "bottle")
    last["part"].append({"name": "hole", "kind": "leak", "bore": "1 mm"})
    assert answer(last).flow == 0.0


def test_a_dead_leg_holds_the_pressure_before_it() -> None:
    table = inserted(design(), 2, name="split", kind="tee")
    table = inserted(table, 3, name="gauge", kind="cap")
    table = changed(table, "valve", after="split")
    found = answer(table)
    assert found.flow == pytest.approx(answer(design()).flow, rel=1e-4)
    assert rows(found)["gauge"].inlet == pytest.approx(rows(found)["split"].inlet, rel=1e-6)
    assert note(found, "gas-line-dead-leg").values == {"begin": "split", "end": "gauge"}


def test_what_is_not_stated_is_told_and_counts_as_no_loss() -> None:
    table = changed(design(), "valve", cracking=None)
    table = changed(table, "stone", bubble_point=None, form="stone")
    del table["rig"]["ambient"]
    found = answer(table)
    assert note(found, "gas-line-lossless").values["places"] == "valve.cracking, stone.bore"
    assert note(found, "gas-line-room-taken").values["pressure"] == 101325.0
    assert found.flow > answer(design()).flow
    assert "rig.ambient.temperature" in found.unknowns
    blind = answer(changed(design(), "bottle", depth=None))
    assert blind.suck_back is not None
    assert blind.suck_back.height is None
    assert "bottle.depth" in blind.unknowns


@pytest.mark.parametrize(
    ("part", "loss"),
    [
        ({"kind": "needle valve", "passes": "1.58 L/min", "at": "2 kPa"}, 2.0),
        ({"kind": "needle valve"}, 0.0),
        ({"kind": "rotameter", "drop": "0.4 kPa"}, 0.4),
        ({"kind": "rotameter"}, 0.0),
        ({"kind": "desiccant column", "passes": "2 L/min", "at": "1 kPa"}, 0.85),
        ({"kind": "desiccant column", "mass": "50 g"}, 0.0),
        ({"kind": "destruct", "bore": "25 mm", "length": "10 cm", "grain": "2 mm"}, 0.02),
        ({"kind": "check valve", "cracking": "1 kPa", "passes": "1.7 L/min", "at": "2 kPa"}, 2.0),
        ({"kind": "connector", "bore": "1 mm"}, 1.2),
        ({"kind": "flow controller", "flow": "1.0 NL/min", "least_drop": "1 kPa"}, None),
        ({"kind": "discharge tube", "bore": "4 mm", "length": "20 cm"}, 0.02),
        ({"kind": "safety bottle", "volume": "250 mL"}, 0.0),
    ],
)
def test_every_kind_of_part_in_the_line(part: dict[str, Any], loss: float | None) -> None:
    found = answer(inserted(design(), 2, name="it", **part))
    lost = drop(found, "it")
    if loss is None:
        assert found.flow == pytest.approx(1.0 * NORMAL, rel=1e-6)
        assert lost > 1.0
        assert found.bottleneck == "it"
        assert found.what_if[0].change == "it: set a fifth higher"
    else:
        assert lost == pytest.approx(loss, rel=0.15, abs=0.02)
    assert gas_line_text(found)


def test_a_stone_by_its_pores_and_by_a_reading() -> None:
    # 4 x 72.74 mN/m over 100 µm is 2.91 kPa
    pores = answer(changed(design(), "stone", bubble_point=None, pore="100 µm"))
    assert drop(pores, "stone") == pytest.approx(2.91, abs=0.005)
    assert "stone: pores twice as wide" in {row.change for row in pores.what_if}
    read = answer(changed(design(), "stone", passes="1.7 L/min", at="4 kPa"))
    assert drop(read, "stone") == pytest.approx(4.0, abs=0.1)
    tube = answer(changed(design(), "stone", bubble_point=None, form="open tube", bore="4 mm"))
    assert drop(tube, "stone") == pytest.approx(0.0727, abs=5e-4)
    table = changed(design(), "stone", bubble_point=None, pore="10 µm", passes="1 L/min",
                    at="4 kPa")  # fmt: skip
    with pytest.raises(Inconsistent, match="opening pressure"):
        answer(table)
    other = changed(design(), "bottle", liquid="brine", density="1.15 g/mL")
    assert drop(answer(other), "bottle") == pytest.approx(1.692, abs=0.002)
    blind = changed(other, "stone", bubble_point=None, pore="100 µm")
    assert drop(answer(blind), "stone") == 0.0
    with pytest.raises(UnknownSubstance, match=r"part\[5\]"):
        answer(changed(design(), "bottle", liquid="brine"))


def test_a_rotameter_reads_another_gas() -> None:
    table = without(design(), "pump")
    gas = {"name": "gas", "kind": "concentrator", "flow": "1.0 L/min", "shut_off": "50 kPa",
           "gas": {"oxygen": "100 vol%"}}  # fmt: skip
    table = inserted(table, 0, **gas)
    table = inserted(table, 1, name="float", kind="rotameter", reading="0.75 L/min", drop="0.1 kPa",
                     calibrated_for="air", calibrated_pressure="0 bar gauge")  # fmt: skip
    with pytest.raises(Faults):
        answer(table)  # a pressure of none
    table = changed(table, "float", calibrated_pressure="0.1 bar gauge")
    told = note(answer(table), "gas-line-rotameter")
    at = 101.325 + rows(answer(table))["float"].inlet / KPA
    by_hand = 0.75 * (28.965 / 31.998 * 111.325 / at) ** 0.5
    assert told.values["true"] / LITRE == pytest.approx(by_hand, rel=1e-4)
    plain = note(answer(changed(table, "float", calibrated_pressure=None)), "gas-line-rotameter")
    assert plain.values["true"] / LITRE == pytest.approx(
        0.75 * (28.965 / 31.998 * 101.325 / at) ** 0.5, rel=1e-4
    )
    assert "reads" in sentence(plain)


def test_a_desiccant_lasts_until_it_is_full() -> None:
    """50 % at 20 °C is 1.17 kPa: 1.168 % of the dry gas; 20 g of water in 1.75 NL/min."""
    table = design()
    table["rig"]["ambient"]["humidity"] = "50 %"
    dryer = {"name": "dryer", "kind": "desiccant column", "bore": "30 mm", "length": "20 cm",
             "grain": "3 mm", "mass": "100 g", "capacity": "20 %",
             "dew_point": "-60 °C"}  # fmt: skip
    found = answer(inserted(table, 1, **dryer))
    water = found.flow * 0.01168 * 18.015e-3
    assert note(found, "gas-line-desiccant").values["time"] == pytest.approx(0.02 / water, rel=5e-3)
    assert "h of this" in sentence(note(found, "gas-line-desiccant"))
    behind = answer(inserted(table, 2, **dryer))
    assert note(behind, "gas-line-desiccant").values["time"] == pytest.approx(
        0.02 / water, rel=1e-2
    )


def test_a_flow_between_laminar_and_turbulent_is_doubted() -> None:
    found = answer(changed(story(), "line", length="1 m"))
    assert 2040.0 < note(found, "gas-line-transition").values["reynolds"] < 4000.0


def test_pump_by_its_curve_and_by_normal_flow() -> None:
    curve = [["0 kPa", "3.0 L/min"], ["9 kPa", "1.5 L/min"], ["18 kPa", "0 L/min"]]
    by_curve = changed(design(), "pump", free_flow=None, shut_off=None, curve=curve)
    assert flow(by_curve) == pytest.approx(flow(design()), rel=1e-9)
    assert "pump: two of them joined, a check valve at each" in {
        row.change for row in answer(by_curve).what_if
    }
    normal = changed(design(), "pump", free_flow="2.795 NL/min")
    assert flow(normal) == pytest.approx(flow(design()), rel=1e-3)


def test_moist_room_air_by_humidity_or_dew_point() -> None:
    for moisture in ({"humidity": "100 %"}, {"dew_point": "20 °C"}):
        table = design()
        table["rig"]["ambient"] |= moisture
        found = answer(table)
        assert "rig.ambient.humidity" not in found.unknowns
        # 2.31 % of what the pump takes in is water
        assert found.flow / answer(design()).flow == pytest.approx(1.0 - 0.0231, abs=2e-3)
    dry = changed(design(), "pump", gas="dry air", dew_point="-40 °C")
    assert answer(dry).unknowns == ("valve.direction",)


FAULTY = [
    (without(design(), "pump"), "no supplier"),
    (without(design(), "bottle", "stone"), "no vent"),
    (without(design(), "bottle"), "no bottle"),
    (inserted(without(design(), "bottle", "stone"), 3, name="end", kind="cap"), "no vent"),
    (changed(design(), "line", after="valve"), "not connected"),
    (changed(design(), "valve", after=["line", "pump"]), "lead into valve"),
    (changed(design(), "valve", after="pump"), "follow pump"),
    (changed(design(), "pump", after="line"), "takes its gas from no other"),
    (inserted(design(), 2, name="end", kind="vent"), "follows a vent"),
    (inserted(design(), 0, name="first", kind="tube", bore="4 mm", length="1 m"), "not connected"),
    (inserted(design(), 4, name="more", kind="tube", bore="4 mm", length="1 m"), "no bottle"),
]


@pytest.mark.parametrize(("table", "what"), FAULTY, ids=[what for _, what in FAULTY])
def test_parts_that_make_no_gas_line(table: dict[str, Any], what: str) -> None:
    with pytest.raises(Faults) as caught:
        answer(table)
    assert any(what in fault.what for fault in caught.value)
    assert all(fault.fix for fault in caught.value)


def test_supplier_branches_both_ways_of_a_bridge() -> None:
    """A bypass in which gas runs against the order written."""
    text = design()
    text["part"][1:] = [
        {"name": "split", "kind": "tee"},
        {"name": "a", "kind": "tube", "bore": "2 mm", "length": "2 m", "after": "split"},
        {"name": "b", "kind": "tube", "bore": "3 mm", "length": "1 m", "after": "split"},
        {"name": "left", "kind": "tee", "after": ["a"]},
        {"name": "bridge", "kind": "tube", "bore": "3 mm", "length": "10 cm", "after": "left"},
        {"name": "right", "kind": "tee", "after": ["b", "bridge"]},
        {"name": "c", "kind": "tube", "bore": "3 mm", "length": "1 m", "after": "left"},
        {"name": "left end", "kind": "vent"},
        {"name": "d", "kind": "tube", "bore": "2 mm", "length": "2 m", "after": "right"},
        {"name": "right end", "kind": "vent"},
    ]
    found = answer(text)
    bridge = rows(found)["bridge"]
    assert bridge.flow < 0.0
    assert bridge.inlet < rows(found)["right"].inlet
    assert found.residual <= 1e-10
