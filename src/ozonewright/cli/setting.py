"""What ``ozonewright output --notebook`` answers."""

from __future__ import annotations

from pathlib import Path

from ozonewright.bench.notebook import outputs_of
from ozonewright.bench.setting import setting_output
from ozonewright.bench.settled import settled_setting
from ozonewright.notebook import Notebook
from ozonewright.show.output import outputs_text
from ozonewright.show.plain import as_json
from ozonewright.show.setting import setting_text


def answer(book: Path, setting: str | None, json_wanted: bool) -> str:
    """Return the outputs of a notebook's runs, or the mean of one setting."""
    with Notebook.open(book, read_only=True) as notebook:
        found = outputs_of(notebook, setting)
        if setting is None:
            return as_json(found) + "\n" if json_wanted else outputs_text(found)
        mean = setting_output(
            notebook, setting, found, settled_setting(notebook, setting) if found else None
        )
        return as_json(mean) + "\n" if json_wanted else setting_text(mean)
