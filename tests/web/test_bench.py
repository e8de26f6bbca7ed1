"""The bench page: presses by form and by script, each once; the count; one script and no more."""

from __future__ import annotations

import json
import re
from datetime import UTC, datetime, timedelta
from html import unescape
from pathlib import Path
from typing import Any

import httpx2
import pytest

from ozonewright.notebook import Notebook
from ozonewright.notebook.acts import new_id
from ozonewright.records.event import Moment
from ozonewright.web.pages.bench import SCRIPT
from web.in_process import ADDRESS, SETTING, Pages

JSON = {"accept": "application/json"}


def press(pages: Pages, what: str, of: str = "C9", **more: str) -> httpx2.Response:
    """Press a button as the script does."""
    fields = {"what": what, "of": of, "id": new_id(), "ago": "0"} | more
    return pages.send("/bench/press", fields, headers=JSON)


def state(pages: Pages, of: str = "C9") -> dict[str, Any]:
    found: dict[str, Any] = pages.get("/bench/state", params={"of": of}).json()
    return found


def kept(pages: Pages, withdrawn: bool = False) -> list[str]:
    with Notebook.open(pages.file, read_only=True) as notebook:
        found = notebook.entries(kind="entry", withdrawn=withdrawn)
        return [entry.data["entry"]["what"] for entry in found]


def shown(pages: Pages, path: str = "/bench?of=C9") -> dict[str, Any]:
    """Return the state that the page carries for its script."""
    found = re.search(r'data-state="([^"]*)"', pages.get(path).text)
    assert found
    read: dict[str, Any] = json.loads(unescape(found[1]))
    return read


def buttons(pages: Pages, path: str = "/bench?of=C9") -> dict[str, dict[str, str]]:
    """Return each form of a large button with its fields, as a browser without scripts sends it."""
    forms = re.findall(r'class="press" data-name="(\w+)">(.*?)</form>', pages.get(path).text, re.S)
    out = {}
    for name, inside in forms:
        fields = dict(re.findall(r'name="(\w+)" value="([^"]*)"', inside))
        out[name] = {key: unescape(value) for key, value in fields.items()}
    return out


def test_first_it_is_asked_what_to_count(pages: Pages) -> None:
    text = pages.get("/bench").text
    assert "What do you count?" in text
    assert 'value="B2"' in text
    assert f'value="{SETTING}"' in text
    reply = pages.send("/bench/begin", {"of": "C9", "planned on-time": "4 min", "setting": SETTING})
    assert reply.headers["location"] == "/bench?of=C9"
    found = shown(pages)
    assert (found["plan"], found["marks_text"]) == ("of 4 min planned", "stop at 4 min")
    assert found["amount"]["after"] == "mmol sent in"
    assert found["amount"]["pace"] > 0.1
    pages.send("/bench/begin", {"of": "D1", "output": "0.533 g/h ± 5 %"})
    # by hand: 0.533 g/h over 48.00 g/mol is 11.10 mmol/h, 0.1851 mmol in a minute
    assert state(pages, "D1")["amount"]["pace"] == pytest.approx(0.1851, abs=1e-4)


def test_what_can_not_be_counted_is_told_at_its_field(pages: Pages) -> None:
    for fields, place in (({"of": " "}, "of"), ({"of": "C9", "output": "0.6"}, "output")):
        reply = pages.send("/bench/begin", fields)
        assert reply.status_code == 422
        assert f'id="{place}-mend"' in reply.text
    assert kept(pages) == []


def test_buttons_are_forms_that_say_what_they_will_do(pages: Pages) -> None:
    forms = buttons(pages)
    assert {name: one["what"] for name, one in forms.items()} == {
        "Gas": "gas on", "Discharge": "discharge on", "Divert": "divert", "Stop": "stop",
    }  # fmt: skip
    assert len({one["id"] for one in forms.values()}) == 4
    for name in ("Gas", "Discharge", "Divert"):
        form = buttons(pages)[name]
        assert pages.client.post("/bench/press", data=form).headers["location"] == "/bench?of=C9"
        # the same form sent again, as by a second tap, changes nothing
        assert pages.client.post("/bench/press", data=form).status_code == 303
    assert kept(pages) == ["gas on", "discharge on", "divert"]
    assert [one["what"] for one in buttons(pages).values()] == [
        "gas off", "discharge off", "into bottle", "stop",
    ]  # fmt: skip


