"""A notebook in the hands of a Python user, for reading."""

from __future__ import annotations

from collections.abc import Sequence
from importlib import import_module
from pathlib import Path
from types import TracebackType
from typing import Self

from ozonewright.bench.claim import claim_of_setting
from ozonewright.bench.clearance import clearance_of
from ozonewright.bench.clock import now
from ozonewright.bench.compare import compare_settings
from ozonewright.bench.count import Asked, answered_anew, count_so_far
from ozonewright.bench.detector import read_detector
from ozonewright.bench.drift import drift_of_notebook
from ozonewright.bench.duty import timer as run_on_timer
from ozonewright.bench.gas_use import use_of_gas
from ozonewright.bench.gate import TYPED, gate_of
from ozonewright.bench.generator import TEXTS, generator_of_notebook
from ozonewright.bench.notebook import document_of, entry_of
from ozonewright.bench.planned import planned_reaction
from ozonewright.bench.power import power_of
from ozonewright.bench.reaction import plan_of_label
from ozonewright.bench.report import RunPart, parts, setting_part
from ozonewright.bench.room import load_room
from ozonewright.bench.settled import settled_setting
from ozonewright.bench.subject import subject_of
from ozonewright.errors import InputError, MissingValue
from ozonewright.notebook import Notebook
from ozonewright.python.answers import Answer, known
from ozonewright.python.hazards import room as ozone_in
from ozonewright.python.questions import plan_answer
from ozonewright.python.settings import claim_answer, comparison_answer, generator_answer
from ozonewright.python.supply import (
    METER,
    OF_A_NOTEBOOK,
    SUPPLY,
    TIMER,
    absorber,
    duty_answer,
    gas_use_answer,
    power_answer,
)
from ozonewright.questions.absorber import Absorber
from ozonewright.questions.claim import Claim
from ozonewright.questions.clearance import Clearance
from ozonewright.questions.comparison import Comparison
from ozonewright.questions.count import Count
from ozonewright.questions.drift import Drift
from ozonewright.questions.duty import Duty
from ozonewright.questions.gas_use import GasUse
from ozonewright.questions.gate import Gate
from ozonewright.questions.generator import Generator
from ozonewright.questions.output import Output
from ozonewright.questions.power import Power
from ozonewright.questions.reaction.result import ReactionPlan
from ozonewright.questions.room.detector import DetectorAnswer
from ozonewright.questions.room.result import RoomAnswer
from ozonewright.questions.setting import SettingOutput
from ozonewright.show.clearance import clearance_text
from ozonewright.show.count import count_text
from ozonewright.show.drift import drift_text
from ozonewright.show.gate import gate_text
from ozonewright.show.output import output_text
from ozonewright.show.room import asked_text
from ozonewright.show.setting import setting_text
from ozonewright.show.sheet.count import count_section
from ozonewright.show.sheet.reaction import clearance_section, gate_section
from ozonewright.show.sheet.room import detector_section
from ozonewright.show.sheet.run import run_section
from ozonewright.show.sheet.setting import drift_section, setting_section

COUNTED = Asked(answered_anew, planned_reaction, settled_setting)


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

    def compare(self, first: str, second: str, difference: str | None = None) -> Answer[Comparison]:
        """Return two settings beside each other."""
        return comparison_answer(compare_settings(self._notebook, first, second, difference))

    def claim(self, setting: str, label: str) -> Answer[Claim]:
        """Return a label such as ``"4 g/h"`` beside a setting."""
        return claim_answer(claim_of_setting(self._notebook, setting, label))

    def generator(self, setting: str | None = None, **asked: str) -> Answer[Generator]:
        """Return where the generator of a setting, or of all runs, runs on its map."""
        known(asked, (*TEXTS, "log"))
        return generator_answer(generator_of_notebook(self._notebook, setting, asked))

    def gas_use(self, **supply: str) -> Answer[GasUse]:
        """Return how long a cylinder lasts; the runs tell the lowest flow that will do."""
        known(supply, SUPPLY)
        return gas_use_answer(use_of_gas(supply, self._notebook))

    def duty(self, **timer: str) -> Answer[Duty]:
        """Return what a timer does.

        ``setting`` and ``at`` say whose output, ``readings`` whose temperatures were logged.
        """
        known(timer, (*TIMER, *OF_A_NOTEBOOK))
        return duty_answer(run_on_timer(timer, self._notebook))

    def power(self, setting: str, **read: str) -> Answer[Power]:
        """Return the powers of a setting, with its output and its readings at the plug."""
        known(read, METER)
        return power_answer(power_of({**read, "setting": setting}, self._notebook))

    def absorber(self, rig: str, **asked: str) -> Answer[Absorber]:
        """Return how much of the ozone the bottles of a rig take up."""
        return absorber(document_of(entry_of(self._notebook, "rig", rig)), **asked)

    def room(self, room: str, **ways: str) -> Answer[RoomAnswer]:
        """Return what people breathe when ozone gets into a room."""
        return ozone_in(document_of(entry_of(self._notebook, "room", room)), 0, **ways)

    def detector(self, room: str) -> Answer[DetectorAnswer]:
        """Return what the detector's readings logged of a room tell of it."""
        record = load_room(document_of(entry_of(self._notebook, "room", room)))
        found = read_detector(self._notebook, record)
        return Answer(found, lambda one: asked_text(None, None, one), detector_section)

    def count(self, label: str) -> Answer[Count]:
        """Return what the bench events of a run or reaction add up to."""
        found = count_so_far(self._notebook, label, now(), COUNTED)
        return Answer(found, count_text, count_section)

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

    def report(
        self,
        out: str | Path,
        of: str | None = None,
        paper: str = "a4",
        only: Sequence[str] = (),
    ) -> Path:
        """Write a report: ``.pdf``, ``.html``, or a folder of tables and figures.

        ``only`` names the further questions it asks, by the words of their commands.
        """
        report = import_module("ozonewright.report.write")
        wish = report.Wish(paper, tuple(only))
        report.write(self._notebook, subject_of(self._notebook, of), Path(out), wish)
        return Path(out)


def open_notebook(path: str | Path) -> Book:
    """Open a notebook file for reading."""
    return Book(Notebook.open(Path(path), read_only=True))
