"""The plan of a reaction: the hand sums of the design, what is unknown, what is told."""

from __future__ import annotations

from math import isclose
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ozonewright.bench.check import check
from ozonewright.bench.reaction import reaction_plan
from ozonewright.errors import Faults, Inconsistent
from ozonewright.questions.reaction.result import ReactionPlan
from ozonewright.show.plain import as_json
from ozonewright.show.reaction import answer_line, reaction_text
from ozonewright.show.reaction_sheet import reaction_sheet
from ozonewright.show.words import sentence
from ozonewright.uncertain import Estimate
from unit.documents_of_reactions import EXAMPLE, FEED, table

MINUTE = 60.0
MONO = {"smiles": "C=CCCCC", "amount": "12.0 mmol"}


def codes(plan: ReactionPlan) -> dict[str, str]:
    return {note.code: note.level for note in plan.notes}


def steps(plan: ReactionPlan) -> list[str]:
    return [note.code.removeprefix("reaction-step-") for note in plan.next]


def minutes(value: object) -> float:
    return (value.value if isinstance(value, Estimate) else float(str(value))) / MINUTE


@pytest.fixture
def plan() -> ReactionPlan:
    return reaction_plan(EXAMPLE)


# Design, section 4, by hand: 52.8 min (95 %: 47 to 60); look from 42, stop by 58; 1.26 W.
def test_the_marks_of_the_design(plan: ReactionPlan) -> None:
    assert isinstance(plan.on_time, Estimate)
    assert isclose(minutes(plan.on_time), 52.8, abs_tol=0.05)
    low, high = (minutes(end) for end in plan.on_time.interval)
    assert (round(low), round(high)) == (47, 60)
    assert round(minutes(plan.look_from)) == 42
    assert round(minutes(plan.stop_by)) == 58
    assert isinstance(plan.heat, Estimate)
    assert isclose(plan.heat.value, 1.26, abs_tol=0.005)
    assert plan.oxygen is None
    assert "gas.flow" in plan.unknowns


# By hand: 11.0 mmol × 262.285 = 2.885 g; 10.0 mmol vanillin (152.15) 1.52 g, acetaldehyde (44.05)
# 0.44 g; 10.0 mmol of oxide (278.285) 2.78 g.
def test_masses_of_the_design(plan: ReactionPlan) -> None:
    (quench,) = plan.quench
    assert quench.mass is not None
    assert isclose(quench.mass * 1e3, 2.885, abs_tol=1e-3)
    assert quench.by_product_mass is not None
    assert isclose(quench.by_product_mass * 1e3, 2.783, abs_tol=1e-3)
    masses = {row.formula: (row.mass or 0.0) * 1e3 for row in plan.products}
    assert isclose(masses["C8H8O3"], 1.5215, abs_tol=1e-3)
    assert isclose(masses["C2H4O"], 0.4405, abs_tol=1e-3)
    assert [row.role for row in plan.products] == ["product", "co-product"]


# By hand (issue): 12.0 mmol at 0.72 g/h and 88 % need 54.5 min; 1.10 equivalents are 3.46 g.
def test_the_reaction_of_the_issue() -> None:
    plan = reaction_plan(table(MONO, output="0.72 g/h ± 0.02", uptake="88 % ± 2 points"))
    assert isclose(minutes(plan.on_time), 54.54, abs_tol=0.01)
    assert plan.quench[0].mass is not None
    assert isclose(plan.quench[0].mass * 1e3, 3.462, abs_tol=1e-3)


