"""One setting: its runs, their mean, collected mass against on-time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup
from starlette.requests import Request
from starlette.routing import Route

from ozonewright.errors import NotFound, nearest
from ozonewright.notebook import Notebook
from ozonewright.questions.output import Output
from ozonewright.show.pages import Answer, Remark, output_answer
from ozonewright.show.setting_figure import collected_against_time
from ozonewright.web.answers import answers
from ozonewright.web.pages.common import entry_path, stored
from ozonewright.web.pages.runs import RunRow, run_rows
from ozonewright.web.view import Page, desk_of


@dataclass(frozen=True)
class SettingPage(Page):
    """One setting."""

    template = "setting.html"
    name: str
    answer: Answer
    next: tuple[str, ...] = ()
    runs: tuple[RunRow, ...] = ()
    working: tuple[str, ...] = ()
    figure: Markup | None = None
    caption: str = ""
    remarks: tuple[Remark, ...] = ()
    last_path: str = ""


@stored
def setting(request: Request, notebook: Notebook) -> Page:
    """Show one setting."""
    name = request.query_params.get("name", "")
    entries = notebook.entries(kind="run", setting=name)
    if not entries:
        raise NotFound(
            "no run of this setting stands in the notebook",
            got=name[:200],
            fix=nearest(name, notebook.settings()),
        )
    found = answers(desk_of(request), notebook, entries)
    return SettingPage(
        title=name,
        name=name,
        answer=output_answer(found[-1]),
        runs=run_rows(entries[::-1], found[::-1]),
        figure=_figure(found),
        last_path=entry_path(entries[-1].id),
    )


def _figure(found: Sequence[Output]) -> Markup | None:
    drawn = collected_against_time(found)
    return Markup(drawn) if drawn else None


ROUTES = (Route("/setting", setting),)
