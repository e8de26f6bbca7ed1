"""The room question against hand sums; what is missing never looks safe."""

from __future__ import annotations

from math import inf
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ozonewright.bench.check import check
from ozonewright.bench.room import ask, load_room
from ozonewright.errors import Faults, Inconsistent
from ozonewright.questions.room.result import RoomAnswer
from ozonewright.references.exposure import exposure_limits
from ozonewright.results import plain
from ozonewright.show.room import asked_text, limits_text
from ozonewright.show.words import sentence

ROOM = {
    "label": "workshop",
    "volume": "24 m3",
    "air_changes": "0.5 /h",
    "removal": "2.8 /h ± 1.3 /h",
    "temperature": "22 °C",
    "limit": "0.1 ppm",
}


BOX = {"label": "box", "volume": "40 L", "air_changes": "0 /h"}


def keys(changes: dict[str, str] | None = None, **texts: str) -> dict[str, Any]:
    room = {name: text for name, text in (ROOM | (changes or {})).items() if text}
    return plain(ozone({"room": room}, texts or {"release": "100 mg/h"}), sentence)


def ozone(table: dict[str, Any], texts: dict[str, str]) -> RoomAnswer:
    found = ask(table, texts).ozone
    assert found is not None
    return found


def oxygen(changes: dict[str, str] | None = None, **texts: str) -> dict[str, Any]:
    found = ask({"room": BOX | (changes or {})}, {"oxygen": "1 L/min"} | texts).oxygen
    assert found is not None
    return plain(found, sentence)


def codes(found: dict[str, Any]) -> set[str]:
    return {note["code"] for note in found["notes"] + found["next"]}


def test_the_design_s_room_by_hand() -> None:
    """100 ÷ (24 × 3.3) = 1.2626 mg/m³; 1 ppm at 22 °C is 1.9818 mg/m³, so 0.637 ppm.

    0.1 ppm: −ln(1 − 0.19818/1.2626)/3.3 h = 3.104 min; back below it ln(6.371)/3.3 h = 33.67 min;
    air changes: 100/(24 × 0.19818) − 2.8 = 18.22 /h (hand calculation).
    """
    found = keys()
    assert found["steady_mg_per_m3"] == pytest.approx(1.2626, abs=1e-4)
    assert found["steady_ppm"] == pytest.approx(0.637, abs=5e-4)
    assert found["minutes_to_limit"] == pytest.approx(3.104, abs=2e-3)
    assert found["re_entry_min"] == pytest.approx(33.67, abs=0.01)
    assert found["air_changes_needed_per_h"] == pytest.approx(18.22, abs=0.01)
    assert found["fan_needed_m3_per_h"] == pytest.approx(24 * 18.22, abs=0.3)
    assert found["steady_without_removal_ppm"] == pytest.approx(0.637 * 3.3 / 0.5, abs=0.005)


def test_a_small_release_never_passes_the_limit() -> None:
    found = keys(release="1 mg/h")
    assert found["minutes_to_limit"] is None
    assert found["re_entry_min"] == 0.0
    assert found["air_changes_needed_per_h"] == 0.0
    assert found["rooms_over_percent"] == 0.0


def test_uncertain_removal_widens_the_answer() -> None:
    """One room in forty of a log-normal 2.8 ± 1.3 takes away less than 1.07 /h: 2.68 mg/m³."""
    found = keys()
    low, high = found["interval_steady_mg_per_m3"]
    assert high == pytest.approx(100.0 / 24.0 / (0.5 + 1.07), rel=0.03)
    assert low < found["steady_mg_per_m3"] < high


def test_a_borderline_release_tells_the_chance() -> None:
    found = keys(release="12 mg/h")
    assert found["minutes_to_limit"] is None
    assert 5.0 < found["rooms_over_percent"] < 60.0
    assert "room-next-detector" in codes(found)


