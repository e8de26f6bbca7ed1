"""What the pages of kept entries share: found by kind, corrected with a reason, struck out."""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from dataclasses import dataclass, field

from starlette.requests import Request

from ozonewright.errors import InputError
from ozonewright.notebook import REASONS, Entry, Notebook, Reason
from ozonewright.web.form import Form, fields_of, shown
from ozonewright.web.pages.common import PAGED, Endpoint, acts, entry_path
from ozonewright.web.view import FormPage, Page

WITHDRAWALS = ("spoiled at the bench", "kept twice", "belongs elsewhere", "other")
CORRECT = "Change what is wrong. What stands there now is kept and stays readable."


@dataclass(frozen=True)
class EntryFormPage(FormPage):
    """The form of a run or a reaction: new, as an earlier one, or corrected."""

    template = "entry_form.html"
    kind: str
    action: str
    told: str = ""
    sheet: str = field(default_factory=lambda: secrets.token_hex(8))
    """Tells one opened form from another, so that a second tap keeps nothing twice."""
    was: Mapping[str, str] = field(default_factory=dict)
    focus: str = ""
    revision: int = 0
    reasons: tuple[str, ...] = ()
    grows: str = ""
    """What there may be one more of."""


def entry_of(request: Request, notebook: Notebook, kind: str) -> Entry:
    """Return the entry of the address; one of another kind is refused."""
    entry = notebook.get(request.path_params["id"])
    if entry.kind != kind:
        raise InputError(
            f"this entry is no {kind}",
            got=f"{entry.label} ({entry.kind})",
            fix=f"Its page is {entry_path(entry.id, entry.kind)}."
            if entry.kind in PAGED
            else "It has no page of its own; show it with: ozonewright notebook show.",
        )
    return entry


def correction(
    entry: Entry, form: Form, revision: int, focus: str = "", grows: str = ""
) -> EntryFormPage:
    """Return the form of an entry, with what stands now beside what was typed anew."""
    stands = shown(entry.data, fields_of(form.groups))
    return EntryFormPage(
        title=f"Correct {entry.label}",
        form=form,
        kind=entry.kind,
        action=f"{entry_path(entry.id, entry.kind)}/correct",
        told=CORRECT,
        was={
            place: f"now {text}"
            for place, text in stands.items()
            if form.values.get(place, "") != text
        },
        focus=focus,
        revision=revision,
        reasons=REASONS,
        grows=grows,
    )


def revision_in(sent: Mapping[str, str]) -> int:
    """Return the revision that a person had before them; nought if the form does not tell.

    Beyond nine digits it is nobody's revision, and Python reads only so many digits.
    """
    text = sent.get("revision", "")
    return int(text) if text.isdecimal() and len(text) < 10 else 0


def reason_in(sent: Mapping[str, str]) -> Reason:
    """Return the reason that was tapped."""
    for reason in REASONS:
        if reason == sent.get("reason"):
            return reason
    raise InputError("why was it wrong?", where="reason", fix="Tap one of the reasons.")


def withdrawal(kind: str) -> Endpoint:
    """Make the endpoint that strikes out an entry of a kind."""

    @acts
    def withdraw(request: Request, notebook: Notebook, sent: dict[str, str]) -> Page | str:
        entry = entry_of(request, notebook, kind)
        notebook.withdraw(entry.id, reason=sent.get("reason", ""))
        return f"{entry_path(entry.id, kind)}?done=withdrawn"

    return withdraw
