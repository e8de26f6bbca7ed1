"""What a person does in the browser, at a desk and on a phone, with keys and without scripts."""

from __future__ import annotations

import re
import socket
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.conftest import AXE, PATIENCE, Served, answered, come, start, stop
from ozonewright.notebook import Notebook

pytestmark = pytest.mark.browser


def first_output(page: Page, served: Served) -> None:
    """Go from nothing to a first output kept in a notebook."""
    page.goto(served.address)
    page.get_by_label("On-time").fill("4 min")
    page.get_by_label("Titre of bottle 1").fill("28.46 mL")
    page.get_by_label("Thiosulfate in the burette").fill("0.0510 mol/L")
    page.get_by_role("button", name="How much ozone?").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("0.522")
    page.get_by_label("Name of the file").fill("bench")
    page.get_by_label("Name of the run").fill("C1")
    page.get_by_label("Setting").fill("concentrator 0.8 L/min")
    page.get_by_role("button", name="Keep the run").click()
    expect(page.get_by_role("status")).to_contain_text("Kept.")


def test_first_output_from_nothing(page: Page, served: Served) -> None:
    first_output(page, served)
    assert (served.folder / "bench.sqlite").exists()
    fits(page)


def test_a_new_run_with_an_error_mended(page: Page, served: Served) -> None:
    first_output(page, served)
    page.get_by_role("link", name="New run").first.click()
    page.get_by_label("Name of the run").fill("C2")
    page.get_by_label("On-time").fill("4")
    page.get_by_label("Titre of bottle 1").fill("28.9 mL")
    page.get_by_label("Thiosulfate in the burette").fill("0.0510 mol/L")
    page.get_by_role("button", name="Keep the run").click()
    wrong = page.get_by_label("On-time")
    expect(wrong).to_have_attribute("aria-invalid", "true")
    expect(wrong).to_be_focused()
    expect(page.get_by_label("Titre of bottle 1")).to_have_value("28.9 mL")
    fits(page)
    wrong.fill("4 min")
    page.get_by_role("button", name="Keep the run").click()
    expect(page.get_by_role("status")).to_contain_text("Kept.")


def test_as_last_time_in_four_taps(page: Page, served: Served) -> None:
    first_output(page, served)
    page.goto(served.address)
    page.get_by_role("link", name="As last time").click()
    expect(page.get_by_label("On-time")).to_be_focused()
    page.keyboard.type("8 min")
    page.get_by_label("Titre of bottle 1").click()
    page.keyboard.type("28.1 mL; 28.2 mL")
    page.get_by_role("button", name="Keep the run").click()
    expect(page.get_by_role("status")).to_contain_text("Kept.")
    expect(page).to_have_title(re.compile("^C2"))


def test_a_titre_corrected_stays_readable(page: Page, served: Served) -> None:
    first_output(page, served)
    page.get_by_role("link", name="Correct").click()
    page.get_by_label("Titre of bottle 1").fill("24.86 mL")
    page.get_by_role("button", name="typing slip").click()
    expect(page.locator("del").first).to_contain_text("28.46")
    expect(page.get_by_text("Corrected: typing slip")).to_be_visible()
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("0.522")
    fits(page)


def test_by_keyboard_alone(page: Page, served: Served) -> None:
    page.goto(served.address)
    expect(page.get_by_label("On-time")).to_be_focused()
    for text in ("4 min", "28.46 mL", "0.0510 mol/L"):
        page.keyboard.type(text)
        page.keyboard.press("Tab")
    page.keyboard.press("Enter")  # opens the group of guard bottle and blank
    page.keyboard.press("Tab")
    page.keyboard.type("1.02 mL")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_contain_text("g/h")
    page.keyboard.press("Tab")
    expect(page.get_by_role("link", name="To the page")).to_be_focused()


def test_with_scripts_off(still_page: Page, served: Served) -> None:
    first_output(still_page, served)
    still_page.get_by_role("link", name="Correct").click()
    still_page.get_by_label("Titre of bottle 1").fill("28.64 mL")
    still_page.get_by_role("button", name="misread").click()
    expect(still_page.locator("del").first).to_contain_text("28.46")
    still_page.get_by_text("Withdraw this run").click()
    still_page.get_by_role("button", name="kept twice").click()
    expect(still_page.get_by_role("status")).to_contain_text("Withdrawn")


PLACES = (
    "/",
    "/runs",
    "/new",
    "/search?q=C1",
    "/run/C1",
    "/run/C1/copy",
    "/run/C1/correct",
    "/setting?name=concentrator%200.8%20L/min",
    "/drift?points=2%20min:%200.92%20g/h%0A4%20min:%200.81%20g/h%0A8%20min:%200.76%20g/h",
    "/compare?first_rates=0.62%20g/h;%200.60%20g/h&second_rates=0.19%20g/h",
    "/claim?label=4%20g/h&setting=concentrator%200.8%20L/min",
    "/gas-use?cylinder=10.0%20L&pressure=150%20bar%20gauge&flow=0.5%20NL/min&price=130",
    "/new-rig",
    "/run/C9",
    "/nope",
)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_clean_for_a_screen_reader(
    browser: Browser, width: int, scheme: str, served: Served
) -> None:
    context = browser.new_context(
        viewport={"width": width, "height": 844},
        color_scheme="dark" if scheme == "dark" else "light",
    )
    context.add_init_script(path=AXE)
    page = context.new_page()
    faults = []
    page.goto(f"{served.address}/?run.on_time=4")
    faults += axe(page)
    first_output(page, served)
    for place in PLACES:
        come(page, served.address + place)
        faults += axe(page)
        fits(page)
        small = page.evaluate(SMALL)
        faults += [f"{place}: {one}" for one in small]
    context.close()
    assert faults == []