def test_nothing_stated_of_the_air_counts_as_none() -> None:
    found = keys({"air_changes": ""})
    assert found["loss_per_h"] == pytest.approx(2.8)
    assert "room.air_changes" in found["unknowns"]
    assert "room-air-changes-unknown" in codes(found)
    assert found["steady_without_removal_ppm"] is None


def test_zero_stated_is_never_better_than_nothing_stated() -> None:
    stated, unknown = keys({"air_changes": "0 /h"}), keys({"air_changes": ""})
    assert stated["steady_ppm"] >= unknown["steady_ppm"]
    assert stated["interval_steady_ppm"][1] >= unknown["interval_steady_ppm"][1]


def test_published_removal_is_named() -> None:
    found = keys({"removal": ""})
    assert found["steady_mg_per_m3"] == pytest.approx(1.2626, abs=1e-4)
    assert "room-removal-published" in codes(found)


def test_without_any_loss_there_is_no_end() -> None:
    found = keys({"air_changes": "0 /h", "removal": "0 /h"})
    assert found["steady_ppm"] is None
    assert found["re_entry_min"] is None
    # 24 m³ × 0.19818 mg/m³ ÷ 100 mg/h = 2.854 min (hand calculation)
    assert found["minutes_to_limit"] == pytest.approx(2.854, abs=2e-3)
    assert "room-grave" in codes(found)
    assert found["rooms_over_percent"] == 100.0


def test_without_a_limit_nothing_is_called_safe() -> None:
    found = keys({"limit": ""}, release="0.001 mg/h")
    assert found["minutes_to_limit"] is None
    assert found["re_entry_min"] is None
    assert "room.limit" in found["unknowns"]
    assert {"room-limit-unknown", "room-next-limit"} <= codes(found)


def test_a_jurisdiction_brings_its_limit_and_mean() -> None:
    found = keys({"limit": "united kingdom"})
    assert found["limit_ppm"] == pytest.approx(0.2)
    assert found["limit_name"] == "United Kingdom"
    # mean over 15 min of the rise to 0.637 ppm at 3.3 /h: 1 − (1 − e^−0.825)/0.825 = 0.3191
    assert found["mean_ppm"] == pytest.approx(0.637 * 0.3191, abs=1e-3)
    assert {"room-limit-table", "room-mean"} <= codes(found)
    assert "hse_2020" in found["sources"]


def test_a_limit_by_mass_is_the_same_limit() -> None:
    assert keys({"limit": "0.19818 mg/m3"})["minutes_to_limit"] == pytest.approx(3.104, abs=2e-3)


def test_a_typed_limit_is_shown_as_the_person_s_own() -> None:
    assert "room-limit-own" in codes(keys())


def test_ways_out_by_hand() -> None:
    """620 mg/h: 620 ÷ (24 × 3.3) = 7.828 mg/m³, 3.95 ppm, 0.1 ppm after 28 s; 5 % of it 0.198."""
    found = keys(output="0.62 g/h", slip="5 %", destroyed="95 %", leak="1 %", purge="20 mg")
    rows = {row["case"]: row for row in found["cases"]}
    assert found["case"] == "hose off"
    assert rows["hose off"]["steady_ppm"] == pytest.approx(3.95, abs=0.005)
    assert rows["hose off"]["to_limit_min"] == pytest.approx(28.0 / 60.0, abs=0.01)
    assert rows["nothing after the flask"]["steady_ppm"] == pytest.approx(0.1975, abs=5e-4)
    assert rows["slip past the tail"]["release_mg_per_h"] == pytest.approx(1.55)
    assert rows["leak"]["to_limit_min"] is None
    assert rows["purge"]["to_limit_min"] == 0.0


def test_a_purge_alone() -> None:
    """20 mg in 24 m³: 0.833 mg/m³, 0.4205 ppm; back to 0.1 after ln(4.205)/3.3 h = 26.1 min."""
    found = keys(purge="20 mg")
    assert found["peak_ppm"] == pytest.approx(0.4205, abs=5e-4)
    assert found["re_entry_min"] == pytest.approx(26.1, abs=0.1)
    assert found["minutes_to_limit"] == 0.0