def test_the_page_without_scripts_fetches_itself_and_steps_a_titre(pages: Pages) -> None:
    text = pages.get("/bench?of=C9").text
    assert '<noscript><meta http-equiv="refresh" content="10"></noscript>' in text
    for titre, step, wanted in (
        ("28.40", "+0.05", "28.45"), ("0.00", "\u22120.05", "0.00"), ("1.00", "\u22121", "0.00"),
        ("x", "+1", "0.00"), ("0.10", "\u22120.05", "0.05"), ("NaN", "+1", "0.00"),
    ):  # fmt: skip
        query = {"of": "C9", "titre": titre, "step": step, "bottle": "2"}
        found = pages.get("/bench", params=query).text
        assert f'name="titre" value="{wanted}"' in found
        assert '<option value="titre of bottle 2" selected>' in found


def test_a_press_is_confirmed_with_the_time_it_was_stored(pages: Pages) -> None:
    before = datetime.now(UTC)
    found = press(pages, "gas on").json()
    stored = datetime.strptime(found["stored"], "%H:%M:%S").time()
    local = before.astimezone()
    apart = abs((stored.hour * 60 + stored.minute) - (local.hour * 60 + local.minute))
    assert apart in (0, 1, 1439)
    assert found["gas"] is True
    assert found["last"]["text"].startswith("Gas on, ")
    assert f'<b id="stored-at">{found["stored"]}</b>' in pages.get("/bench?of=C9").text
    assert pages.get("/bench").text.count("<h1>C9</h1>") == 1


def test_a_press_kept_on_the_page_counts_at_its_own_time_and_once(pages: Pages) -> None:
    press(pages, "gas on", ago="120")
    fields = {"what": "discharge on", "of": "C9", "id": new_id(), "ago": "60"}
    for again in range(3):
        reply = pages.send("/bench/press", fields | {"ago": str(60 + again)}, headers=JSON)
        assert reply.json()["on_time"] == pytest.approx(60.0, abs=2.0)
    assert kept(pages) == ["gas on", "discharge on"]


def test_the_last_press_is_taken_back_and_stays_in_the_notebook(pages: Pages) -> None:
    press(pages, "gas on")
    last = press(pages, "discharge on").json()["last"]["id"]
    undone = pages.send("/bench/undo", {"id": last, "of": "C9"}, headers=JSON).json()
    assert (undone["gas"], undone["discharge"]) == (True, False)
    assert undone["last"]["text"].startswith("Gas on")
    again = pages.send("/bench/undo", {"id": last, "of": "C9"})
    assert again.headers["location"] == "/bench?of=C9&done=undone"
    assert "Taken back" in pages.get("/bench?of=C9&done=undone").text
    assert kept(pages) == ["gas on"]
    assert kept(pages, withdrawn=True) == ["gas on", "discharge on"]


def test_titres_are_kept_with_their_bottle(pages: Pages) -> None:
    found = press(pages, "titre of bottle 1", value="28.45").json()
    assert found["titres"] == ["Titre of bottle 1: 28.45 mL"]
    assert (
        press(pages, "titre of bottle 2", value="1.05 mL").json()["titres"][1].endswith("1.05 mL")
    )
    refused = press(pages, "titre of bottle 1", value="28,45,1")
    assert refused.status_code == 422
    assert refused.json()["fix"]


