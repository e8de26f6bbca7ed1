"""A reaction from the notebook through gate and bench to clearance; the README's pictures of it.

`make pictures` keeps the pictures in docs/pictures; any other run throws them away.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.conftest import PATIENCE, Served, come, start, stop
from browser.test_journeys import fits
from ozonewright.demo import keep, reaction_files, rig_files, room_files, run_files, store

pytestmark = pytest.mark.browser
LOT = "vanillin, second lot"
LARGEST = 200_000
"""Bytes of a picture: a repository is no album."""


@pytest.fixture
def workshop(tmp_path: Path) -> Iterator[Served]:
    """Pages of the worked example."""
    store(tmp_path, run_files() | rig_files() | room_files() | reaction_files())
    keep(tmp_path)
    running = start(tmp_path, "--notebook=demo.sqlite")
    yield running
    stop(running.process)


@pytest.fixture
def album(tmp_path: Path) -> Path:
    """Where pictures are put."""
    folder = Path(os.environ.get("OZONEWRIGHT_PICTURES") or tmp_path / "pictures")
    folder.mkdir(exist_ok=True)
    return folder


def taken(page: Page, file: Path, height: int) -> None:
    """Take the upper part of a page, and see that it is one."""
    width = page.viewport_size["width"] if page.viewport_size else 0
    page.evaluate("document.activeElement.blur()")
    page.screenshot(
        path=file, full_page=True, clip={"x": 0, "y": 0, "width": width, "height": height}
    )
    assert 10_000 < file.stat().st_size < LARGEST


def answered(page: Page, head: str) -> None:
    """Answer every open question under a heading with yes, and keep the answers."""
    section = page.locator("section", has=page.get_by_role("heading", name=head, exact=True))
    for one in section.get_by_label("yes", exact=True).all():
        one.check()
    section.get_by_role("button", name="Keep these answers in the rig").click()


def test_a_reaction_from_the_gate_to_clearance(
    browser: Browser, workshop: Served, album: Path
) -> None:
    context = browser.new_context(viewport={"width": 1100, "height": 800})
    context.set_default_timeout(PATIENCE * 1000)
    page = context.new_page()
    page.goto(workshop.address)
    taken(page, album / "home.png", 960)
    come(page, f"{workshop.address}/gate?reaction={LOT}")
    expect(page.get_by_role("heading", level=1)).to_contain_text("Stop: 3 stop, 2 fix")
    taken(page, album / "gate.png", 690)
    answered(page, "Stop until answered")
    expect(page.get_by_role("heading", level=1)).to_contain_text("Fix: 2 fix")
    answered(page, "Fix until answered")
    expect(page.get_by_role("heading", level=1)).to_contain_text("Fix: 1 fix")
    page.get_by_role("button", name="Keep this verdict for the bench").click()
    fits(page)

    page.set_viewport_size({"width": 390, "height": 844})
    page.goto(f"{workshop.address}/reaction/{LOT}")
    page.get_by_role("link", name="To the bench").or_(
        page.get_by_role("button", name="To the bench")
    ).click()
    expect(page.get_by_role("heading", level=1)).to_have_text(LOT)
    expect(page.locator("#gate")).to_contain_text("fix")
    page.locator("#gas").click()
    page.wait_for_timeout(1000)
    page.locator("#discharge").click()
    expect(page.locator("#discharge")).to_contain_text("on")
    taken(page, album / "bench.png", 844)

    come(page, f"{workshop.address}/clearance?of={LOT}")
    expect(page.get_by_role("heading", level=1)).to_contain_text("Locked, do not evaporate")
    page.get_by_role("button", name="Quench added").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Locked")
    expect(page.locator("main")).to_contain_text("The quench is at work until")
    context.close()
