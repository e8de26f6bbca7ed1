"""The gate: the story, every rule firing and not, and no way in which less said is safer."""

from __future__ import annotations

import contextlib
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ozonewright.bench import gate as bench
from ozonewright.bench.gate import ask
from ozonewright.errors import AppError, Faults
from ozonewright.questions.gate.asked import CHECKLIST
from ozonewright.results import plain
from ozonewright.show.gate import gate_text
from ozonewright.show.words import sentence
from unit.gate_world import asked, part, places, verdicts, without, world

ORDER = ("go", "fix", "stop")
Change = Callable[[dict[str, Any]], Any]


def test_a_workshop_in_which_nothing_is_wrong_is_go() -> None:
    found = asked(world())
    assert [check.code for check in found.checks if check.verdict != "go"] == []
    assert found.verdict == "go"
    assert found.unknowns == ()


def test_the_story_nothing_after_the_flask() -> None:
    """The room of the design: 24 m³, 0.5 + 2.8 changes, 0.62 g/h, 5 % slip."""
    table = world()
    del table["rig"]["part"][7:]
    table["room"]["room"] |= {"air_changes": "0.5 /h", "removal": "2.8 /h ± 1.3 /h"}
    table["reaction"]["reaction"]["output"] = "0.62 g/h ± 0.01 %"
    found = asked(table, slip="5 %")
    (off,) = (check for check in found.checks if check.code == "off-gas")
    assert off.verdict == "stop"
    text = sentence(off.text)
    assert text.startswith("There is nothing after the flask.")
    # by hand: 0.1 ppm is 0.198 mg/m³; 620 mg/h in 24 m³ reach it after 0.198 × 24 ÷ 620 h = 27.6 s,
    # and in a room that takes nothing away a little sooner
    assert off.value.values["value"] == pytest.approx(27.6, abs=1.0)
    # 31 mg/h ÷ (24 m³ × 3.3 /h) = 0.391 mg/m³, about 0.198 ppm
    assert "settles at 0.20 ppm" in text


def test_the_story_ethyl_acetate() -> None:
    """3.25 kPa at 0 °C (library), so 3.2 vol% in the gas: inside 2.0 to 12.8 vol% and wider."""
    table = world()
    table["reaction"]["reaction"] |= {"solvent": "ethyl acetate", "temperature": "0.0 °C"}
    (vapour,) = (check for check in asked(table).checks if check.code == "vapour")
    assert vapour.verdict == "stop"
    assert 0.031 < vapour.value.values["value"] < 0.036
    assert "Below −27" in sentence(vapour.mend)


def use(name: str, **fields: Any) -> Change:
    return lambda table: part(table, name).update(fields)


def drop(name: str) -> Change:
    return lambda table: table["rig"]["part"].remove(part(table, name))


def react(**fields: Any) -> Change:
    return lambda table: table["reaction"]["reaction"].update(fields)


def inside(**fields: Any) -> Change:
    return lambda table: table["room"]["room"].update(fields)


def cold(bath: str) -> Change:
    """A bath, and the answer that goes with it."""

    def change(table: dict[str, Any]) -> None:
        part(table, "flask")["bath"] = bath
        table["rig"]["checklist"]["no_cold_trap"] = float(bath.split()[0]) > -80.0

    return change


def glue(table: dict[str, Any]) -> None:
    """A glued line, and the answer that goes with it."""
    part(table, "line")["material"] = ["PTFE", "hot glue"]
    table["rig"]["checklist"]["no_glued_joint"] = False


def lot(amount: str) -> Change:
    return lambda table: table["reaction"]["substrate"][0].update(amount=amount)


PUMP = {
    "name": "supply",
    "kind": "pump",
    "free_flow": "3 L/min",
    "shut_off": "18 kPa",
    "gas": "room air",
    "material": "brass",
}


def pump(gas: str | None) -> Change:
    return lambda table: table["rig"]["part"].__setitem__(0, PUMP | {"gas": gas})


