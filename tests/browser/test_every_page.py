"""Every page there is, by the list of routes: without scripts, by keys alone, for a screen reader.

A new page is covered by itself. A page that asks is asked too: its open fields are filled with
their own examples.
"""

from __future__ import annotations

from collections.abc import Iterator
from importlib import import_module

import pytest
from playwright.sync_api import Browser, Page

from browser.conftest import AXE, PATIENCE, Served, answered, start, stop
from browser.test_journeys import TAPPED, axe, fits
from ozonewright.demo import keep, reaction_files, rig_files, room_files, run_files, store
from ozonewright.notebook import Notebook
from ozonewright.web import pages

pytestmark = pytest.mark.browser
NAMES = {"run": "C1", "rig": "workshop", "reaction": "vanillin, second lot"}
"""An entry of the worked example for each kind of page that is of one."""
FILES = ("/backup", "/export", "/report", "/drawing.css", "/rig/{id}/drawing.svg",
         "/bench/state")  # fmt: skip
"""Addresses that give a file, or a piece of a page."""
NOT_OPEN = "/phone"
"""Says that telephones are not let in, unless the command does."""
MORE = {"/setting": "?name=concentrator%200.8%20L/min", "/search": "?q=C1",
        "/clearance": "?of=vanillin,%20second%20lot"}  # fmt: skip
"""What an address needs to tell anything."""


def addresses() -> list[str]:
    """Return the address of every page."""
    later = (name for names in pages.WHEN_ASKED.values() for name in names)
    modules = [*pages.AT_THE_START, *(import_module(f"{pages.__name__}.{name}") for name in later)]
    found: dict[str, None] = {}
    for route in (route for module in modules for route in module.ROUTES):
        if "GET" in (route.methods or ()):
            found[route.path] = None
    return [path for path in found if path not in FILES]


PAGES = addresses()


@pytest.fixture(scope="module")
def workshop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """The worked example, served once for all pages: nothing here writes into it."""
    folder = tmp_path_factory.mktemp("workshop")
    store(folder, run_files() | rig_files() | room_files() | reaction_files())
    keep(folder)
    running = start(folder, "--notebook=demo.sqlite")
    yield running
    stop(running.process)


@pytest.fixture(scope="module")
def every(workshop: Served) -> list[str]:
    """The address of every page of the worked example."""
    with Notebook.open(workshop.folder / "demo.sqlite", read_only=True) as notebook:
        ids = {
            kind: next(one.id for one in notebook.entries(kind=kind) if one.label == label)
            for kind, label in NAMES.items()
        }
    return [
        workshop.address
        + path.replace("{id}", ids.get(path.split("/")[1], ""))
        + MORE.get(path, "")
        for path in PAGES
    ]


def window(browser: Browser, width: int, **more: object) -> Page:
    context = browser.new_context(viewport={"width": width, "height": 844}, **more)  # type: ignore[arg-type]
    page = context.new_page()
    page.set_default_timeout(PATIENCE * 1000)
    return page


def came(page: Page, address: str) -> None:
    reply = page.goto(address)
    assert reply is not None
    wanted = (404,) if address.endswith(NOT_OPEN) else (200, 202)
    assert reply.status in wanted, f"{address}: {reply.status}"
    answered(page)
    assert page.locator("h1").count() == 1, address


EXAMPLES = """() => {
  const form = [...document.querySelectorAll("main form.sheet")].find(f => f.method === "get");
  if (!form) return 0;
  let filled = 0;
  for (const hint of form.querySelectorAll("fieldset .hint")) {
    const field = document.getElementById(hint.id.replace(/-hint$/, ""));
    if (!field || field.value) continue;
    field.value = hint.textContent.replace(/^e\\.g\\.\\s*/, "");
    filled += 1;
  }
  return filled;
}"""


def ask(page: Page) -> bool:
    """Fill the open fields of the question with their examples and send it; False without one."""
    if not page.evaluate(EXAMPLES):
        return False
    with page.expect_navigation():
        page.locator("main form.sheet button.main").first.click()
    answered(page)
    return True


def test_the_list_of_pages_is_not_empty() -> None:
    assert len(PAGES) > 25
    assert {"/", "/runs", "/run/{id}", "/rig/{id}", "/drift", "/duty", "/gate"} <= set(PAGES)


def test_without_scripts_every_page_answers_and_fits_a_telephone(
    browser: Browser, every: list[str]
) -> None:
    page = window(browser, 390, java_script_enabled=False)
    for address in every:
        came(page, address)
        fits(page)
        if ask(page):
            assert page.locator("h1").count() == 1, address
            assert page.locator("main form.sheet").count(), address
            fits(page)
    page.context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_page_and_its_answer_are_clean_for_a_screen_reader(
    browser: Browser, every: list[str], scheme: str
) -> None:
    page = window(browser, 1280 if scheme == "dark" else 390, color_scheme=scheme)
    page.context.add_init_script(path=AXE)
    faults = []
    for address in every:
        came(page, address)
        faults += [f"{address}: {one}" for one in (*axe(page), *page.evaluate(SMALL_HERE))]
        if scheme == "light" and ask(page):
            faults += [f"{address}, asked: {one}" for one in axe(page)]
    page.context.close()
    assert faults == []


SMALL_HERE = f"""() => [...document.querySelectorAll("{TAPPED}")]
  .filter(e => e.checkVisibility({{visibilityProperty: true}}))
  .filter(e => ((/radio|checkbox/.test(e.type) && e.closest("label")) || e)
    .getBoundingClientRect().height < 47.5)
  .map(e => "too small to tap: " + e.outerHTML.slice(0, 80))"""
REACHED = """() => {
  const seen = e => e && e !== document.body && (e.dataset.key ||= String(Math.random()));
  return seen(document.activeElement) || "";
}"""
WANTED = """() => [...document.querySelectorAll(
  "a[href], button, input:not([type=hidden]), select, textarea, summary")]
  .filter(e => e.checkVisibility({visibilityProperty: true}) && !e.disabled && e.tabIndex >= 0)
  .filter(e => e.type !== "radio" || e.checked || !document.querySelector(
    `input[type=radio][name="${e.name}"]:checked`) && e === document.querySelector(
    `input[type=radio][name="${e.name}"]`))
  .map(e => [e.dataset.key ||= String(Math.random()), e.outerHTML.slice(0, 80)])"""
UNSEEN = """() => {
  const e = document.activeElement, style = getComputedStyle(e);
  const quiet = style.outlineStyle === "none" || parseFloat(style.outlineWidth) < 2;
  return e !== document.body && quiet ? e.outerHTML.slice(0, 80) : "";
}"""


def test_by_keys_alone_everything_is_reached_and_seen(browser: Browser, every: list[str]) -> None:
    page = window(browser, 1280)
    faults = []
    for address in every:
        came(page, address)
        wanted = dict(page.evaluate(WANTED))
        reached: set[str] = set()
        for _ in range(len(wanted) + 3):
            page.keyboard.press("Tab")
            key = page.evaluate(REACHED)
            if key and (quiet := page.evaluate(UNSEEN)):
                faults.append(f"{address}: no outline on {quiet}")
            reached.add(key)
        faults += [f"{address}: not reached: {wanted[key]}" for key in wanted.keys() - reached]
    page.context.close()
    assert faults == []
