"""What the pages share: opening the notebook, the shell around a page, one act for each form."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager, nullcontext
from dataclasses import dataclass, replace
from functools import wraps
from typing import TypeVar
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response

from ozonewright.errors import AppError
from ozonewright.notebook import Notebook
from ozonewright.web.desk import Desk, fingerprint
from ozonewright.web.form import Field, Form, Group, fields_of, with_faults
from ozonewright.web.view import (
    Block,
    FormPage,
    NavEntry,
    Notice,
    Page,
    Shell,
    bare_shell,
    desk_of,
    form_of,
    goes_to,
    html,
    is_stranger,
    moment,
    phone_of,
    respond,
    token_of,
)

NAV = (
    NavEntry("Home", "/"),
    NavEntry("Runs", "/runs"),
    NavEntry("New run", "/new"),
    NavEntry("Bench", "/bench"),
)
"""The words in the head of every page."""

QUESTIONS = (
    NavEntry("Recipe", "/recipe"),
    NavEntry("Reaction", "/reaction"),
    NavEntry("Drift", "/drift"),
    NavEntry("Compare", "/compare"),
    NavEntry("Claim", "/claim"),
    NavEntry("Gas line", "/gas-line"),
    NavEntry("Gas use", "/gas-use"),
    NavEntry("Absorber", "/absorber"),
    NavEntry("Generator", "/generator"),
    NavEntry("Power", "/power"),
    NavEntry("Duty", "/duty"),
    NavEntry("Gate", "/gate"),
    NavEntry("Room", "/room"),
    NavEntry("Clearance", "/clearance"),
)
"""Every question that has a page, in the order of the work; a question adds its own."""

DONE = {
    "kept": Notice("Kept.", undo=True),
    "corrected": Notice("Corrected. What was typed before stays readable below.", undo=True),
    "withdrawn": Notice("Withdrawn. It stays in the notebook, struck out.", undo=True),
    "undone": Notice("Undone."),
    "nothing": Notice("There is nothing left to undo."),
}
"""What has been done, by the word in the address."""


@dataclass(frozen=True)
class WorkingPage(Page):
    """An answer that is not there yet."""

    template = "working.html"
    seconds: str
    again: str


View = Callable[[Request, Notebook], Page]
Act = Callable[[Request, Notebook, dict[str, str]], "Page | str"]
Ask = Callable[[Request, Notebook | None], "tuple[Page, int]"]
Endpoint = Callable[[Request], Response]
Formed = TypeVar("Formed", bound=FormPage)


def stored(view: View) -> Endpoint:
    """Make an endpoint of a page that shows the notebook; it is made once per state of the file."""

    @wraps(view)
    def endpoint(request: Request) -> Response:
        desk = desk_of(request)
        if desk.file is None:
            return goes_to("/")
        key = (request.url.path, request.url.query, desk.stamp())
        text = desk.pages.get(key)
        if text is None:
            with Notebook.open(desk.file, read_only=True) as notebook:
                page = view(request, notebook)
                text = desk.pages.put(key, html(shell(request, notebook), page).encode())
        return respond(text)

    return endpoint


def page(view: View) -> Endpoint:
    """Make an endpoint of a page that is made anew each time, such as an empty form."""

    @wraps(view)
    def endpoint(request: Request) -> Response:
        file = desk_of(request).file
        if file is None:
            return goes_to("/")
        with Notebook.open(file, read_only=True) as notebook:
            return respond(html(shell(request, notebook), view(request, notebook)))

    return endpoint


def asks(ask: Ask) -> Endpoint:
    """Make an endpoint of a question that the address holds; it needs no notebook.

    An answer is kept as long as the notebook stays as it is. One that takes its time is worked out
    beside, and a page says so.
    """

    @wraps(ask)
    def endpoint(request: Request) -> Response:
        desk = desk_of(request)
        key = (request.url.path, request.url.query, desk.stamp())
        if (kept := desk.pages.get(key)) is not None:
            return respond(kept)

        def make() -> tuple[bytes, int]:
            with _read(desk) as notebook:
                page, status = ask(request, notebook)
                return html(shell(request, notebook), page).encode(), status

        if desk.patience is None:
            text, status = make()
        elif (made := desk.underway.ask(key, make, desk.patience)) is not None:
            text, status = made
        else:
            return _working(request, desk, desk.underway.seconds(key))
        return respond(desk.pages.put(key, text) if status == 200 else text, status)

    return endpoint


def _read(desk: Desk) -> AbstractContextManager[Notebook | None]:
    """Return the notebook open for reading, or nothing where there is none."""
    return nullcontext() if desk.file is None else Notebook.open(desk.file, read_only=True)


def _working(request: Request, desk: Desk, seconds: float) -> Response:
    """Answer that an answer is being worked out; the browser looks again by itself."""
    again = f"{request.url.path}?{request.url.query}"
    page = WorkingPage("Working it out", f"{seconds:.0f}", again)
    with _read(desk) as notebook:
        return respond(html(shell(request, notebook), page), 202, refresh="1")


def form_in(request: Request, groups: tuple[Group, ...]) -> Form:
    """Return the form with what the address holds of it."""
    sent = request.query_params
    return Form(groups, {one.place: sent.get(one.place, "").strip() for one in fields_of(groups)})


def setting_of(
    notebook: Notebook | None, none: str, place: str = "setting", words: str = ""
) -> Field | None:
    """Return the field that chooses a setting of the notebook; None where there is none."""
    known = notebook.settings() if notebook is not None else []
    if not known:
        return None
    choices = (("", none), *((name, name) for name in known))
    return Field(place, words or "Setting of the notebook", kind="choice", choices=choices)


def answered(empty: Formed, answer: Callable[[], Formed]) -> tuple[Formed, int]:
    """Return the page with its answer, else the empty one with what must be mended."""
    try:
        return answer(), 200
    except AppError as error:
        return replace(empty, form=with_faults(empty.form, error)), 422


def acts(act: Act) -> Endpoint:
    """Make an endpoint of a form: it leads on to a path, or comes back as a page with 422.

    The same form sent twice (a second tap, a reload) leads where the first one led.
    """

    @wraps(act)
    def endpoint(request: Request) -> Response:
        desk = desk_of(request)
        if desk.file is None:
            return goes_to("/")
        form = form_of(request)
        mark = fingerprint(request.url.path, form) if "sheet" in form else None
        with desk.writing() as notebook:
            if mark and (before := desk.sent.get(mark)):
                return goes_to(before)
            outcome = act(request, notebook, form)
            if isinstance(outcome, Page):
                return respond(html(shell(request, notebook), outcome), 422)
            if mark:
                desk.sent.put(mark, outcome)
        return goes_to(outcome)

    return endpoint


def shell(request: Request, notebook: Notebook | None) -> Shell:
    """Return what stands around a page."""
    if is_stranger(request):
        return bare_shell()
    desk = desk_of(request)
    return Shell(
        nav=() if phone_of(request) else NAV,
        questions=() if phone_of(request) else QUESTIONS,
        here=request.url.path,
        token=token_of(request),
        block=block(desk, notebook),
        has_notebook=desk.notebook is not None and notebook is not None and not phone_of(request),
        notice=DONE.get(request.query_params.get("done", "")),
        query=request.query_params.get("q", "") if request.url.path == "/search" else "",
    )


def block(desk: Desk, notebook: Notebook | None) -> Block:
    """Return the title block."""
    if notebook is None:
        return Block(desk.notebook.name if desk.notebook else "none yet", "none yet", "none yet")
    rigs = notebook.entries(kind="rig", last=1)
    last = notebook.last_entry
    return Block(
        notebook.label,
        f"{rigs[0].label}, {rigs[0].revision}" if rigs else "none yet",
        moment(last.when) if last else "none yet",
    )


PAGED = ("run", "reaction", "rig")
"""Kinds of document that have a page of their own."""


def entry_path(id: str, kind: str = "run") -> str:
    """Return the address of an entry's page; a kind without one is told so there."""
    return f"/{kind if kind in PAGED else 'run'}/{quote(id, safe='')}"


def setting_path(name: str) -> str:
    """Return the address of a setting's page; the name may hold a slash."""
    return f"/setting?name={quote(name, safe='')}"