TAPPED = "button, .button, input:not([type=hidden]), select, textarea, summary"
SMALL = f"""() => [...document.querySelectorAll("{TAPPED}")]
  .filter(e => e.offsetParent && e.getBoundingClientRect().height < 47.5)
  .map(e => "too small to tap: " + e.outerHTML.slice(0, 80))"""


def axe(page: Page) -> list[str]:
    """Return what the checker finds on the page as it stands."""
    found = page.evaluate("axe.run()")
    return [
        f"{page.url}: {one['id']}: {one['nodes'][0]['html'][:120]}" for one in found["violations"]
    ]


def test_the_checker_can_find_something(browser: Browser, served: Served) -> None:
    page = browser.new_page()
    page.add_init_script(path=AXE)
    page.goto(served.address)
    page.evaluate("document.querySelector('label').remove()")
    assert any("label" in one for one in axe(page))
    page.close()


def fits(page: Page) -> None:
    """Nothing scrolls sideways."""
    assert page.locator("html").bounding_box()["width"] <= page.viewport_size["width"]  # type: ignore[index]
    wide = page.locator("body *").evaluate_all(
        "all => all.filter(e => !e.closest('.skip, .unseen') && "
        "e.getBoundingClientRect().right > document.documentElement.clientWidth + 1)"
        ".map(e => e.outerHTML.slice(0, 80))"
    )
    assert wide == []


def test_nothing_is_fetched_from_elsewhere_and_nothing_complains(
    browser: Browser, served: Served
) -> None:
    page = browser.new_page()
    asked: list[str] = []
    said: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    first_output(page, served)
    page.goto(served.address)
    page.close()
    assert [url for url in asked if not url.startswith(served.address)] == []
    assert said == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_rig_is_drawn_across_or_downwards(
    browser: Browser, width: int, scheme: str, served: Served
) -> None:
    context = browser.new_context(
        viewport={"width": width, "height": 844},
        color_scheme="dark" if scheme == "dark" else "light",
    )
    context.add_init_script(path=AXE)
    page = context.new_page()
    first_output(page, served)
    page.goto(f"{served.address}/new-rig")
    page.get_by_role("button", name="Keep the rig").click()
    faults = []
    rig = page.url.partition("?")[0]
    for place in (page.url, f"{served.address}/", f"{rig}/correct", f"{served.address}/gas-line"):
        come(page, place)
        faults += axe(page)
        fits(page)
    page.locator("summary", has_text="4 mm, 1.5 m").click()
    page.locator("input[name='part[2].bore']").fill("2 mm")
    page.get_by_role("button", name="See what flows").click()
    answered(page)
    assert page.get_by_text("instead of 4 mm").count() == 1
    faults += axe(page)
    page.goto(served.address)
    drawn = page.get_by_role("img", name="Gas line workshop")
    assert drawn.count() == 1
    assert ("down" in (drawn.get_attribute("class") or "")) == (width < 960)
    letters = page.locator("svg.rig text:visible").first
    assert letters.evaluate("e => getComputedStyle(e).fill") != "rgb(0, 0, 0)"
    context.close()
    assert faults == []


@pytest.mark.parametrize("number", [2, 15])
def test_a_stop_is_clean(tmp_path: Path, number: int) -> None:
    running = start(tmp_path)
    running.process.send_signal(number)
    running.process.wait(PATIENCE)
    assert stop(running.process) == 0


def test_only_one_address_is_served(served: Served) -> None:
    port = int(served.address.rpartition(":")[2])
    with socket.socket() as other:
        other.settimeout(2)
        # answers too when a server listens on every address of the machine
        assert other.connect_ex(("127.0.0.2", port)) != 0


def test_what_cannot_be_opened_is_told_on_the_command_line(tmp_path: Path) -> None:
    odd = tmp_path / "odd.sqlite"
    odd.write_text("not a notebook")
    with pytest.raises(AssertionError, match="odd"):
        start(tmp_path, "--notebook", str(odd))
    taken = start(tmp_path)
    with pytest.raises(AssertionError, match="port"):
        start(tmp_path, "--port", taken.address.rpartition(":")[2])
    assert stop(taken.process) == 0


def test_two_windows_on_one_notebook(browser: Browser, served: Served) -> None:
    one, other = browser.new_page(), browser.new_page()
    first_output(one, served)
    other.goto(f"{served.address}/run/C1/correct")
    one.get_by_role("link", name="Correct").click()
    one.get_by_label("Titre of bottle 1").fill("28.40 mL")
    one.get_by_role("button", name="misread").click()
    expect(one.get_by_role("status")).to_contain_text("Corrected")
    other.get_by_label("Titre of bottle 1").fill("28.50 mL")
    other.get_by_role("button", name="misread").click()
    expect(other.get_by_role("alert")).to_contain_text("changed meanwhile")
    expect(other.get_by_label("Titre of bottle 1")).to_have_value("28.50 mL")
    with Notebook.open(served.folder / "bench.sqlite", read_only=True) as notebook:
        assert notebook.get("C1").data["titration"]["titres"] == ["28.40 mL"]
    one.close()
    other.close()
