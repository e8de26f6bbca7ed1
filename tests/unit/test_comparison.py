"""Two settings beside each other: what cancels, what widens, what is named."""

from __future__ import annotations

from copy import deepcopy
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from ozonewright.bench.compare import compare_files, compare_settings
from ozonewright.errors import InputError, MissingValue, OutOfBounds, UnitError
from ozonewright.notebook import Notebook
from ozonewright.questions.comparison import Comparison
from ozonewright.show.compare import comparison_text
from unit.documents_of_runs import full

# Student 1908 as in the manual of the language R: extra hours of sleep under two drugs.
SLEEP = (
    (0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0),
    (1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4),
)
FAR = 1e6
"""So far from zero that a relative difference is a difference over this."""


def runs(setting: str, rates: tuple[float, ...], spread: str = "") -> list[dict[str, Any]]:
    return [
        {
            "run": {
                "label": f"{setting}{place}",
                "setting": setting,
                "on_time": "240 s",
                "rate": f"{rate:.7f} mg/min{spread}",
            }
        }
        for place, rate in enumerate(rates)
    ]


def codes(found: Comparison) -> set[str]:
    return {note.code for note in (*found.notes, *found.next)}


def test_a_published_comparison_of_unequal_scatter() -> None:
    """Welch on the sleep data: t = -1.8608 on 17.776 degrees of freedom, means 0.75 and 2.33."""
    first, second = ([FAR + value for value in drug] for drug in SLEEP)
    found = compare_files([*runs("A", tuple(first)), *runs("B", tuple(second))])
    assert found.ratio is not None
    difference = (found.ratio.value - 1.0) * FAR
    assert difference == pytest.approx(0.75 - 2.33, rel=1e-4)
    assert difference / (found.ratio.u * FAR) == pytest.approx(-1.8608, abs=2e-4)
    assert found.dof == pytest.approx(17.776, abs=1e-3)
    assert not found.told_apart
    # The interval printed is -3.3654832 to 0.2054832; ours cuts the degrees of freedom to 17,
    # where t is 2.1098 for 2.1028 (table of JCGM 100, G.2: 2.11 for 17, 2.10 for 18).
    low, high = ((end - 1.0) * FAR for end in found.ratio.interval)
    assert low == pytest.approx(-3.3654832, abs=0.02)
    assert high == pytest.approx(0.2054832, abs=0.02)
    assert low <= -3.3654832


def test_few_runs_share_one_scatter() -> None:
    """By hand: 99 and 101 of the first (s = √2 %), 50 of the second: u = √2 % × √(1/2 + 1)."""
    found = compare_files([*runs("A", (99.0, 101.0)), *runs("B", (50.0,))])
    assert found.ratio is not None
    assert found.scatter_from == "pooled"
    assert found.ratio.value == pytest.approx(2.0)
    assert found.ratio.u / found.ratio.value == pytest.approx(0.02**0.5 / 10 * 1.5**0.5, rel=1e-3)
    assert found.dof == pytest.approx(1.0)
    assert found.ratio.interval[1] / 2.0 == pytest.approx(
        2.0 / found.ratio.interval[0]
    )  # symmetrical in the logarithm


def test_lone_runs_take_the_usual_scatter_and_say_so() -> None:
    """2 % each from memory, and digits of 1e-7 mg/min that do not count: u = √2 × 2 %."""
    found = compare_files([*runs("A", (100.0,)), *runs("B", (100.0,))])
    assert found.ratio is not None
    assert found.scatter_from == "assumed"
    assert "comparison-lone-runs" in codes(found)
    assert found.ratio.u == pytest.approx(0.02 * 2**0.5, rel=1e-6)


def test_runs_that_agree_to_the_last_digit_keep_the_uncertainty_of_their_readings() -> None:
    table = [*runs("A", (10.0,) * 3, " ± 0.3"), *runs("B", (10.0,) * 3, " ± 0.3")]
    found = compare_files(table)
    assert found.ratio is not None
    assert found.ratio.u == pytest.approx(0.03 * (2 / 3) ** 0.5, rel=1e-6)
    assert found.plan[0].runs_per_arm == 2


def titrated(setting: str, number: int, titre: str, **changes: Any) -> dict[str, Any]:
    return full(
        run__label=f"{setting}{number}",
        run__setting=setting,
        titration__titres=[titre, "1.02 mL"],
        titration__titrant={"concentration": "0.0510 mol/L ± 0.0051"},
        **changes,
    )


def series(setting: str, *titres: str, **changes: Any) -> list[dict[str, Any]]:
    return [titrated(setting, place, titre, **changes) for place, titre in enumerate(titres)]


FIRST, SECOND = ("28.40 mL", "28.46 mL", "28.52 mL"), ("14.20 mL", "14.23 mL", "14.26 mL")


def test_a_titrant_known_to_a_tenth_cancels() -> None:
    """Each output is unsure by 10 % from the titrant alone; the ratio by its scatter, 0.2 %."""
    found = compare_files([*series("A", *FIRST), *series("B", *SECOND)])
    assert found.ratio is not None
    assert found.ratio.u / found.ratio.value < 0.004


