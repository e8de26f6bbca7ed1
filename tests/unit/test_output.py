"""The output of a run against sums done by hand, and every note with a run that has it not.

The expected figures are hand sums on invented readings; the steps stand beside them.
"""

from __future__ import annotations

from typing import Any

import pytest

from ozonewright.bench.output import outputs
from ozonewright.errors import Faults
from ozonewright.questions.output import Output
from ozonewright.results import plain
from ozonewright.show.words import sentence
from unit.documents_of_runs import bottles, full, least


def answer(table: dict[str, Any]) -> Output:
    return outputs([table])[0]


def keys(table: dict[str, Any]) -> dict[str, Any]:
    return plain(answer(table), sentence)


def codes(table: dict[str, Any]) -> set[str]:
    return {note.code for note in answer(table).notes}


FULL = keys(full())


@pytest.mark.parametrize(
    ("key", "by_hand", "within"),
    [
        # 6 × 0.8917 g ÷ 214.00 g/mol × 10.00/250 ÷ 19.62 mL
        ("titrant_mol_per_l", 0.05097, 5e-6),
        # (28.46 + 1.02 − 2 × 0.18) mL × 0.05097 ÷ 2 × 47.997
        ("ozone_mg", 35.62, 0.005),
        ("rate_g_per_h", 0.5343, 5e-5),
        ("u_rate_g_per_h", 0.0036, 1e-4),
        ("rate_mg_per_min", 8.905, 5e-4),
        ("rate_mmol_per_h", 11.13, 5e-3),
        # 101.3 kPa × 0.8 L/min ÷ (R × 295.15 K) = 33.02 mmol/min = 0.7402 NL/min
        ("feed_flow_nl_per_min", 0.7402, 5e-5),
        # less half of 0.1855 mmol/min: 0.7381 NL/min; 8.905 ÷ 0.7381
        ("concentration_g_per_nm3", 12.06, 5e-3),
        ("fraction_wt_percent", 0.839, 1e-3),
        ("fraction_vol_percent", 0.563, 1e-3),
        ("yield_g_per_kwh", 13.03, 5e-3),
        # 0.84 ÷ 29.12
        ("guard_share_percent", 2.885, 5e-4),
        # 24.10 mmol ÷ (2 × 0.7207 mmol)
        ("iodide_ratio", 16.72, 5e-3),
    ],
)
def test_the_full_run_by_hand(key: str, by_hand: float, within: float) -> None:
    assert FULL[key] == pytest.approx(by_hand, abs=within)


def test_the_contract_of_json_keys() -> None:
    wanted = (
        "titrant_mol_per_l ozone_mg u_ozone_mg rate_g_per_h u_rate_g_per_h interval_rate_g_per_h "
        "rate_mmol_per_h concentration_g_per_nm3 fraction_wt_percent fraction_vol_percent "
        "yield_g_per_kwh guard_share_percent iodide_ratio budget notes unknowns sources"
    )
    assert set(wanted.split()) <= FULL.keys()
    assert all(set(line) == {"input", "share_percent"} for line in FULL["budget"])
    assert sum(line["share_percent"] for line in FULL["budget"]) == pytest.approx(100.0)
    assert all({"code", "text"} <= set(note) for note in FULL["notes"])


def test_a_time_and_a_titre() -> None:
    """28.46 mL × 0.0510 mol/L ÷ 2 × 47.997 = 34.83 mg; ÷ 240 s × 3.6 = 0.5225 g/h."""
    found = keys(least(run__on_time="4 min"))
    assert found["ozone_mg"] == pytest.approx(34.83, abs=0.005)
    assert found["rate_g_per_h"] == pytest.approx(0.5225, abs=5e-5)
    assert found["at_least"] is True
    assert {"titration.blank", "gas.flow", "electrical.power"} <= set(found["unknowns"])
    for key in ("concentration_g_per_nm3", "u_yield_g_per_kwh", "guard_share_percent"):
        assert found[key] is None