# By hand: 0.50 NL/min × 93 % × 52.78 min = 24.5 NL; 10 mmol × 400 kJ/mol = 4.0 kJ = 7.0 g dry ice.
def test_oxygen_and_coolant() -> None:
    plan = reaction_plan(table(gas=FEED))
    assert isinstance(plan.oxygen, Estimate)
    assert isclose(plan.oxygen.value * 22.41397, 24.54, rel_tol=1e-3)
    assert plan.dry_ice is not None
    assert isclose(plan.dry_ice * 1e3, 7.005, abs_tol=1e-3)
    assert plan.dry_ice_to_cool is not None
    # 100 mL methanol from 20 to -40 °C: 199.25 J/K × 60 K / 571 J/g = 20.9 g
    assert isclose(plan.dry_ice_to_cool * 1e3, 20.93, abs_tol=0.02)
    assert isinstance(plan.adiabatic_rise, float)
    assert isclose(plan.adiabatic_rise, 20.08, abs_tol=0.01)


# By hand: delivered until 58.06 min 12.500 mmol; slip until 52.78 min 12 % of 11.364 = 1.364 mmol.
def test_the_tail_bottle(plan: ReactionPlan) -> None:
    normal, run_on, abort = plan.tail
    assert isclose((normal.ozone or 0.0) * 1e3, 1.3636, abs_tol=1e-3)
    assert isclose((abort.ozone or 0.0) * 1e3, 12.5, abs_tol=1e-3)
    low = plan.on_time.interval[0] if isinstance(plan.on_time, Estimate) else 0.0
    rate = 0.62e-3 / 3600.0 / 0.047997
    by_hand = rate * (low * 0.12 + ((plan.stop_by or 0.0) - low))
    assert isclose(run_on.ozone or 0.0, by_hand, rel_tol=1e-6)
    assert isclose(plan.tail_iodide or 0.0, 4.0 * 12.5e-3, rel_tol=1e-4)


# By hand: 10 mmol of 298 kJ/mol are 2.98 kJ; over 10 mmol of 164.20 + 48.00 g/mol: 1404 J/g.
def test_the_peroxide_inventory(plan: ReactionPlan) -> None:
    assert plan.peroxide == "alkoxy hydroperoxide"
    assert isclose(plan.peroxide_amount or 0.0, 0.010)
    assert isclose(plan.peroxide_energy or 0.0, 2980.0)
    assert isclose((plan.peroxide_energy_per_mass or 0.0) * 1e-3, 1404.3, abs_tol=0.2)
    dry = reaction_plan(table(MONO, solvent="ethyl acetate"))
    assert dry.peroxide == "ozonide"
    assert isclose(dry.peroxide_energy or 0.0, 12e-3 * 267e3)


def test_timer_and_start_loss_by_hand() -> None:
    """10 periods of 6 min lose 20 s each: 56.1 min on; nine rests of 9 min: 137.1 min."""
    plan = reaction_plan(table(gas=FEED, timer={"on": "6 min", "off": "9 min"}, start_loss="20 s"))
    assert plan.starts == 10
    assert isclose(minutes(plan.on_time), 56.116, abs_tol=0.01)
    assert isclose(minutes(plan.clock_time), 137.116, abs_tol=0.01)
    assert isinstance(plan.oxygen, Estimate)
    assert isclose(plan.oxygen.value * 22.41397, 0.5 * 0.93 * 137.116, rel_tol=1e-3)
    assert codes(plan)["reaction-timer"] == "wrong"
    assert "by the clock" in reaction_text(plan)


# 0.62 g/h ÷ 47.997 g/mol = 12.917 mmol/h: the same output by amount, the same on-time.
def test_an_output_by_amount(plan: ReactionPlan) -> None:
    by_amount = reaction_plan(table(output="12.917 mmol/h ± 5 %"))
    assert isclose(minutes(by_amount.on_time), minutes(plan.on_time), rel_tol=1e-4)


def test_mass_and_purity() -> None:
    """1.64 g of 98 wt% and 164.204 g/mol are 9.788 mmol."""
    row = {"smiles": "C/C=C/c1ccc(O)c(OC)c1", "mass": "1.64 g", "purity": "98 wt%"}
    plan = reaction_plan(table(row))
    assert isinstance(plan.demand, Estimate)
    assert isclose(plan.demand.value * 1e3, 9.788, abs_tol=1e-3)
    del row["purity"]
    open_ended = reaction_plan(table(row))
    assert "reaction-purity-unknown" in codes(open_ended)
    assert "substrate[1].purity" in open_ended.unknowns


