"""From a page's values to HTML: one dataclass and one template for each page."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from functools import cache
from pathlib import Path
from typing import Any, ClassVar

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from ozonewright import __version__
from ozonewright.web.desk import Desk
from ozonewright.web.form import Form

TEMPLATES = Path(__file__).parent / "templates"


@dataclass(frozen=True)
class Page:
    """What a template may use of its page: fields of the subclass, and these."""

    template: ClassVar[str]
    title: str


@dataclass(frozen=True)
class FormPage(Page):
    """A page with a form, which may come back with what must be mended."""

    form: Form


@dataclass(frozen=True, slots=True)
class NavEntry:
    """One word in the head of every page."""

    word: str
    path: str


@dataclass(frozen=True, slots=True)
class Block:
    """The title block that closes every page."""

    notebook: str
    rig: str
    last: str
    version: str = __version__


@dataclass(frozen=True, slots=True)
class Notice:
    """What has just been done, and whether it can be taken back."""

    text: str
    undo: bool = False


@dataclass(frozen=True, slots=True)
class Shell:
    """What every page stands in."""

    nav: tuple[NavEntry, ...]
    questions: tuple[NavEntry, ...]
    here: str
    token: str
    block: Block
    has_notebook: bool
    notice: Notice | None = None
    query: str = ""


def moment(when: datetime) -> str:
    """Return a time as a person writes it: ``9 May 2026, 11:42``."""
    return f"{when.day} {when:%b %Y, %H:%M}"


def desk_of(request: Request) -> Desk:
    """Return the desk that this server works on."""
    desk = request.app.state.desk
    assert isinstance(desk, Desk)
    return desk


def form_of(request: Request) -> dict[str, str]:
    """Return the fields sent; the guard has read and checked them."""
    form: dict[str, str] = request.state.form
    return form


def phone_of(request: Request) -> str:
    """Return the name of the telephone that asks; nothing at the desk."""
    return str(getattr(request.state, "phone", ""))


def is_stranger(request: Request) -> bool:
    """Return whether a telephone asks that was not let in: it may see nothing of the notebook."""
    return bool(getattr(request.state, "stranger", False))


def bare_shell() -> Shell:
    """Return a shell that tells nothing of the notebook."""
    return Shell((), (), "", "", Block("not shown", "not shown", "not shown"), has_notebook=False)


def token_of(request: Request) -> str:
    """Return the token that the forms of this browser carry; each telephone has its own."""
    return str(request.state.token) if phone_of(request) else desk_of(request).token


def goes_to(path: str) -> Response:
    """Return the reply after an act: fetch this page."""
    return RedirectResponse(path, status_code=303)


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    environment.filters["moment"] = moment
    environment.filters["spaced"] = spaced
    return environment


def spaced(text: str) -> Markup:
    """Return text whose numbers stay on one line with their unit and their ±."""
    kept = str(text)
    for sign in (" ± ", " × ", " ÷ ", " − "):
        kept = kept.replace(sign, sign.replace(" ", "\u00a0", 1))
    return Markup.escape(kept)


def html(shell: Shell, page: Page) -> str:
    """Return a page as text."""
    return _environment().get_template(page.template).render(shell=shell, page=page)


def respond(text: str | bytes, status: int = 200, **headers: Any) -> Response:
    """Return a page as a reply."""
    return HTMLResponse(text, status, headers=headers or None)
