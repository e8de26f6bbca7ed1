"""What a report is of, and which questions it asks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ozonewright.errors import Inconsistent, InputError, NotFound, nearest
from ozonewright.notebook import Entry, Notebook

MOST_RUNS = 100
"""Runs of which a setting is worked out, as on its page; the last ones count."""
OF_SETTING = ("compare", "claim", "generator", "absorber", "duty", "gas-use")
OF_REACTION = ("log", "room")
SLOW = frozenset({"absorber", "generator"})
"""Left out of a report of the whole notebook unless named: they draw for each setting anew."""
ALL = "all"
"""A word that names every question."""
QUESTIONS = ("drift", *OF_SETTING, "gas-line", "gate", "clearance", *OF_REACTION)
"""What a report asks besides output and plan, by the words of the commands."""
REPORTED = ("run", "reaction", "rig")
"""Kinds of entry that a report can be of."""
SETTING = "setting:"
"""Written before a name, it says that the setting is meant."""


@dataclass(frozen=True, slots=True)
class Subject:
    """What a report is of: an entry, a setting, or the whole notebook."""

    kind: str
    label: str
    entry: Entry | None = None


def subject_of(notebook: Notebook, of: str | None) -> Subject:
    """Return what is meant by a label, the name of a setting, or an id.

    Raises
    ------
    NotFound
        Nothing answers to it; the nearest are told.
    Inconsistent
        A setting and an entry do, or more than one entry.
    """
    if of is None:
        return Subject("notebook", notebook.label)
    settings = notebook.settings()
    if of.startswith(SETTING) and (name := of.removeprefix(SETTING).strip()) in settings:
        return Subject("setting", name)
    entries = [one for one in notebook.labelled(of) if one.kind in REPORTED and not one.withdrawn]
    if of in settings and entries:
        raise Inconsistent(
            "a setting and an entry have this name",
            where="of",
            got=of,
            fix=f'Write "{SETTING} {of}" for the setting, or the id {entries[0].id} for the '
            f"{entries[0].kind}.",
        )
    if of in settings:
        return Subject("setting", of)
    if len(entries) > 1:
        ids = ", ".join(f"{one.id} ({one.kind})" for one in entries[:6])
        raise Inconsistent(
            "more than one entry has this label", where="of", got=of, fix=f"Use an id: {ids}."
        )
    entry = entries[0] if entries else _by_id(notebook, of)
    return Subject(entry.kind, entry.label, entry)


def _by_id(notebook: Notebook, of: str) -> Entry:
    known = {one.label for kind in REPORTED for one in notebook.entries(kind=kind, last=MOST_RUNS)}
    known |= set(notebook.settings())
    nothing = NotFound(
        "no run, setting, reaction or rig of the notebook answers to this",
        where="of",
        got=of,
        fix=nearest(of, known) if known else "The notebook is empty: ozonewright add FILE.toml.",
    )
    try:
        entry = notebook.get(of)
    except NotFound as error:
        raise nothing from error
    if entry.kind not in REPORTED:
        raise nothing
    return entry


def wanted_of(subject: Subject, only: Sequence[str] = ()) -> frozenset[str]:
    """Return the questions that a report asks: those named, else all that are quick enough.

    Raises
    ------
    InputError
        A word that is no question of a report.
    """
    for word in only:
        if word not in (*QUESTIONS, ALL):
            raise InputError(
                "this is no question of a report", where="only", got=word,
                fix=nearest(word, (*QUESTIONS, ALL)),
            )  # fmt: skip
    if ALL in only:
        return frozenset(QUESTIONS)
    if only:
        return frozenset(only)
    return frozenset(QUESTIONS) - (SLOW if subject.kind == "notebook" else frozenset())