def test_typed_equivalents_stand_over_the_structure() -> None:
    plan = reaction_plan(table(equivalents=1.25))
    assert isclose(minutes(plan.on_time), 52.78 * 1.25, abs_tol=0.02)


def test_several_substrates_add_up() -> None:
    """10 mmol of one double bond and 2 mmol of two: 14 mmol of ozone."""
    limonene = {"smiles": "CC1=CCC(CC1)C(C)=C", "amount": "2.00 mmol", "name": "limonene"}
    plan = reaction_plan(table([EXAMPLE["substrate"][0], limonene]))
    assert isinstance(plan.demand, Estimate)
    assert isclose(plan.demand.value, 0.014)
    assert {row.of for row in plan.sites} == {row.smiles for row in plan.substrates}
    assert "limonene: " in reaction_text(plan)


def test_an_output_without_uptake_gives_the_least_time() -> None:
    """10 mmol at 12.917 mmol/h: 46.4 min if all were taken; look from 80 % of it, 37.2."""
    plan = reaction_plan(table(uptake=None))
    assert plan.on_time is None
    assert isclose(minutes(plan.shortest), 46.45, abs_tol=0.01)
    assert isclose(minutes(plan.look_from), 37.16, abs_tol=0.01)
    assert plan.stop_by is None
    assert plan.tail == ()
    assert codes(plan)["reaction-uptake-unknown"] == "wrong"
    assert "reaction.uptake" in plan.unknowns
    assert answer_line(plan).startswith("At least 46 min")
    assert "look" in steps(plan)
    assert "stop" not in steps(plan)


def test_without_output_there_is_no_time() -> None:
    plan = reaction_plan(table(output=None))
    assert (plan.on_time, plan.shortest, plan.look_from) == (None, None, None)
    assert codes(plan)["reaction-output-unknown"] == "wrong"
    assert "unknown" in answer_line(plan)
    assert "by-end-point" in steps(plan)
    assert isinstance(plan.heat_in_all, Estimate)
    as_json(plan)


def test_nothing_stated_but_the_substrate() -> None:
    data = {"reaction": {}, "substrate": [MONO]}
    plan = reaction_plan(data)
    assert plan.products == ()
    assert plan.peroxide is None
    assert codes(plan)["reaction-no-quench"] == "wrong"
    assert {"reaction.solvent", "reaction.quench", "reaction.work_up"} <= set(plan.unknowns)
    assert {row.use for row in plan.signals if row.signal == "blue"} == {"unknown"}
    assert "hexene" not in reaction_text(plan)
    (gaps,) = check([data])
    assert gaps.unknowns == list(plan.unknowns)


# By hand: 3.10 - 0.10 mL of 0.0510 mol/L are 0.0765 mmol of ozone in 10 min; 0.62 g/h make 2.1529
# mmol meanwhile; 3.55 % slip, so the uptake is 96.45 %.
def test_uptake_from_a_tail_titre() -> None:
    slip = {
        "titre": "3.10 mL",
        "blank": "0.10 mL",
        "titrant": "0.0510 mol/L",
        "on_time": "10 min",
    }
    plan = reaction_plan(table(uptake=None, slip=slip))
    assert isinstance(plan.uptake, Estimate)
    assert isclose(plan.uptake.value, 0.96447, abs_tol=1e-4)
    assert codes(plan)["reaction-uptake-of-tail"] == "advice"


def test_more_caught_than_made_is_refused() -> None:
    slip = {"titre": "95 mL", "titrant": "0.0510 mol/L", "on_time": "10 min"}
    with pytest.raises(Inconsistent, match="more ozone was caught") as caught:
        reaction_plan(table(uptake=None, slip=slip))
    assert (caught.value.where, caught.value.got) == ("reaction.slip", "95 mL")


