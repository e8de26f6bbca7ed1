"""The answers of stored runs; an answer is worked out once for each revision."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from ozonewright.bench.output import outputs
from ozonewright.notebook import Entry, Notebook
from ozonewright.questions.output import Output
from ozonewright.web.desk import Desk


def answers(desk: Desk, notebook: Notebook, entries: Iterable[Entry]) -> list[Output]:
    """Return the output of each run, with the field blanks of its setting."""
    blanks: dict[str, list[Entry]] = {}
    return [_answer(desk, run, _blanks(notebook, run, blanks)) for run in entries]


def _answer(desk: Desk, run: Entry, blanks: Sequence[Entry]) -> Output:
    key = (run.digest, *(blank.digest for blank in blanks))
    known = desk.answers.get(key)
    if known is not None:
        return known
    return desk.answers.put(key, outputs([run.data, *(blank.data for blank in blanks)])[0])


def is_field_blank(run: Entry) -> bool:
    """Return whether a run was made with the discharge off."""
    return (run.data.get("run") or {}).get("discharge") == "off"


def setting_of(run: Entry) -> str:
    """Return the setting of a run, or nothing."""
    return str((run.data.get("run") or {}).get("setting") or "")


def _blanks(notebook: Notebook, run: Entry, known: dict[str, list[Entry]]) -> list[Entry]:
    setting = setting_of(run)
    if not setting or is_field_blank(run):
        return []
    if setting not in known:
        runs = notebook.entries(kind="run", setting=setting)
        known[setting] = [one for one in runs if is_field_blank(one)]
    return known[setting]
