"""Photometric assays: published figures by hand, what is told, what is refused."""

from __future__ import annotations

import tomllib
from typing import Any

import numpy as np
import pytest
from scipy.constants import Avogadro

from ozonewright.bench.output import outputs
from ozonewright.errors import AppError, Faults
from ozonewright.physics.assay.photometry import (
    absorption_coefficient,
    concentration_from_absorbance,
    cross_section,
    iodine_from_triiodide,
    ozone_fraction_from_absorbance,
    ozone_from_indigo,
    ozone_rate_from_fraction,
)
from ozonewright.questions.output import Output
from ozonewright.references.constants import (
    O3_ABSORPTIVITY_1961,
    O3_ABSORPTIVITY_2019,
)
from ozonewright.results import plain
from ozonewright.show.output import output_text
from ozonewright.show.words import sentence

GAS = """
[gas]
feed = { oxygen = "92 vol%", nitrogen = "4 vol%", argon = "4 vol%" }
flow = "0.80 L/min ± 4 %"
temperature = "22 °C"
pressure = "101.3 kPa"
"""
CELL = """
[run]
label = "U1"
on_time = "240 s ± 1.5 s"
[ultraviolet]
absorbance = "0.690 ± 0.005"
path = "1.00 mm ± 0.005 mm"
temperature = "0 °C"
pressure = "101.325 kPa"
"""
YELLOW = """
[run]
on_time = "60 s ± 1 s"
[triiodide]
absorbances = ["0.264"]
blank = "0.000"
path = "1.00 cm"
volume = "50 mL"
"""
INDIGO = """
[run]
[indigo]
blank = "0.900"
absorbance = "0.400"
path = "5.00 cm"
sample = "90 mL"
made_up_to = "100 mL"
"""


def answer(text: str, **changes: Any) -> Output:
    table = tomllib.loads(text)
    for place, value in changes.items():
        section, _, field = place.partition("__")
        if value is None:
            table[section].pop(field)
        else:
            table[section][field] = value
    return outputs([table])[0]


def keys(found: Output) -> dict[str, Any]:
    return plain(found, sentence)


def codes(found: Output) -> set[str]:
    return {note.code for note in found.notes}


def test_absorptivity_is_the_published_cross_section() -> None:
    # 1.1329e-17 cm² (hodges_2019) × N_A ÷ (1000 ln 10) = 2963.0 L/mol/cm
    by_hand = 1.1329e-17 * 1e-4 * Avogadro / np.log(10.0)
    assert pytest.approx(by_hand, rel=1e-4) == O3_ABSORPTIVITY_2019
    # 308 per atm and cm (base e) at 0 °C: ÷ ln 10 × 22 413.97 cm³/mol
    assert pytest.approx(308.0 / np.log(10.0) * 2.241397, rel=1e-4) == O3_ABSORPTIVITY_1961


def test_the_forms_in_which_an_absorptivity_is_printed() -> None:
    # hodges_2019 and 40 CFR 50 print 1.1329e-17 cm² and 304.39, the rule before them 308
    both = np.array([O3_ABSORPTIVITY_2019, O3_ABSORPTIVITY_1961])
    assert cross_section(absorptivity=both) == pytest.approx([1.1329e-21, 1.1464e-21], rel=1e-4)
    pure = absorption_coefficient(absorptivity=both, temperature=273.15, pressure=101325.0)
    assert pure == pytest.approx([30439.0, 30800.0], rel=1e-4)
    one = cross_section(absorptivity=O3_ABSORPTIVITY_2019)
    assert one == pytest.approx(1.1329e-21, rel=1e-4)
    note = next(n for n in answer(CELL).notes if n.code == "photometry-cross-section")
    assert "1.133e-17 cm²" in sentence(note)


def test_fraction_in_a_cell_of_one_centimetre() -> None:
    # 304.39 per atm and cm (base e) at 0 °C: 1 vol% in 1 cm reads 3.0439 ÷ ln 10 = 1.3220
    found = ozone_fraction_from_absorbance(
        absorbance=np.array([1.3220, 0.0]),
        absorptivity=O3_ABSORPTIVITY_2019,
        path=0.01,
        temperature=273.15,
        pressure=101325.0,
    )
    assert found == pytest.approx([0.01, 0.0], rel=1e-4)


def test_ozone_of_a_feed() -> None:
    # 1 mol/s of feed with 0.1 mol of ozone in 1 mol of ozonised gas: 0.1 × (1 − 0.0476) = 0.0952
    found = ozone_rate_from_fraction(mole_fraction=0.1, feed_flow=1.0)
    assert found / (1.0 - found / 2.0) == pytest.approx(0.1)