@pytest.mark.parametrize(
    ("changes", "code", "level"),
    [
        ({"solvent": "diethyl ether"}, "reaction-solvent-reacts", "wrong"),
        ({}, "reaction-solvent-slowly", "advice"),
        (
            {"solvent": {"methanol": "50 %", "acetic acid": "50 %"}},
            "reaction-part-freezes",
            "wrong",
        ),
        ({}, "reaction-hydroperoxide", "advice"),
        ({"temperature": "-85 °C"}, "reaction-colder-than-dry-ice", "doubt"),
        ({"volume": "20 mL"}, "reaction-concentrated", "doubt"),
        ({"volume": "20 mL"}, "reaction-rise", "doubt"),
        ({"volume": "10 mL", "temperature": "0 °C"}, "reaction-would-boil", "wrong"),
        ({"quench": None}, "reaction-no-quench", "wrong"),
        ({"quench": {"reagent": "PPh3", "equivalents": 0.9}}, "reaction-quench-low", "wrong"),
        ({"quench": {"reagent": "PPh3", "equivalents": 3}}, "reaction-quench-high", "advice"),
        ({"quench": {"reagent": "zinc", "equivalents": 2}}, "reaction-zinc-acid", "advice"),
        (
            {
                "solvent": "acetone",
                "work_up": "oxidative",
                "quench": {"reagent": "H2O2", "equivalents": 3},
            },
            "reaction-acetone-peroxide",
            "wrong",
        ),
        ({}, "reaction-tail-unknown", "doubt"),
        (
            {"tail": {"volume": "200 mL", "potassium_iodide": "4.0 g"}},
            "reaction-tail-small",
            "wrong",
        ),
        (
            {"tail": {"volume": "200 mL", "potassium_iodide": "20 g/L"}},
            "reaction-tail-small",
            "wrong",
        ),
        ({}, "reaction-next-site", "doubt"),
        ({"substrate": MONO}, "reaction-nothing-next", "advice"),
        ({"output": "0.62 g/h"}, "reaction-u-from-digits", "doubt"),
        ({}, "reaction-stop-before-sure", "doubt"),
        ({}, "reaction-start-unknown", "advice"),
        ({}, "reaction-heat-from-memory", "advice"),
    ],
)
def test_notes(changes: dict[str, Any], code: str, level: str) -> None:
    plan = reaction_plan(table(**changes))
    assert codes(plan).get(code) == level
    assert [sentence(note) for note in (*plan.notes, *plan.next)]


def test_what_mends_a_note_takes_it_away() -> None:
    plan = reaction_plan(
        table(
            MONO,
            tail={"volume": "400 mL", "potassium_iodide": "25 g"},
            heat="390 kJ/mol ± 20",
            start_loss="0 s",
            output="0.72 g/h ± 1 %",
            uptake="95 % ± 1 points",
            solvent="ethyl acetate",
            temperature="-70 °C",
            volume="150 mL",
            end_point="blue",
        )
    )
    # a simulated run would need a rig
    assert set(codes(plan)) <= {
        "reaction-nothing-next", "structure-terminal-alkene", "reaction-not-simulated",
    }  # fmt: skip
    assert [row.watched for row in plan.signals] == [True, False, False, False]
    assert "watch the blue" in reaction_text(plan)


# Borohydride gives four hydrogen: 3 equivalents of 12 mmol are 36 mmol, 144 mmol of hydrogen at the
# most, 3.46 L at 20 °C. Purge comes before it, and before dimethyl sulfide; it is said so.
def test_hydrogen_and_low_flash_are_purged_for_first() -> None:
    hydride = reaction_plan(
        table(MONO, work_up="borohydride", quench={"reagent": "NaBH4", "equivalents": 3})
    )
    assert isclose((hydride.quench[0].hydrogen or 0.0) * 1e3, 3.464, abs_tol=2e-3)
    assert {row.formula for row in hydride.products} == {"C5H12O", "CH4O"}
    sulfide = reaction_plan(table(quench={"reagent": "DMS", "equivalents": 3}))
    for one in (hydride, sulfide):
        order = steps(one)
        assert order.index("purge-first") < order.index("quench")
    assert "smell" in steps(sulfide)
    assert sulfide.quench[0].low_flash
    assert "purge" in steps(reaction_plan(EXAMPLE))


