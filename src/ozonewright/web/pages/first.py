"""The first question, for a person without a notebook: what do you have in front of you?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from ozonewright.bench.notebook import keep_answer
from ozonewright.bench.output import outputs
from ozonewright.errors import AppError, Faults, InputError
from ozonewright.notebook import Notebook
from ozonewright.show.pages import Answer, Remark, output_answer, remarks, sentences
from ozonewright.web.desk import Desk
from ozonewright.web.form import Field, Form, Group, typed, with_faults
from ozonewright.web.pages.common import entry_path, shell
from ozonewright.web.run_form import first_groups, table_of
from ozonewright.web.view import Page, desk_of, form_of, goes_to, html, respond

SUFFIX = ".sqlite"
NAME = Field("notebook.file", "Name of the file", "workshop")
LABEL = Field("notebook.label", "Name of the bench", "garden workshop")
KEEP = (
    Group(
        "",
        (
            NAME,
            LABEL,
            Field("run.label", "Name of the run", "C1"),
            Field("run.setting", "Setting, what such runs share", "concentrator 0.8 L/min"),
        ),
        closed=False,
    ),
)


@dataclass(frozen=True)
class FirstPage(Page):
    """The question, and the answer once there is one."""

    template = "first.html"
    form: Form
    keep: Form
    folder: str
    missing: str = ""
    answer: Answer | None = None
    next: tuple[str, ...] = ()
    working: tuple[str, ...] = ()
    remarks: tuple[Remark, ...] = ()


def ask(request: Request) -> Response:
    """Show the question; with readings in the address, answer it."""
    desk = desk_of(request)
    form = typed(first_groups(), dict(request.query_params))
    if not any(text.strip() for text in form.values.values()):
        return respond(html(shell(request, None), _page(desk, form)))
    try:
        return respond(html(shell(request, None), _answered(desk, form, _keep(desk))))
    except AppError as error:
        page = _page(desk, with_faults(form, error))
        return respond(html(shell(request, None), page), 422)


def begin(request: Request) -> Response:
    """Make the notebook and keep the run in it."""
    desk, sent = desk_of(request), form_of(request)
    if desk.file is not None:
        return goes_to("/")
    keep = typed(KEEP, sent)
    form = typed(first_groups(), sent)
    try:
        whole = typed((*first_groups(), *KEEP), sent)
        path = _file(desk, keep.values)
        table = table_of(Form((*first_groups(), KEEP[0]), _without_notebook(whole.values)))
        outputs([table])
        label = keep.values.get(LABEL.place, "").strip() or path.stem
        with Notebook.create(path, label) as notebook, notebook.atomic():
            entry = notebook.add("run", table, source="page")
            keep_answer(notebook, entry)
    except AppError as error:
        page = _answered(desk, form, with_faults(keep, error))
        return respond(html(shell(request, None), page), 422)
    desk.notebook = path
    return goes_to(f"{entry_path(entry.id)}?done=kept")


def _page(desk: Desk, form: Form) -> FirstPage:
    missing = str(desk.notebook) if desk.notebook is not None else ""
    return FirstPage("First output", form, _keep(desk), str(_folder(desk)), missing)


def _answered(desk: Desk, form: Form, keep: Form) -> FirstPage:
    result = outputs([table_of(form)])[0]
    return FirstPage(
        title="First output",
        form=form,
        keep=keep,
        folder=str(_folder(desk)),
        answer=output_answer(result),
        next=sentences(result.next),
        working=sentences(result.working),
        remarks=remarks(result.notes),
    )


def _keep(desk: Desk) -> Form:
    name = desk.notebook.stem if desk.notebook is not None else "ozone"
    return Form(KEEP, {NAME.place: name, "run.label": "run 1"})


def _folder(desk: Desk) -> Path:
    return desk.notebook.parent if desk.notebook is not None else desk.folder


def _without_notebook(values: Mapping[str, str]) -> dict[str, str]:
    return {place: text for place, text in values.items() if not place.startswith("notebook.")}


def _file(desk: Desk, values: Mapping[str, str]) -> Path:
    """Return the file to make: a plain name, in the folder where the program was started."""
    name = values.get(NAME.place, "").strip().removesuffix(SUFFIX)
    if not name or name != Path(name).name or name.startswith(".") or not name.isprintable():
        raise Faults(
            [
                InputError(
                    "this is no plain file name",
                    where=NAME.place,
                    got=name[:80],
                    fix='Write a name without folders, such as "workshop".',
                )
            ]
        )
    if desk.notebook is not None and name == desk.notebook.stem:
        return desk.notebook
    path = _folder(desk) / f"{name}{SUFFIX}"
    if path.exists():
        raise Faults(
            [
                InputError(
                    "a file of this name is there already",
                    where=NAME.place,
                    got=path.name,
                    fix="Choose another name, or stop and open that one with --notebook.",
                )
            ]
        )
    return path


ROUTES = (Route("/begin", begin, methods=["POST"]),)
