"""The bench page: four large buttons, the count, titres; for gloves, at a desk or on a telephone.

It is the one page with a script of ours. Without it every button is a form and the page fetches
itself anew; with it a press that finds no answer is kept on the page and sent later.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict, dataclass, field
from datetime import datetime, timedelta
from decimal import Decimal
from functools import wraps
from importlib import import_module
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from ozonewright.bench.clock import now
from ozonewright.bench.count import Asked, count_of, current
from ozonewright.bench.gate_kept import standing
from ozonewright.bench.log import Press, logged, press, take_back
from ozonewright.errors import AppError, Faults, InputError, NotFound
from ozonewright.notebook import Entry, Notebook
from ozonewright.notebook.acts import new_id
from ozonewright.questions.output import Output
from ozonewright.records.event import ACTS
from ozonewright.show.bench import BenchView, bench_view
from ozonewright.web.answers import answers
from ozonewright.web.bench_begin import begin, begin_page, path_of
from ozonewright.web.form import check_text
from ozonewright.web.pages.common import shell
from ozonewright.web.security import POLICY
from ozonewright.web.view import Page, desk_of, form_of, goes_to, html, phone_of, respond, token_of

PLANNED = "ozonewright.bench.planned"
"""Loads much: fetched for a reaction or a setting alone."""
SCRIPT = "/static/bench.js"
STEPS = ("\u221210", "\u22121", "\u22120.05", "+0.05", "+1", "+10")
"""mL; the buttons beside a titre."""
LONGEST_WAIT = timedelta(days=7).total_seconds()
"""Seconds that a press may have waited on a page."""


@dataclass(frozen=True, slots=True)
class Titre:
    """The titre being read, as text in mL."""

    text: str
    bottle: int


@dataclass(frozen=True)
class BenchPage(Page):
    """One run or reaction at the bench."""

    template = "bench.html"
    view: BenchView
    state: str
    """All of the view as JSON, for the script."""
    titre: Titre
    told: str = ""
    phone: str = ""
    """Which telephone this is; nothing at the desk."""
    run_path: str = ""
    """Where what was counted becomes a run; nothing where it is one, or a reaction."""
    more_phones: bool = False
    """Whether the desk serves telephones."""
    steps: tuple[str, ...] = STEPS
    id: Callable[[], str] = field(default=new_id)
    """Makes the id of each press, so that a second tap makes no second entry."""


def with_script(view: Callable[[Request], Response]) -> Callable[[Request], Response]:
    """Let our one script run in a page, and fetch from here; nothing else is allowed."""

    @wraps(view)
    def endpoint(request: Request) -> Response:
        reply = view(request)
        script = f"{request.url.scheme}://{request.headers['host']}{SCRIPT}"
        reply.headers["content-security-policy"] = (
            f"{POLICY}; script-src {script}; connect-src 'self'"
        )
        return reply

    return endpoint


@with_script
def bench(request: Request) -> Response:
    """Show the count, or ask what to count."""
    file = desk_of(request).file
    if file is None:
        return goes_to("/")
    with Notebook.open(file, read_only=True) as notebook:
        of = request.query_params.get("of", "").strip() or current(notebook)
        if not of or "other" in request.query_params:
            page: Page = begin_page(request, notebook)
        else:
            page = _bench_page(request, notebook, of)
        return respond(html(shell(request, notebook), page))


def _bench_page(request: Request, notebook: Notebook, of: str) -> BenchPage:
    found = _view(request, notebook, of)
    return BenchPage(
        title=of,
        view=found,
        state=json.dumps(_state(request, found)),
        titre=_titre(request.query_params, found),
        told=TOLD.get(request.query_params.get("done", ""), ""),
        phone=phone_of(request),
        run_path=_run_path(request, notebook, found),
        more_phones=desk_of(request).phones is not None and not phone_of(request),
    )


TOLD = {"undone": "Taken back. It stays in the notebook, struck out."}


def _run_path(request: Request, notebook: Notebook, found: BenchView) -> str:
    counted = found.of_kind == "run" and found.on_time > 0.0 and not found.counting
    if not counted or phone_of(request) or notebook.labelled(found.of):
        return ""
    return f"/new?of={quote(found.of, safe='')}"


def _view(request: Request, notebook: Notebook, of: str) -> BenchView:
    desk = desk_of(request)

    def answered(book: Notebook, runs: Sequence[Entry]) -> Sequence[Output]:
        return answers(desk, book, runs)

    asked = Asked(
        answered=answered,
        planned=lambda *asked: import_module(PLANNED).planned_reaction(*asked),
        settled=lambda *asked: import_module(PLANNED).settled_setting(*asked),
    )
    entries = logged(notebook, of)
    events = [one for one in entries if one.data["entry"]["what"] in ACTS]
    gate = standing(notebook, of)
    return bench_view(
        count_of(notebook, of, entries, now(), asked),
        last=events[-1].id if events else "",
        stored=entries[-1].when if entries else None,
        gate=(str(gate.data["entry"]["value"]), _when(gate)) if gate else None,
        titres=tuple(_titres(entries)),
    )


def _when(entry: Entry) -> datetime:
    when = entry.data["entry"].get("when")
    return when if isinstance(when, datetime) else entry.when


def _titres(entries: Sequence[Entry]) -> list[tuple[str, str]]:
    tables = [one.data["entry"] for one in entries]
    return [(one["what"], one["value"]) for one in tables if one["what"].startswith("titre")]


def _state(request: Request, found: BenchView) -> dict[str, object]:
    return asdict(found) | {"token": token_of(request)}


def _titre(sent: Mapping[str, str], found: BenchView) -> Titre:
    """Return the titre as stepped by the buttons, without scripts."""
    try:
        value = Decimal(sent.get("titre") or "0")
        value += Decimal(sent.get("step", "0").replace("\u2212", "-"))
    except ArithmeticError:  # no number, or one beyond all reckoning
        value = Decimal(0)
    if not value.is_finite() or not 0 <= value < 1000:
        value = Decimal(0)
    bottle = sent.get("bottle", "1")
    number = int(bottle) if bottle.isascii() and bottle.isdigit() and len(bottle) == 1 else 1
    return Titre(f"{value:.2f}", max(number, 1))


def state(request: Request) -> Response:
    """Answer the script with all that changes on the page."""
    file = desk_of(request).file
    if file is None:
        return JSONResponse({"what": "there is no notebook", "fix": ""}, 404)
    with Notebook.open(file, read_only=True) as notebook:
        found = _view(request, notebook, request.query_params.get("of", ""))
        return JSONResponse(_state(request, found))


Acting = Callable[[Request, Notebook, dict[str, str]], str]


def acts_at_the_bench(act: Acting) -> Callable[[Request], Response]:
    """Make an endpoint of a button: leads back to the page, or answers the script in JSON."""

    @wraps(act)
    def endpoint(request: Request) -> Response:
        desk = desk_of(request)
        file = desk.file
        if file is None:
            return goes_to("/")
        scripted = "application/json" in request.headers.get("accept", "")
        form = form_of(request)
        try:
            with desk.writing() as notebook:
                where = act(request, notebook, form)
            if not scripted:
                return goes_to(where)
            with Notebook.open(file, read_only=True) as notebook:
                found = _view(request, notebook, form.get("of", "").strip())
                return JSONResponse(_state(request, found))
        except (InputError, NotFound) as error:
            if not scripted:
                raise
            return JSONResponse(_told(error), 422)

    return endpoint


def _told(error: AppError) -> dict[str, str]:
    if isinstance(error, Faults):
        error = error.faults[0]
    return {"what": str(error.what), "got": error.got, "fix": error.fix}


def keep_press(request: Request, notebook: Notebook, sent: dict[str, str]) -> str:
    """Keep one press."""
    for name in ("of", "what", "value"):
        try:
            check_text(sent.get(name, ""))
        except InputError as error:
            raise error.at(name) from error
    of = sent.get("of", "").strip()
    value = sent.get("value", "").strip() or None
    if sent.get("what", "").startswith("titre") and value:
        value = f"{value.removesuffix('mL').strip()} mL"
    one = Press(
        what=sent.get("what", ""),
        of=of,
        value=value,
        ago=_ago(sent.get("ago", "0")),
        id=sent.get("id") or None,
    )
    press(notebook, one, now(), phone_of(request) or "page")
    return path_of(of)


def _ago(text: str) -> float:
    """Return for how many seconds a press waited; never less than none."""
    try:
        seconds = float(text)
    except ValueError:
        seconds = -1.0
    if not 0.0 <= seconds <= LONGEST_WAIT:
        raise InputError(
            "when was this pressed?",
            where="ago",
            got=text[:40],
            fix="Type it by hand: ozonewright log --at TIME.",
        )
    return seconds


def undo_press(request: Request, notebook: Notebook, sent: dict[str, str]) -> str:
    """Take one press back."""
    entry = take_back(notebook, sent.get("id", ""))
    return f"{path_of(str(entry.data['entry'].get('of') or ''))}&done=undone"


ROUTES = (
    Route("/bench", bench, methods=["GET"]),
    Route("/bench/state", state, methods=["GET"]),
    Route("/bench/begin", with_script(begin), methods=["POST"]),
    Route("/bench/press", acts_at_the_bench(keep_press), methods=["POST"]),
    Route("/bench/undo", acts_at_the_bench(undo_press), methods=["POST"]),
)
