"""The shipped tables, constants, tolerances, bibliography and the loader of the cases."""

from __future__ import annotations

import re
from math import isclose, isnan, nan
from pathlib import Path

import pytest

from ozonewright.errors import DataError, NoDataInRange, UnknownSource, UnknownSubstance
from ozonewright.references import constant, limit, source, sources_page, tolerance
from ozonewright.references import constants as c
from ozonewright.references.acids import acid, acids
from ozonewright.references.cases import cases, read_cases
from ozonewright.references.glassware import capacities, pieces
from ozonewright.references.limits import TABLES as LIMIT_TABLES
from ozonewright.references.sources import MEANING, bibliography
from ozonewright.references.tables import EVIDENCE, FOLDER, column_units, rows
from ozonewright.units import Kind

ROOT = Path(__file__).parents[2]
TABLES = sorted(path.stem for path in FOLDER.glob("*.csv"))


@pytest.mark.parametrize("table", TABLES)
def test_every_row_is_complete(table: str) -> None:
    units = column_units(table)
    assert set(units) >= {"source", "locator", "evidence", "note"}
    assert "u" in units or set(units.values()) <= {"-", "1"}, "figures come with their u"
    assert all(units.values())
    for row in rows(table):
        assert None not in row, f"{table}: too many cells in {row}"
        assert None not in row.values(), f"{table}: too few cells in {row}"
        assert row["evidence"] in EVIDENCE
        assert row["locator"]
        assert row.get("u", "no figure")
        if row["source"]:
            assert source(row["source"]).key == row["source"]
        else:
            assert row["locator"] == "no source"
            assert row["evidence"] in ("common practice", "memory", "invented")
        if row["evidence"] == "memory":
            assert "from memory" in row["note"], f"{table}: {row}"


@pytest.mark.parametrize("table", ["constants", "limits_procedure", "acids"])
def test_names_are_unique(table: str) -> None:
    listed = [row["name"] for row in rows(table)]
    assert len(listed) == len(set(listed))


def test_a_source_read_from_memory_gives_no_published_figure() -> None:
    entries = [row for table in TABLES for row in rows(table) if row["source"]]
    for row in entries:
        if bibliography()[row["source"]].read == "memory":
            assert row["evidence"] in ("memory", "common practice"), row


def test_constants_are_si_and_carry_their_source() -> None:
    assert c.R == 8.314462618
    assert c.NORMAL_PRESSURE == 101325.0
    assert isclose(c.NORMAL_MOLAR_VOLUME, 0.02241397, rel_tol=1e-6)
    assert constant("R").source == "tiesinga_2021"
    assert constant("O3_FORMATION_ENTHALPY").value == 141749.0
    assert constant("O3_FORMATION_ENTHALPY_NASA").u is None
    assert constant("M_O3").printed == 47.997


@pytest.mark.parametrize(
    ("name", "grams"),
    [
        ("M_O3", 47.997),
        ("M_KIO3", 213.9998),
        ("M_K2CR2O7", 294.1818),
        ("M_KI", 166.0028),
        ("M_NA2S2O3_5H2O", 248.172),
        ("M_O2", 31.998),
    ],
)
def test_molar_masses_match_the_printed_ones(name: str, grams: float) -> None:
    assert isclose(constant(name).value, grams * 1e-3, abs_tol=0.00006e-3 * 10)
    assert constant(name).value == getattr(c, name)


def test_a_shared_atomic_weight_counts_as_one_input() -> None:
    assert isclose(constant("M_O3").u or 0.0, 3.0 * (constant("A_O").u or 0.0))


def test_every_module_constant_has_a_datum_of_the_same_value() -> None:
    derived = {"NORMAL_MOLAR_VOLUME", "REFERENCE_TEMPERATURE"}
    for name, value in vars(c).items():
        if name.isupper() and isinstance(value, float) and name not in derived:
            assert constant(name).value == value
    assert set(c.names()) >= {row["name"] for row in rows("constants")}


def test_unknown_constant_names_the_nearest() -> None:
    with pytest.raises(UnknownSubstance, match="M_KI"):
        constant("M_K")


def test_tolerance_of_a_burette() -> None:
    found = tolerance("burette", 50e-6, "A")
    assert isclose(found.value, 0.05e-6)
    assert (found.source, found.evidence, found.kind) == ("iso_385_2005", "published", Kind.VOLUME)
    assert tolerance("burette", 50e-6, "AS") is found


@pytest.mark.parametrize("standard", ["ISO", "ASTM"])
@pytest.mark.parametrize("piece", pieces())
def test_class_b_is_twice_class_a(piece: str, standard: str) -> None:
    assert capacities(piece, "A", standard) == capacities(piece, "B", standard)
    limits = []
    for capacity in capacities(piece, "A", standard):
        strict = tolerance(piece, capacity, "A", standard).value
        assert isclose(tolerance(piece, capacity, "B", standard).value, 2.0 * strict)
        limits.append(strict)
    assert limits == sorted(limits)


def test_the_standards_differ_for_flasks() -> None:
    assert isclose(tolerance("flask", 100e-6, "A").value, 0.10e-6)
    assert isclose(tolerance("flask", 100e-6, "A", "ASTM").value, 0.08e-6)


def test_unknown_capacity_names_the_nearest() -> None:
    with pytest.raises(NoDataInRange, match=r"10 mL, 25 mL, 50 mL") as told:
        tolerance("burette", 30e-6, "A")
    assert told.value.got == "30 mL"


