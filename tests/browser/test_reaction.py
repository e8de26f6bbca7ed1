"""A reaction planned in the browser: at a desk, on a phone, without scripts, by screen reader."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from browser.conftest import AXE, Served, come, start, stop
from ozonewright.notebook import Notebook
from unit.documents_of_reactions import FEED, table

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """A server with a notebook that keeps the reaction of the docs."""
    folder = tmp_path_factory.mktemp("reaction")
    with Notebook.create(folder / "b.sqlite", "invented") as notebook:
        notebook.add("reaction", table(gas=FEED))
    running = start(folder, "--notebook", str(folder / "b.sqlite"))
    yield running
    stop(running.process)


def test_planned_and_kept_without_scripts(still_page: Page, kept: Served) -> None:
    page = still_page
    come(page, f"{kept.address}/reaction")
    page.get_by_label("Structure, as SMILES").fill("C=CCCCC")
    page.get_by_label("Amount").fill("12.0 mmol")
    page.get_by_label("Output", exact=True).fill("0.72 g/h ± 3 %")
    page.get_by_label("Uptake of the ozone").fill("88 % ± 2 points")
    page.get_by_label("Quench").select_option("triphenylphosphine")
    page.get_by_label("Equivalents").first.fill("1.10")
    page.get_by_role("button", name="Work it out").click()
    # by hand (issue): 54.5 min, 3.46 g
    expect(page.get_by_role("heading", level=1)).to_contain_text("54.5")
    expect(page.get_by_text("3.46 g of triphenylphosphine").first).to_be_visible()
    page.get_by_role("button", name="Into the notebook").click()
    expect(page.get_by_label("Structure, as SMILES")).to_have_value("C=CCCCC")
    page.get_by_label("Name of the reaction").fill("hexene, first")
    page.get_by_role("button", name="Keep the reaction").click()
    expect(page.get_by_role("status")).to_contain_text("Kept.")
    expect(page.get_by_role("heading", level=1)).to_contain_text("54.5")
    page.get_by_role("button", name="Undo").click()


@pytest.mark.parametrize("path", ["reaction", "reaction/new", "reaction/vanillin, second lot"])
def test_clean_for_a_screen_reader_and_nothing_scrolls_sideways(
    page: Page, kept: Served, path: str
) -> None:
    come(page, f"{kept.address}/{path}")
    page.evaluate(Path(AXE).read_text(encoding="utf-8"))
    found = page.evaluate("axe.run()")["violations"]
    assert [(one["id"], one["nodes"][0]["html"][:200]) for one in found] == []
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")


def test_a_structure_that_can_not_be_read_is_marked(page: Page, kept: Served) -> None:
    come(page, f"{kept.address}/reaction")
    page.get_by_label("Structure, as SMILES").fill("C=C(")
    page.get_by_label("Amount").fill("1 mmol")
    page.get_by_role("button", name="Work it out").click()
    wrong = page.get_by_label("Structure, as SMILES")
    expect(wrong).to_have_attribute("aria-invalid", "true")
    expect(wrong).to_be_focused()
    expect(wrong).to_have_value("C=C(")
