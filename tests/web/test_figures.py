"""A figure of a page can be saved as it stands, with the numbers it was drawn from."""

from __future__ import annotations

import csv
import io
import json
import re
from base64 import b64decode
from pathlib import Path
from xml.etree import ElementTree

import pytest

from cli.typed import run
from ozonewright.bench.notebook import add_table
from ozonewright.notebook import Notebook
from web.in_process import SETTING, client_of, run_table

EVIL = "=cmd()<b>"
SAVED = re.compile(r'<a href="data:([a-z/+]+);base64,([A-Za-z0-9+/=]+)" download="([a-z0-9.-]+)">')


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two settings; one run of a hostile name."""
    file = tmp_path_factory.mktemp("book") / "bench.sqlite"
    with Notebook.create(file, "bench") as notebook:
        for table in (
            run_table("C1", "240 s ± 1.5 s", "28.46 mL"),
            run_table("C2", "480 s ± 1.5 s", "56.02 mL"),
            run_table(EVIL, "120 s ± 1.5 s", "14.09 mL"),
            run_table("A1", "240 s", "9.40 mL", setting="air"),
            run_table("A2", "480 s", "18.70 mL", setting="air"),
        ):
            add_table(notebook, table)
    return file


@pytest.mark.parametrize(
    ("path", "count"),
    [
        (f"/setting?name={SETTING}", 1),
        (f"/compare?first={SETTING}&second=air", 1),
        (f"/drift?setting={SETTING}", 2),
    ],
)
def test_figures_are_saved_as_picture_and_numbers(
    book: Path, tmp_path: Path, path: str, count: int
) -> None:
    with client_of(book, tmp_path) as client:
        page = client.get(path).text
    found = SAVED.findall(page)
    assert page.count("<figure>") == len(found) / 2 >= count
    for kind, text, name in found:
        content = b64decode(text).decode()
        if kind == "image/svg+xml":
            assert name.endswith(".svg")
            assert ElementTree.fromstring(content).tag == "{http://www.w3.org/2000/svg}svg"
            assert "var(--" not in content
        else:
            assert name.endswith(".csv")
            head, *rows = csv.reader(io.StringIO(content))
            assert any("/ " in cell for cell in head)
            assert rows
            assert not [cell for row in rows for cell in row if cell.startswith("=")]
            assert f"'{EVIL}" in content or "next-titres" in name


def test_the_numbers_saved_are_those_of_the_answer(book: Path, tmp_path: Path) -> None:
    told = json.loads(run("output", "--notebook", str(book), "--json").stdout)["runs"]
    with client_of(book, tmp_path) as client:
        page = client.get(f"/setting?name={SETTING}").text
    numbers = next(text for kind, text, _ in SAVED.findall(page) if kind == "text/csv")
    rows = {row["run"]: row for row in csv.DictReader(io.StringIO(b64decode(numbers).decode()))}
    for one in told:
        if one["label"] in ("C1", "C2"):
            row = rows[one["label"]]
            assert float(row["ozone / mg"]) == pytest.approx(one["ozone_mg"], rel=1e-5)
            assert float(row["on-time / min"]) == pytest.approx(one["on_time_s"] / 60.0)
