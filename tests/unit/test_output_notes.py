"""What may have moved a result: each note fires where it should, and stays quiet where not."""

from __future__ import annotations

from typing import Any

import pytest

from ozonewright.bench.output import outputs
from ozonewright.questions.output import Output
from ozonewright.show.words import sentence, words_of
from ozonewright.show.words.output import SENTENCES
from unit.documents_of_runs import acid, bottles, full, least


def answer(table: dict[str, Any]) -> Output:
    return outputs([table])[0]


def codes(table: dict[str, Any]) -> set[str]:
    return {note.code for note in answer(table).notes}


FIRES: list[tuple[str, dict[str, Any]]] = [
    ("no-blank", full(titration__blank=None)),
    ("burette-refilled", full(titration__titres=["58.46 mL", "1.02 mL"])),
    ("titre-small", full(titration__titres=["8.46 mL", "1.02 mL"])),
    ("burette-class-unknown", full(titration__burette="50 mL")),
    ("titre-below-blank", full(titration__titres=["28.46 mL", "0.02 mL"])),
    ("temperature-unknown", full()),
    ("no-guard", least()),
    ("guard-high", full(titration__titres=["28.46 mL", "3.02 mL"])),
    ("iodide-low", full(absorber__bottles=bottles({"potassium_iodide": "0.8 g"}, {}))),
    ("iodide-spent", full(absorber__bottles=bottles({"potassium_iodide": "0.2 g"}, {}))),
    ("frit-in-iodide", full(absorber__bottles=bottles({"sparger": "frit"}, {}))),
    ("acid-unknown", full(absorber__acid=None)),
    ("acid-before", full(absorber__acid=acid(when="before"))),
    ("acid-when-unknown", full(absorber__acid={k: v for k, v in acid().items() if k != "when"})),
    ("acid-short", full(absorber__acid=acid(kind="acetic acid"))),
    ("acid-short", full(absorber__acid=acid(amount="0.5 mL"))),
    ("purity-unknown", full()),
    ("titrant-old", full(titration__titrant__standardised="2026-04-09")),
    ("titrant-later", full(titration__titrant__standardised="2026-05-19")),
    ("standard-blank-none", full()),
    ("flow-high", full(gas__flow="1.5 L/min")),
    ("total-far", full(titration__titres=["2.00 mL", "0.20 mL"])),
    ("nitrite", full(gas__feed="dry air")),
    ("nitrite", full(gas__feed="room air")),
    ("feed-dry", full(gas__feed=None)),
    ("readings-only", full()),
    ("above-enthalpy-limit", full(electrical__power="0.4 W")),
    ("yield-doubtful", full(electrical__power="2 W")),
    ("more-ozone-than-oxygen", full(gas__flow="0.004 L/min")),
    ("typed-factor-two", full(run__collected="71.2 mg")),
    ("typed-hydrate", full(run__collected="55.9 mg")),
    ("typed-minutes-seconds", full(run__rate="32.1 g/h")),
    ("typed-mg-per-min-as-g-per-h", full(run__rate="8.905 g/h")),
    ("typed-differs", full(run__collected="40 mg")),
    ("guard-above-first", full(titration__titres=["1.02 mL", "28.46 mL"])),
    ("on-time-short", full(run__on_time="4 s")),
    # 35.6 mg in 4 min is 8.9 mg/min
    (
        "typed-mg-per-min-as-g-per-h",
        {"run": {"on_time": "4 min 0 s", "collected": "35.6 mg", "rate": "8.9 g/h"}},
    ),
]
QUIET: list[tuple[str, dict[str, Any]]] = [
    *(
        (code, full())
        for code in (  # noqa: SIM905
            "no-blank burette-refilled titre-small burette-class-unknown titre-below-blank "
            "no-guard guard-high iodide-low iodide-spent frit-in-iodide acid-unknown acid-before "
            "acid-when-unknown acid-short titrant-old titrant-later flow-high total-far nitrite "
            "feed-dry above-enthalpy-limit yield-doubtful more-ozone-than-oxygen typed-factor-two "
            "typed-hydrate typed-minutes-seconds typed-mg-per-min-as-g-per-h typed-differs "
            "iodine-carried iodine-carried-guarded rotameter-scale moisture-unknown"
        ).split()
    ),
    ("typed-differs", full(run__collected="35.6 mg")),
    (
        "typed-differs",
        {"run": {"on_time": "4 min 0 s", "collected": "35.6 mg", "rate": "0.534 g/h"}},
    ),
    ("guard-above-first", full()),
    ("guard-high", full(titration__titres=["1.02 mL", "28.46 mL"])),
    ("on-time-short", full()),
    ("on-time-short", full(run__on_time="30 s")),
    ("temperature-unknown", full(titration__temperature="20 °C")),
    ("purity-unknown", full(titration__titrant__purity="99.95 % ± 0.05 points")),
    ("standard-blank-none", full(titration__titrant__blank="0.02 mL")),
    ("titrant-old", full(titration__titrant__standardised="2026-05-08")),
    ("readings-only", full(run__discharge="off")),
    ("no-blank", full(run__discharge="off", titration__blank=None)),
    ("no-guard", full(run__discharge="off", titration__titres=["0.20 mL"], absorber__bottles=None)),
    ("guard-high", full(run__discharge="off", titration__titres=["0.20 mL", "0.21 mL"])),
]


@pytest.mark.parametrize(("code", "table"), FIRES)
def test_note_fires(code: str, table: dict[str, Any]) -> None:
    assert code in codes(table)


@pytest.mark.parametrize(("code", "table"), QUIET)
def test_note_stays_quiet(code: str, table: dict[str, Any]) -> None:
    assert code not in codes(table)


def test_iodine_carried_off_is_told_with_its_size() -> None:
    """Iodide nearly spent and 40 min of gas: most iodine is free, some per cent a minute go."""
    lean = bottles({"potassium_iodide": "0.26 g"}, {})
    table = full(absorber__bottles=lean, run__on_time="2400 s ± 2 s")
    (note,) = (note for note in answer(table).notes if note.code.startswith("iodine-carried"))
    assert note.code == "iodine-carried-guarded"
    assert note.values["share"] > 0.05


def test_iodine_is_carried_off_by_a_normal_flow_too() -> None:
    """0.7402 NL/min at 101.3 kPa and 22 °C is the 0.80 L/min of the worked run (design, 4)."""
    lean = bottles({"potassium_iodide": "0.26 g"}, {})
    table = full(absorber__bottles=lean, run__on_time="2400 s ± 2 s")
    mass = full(
        absorber__bottles=lean,
        run__on_time="2400 s ± 2 s",
        gas__flow="0.7402 NL/min",
        gas__meter={"kind": "mass"},
    )
    one, other = (
        next(note for note in answer(given).notes if note.code == "iodine-carried-guarded")
        for given in (table, mass)
    )
    assert one.values["share"] == pytest.approx(other.values["share"], rel=1e-3)


def test_every_note_has_words() -> None:
    for _, table in FIRES:
        for note in (*answer(table).notes, *answer(table).next, *answer(table).working):
            assert sentence(note)


def test_no_note_of_the_output_begins_with_the_name_of_another_file_of_words() -> None:
    for code in SENTENCES:
        assert words_of(code) is SENTENCES[code]