def test_faults_of_structure_and_supply_come_together() -> None:
    with pytest.raises(Faults) as caught:
        reaction_plan(table({"smiles": "C=C(", "amount": "1 mmol"}, output=None, setting="x"))
    assert {fault.where for fault in caught.value} == {"substrate[1].smiles", "reaction.setting"}
    with pytest.raises(Faults) as caught:
        reaction_plan(table([MONO, {"smiles": "CCC", "amount": "1 mmol"}]))
    assert {fault.where for fault in caught.value} == {"substrate[2].smiles"}


def test_gas_that_is_half_described_is_named() -> None:
    plan = reaction_plan(table(gas={"flow": "0.5 L/min"}))
    assert plan.oxygen is None
    assert {"gas.temperature", "gas.pressure"} <= set(plan.unknowns)
    plan = reaction_plan(table(gas={"flow": "0.5 NL/min"}))
    assert plan.oxygen is None
    assert "gas.feed" in plan.unknowns


def test_the_sheet_holds_marks_and_blanks() -> None:
    sheet = reaction_sheet(reaction_plan(EXAMPLE))
    assert sheet.startswith("<!doctype html>")
    assert "52.8 min (" in sheet
    assert "peroxide test 2" in sheet
    assert "2.89 g of triphenylphosphine" in sheet


def test_every_fault_comes_at_once() -> None:
    bad = table([{"smiles": "C=C(", "amount": "1 mmol"}, MONO], solvent="metanol")
    with pytest.raises(Faults) as caught:
        reaction_plan(bad)
    assert {fault.where for fault in caught.value} == {"reaction.solvent", "substrate[1].smiles"}
    with pytest.raises(Faults) as caught:
        reaction_plan({"reaction": {}, "substrate": {"smiles": "C=C(", "amount": "1"}})
    assert {fault.where for fault in caught.value} == {"substrate.amount", "substrate.smiles"}
    with pytest.raises(Faults):
        reaction_plan({"reaction": {}, "substrate": 3})


def test_the_sites_of_several_substrates_stand_in_one_order() -> None:
    """Prenol's three alkyl groups push more than the one of 1-hexene (textbook, from memory)."""
    typed = table([{"smiles": "C=CCCCC", "amount": "5 mmol"},
                   {"smiles": "CC(C)=CCO", "amount": "5 mmol"}])  # fmt: skip
    first, second = reaction_plan(typed).sites
    assert (first.of, first.placed_by, first.medium) == ("CC(C)=CCO", "electron density", None)
    assert (second.of, second.placed_by) == ("C=CCCCC", "rate constant")
    assert second.medium == "tetrachloromethane"
    text = reaction_text(reaction_plan(typed))
    assert "alkene of CC(C)=CCO: no rate constant on record" in text


def test_the_peroxide_is_told_by_its_structure(plan: ReactionPlan) -> None:
    """By hand: methanol adds to either half of isoeugenol's C=C; C9H12O5 and C3H8O3."""
    assert {row.smiles: row.formula for row in plan.peroxide_forms} == {
        "COc1cc(C(OC)OO)ccc1O": "C9H12O5",
        "COC(C)OO": "C3H8O3",
    }
    assert "COC(C)OO, 92.09 g/mol" in reaction_text(plan).replace("\n     ", " ")
    (ozonide,) = reaction_plan(table(solvent="dichloromethane")).peroxide_forms
    assert ozonide.formula == "C10H12O5"
    unknown = reaction_plan(table(solvent=None, volume=None))
    assert unknown.peroxide_forms == ()
    assert unknown.peroxide_amount == pytest.approx(0.01)
    assert "its kind set by the solvent" in reaction_text(unknown).replace("\n", " ")