FIRES: list[tuple[str, str, Change]] = [
    ("off-gas", "stop", drop("tail")),
    ("off-gas", "stop", drop("flask")),
    ("suck-back", "stop", drop("valve")),
    ("suck-back", "stop", drop("empty")),
    ("suck-back", "stop", use("empty", volume="80 mL")),
    ("suck-back", "stop", use("valve", direction="reversed")),
    ("carbon-destruct", "stop", use("bed", content="activated carbon")),
    ("dry-bed", "stop", use("bed", wet=True)),
    ("materials", "fix", use("line", material="nylon")),
    ("materials", "fix", use("line", material="unobtainium")),
    ("materials", "fix", use("line", material="polycarbonate")),
    ("materials", "fix", use("dip", material="PVC")),
    ("materials", "fix", use("supply", material="nylon")),
    ("no-glued-joint", "stop", glue),
    ("bed-heat", "fix", react(output="2.0 g/h")),
    ("bed-heat", "stop", react(output="5.0 g/h")),
    ("room-ozone", "stop", inside(air_changes="0.1 /h", removal="0.1 /h")),
    ("room-ozone", "fix", inside(air_changes="0.10 /h", removal="2.0 /h")),
    ("ozone-in-gas", "stop", react(output="15 g/h")),
    ("ozone-in-gas", "fix", react(output="6.5 g/h")),
    ("condensed-ozone", "stop", cold("-190 °C")),
    ("tail-capacity", "stop", use("tail", mass="1 g")),
    ("tail-capacity", "fix", use("tail", mass="6 g")),
    ("tail-capacity", "stop", use("tail", reagent="water")),
    ("peroxide-inventory", "fix", lambda t: t["reaction"]["substrate"][0].update(amount="70 mmol")),
    (
        "peroxide-inventory",
        "stop",
        lambda t: t["reaction"]["substrate"][0].update(amount="250 mmol"),
    ),
    ("vapour", "stop", react(temperature="20 °C")),
    ("vapour", "fix", react(temperature="-5 °C")),
    ("vapour", "stop", react(solvent="dichloromethane", temperature="10 °C")),
    ("acetone-peroxide", "fix", react(solvent="acetone")),
    ("feed", "fix", pump(None)),
    ("dried-air", "fix", pump("room air")),
]
PUMP = {
    "name": "supply",
    "kind": "pump",
    "free_flow": "3 L/min",
    "shut_off": "18 kPa",
    "gas": "room air",
    "material": "brass",
}


def changed(change: Change) -> dict[str, Any]:
    table = world()
    change(table)
    table["rig"]["part"] = [
        {name: value for name, value in one.items() if value is not None}
        for one in table["rig"]["part"]
    ]
    return table


@pytest.mark.parametrize(("code", "verdict", "change"), FIRES)
def test_a_rule_fires_and_says_why_and_what_mends_it(
    code: str, verdict: str, change: Change
) -> None:
    found = asked(changed(change))
    checks = [check for check in found.checks if check.code == code and check.verdict == verdict]
    assert checks
    for check in checks:
        assert sentence(check.text)
        assert check.mend is not None
        assert sentence(check.mend)
    assert ORDER.index(found.verdict) >= ORDER.index(verdict)
    assert gate_text(found)


QUIET: list[tuple[str, Change]] = [
    ("off-gas", use("bed", content="manganese dioxide and copper oxide")),
    ("suck-back", use("empty", volume="100 mL")),
    ("carbon-destruct", use("bed", content="manganese dioxide")),
    ("dry-bed", use("bed", wet=False)),
    ("materials", use("line", material="FEP")),
    ("ozone-in-gas", react(output="3 g/h")),
    ("condensed-ozone", cold("-78 °C")),
    ("tail-capacity", use("tail", reagent="sodium thiosulfate", concentration="0.5 mol/L")),
    ("vapour", react(temperature="-78 °C")),
    ("vapour", react(solvent="water", temperature="5 °C")),
    ("bed-heat", react(output="0.30 g/h")),
    ("materials", use("supply", material="brass")),
    ("dried-air", pump("dry air")),
]


@pytest.mark.parametrize(("code", "change"), QUIET)
def test_a_rule_stays_quiet(code: str, change: Change) -> None:
    assert verdicts(asked(changed(change)))[code] == "go"


@pytest.mark.parametrize("one", CHECKLIST, ids=lambda one: one.code)
def test_an_answer_of_no_is_never_better_than_none(one: Any) -> None:
    name = one.code.replace("-", "_")
    yes, no = world(), world()
    no["rig"]["checklist"][name] = False
    none = without(world(), ("rig", "checklist", name))
    good, bad, open_ = (verdicts(asked(table))[one.code] for table in (yes, no, none))
    assert good == "go"
    assert bad == open_ == one.verdict