def test_how_long_it_goes_on_shortens_the_way_back() -> None:
    assert keys(release="100 mg/h", lasts="10 min")["re_entry_min"] < 33.0


def test_a_rate_in_moles_is_the_same_release() -> None:
    assert keys(release="2.083463 mmol/h")["steady_mg_per_m3"] == pytest.approx(1.2626, abs=1e-4)


def test_a_fan_is_fresh_air() -> None:
    """24 m³/h through 24 m³ is one more air change: 4.3 /h."""
    assert keys({"fan": "24 m3/h"})["loss_per_h"] == pytest.approx(4.3)


@pytest.mark.parametrize(
    ("changes", "where", "says"),
    [
        ({"volume": "0 m3"}, "room.volume", "above 0"),
        ({"volume": ""}, "room.volume", "missing"),
        ({"temperature": "-300 °C"}, "room.temperature", "below -50 °C"),
        ({"limit": "Untied Kingdom"}, "room.limit", "United Kingdom"),
        ({"limit": "ACGIH"}, "room.limit", "ACGIH, heavy work"),
        ({"limit": "-0.1 ppm"}, "room.limit", "above 0"),
        ({"removal": "-1 /h"}, "room.removal", "can't be below"),
        ({"colour": "blue"}, "room.colour", "not known"),
    ],
)
def test_bad_rooms_are_refused_with_the_mend(
    changes: dict[str, str], where: str, says: str
) -> None:
    with pytest.raises(Faults) as caught:
        keys(changes)
    (fault,) = caught.value
    assert fault.where == where
    assert says in str(fault)


def test_a_limit_that_is_no_text() -> None:
    with pytest.raises(Faults, match="a limit is text"):
        ask({"room": ROOM | {"limit": 3}}, {"release": "1 mg/h"})


def test_every_fault_is_told_at_once() -> None:
    with pytest.raises(Faults) as caught:
        ask({"room": {"volume": "24"}}, {"slip": "5 %", "destroyed": "120 %", "leak": "1 %"})
    assert {fault.where for fault in caught.value} == {
        "room.volume", "slip", "destroyed", "leak", "release",
    }  # fmt: skip


def test_a_share_of_the_slip_needs_the_slip() -> None:
    with pytest.raises(Faults, match="a share of what"):
        keys(output="1 g/h", destroyed="90 %")


def test_another_document_is_no_room() -> None:
    with pytest.raises(Inconsistent, match="one room is wanted"):
        load_room({"entry": {"what": "gas on"}})
    with pytest.raises(Faults, match="one room is wanted"):
        ask({"entry": {"what": "gas on"}}, {"release": "1 mg/h"})


def test_text_says_it_all() -> None:
    found = ozone({"room": ROOM}, {"output": "0.62 g/h", "slip": "5 %", "purge": "20 mg"})
    text = " ".join(asked_text(found, None).split())
    for words in ("4.0 ppm of ozone in the end", "passed after 28 s", "nothing after the flask"):
        assert words in text


@pytest.mark.parametrize(
    ("changes", "texts", "words"),
    [
        ({"limit": ""}, {"release": "1 mg/h"}, "can't be called safe"),
        ({}, {"release": "1 mg/h"}, "is not passed"),
        ({}, {"purge": "20 mg"}, "from the first moment"),
        ({"air_changes": "0 /h", "removal": "0 /h"}, {"release": "1 mg/h"}, "rises without end"),
        (
            {"temperature": "", "air_changes": "", "removal": ""},
            {"release": "1 mg/h"},
            "Not stated",
        ),
        ({"limit": "United Kingdom"}, {"release": "100 mg/h"}, "0.2"),
        ({}, {"release": "12 mg/h"}, "put a detector"),
        ({}, {"release": "12 mg/h"}, "at the best estimate, yet in"),
    ],
)
def test_text_of_other_rooms(changes: dict[str, str], texts: dict[str, str], words: str) -> None:
    room = {name: text for name, text in (ROOM | changes).items() if text}
    assert words in " ".join(asked_text(ozone({"room": room}, texts), None).split())


