"""Pages of a reaction: asked, kept, copied, corrected, withdrawn; nothing typed is lost."""

from __future__ import annotations

from typing import Any
from urllib.parse import quote

import pytest

from ozonewright.notebook import Notebook
from unit.documents_of_reactions import FEED, table
from web.in_process import Pages

LABEL = "vanillin, second lot"
PATH = f"/reaction/{quote(LABEL)}"
ASKED = {
    "substrate[1].smiles": "C/C=C/c1ccc(O)c(OC)c1",
    "substrate[1].amount": "10.0 mmol",
    "reaction.solvent": "methanol",
    "reaction.volume": "100 mL",
    "reaction.temperature": "-40 °C",
    "reaction.work_up": "reductive",
    "reaction.quench.reagent": "triphenylphosphine",
    "reaction.quench.equivalents": "1.10",
    "reaction.output": "0.62 g/h ± 5 %",
    "reaction.uptake": "88 % ± 3.5 points",
}


def keep(pages: Pages, **changes: Any) -> str:
    with Notebook.open(pages.file) as notebook:
        return notebook.add("reaction", table(gas=FEED, **changes)).id


def test_a_first_look_without_a_notebook(bare: Pages) -> None:
    reply = bare.get("/reaction")
    assert reply.status_code == 200
    assert "What do you want to ozonise?" in reply.text
    assert "Into the notebook" not in reply.text


# The marks and masses are the hand sums of the design: 52.8 min, 42, 58, 2.89 g, 1.52 g.
def test_the_plan_stands_in_the_address(bare: Pages) -> None:
    text = bare.get("/reaction", params=ASKED).text
    for told in ("52.8\u00a0± 3.4", "Look from 42 min; stop by 58 min.", "1.52 g in theory"):
        assert told in text
    assert "2.89 g of triphenylphosphine" in text
    assert text.count('class="structure"') == 3
    assert 'aria-label="On-time: look from 42 min, done at 53' in text


def test_what_is_wrong_stands_beside_its_field(bare: Pages) -> None:
    wrong = ASKED | {
        "substrate[1].smiles": "C=C(",
        "reaction.solvent": "metanol",
        "reaction.quench.equivalents": "much",
    }
    reply = bare.get("/reaction", params=wrong)
    assert reply.status_code == 422
    assert "3 to mend" in reply.text
    assert "character 4" in reply.text
    for typed in ("C=C(", "metanol", "much"):
        assert f'value="{typed}"' in reply.text


def test_a_second_substrate_on_demand(bare: Pages) -> None:
    more = bare.get("/reaction", params=ASKED | {"more": "substrate"}).text
    assert 'name="substrate[2].smiles"' in more
    assert 'value="C/C=C/c1ccc(O)c(OC)c1"' in more
    two = ASKED | {"substrate[2].smiles": "C=CCCCC", "substrate[2].amount": "2.00 mmol"}
    text = bare.get("/reaction", params=two).text
    assert "12.000\u00a0± 0.058 mmol" in text
    six = {f"substrate[{n}].smiles": "C=C" for n in range(1, 7)}
    assert "One more substrate" not in bare.get("/reaction", params=six | {"more": "s"}).text


def test_no_output_gives_no_time_and_says_so(bare: Pages) -> None:
    few = {name: ASKED[name] for name in ("substrate[1].smiles", "substrate[1].amount")}
    text = bare.get("/reaction", params=few).text
    assert "the output is unknown" in text
    assert "On-time: look from" not in text


def test_kept_reactions_are_listed_and_found(pages: Pages) -> None:
    id = keep(pages)
    assert f'href="/reaction/{id}"' in pages.get("/reaction").text
    assert f'href="/reaction/{id}"' in pages.get("/search", params={"q": "vanillin"}).text


def test_a_kept_reaction_shows_plan_and_readings(pages: Pages) -> None:
    keep(pages)
    text = pages.get(PATH).text
    assert "52.8\u00a0± 3.4" in text
    assert "Equivalents, for each ozone taken" in text
    assert "Entered" in text
    of = "vanillin%2C%20second%20lot"
    for path in (f"/bench?of={of}", f"/clearance?of={of}"):
        assert f'href="{path}"' in text
        assert pages.get(path).status_code == 200
    # 0.50 NL/min × 93 % × 52.78 min = 24.5 NL, by hand
    assert "25 NL" in text


def test_a_new_reaction_is_kept_as_typed(pages: Pages) -> None:
    form = pages.get("/reaction/new", params=ASKED).text
    assert 'value="0.62 g/h ± 5 %"' in form
    reply = pages.send("/reaction/new", ASKED | {"reaction.label": "R1", "sheet": "a"})
    assert reply.status_code == 303
    again = pages.send("/reaction/new", ASKED | {"reaction.label": "R1", "sheet": "a"})
    assert again.headers["location"] == reply.headers["location"]
    with Notebook.open(pages.file, read_only=True) as notebook:
        (entry,) = notebook.entries(kind="reaction")
    assert entry.data["reaction"]["quench"] == {
        "reagent": "triphenylphosphine",
        "equivalents": 1.1,
    }
    assert entry.data["substrate"] == [{"smiles": ASKED["substrate[1].smiles"],
                                        "amount": "10.0 mmol"}]  # fmt: skip
    shown = pages.get(reply.headers["location"]).text
    assert "Kept." in shown
    assert pages.send("/undo", {}).headers["location"] == f"/reaction/{entry.id}?done=undone"


