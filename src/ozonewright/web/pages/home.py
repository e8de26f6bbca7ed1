"""Home: the present output, the next thing to do, the runs."""

from __future__ import annotations

from dataclasses import dataclass, replace

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from ozonewright.notebook import Notebook
from ozonewright.show.pages import Answer, output_answer, sentences, setting_answer
from ozonewright.web.answers import answers, setting_of
from ozonewright.web.pages.common import entry_path, setting_path, stored
from ozonewright.web.pages.first import ask
from ozonewright.web.pages.runs import RunRow, run_rows
from ozonewright.web.pages.setting import mean_of
from ozonewright.web.pages.sketch import Sketch, rig_of_run, sketch_of
from ozonewright.web.view import Page, desk_of

LAST = 8
FEW = 40
"""Runs of a setting of which home works out the mean; of more, the setting's page does."""


@dataclass(frozen=True, slots=True)
class SettingLink:
    """A setting by name."""

    name: str
    path: str


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


@stored
def notebook_home(request: Request, notebook: Notebook) -> Page:
    """Show the last run's setting, what to do next, and the last runs."""
    desk = desk_of(request)
    runs = notebook.entries(kind="run", last=LAST + 1)
    links = tuple(SettingLink(name, setting_path(name)) for name in notebook.settings())
    rigs = notebook.entries(kind="rig", last=1)
    if not runs:
        sketch = sketch_of(rigs[0]) if rigs else None
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
        mean = mean_of(notebook, setting, answers(desk, notebook, siblings))
        if mean is not None:
            of_last = f"Last run, {of}: {answer.basis}" if answer.basis else ""
            answer = replace(setting_answer(mean), basis=of_last)
            of, path, following = setting, setting_path(setting), mean.next
    rig = rig_of_run(notebook, present)
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
        sketch=sketch_of(rig, last) if rig else sketch_of(rigs[0]) if rigs else None,
    )


def home(request: Request) -> Response:
    """Show the notebook, or the first question while there is none."""
    return ask(request) if desk_of(request).file is None else notebook_home(request)


ROUTES = (Route("/", home),)
