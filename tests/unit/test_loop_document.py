"""Records of an oscilloscope as text: what is read, and what is refused with its line."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ozonewright.documents import loop as document
from ozonewright.documents.loop import read_loop
from ozonewright.errors import AppError, Faults

GOOD = "time (µs),voltage (kV),sense (V)\n0,1.0,2\n5,1.5,2.5\n10,2,3\n"


def refused(text: str) -> str:
    with pytest.raises(AppError) as caught:
        read_loop(text)
    error = caught.value
    faults = error.faults if isinstance(error, Faults) else (error,)
    return "; ".join(f"{fault.where}: {fault.what} {fault.fix}" for fault in faults)


def test_units_of_the_head_reach_si() -> None:
    found = read_loop(GOOD)
    assert list(found.times) == pytest.approx([0.0, 5e-6, 10e-6])
    assert list(found.voltages) == [1000.0, 1500.0, 2000.0]
    assert list(found.seconds) == [2.0, 2.5, 3.0]
    assert found.of == "sense"


@pytest.mark.parametrize(
    "text",
    [
        "Invented\nmore words, and a comma\n" + GOOD,
        "time;voltage;sense\nµs;kV;V\n0;1,0;2\n5;1,5;2,5\n10;2;3\n",
        "time\tvoltage\tsense\n(us)\t(kV)\t(V)\n0\t1.0\t2\n5\t1.5\t2.5\n10\t2\t3\n",
        "other,Time [µs],Voltage [kV],Sense / V\nx,0,1,2\nx,5,1.5,2.5\n\nx,10,2,3\n",
        GOOD.replace("\n", "\r\n"),
        '"time (µs)","voltage (kV)","sense (V)"\n"0","1.0","2"\n"5","1.5","2.5"\n"10","2","3"\n',
        "time (µs),voltage (kV),sense (V)\n100,1,2\n105,1.5,2.5\n110,2,3\n",
    ],
)
def test_the_same_in_other_hands(text: str) -> None:
    found = read_loop(text)
    assert list(found.times) == pytest.approx([0.0, 5e-6, 10e-6])
    assert list(found.voltages) == [1000.0, 1500.0, 2000.0]
    assert list(found.seconds) == [2.0, 2.5, 3.0]


def test_charge_in_place_of_a_capacitor() -> None:
    found = read_loop("time (ms),voltage (V),charge (nC)\n0,1,2\n1,2,3\n")
    assert found.of == "charge"
    assert list(found.seconds) == pytest.approx([2e-9, 3e-9])


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "no column time and voltage and sense"),
        ("time (s),sense (V)\n0,1\n", "no column voltage"),
        ("time (s),voltage (V)\n0,1\n", "sense (or charge)"),
        ("time (s),voltage (V),sense (V),charge (C)\n", "tell the same twice"),
        ("time,voltage,sense\n0,1,2\n1,2,3\n", "column time: the unit is missing"),
        ("time (s),voltage,sense (V)\n0,1,2\n", "column voltage: the unit is missing"),
        ("time (s),voltage,sense (V)\n", "column voltage: the unit is missing"),
        ("time (s),voltage (W),sense (V)\n0,1,2\n", "no unit of voltage"),
        ("time (s),voltage (V),sense (V)\n", "head and no numbers"),
        ("time (s),voltage (V),sense (V)\n0,1,2\n1,x,2\n2,1\n", "line 3.voltage: no number"),
        ("time (s),voltage (V),sense (V)\n0,1,2\n1,inf,2\n", "out of its range"),
        ("time (s),voltage (V),sense (V)\n0,1,2\n1,9.9e37,2\n", "out of its range"),
        ("time (s),voltage (V),sense (V)\n0,1,2\n1,1,2\n0.5,1,2\n", "line 4: the clock runs back"),
        ("time (s),voltage (V),sense (V)\n0,1,2\n0,1,2\n", "too few figures"),
        ("time (s),voltage (V),sense (V)\n0,1,5,2,5\n1,1,2\n", "line 2: this line has more"),
    ],
)
def test_what_is_refused(text: str, words: str) -> None:
    assert words in refused(text)


def test_faults_are_told_together_up_to_a_few() -> None:
    bad = "time (s),voltage (V),sense (V)\n" + "".join(f"{n},x,1\n" for n in range(50))
    with pytest.raises(Faults) as caught:
        read_loop(bad)
    assert len(caught.value.faults) == document.MOST_FAULTS


def test_an_open_quote_swallows_nothing() -> None:
    long = 'time (s),voltage (V),sense (V)\n0,1,2\n1,"1,2\n' + "".join(
        f"{n},1,2\n" for n in range(2, 40_000)
    )
    assert len(read_loop(long).times) == 40_000


def test_a_file_without_end(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(document, "MOST_SAMPLES", 2)
    assert "far too long" in refused(GOOD)
    monkeypatch.setattr(document, "LONGEST", 10)
    assert "far too long" in refused(GOOD)


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_a_spoilt_record_is_refused_or_read(data: st.DataObject) -> None:
    """Whatever stands in it, the answer is a record or an error with a mend."""
    place = data.draw(st.integers(0, len(GOOD) - 1))
    with_in = data.draw(st.text(max_size=6))
    try:
        found = read_loop(GOOD[:place] + with_in + GOOD[place + data.draw(st.integers(0, 4)) :])
    except AppError as error:
        faults = error.faults if isinstance(error, Faults) else (error,)
        assert all(fault.fix for fault in faults)
    else:
        assert len(found.times) == len(found.voltages) == len(found.seconds) > 0