def test_collected_alone() -> None:
    found = keys({"run": {"on_time": "4 min", "collected": "35.6 mg"}})
    assert found["rate_g_per_h"] == pytest.approx(0.534, abs=1e-12)


def test_rate_alone() -> None:
    found = keys({"run": {"rate": "0.53 g/h"}})
    assert found["rate_g_per_h"] == pytest.approx(0.53)
    assert found["ozone_mg"] is None


def test_rate_and_time_give_the_amount() -> None:
    found = keys({"run": {"rate": "11.13 mmol/h", "on_time": "240 s"}})
    assert found["ozone_mg"] == pytest.approx(11.13 / 15 * 47.997, rel=1e-9)


def test_dichromate_by_hand() -> None:
    """6 × 0.4900 g ÷ 294.18 g/mol × 25/250 ÷ 20.00 mL = 0.04997 mol/L."""
    titrant = {
        "standard": "potassium dichromate",
        "mass": "0.4900 g",
        "flask": "250 mL class A",
        "aliquot": "25 mL class A",
        "titre": ["19.99 mL", "20.01 mL"],
    }
    found = keys(full(titration__titrant=titrant))
    assert found["titrant_mol_per_l"] == pytest.approx(0.04997, abs=5e-6)
    assert any("scatter" in line["input"] for line in found["budget"])


def test_thiosulfate_by_weight() -> None:
    """6.2043 g of pentahydrate (248.17 g/mol) in 500 mL is 0.0500 mol/L."""
    salt = {"standard": "sodium thiosulfate pentahydrate", "mass": "6.2043 g", "flask": "500 mL"}
    table = full(titration__titrant=salt)
    assert keys(table)["titrant_mol_per_l"] == pytest.approx(0.0500, abs=5e-6)
    assert "titrant-by-weight" in codes(table)
    assert "titrant-by-weight" not in codes(full())


def test_an_aliquot_of_a_bottle_counts_for_the_whole() -> None:
    whole = keys(full())["ozone_mg"]
    part = keys(full(titration__aliquot="50.00 mL", titration__made_up_to="250 mL"))["ozone_mg"]
    assert part == pytest.approx(5 * whole)


def test_replicates_are_averaged_and_scatter() -> None:
    table = full(titration__titres=[["28.40 mL", "28.52 mL"], "1.02 mL"])
    assert keys(table)["ozone_mg"] == pytest.approx(FULL["ozone_mg"])
    assert keys(table)["u_ozone_mg"] > FULL["u_ozone_mg"]


def test_expansion_of_the_titrant() -> None:
    """5 K × 2.1e-4 /K is 0.105 % less thiosulfate in the volume read."""
    warm = keys(full(titration__temperature="25 °C"))["ozone_mg"]
    assert warm / FULL["ozone_mg"] == pytest.approx(1 - 0.00105, abs=1e-6)
    same = full(titration__temperature="25 °C", titration__titrant__temperature="25 °C")
    assert keys(same)["ozone_mg"] == pytest.approx(FULL["ozone_mg"])


def test_meter_behind_the_bottles_sees_ozonised_gas_and_water() -> None:
    """2.6 % of water at 22 °C (I-06): the dry ozonised gas is 0.9739 × 0.7402 = 0.7208 NL/min."""
    found = keys(full(gas__meter={"kind": "volume", "at": "after bottles"}))
    assert found["ozonised_flow_nl_per_min"] == pytest.approx(0.7208, abs=2e-4)
    half = FULL["rate_mmol_per_h"] / 60 / 2 * 22.414e-3
    assert found["feed_flow_nl_per_min"] - found["ozonised_flow_nl_per_min"] == pytest.approx(
        half, rel=1e-3
    )


def test_meter_behind_the_destruct_sees_the_feed() -> None:
    after = keys(full(gas__meter={"kind": "volume", "at": "after destruct", "dried": True}))
    assert after["feed_flow_nl_per_min"] == pytest.approx(FULL["feed_flow_nl_per_min"])