@pytest.mark.parametrize(
    ("fields", "told"),
    [
        ({"ago": "-1"}, "when was this pressed"),
        ({"ago": "nan"}, "when was this pressed"),
        ({"ago": "1e9"}, "when was this pressed"),
        ({"ago": "x"}, "when was this pressed"),
        ({"id": "short"}, "no id"),
        ({"what": ""}, "what happened"),
        ({"what": "gason"}, "event of the bench"),
    ],
)
def test_what_can_not_be_meant_is_refused_and_told_to_the_script(
    pages: Pages, fields: dict[str, str], told: str
) -> None:
    reply = press(pages, **({"what": "gas on"} | fields))
    assert reply.status_code == 422
    assert told in json.dumps(reply.json())
    assert pages.send("/bench/press", {"what": "gas on", "of": "C9"} | fields).status_code == 422
    assert kept(pages) == []


def test_what_was_counted_becomes_a_run(pages: Pages) -> None:
    press(pages, "gas on", ago="400")
    press(pages, "setting", value=SETTING)
    press(pages, "discharge on", ago="300")
    assert 'href="/new?of=C9"' not in pages.get("/bench?of=C9").text
    press(pages, "stop", ago="60")
    for bottle, value in ((2, "1.05"), (1, "28.00"), (1, "28.45"), (4, "0.10")):
        press(pages, f"titre of bottle {bottle}", value=value)
    assert 'href="/new?of=C9"' in pages.get("/bench?of=C9").text
    fields = pages.fields("/new?of=C9")
    assert fields["run.label"] == "C9"
    assert fields["run.setting"] == SETTING
    # two presses of 1 s each: the root of two
    assert fields["run.on_time"] == "240 s ± 1.4 s"
    assert [fields[f"titration.titres[{n}]"] for n in (1, 2)] == ["28.45 mL", "1.05 mL"]
    kept_run = pages.send("/new", fields | {"titration.titrant.concentration": "0.0510 mol/L"})
    assert kept_run.status_code == 303
    text = pages.get(kept_run.headers["location"]).text
    assert "C9" in text
    assert 'href="/new?of=C9"' not in pages.get("/bench?of=C9").text
    assert pages.fields("/new?of=nothing")["run.label"] == "nothing"


def test_the_undo_of_nothing_is_told_and_not_tried_for_ever(pages: Pages) -> None:
    assert pages.send("/bench/undo", {"id": new_id(), "of": "C9"}, headers=JSON).status_code == 422
    run = pages.send("/bench/undo", {"id": "C1", "of": "C9"}, headers=JSON)
    assert run.status_code == 422
    assert "no press" in run.json()["what"]


def test_the_gate_is_not_asked_until_it_answered(pages: Pages) -> None:
    assert 'id="gate" class="unasked"' in pages.get("/bench?of=C9").text
    assert state(pages)["gate"] == "not asked"
    press(pages, "gate", value="stop")
    found = state(pages)
    assert found["gate"].startswith("stop, ")
    assert (found["gate_word"], found["gate_mark"]) == ("stop", "■")
    assert press(pages, "gate", value="fine").status_code == 422


def test_the_whole_of_a_run_in_words(pages: Pages) -> None:
    assert state(pages)["next_text"] == "gas on"
    press(pages, "gas on", ago="400")
    assert state(pages)["next_text"] == "discharge on"
    press(pages, "planned on-time", value="4 min")
    press(pages, "discharge on", ago="100")
    assert re.fullmatch("stop, in 2 min (20|19) s", state(pages)["next_text"])
    press(pages, "stop", ago="30")
    assert re.fullmatch("gas off, in 1 min (30|29) s", state(pages)["next_text"])
    press(pages, "gas off")
    found = state(pages)
    assert found["next_text"] == "all off"
    assert any("less than 2 min after the discharge" in note["text"] for note in found["notes"])
    press(pages, "discharge on", of="D1")
    assert state(pages, "D1")["next_text"] == "press Gas, or discharge off"


