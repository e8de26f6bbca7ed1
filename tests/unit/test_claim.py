"""A label beside a run: shares, implied yield and strength by hand, verdicts, words."""

from __future__ import annotations

from typing import Any

import pytest

from ozonewright.bench.claim import claim_of_files, claim_of_setting
from ozonewright.errors import Faults, InputError, MissingValue, NotFound
from ozonewright.notebook import Notebook
from ozonewright.questions.claim import Claim
from ozonewright.references.yields import published
from ozonewright.show.claim import band_text, claim_text
from ozonewright.show.words import sentence
from ozonewright.units import Kind, number
from unit.documents_of_runs import full, least


def ask(label: str = "4 g/h", **changes: Any) -> Claim:
    return claim_of_files([full(**changes)], label)


def codes(found: Claim) -> set[str]:
    return {note.code for note in (*found.notes, *found.next)}


def test_what_the_label_means_by_hand() -> None:
    """0.5343 g/h of 4 is 13.36 %; 4 g/h ÷ 41 W = 97.56 g/kWh.

    Feed 0.80 L/min at 22 °C and 101.3 kPa: 0.8 × 273.15/295.15 × 101.3/101.325 = 0.7402 NL/min,
    0.5504 mmol/s; 92 % O2, 4 % N2, 4 % Ar weigh 32.16 g/mol, 17.70 mg/s. Ozone 4 g/h = 1.1111 mg/s
    = 23.15 µmol/s: 6.28 wt%; oxygen needed 34.72 of 506.3 µmol/s, 6.86 %.
    """
    found = ask()
    assert found.share is not None
    assert found.share.value == pytest.approx(0.1336, abs=1e-4)
    assert found.label_yield is not None
    assert number(found.label_yield.value, Kind.YIELD, "g/kWh") == pytest.approx(97.56, abs=0.01)
    assert found.energy_yield is not None
    assert number(found.energy_yield.value, Kind.YIELD, "g/kWh") == pytest.approx(13.03, abs=0.01)
    assert found.label_fraction is not None
    assert found.label_fraction.value == pytest.approx(0.0628, abs=1e-4)
    assert found.oxygen_share is not None
    assert found.oxygen_share.value == pytest.approx(0.0686, abs=1e-4)
    assert found.verdict == "not at this setting"


def test_the_energy_limit_is_the_published_one() -> None:
    """1219.0 g/kWh for 141.749 kJ/mol (case G-01)."""
    found = ask()
    assert number(found.yield_limit or 0.0, Kind.YIELD, "g/kWh") == pytest.approx(1219.0, abs=0.1)


@pytest.mark.parametrize(
    ("label", "verdict"),
    [
        ("0.534 g/h", "as the label"),
        ("0.60 g/h", "not at this setting"),
        ("400 mg/h", "more than the label"),
        # 41 W × 1219 g/kWh = 49.98 g/h; the plug is read to the watt
        ("45 g/h", "not at this setting"),
        ("55 g/h", "beyond the energy put in"),
    ],
)
def test_verdicts(label: str, verdict: str) -> None:
    assert ask(label).verdict == verdict


def test_a_label_that_needs_more_oxygen_than_is_fed() -> None:
    """At 0.10 L/min of dry air oxygen is 0.0925 NL/min × 0.2095 = 14.4 µmol/s: 1.66 g/h at most."""
    found = ask("4 g/h", gas__feed="dry air", gas__flow="0.10 L/min ± 4 %")
    assert found.verdict == "beyond the oxygen fed"
    assert "claim-beyond-the-oxygen-fed" in codes(found)


def test_bands_stand_beside_the_feed_of_the_run() -> None:
    oxygen = {band.name: band for band in ask().bands}
    assert oxygen["large plant on oxygen"].label == "inside"
    assert oxygen["small air-cooled tube on oxygen"].measured == "inside"
    assert oxygen["small air-cooled tube on oxygen"].evidence == "memory"
    assert not any("air" in name.split() for name in oxygen if "tube on" not in name)
    air = {band.name for band in ask(gas__feed="dry air").bands}
    assert "volume discharge on untreated air" in air
    assert air.isdisjoint(oxygen)
    unknown = ask(gas__feed=None)
    assert {band.name for band in unknown.bands} == air | set(oxygen)
    assert "claim-feed-unknown" in codes(unknown)


