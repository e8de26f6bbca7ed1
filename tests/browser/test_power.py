"""Power in the browser: without scripts, at a desk and on a telephone, by screen reader."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from browser.conftest import AXE, Served, start, stop

pytestmark = pytest.mark.browser
LOOP = Path(__file__).resolve().parents[2] / "docs" / "examples" / "loop.csv"


@pytest.fixture(scope="module")
def alone(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """A server without a notebook."""
    running = start(tmp_path_factory.mktemp("power"))
    yield running
    stop(running.process)


def fill(page: Page, served: Served) -> None:
    page.goto(f"{served.address}/power")
    page.get_by_label("Power at the plug", exact=True).fill("38.0 W ± 2 %")
    page.get_by_label("Output", exact=True).fill("0.600 g/h ± 3 %")
    page.get_by_text("A recorded loop of charge against voltage").click()
    page.get_by_label("Volts at the tube for a volt of the record").fill("1000:1 ± 3 %")
    page.get_by_label("Sense capacitor in the earth return").fill("100 nF ± 5 %")
    page.get_by_label("The record, some thousand lines at most").fill(LOOP.read_text("utf-8"))
    page.get_by_role("button", name="Work it out").click()


def test_a_record_pasted_without_scripts(still_page: Page, alone: Served) -> None:
    """The record is of a tube that gets 10.2 W, by hand."""
    fill(still_page, alone)
    expect(still_page.get_by_role("heading", level=1)).to_contain_text("10.20 ± 0.60 W in the gas")
    expect(still_page.get_by_role("img", name="Charge against voltage")).to_be_visible()
    expect(still_page.get_by_text("Never an ordinary probe").first).to_be_visible()


def test_clean_for_a_screen_reader_and_nothing_scrolls_sideways(page: Page, alone: Served) -> None:
    fill(page, alone)
    page.evaluate(AXE.read_text(encoding="utf-8"))
    found = page.evaluate("axe.run()")["violations"]
    assert [(one["id"], one["nodes"][0]["html"][:200]) for one in found] == []
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
