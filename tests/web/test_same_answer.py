"""One answer in command, page and JSON: the figures of the first lines are the same."""

from __future__ import annotations

import json
import re
from html import unescape
from pathlib import Path

import pytest

from cli.typed import run
from ozonewright.show.bench import GATE
from ozonewright.show.gate import MARKS
from web.in_process import Pages

AIR, SLOW, LOT = "pump air 2.0 L/min", "pump air 1.0 L/min", "vanillin, second lot"
CASES = [
    (["output", "runs/C2.toml"], "/run/C2", {}, "rate_g_per_h"),
    (["output", "--setting", AIR], "/setting", {"name": AIR}, "rate_g_per_h"),
    (["drift", "--setting", AIR], "/drift", {"setting": AIR}, ""),
    (["drift", "--setting", SLOW], "/drift", {"setting": SLOW}, ""),
    (["compare", AIR, SLOW], "/compare", {"first": AIR, "second": SLOW}, "ratio"),
    (["reaction", LOT], f"/reaction/{LOT}", {}, "on_time_min"),
    (["gate", "--reaction", LOT], "/gate", {"reaction": LOT}, ""),
    (["clearance", LOT], "/clearance", {"of": LOT}, ""),
    (["gas-line", "rigs/workshop.toml"], "/gas-line", {"rig": "workshop"}, "flow_nl_per_min"),
]  # fmt: skip
"""Command, page, what the page is asked, and the JSON key of the first figure."""
BOOK_AS_WELL = ("drift", "compare", "reaction", "gate", "clearance")
FIGURE = re.compile(r"−?\d+(?:\.\d+)?(?: ± \d+(?:\.\d+)?)?")


def words(html: str) -> str:
    """Return the text of a page."""
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).replace("\u00a0", " ").split())


def typed(command: list[str], folder: Path, *more: str) -> str:
    """Return what the command prints, with the demo's notebook where it asks one."""
    asked = [str(folder / word) if word.endswith(".toml") else word for word in command]
    if command[0] in BOOK_AS_WELL or "--setting" in command:
        asked += ["--notebook", str(folder / "demo.sqlite")]
    done = run(*asked, *more)
    assert done.returncode == 0, done.stderr
    return done.stdout


@pytest.mark.parametrize(("command", "path", "asked", "key"), CASES)
def test_command_page_and_json_give_one_answer(
    example: Pages,
    demo_folder: Path,
    command: list[str],
    path: str,
    asked: dict[str, str],
    key: str,
) -> None:
    first = typed(command, demo_folder).partition("\n\n")[0]
    figures = FIGURE.findall(first)
    assert figures or command[0] == "clearance"
    page = words(example.get(path, params=asked).text)
    missing = [figure for figure in figures if figure not in page]
    assert not missing, f"{missing} of “{first}” is not on {path}"
    if key:
        found = json.loads(typed(command, demo_folder, "--json"))
        value = (found["runs"][0] if "runs" in found and key not in found else found)[key]
        shown = {one.partition(" ")[0] for one in figures}
        assert any(round(value, len(one.partition(".")[2])) == float(one) for one in shown)


def test_a_figure_that_differs_would_be_found() -> None:
    assert FIGURE.findall("0.6248 ± 0.0040 g/h, 95 %: −1.5 to 2") == [
        "0.6248 ± 0.0040", "95", "−1.5", "2",
    ]  # fmt: skip
    assert "0.6248 ± 0.0040" not in words("<p>0.6248 ± 0.0041 g/h</p>")


def test_the_gate_has_one_mark_for_each_verdict() -> None:
    assert {word: mark for word, (mark, _) in GATE.items() if word} == MARKS


def test_simulated_marks_and_signs_are_one_in_command_json_page_and_at_the_bench(
    example: Pages, demo_folder: Path
) -> None:
    told = typed(["reaction", LOT], demo_folder)
    found = json.loads(typed(["reaction", LOT], demo_folder, "--json"))
    page = words(example.get(f"/reaction/{LOT}").text)
    bench = words(example.get("/bench", params={"of": LOT}).text)
    assert found["simulated"] == "workshop"
    for key, mark in (("look_from_min", "look from"), ("stop_by_min", "stop by")):
        figure = f"{mark} {found[key]:.0f}"
        assert figure in told.partition("\n\n")[0]
        assert figure in page.lower()
        at = "at" if mark == "look from" else "by"
        assert f"{mark.split()[0]} {at} {int(found[key])} min" in bench
    gas = next(one for one in found["signs"] if one["sign"] == "off-gas")
    low, high = gas["interval_at_min"]
    sign = f"Off-gas: half risen at {gas['at_min']:.0f} ({low:.0f} to {high:.0f}) min"
    for text in (" ".join(told.split()), page, bench):
        assert sign in text
        assert "Tail bottle: 250 mL" in text
        assert "Blue: don\u2019t" in text.replace("'", "\u2019")