def test_published_figures_are_read_as_printed() -> None:
    """Energies 13, 1199: 67 to 93 g/kWh; Appl. Sci. 13, 7001: 9.66 g/kWh."""
    bands = {band.name: band for band in ask(gas__feed="dry air").bands}
    assert band_text(bands["volume discharge on untreated air"]) == "67 to 93 g/kWh"
    assert band_text(bands["surface discharge in still air"]) == "9.66 g/kWh"
    assert all(one.low <= one.high for one in published())


def test_what_is_not_known_is_left_out_and_named() -> None:
    found = claim_of_files([least()], "4 g/h")
    assert found.label_yield is found.label_fraction is found.oxygen_share is None
    assert found.unknowns == ("electrical.power", "gas.flow", "gas.feed")
    assert {"claim-type-more", "claim-slip-unknown"} <= codes(found)
    assert all(band.label is None for band in found.bands)


def test_a_run_that_can_not_be_true_judges_no_label() -> None:
    found = ask(run__on_time="2 s")
    assert found.verdict == "mend the run first"
    assert "claim-mend-run" in codes(found)
    assert "claim-ask" not in codes(found)


def test_power_at_the_discharge_is_told() -> None:
    assert "claim-not-at-plug" in codes(ask(electrical__at="discharge"))


def test_several_runs_of_a_setting_are_meant_together() -> None:
    runs = [
        full(run__label=f"C{place}", titration__titres=[f"{titre} mL", "1.02 mL"])
        for place, titre in enumerate((28.40, 28.46, 28.52))
    ]
    found = claim_of_files(runs, "4 g/h")
    assert found.runs == 3
    assert "claim-one-run" not in codes(found)
    assert "claim-repeat" not in codes(found)
    (note,) = (note for note in found.notes if note.code == "claim-last-run")
    assert "last run, C2" in sentence(note)
    # mean 0.5343 g/h over 41 W
    assert found.energy_yield is not None
    assert number(found.energy_yield.value, Kind.YIELD, "g/kWh") == pytest.approx(13.03, abs=0.01)


def test_no_word_accuses() -> None:
    for found in (ask(), ask("55 g/h"), ask("4 g/h", gas__flow="0.10 L/min ± 4 %")):
        text = claim_text(found).lower()
        for word in ("false", "lie ", "lying", "fraud", "mislead", "cheat", "fake", "exaggerat"):
            assert word not in text
        assert all(sentence(note) for note in (*found.notes, *found.next, *found.working))


@pytest.mark.parametrize(
    ("label", "fault"),
    [(None, MissingValue), ("", MissingValue), ("4", InputError), ("0 g/h", InputError),
     ("4 g", InputError), ("-4 g/h", InputError)],
)  # fmt: skip
def test_a_label_that_is_none(label: str | None, fault: type[Exception]) -> None:
    with pytest.raises(fault) as told:
        claim_of_files([full()], label)
    assert told.value.where == "label"  # type: ignore[attr-defined]


def test_runs_of_two_settings_and_of_none() -> None:
    with pytest.raises(InputError, match="one setting"):
        claim_of_files([full(), full(run__setting="other")], "4 g/h")
    with pytest.raises((MissingValue, Faults), match="no run here has an output"):
        claim_of_files([full(run__discharge="off")], "4 g/h")


def test_a_setting_of_a_notebook(tmp_path: Any) -> None:
    with Notebook.create(tmp_path / "b.sqlite", "invented") as notebook:
        with pytest.raises(NotFound):
            claim_of_setting(notebook, "concentrator 0.8 L/min", "4 g/h")
        notebook.add("run", full())
        found = claim_of_setting(notebook, "concentrator 0.8 L/min", "4 g/h")
        assert found.verdict == "not at this setting"
        with pytest.raises(NotFound):
            claim_of_setting(notebook, "concentrator", "4 g/h")