def test_what_can_not_be_kept_comes_back(pages: Pages) -> None:
    reply = pages.send("/reaction/new", ASKED | {"substrate[1].smiles": "CCC", "sheet": "b"})
    assert reply.status_code == 422
    assert "nothing in this structure is cleaved" in reply.text
    assert 'value="CCC"' in reply.text
    more = pages.send("/reaction/new", ASKED | {"more": "substrate", "sheet": "b"})
    assert more.status_code == 422
    assert 'name="substrate[2].smiles"' in more.text
    with Notebook.open(pages.file, read_only=True) as notebook:
        assert notebook.entries(kind="reaction") == []


def test_as_last_time_but(pages: Pages) -> None:
    id = keep(pages)
    fields = pages.fields(f"/reaction/{id}/copy")
    assert fields["reaction.label"] == f"{LABEL} 2"
    assert fields["reaction.quench.equivalents"] == "1.1"
    fields["substrate[1].amount"] = "12.0 mmol"
    reply = pages.send(f"/reaction/{id}/copy", fields)
    assert reply.status_code == 303
    assert "12.0 mmol" in pages.get(reply.headers["location"]).text
    bad = pages.send(f"/reaction/{id}/copy", fields | {"reaction.output": "5", "sheet": "c"})
    assert bad.status_code == 422


def test_a_correction_keeps_what_stood_there(pages: Pages) -> None:
    id = keep(pages)
    fields = pages.fields(f"/reaction/{id}/correct") | {"reaction.output": "0.72 g/h"}
    assert pages.send(f"/reaction/{id}/correct", fields).status_code == 422
    assert pages.send(f"/reaction/{id}/correct", fields | {"more": "s"}).status_code == 422
    reply = pages.send(f"/reaction/{id}/correct", fields | {"reason": "typing slip"})
    assert reply.status_code == 303, reply.text
    text = pages.get(f"/reaction/{id}").text
    assert "<del>0.62 g/h" in text
    assert "0.7200" in text
    with Notebook.open(pages.file, read_only=True) as notebook:
        entry = notebook.get(id)
    assert entry.data["reaction"]["quench"] == table()["reaction"]["quench"]


def test_tables_that_are_written_otherwise_keep_their_form(pages: Pages) -> None:
    changed = table(
        solvent={"dichloromethane": "80 %", "methanol": "20 %"},
        quench=[{"reagent": "PPh3", "equivalents": 1.1}, {"reagent": "thiourea", "equivalents": 1}],
    )
    changed["substrate"] = changed["substrate"][0]
    with Notebook.open(pages.file) as notebook:
        id = notebook.add("reaction", changed).id
    fields = pages.fields(f"/reaction/{id}/correct")
    assert fields["reaction.solvent.methanol"] == "20 %"
    assert fields["reaction.quench[2].reagent"] == "thiourea"
    assert fields["substrate.amount"] == "10.0 mmol"
    fields |= {"substrate.amount": "9.00 mmol", "reason": "typing slip"}
    assert pages.send(f"/reaction/{id}/correct", fields).status_code == 303
    with Notebook.open(pages.file, read_only=True) as notebook:
        entry = notebook.get(id)
    changed["substrate"]["amount"] = "9.00 mmol"
    assert entry.data == changed


def test_withdrawn_is_struck_out(pages: Pages) -> None:
    id = keep(pages)
    reply = pages.send(f"/reaction/{id}/withdraw", {"reason": "kept twice"})
    assert reply.headers["location"].endswith("done=withdrawn")
    assert "Withdrawn: struck out" in pages.get(f"/reaction/{id}").text
    assert 'class="withdrawn"' in pages.get("/reaction").text


def test_a_reaction_without_a_plan_says_why(pages: Pages) -> None:
    """A setting that the notebook no longer holds: the readings stand, the plan does not."""
    id = keep(pages, output=None, setting="gone")
    text = pages.get(f"/reaction/{id}").text
    assert "No plan can be told" in text
    assert "no run of this setting" in text
    assert "10.0 mmol" in text


@pytest.mark.parametrize("path", ["/reaction/C1", "/reaction/C1/correct", "/reaction/C1/copy"])
def test_a_run_is_no_reaction(pages: Pages, path: str) -> None:
    reply = pages.get(path)
    assert reply.status_code == 422
    assert "no reaction" in reply.text


def test_the_output_of_a_setting_of_the_notebook(pages: Pages) -> None:
    sent = ASKED | {"reaction.output": "", "reaction.setting": "concentrator 0.8 L/min"}
    text = pages.get("/reaction", params=sent).text
    assert "of on-time" in text