@pytest.mark.parametrize("kind", ["wet", "displacement"])
def test_meters_over_water_read_wet_gas(kind: str) -> None:
    found = keys(full(gas__meter={"kind": kind, "at": "before tube"}))
    assert found["feed_flow_nl_per_min"] == pytest.approx(0.7208, abs=2e-4)


def test_rotameter_for_air_on_oxygen() -> None:
    """Published factor 0.95 for oxygen on an air scale (0.9514); here the scale's own state."""
    changes = {
        "gas__feed": "oxygen",
        "gas__temperature": "20 °C",
        "gas__pressure": "101.325 kPa",
    }
    plain_flow = keys(full(**changes))["feed_flow_nl_per_min"]
    meter = {"kind": "rotameter", "calibrated_for": "air"}
    corrected = keys(full(**changes, gas__meter=meter))["feed_flow_nl_per_min"]
    assert corrected / plain_flow == pytest.approx(0.9514, abs=2e-4)
    assert "rotameter-scale" in codes(full(**changes, gas__meter=meter))


def test_a_normal_flow_needs_no_temperature() -> None:
    table = full(gas__flow="0.7402 NL/min", gas__temperature=None, gas__pressure=None)
    assert keys(table)["concentration_g_per_nm3"] == pytest.approx(12.06, abs=5e-3)


def test_dew_point_takes_water_off() -> None:
    """Saturated at 20 °C is 2.339 kPa of water (IAPWS), 2.309 % of 101.3 kPa."""
    dry, moist = (
        keys(full(gas__feed="dry air")),
        keys(full(gas__feed="dry air", gas__dew_point="20 °C")),
    )
    ratio = moist["feed_flow_nl_per_min"] / dry["feed_flow_nl_per_min"]
    assert ratio == pytest.approx(1 - 0.02309, abs=1e-5)


def test_room_air_of_unknown_moisture_widens() -> None:
    table = full(gas__feed="room air", gas__flow="0.80 L/min ± 0.1 %")
    found = keys(table)
    assert "gas.dew_point" in found["unknowns"]
    assert "moisture-unknown" in codes(table)
    assert found["u_feed_flow_nl_per_min"] > 0.005 * found["feed_flow_nl_per_min"]


BLANK = {"discharge": "off", "label": "blank", "setting": "concentrator 0.8 L/min"}


def field_blank(titre: str, on_time: str = "240 s", **more: Any) -> dict[str, Any]:
    run = {**BLANK, "on_time": on_time}
    table = full(titration__titres=[titre, "0.20 mL"], titration__blank=None, **more)
    return {**table, "run": run}


def test_a_field_blank_replaces_the_reagent_blank() -> None:
    """(28.46 − 1.18) + (1.02 − 0.20) = 28.10 mL in place of 29.12 mL."""
    found = outputs([full(), field_blank("1.18 mL")])[0]
    assert plain(found, sentence)["ozone_mg"] == pytest.approx(
        FULL["ozone_mg"] * 28.10 / 29.12, rel=1e-6
    )
    assert "field-blank-used" in {note.code for note in found.notes}


def test_two_field_blanks_of_different_minutes_are_a_line() -> None:
    """1.00 mL at 120 s and 1.60 mL at 360 s make 1.30 mL at 240 s."""
    blanks = [field_blank("1.00 mL", "120 s"), field_blank("1.60 mL", "360 s")]
    found = plain(outputs([full(), *blanks])[0], sentence)
    assert found["ozone_mg"] == pytest.approx(FULL["ozone_mg"] * 27.98 / 29.12, rel=1e-6)


def test_a_field_blank_of_another_flow_is_told() -> None:
    found = outputs([full(), field_blank("1.18 mL", "480 s", gas__flow="0.40 L/min")])[0]
    (note,) = (note for note in found.notes if note.code == "field-blank-differs")
    assert set(note.values["in"]) == {"minutes", "flow"}


def test_a_field_blank_of_another_setting_is_left_alone() -> None:
    other = field_blank("1.18 mL")
    other["run"]["setting"] = "pump air"
    found = plain(outputs([full(), other])[0], sentence)
    assert found["ozone_mg"] == pytest.approx(FULL["ozone_mg"])