def test_triiodide_of_the_check_case() -> None:
    # 0.264 in 1 cm at 26 400 L/mol/cm is 1.00e-5 mol/L (awtrey_1951)
    found = concentration_from_absorbance(absorbance=0.264, absorptivity=2640.0, path=0.01)
    assert found == pytest.approx(1.00e-2)


def test_free_iodine_of_the_check_case() -> None:
    # palmer_1984, K = 698: of 5.0 mmol/L iodine in 0.12048 mol/L iodide 1.339 % are free
    bound = 5.0 * (1.0 - 0.01339)
    found = iodine_from_triiodide(triiodide=bound, iodide=120.48 - 5.0, constant=698.0)
    assert found == pytest.approx(5.0, rel=1e-3)


def test_indigo_of_the_standard() -> None:
    # Standard Methods 4500-O3 B: 100 × 0.500 ÷ (0.42 × 5 × 90) = 0.2646 mg/L
    found = ozone_from_indigo(
        bleached=0.500, absorptivity=0.42e5, path=0.05, sample=90e-6, whole=100e-6
    )
    assert found == pytest.approx(0.2646e-3, rel=1e-3)


def test_a_cell_tells_the_concentration_and_with_the_flow_the_output() -> None:
    found = keys(answer(CELL + GAS))
    # 0.690 × ln 10 ÷ (304.39 × 0.1) = 5.220 vol%; × 47.997 ÷ 22.414 = 111.8 g/Nm³
    assert found["fraction_vol_percent"] == pytest.approx(5.220, abs=2e-3)
    assert found["concentration_g_per_nm3"] == pytest.approx(111.8, abs=0.05)
    # feed 33.024 mmol/min × 0.0522 ÷ 1.0261 = 1.6800 mmol/min
    assert found["rate_mmol_per_h"] == pytest.approx(60 * 1.6800, abs=0.05)
    assert found["ozone_mg"] == pytest.approx(4 * 1.6800 * 47.997, abs=0.3)
    # the meter behind the bottles sees the ozonised gas: saturated at 22 °C, 2.645 kPa of water
    behind = answer(CELL + GAS + 'meter = { at = "after bottles" }')
    dry = 33.024 * (101.3 - 2.645) / 101.3
    assert keys(behind)["rate_mmol_per_h"] == pytest.approx(60 * 0.0522 * dry, abs=0.05)


def test_without_flow_only_the_concentration_is_told() -> None:
    found = answer(CELL)
    assert found.rate is None
    assert output_text(found).startswith("U1: 111.8 ± ")
    assert "gas.flow" in found.unknowns
    assert found.next[1].code == "photometry-add-flow"


def test_the_earlier_cross_section_reads_lower() -> None:
    new, old = (
        keys(answer(CELL, ultraviolet__cross_section=year))["concentration_g_per_nm3"]
        for year in ("2019", "1961")
    )
    # 40 CFR 50, final rule of 2023: readings rise by 1.2 %
    assert new / old == pytest.approx(1.012, abs=5e-4)


def test_yellow_bottles_by_hand() -> None:
    # 1.00e-5 mol/L × 50 mL × 47.997 g/mol = 24.0 µg
    assert keys(answer(YELLOW))["ozone_mg"] == pytest.approx(24.0e-3, abs=5e-5)
    diluted = answer(YELLOW, triiodide__aliquot="5.00 mL", triiodide__made_up_to="100 mL")
    assert keys(diluted)["ozone_mg"] == pytest.approx(20 * 24.0e-3, abs=1e-3)
    two = answer(YELLOW, triiodide__absorbances=["0.264", ["0.026", "0.0268"]])
    assert keys(two)["guard_share_percent"] == pytest.approx(100 / 11, abs=0.01)


def test_free_iodine_is_added_where_the_iodide_is_known() -> None:
    # 20 g/L is 0.12048 mol/L; palmer_1984: K = 784.3 at 20 °C, so 1 ÷ (784.3 × 0.1205) = 1.06 %
    bare, whole = (
        keys(found)["ozone_mg"]
        for found in (answer(YELLOW), answer(YELLOW, triiodide__potassium_iodide="20 g/L"))
    )
    assert whole / bare == pytest.approx(1.0106, abs=2e-4)
    warm = answer(YELLOW, triiodide__potassium_iodide="20 g/L", triiodide__temperature="30 °C")
    # K = 623.1 at 30 °C: 1.33 %
    assert keys(warm)["ozone_mg"] / bare == pytest.approx(1.0133, abs=2e-4)


def test_indigo_tells_what_is_dissolved_and_no_output() -> None:
    found = answer(INDIGO)
    assert keys(found)["dissolved_mg_per_l"] == pytest.approx(0.2646, abs=1e-4)
    assert found.rate is None
    assert "output not determined" in output_text(found)


