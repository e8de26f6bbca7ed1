"""The drawing of a rig as part of a page."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from ozonewright.bench.concentration import concentrations
from ozonewright.bench.gas_line import answer
from ozonewright.bench.rig import rig_of
from ozonewright.errors import AppError
from ozonewright.notebook import Entry, Notebook
from ozonewright.questions.gas_line import GasLine
from ozonewright.questions.output import Output
from ozonewright.show.drawing import Drawing, Readout, rig_drawing
from ozonewright.show.gas_line_drawing import readout_of
from ozonewright.show.numbers import quantity
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind
from ozonewright.web.pages.common import entry_path


@dataclass(frozen=True, slots=True)
class Sketch:
    """One drawing across and one downwards; the style sheet shows the one that fits."""

    label: str
    path: str
    across: Markup
    down: Markup
    caption: str
    told: str = ""
    """Why no flow stands on it."""


def sketch_of(entry: Entry, found: Output | None = None) -> Sketch:
    """Return the drawing of a rig with its flow, and the concentration of a run made with it."""
    rig = rig_of(entry.data)
    concentration = concentrations(rig, found)
    beside = _of_run(found, len(concentration) > 1) if found and concentration else ""
    told = ""
    try:
        known = readout_of(rig, answer(entry.data), concentration, beside)
    except AppError as error:
        known = Readout(concentration=concentration, caption=beside)
        told = f"No flow can be worked out: {error}"
    return _sketch(rig_drawing(rig, known), entry.label, entry_path(entry.id, "rig"), told)


def line_of(table: Mapping[str, Any]) -> GasLine:
    """Return the flow through a rig."""
    return answer(table)


def sketch_of_line(table: Mapping[str, Any], found: GasLine, path: str) -> Sketch:
    """Return the drawing of a rig whose flow is known."""
    rig = rig_of(table)
    return _sketch(rig_drawing(rig, readout_of(rig, found)), rig.label or "", path)


def _sketch(drawn: Drawing, label: str, path: str, told: str = "") -> Sketch:
    return Sketch(label, path, Markup(drawn.wide), Markup(drawn.tall), drawn.caption, told)


def _of_run(found: Output, bottles: bool) -> str:
    """Return which run the concentration is from, and at which flow it was made."""
    flow = found.feed_flow
    at = ""
    if isinstance(flow, Estimate):
        at = f", fed with {quantity(flow.value, Kind.NORMAL_FLOW, 'NL/min', figures=3)}"
    passed = "; behind the bottles if each lets the same share pass" if bottles else ""
    return f"Concentration: run {found.label}{at}{passed}."


def rig_of_run(notebook: Notebook, run: Entry) -> Entry | None:
    """Return the rig that a run was made with, as it stands; None where the run names none."""
    name = str((run.data.get("run") or {}).get("rig") or "")
    rigs = [entry for entry in notebook.entries(kind="rig") if entry.label == name]
    return rigs[-1] if rigs else None