def test_another_titrant_does_not_cancel() -> None:
    other = {"titration__titrant__concentration": "0.0500 mol/L ± 0.0050"}
    found = compare_files([*series("A", *FIRST), *series("B", *SECOND, **other)])
    assert found.ratio is not None
    assert found.ratio.u / found.ratio.value == pytest.approx(0.02**0.5, rel=0.01)
    assert "comparison-out-of-reach" in codes(found)
    assert [row.runs_per_arm for row in found.plan] == [None, None, None]


def test_the_same_words_in_both_cancel_but_times_do_not() -> None:
    """On-times typed alike are two readings: 2 % each, beside 2 % of usual scatter each."""
    slow = {"run__on_time": "240 s ± 4.8 s"}
    found = compare_files([*series("A", FIRST[0], **slow), *series("B", SECOND[0], **slow)])
    assert found.ratio is not None
    assert found.ratio.u / found.ratio.value == pytest.approx(0.04, rel=0.05)


def test_every_factor_that_differs_is_told() -> None:
    changed = {
        "gas__feed": "dry air",
        "gas__flow": "2.0 L/min ± 4 %",
        "electrical__power": "60 W",
        "absorber__acid__when": "before",
        "run__start": "cold",
        "run__rig": "old tube",
        "run__started": None,
    }
    found = compare_files(
        [*series("A", *FIRST, run__rig="new tube"), *series("B", *SECOND, **changed)]
    )
    rows = {row.factor: row for row in found.differs}
    wanted = {"feed", "oxygen in the feed", "flow", "power", "acid given", "start", "rig"}
    assert wanted == rows.keys()
    assert rows["flow"].first == [pytest.approx(0.8)]
    assert rows["flow"].second == [pytest.approx(2.0)]
    assert rows["start"].first == ["diverted"]
    assert rows["rig"].second == ["old tube"]
    # rigs are named, but no file tells what they are made of
    assert {"room", "dew point", "day", "tube", "cooling"} <= set(found.not_compared)
    assert {"comparison-several-differ", "comparison-order-unknown"} <= codes(found)


def test_what_no_rig_tells_is_named() -> None:
    found = compare_files([*series("A", *FIRST), *series("B", *SECOND)])
    assert {"rig", "tube", "cooling"} <= set(found.not_compared)
    assert found.differs == ()
    assert "comparison-none-differs" in codes(found)


def test_a_power_within_its_digits_is_shown_but_not_blamed() -> None:
    found = compare_files(
        [*series("A", *FIRST), *series("B", *SECOND, electrical__power="42 W", run__start="cold")]
    )
    rows = {row.factor: row.beyond for row in found.differs}
    assert rows == {"power": False, "start": True}
    (note,) = (note for note in found.notes if note.code == "comparison-one-differs")
    assert note.values == {"name": "start"}


def test_a_surplus_that_is_not_ruled_out_widens_the_ratio() -> None:
    """A: 10 mg/min and 3 mg more in each run; B: 5 mg/min and none. Slopes say 2."""

    def collected(setting: str, rate: float, surplus: float) -> list[dict[str, Any]]:
        return [
            {
                "run": {
                    "label": f"{setting}{minutes}",
                    "setting": setting,
                    "on_time": f"{minutes} min",
                    "collected": f"{rate * minutes + surplus:.2f} mg",
                }
            }
            for minutes in (2, 4, 8)
        ]

    found = compare_files([*collected("A", 10.0, 3.0), *collected("B", 5.0, 0.0)])
    assert found.ratio is not None
    assert found.ratio.value > 2.1
    assert found.ratio.interval[0] <= 2.0
    assert found.ratio.u >= (found.ratio.value - found.ratio.interval[0]) / found.ratio.k - 1e-12
    assert {"comparison-surplus", "comparison-settle-surplus"} <= codes(found)


def test_same_minutes_everywhere_leave_a_surplus_unseen() -> None:
    found = compare_files([*series("A", *FIRST), *series("B", *SECOND)])
    assert "comparison-surplus-unseen" in codes(found)


def test_per_oxygen_needs_the_flow() -> None:
    """Half the ozone from twice the gas of the same feed: 2 as it stands, 4 per oxygen."""
    faster = {"gas__flow": "1.6 L/min ± 4 %"}
    found = compare_files([*series("A", *FIRST), *series("B", *SECOND, **faster)])
    assert found.ratio is not None
    assert found.ratio_per_oxygen is not None
    per_gas = found.ratio_per_oxygen.value / found.ratio.value
    assert per_gas == pytest.approx(2.0, rel=1e-6)
    # two meter readings of 4 % each, which do not cancel
    relative = found.ratio_per_oxygen.u / found.ratio_per_oxygen.value
    assert relative == pytest.approx(0.04 * 2**0.5, rel=0.01)
    # at the same reading the meter is off alike, and nothing of it is left
    alike = compare_files([*series("A", *FIRST), *series("B", *SECOND)]).ratio_per_oxygen
    assert alike is not None
    assert alike.u / alike.value < 0.004
    without = compare_files([*series("A", *FIRST), *series("B", *SECOND, gas__flow=None)])
    assert without.ratio_per_oxygen is None
    assert "comparison-oxygen-unknown" in codes(without)


