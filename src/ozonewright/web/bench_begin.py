"""What is counted at the bench: a run or a reaction by its label, with what is known of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response

from ozonewright.bench.clock import now
from ozonewright.bench.log import Press, press
from ozonewright.errors import AppError, Faults, InputError
from ozonewright.notebook import Notebook
from ozonewright.web.form import Field, Form, Group, with_faults
from ozonewright.web.pages.common import shell
from ozonewright.web.pages.new import next_label
from ozonewright.web.view import Page, desk_of, form_of, goes_to, html, phone_of, respond

RECENT = 8
BEGIN = (
    Group(
        "",
        (
            Field("of", "Run or reaction", "C8"),
            Field("planned on-time", "Planned on-time", "4 min"),
            Field("setting", "Setting, whose output counts", "concentrator 0.8 L/min"),
            Field("output", "or the output itself", "0.62 g/h ± 5 %"),
        ),
        closed=False,
    ),
)


@dataclass(frozen=True)
class BeginPage(Page):
    """What is to be counted."""

    template = "bench_begin.html"
    form: Form
    known: tuple[str, ...]
    phone: str = ""


def begin(request: Request) -> Response:
    """Name the run or reaction, with what is known of it."""
    desk = desk_of(request)
    if desk.file is None:
        return goes_to("/")
    sent = form_of(request)
    of = sent.get("of", "").strip()
    with desk.writing() as notebook:
        try:
            if not of:
                raise InputError("what is counted?", where="of", fix="Give it a label, such as C8.")
            with notebook.atomic():
                for what in ("planned on-time", "setting", "output"):
                    if value := sent.get(what, "").strip():
                        one = Press(what, of, value)
                        _keep_fact(notebook, one, phone_of(request) or "page")
        except AppError as error:
            page = begin_page(request, notebook, sent)
            faulty = BeginPage(page.title, with_faults(page.form, error), page.known, page.phone)
            return respond(html(shell(request, notebook), faulty), 422)
    return goes_to(path_of(of))


def _keep_fact(notebook: Notebook, one: Press, source: str) -> None:
    """Keep a fact; its fault is told at its field."""
    try:
        press(notebook, one, now(), source)
    except AppError as error:
        fault = error.faults[0] if isinstance(error, Faults) else error
        raise InputError(fault.what, where=one.what, got=fault.got, fix=fault.fix) from error


def begin_page(
    request: Request, notebook: Notebook, sent: Mapping[str, str] | None = None
) -> BeginPage:
    entries = notebook.entries(kind="entry", last=200)
    known = [str(one.data["entry"].get("of") or "") for one in reversed(entries)]
    known += [one.label for one in reversed(notebook.entries(kind="reaction", last=RECENT))]
    labels = [label for label in dict.fromkeys(known) if label][:RECENT]
    values = dict(sent) if sent is not None else _offered(notebook, labels)
    offers = {"setting": tuple(notebook.settings()[:RECENT])}
    return BeginPage(
        title="What do you count?",
        form=Form(BEGIN, values, offers=offers),
        known=tuple(labels),
        phone=phone_of(request),
    )


def _offered(notebook: Notebook, labels: Sequence[str]) -> dict[str, str]:
    """Return the label and setting that most likely follow."""
    runs = notebook.entries(kind="run", last=RECENT)
    if not runs:
        return {}
    last = runs[-1]
    used = {one.label for one in runs} | set(labels)
    setting = str((last.data.get("run") or {}).get("setting") or "")
    return {"of": next_label(last.label, used), "setting": setting}


def path_of(of: str) -> str:
    """Return the address of the bench page of a run or reaction."""
    return f"/bench?of={quote(of, safe='')}"