@pytest.mark.parametrize("reagent", ["dimethyl sulfide", "zinc", "sodium borohydride"])
def test_hydrogen_and_low_flash_points_want_inert_gas(reagent: str) -> None:
    table = world()
    work_up = "borohydride" if "borohydride" in reagent else "reductive"
    table["reaction"]["reaction"] |= {
        "quench": {"reagent": reagent, "equivalents": 3.0},
        "work_up": work_up,
    }
    assert verdicts(asked(table))["purge-before-quench"] == "go"
    for answer in (False, None):
        table["rig"]["checklist"]["inert_gas_ready"] = answer
        if answer is None:
            del table["rig"]["checklist"]["inert_gas_ready"]
        assert verdicts(asked(table))["purge-before-quench"] == "stop"


def test_glue_that_is_written_down_outweighs_an_answer() -> None:
    table = world()
    part(table, "line")["material"] = ["PTFE", "hot glue"]
    assert verdicts(asked(table))["no-glued-joint"] == "stop"


def test_two_vapours_count_together() -> None:
    """Each below a quarter of its limit, both together above: shares add (Le Chatelier's rule)."""
    table = world()
    table["reaction"]["reaction"] |= {
        "solvent": "methanol 50 %, ethyl acetate 50 %",
        "temperature": "-30.0 °C",
    }
    checks = [check for check in asked(table).checks if check.code == "vapour"]
    shares = [c.value.values["value"] for c in checks if c.value.values["unit"] == "%"]
    alone = [
        c.value.values["value"] / c.limit.values["value"]
        for c in checks
        if c.value.values["unit"] == "vol%"
    ]
    assert shares == [pytest.approx(sum(alone))]
    assert sorted(c.verdict for c in checks) == ["fix", "go", "go"]
    assert gate_text(asked(table))


def test_acetone_with_peroxide_is_stop() -> None:
    table = world()
    table["reaction"]["reaction"] |= {
        "solvent": "acetone",
        "work_up": "oxidative",
        "quench": {"reagent": "hydrogen peroxide", "equivalents": 3.0},
    }
    assert verdicts(asked(table))["acetone-peroxide"] == "stop"


def test_oxygen_let_out_in_a_small_closed_room() -> None:
    table = world()
    part(table, "window")["to"] = "room"
    assert verdicts(asked(table))["oxygen-in-room"] == "go"
    # 5 m³ × 0.1 /h is 8.3 L/min of fresh air for 0.8 L/min of oxygen: 20.9 + 79.1 × 0.088 = 27.9 %
    table["room"]["room"] |= {"volume": "5 m3", "air_changes": "0.100 /h"}
    (check,) = (one for one in asked(table).checks if one.code == "oxygen-in-room")
    assert check.verdict == "stop"
    assert check.value.values["value"] == pytest.approx(0.279, abs=0.005)
    table["room"]["room"]["air_changes"] = "0 /h"
    assert verdicts(asked(table))["oxygen-in-room"] == "stop"


def test_without_a_reaction_it_is_an_assay_and_says_so() -> None:
    table = world()
    del table["reaction"]
    found = asked(table, output="0.62 g/h", flow="0.8 L/min", on_time="10 min")
    assert found.verdict == "go"
    assert "gate-assay-only" in {note.code for note in found.notes}
    assert verdicts(asked(table))["tail-capacity"] == "stop"
    in_moles = asked(table, output="13 mmol/h", flow="0.74 NL/min", on_time="10 min", leak="1 %")
    assert in_moles.verdict == "go"


def test_without_a_room_it_is_stop() -> None:
    table = world()
    del table["room"]
    assert verdicts(asked(table))["room-ozone"] == "stop"


EVERYWHERE = list(places(world()))
BAD: list[Change] = [change for *_, change in FIRES]


def no_better(table: dict[str, Any], out: tuple[str | int, ...]) -> None:
    """Leave a field out: neither the whole nor a check that is still there may become better."""
    try:
        before, after = asked(table), asked(without(table, out))
    except (AppError, KeyError, IndexError):
        return
    assert ORDER.index(after.verdict) >= ORDER.index(before.verdict), out
    one, other = verdicts(before), verdicts(after)
    for code in one.keys() & other.keys():
        assert ORDER.index(other[code]) >= ORDER.index(one[code]), (code, out)


