"""The bench page in a browser: gloves, marks, no answer, a killed server, two telephones."""

from __future__ import annotations

import random
import re
import signal
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from browser.conftest import AXE, PATIENCE, Served, start, stop
from browser.test_journeys import SMALL, axe, fits
from ozonewright.notebook import Notebook

pytestmark = pytest.mark.browser
PHONE = {"width": 390, "height": 844}
QUIET = """
window.buzzed = [];
const vibrate = (one) => { window.buzzed.push(one); return true; };
Object.defineProperty(navigator, 'vibrate', {value: vibrate});
"""


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Served]:
    """A server with a notebook in which C9 is planned for 52.8 min."""
    Notebook.create(tmp_path / "b.sqlite", "bench (invented)").close()
    running = start(tmp_path, "--notebook=b.sqlite")
    yield running
    stop(running.process)


@pytest.fixture
def phone(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(viewport=PHONE, has_touch=True, is_mobile=True)
    context.set_default_timeout(PATIENCE * 1000)
    context.add_init_script(QUIET)
    yield context
    context.close()


def begin(page: Page, served: Served, planned: str = "52.8 min", of: str = "C9") -> None:
    page.goto(f"{served.address}/bench?other=1")
    page.get_by_label("Run or reaction").fill(of)
    page.get_by_label("Planned on-time").fill(planned)
    page.get_by_label("or the output itself").fill("0.62 g/h ± 5 %")
    page.get_by_role("button", name="To the bench").click()
    expect(page.get_by_role("heading", level=1)).to_have_text(of)


def press(page: Page, name: str) -> None:
    """Press as a hand does: not sooner than the page takes for one press."""
    page.locator(f"#{name}").click()


def stored(page: Page) -> None:
    expect(page.locator("#unstored")).to_be_hidden()
    expect(page.locator("#stored")).to_be_visible()


def entries(served: Served) -> list[dict[str, Any]]:
    with Notebook.open(served.folder / "b.sqlite", read_only=True) as notebook:
        return [one.data["entry"] for one in notebook.entries(kind="entry")]


def acts(served: Served) -> list[str]:
    return [one["what"] for one in entries(served) if "value" not in one]


def seconds(page: Page) -> int:
    minutes, rest = page.locator("#digits").inner_text().split(":")
    return 60 * int(minutes) + int(rest)


def test_a_run_by_four_buttons(page: Page, bench: Served) -> None:
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    begin(page, bench)
    press(page, "gas")
    expect(page.locator("#gas")).to_have_attribute("aria-pressed", "true")
    earliest = time.monotonic()
    press(page, "discharge")
    latest = time.monotonic()
    stored(page)
    expect(page.locator("#next")).to_contain_text("stop, in 52 min 4")
    page.wait_for_timeout(2200)
    # the face shows whole seconds, drawn anew a few times in each
    least = time.monotonic() - latest
    shown = seconds(page)
    assert least - 1.5 <= shown <= time.monotonic() - earliest
    # by hand: 0.62 g/h is 12.92 mmol/h, 0.2153 mmol in a minute, 0.0072 in 2 s
    assert re.match(r"0\.0\d+ ± 0\.00\d", page.locator("#amount").inner_text())
    page.reload()
    expect(page.locator("#discharge")).to_have_attribute("aria-pressed", "true")
    assert seconds(page) >= 2
    press(page, "divert")
    stored(page)
    before = seconds(page)
    page.wait_for_timeout(1500)
    assert seconds(page) == before
    press(page, "stop")
    stored(page)
    expect(page.locator("#next")).to_contain_text("gas off, in 1 min 5")
    assert acts(bench) == ["gas on", "discharge on", "divert", "stop"]
    assert said == []
    fits(page)


def test_the_last_press_is_taken_back(phone: BrowserContext, bench: Served) -> None:
    page = phone.new_page()
    begin(page, bench)
    press(page, "gas")
    expect(page.locator("#last")).to_contain_text("Gas on")
    page.get_by_role("button", name="Undo").click()
    stored(page)
    expect(page.locator("#gas")).to_have_attribute("aria-pressed", "false")
    assert acts(bench) == []


def test_a_glove_that_taps_twice_presses_once(phone: BrowserContext, bench: Served) -> None:
    page = phone.new_page()
    begin(page, bench)
    page.locator("#gas").dblclick()
    stored(page)
    assert acts(bench) == ["gas on"]


def test_a_titre_by_steps(phone: BrowserContext, bench: Served) -> None:
    page = phone.new_page()
    begin(page, bench)
    for step, times in (("+10", 3), ("\u22121", 2), ("+0.05", 9)):
        for _ in range(times):
            page.get_by_role("button", name=step, exact=True).click()
    expect(page.get_by_label("Titre in mL")).to_have_value("28.45")
    page.get_by_role("button", name="Keep").click()
    expect(page.locator("#titres")).to_contain_text("Titre of bottle 1: 28.45 mL")
    assert entries(bench)[-1]["value"] == "28.45 mL"
    page.get_by_label("Titre in mL").fill("28.4.5")
    page.get_by_role("button", name="Keep").click()
    expect(page.locator("#refused")).to_be_visible()
    stored(page)


def test_marks_buzz_and_the_last_one_again(phone: BrowserContext, bench: Served) -> None:
    page = phone.new_page()
    begin(page, bench, planned="2 s")
    press(page, "gas")
    press(page, "discharge")
    until = time.monotonic() + PATIENCE
    while not page.evaluate("window.buzzed.some((one) => one.length === 10)"):
        assert time.monotonic() < until
        page.wait_for_timeout(100)
    expect(page.locator("#next")).to_have_text("stop now")
    page.locator("#sound").click()
    expect(page.locator("#sound")).to_contain_text("off")


def test_a_press_without_an_answer_is_kept_and_counts_at_its_own_time(
    phone: BrowserContext, bench: Served
) -> None:
    page = phone.new_page()
    begin(page, bench)
    press(page, "gas")
    stored(page)
    phone.set_offline(True)
    earliest = time.time()
    press(page, "discharge")
    latest = time.time()
    expect(page.locator("#unstored")).to_contain_text("1 kept on this page, not stored yet")
    expect(page.locator("#discharge")).to_have_attribute("aria-pressed", "true")
    page.evaluate("{ const real = Date.now; Date.now = () => real() - 3_600_000; }")
    page.wait_for_timeout(3000)
    least = time.time() - latest
    shown = seconds(page)
    assert least - 1.5 <= shown <= time.time() - earliest
    assert acts(bench) == ["gas on"]
    phone.set_offline(False)
    stored(page)
    late = entries(bench)[-1]
    assert earliest - 0.5 <= late["when"].timestamp() <= latest + 0.5
    kept, unit = late["sent_after"].split()
    assert unit == "s"
    assert least - 1 <= int(kept) <= time.time() - earliest + 1
    expect(page.locator("#notes")).to_contain_text("kept on the page and sent later")


def test_kept_presses_survive_the_page_itself(phone: BrowserContext, bench: Served) -> None:
    page = phone.new_page()
    begin(page, bench)
    press(page, "gas")
    stored(page)
    bench.process.send_signal(signal.SIGKILL)
    stop(bench.process)
    press(page, "discharge")
    expect(page.locator("#unstored")).to_be_visible()
    page.close()
    time.sleep(1.0)
    port = bench.address.rpartition(":")[2]
    again = start(bench.folder, "--notebook=b.sqlite", f"--port={port}")
    try:
        page = phone.new_page()
        page.goto(f"{again.address}/bench")
        stored(page)
        expect(page.locator("#discharge")).to_have_attribute("aria-pressed", "true")
        assert acts(bench) == ["gas on", "discharge on"]
        assert 1 <= seconds(page) <= 15
    finally:
        stop(again.process)


def test_a_page_loaded_anew_shows_what_is_kept_but_not_stored(
    phone: BrowserContext, bench: Served
) -> None:
    page = phone.new_page()
    begin(page, bench)
    press(page, "gas")
    stored(page)
    page.route("**/bench/press", lambda route: route.abort())
    earliest = time.monotonic()
    press(page, "discharge")
    latest = time.monotonic()
    expect(page.locator("#unstored")).to_be_visible()
    page.wait_for_timeout(1500)
    page.reload()
    expect(page.locator("#discharge")).to_have_attribute("aria-pressed", "true")
    expect(page.locator("#last")).to_contain_text("Discharge on, ")
    least = time.monotonic() - latest
    assert least - 1.5 <= seconds(page) <= time.monotonic() - earliest
    page.wait_for_timeout(800)
    press(page, "discharge")
    expect(page.locator("#waiting")).to_have_text("2")
    assert acts(bench) == ["gas on"]
    shown = seconds(page)
    page.unroute("**/bench/press")
    stored(page)
    assert acts(bench) == ["gas on", "discharge on", "discharge off"]
    assert seconds(page) == pytest.approx(shown, abs=1)


@pytest.mark.slow
def test_server_and_page_broken_off_at_random_moments(phone: BrowserContext, bench: Served) -> None:
    chance = random.Random(6)
    page = phone.new_page()
    begin(page, bench)
    press(page, "gas")
    stored(page)
    running, port = bench, bench.address.rpartition(":")[2]
    truth, on, since, pressed = 0.0, False, 0.0, ["gas on"]
    for _ in range(6):
        page.wait_for_timeout(chance.uniform(800, 1600))
        running.process.send_signal(signal.SIGKILL)
        expect(page.locator("#discharge")).to_have_attribute("aria-pressed", str(on).lower())
        now = time.time()
        press(page, "discharge")
        pressed.append("discharge off" if on else "discharge on")
        truth, on, since = truth + (now - since if on else 0.0), not on, now
        page.wait_for_timeout(chance.uniform(0, 500))
        stop(running.process)
        running = start(bench.folder, "--notebook=b.sqlite", f"--port={port}")
        page.wait_for_timeout(chance.uniform(0, 500))
        page.goto(f"{running.address}/bench")
    stored(page)
    truth += time.time() - since if on else 0.0
    shown = seconds(page)
    stop(running.process)
    assert acts(bench) == pressed
    assert shown == pytest.approx(truth, abs=2.0)


def test_with_scripts_off(still_page: Page, bench: Served) -> None:
    begin(still_page, bench)
    press(still_page, "gas")
    press(still_page, "discharge")
    expect(still_page.locator("#stored")).to_be_visible()
    still_page.get_by_role("button", name="+0.05", exact=True).click()
    expect(still_page.get_by_label("Titre in mL")).to_have_value("0.05")
    still_page.get_by_role("button", name="Keep").click()
    still_page.get_by_role("button", name="Undo").click()
    expect(still_page.get_by_text("Taken back.")).to_be_visible()
    assert acts(bench) == ["gas on"]
    fits(still_page)


SIZES = ((390, 844), (844, 390), (1280, 844))


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_clean_large_and_legible(browser: Browser, scheme: str, bench: Served) -> None:
    for width, height in SIZES:
        context = browser.new_context(
            viewport={"width": width, "height": height},
            color_scheme="dark" if scheme == "dark" else "light",
        )
        context.add_init_script(path=AXE)
        page = context.new_page()
        begin(page, bench, of=f"C{width}")
        press(page, "gas")
        stored(page)
        for light in ("system", "sun", "dark"):
            page.evaluate("light => { document.documentElement.dataset.light = light }", light)
            assert axe(page) == []
        assert page.evaluate(SMALL) == []
        fits(page)
        for name in ("gas", "discharge", "divert", "stop"):
            box = page.locator(f"#{name}").bounding_box()
            assert box is not None
            assert min(box["width"], box["height"]) >= 96
        # a figure is read from 2 m when it is 1 cm high; 60 pixels of a telephone are
        assert page.evaluate(HEIGHT) >= 60 / 0.73
        context.close()


HEIGHT = "parseFloat(getComputedStyle(document.getElementById('digits')).fontSize)"


def test_where_the_screen_can_not_be_kept_on_the_page_says_so(
    browser: Browser, bench: Served
) -> None:
    context = browser.new_context(viewport=PHONE)
    context.add_init_script("Object.defineProperty(navigator, 'wakeLock', {value: undefined});")
    page = context.new_page()
    begin(page, bench)
    expect(page.get_by_text("no mark sounds until you wake it")).to_be_visible()
    expect(page.locator("#awake")).to_be_hidden()
    context.close()


def test_two_telephones_each_with_its_own_code(browser: Browser, tmp_path: Path) -> None:
    Notebook.create(tmp_path / "b.sqlite", "bench (invented)").close()
    served = start(tmp_path, "--notebook=b.sqlite", "--phone-address=127.0.0.2")
    hands = [browser.new_context(viewport=PHONE) for _ in range(2)]
    desk = browser.new_context()
    try:
        pages = []
        for hand in hands:
            at_desk = desk.new_page()
            at_desk.goto(f"{served.address}/phone")
            at_desk.get_by_role("button", name="Code for a telephone").click()
            address = at_desk.locator("figcaption").inner_text()
            fits(at_desk)
            page = hand.new_page()
            page.goto(address)
            page.get_by_role("button", name="Use this telephone").click()
            expect(page.get_by_role("heading", level=1)).to_be_visible()
            pages.append(page)
            assert hands[0].request.get(address).status == 403
        one, other = pages
        base = one.url.partition("/bench")[0]
        begin(one, Served(base, tmp_path, served.process))
        press(one, "gas")
        stored(one)
        other.goto(f"{base}/bench?of=C9")
        hands[1].set_offline(True)
        press(other, "discharge")
        expect(other.locator("#unstored")).to_be_visible()
        hands[1].set_offline(False)
        stored(other)
        expect(one.locator("#discharge")).to_have_attribute("aria-pressed", "true", timeout=12000)
        with Notebook.open(tmp_path / "b.sqlite", read_only=True) as notebook:
            found = notebook.entries(kind="entry")
        assert [entry.source for entry in found][-2:] == ["phone 1", "phone 2"]
        stop(served.process)
        press(one, "stop")
        expect(one.locator("#unstored")).to_be_visible()
        served = start(tmp_path, "--notebook=b.sqlite", "--phone-address=127.0.0.2")
        at_desk.goto(f"{served.address}/phone")
        at_desk.get_by_role("button", name="Code for a telephone").click()
        address = at_desk.locator("figcaption").inner_text()
        if address.startswith(f"{base}/"):  # not where somebody else has taken the port meanwhile
            expect(one.locator("#shut")).to_be_visible(timeout=15000)
            one.goto(address)
            one.get_by_role("button", name="Use this telephone").click()
            stored(one)
            expect(one.locator("#discharge")).to_have_attribute("aria-pressed", "false")
            assert acts(Served(base, tmp_path, served.process))[-1] == "stop"
    finally:
        stop(served.process)
        for context in (*hands, desk):
            context.close()
