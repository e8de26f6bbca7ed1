"""What a request must satisfy before a page sees it, and what every reply carries.

The server is for the person at this machine. A page of another site, open in the same browser,
can send requests here: it is told apart by Host, by Origin, and by not knowing the token.
"""

from __future__ import annotations

import hmac
from collections.abc import Callable, Iterable, Mapping
from urllib.parse import parse_qsl, urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from ozonewright.errors import InputError

LOOPBACK = frozenset({"127.0.0.1", "localhost", "[::1]"})
SAFE = frozenset({"GET", "HEAD"})
LARGEST_BODY = 256_000
LARGEST_URL = 16_000
MOST_FIELDS = 400
FORM_TYPE = "application/x-www-form-urlencoded"

POLICY = "; ".join(
    (
        "default-src 'none'",
        "style-src 'self'",
        "img-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    )
)
"""Nothing runs in a page and nothing is fetched from anywhere else. The bench page alone adds its
one script, by name (decision 5)."""

HEADERS = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    # 'no-referrer' would make browsers send Origin: null with our own forms
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(), geolocation=(), microphone=()",
}


class Refused(InputError):
    """A request that a page never sees; `status` is what the browser is told."""

    def __init__(self, what: str, *, where: str = "", got: str = "", fix: str) -> None:
        super().__init__(what, where=where, got=got, fix=fix)
        self.status = 400

    def with_status(self, status: int) -> Refused:
        """Return this refusal under another status."""
        self.status = status
        return self


class Guard:
    """Checks every request, reads forms within limits, and puts the headers on every reply."""

    def __init__(
        self,
        app: ASGIApp,
        *,
        tokens: Callable[[Scope], Iterable[str]],
        refuse: ASGIApp,
        ours: Callable[[str], bool] | None = None,
    ) -> None:
        self.app, self.tokens, self.refuse = app, tokens, refuse
        self.ours = ours or is_loopback

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "websocket":
            await send({"type": "websocket.close", "code": 1008})
            return
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        carry = _with_headers(scope, send)
        state = scope.setdefault("state", {})
        try:
            check_address(scope, self.ours)
            if scope["method"] not in SAFE:
                state["form"] = await self._form(scope, receive)
        except Refused as error:
            state["refusal"] = error
            await self.refuse(scope, receive, carry)
            return
        await self.app(scope, receive, carry)

    async def _form(self, scope: Scope, receive: Receive) -> dict[str, str]:
        if scope["method"] != "POST":
            raise Refused("this server has no such method", fix="Use the buttons of the page.")
        headers = Headers(scope=scope)
        kind = headers.get("content-type", "").partition(";")[0].strip().lower()
        if kind != FORM_TYPE:
            raise Refused(
                "this is no form of ours", got=kind[:80], fix="Use the buttons of the page."
            ).with_status(415)
        form = read_form(await _body(headers, receive))
        sent = form.pop("token", "").encode()
        if not any(hmac.compare_digest(sent, one.encode()) for one in self.tokens(scope)):
            raise Refused(
                "the form comes from an earlier start of the program",
                fix="Nothing was stored. Go back, copy what you typed, load the page anew, send.",
            ).with_status(403)
        return form


def check_address(scope: Scope, ours: Callable[[str], bool]) -> None:
    """Refuse a foreign Host (a name made to point here) and a foreign Origin."""
    headers = Headers(scope=scope)
    hosts = headers.getlist("host")
    if len(hosts) != 1 or not ours(hosts[0]):
        raise Refused(
            "the page was asked for under a name that isn't this machine's own",
            got=", ".join(hosts)[:80],
            fix="Open the address that the command printed.",
        ).with_status(421)
    for origin in headers.getlist("origin"):
        if origin != f"{scope['scheme']}://{hosts[0]}":
            raise Refused(
                "the request comes from a page of another site",
                got=origin[:80],
                fix="Open the address that the command printed.",
            ).with_status(403)
    if headers.get("sec-fetch-site") == "cross-site" and scope["method"] not in SAFE:
        raise Refused(
            "the request comes from a page of another site",
            fix="Open the address that the command printed.",
        ).with_status(403)
    if len(scope.get("raw_path") or b"") + len(scope["query_string"]) > LARGEST_URL:
        raise Refused("the address is far too long", fix="Use the forms.").with_status(414)


def is_loopback(host: str) -> bool:
    """Return whether a Host names this machine itself; any port, for a forwarded one differs."""
    try:
        port = urlsplit(f"//{host}").port
    except ValueError:
        return False
    name = host.removesuffix(f":{port}") if port is not None else host
    return name.lower() in LOOPBACK


async def _body(headers: Mapping[str, str], receive: Receive) -> bytes:
    declared = headers.get("content-length", "0")
    if not declared.isdigit() or int(declared) > LARGEST_BODY:
        raise _too_large()
    body = bytearray()
    while True:
        message = await receive()
        if message["type"] != "http.request":
            raise Refused("the request broke off", fix="Send it again.")
        body += message.get("body", b"")
        if len(body) > LARGEST_BODY:
            raise _too_large()
        if not message.get("more_body", False):
            return bytes(body)


def _too_large() -> Refused:
    return Refused(
        "the form is far too large",
        fix=f"A form may hold {LARGEST_BODY // 1000} kB; keep long tables in a file and import it.",
    ).with_status(413)


def read_form(body: bytes) -> dict[str, str]:
    """Return the fields of a form; of a field sent twice the last one counts."""
    try:
        pairs: Iterable[tuple[str, str]] = parse_qsl(
            body.decode("ascii"),
            keep_blank_values=True,
            max_num_fields=MOST_FIELDS,
            errors="strict",
        )
        return {name: value.replace("\r\n", "\n") for name, value in pairs}
    except ValueError as error:  # not ASCII, not UTF-8 inside, or too many fields
        raise Refused(
            "the form can't be read", fix="Load the page anew and send it again."
        ) from error


def _with_headers(scope: Scope, send: Send) -> Send:
    async def carry(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers.setdefault(name, value)
            headers.setdefault("cache-control", "no-store")
        await send(message)

    return carry