def test_oxygen_in_a_box_by_hand() -> None:
    """40 min × ln(79.06/76.5) = 1.317 min to 23.5 vol%; 1 × 76.5/2.561 = 29.87 L/min of air."""
    found = oxygen()
    assert found["oxygen_vol_percent"] == pytest.approx(100.0)
    assert found["minutes_to_limit"] == pytest.approx(1.317, abs=0.003)
    assert found["fresh_air_needed_l_per_min"] == pytest.approx(29.87, abs=0.02)
    assert found["fan_failed_min"] is None
    assert {"room-oxygen-vent", "room-oxygen-service"} <= codes(found)


def test_oxygen_after_a_time_by_hand() -> None:
    """1 − 0.79061 × exp(−5/40) = 30.23 vol% after five minutes."""
    assert oxygen(lasts="5 min")["by_then_vol_percent"] == pytest.approx(30.23, abs=0.01)
    assert oxygen()["by_then_vol_percent"] is None


GAS = {"concentration": "12 g/Nm3"}


def test_a_leak_of_gas_by_hand() -> None:
    """10 mL/min of 12 g/Nm³ are 0.12 mg a normal minute: 7.2 mg/h, at 25 °C 6.596 mg/h."""
    normal = ozone({"room": BOX}, GAS | {"leak_flow": "10 mL/min"})
    assert normal.release == pytest.approx(7.2e-6 / 3600.0 * 273.15 / 298.15, rel=1e-4)
    dry = ozone({"room": BOX}, GAS | {"leak_flow": "0.010 NL/min"})
    assert dry.release == pytest.approx(7.2e-6 / 3600.0, rel=1e-4)


def test_a_purge_of_the_gas_space_by_hand() -> None:
    """500 mL at 25 °C are 0.4581 NL: 5.497 mg at 12 g/Nm³; in 40 L that is 70 ppm."""
    found = ozone({"room": BOX}, GAS | {"gas_space": "500 mL"})
    assert found.puff == pytest.approx(5.497e-6, rel=1e-3)
    both = ozone({"room": BOX}, GAS | {"gas_space": "500 mL", "leak_flow": "10 mL/min"})
    assert [row.case for row in both.cases] == ["leak", "purge"]
    assert [row.puff for row in both.cases] == [None, found.puff]
    text = " ".join(asked_text(both, None).split())
    # Without a limit nobody can say that it is never passed.
    assert "purge 5.50 mg 70 ppm at once not known" in text


@pytest.mark.parametrize(
    ("texts", "told"),
    [
        ({"leak_flow": "10 mL/min"}, "how strong is that gas"),
        ({"gas_space": "500 mL"}, "how strong is that gas"),
        (GAS, "where does that gas get out"),
    ],
)
def test_a_gas_needs_a_strength_and_a_way_out(texts: dict[str, str], told: str) -> None:
    with pytest.raises(Faults, match=told):
        ask({"room": BOX}, texts)


def test_a_fan_keeps_oxygen_down_until_it_fails() -> None:
    """20.939 + 79.061/121 = 21.592 vol%; without the fan enriched after 1.317 min."""
    found = oxygen({"fan": "120 L/min"})
    assert found["oxygen_vol_percent"] == pytest.approx(21.592, abs=0.002)
    assert found["high_vol_percent"] > found["oxygen_vol_percent"]
    assert found["minutes_to_limit"] is None
    assert found["fan_failed_min"] == pytest.approx(1.317, abs=0.003)
    assert "room-oxygen-fan" in codes(found)


def test_air_changes_may_be_enough_without_the_fan() -> None:
    """24 m3 × 5 /h are 2000 L/min: a failed fan changes nothing for 1 L/min."""
    found = oxygen({"volume": "24 m3", "air_changes": "5 /h", "fan": "60 L/min"})
    assert found["fan_failed_min"] is None
    assert found["minutes_to_limit"] is None


