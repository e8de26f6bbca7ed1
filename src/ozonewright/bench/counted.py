"""A counted run as the document it becomes: its minutes and titres as they were logged."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from ozonewright.bench.log import events_of, last_of, logged
from ozonewright.notebook import Entry, Notebook
from ozonewright.questions.count import Subject, count
from ozonewright.records.event import Moment

_BOTTLE = re.compile(r"titre of bottle (\d)")


def counted_run(notebook: Notebook, of: str, now: Moment) -> dict[str, Any]:
    """Return the table of a run that was counted at the bench, as far as it was logged."""
    entries = logged(notebook, of)
    found = count(events_of(entries), now, Subject(of))
    run: dict[str, Any] = {"label": of}
    if setting := last_of(entries, "setting"):
        run["setting"] = setting.data["entry"].get("value")
    began = next((row.when for row in found.events if row.what == "discharge on"), None)
    if began is not None:
        run["started"] = began.replace(tzinfo=None, microsecond=0)
    if found.on_time is not None and found.on_time.value > 0.0:
        run["on_time"] = f"{found.on_time.value:.0f} s ± {found.on_time.u:.1f} s"
    titres = _titres(entries)
    return {"run": run, "titration": {"titres": titres}} if titres else {"run": run}


def _titres(entries: Sequence[Entry]) -> list[str]:
    """Return the titre of each bottle from the first on, the last one kept of each."""
    tables = [entry.data["entry"] for entry in entries]
    found = {
        int(bottle[1]): str(table["value"])
        for table in tables
        if (bottle := _BOTTLE.fullmatch(table["what"]))
    }
    titres: list[str] = []
    while (value := found.get(len(titres) + 1)) is not None:
        titres.append(value)
    return titres