def test_a_clock_set_back_under_the_running_server_is_told_and_takes_no_time(
    pages: Pages, monkeypatch: pytest.MonkeyPatch
) -> None:
    began = datetime(2026, 5, 9, 11, 0, tzinfo=UTC)

    def clocks(steady: float, wall: float, boot: str = "one") -> None:
        moment = Moment(began + timedelta(seconds=wall), 5000.0 + steady, boot)
        monkeypatch.setattr("ozonewright.web.pages.bench.now", lambda: moment)

    clocks(0, 0)
    press(pages, "gas on")
    press(pages, "discharge on")
    clocks(60, 60 - 3600)
    found = press(pages, "into bottle").json()
    assert found["on_time"] == pytest.approx(60.0)
    assert any("set back by 1 h after 9 May 11:00:00" in note["text"] for note in found["notes"])
    clocks(90, 90)
    assert state(pages)["on_time"] == pytest.approx(90.0)
    # the computer starts anew, its clock 2 h behind: what passed meanwhile can't be known
    clocks(-4990, 120 - 7200, "two")
    found = state(pages)
    assert found["on_time"] == pytest.approx(60.0 + 10.0)
    assert any("the true on-time may be longer" in note["text"] for note in found["notes"])


def test_beyond_the_last_mark_the_page_says_stop(pages: Pages) -> None:
    press(pages, "gas on", ago="500")
    press(pages, "planned on-time", value="4 min")
    press(pages, "discharge on", ago="300")
    found = state(pages)
    assert (found["next_text"], found["past"]) == ("stop now", True)
    assert '<main id="bench" class="past"' in pages.get("/bench?of=C9").text
    assert any("past the last mark, stop" in note["text"] for note in found["notes"])
    press(pages, "stop", ago="150")
    assert state(pages)["past"] is False
    assert state(pages)["next_text"] == "gas may go off"


def test_the_policy_allows_this_one_script_here_and_nowhere_else(pages: Pages) -> None:
    press(pages, "gas on")
    for path in ("/bench?of=C9", "/bench?other=1"):
        policy = pages.get(path).headers["content-security-policy"]
        assert f"script-src {ADDRESS}{SCRIPT}; connect-src 'self'" in policy
        assert "unsafe" not in policy
        assert "default-src 'none'" in policy
    text = pages.get("/bench?of=C9").text
    assert re.findall(r"<script[^>]*>", text) == [f'<script src="{SCRIPT}" defer>']
    assert not re.search(r"<style|\sstyle=|\son\w+=|javascript:", text)
    for path in ("/", "/runs", "/new"):
        assert "script-src" not in pages.get(path).headers["content-security-policy"]
    assert pages.get(SCRIPT).status_code == 200


def test_a_stale_token_stores_nothing_and_a_fresh_one_is_to_be_had(pages: Pages) -> None:
    fields = {"what": "gas on", "of": "C9", "id": new_id(), "token": "of an earlier start"}
    assert pages.client.post("/bench/press", data=fields, headers=JSON).status_code == 403
    assert kept(pages) == []
    assert pages.client.post("/bench/press", data=fields | {"token": state(pages)["token"]},
                             headers=JSON).status_code == 200  # fmt: skip


def test_hostile_labels_stay_text(pages: Pages) -> None:
    name = "\"><script>alert(1)</script>'&amp;"
    press(pages, "gas on", of=name)
    for path in ("/bench", "/bench?other=1"):
        text = pages.get(path).text
        assert "<script>" not in text
    assert shown(pages, "/bench")["of"] == name


def test_without_a_notebook_it_leads_home(bare: Pages) -> None:
    assert bare.get("/bench").headers["location"] == "/"
    assert bare.get("/bench/state").status_code == 404
    for path in ("/bench/press", "/bench/undo", "/bench/begin"):
        assert bare.send(path, {"of": "C9"}).headers["location"] == "/"


def test_a_notebook_that_is_busy_is_no_refusal(
    pages: Pages, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """The script keeps whatever was not refused in JSON; a busy file must not read as refused."""
    monkeypatch.setattr("ozonewright.notebook.store.PATIENCE", 0.05)
    with Notebook.open(pages.file) as other, other.atomic():
        reply = press(pages, "gas on")
    assert reply.status_code == 503
    assert kept(pages) == []
