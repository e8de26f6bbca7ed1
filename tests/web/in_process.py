"""Invented runs, and a client that speaks to the pages in process."""

from __future__ import annotations

import re
from copy import deepcopy
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import httpx2
from starlette.testclient import TestClient

from ozonewright.web.app import create_app

ADDRESS = "http://127.0.0.1:8765"
SETTING = "concentrator 0.8 L/min"
RUN: dict[str, Any] = {
    "run": {"label": "C1", "setting": SETTING, "on_time": "240 s ± 1.5 s", "start": "diverted"},
    "gas": {
        "feed": {"oxygen": "92 vol%", "nitrogen": "4 vol%", "argon": "4 vol%"},
        "flow": "0.80 L/min ± 4 %",
        "temperature": "22 °C",
        "pressure": "101.3 kPa",
    },
    "electrical": {"power": "41 W"},
    "titration": {
        "burette": "50 mL class A",
        "titres": ["28.46 mL", "1.02 mL"],
        "blank": "0.18 mL",
        "titrant": {"concentration": "0.0510 mol/L"},
    },
}


def run_table(label: str, on_time: str, titre: str, **run: str) -> dict[str, Any]:
    """Return the document of one invented run."""
    table = deepcopy(RUN)
    table["run"] |= {"label": label, "on_time": on_time, **run}
    table["titration"]["titres"][0] = titre
    return table


@dataclass
class Pages:
    """The pages of one notebook, as a browser without scripts uses them."""

    client: TestClient
    file: Path

    def get(self, path: str, **more: Any) -> httpx2.Response:
        return self.client.get(path, **more)

    def token(self) -> str:
        """Return the token that the forms of the pages carry."""
        page = self.client.get("/new")
        text = page.text if page.status_code == 200 else self.asked().text
        found = re.search(r'name="token" value="([^"]+)"', text)
        assert found
        return found[1]

    def asked(self, **more: str) -> httpx2.Response:
        """Ask the first question."""
        readings = {
            "run.on_time": "4 min",
            "titration.titres[1]": "28.46 mL",
            "titration.titrant.concentration": "0.0510 mol/L",
        }
        return self.client.get("/", params=readings | more)

    def send(self, path: str, fields: dict[str, str], **more: Any) -> httpx2.Response:
        """Send a form."""
        return self.client.post(path, data={"token": self.token(), **fields}, **more)

    def fields(self, path: str) -> dict[str, str]:
        """Return every field of the form on a page, as it stands there."""
        text = self.get(path).text
        text = text[text.index('class="sheet"') :]
        fields = dict(re.findall(r'<input [^>]*?name="([^"]+)" value="([^"]*)"', text))
        for name, inside in re.findall(
            r'<select [^>]*?name="([^"]+)".*?>(.*?)</select>', text, re.S
        ):
            chosen = re.search(r'value="([^"]*)" selected', inside)
            fields[name] = chosen[1] if chosen else ""
        return fields


def client_of(notebook: Path | None, folder: Path) -> TestClient:
    """Return a client; a fault of the program is a reply of 500, as in a browser."""
    return TestClient(
        create_app(notebook, folder),
        base_url=ADDRESS,
        raise_server_exceptions=False,
        follow_redirects=False,
    )