def test_a_first_cut_that_can_not_be_told_still_counts_its_peroxide() -> None:
    """Geraniol: two double bonds with three groups each; one ozone each, whichever takes it."""
    found = reaction_plan(
        table({"smiles": "CC(C)=CCC/C(C)=C/CO", "amount": "10 mmol"}, cleave="first")
    )
    assert found.products == ()
    assert codes(found)["structure-first-unknown"] == "wrong"
    assert found.peroxide_amount == pytest.approx(0.01)
    assert found.sites[0].attacked


@pytest.mark.parametrize(
    ("changes", "code", "told"),
    [
        ({"output": "0.62 g/h ± 50 %"}, "reaction-output-unsure", "too poorly for a time"),
        ({"uptake": "88 % ± 40 points"}, "reaction-uptake-unsure", "At least 46 min"),
    ],
)
def test_what_may_be_nothing_gives_no_time(changes: dict[str, Any], code: str, told: str) -> None:
    plan = reaction_plan(table(**changes))
    assert plan.on_time is None
    assert plan.stop_by is None
    assert codes(plan)[code] == "wrong"
    assert told in answer_line(plan)
    assert [sentence(note) for note in plan.notes]


def test_the_interval_is_that_of_independent_draws() -> None:
    """numpy alone: 2 million draws of demand / (output × uptake), their middle 95 %."""
    draws, random = 2_000_000, np.random.default_rng(20260509)
    output = random.normal(0.62, 0.062, draws)
    uptake = random.normal(0.88, 0.05, draws)
    # 10.0 mmol by its last digit: ± 0.1 mmol, rectangular
    demand = random.uniform(9.9, 10.1, draws)
    minutes_ = demand * 47.997e-3 / (output * uptake) * 60.0
    low, high = np.quantile(minutes_, [0.025, 0.975])
    plan = reaction_plan(table(output="0.62 g/h ± 10 %", uptake="88 % ± 5 points"))
    assert isinstance(plan.on_time, Estimate)
    assert minutes(plan.on_time.interval[0]) == pytest.approx(low, rel=0.005)
    assert minutes(plan.on_time.interval[1]) == pytest.approx(high, rel=0.005)


@given(
    output=st.floats(0.05, 20.0),
    uptake=st.floats(5.0, 100.0),
    amount=st.floats(0.1, 100.0),
    spread=st.floats(0.1, 15.0),
)
@settings(max_examples=40)
def test_marks_keep_their_order(output: float, uptake: float, amount: float, spread: float) -> None:
    """Look from ≤ lower end and 80 %; stop by = 110 %; on-time is never below the shortest."""
    plan = reaction_plan(
        table(
            {"smiles": "C=CCCCC", "amount": f"{amount:.6f} mmol ± 0.000001"},
            output=f"{output:.6f} g/h ± {spread:.3f} %",
            uptake=f"{uptake:.6f} % ± 0.1 points",
        )
    )
    assert isinstance(plan.on_time, Estimate)
    low, high = plan.on_time.interval
    assert low < plan.on_time.value < high
    assert plan.look_from == min(low, 0.8 * plan.on_time.value)
    assert plan.stop_by == pytest.approx(1.1 * plan.on_time.value)
    assert (plan.shortest or 0.0) <= plan.on_time.value * (1.0 + 1e-9)


def test_hydrogen_peroxide_left_over_is_destroyed_before_the_test() -> None:
    plan = reaction_plan(
        table(MONO, work_up="oxidative", quench={"reagent": "H2O2", "equivalents": 3})
    )
    order = steps(plan)
    assert order.index("quench") < order.index("peroxide-left") < order.index("test")
    # By hand: 36 mmol of 34.015 g/mol in 30 wt% of 1.11 g/mL: 3.68 mL
    assert isclose((plan.quench[0].volume or 0.0) * 1e6, 3.677, abs_tol=2e-3)