@pytest.mark.parametrize(
    ("code", "found"),
    [
        ("photometry-dark", lambda: answer(CELL, ultraviolet__absorbance="1.8")),
        ("photometry-pale", lambda: answer(CELL, ultraviolet__absorbance="0.02")),
        ("photometry-cross-section", lambda: answer(CELL, ultraviolet__cross_section="1961")),
        ("photometry-no-blank", lambda: answer(YELLOW, triiodide__blank=None)),
        ("photometry-all-bound", lambda: answer(YELLOW)),
        ("photometry-indigo-spent", lambda: answer(INDIGO, indigo__absorbance="0.05")),
        ("photometry-indigo-none", lambda: answer(INDIGO, indigo__absorbance="0.95")),
        ("photometry-negative", lambda: answer(CELL, ultraviolet__absorbance="-0.030 ± 0.005")),
        ("photometry-too-much", lambda: answer(CELL, ultraviolet__path="0.100 mm")),
        ("titre-below-blank", lambda: answer(YELLOW, triiodide__blank="0.300")),
        ("photometry-lone", lambda: answer(INDIGO)),
    ],
)
def test_a_note_fires_and_has_words(code: str, found: Any) -> None:
    result = found()
    assert code in codes(result)
    assert output_text(result)


def test_a_sound_reading_is_left_in_peace() -> None:
    found = codes(answer(CELL + GAS)) | codes(answer(YELLOW, triiodide__potassium_iodide="20 g/L"))
    assert not found & {
        "photometry-dark", "photometry-pale", "photometry-all-bound", "photometry-negative",
        "photometry-too-much", "titre-below-blank",
    }  # fmt: skip
    faint = codes(answer(CELL, ultraviolet__absorbance="-0.004 ± 0.005"))
    assert "photometry-negative" not in faint
    assert not codes(answer(INDIGO)) & {"photometry-indigo-spent", "photometry-indigo-none"}


@pytest.mark.parametrize(
    ("text", "changes", "places"),
    [
        (CELL, {"ultraviolet__path": None}, {"ultraviolet.path"}),
        (CELL, {"ultraviolet__absorbance": "3.5"}, {"ultraviolet.absorbance"}),
        (CELL, {"ultraviolet__cross_section": "1979"}, {"ultraviolet.cross_section"}),
        (YELLOW, {"triiodide__absorbances": []}, {"triiodide.absorbances"}),
        (YELLOW, {"triiodide__absorbances": ["3.2"]}, {"triiodide.absorbances"}),
        (YELLOW, {"triiodide__aliquot": "5 mL"}, {"triiodide.made_up_to"}),
        (YELLOW, {"triiodide__made_up_to": "5 mL"}, {"triiodide.aliquot"}),
        (
            YELLOW,
            {"triiodide__aliquot": "50 mL", "triiodide__made_up_to": "5 mL"},
            {"triiodide.aliquot"},
        ),
        (YELLOW, {"triiodide__volume": ["50 mL", "50 mL"]}, {"triiodide.volume"}),
        (CELL, {"ultraviolet__path": "1 mm"}, {"ultraviolet.path"}),
        (INDIGO, {"indigo__path": "1 cm"}, {"indigo.path"}),
        (INDIGO, {"indigo__blank": "0.0"}, {"indigo.blank"}),
        (INDIGO, {"indigo__blank": "3.1"}, {"indigo.blank"}),
        (INDIGO, {"indigo__sample": "100 mL"}, {"indigo.sample"}),
        (
            CELL + YELLOW.partition("\n[triiodide]")[1] + YELLOW.partition("[triiodide]")[2],
            {},
            {"ultraviolet"},
        ),
    ],
)
def test_faults_are_told_by_their_place(
    text: str, changes: dict[str, Any], places: set[str]
) -> None:
    with pytest.raises(Faults) as caught:
        answer(text, **changes)
    assert {fault.where for fault in caught.value} == places


def test_less_iodide_than_triiodide_is_refused() -> None:
    # 0.264 in 1 cm is 1.00e-5 mol/L: 1.66 mg/L of potassium iodide at the least (awtrey_1951)
    with pytest.raises(AppError, match="more triiodide than the iodide") as caught:
        answer(YELLOW, triiodide__potassium_iodide="1.60 mg/L")
    assert caught.value.where == "triiodide.potassium_iodide"
    assert "0.0017 g/L" in caught.value.fix


def test_a_path_of_one_digit_is_mended_by_more() -> None:
    assert answer(CELL, ultraviolet__path="0.5 mm")
    with pytest.raises(Faults) as caught:
        answer(CELL, ultraviolet__path="1 cm")
    assert "1.00 cm" in next(iter(caught.value)).fix