@pytest.mark.parametrize(
    ("piece", "grade", "standard"),
    [("buret", "A", "ISO"), ("burette", "C", "ISO"), ("burette", "A", "DIN")],
)
def test_unknown_glassware_is_refused(piece: str, grade: str, standard: str) -> None:
    with pytest.raises(NoDataInRange):
        tolerance(piece, 50e-6, grade, standard)


def test_limits_are_si() -> None:
    assert isclose(limit("FLOW_HIGH").value, 1e-3 / 60.0)
    assert isclose(limit("BURETTE_LOW").value, 0.30)
    assert limit("GUARD_SHARE_HIGH").evidence == "common practice"
    assert all(limit(row["name"]).name for table in LIMIT_TABLES for row in rows(table))
    with pytest.raises(NoDataInRange, match="FLOW_HIGH"):
        limit("FLOW_HIG")


def test_acids_have_their_strongest_proton_first() -> None:
    for entry in acids().values():
        assert list(entry.pK) == sorted(entry.pK)
    assert acid("sulfuric acid").pK == (-3.0, 1.99)
    with pytest.raises(UnknownSubstance, match="sulfuric acid"):
        acid("sulphuric acid")


def test_bibliography_is_complete() -> None:
    numbers = [entry.doi or entry.isbn for entry in bibliography().values()]
    given = [number for number in numbers if number]
    assert len(given) == len(set(given))
    for key, entry in bibliography().items():
        assert re.fullmatch(r"[a-z0-9_]+", key)
        assert entry.read in MEANING
        assert entry.authors
        assert entry.where


def test_unknown_source_names_the_nearest() -> None:
    with pytest.raises(UnknownSource, match="iso_385_2005"):
        source("iso_385_2006")


def test_every_source_is_used() -> None:
    used = {row["source"] for table in TABLES for row in rows(table)}
    used |= {case.source for case in cases()}
    code = "\n".join(
        path.read_text(encoding="utf-8") for path in sorted((ROOT / "src").rglob("*.py"))
    )
    idle = [key for key in bibliography() if key not in used and not re.search(rf"\b{key}\b", code)]
    assert idle == []


def test_a_source_prints_what_identifies_it() -> None:
    assert str(source("din_1990")).startswith("Deutsches Institut für Normung (1990): DIN 1343")
    assert "(" not in str(source("sac_undated")).split(":")[0]


def test_the_sources_page_is_fresh() -> None:
    assert (ROOT / "docs" / "sources.md").read_text(encoding="utf-8") == sources_page()


def test_cases_are_read_with_their_tolerances() -> None:
    found = {case.id: case for case in cases()}
    check = found["I-01"].checks[0]
    assert (check.value, check.unit, check.tolerance) == (24.0, "mg", 0.005)
    assert check.agrees(23.9985)
    assert not check.agrees(23.99)
    assert not check.agrees(nan)
    assert isnan(nan)
    relative = found["I-08"].checks[0]
    assert isclose(relative.tolerance, 6.696e-8)


def test_a_case_from_memory_says_so() -> None:
    for case in cases():
        if case.evidence == "memory":
            assert "from memory" in case.note, case.id


def test_no_case_rests_published_on_memory_alone() -> None:
    for case in cases():
        if source(case.source).read == "memory" and case.evidence == "published":
            assert case.source in ("stoichiometry", "tiesinga_2021"), case.id


GOOD = """
[[case]]
id = "X-1"
subject = "iodometry.rate"
inputs = { ozone = "1 mg", on_time = "1 h" }
expected = { rate = "1 mg/h" }
tolerance = "1e-6 relative"
why = "exact"
source = "stoichiometry"
locator = "definition"
evidence = "published"
kind = "D"
"""


def test_a_good_case_is_read(tmp_path: Path) -> None:
    path = tmp_path / "good.toml"
    path.write_text(GOOD, encoding="utf-8")
    assert read_cases(path)[0].checks[0].unit == "mg/h"


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('locator = "definition"\n', "", "without locator"),
        ('locator = "definition"', 'locator = " "', "without locator"),
        ('source = "stoichiometry"\n', "", "without source"),
        ('source = "stoichiometry"', 'source = "stochiometry"', "no such key"),
        ('why = "exact"\n', "", "without why"),
        ('tolerance = "1e-6 relative"\n', "", "without tolerance"),
        ('"1e-6 relative"', '"1e-6 mg"', "not in its unit"),
        ('"1e-6 relative"', '"0 relative"', "not above zero"),
        ('"1e-6 relative"', '{ rat = "1e-6 relative" }', "different figures"),
        ('"1 mg/h"', '"one mg/h"', "no number"),
        ('kind = "D"', 'kind = "X"', "unknown kind"),
        ('"published"', '"certain"', "unknown evidence"),
        ('kind = "D"', 'kind = "D"\nsorce = "x"', "unknown entries"),
    ],
)
def test_a_planted_bad_case_is_refused(tmp_path: Path, old: str, new: str, told: str) -> None:
    assert old in GOOD
    path = tmp_path / "bad.toml"
    path.write_text(GOOD.replace(old, new), encoding="utf-8")
    with pytest.raises(DataError, match=told) as error:
        read_cases(path)
    assert error.value.fix


def test_two_cases_may_not_share_an_id(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "cases").mkdir()
    (tmp_path / "cases" / "twice.toml").write_text(GOOD + GOOD, encoding="utf-8")
    monkeypatch.setattr("ozonewright.references.cases.FOLDER", tmp_path)
    with pytest.raises(DataError, match="share an id"):
        cases.__wrapped__()
