"""One setting: its runs, their mean, collected mass against on-time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from importlib import import_module
from urllib.parse import quote

from starlette.requests import Request
from starlette.routing import Route

from ozonewright.bench.setting import setting_output
from ozonewright.bench.subject import SETTING
from ozonewright.errors import MissingValue, NotFound, nearest
from ozonewright.notebook import Notebook
from ozonewright.questions.output import Output
from ozonewright.questions.setting import SettingOutput, Settled
from ozonewright.show.pages import (
    Answer,
    Remark,
    SourceLine,
    output_answer,
    remarks,
    sentences,
    setting_answer,
    source_lines,
)
from ozonewright.show.sheet.setting_figure import setting_figure
from ozonewright.web.answers import answers
from ozonewright.web.desk import Desk
from ozonewright.web.figure import Drawn, drawn
from ozonewright.web.pages.common import entry_path, stored
from ozonewright.web.pages.runs import RunRow, run_rows
from ozonewright.web.view import NavEntry, Page, desk_of

MOST_RUNS = 100
"""Runs that one page works out; the last ones count."""


@dataclass(frozen=True)
class SettingPage(Page):
    """One setting."""

    template = "setting.html"
    name: str
    answer: Answer
    next: tuple[str, ...] = ()
    runs: tuple[RunRow, ...] = ()
    told: str = ""
    sources: tuple[SourceLine, ...] = ()
    figure: Drawn | None = None
    remarks: tuple[Remark, ...] = ()
    last_path: str = ""
    ask: tuple[NavEntry, ...] = ()
    """Questions about this setting."""


@stored
def setting(request: Request, notebook: Notebook) -> Page:
    """Show one setting."""
    name = request.query_params.get("name", "")
    entries = notebook.entries(kind="run", setting=name, last=MOST_RUNS)
    if not entries:
        raise NotFound(
            "no run of this setting stands in the notebook",
            got=name[:200],
            fix=nearest(name, notebook.settings())
            if notebook.settings()
            else "Give a run its setting, and it appears here.",
        )
    found = answers(desk_of(request), notebook, entries)
    settled = settled_of(desk_of(request), notebook, name)
    mean = mean_of(notebook, name, found, settled)
    return SettingPage(
        title=name,
        name=name,
        answer=setting_answer(mean) if mean else output_answer(found[-1]),
        next=sentences(mean.next) if mean else (),
        runs=run_rows(entries[::-1], found[::-1]),
        told=f"The last {MOST_RUNS} runs." if len(entries) == MOST_RUNS else "",
        figure=drawn(setting_figure(name, found, mean)),
        remarks=remarks(mean.notes) if mean else (),
        sources=source_lines(mean) if mean else (),
        last_path=entry_path(entries[-1].id),
        ask=_questions(name),
    )


def settled_of(desk: Desk, notebook: Notebook, name: str) -> Settled | None:
    """Return what drift has determined of a setting; the home page may tell it from now on."""
    # Drift is loaded when the first setting is looked at.
    found: Settled | None = import_module("ozonewright.bench.settled").settled_setting(
        notebook, name
    )
    stamp = desk.stamp()
    if desk.drift_asked.get((name, stamp)) is None:
        desk.drift_asked.put((name, stamp), True)
        desk.pages.drop(("/", "", stamp))
    return found


def _questions(name: str) -> tuple[NavEntry, ...]:
    written = quote(name, safe="")
    return (
        NavEntry("Why do they disagree?", f"/drift?setting={written}"),
        NavEntry("Beside another setting", f"/compare?first={written}"),
        NavEntry("Beside a label", f"/claim?setting={written}"),
        NavEntry("Report", f"/report?of={quote(SETTING, safe='')}%20{written}"),
    )


def mean_of(
    notebook: Notebook, name: str, found: Sequence[Output], settled: Settled | None = None
) -> SettingOutput | None:
    """Return the output of a setting, or None while none of its runs has one."""
    try:
        return setting_output(notebook, name, found, settled)
    except MissingValue:
        return None


ROUTES = (Route("/setting", setting),)
