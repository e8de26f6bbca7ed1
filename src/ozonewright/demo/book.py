"""The worked example as a notebook."""

from __future__ import annotations

from pathlib import Path

from ozonewright.bench.notebook import add_file, add_table
from ozonewright.demo.truth import TRUTH
from ozonewright.demo.written import reaction_files, rig_files, room_files
from ozonewright.documents.load import read_text
from ozonewright.errors import Inconsistent
from ozonewright.notebook import Notebook

NAME = "demo.sqlite"
LABEL = "garden workshop (invented demo)"


def keep(folder: Path) -> Path:
    """Keep the run documents of a folder as a notebook beside them, once.

    Raises
    ------
    Inconsistent
        A notebook is there already and lacks a run of the example.
    """
    path = folder / NAME
    labels = [run.label for run in TRUTH.runs]
    if path.exists():
        with Notebook.open(path, read_only=True) as notebook:
            there = {entry.label for entry in notebook.entries(kind="run", withdrawn=True)}
        if missing := [label for label in labels if label not in there]:
            raise Inconsistent(
                "the notebook that is there already is not the demo's",
                where=str(path),
                got="without " + ", ".join(missing[:3]),
                fix="Give an empty or a new folder, or move it away.",
            )
        return path
    with Notebook.create(path, LABEL) as notebook, notebook.atomic():
        for name, text in (rig_files() | room_files()).items():
            add_table(notebook, read_text(text), source=f"file {Path(name).name}")
        for label in labels:
            add_file(notebook, folder / "runs" / f"{label}.toml")
        for name, text in reaction_files().items():
            add_table(notebook, read_text(text), source=f"file {Path(name).name}")
    return path