def test_a_field_blank_of_one_bottle_is_left_out() -> None:
    other = field_blank("1.18 mL", absorber__bottles=None)
    other["titration"]["titres"] = ["1.18 mL"]
    found = outputs([full(), other])[0]
    assert "field-blank-other-train" in {note.code for note in found.notes}


def test_without_on_time_the_ozone_is_told_and_the_output_is_not_determined() -> None:
    found = answer(full(run__on_time=None))
    # (28.46 + 1.02 − 2 × 0.18) mL × 0.05097 mol/L ÷ 2 × 47.997 g/mol, design, section 4
    assert plain(found, sentence)["ozone_mg"] == pytest.approx(35.62, abs=0.005)
    assert found.rate is None
    assert "run.on_time" in found.unknowns
    assert found.next[0].code == "type-on-time"


def test_every_fault_of_a_feed_is_told() -> None:
    with pytest.raises(Faults) as caught:
        answer(full(gas__feed={"oxygen": "92", "nitrogn": "8 vol%"}))
    assert {fault.where for fault in caught.value} == {"gas.feed.oxygen", "gas.feed.nitrogn"}


def test_a_field_blank_is_not_sent_to_titrate_a_blank() -> None:
    table = full(run__discharge="off", titration__blank=None)
    found = answer(table)
    assert not {"titrate-blank", "type-more"} & {note.code for note in found.next}
    assert not {"rate", "yield"} & {note.code for note in found.working}
    assert not {"titration.blank", "gas.flow", "electrical.power"} & set(found.unknowns)
    assert "on-time" not in {line.input for line in found.budget}


def test_the_budget_names_only_what_the_output_rests_on() -> None:
    inputs = {line.input for line in answer(full()).budget}
    assert inputs >= {"on-time", "burette 50 mL class A"}
    assert not inputs & {"flow", "power", "gas temperature", "potassium iodide, bottle 1"}
    assert sum(line.share or 0.0 for line in answer(full()).budget) == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("table", "says"),
    [
        (full(titration__burette="50 mL class Z"), "no such class of glassware"),
        (
            full(absorber__bottles=bottles({"volume": "200 mL class A"}, {})),
            "no class of glassware",
        ),
    ],
)
def test_a_class_where_none_belongs_is_told(table: dict[str, Any], says: str) -> None:
    with pytest.raises(Faults, match=says):
        outputs([table])


@pytest.mark.parametrize(
    ("table", "places"),
    [
        (full(run__on_time=240), {"run.on_time"}),
        (full(gas__flow="0.8", gas__temperature="22"), {"gas.flow", "gas.temperature"}),
        (full(gas__feed={"oxygen": "92 vol%"}), {"gas.feed"}),
        (full(gas__fed="dry air"), {"gas.fed"}),
        (full(titration__titres=["28.46 mL"]), {"titration.titres"}),
        (full(titration__blank=["1 mL", "1 mL", "1 mL"]), {"titration.blank"}),
        (full(titration__titrant={}), {"titration.titrant.concentration"}),
        (full(titration__titrant__concentration="0.05 mol/L"), {"titration.titrant.standard"}),
        (full(titration__titrant__mass=None), {"titration.titrant.mass"}),
        (full(absorber__acid__kind="vinegar"), {"absorber.acid.kind"}),
        (full(absorber__bottles=bottles({"volume": "0 mL"}, {})), {"absorber.bottles[1].volume"}),
        (full(gas__meter={"kind": "rotameter"}), {"gas.meter.calibrated_for"}),
        (full(gas__meter={"kind": "mass"}), {"gas.flow"}),
        (full(titration__aliquot="50.00 mL"), {"titration.made_up_to"}),
        (full(run__started="yesterday"), {"run.started"}),
        ({"run": {"on_time": "240 s"}}, {"titration"}),
    ],
)
def test_faults_are_told_by_their_place(table: dict[str, Any], places: set[str]) -> None:
    with pytest.raises(Faults) as caught:
        outputs([table])
    assert {fault.where for fault in caught.value} == places
    assert all(fault.fix for fault in caught.value)


