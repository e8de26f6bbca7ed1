"""The report as a single file: clean for a screen reader, quiet, never wider than the window."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser

from browser.conftest import AXE
from cli.test_report import REACTION, RIG
from cli.test_report_further import write
from cli.typed import run
from ozonewright.bench.notebook import add_table
from ozonewright.notebook import Notebook
from web.in_process import run_table

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The report of a run, two rigs and a reaction, and of settings asked everything."""
    folder = tmp_path_factory.mktemp("report")
    write(folder / "b.sqlite")
    with Notebook.open(folder / "b.sqlite") as notebook:
        table = run_table("C1", "240 s ± 1.5 s", "28.46 mL", remark="x" * 300)
        for one in (table, RIG, RIG | {"rig": RIG["rig"] | {"label": "second"}}, REACTION):
            add_table(notebook, one)
    out = folder / "b.html"
    done = run("report", "--notebook", str(folder / "b.sqlite"), "--out", str(out),
               "--only", "all")  # fmt: skip
    assert done.returncode == 0
    return out


def test_the_single_file_is_clean_quiet_and_fits(browser: Browser, width: int, file: Path) -> None:
    page = browser.new_page(viewport={"width": width, "height": 844})
    asked: list[str] = []
    said: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.on("console", lambda message: said.append(message.text))
    page.add_init_script(path=AXE)
    page.goto(file.as_uri())
    found = page.evaluate("axe.run()")
    assert [f"{one['id']}: {one['nodes'][0]['html'][:160]}" for one in found["violations"]] == []
    assert asked == [file.as_uri()]
    assert said == []
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    page.close()
