"""The room page: the answer, the ways out, faults at their fields."""

from __future__ import annotations

from web.in_process import Pages

BASIC = {
    "room.volume": "24 m3",
    "room.air_changes": "0.5 /h",
    "room.removal": "2.8 /h ± 1.3 /h",
    "room.temperature": "22 °C",
    "room.limit": "0.1 ppm",
    "release": "100 mg/h",
}


def test_the_form_stands_alone_and_in_a_notebook(pages: Pages, bare: Pages) -> None:
    for client in (pages, bare):
        assert "What would you breathe?" in client.get("/room").text


def test_a_room_is_answered(pages: Pages) -> None:
    text = pages.get("/room", params=BASIC).text.replace("\u00a0", " ")
    for words in ("0.64 ppm of ozone in the end", "tail bottle", "<svg"):
        assert words in text


def test_ways_out_and_a_jurisdiction(pages: Pages) -> None:
    asked = BASIC | {"room.limit": "", "limit_of": "United Kingdom", "release": ""}
    asked |= {"output": "0.62 g/h", "slip": "5 %"}
    text = pages.get("/room", params=asked).text
    for words in ("Ways out", "nothing after the flask", "United Kingdom: 0.20 ppm"):
        assert words in text


def test_every_fault_is_at_its_field(pages: Pages) -> None:
    reply = pages.get("/room", params={"room.volume": "0 m3", "release": "much"})
    assert reply.status_code == 422
    for place in ("room-volume", "release"):
        assert f'id="{place}-mend"' in reply.text
    assert 'value="much"' in reply.text


def test_a_room_is_kept_and_chosen_again(pages: Pages) -> None:
    room = {place: text for place, text in BASIC.items() if place.startswith("room.")}
    reply = pages.send("/room", room | {"label": "workshop <1>"})
    assert reply.status_code == 303
    text = pages.get(reply.headers["location"]).text
    assert 'value="24 m3"' in text
    assert "workshop &lt;1&gt;" in text
    assert "What would you breathe?" in text
    assert pages.send("/room", room | {"label": "workshop <1>"}).status_code == 422
    assert pages.send("/room", room).status_code == 422
    assert pages.send("/room", {"room.volume": "0 m3", "label": "other"}).status_code == 422


def test_a_run_is_no_room(pages: Pages) -> None:
    assert pages.get("/room", params={"kept": "C1"}).status_code == 422


def test_the_limits_are_told_with_how_they_were_read(pages: Pages) -> None:
    assert "from memory: check the current edition" in pages.get("/room").text


def test_an_empty_volume_is_asked_for(pages: Pages) -> None:
    reply = pages.get("/room", params={"release": "1 mg/h"})
    assert reply.status_code == 422
    assert 'id="room-volume-mend"' in reply.text


def test_hostile_text_stays_text(pages: Pages) -> None:
    reply = pages.get("/room", params=BASIC | {"room.removal": "<b>1</b>"})
    assert "<b>1</b>" not in reply.text


def test_oxygen_stands_beside_the_ozone(pages: Pages) -> None:
    text = pages.get("/room", params=BASIC | {"oxygen": "1 L/min"}).text.replace("\u00a0", " ")
    for words in ("0.64 ppm of ozone in the end", "21.3 vol% of oxygen in the end"):
        assert words in text
    assert text.count('id="next"') == 1
    assert text.count('id="sources"') == 1