def test_a_field_blank_on_one_side_is_told() -> None:
    blank = titrated("A", 9, "0.40 mL", run__discharge="off")
    found = compare_files([*series("A", *FIRST), blank, *series("B", *SECOND)])
    assert found.first_runs == 3
    assert "comparison-field-blank-one-side" in codes(found)


@pytest.mark.parametrize(("hours", "told"), [((8, 9, 10, 11), True), ((8, 10, 9, 11), False)])
def test_order_of_the_settings(hours: tuple[int, ...], told: bool) -> None:
    times = [f"2026-05-09T{hour:02d}:00:00" for hour in hours]
    table = [
        titrated("A" if place < 2 else "B", place, "28.46 mL", run__started=None)
        for place in range(4)
    ]
    for one, time in zip(table, times, strict=True):
        one["run"]["started"] = time
    assert ("comparison-not-alternated" in codes(compare_files(_dated(table)))) is told


def _dated(table: list[dict[str, Any]]) -> list[dict[str, Any]]:
    for one in table:
        one["run"]["started"] = datetime.fromisoformat(one["run"]["started"])
    return table


def test_the_plan_alternates_there_and_back() -> None:
    """s = 1 % (0.99, 1.00, 1.01 in both): for 2 % the normal chart gives about 2 (2.8/2)² = 4, and
    the t a little more; power.t.test(delta = 2, sd = 1, power = .80) prints n = 5.09 (R)."""
    table = [*runs("A", (9.9, 10.0, 10.1)), *runs("B", (4.95, 5.0, 5.05))]
    found = compare_files(table, "2 %")
    (row,) = found.plan
    assert row.runs_per_arm == 6
    assert found.order == ["A", "B", "B", "A"] * 3
    assert "comparison-alternate" in codes(found)


@pytest.mark.parametrize(
    ("table", "fault", "words"),
    [
        ([], InputError, "exactly two settings"),
        (runs("A", (1.0, 2.0)), InputError, "exactly two settings"),
        ([*runs("A", (1.0,)), *runs("B", (1.0,)), *runs("C", (1.0,))], InputError, "A, B, C"),
        ([*runs("A", (1.0,)), *runs("B", (0.0,))], OutOfBounds, "above zero"),
        (
            [*runs("A", (1.0,)), titrated("B", 1, "0.40 mL", run__discharge="off")],
            MissingValue,
            "no run of this setting has an output",
        ),
    ],
)
def test_what_can_not_be_compared(table: list[Any], fault: type[Exception], words: str) -> None:
    with pytest.raises(fault, match=words):
        compare_files(table)


@pytest.mark.parametrize("text", ["5", "-1 %", "0 %", "five"])
def test_a_difference_that_is_none(text: str) -> None:
    with pytest.raises((UnitError, OutOfBounds, InputError)) as told:
        compare_files([*runs("A", (1.0,)), *runs("B", (1.0,))], text)
    assert told.value.where == "difference"


RIG: dict[str, Any] = {
    "rig": {"label": "workshop", "ambient": {"temperature": "20 °C"}},
    "part": [
        {"name": "pump", "kind": "pump", "free_flow": "3.0 L/min", "shut_off": "18 kPa"},
        {
            "name": "ozone tube",
            "kind": "discharge tube",
            "bore": "20 mm",
            "length": "200 mm",
            "wall_temperature": "45 °C",
        },
    ],
}


def test_rigs_of_the_notebook_are_compared_part_by_part(tmp_path: Path) -> None:
    """As pinned when each run was kept: the wall was 45 °C, then a fan brought it to 32 °C."""
    with Notebook.create(tmp_path / "b.sqlite", "invented") as notebook:
        rig = notebook.add("rig", RIG)
        for one in series("A", *FIRST, run__rig="workshop"):
            notebook.add("run", one)
        cooled = deepcopy(RIG)
        cooled["part"][1]["wall_temperature"] = "32 °C"
        cooled["part"].append({"name": "way out", "kind": "vent"})
        notebook.revise(rig.id, cooled, reason="other")
        for one in series("B", *SECOND, run__rig="workshop"):
            notebook.add("run", one)
        found = compare_settings(notebook, "A", "B")
    rows = {row.factor: row for row in found.differs}
    assert rows["part, ozone tube, wall_temperature"].first == ["45 °C"]
    assert rows["part, ozone tube, wall_temperature"].second == ["32 °C"]
    assert rows["part, way out"].first == []
    assert "part, ozone tube, bore" not in rows
    assert not {"tube", "cooling", "rig"} & set(found.not_compared)
    text = comparison_text(found)
    assert "way out: none against vent" in text
    assert "ozone tube (wall temperature): 45 °C against 32 °C" in text
