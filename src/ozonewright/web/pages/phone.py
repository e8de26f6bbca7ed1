"""Telephones: the code on the desk's page, and the page at which a telephone uses it."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from ozonewright.errors import NotFound
from ozonewright.notebook import Notebook
from ozonewright.show.qr import qr_svg
from ozonewright.web.pages.common import shell
from ozonewright.web.phone import COOKIE, Phones
from ozonewright.web.security import Refused
from ozonewright.web.view import Page, bare_shell, desk_of, form_of, goes_to, html, respond

DAY = 86_400


@dataclass(frozen=True)
class PhonePage(Page):
    """The code for one telephone, and who is in."""

    template = "phone.html"
    address: str
    picture: Markup
    names: tuple[str, ...]


@dataclass(frozen=True)
class EntrancePage(Page):
    """What a telephone sees before it is let in."""

    template = "phone_in.html"
    code: str


def _phones(request: Request) -> Phones:
    phones = desk_of(request).phones
    if phones is None:
        raise NotFound(
            "no telephone is served",
            fix="Start again with: ozonewright open --notebook FILE --phone.",
        )
    return phones


def phone(request: Request) -> Response:
    """Tell who is in, and how another telephone comes in."""
    return _shown(request, None)


def new_code(request: Request) -> Response:
    """Show a code for one more telephone."""
    return _shown(request, _phones(request).new_code())


def turn_out(request: Request) -> Response:
    """End every telephone's session."""
    _phones(request).turn_out()
    return goes_to("/phone")


def _shown(request: Request, code: str | None) -> Response:
    phones, file = _phones(request), desk_of(request).file
    address = phones.address(code) if code else ""
    page = PhonePage(
        title="Telephones",
        address=address,
        picture=Markup(qr_svg(address)) if code else Markup(),
        names=phones.names(),
    )
    if file is None:
        return respond(html(shell(request, None), page))
    with Notebook.open(file, read_only=True) as notebook:
        return respond(html(shell(request, notebook), page))


ROUTES = (
    Route("/phone", phone, methods=["GET"]),
    Route("/phone/code", new_code, methods=["POST"]),
    Route("/phone/out", turn_out, methods=["POST"]),
)


def entrance(request: Request) -> Response:
    """Show the button that uses a code up; looking alone does not, for cameras look ahead."""
    code = request.path_params["code"]
    if not _phones(request).holds(code):
        raise _void()
    return respond(html(bare_shell(), EntrancePage("This telephone at the bench", code)))


def come_in(request: Request) -> Response:
    """Let a telephone in, and give it the cookie by which it is known."""
    session = _phones(request).let_in(form_of(request).get("code", ""))
    if session is None:
        raise _void()
    reply = goes_to("/bench")
    reply.set_cookie(COOKIE, session.cookie, max_age=DAY, httponly=True, samesite="strict")
    return reply


def _void() -> Refused:
    return Refused(
        "this code lets no telephone in: it was used, or it is too old",
        fix="Take a new one from the page Telephones at the desk.",
    ).with_status(403)


def to_bench(request: Request) -> Response:
    """Lead to the one page that a telephone sees."""
    return goes_to("/bench")


ON_THE_PHONE = (
    Route("/", to_bench, methods=["GET"]),
    Route("/in/{code}", entrance, methods=["GET"]),
    Route("/in", come_in, methods=["POST"]),
)
"""Served to telephones beside the bench page."""