def test_no_air_stated_is_no_air() -> None:
    room = {"volume": "24 m3"}
    found = plain(ask({"room": room}, {"oxygen": "1 L/min"}).oxygen, sentence)  # type: ignore[arg-type]
    assert found["unknowns"] == ["room.air_changes"]
    assert found["fresh_air_l_per_min"] == 0.0
    assert "room-oxygen-no-air" in codes(found)


def test_a_normal_flow_is_more_in_a_warm_room() -> None:
    """1 NL/min is 298.15/273.15 L/min at 25 °C and the same pressure."""
    assert oxygen(oxygen="1 NL/min")["flow_l_per_min"] == pytest.approx(1.0915, abs=1e-4)


def test_a_share_needs_its_gas() -> None:
    with pytest.raises(Faults, match="a share of what"):
        ask({"room": BOX}, {"release": "1 mg/h", "oxygen_share": "93 vol%"})
    assert oxygen(oxygen_share="93 vol%")["share_vol_percent"] == pytest.approx(93.0)


def test_ozone_and_oxygen_are_told_together() -> None:
    found = ask({"room": BOX | {"fan": "120 L/min"}}, {"release": "1 mg/h", "oxygen": "1 L/min"})
    text = " ".join(asked_text(found.ozone, found.oxygen).split())
    for words in ("of ozone in the end", "of oxygen in the end", "enriched after the fan fails"):
        assert words in text
    assert "it is enriched, after 79 s" in asked_text(
        None, ask({"room": BOX}, {"oxygen": "1 L/min"}).oxygen
    )


def test_check_says_what_a_room_leaves_open() -> None:
    (gaps,) = check([{"room": {"volume": "24 m3", "label": "shed"}}])
    assert gaps.kind == "room"
    assert gaps.label == "shed"
    assert gaps.unknowns == [
        "room.air_changes", "room.removal", "room.temperature", "room.limit",
    ]  # fmt: skip


def test_part_of_a_jurisdiction_s_name_is_enough() -> None:
    assert keys({"limit": "OSHA"})["limit_name"] == "United States (OSHA)"


def test_several_ways_without_any_loss_have_no_end() -> None:
    room = ROOM | {"air_changes": "0 /h", "removal": "0 /h", "pressure": "101.3 kPa"}
    found = ozone({"room": room}, {"output": "0.62 g/h", "leak": "1 %"})
    assert "niosh_2007" not in found.sources
    assert "no end" in asked_text(found, None)


def test_a_puff_without_any_loss_stays() -> None:
    found = keys({"air_changes": "0 /h", "removal": "0 /h"}, purge="20 mg")
    assert found["peak_ppm"] == pytest.approx(0.4205, abs=5e-4)
    assert found["re_entry_min"] is None


def test_every_shipped_limit_is_listed_with_its_date() -> None:
    text = limits_text()
    for limit in exposure_limits().values():
        assert limit.name in text
        assert limit.dated in text


RATES = st.floats(0.001, 1e4)


@given(release=RATES, factor=st.floats(1.0, 100.0), air=st.floats(0.0, 50.0))
@settings(max_examples=30, deadline=None)
def test_more_release_or_less_air_is_never_better(
    release: float, factor: float, air: float
) -> None:
    def answer(rate: float, changes: float) -> dict[str, Any]:
        return keys({"air_changes": f"{changes:.6f} /h"}, release=f"{rate:.6f} mg/h")

    base = answer(release, air)
    for worse in (answer(release * factor, air), answer(release, air / factor)):
        assert worse["steady_ppm"] >= base["steady_ppm"] * (1.0 - 1e-9)
        assert (worse["minutes_to_limit"] or inf) <= (base["minutes_to_limit"] or inf) * (1 + 1e-9)
        assert worse["rooms_over_percent"] >= base["rooms_over_percent"] - 1e-9
        needed = base["air_changes_needed_per_h"]
        assert worse["air_changes_needed_per_h"] >= needed * (1.0 - 1e-9)
