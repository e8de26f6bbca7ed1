"""The absorber page."""

from __future__ import annotations

from ozonewright.bench.notebook import add_table
from ozonewright.notebook import Notebook
from unit.test_absorber import RIG, rig, single
from unit.test_absorber_run import REACTION, STONE
from web.in_process import Pages

ASK = {"output": "0.6 g/h", "flow": "0.8 NL/min"}


def plain(text: str) -> str:
    return text.replace("\u00a0", " ")


def test_without_a_notebook_the_rig_is_typed(bare: Pages) -> None:
    assert "How much of the ozone is taken up?" in bare.get("/absorber").text
    text = plain(bare.get("/absorber", params=ASK | {"document": RIG}).text)
    for words in ("Uptake against depth", "Uptake against bubble", "What would change it", "guard",
                  "of fresh liquid", "Slip against minutes", "Minute by minute",
                  "guard, mg/L"):  # fmt: skip
        assert words in text
    assert text.count('class="plot"') == 4


def test_every_fault_is_at_its_field(bare: Pages) -> None:
    reply = bare.get("/absorber", params={"output": "6", "flow": "<b>9</b>", "document": RIG})
    assert reply.status_code == 422
    assert 'id="output-mend"' in reply.text
    assert "<b>9</b>" not in reply.text


def test_a_measured_share_and_a_reaction_in_a_kept_rig(pages: Pages) -> None:
    with Notebook.open(pages.file) as book:
        kept = add_table(book, rig(potassium_iodide="4.0 g"))
        flask = single(**STONE)
        flask["rig"]["label"] = "flask"
        other = add_table(book, flask)
        lot = add_table(book, REACTION)
    first, second, third = (entries[0].id for entries in (kept, other, lot))
    text = plain(pages.get("/absorber", params=ASK | {"rig": first, "guard_share": "2.9 %"}).text)
    assert "corrected by the guard share" in text
    assert "by the model alone" in text
    text = plain(pages.get("/absorber", params={"rig": second, "reaction": third}).text)
    for words in (
        "Minute by minute", "off-gas half-way", "stop by", 'class="band"', "closed to",
        "Signs of the end", "Off-gas: half risen at", "solvent it carries off",
    ):  # fmt: skip
        assert words in text


def test_it_is_named_among_the_questions(pages: Pages) -> None:
    assert 'href="/absorber"' in pages.get("/runs").text
