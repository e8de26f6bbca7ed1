"""A real server in a process of its own, and a real browser at two widths."""

from __future__ import annotations

import os
import re
import select
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Route, expect, sync_playwright

NAMES = ("chromium", "chromium-browser", "google-chrome")
CHROMIUM = next((path for name in NAMES if (path := shutil.which(name))), None)
# A sandbox can't be made by root in a container; the pages opened here are our own.
SWITCHES = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
AXE = Path(__file__).parent / "vendor" / "axe.min.js"
PATIENCE = 20.0


@dataclass
class Served:
    """A running server."""

    address: str
    folder: Path
    process: subprocess.Popen[str]


def start(folder: Path, *options: str) -> Served:
    """Start the command on a free port and wait for its address."""
    process = subprocess.Popen(
        [Path(sys.executable).parent / "ozonewright", "open", "--no-browser", "--port=0", *options],
        cwd=folder,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        env={key: value for key, value in os.environ.items() if key != "OZONEWRIGHT_NOTEBOOK"},
    )
    assert process.stdout
    until, said = time.monotonic() + PATIENCE, ""
    while time.monotonic() < until and process.poll() is None:
        if select.select([process.stdout], [], [], 0.2)[0]:
            said += process.stdout.readline()
            if found := re.search(r"http://127\.0\.0\.1:\d+", said):
                return Served(found[0], folder, process)
    process.kill()
    said += process.stdout.read()
    stop(process)
    raise AssertionError(f"no address was printed: {said}")


def stop(process: subprocess.Popen[str]) -> int:
    """Stop a server as a person's system would; return its exit code."""
    if process.poll() is None:
        process.send_signal(signal.SIGTERM)
    try:
        return process.wait(PATIENCE)
    except subprocess.TimeoutExpired:
        process.kill()
        return process.wait()
    finally:
        if process.stdout:
            process.stdout.close()


@pytest.fixture
def served(tmp_path: Path) -> Iterator[Served]:
    """A server without a notebook, in a folder of its own."""
    running = start(tmp_path)
    yield running
    stop(running.process)


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """The browser of this machine; none is ever fetched.

    Of one module, not of the session: it keeps an event loop running in this thread, and tests that
    serve in this process need their own.
    """
    if CHROMIUM is None:
        pytest.skip("no chromium on PATH (Debian: apt install chromium)")
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=CHROMIUM, headless=True, args=SWITCHES)
        yield opened
        opened.close()


@pytest.fixture(params=[1280, 390], ids=["wide", "phone"])
def width(request: pytest.FixtureRequest) -> int:
    """Width of the window in pixels."""
    return int(request.param)


@pytest.fixture
def page(browser: Browser, width: int) -> Iterator[Page]:
    """A page that reaches nothing but this machine and accepts no fault of its own."""
    context = browser.new_context(viewport={"width": width, "height": 844})
    yield _watched(context)
    context.close()


@pytest.fixture
def still_page(browser: Browser, width: int) -> Iterator[Page]:
    """The same, with scripts off."""
    context = browser.new_context(
        viewport={"width": width, "height": 844}, java_script_enabled=False
    )
    yield _watched(context)
    context.close()


def _watched(context: BrowserContext) -> Page:
    def only_here(route: Route) -> None:
        here = route.request.url.startswith("http://127.0.0.1:")
        route.continue_() if here else route.abort()

    context.route("**/*", only_here)
    page = context.new_page()
    page.set_default_timeout(PATIENCE * 1000)
    return page


def answered(page: Page) -> None:
    """Wait until the page no longer says that its answer is being worked out."""
    there = page.locator("h1:not(:text('Working it out'))")
    expect(there).to_have_count(1, timeout=60_000)
    page.wait_for_load_state()


def come(page: Page, address: str) -> None:
    """Open a page, and wait for its answer."""
    page.goto(address)
    answered(page)
