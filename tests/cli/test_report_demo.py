"""The demo's notebook: command, page, paper, file and JSON tell the same numbers and words."""

from __future__ import annotations

import json
import re
from html import unescape
from pathlib import Path

import pdfplumber
import pytest

from cli.typed import run
from ozonewright.notebook import Notebook
from web.in_process import client_of

pytestmark = pytest.mark.slow


def bare(text: str) -> str:
    return re.sub(r"[\s\u00a0\u200b]+", "", unescape(re.sub("<[^>]+>", "", text)))


def test_the_demo_reads_alike_everywhere(tmp_path: Path) -> None:
    assert run("demo", str(tmp_path / "demo")).returncode == 0
    book = tmp_path / "demo" / "demo.sqlite"
    told = ("--notebook", str(book))
    for out in ("all.pdf", "all.html"):
        assert run("report", *told, "--out", str(tmp_path / out)).returncode == 0
    with pdfplumber.open(tmp_path / "all.pdf") as pages:
        paper = bare(" ".join(one.extract_text() for one in pages.pages))
    file = bare((tmp_path / "all.html").read_text(encoding="utf-8"))
    found = json.loads(run("output", *told, "--json").stdout)["runs"]
    typed = bare(run("output", *told).stdout)
    with client_of(book, tmp_path) as client, Notebook.open(book, read_only=True) as notebook:
        ids = {entry.label: entry.id for entry in notebook.entries()}
        settings = notebook.settings()
        for one in found:
            if one["discharge"] == "off":
                continue
            value, u = one["rate_g_per_h"], one["u_rate_g_per_h"]
            decimals = 5 if u < 0.00095 else 4
            shown = bare(f"{value:.{decimals}f} ± {u:.{decimals}f} g/h")
            page = bare(client.get(f"/run/{ids[one['label']]}").text)
            for line in one["working"]:
                assert bare(line[1:]) in paper
                assert bare(line[1:]) in page
            for place in (typed, paper, file, page):
                assert shown in place
        for name in settings:
            answer = run("output", *told, "--setting", name).stdout.partition("\n")[0]
            number = bare(answer.removeprefix(f"{name}: ").partition(" (")[0])
            page = bare(client.get("/setting", params={"name": name}).text)
            for place in (paper, file, page):
                assert number in place
        plan = bare(client.get(f"/reaction/{ids['vanillin, second lot']}").text)
    marks = re.search(r"look from (\d+); stop by (\d+)", run(
        "reaction", *told, "vanillin, second lot").stdout)  # fmt: skip
    assert marks
    for place in (paper, file, plan):
        assert f"Lookfrom{marks[1]}min;stopby{marks[2]}min." in place
