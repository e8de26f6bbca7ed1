"""Power at the plug and in the gas: records of known power, readings by hand, bad input."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import simpson, solve_ivp

import ozonewright as oz
from ozonewright.bench.output import outputs
from ozonewright.bench.power import loop_text, power_of
from ozonewright.documents.table import read_csv
from ozonewright.errors import AppError, Faults, InputError
from ozonewright.notebook import Notebook
from ozonewright.questions.power import Power, power_of_runs
from ozonewright.results import plain
from ozonewright.show.output import output_text
from ozonewright.show.power import power_text
from ozonewright.show.words import sentence
from ozonewright.uncertain import Estimate, Measured
from ozonewright.units import Kind, number
from unit.loops import DIELECTRIC, GAP, GAP_VOLTAGE, PEAK, charges_of, record, tube

PLUG = {"plug": "38.0 W ± 2 %", "standby": "6.0 W ± 1 %"}
INSTRUMENTS = {"probe": "1000 ± 3 %", "capacitor": "100 nF ± 5 %"}
MANLEY = {
    "frequency": "1 kHz ± 0 Hz",
    "dielectric": "200 pF ± 0 pF",
    "gap": "50 pF ± 0 pF",
    "gap_voltage": "3.00 kV ± 0 V",
    "voltage": "8.00 kV peak ± 0 V",
}
TRUE = 10.2
"""Of the tube of tests/unit/loops.py, by hand (G-04). [W]"""


def value(one: object) -> float:
    assert isinstance(one, Estimate)
    return one.value


def asked(**texts: str | None) -> Power:
    return power_of(texts)


def codes(found: Power) -> set[str]:
    assert all(sentence(note) for note in (*found.notes, *found.next, *found.working))
    assert power_text(found)
    return {note.code for note in found.notes}


def refused(**texts: str | None) -> str:
    with pytest.raises(AppError) as caught:
        power_of(texts)
    error = caught.value
    faults = error.faults if isinstance(error, Faults) else (error,)
    return "; ".join(f"{fault.where}: {fault.what} ({fault.got}) {fault.fix}" for fault in faults)


def csv(time: np.ndarray, voltage: np.ndarray, second: np.ndarray, of: str = "charge (C)") -> str:
    rows = "\n".join(
        f"{t:.12g},{v:.12g},{s:.12g}" for t, v, s in zip(time, voltage, second, strict=True)
    )
    return f"time (s),voltage (V),{of}\n{rows}\n"


def test_the_plug_alone_by_hand() -> None:
    """0.114 kWh over 3 h is 38 W; 0.6 g/h ÷ 38 W = 15.79 g/kWh, 1.295 % of 1219 g/kWh."""
    found = asked(energy="0.114 kWh ± 2 %", time="3 h ± 1 s", output="0.6 g/h ± 3 %")
    assert number(value(found.plug), Kind.POWER, "W") == pytest.approx(38.0)
    assert number(value(found.yield_plug), Kind.YIELD, "g/kWh") == pytest.approx(15.789, rel=1e-4)
    assert value(found.share_plug) == pytest.approx(15.789 / 1219.0, rel=1e-3)
    assert isinstance(found.yield_plug, Estimate)
    assert found.yield_plug.u / found.yield_plug.value == pytest.approx(13**0.5 / 100.0, rel=1e-3)
    assert found.discharge is None and found.yield_discharge is None  # noqa: PT018
    assert "power-not-determined" in codes(found)
    assert set(found.unknowns) == {"standby", "discharge"}
    assert [note.code for note in found.next] == ["power-stay-at-plug"]
    assert not found.at_least


def test_manley_on_both_bases_by_hand() -> None:
    """10.2 W of 38 W: 26.84 %; of the 32 W above standby 31.9 %; 0.6 g/h ÷ 10.2 W = 58.8 g/kWh."""
    found = asked(**PLUG, **MANLEY, output="0.6 g/h ± 0 g/h")
    assert value(found.discharge) == pytest.approx(TRUE, rel=1e-9)
    assert value(found.ignition) == pytest.approx(3750.0)
    assert value(found.supply_efficiency) == pytest.approx(0.26842, rel=1e-4)
    assert value(found.supply_efficiency_less_standby) == pytest.approx(0.31875, rel=1e-4)
    assert number(value(found.yield_discharge), Kind.YIELD, "g/kWh") == pytest.approx(
        58.82, rel=1e-4
    )
    assert found.discharge_by == "Manley's equation"
    assert codes(found) >= {"power-manley", "power-standby"}
    assert "= 10.20 W" in power_text(found)


def test_peak_to_peak_and_rms_of_the_same_sine() -> None:
    both = asked(**MANLEY | {"voltage": "16.00 kV pp ± 0 V"})
    assert value(both.discharge) == pytest.approx(TRUE, rel=1e-9)
    rms = asked(**MANLEY | {"voltage": "5.656854 kV rms ± 0 V"})
    assert value(rms.discharge) == pytest.approx(TRUE, rel=1e-6)
    assert "power-rms" in codes(rms)
    assert "peak, peak-to-peak or rms?" in refused(**MANLEY | {"voltage": "8.00 kV"})


def test_below_ignition_nothing_burns() -> None:
    assert "nothing burns" in refused(**MANLEY | {"voltage": "3.7 kV peak"})
    assert "nothing burns" in refused(**MANLEY | {"voltage": "2.6 kV rms"})
    near = asked(**MANLEY | {"voltage": "4.0 kV peak ± 4 %"})
    assert codes(near) >= {"power-near-ignition", "power-nothing-sure"}


@pytest.mark.parametrize("seed", [1, 2])
@pytest.mark.parametrize("noise", [0.0, 0.01, 0.04])
def test_a_record_gives_the_power_back(seed: int, noise: float) -> None:
    found = asked(loop=record(noise=noise, seed=seed), **INSTRUMENTS, **PLUG, output="0.6 g/h")
    assert value(found.discharge) == pytest.approx(TRUE, rel=0.01)
    low, high = found.discharge.interval  # type: ignore[union-attr]
    assert low < TRUE < high
    row = found.loop
    assert row is not None
    assert value(row.gap_voltage) == pytest.approx(GAP_VOLTAGE, rel=0.02)
    assert value(row.dielectric) == pytest.approx(DIELECTRIC, rel=0.03)
    assert value(row.gap) == pytest.approx(GAP, rel=0.06)
    assert value(row.peak) == pytest.approx(PEAK, rel=0.05)
    assert value(row.ignition) == pytest.approx(1.25 * GAP_VOLTAGE, rel=0.03)
    assert value(row.manley) == pytest.approx(TRUE, rel=0.05)
    assert found.budget[0].input == "capacitor"
    assert codes(found) <= {"power-phase", "power-standby", "power-short-record"}
    assert plain(found, sentence)["discharge_power_w"] == pytest.approx(TRUE, rel=0.01)


def test_the_interval_of_the_scatter_holds_the_truth() -> None:
    """Sixty records of five cycles in 5 % of noise, instruments exact: about 95 % hold it."""
    exact = {"probe": "1000 ± 0", "capacitor": "100 nF ± 0 nF"}
    held = 0
    for seed in range(60):
        found = asked(loop=record(cycles=6, samples=100, noise=0.05, seed=seed, bits=12), **exact)
        low, high = found.discharge.interval  # type: ignore[union-attr]
        held += low <= TRUE <= high
    assert held >= 53


def test_the_time_and_place_of_a_record_do_not_matter() -> None:
    time, voltage, charge = tube(cycles=4, samples=300)
    plain_one = asked(loop=csv(time, voltage, charge), probe="1 ± 1 %")
    moved = asked(loop=csv(time + 7.0, voltage + 900.0, charge - 3e-7), probe="1 ± 1 %")
    turned = asked(loop=csv(time, voltage, -charge), probe="1 ± 1 %")
    for one in (moved, turned):
        assert value(one.discharge) == pytest.approx(value(plain_one.discharge), rel=1e-6)
    assert "power-inverted" in codes(turned)
    assert "power-charge-exact" in codes(moved)


@settings(max_examples=15, deadline=None)
@given(st.floats(0.5, 2.0), st.floats(0.5, 2.0))
def test_power_follows_both_ratios(probe: float, capacitor: float) -> None:
    text = record(cycles=4, samples=100, noise=0.0, bits=14)
    one = asked(
        loop=text, probe=f"{1000 * probe:.6f} ± 0", capacitor=f"{100 * capacitor:.6f} nF ± 0 nF"
    )
    base = asked(loop=text, probe="1000 ± 0", capacitor="100 nF ± 0 nF")
    assert value(one.discharge) == pytest.approx(
        value(base.discharge) * probe * capacitor, rel=2e-3
    )


def test_what_a_record_is_refused_for() -> None:
    time, voltage, charge = tube(cycles=4, samples=300)
    ratio = {"probe": "1 ± 1 %"}
    half = csv(time[:150], voltage[:150], charge[:150])
    assert "less than a whole cycle" in refused(loop=half, **ratio)
    cut = csv(time, np.minimum(voltage, 0.8 * PEAK), charge)
    assert "cut off" in refused(loop=cut, **ratio)
    assert asked(loop=cut, **ratio, wave="flat-topped").discharge
    low = csv(time, voltage, np.maximum(charge, 0.8 * charge.min()))
    assert "loop: charge" in refused(loop=low, **ratio)
    assert "does not move" in refused(loop=csv(time, voltage, 0.0 * charge), **ratio)
    sparse = slice(None, None, 20)
    assert "too few samples" in refused(
        loop=csv(time[sparse], voltage[sparse], charge[sparse]), **ratio
    )
    running = charge + 0.1 * np.ptp(charge) * time / 1e-3
    assert "does not close" in refused(loop=csv(time, voltage, running), **ratio)
    assert "gives energy back" in refused(loop=csv(time, voltage, np.roll(charge, -40)), **ratio)
    broken = np.abs((time * 1e3) % 1.0 - 0.5) > 0.1
    assert "gap in it" in refused(loop=csv(time[broken], voltage[broken], charge[broken]), **ratio)


def test_what_is_told_of_a_record() -> None:
    time, voltage, charge = tube(cycles=6, samples=300)
    ratio = {"probe": "1 ± 1 %"}
    keep = (time < 2.3e-3) | (time > 2.6e-3)
    gap = asked(loop=csv(time[keep], voltage[keep], charge[keep]), **ratio)
    assert "power-gaps" in codes(gap)
    assert value(gap.discharge) == pytest.approx(TRUE, rel=1e-3)
    wave = 1.0 + 0.2 * np.sin(2.0 * np.pi * time / 5e-3)
    assert "power-modulated" in codes(asked(loop=csv(time, voltage * wave, charge * wave), **ratio))
    drift = charge + 0.02 * np.ptp(charge) * time / 1e-3
    assert "power-drifts" in codes(asked(loop=csv(time, voltage, drift), **ratio))
    few = time < 1.5e-3
    early = csv(time[few] + 2e-4, np.roll(voltage, 30)[few], np.roll(charge, 30)[few])
    assert "power-few-cycles" in codes(asked(loop=early, **ratio))
    thin = slice(None, None, 6)
    assert "power-few-samples" in codes(
        asked(loop=csv(time[thin], voltage[thin], charge[thin]), **ratio)
    )
    steps = np.round(charge / np.ptp(charge) * 20.0) / 20.0 * np.ptp(charge)
    assert "power-coarse" in codes(asked(loop=csv(time, voltage, steps), **ratio))
    pulsed = time + 0.15e-3 * np.sin(2.0 * np.pi * time / 2.5e-3)
    assert "power-uneven" in codes(asked(loop=csv(pulsed, voltage, charge), **ratio))


def test_bursts_are_counted_with_their_pauses() -> None:
    """Ten cycles on, ten at rest: ∫ V dQ by Simpson (scipy) over whole bursts, over their time."""
    turns = np.arange(0, 80 * 200 + 1) / 200.0
    voltage = PEAK * np.sin(2.0 * np.pi * turns) * ((turns % 20.0) < 10.0)
    charge, time = charges_of(voltage), turns / 1e3
    found = asked(loop=csv(time, voltage, charge), probe="1 ± 1 %")
    whole = slice(20 * 200, 60 * 200 + 1)
    current = np.gradient(charge, time)
    expected = simpson((voltage * current)[whole], x=time[whole]) / 40e-3
    assert expected == pytest.approx(0.5 * TRUE, rel=0.1)
    low, high = found.discharge.interval  # type: ignore[union-attr]
    assert low < expected < high
    assert "power-uneven" in codes(found)


def test_a_small_capacitor_takes_its_voltage_off() -> None:
    text = record(sense=1e-9, noise=0.0, bits=14)
    found = asked(loop=text, probe="1000 ± 1 %", capacitor="1.0 nF ± 1 %")
    assert "power-large-sense" in codes(found)
    assert value(found.discharge) == pytest.approx(TRUE, rel=2e-3)
    assert found.loop is not None
    assert value(found.loop.peak) == pytest.approx(PEAK, rel=2e-3)


def test_a_loop_that_is_no_parallelogram() -> None:
    """A resistor beside a capacitor: an ellipse. V²/2R = 9 W by hand; no sides."""
    time = np.linspace(0.0, 5e-3, 2501)
    turn = 2e3 * np.pi * time
    charge = 150e-12 * 6e3 * np.sin(turn) - 6e3 / 2e6 * np.cos(turn) / (2e3 * np.pi)
    found = asked(loop=csv(time, 6e3 * np.sin(turn), charge), probe="1 ± 1 %")
    assert value(found.discharge) == pytest.approx(9.0, rel=1e-3)
    assert codes(found) & {"power-rounded", "power-no-parallelogram", "power-unlike-manley"}
    pure = 150e-12 * 6e3 * np.sin(turn) + 1e-9 * np.abs(np.sin(turn)) * np.sign(np.cos(turn)) * -1.0
    flat = asked(loop=csv(time, 6e3 * np.sin(turn), pure), probe="1 ± 1 %")
    assert "power-no-parallelogram" in codes(flat)
    assert flat.loop is not None
    assert flat.loop.dielectric is None


def test_the_impossible_is_told() -> None:
    wrong = asked(plug="5.0 W ± 1 %", loop=record(), **INSTRUMENTS, output="0.6 g/h ± 1 %")
    assert "power-above-plug" in codes(wrong)
    near = asked(plug="10.0 W ± 1 %", loop=record(), **INSTRUMENTS)
    assert "power-near-plug" in codes(near)
    beyond = asked(plug="38 W ± 1 %", output="50 g/h ± 1 %")
    assert "power-beyond-limit" in codes(beyond)
    high = asked(discharge="1.0 W ± 1 %", output="0.6 g/h ± 1 %")
    assert codes(high) >= {"power-high-yield", "power-reading"}
    assert high.next[0].code == "power-read-plug"


def test_digits_are_told() -> None:
    found = asked(plug="38 W", loop=record(), probe="1000", capacitor="100 nF")
    assert codes(found) >= {"power-meter", "power-instruments"}
    assert found.at_least
    both = asked(loop=record(), probe="1000 : 1", capacitor="100 nF ± 5 %")
    assert "power-instruments" in codes(both)


def test_what_is_missing_or_told_twice() -> None:
    assert "nothing is said" in refused()
    assert "time: this is needed beside energy" in refused(energy="0.1 kWh")
    words = refused(frequency="1 kHz")
    assert all(f"{name}: this is needed" in words for name in MANLEY if name != "frequency")
    assert "plug power is told in two ways" in refused(plug="38 W", energy="1 kWh", time="2 h")
    twice = refused(**MANLEY, discharge="3 W")
    assert "voltage: the discharge power is told in two ways" in twice
    text = record(cycles=3, samples=50)
    assert "capacitor: charge is this capacitance" in refused(loop=text, probe="1000")
    assert "probe: how many volts" in refused(loop=text, capacitor="100 nF")
    charged = text.replace("sense (V)", "charge (C)")
    assert "holds charge already" in refused(loop=charged, **INSTRUMENTS)
    assert "wave: this wave is not known" in refused(loop=text, **INSTRUMENTS, wave="square")
    assert "loop: the record has no column" in refused(loop="a,b\n", **INSTRUMENTS)
    assert "loop.line 3" in refused(
        loop="time (s),voltage (V),sense (V)\n0,1,1\n1,x,1\n", **INSTRUMENTS
    )
    assert "must be above 0" in refused(**MANLEY | {"dielectric": "0 pF"})
    assert "capacitor: must be above 0" in refused(loop=text, probe="1000", capacitor="0 nF")
    assert "standby power is not below" in refused(plug="5 W", standby="6 W")
    assert "a setting stands in a notebook" in refused(setting="S")


def test_a_gap_without_capacitance_may_stand() -> None:
    """4 × 1 kHz × 200 pF × 3 kV × (8 − 3) kV = 12 W by hand."""
    found = asked(**MANLEY | {"gap": "0 pF ± 0 pF"})
    assert value(found.discharge) == pytest.approx(12.0)


def test_a_setting_brings_output_and_power(tmp_path) -> None:  # type: ignore[no-untyped-def]
    run = {"on_time": "240 s ± 1 s", "setting": "S", "collected": "40 mg ± 1 %"}
    with Notebook.create(tmp_path / "b.sqlite", "B") as book:
        for watts in ("38 W ± 1 W", "40 W ± 1 W"):
            book.add("run", {"run": run, "electrical": {"power": watts}})
        inside = {"power": "11 W ± 1 W", "at": "discharge"}
        book.add("run", {"run": run, "electrical": inside})
        found = power_of({"setting": "S"}, book)
        typed = power_of({"setting": "S", "plug": "50 W ± 1 W", "output": "1.0 g/h ± 1 %"}, book)
    assert value(found.plug) == pytest.approx(39.0)
    assert found.plug.u == pytest.approx(2**0.5)  # type: ignore[union-attr]
    assert number(value(found.rate), Kind.MASS_RATE, "g/h") == pytest.approx(0.6)
    assert value(found.discharge) == pytest.approx(11.0)
    assert found.setting == "S"
    assert value(typed.plug) == 50.0
    assert number(value(typed.rate), Kind.MASS_RATE, "g/h") == pytest.approx(1.0)


def test_readings_of_one_meter_share_its_doubt() -> None:
    """Four readings of u = 1 W that differ by nothing: u stays 1 W, for the meter is the same."""
    one = Measured(38.0, 1.0, "power", Kind.POWER)
    found = power_of_runs([one] * 4, "plug")
    assert found is not None
    assert found.u == pytest.approx(1.0)
    mixed = power_of_runs([one, replace(one, basis="from digits")], "plug")
    assert mixed is not None
    assert mixed.basis == "stated"
    assert power_of_runs([], "plug") is None


def test_a_file_beyond_measure_is_not_read(tmp_path, monkeypatch) -> None:  # type: ignore[no-untyped-def]
    file = tmp_path / "loop.csv"
    file.write_text(record(cycles=2, samples=50), encoding="utf-8")
    assert loop_text(file).startswith("time")
    monkeypatch.setattr("ozonewright.bench.power.LONGEST", 10)
    with pytest.raises(InputError, match="far too long"):
        loop_text(file)


RUN_OF_BOTH = {
    "run": {"on_time": "240 s ± 1 s", "setting": "S", "collected": "40 mg ± 1 %"},
    "electrical": {"power": "40 W ± 1 W", "discharge_power": "16 W ± 1 W"},
}


def test_a_run_tells_its_yield_on_both_bases() -> None:
    """40 mg in 240 s is 0.6 g/h: 15 g/kWh of 40 W, 37.5 g/kWh of 16 W, by hand."""
    (found,) = outputs([RUN_OF_BOTH])
    assert number(value(found.energy_yield), Kind.YIELD, "g/kWh") == pytest.approx(15.0)
    assert number(value(found.yield_discharge), Kind.YIELD, "g/kWh") == pytest.approx(37.5)
    assert found.power_at == "plug"
    text = " ".join(output_text(found).split())
    assert "15.0 g/kWh at the plug; 37.5 g/kWh at the discharge" in text
    assert "÷ 16.0 W at the discharge" in text


def test_a_discharge_power_told_twice_is_refused() -> None:
    twice = {**RUN_OF_BOTH, "electrical": {**RUN_OF_BOTH["electrical"], "at": "discharge"}}
    with pytest.raises(AppError, match="told twice"):
        outputs([twice])
    lone = {**RUN_OF_BOTH, "electrical": {"discharge_power": "16 W ± 1 W"}}
    (found,) = outputs([lone])
    assert found.energy_yield is None
    assert value(found.yield_discharge) > 0.0
    far = {**RUN_OF_BOTH, "electrical": {"power": "40 W", "discharge_power": "0.4 W ± 0 W"}}
    assert "above-enthalpy-limit" in {note.code for note in outputs([far])[0].notes}


def test_a_table_has_a_column_for_it() -> None:
    (run,) = read_csv("label,rate (g/h),power (W),discharge power (W)\na,0.6,40,16\n")
    assert run["electrical"]["discharge_power"] == "16 W"


def test_a_setting_of_both_powers(tmp_path) -> None:  # type: ignore[no-untyped-def]
    with Notebook.create(tmp_path / "b.sqlite", "B") as book:
        book.add("run", RUN_OF_BOTH)
        found = power_of({"setting": "S"}, book)
    assert value(found.plug) == 40.0
    assert value(found.discharge) == 16.0
    assert value(found.supply_efficiency) == pytest.approx(0.4)
    with oz.open_notebook(tmp_path / "b.sqlite") as opened:
        assert opened.power("S")["supply_efficiency_percent"] == pytest.approx(40.0)


def late(values: np.ndarray, degrees: float, samples: int) -> np.ndarray:
    """Return a channel that lags by so many degrees of a cycle of so many samples."""
    place = np.arange(len(values))
    return np.interp(place - degrees / 360.0 * samples, place, values, period=len(values) - 1)


def test_a_blank_takes_a_phase_off() -> None:
    """Charge 1° late adds 4.36 % (the reactive power of the first harmonic × π/180).

    A record below ignition, where the tube is a mere 40 pF, takes it off again.
    """
    time, voltage, charge = tube(cycles=6, samples=720)
    quiet = 3e3 * np.sin(2e3 * np.pi * time)
    loop = csv(time, voltage, late(charge, 1.0, 720))
    blank = csv(time, quiet, late(40e-12 * quiet, 1.0, 720))
    ratio = {"probe": "1 ± 1 %"}
    wrong = asked(loop=loop, **ratio)
    assert value(wrong.discharge) == pytest.approx(TRUE * 1.0436, rel=0.01)
    assert "power-phase" in codes(wrong)
    mended = asked(loop=loop, blank=blank, **ratio)
    assert value(mended.discharge) == pytest.approx(TRUE, rel=3e-3)
    assert mended.loop is not None
    assert value(mended.loop.energy) == pytest.approx(TRUE / 1e3, rel=3e-3)
    assert "power-blank" in codes(mended)
    assert "power-phase" not in codes(mended)
    slow = csv(2.0 * time, quiet, late(40e-12 * quiet, 1.0, 720))
    assert "power-blank-frequency" in codes(asked(loop=loop, blank=slow, **ratio))


def test_what_a_blank_is_refused_for() -> None:
    ratio = {"probe": "1 ± 1 %"}
    time, voltage, charge = tube(cycles=4, samples=300)
    loop = csv(time, voltage, charge)
    assert "blank: the blank is no blank" in refused(loop=loop, blank=loop, **ratio)
    assert "loop: a blank is taken off a loop" in refused(blank=loop, **ratio)
    other = csv(time, voltage, charge, "sense (V)")
    assert "blank: loop and blank are not of one kind" in refused(loop=loop, blank=other, **ratio)
    assert "blank: the record has no column" in refused(loop=loop, blank="x", **ratio)
    bad = "time (s),voltage (V),charge (C)\n0,1,1\n1,x,1\n"
    assert "blank.line 3" in refused(loop=loop, blank=bad, **ratio)


def test_a_soft_gap_beside_the_integral_of_voltage_and_current() -> None:
    """A gap that conducts softly above 2.5 kV, integrated by scipy with ∫ v i dt beside it."""
    turn, dielectric, gap, top = 4e4 * np.pi, 300e-12, 80e-12, 6e3

    def rates(t: float, y: np.ndarray) -> list[float]:
        conducts = np.sign(y[0]) * np.logaddexp(0.0, (abs(y[0]) - 2500.0) / 60.0) * 60.0 / 30e3
        rise = top * turn * np.cos(turn * t)
        across = (dielectric * rise - conducts) / (dielectric + gap)
        current = dielectric * (rise - across)
        return [across, current, top * np.sin(turn * t) * current]

    times = np.linspace(0.0, 7.0 / 2e4, 3501)
    solved = solve_ivp(rates, (0.0, times[-1]), [0.0, 0.0, 0.0], method="LSODA", rtol=1e-8,
                       atol=1e-14, t_eval=times, max_step=2e-7)  # fmt: skip
    kept = slice(1500, None)
    expected = (solved.y[2][-1] - solved.y[2][1500]) / (times[-1] - times[1500])
    text = csv(times[kept], top * np.sin(turn * times[kept]), solved.y[1][kept])
    found = asked(loop=text, probe="1 ± 1 %")
    assert value(found.discharge) == pytest.approx(expected, rel=1e-3)
    assert codes(found) >= {"power-rounded", "power-unlike-manley"}