@pytest.fixture
def remembered(monkeypatch: pytest.MonkeyPatch) -> None:
    """Ask the plan and the room once for each of their documents: they are tested elsewhere."""
    known: dict[str, Any] = {}

    def once(name: str) -> None:
        function = getattr(bench, name)

        def asked_once(*given: Any, **named: Any) -> Any:
            key = f"{name} {given!r} {named!r}"
            if key not in known:
                try:
                    known[key] = function(*given, **named)
                except AppError as error:
                    known[key] = error
            if isinstance(known[key], AppError):
                raise known[key]
            return known[key]

        monkeypatch.setattr(bench, name, asked_once)

    once("reaction_plan")
    once("room_answer")


@pytest.mark.slow
@pytest.mark.usefixtures("remembered")
@pytest.mark.parametrize("number", range(len(BAD)))
def test_to_leave_a_field_out_never_improves_a_verdict(number: int) -> None:
    """Every field of a workshop in which one thing is wrong."""
    table = changed(BAD[number])
    for place in places(table):
        no_better(table, place)


@settings(max_examples=60, deadline=None)
@given(
    bad=st.lists(st.sampled_from(range(len(BAD))), min_size=1, max_size=3, unique=True),
    no=st.lists(st.sampled_from(CHECKLIST), max_size=3),
    out=st.sampled_from(EVERYWHERE),
)
def test_less_said_is_never_safer(
    bad: list[int], no: list[Any], out: tuple[str | int, ...]
) -> None:
    """Several things are wrong, some answers are no, and any field is left out."""

    def all_of_it(table: dict[str, Any]) -> None:
        for number in bad:
            with contextlib.suppress(StopIteration):
                BAD[number](table)
        for one in no:
            table["rig"]["checklist"][one.code.replace("-", "_")] = False

    no_better(changed(all_of_it), out)


WORSE: list[tuple[str, Callable[[float], Change], tuple[float, ...]]] = [
    ("vapour", lambda x: react(temperature=f"{x:.0f} °C"), (-60, -40, -20, -5, 5, 30)),
    ("tail-capacity", lambda x: use("tail", mass=f"{x:g} g"), (40, 20, 10, 6, 3, 1)),
    ("suck-back", lambda x: use("empty", volume=f"{x:.0f} mL"), (500, 200, 100, 90, 10)),
    (
        "room-ozone",
        lambda x: inside(air_changes=f"{x:.2f} /h", removal="0.20 /h"),
        (10, 3, 1, 0.5, 0.1, 0.02),
    ),
    ("ozone-in-gas", lambda x: react(output=f"{x:.2f} g/h"), (0.30, 1.0, 3.0, 6.5, 9.0, 15.0)),
    ("condensed-ozone", lambda x: cold(f"{x:.0f} °C"), (-20, -78, -110, -150, -190)),
    (
        "peroxide-inventory",
        lambda x: lambda t: t["reaction"]["substrate"][0].update(amount=f"{x:g} mmol"),
        (5, 20, 60, 150, 400),
    ),
]


@pytest.mark.parametrize(("code", "change", "values"), WORSE)
def test_a_worse_hazard_never_gives_a_better_verdict(
    code: str, change: Callable[[float], Change], values: tuple[float, ...]
) -> None:
    found = [
        ORDER.index(verdicts(asked(changed(change(value)))).get(code, "go")) for value in values
    ]
    assert found == sorted(found)
    assert found[0] == 0
    assert found[-1] == 2


def test_the_contract_of_json_keys() -> None:
    found = plain(asked(changed(drop("tail"))), sentence)
    assert found["verdict"] == "stop"
    for check in found["checks"]:
        assert set(check) >= {"code", "verdict", "value", "limit", "text", "mend", "source"}
        assert check["verdict"] in ORDER
        assert isinstance(check["text"], str)
    assert {"unknowns", "notes"} <= set(found)


def test_faults_of_all_documents_are_told_together() -> None:
    table = world()
    table["room"]["room"]["volume"] = "0 m3"
    table["reaction"]["reaction"]["temperature"] = "-400 K"
    part(table, "line")["bore"] = "0 mm"
    with pytest.raises(Faults) as caught:
        ask(table["rig"], table["room"], table["reaction"], {"slip": "120 %"})
    told = {fault.where.split(".")[0] for fault in caught.value}
    assert told == {"rig", "room", "reaction", "slip"}


def test_an_unknown_jurisdiction_is_told_with_the_nearest() -> None:
    table = world()
    table["room"]["room"]["limit"] = "Unted Kingdom"
    with pytest.raises(Faults, match="United Kingdom"):
        asked(table)
