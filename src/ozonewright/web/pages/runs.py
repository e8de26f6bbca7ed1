"""The run list, and what a search finds."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from starlette.requests import Request
from starlette.routing import Route

from ozonewright import results
from ozonewright.notebook import Entry, Notebook
from ozonewright.questions.output import Output
from ozonewright.show.pages import RunNumbers, run_numbers
from ozonewright.show.words import sentence
from ozonewright.web.answers import answers, setting_of
from ozonewright.web.pages.common import entry_path, stored
from ozonewright.web.view import Page, desk_of

AT_ONCE = 50
MOST_FOUND = 50


@dataclass(frozen=True, slots=True)
class RunRow:
    """One line of the run list."""

    label: str
    path: str
    setting: str
    numbers: RunNumbers
    note: str = ""
    withdrawn: bool = False


@dataclass(frozen=True, slots=True)
class OtherRow:
    """An entry that is no run."""

    label: str
    kind: str
    path: str


@dataclass(frozen=True)
class RunsPage(Page):
    """A list of runs."""

    template = "runs.html"
    caption: str
    runs: tuple[RunRow, ...] = ()
    others: tuple[OtherRow, ...] = ()
    query: str = ""
    told: str = ""
    older: str = ""


def run_rows(entries: Iterable[Entry], found: Iterable[Output]) -> tuple[RunRow, ...]:
    """Return the lines of the run list."""
    return tuple(_row(entry, result) for entry, result in zip(entries, found, strict=True))


def _row(entry: Entry, result: Output) -> RunRow:
    return RunRow(
        entry.label,
        entry_path(entry.id),
        setting_of(entry),
        run_numbers(results.plain(result, sentence)),
        _note(entry, result),
        entry.withdrawn,
    )


def _note(entry: Entry, result: Output) -> str:
    """Return the one thing to know about a run in the list."""
    doubts = sum(note.level == "doubt" for note in result.notes)
    if entry.withdrawn:
        return "withdrawn"
    if any(note.level == "wrong" for note in result.notes):
        return "can’t be true"
    if result.discharge == "off":
        return "field blank"
    return f"{doubts} doubt{'s' if doubts > 1 else ''}" if doubts else ""


@stored
def runs(request: Request, notebook: Notebook) -> Page:
    """Show all runs, the last first, fifty at once; withdrawn ones struck out."""
    page = request.query_params.get("page", "1")
    number = int(page) if page.isdecimal() and len(page) < 6 else 1
    entries = notebook.entries(kind="run", last=number * AT_ONCE + 1, withdrawn=True)[::-1]
    shown = entries[(number - 1) * AT_ONCE : number * AT_ONCE]
    return RunsPage(
        title="Runs",
        caption=f"Page {number}" if number > 1 else "The last first",
        runs=_listed(request, notebook, shown),
        older=f"/runs?page={number + 1}" if len(entries) > number * AT_ONCE else "",
    )


@stored
def search(request: Request, notebook: Notebook) -> Page:
    """Show the entries that hold every word searched for."""
    text = request.query_params.get("q", "").strip()[:200]
    entries = notebook.search(text) if text else []
    shown = entries[:MOST_FOUND]
    count = f"{len(entries)} entries hold" if len(entries) != 1 else "1 entry holds"
    more = f" The last {MOST_FOUND} are shown." if len(entries) > MOST_FOUND else ""
    return RunsPage(
        title="Search",
        caption="Runs",
        runs=_listed(request, notebook, [one for one in shown if one.kind == "run"]),
        others=tuple(
            OtherRow(one.label, one.kind, entry_path(one.id, one.kind))
            for one in shown
            if one.kind != "run"
        ),
        query=text,
        told=f"{count} “{text}”.{more}",
    )


def _listed(request: Request, notebook: Notebook, entries: Sequence[Entry]) -> tuple[RunRow, ...]:
    return run_rows(entries, answers(desk_of(request), notebook, entries))


ROUTES = (Route("/runs", runs), Route("/search", search))
