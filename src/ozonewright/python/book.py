"""A notebook in the hands of a Python user, for reading."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path
from types import TracebackType
from typing import Self

from ozonewright.bench.clearance import clearance_of
from ozonewright.bench.clock import now
from ozonewright.bench.drift import drift_of_notebook
from ozonewright.bench.gate import TYPED, gate_of
from ozonewright.bench.reaction import plan_of_label
from ozonewright.bench.report import RunPart, parts, setting_part, subject_of
from ozonewright.errors import InputError, MissingValue
from ozonewright.notebook import Notebook
from ozonewright.python.answers import Answer
from ozonewright.python.questions import known, plan_answer
from ozonewright.questions.clearance import Clearance
from ozonewright.questions.drift import Drift
from ozonewright.questions.gate import Gate
from ozonewright.questions.output import Output
from ozonewright.questions.reaction.result import ReactionPlan
from ozonewright.questions.setting import SettingOutput
from ozonewright.show.clearance import clearance_text
from ozonewright.show.drift import drift_text
from ozonewright.show.gate import gate_text
from ozonewright.show.output import output_text
from ozonewright.show.setting import setting_text
from ozonewright.show.sheet.reaction import clearance_section, gate_section
from ozonewright.show.sheet.run import run_section
from ozonewright.show.sheet.setting import drift_section, setting_section


class Book:
    """A notebook that is read and never written; close it, or use it with ``with``."""

    def __init__(self, notebook: Notebook) -> None:
        self._notebook = notebook

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    def close(self) -> None:
        """Close the file."""
        self._notebook.close()

    def __repr__(self) -> str:
        entries, _ = self._notebook.counts()
        return f"notebook {self._notebook.label}: {entries} entries"

    @property
    def runs(self) -> list[str]:
        """The labels of the runs that stand, in the order of entry."""
        return [entry.label for entry in self._notebook.entries(kind="run")]

    @property
    def settings(self) -> list[str]:
        """The settings of those runs, the last used first."""
        return self._notebook.settings()

    @property
    def reactions(self) -> list[str]:
        """The labels of the reactions that stand."""
        return [entry.label for entry in self._notebook.entries(kind="reaction")]

    def output(self, label: str) -> Answer[Output]:
        """Return the output of one run, field blanks of its setting taken off."""
        part = next(parts(self._notebook, subject_of(self._notebook, label)))
        if not isinstance(part, RunPart):
            raise InputError(
                "this is no run", got=label, fix="Name one of book.runs, or ask for its setting."
            )
        return Answer(part.found, output_text, run_section)

    def setting(self, name: str) -> Answer[SettingOutput]:
        """Return the output of a setting, and why its runs disagree."""
        subject = subject_of(self._notebook, f"setting: {name}")
        part = setting_part(self._notebook, subject.label)
        if part.mean is None:
            raise MissingValue(
                "no run of this setting has an output",
                got=name,
                fix="Give a run of it its on-time and what was collected.",
            )
        return Answer(
            part.mean,
            setting_text,
            lambda mean: setting_section(name, part.runs, mean, part.drift, part.trouble),
        )

    def drift(self, name: str) -> Answer[Drift]:
        """Return why the runs of a setting disagree, and what to measure next."""
        return Answer(drift_of_notebook(self._notebook, name), drift_text, drift_section)

    def reaction(self, label: str) -> Answer[ReactionPlan]:
        """Return the plan of a reaction."""
        return plan_answer(plan_of_label(self._notebook, label))

    def gate(self, reaction: str | None = None, **facts: str) -> Answer[Gate]:
        """Return the gate of a reaction, or of the rig that stands."""
        known(facts, TYPED)
        found = gate_of(self._notebook, reaction=reaction, texts=facts)
        return Answer(found, gate_text, gate_section)

    def clearance(self, reaction: str) -> Answer[Clearance]:
        """Return whether a solution may be evaporated now."""
        found = clearance_of(self._notebook, reaction, now().wall)
        return Answer(found, clearance_text, clearance_section)

    def report(self, out: str | Path, of: str | None = None, paper: str = "a4") -> Path:
        """Write a report: ``.pdf``, ``.html``, or a folder of tables and figures."""
        write = import_module("ozonewright.report.write").write
        write(self._notebook, subject_of(self._notebook, of), Path(out), paper)
        return Path(out)


def open_notebook(path: str | Path) -> Book:
    """Open a notebook file for reading."""
    return Book(Notebook.open(Path(path), read_only=True))