def test_several_runs_share_a_titrant_and_name_their_place() -> None:
    shared = {"titrant": {"concentration": "0.0510 mol/L"}}
    runs = [
        {"on_time": "240 s", "titration": {"titres": ["28.46 mL"]}},
        {"on_time": "240 s", "titration": {"titres": ["14.23 mL"]}},
    ]
    first, second = outputs([{"titration": shared, "run": runs}])
    assert plain(first, sentence)["ozone_mg"] == pytest.approx(
        2 * plain(second, sentence)["ozone_mg"]
    )
    runs[1]["titration"] = {"titres": ["14.23"]}
    with pytest.raises(Faults) as caught:
        outputs([{"titration": shared, "run": runs}])
    assert [fault.where for fault in caught.value] == ["run[2].titration.titres[1]"]


def test_ice_is_the_reference_below_the_triple_point() -> None:
    """Dew point −20 °C over ice is 103.2 Pa (IAPWS), 0.102 % of 101.3 kPa."""
    dry = keys(full(gas__feed="dry air"))["feed_flow_nl_per_min"]
    moist = keys(full(gas__feed="dry air", gas__dew_point="-20 °C"))["feed_flow_nl_per_min"]
    assert 1 - moist / dry == pytest.approx(0.00102, abs=1e-5)


def test_a_flow_without_temperature_names_what_is_missing() -> None:
    found = keys(full(gas__temperature=None))
    assert "gas.temperature" in found["unknowns"]
    assert found["concentration_g_per_nm3"] is None


def test_a_rotameter_needs_the_feed() -> None:
    meter = {"kind": "rotameter", "calibrated_for": "air"}
    found = keys(full(gas__feed=None, gas__meter=meter))
    assert "gas.feed" in found["unknowns"]
    assert found["concentration_g_per_nm3"] is None


def test_iodide_by_strength_and_volume() -> None:
    """200 mL of 20 g/L are 4.0 g."""
    found = keys(full(absorber__bottles=bottles({"potassium_iodide": "20 g/L"}, {})))
    assert found["iodide_ratio"] == pytest.approx(16.72, abs=5e-3)


def test_iodide_not_stated_is_named() -> None:
    found = keys(full(absorber__bottles=[{"volume": "200 mL"}, {}]))
    assert "absorber.bottles[1].potassium_iodide" in found["unknowns"]
    assert found["iodide_ratio"] is None


def test_a_blank_for_each_bottle_and_an_end_point() -> None:
    """(28.46 − 0.18) + (1.02 − 0.10) = 29.20 mL."""
    table = full(titration__blank=["0.18 mL", "0.10 mL"], titration__end_point="0.03 mL")
    found = keys(table)
    assert found["ozone_mg"] == pytest.approx(FULL["ozone_mg"] * 29.20 / 29.12)
    assert found["u_ozone_mg"] > FULL["u_ozone_mg"]


def test_a_rotameter_scale_of_its_own_state() -> None:
    meter = {
        "kind": "rotameter",
        "calibrated_for": "air",
        "calibrated_temperature": "20 °C",
        "calibrated_pressure": "101.325 kPa",
    }
    assert "rotameter-scale" not in codes(full(gas__meter=meter))


def test_one_faulty_reading_is_told_before_what_is_next() -> None:
    found = answer(full(electrical__power="0.4 W", run__on_time="20 s"))
    assert [note.code for note in found.next] == ["mend-first"]


def test_no_ozone_at_all_still_answers() -> None:
    found = keys(full(titration__titres=["0.18 mL", "0.18 mL"]))
    assert found["rate_g_per_h"] == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize(("start", "advised"), [("diverted", False), ("cold", True), (None, True)])
def test_a_diverted_start_is_not_advised_to_a_run_that_had_one(
    start: str | None, advised: bool
) -> None:
    (note,) = (n for n in answer(full(run__start=start)).next if n.code == "largest-doubt")
    assert note.values["input"] == "on-time"
    assert ("diverted start" in sentence(note)) is advised
