"""What went wrong, as a page: what happened, what was given, and the way on."""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.types import Receive, Scope, Send

from ozonewright import errors
from ozonewright.errors import AppError, Faults
from ozonewright.notebook import Notebook
from ozonewright.web.pages.common import NAV, QUESTIONS, entry_path, shell
from ozonewright.web.security import Refused
from ozonewright.web.view import (
    Page,
    Shell,
    bare_shell,
    desk_of,
    html,
    is_stranger,
    phone_of,
    respond,
)

LABELS_COMPARED = 500
STATUS: dict[type[AppError], int] = {
    errors.NotFound: 404,
    errors.Busy: 503,
    errors.Unwritable: 507,
    errors.StoreError: 500,
    errors.InputError: 422,
    errors.ModelError: 422,
    errors.DataError: 422,
}
"""What the browser is told, by kind of error; the first that fits."""


@dataclass(frozen=True, slots=True)
class Link:
    """A page that may have been meant."""

    label: str
    path: str


EVERY_PAGE = tuple(Link(entry.word, entry.path) for entry in (*NAV, *QUESTIONS))


@dataclass(frozen=True)
class TroublePage(Page):
    """An error told."""

    template = "trouble.html"
    fix: str
    got: str = ""
    faults: tuple[str, ...] = ()
    """Each of several faults, with its place and its mend."""
    nearest: tuple[Link, ...] = ()
    back: bool = True


def told(request: Request, error: Exception) -> Response:
    """Answer an error of ours."""
    assert isinstance(error, AppError)
    several = error.faults if isinstance(error, Faults) else ()
    if len(several) == 1:
        error = several[0]
    status = next((code for kind, code in STATUS.items() if isinstance(error, kind)), 500)
    if isinstance(error, Refused):
        status = error.status
    sentence = error.what[:1].upper() + error.what[1:]
    where = f"{error.where}: " if error.where else ""
    nearest = _nearest(request, error.got) if status == 404 else ()
    page = TroublePage(
        title=f"{where}{error.what}" if where else sentence,
        fix="Perhaps one of these was meant." if nearest else error.fix,
        got=error.got,
        faults=tuple(str(fault) for fault in several) if len(several) > 1 else (),
        nearest=nearest,
        back=status != 500,
    )
    return respond(html(_shell(request, status), page), status)


def no_such_page(request: Request, error: Exception) -> Response:
    """Answer an address that is no page of ours."""
    status = error.status_code if isinstance(error, HTTPException) else 500
    page = TroublePage(
        title="There is no such page" if status == 404 else "That can't be done here",
        got=request.url.path[:200],
        fix="Perhaps one of these was meant." if status == 404 else "Use the buttons of the page.",
        nearest=_pages(request) if status == 404 else (),
    )
    return respond(html(_shell(request, status), page), status)


def our_fault(request: Request, error: Exception) -> Response:
    """Answer a fault of the program; the server logs the whole of it."""
    page = TroublePage(
        title="The program made a mistake",
        fix="What you kept before is safe. The terminal where the program runs shows the fault; "
        "please report it with what you typed.",
    )
    return respond(html(_shell(request, 500), page), 500)


async def refusal(scope: Scope, receive: Receive, send: Send) -> None:
    """Answer a request that no page may see; nothing of the notebook is in it."""
    error: Refused = scope["state"]["refusal"]
    page = TroublePage(
        title=error.what[:1].upper() + error.what[1:], got=error.got, fix=error.fix, back=False
    )
    await respond(html(bare_shell(), page), error.status)(scope, receive, send)


def _shell(request: Request, status: int) -> Shell:
    """Return the shell with the notebook where it can be read, and without it where it can't."""
    file = desk_of(request).file
    if file is None or status >= 500:
        return shell(request, None)
    with Notebook.open(file, read_only=True) as notebook:
        return shell(request, notebook)


def _pages(request: Request) -> tuple[Link, ...]:
    """Return the pages that may have been meant; a telephone has but one."""
    at_phone = phone_of(request) or is_stranger(request)
    return (Link("Bench", "/bench"),) if at_phone else EVERY_PAGE


def _nearest(request: Request, name: str) -> tuple[Link, ...]:
    file = desk_of(request).file
    if file is None or phone_of(request) or is_stranger(request):
        return ()
    with Notebook.open(file, read_only=True) as notebook:
        last = notebook.entries(last=LABELS_COMPARED, withdrawn=True)
        labels = {entry.label: entry.id for entry in last}
    close = get_close_matches(name, labels, n=3, cutoff=0.3)
    return tuple(Link(label, entry_path(labels[label])) for label in close)
