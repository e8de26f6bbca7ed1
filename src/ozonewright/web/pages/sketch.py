"""The drawing of a rig as part of a page."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from ozonewright.bench.rig import rig_of
from ozonewright.notebook import Entry, Notebook
from ozonewright.questions.output import Output
from ozonewright.records.rig import Rig
from ozonewright.show.drawing import Readout, rig_drawing
from ozonewright.uncertain import Estimate
from ozonewright.web.pages.common import entry_path


@dataclass(frozen=True, slots=True)
class Sketch:
    """One drawing across and one downwards; the style sheet shows the one that fits."""

    label: str
    path: str
    across: Markup
    down: Markup
    caption: str


def sketch_of(entry: Entry, found: Output | None = None) -> Sketch:
    """Return the drawing of a rig, with the concentration of a run made with it."""
    rig = rig_of(entry.data)
    drawn = rig_drawing(rig, readout(rig, found))
    return Sketch(
        entry.label,
        entry_path(entry.id, "rig"),
        Markup(drawn.wide),
        Markup(drawn.tall),
        drawn.caption,
    )


def readout(rig: Rig, found: Output | None) -> Readout:
    """Return what is known of the gas in a rig."""
    concentration: dict[str, float] = {}
    tubes = rig.of_kind("discharge tube")
    if found is not None and isinstance(found.concentration, Estimate) and len(tubes) == 1:
        concentration[tubes[0].name] = found.concentration.value
    caption = f"Concentration: run {found.label}." if found and concentration else ""
    return Readout(concentration=concentration, caption=caption)


def rig_of_run(notebook: Notebook, run: Entry) -> Entry | None:
    """Return the rig that a run was made with, as it stands; None where the run names none."""
    name = str((run.data.get("run") or {}).get("rig") or "")
    rigs = [entry for entry in notebook.entries(kind="rig") if entry.label == name]
    return rigs[-1] if rigs else None
