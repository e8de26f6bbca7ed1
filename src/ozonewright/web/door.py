"""The door for telephones: at which address a request came in, and whether it is let through."""

from __future__ import annotations

from collections.abc import Iterable
from http.cookies import CookieError, SimpleCookie

from starlette.datastructures import Headers
from starlette.types import ASGIApp, Receive, Scope, Send

from ozonewright.web.phone import COOKIE, Phones, Session
from ozonewright.web.security import Refused

ENTRANCE = "/in"


class ByAddress:
    """Sends each request to the pages of the desk or to those of telephones, by its socket."""

    def __init__(self, desk: ASGIApp, phone: ASGIApp, phones: Phones) -> None:
        self.desk, self.phone, self.phones = desk, phone, phones

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        came_in = tuple(scope.get("server") or ())
        at_phone = came_in == (self.phones.host, self.phones.port)
        await (self.phone if at_phone else self.desk)(scope, receive, send)


class Door:
    """Lets known telephones through; the others see the entrance alone."""

    def __init__(self, app: ASGIApp, phones: Phones, refuse: ASGIApp) -> None:
        self.app, self.phones, self.refuse = app, phones, refuse

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        state = scope.setdefault("state", {})
        session = self._session(scope)
        state["stranger"] = session is None
        if session is not None:
            state["phone"], state["token"] = session.name, session.token
        elif not _is_open(scope["path"]):
            state["refusal"] = Refused(
                "this telephone is not known here",
                fix="Scan a code at the desk: each lets one telephone in, until the program ends.",
            ).with_status(403)
            await self.refuse(scope, receive, send)
            return
        await self.app(scope, receive, send)

    def tokens(self, scope: Scope) -> Iterable[str]:
        """Return what a form may carry: a telephone's own token, or at the entrance the code."""
        session = self._session(scope)
        if session is not None:
            return (session.token,)
        return self.phones.codes() if scope["path"] == ENTRANCE else ()

    def _session(self, scope: Scope) -> Session | None:
        for header in Headers(scope=scope).getlist("cookie"):
            try:
                found = SimpleCookie(header).get(COOKIE)
            except CookieError:
                continue
            if found is not None and (session := self.phones.known(found.value)):
                return session
        return None


def _is_open(path: str) -> bool:
    """Whether a telephone may ask for this before it is let in; the notebook is not there."""
    return path == ENTRANCE or path.startswith((f"{ENTRANCE}/", "/static/"))
