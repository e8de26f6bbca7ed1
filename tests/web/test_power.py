"""The page of plug and discharge power."""

from __future__ import annotations

from pathlib import Path

from web.in_process import SETTING, Pages, client_of

LOOP = (Path(__file__).resolve().parents[2] / "docs" / "examples" / "loop.csv").read_text("utf-8")
PLUG = {"plug": "38.0 W ± 2 %", "standby": "6.0 W ± 2 %", "output": "0.600 g/h ± 3 %"}
RECORD = {"probe": "1000:1 ± 3 %", "capacitor": "100 nF ± 5 %", "loop": LOOP}


def plain(text: str) -> str:
    return text.replace("\u00a0", " ")


def test_the_form_warns_before_anything_is_typed(pages: Pages, bare: Pages) -> None:
    for client in (pages, bare):
        text = client.get("/power").text
        assert "What does it take, and what does the gas get?" in text
        assert text.index("Take care") < text.index('action="/power"')
        assert "Never an ordinary probe" in text


def test_the_plug_alone_by_address(bare: Pages) -> None:
    """0.6 g/h over 38 W is 15.79 g/kWh."""
    text = plain(bare.get("/power", params=PLUG).text)
    assert "what the gas gets is not determined" in text
    assert "15.79 ± 0.57" in text


def test_a_record_is_sent_and_drawn(pages: Pages) -> None:
    """Invented record of a tube that gets 10.2 W."""
    reply = pages.send("/power", PLUG | RECORD)
    assert reply.status_code == 200
    text = plain(reply.text)
    shown = ("10.20 ± 0.60 W in the gas of 38.00 ± 0.76 W", "58.8 ± 3.9 g/kWh", "Take care")
    for words in (*shown, 'class="chain"', "gap capacitance", "loop.csv"):
        assert words in text, words


def test_a_blank_is_told_at_its_field(pages: Pages) -> None:
    reply = pages.send("/power", PLUG | RECORD | {"blank": LOOP})
    assert reply.status_code == 422
    assert 'id="blank-mend"' in reply.text
    assert "The blank is no blank" in reply.text


def test_nothing_is_stored(pages: Pages) -> None:
    before = pages.file.read_bytes()
    pages.send("/power", PLUG | RECORD)
    assert pages.file.read_bytes() == before


def test_a_setting_of_the_notebook(pages: Pages) -> None:
    text = plain(pages.get("/power", params={"setting": SETTING}).text)
    assert "W at the plug; what the gas gets is not determined" in text
    assert "g/kWh at the plug" in text


def test_every_fault_is_at_its_field(pages: Pages) -> None:
    wrong = {"plug": "38", "voltage": "8 kV", "loop": "a,b\n1,2\n<b>x</b>"}
    reply = pages.send("/power", wrong)
    assert reply.status_code == 422
    for place in ("plug", "voltage", "loop", "frequency"):
        assert f'id="{place}-mend"' in reply.text
    assert "<b>x</b>" not in reply.text


def test_a_record_without_a_token_is_refused(tmp_path: Path) -> None:
    reply = client_of(None, tmp_path).post("/power", data=PLUG)
    assert reply.status_code == 403


def test_a_record_beyond_the_form_is_told(pages: Pages) -> None:
    reply = pages.send("/power", {"loop": "x" * 300_000})
    assert reply.status_code == 413
    assert "far too large" in reply.text
