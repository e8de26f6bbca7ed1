"""Home: the present output, the next thing to do, the runs."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from ozonewright.bench.gate_kept import kept_last
from ozonewright.notebook import Entry, Notebook
from ozonewright.questions.output import Output
from ozonewright.show.bench import GATE
from ozonewright.show.pages import Answer, output_answer, sentences, setting_answer
from ozonewright.web.answers import answers, setting_of
from ozonewright.web.pages.common import entry_path, setting_path, stored
from ozonewright.web.pages.first import ask
from ozonewright.web.pages.runs import RunRow, run_rows
from ozonewright.web.pages.setting import mean_of, settled_of
from ozonewright.web.view import Page, desk_of, moment

if TYPE_CHECKING:
    from ozonewright.web.pages.sketch import Sketch

LAST = 8
FEW = 40
"""Runs of a setting of which home works out the mean; of more, the setting's page does."""


@dataclass(frozen=True, slots=True)
class SettingLink:
    """A setting by name."""

    name: str
    path: str


@dataclass(frozen=True, slots=True)
class Gate:
    """The verdict that stands, and its word for the mark."""

    mark: str
    told: str
    word: str


@dataclass(frozen=True)
class HomePage(Page):
    """What stands on the bench now."""

    template = "home.html"
    file: str
    answer: Answer | None = None
    of: str = ""
    of_path: str = ""
    next: tuple[str, ...] = ()
    runs: tuple[RunRow, ...] = ()
    more: bool = False
    settings: tuple[SettingLink, ...] = ()
    last_path: str = ""
    sketch: Sketch | None = None
    gate: Gate | None = None


@stored
def notebook_home(request: Request, notebook: Notebook) -> Page:
    """Show the last run's setting, what to do next, and the last runs."""
    desk = desk_of(request)
    runs = notebook.entries(kind="run", last=LAST + 1)
    links = tuple(SettingLink(name, setting_path(name)) for name in notebook.settings())
    rigs = notebook.entries(kind="rig", last=1)
    if not runs:
        sketch = _sketch(notebook, rigs[-1]) if rigs else None
        return HomePage("Home", str(notebook.path), settings=links, sketch=sketch)
    shown = runs[::-1][:LAST]
    found = answers(desk, notebook, shown)
    place = next((n for n, one in enumerate(found) if one.discharge == "on"), 0)
    present, last = shown[place], found[place]
    of, path = present.label, entry_path(present.id)
    answer, following = output_answer(last), last.next
    setting = setting_of(present)
    siblings = notebook.entries(kind="run", setting=setting, last=FEW + 1) if setting else []
    if 1 < len(siblings) <= FEW:
        asked = desk.drift_asked.get((setting, desk.stamp())) is not None
        settled = settled_of(desk, notebook, setting) if asked else None
        mean = mean_of(notebook, setting, answers(desk, notebook, siblings), settled)
        if mean is not None:
            of_last = f"Last run, {of}: {answer.basis}" if answer.basis else ""
            answer = replace(setting_answer(mean, drift_asked=asked), basis=of_last)
            of, path, following = setting, setting_path(setting), mean.next
    return HomePage(
        title="Home",
        file=str(notebook.path),
        answer=answer,
        of=of,
        of_path=path,
        next=sentences(following),
        runs=run_rows(shown, found),
        more=len(runs) > LAST,
        settings=links,
        last_path=entry_path(present.id),
        sketch=_sketch(notebook, rigs[-1], present, last) if rigs else None,
        gate=_gate(notebook) if rigs else None,
    )


def _sketch(
    notebook: Notebook, rig: Entry, run: Entry | None = None, found: Output | None = None
) -> Sketch:
    """Return the drawing of the rig that a run was made with, else of the last one."""
    from ozonewright.web.pages.sketch import rig_of_run, sketch_of

    named = rig_of_run(notebook, run) if run else None
    return sketch_of(named, found) if named else sketch_of(rig)


def _gate(notebook: Notebook) -> Gate:
    """Return the gate kept last, as long as nothing it was asked about has changed."""
    kept = kept_last(notebook)
    word = str(kept.data["entry"]["value"]) if kept else ""
    mark, told = GATE[word]
    of = str(kept.data["entry"].get("of") or "") if kept else ""
    named = f" for {of}, {moment(kept.when)}" if kept and of else ""
    return Gate(mark, f"Gate: {told}{named}", word or "unasked")


def home(request: Request) -> Response:
    """Show the notebook, or the first question while there is none."""
    return ask(request) if desk_of(request).file is None else notebook_home(request)


ROUTES = (Route("/", home),)
