"""Why the runs of a setting disagree: from points, files, a table or the notebook."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from ozonewright.bench.load import Source, load_runs
from ozonewright.bench.notebook import labelled
from ozonewright.bench.series import in_order, series_of
from ozonewright.documents.table import as_one, points
from ozonewright.documents.typed import Typed, typed
from ozonewright.errors import (
    AppError,
    Faults,
    Inconsistent,
    MissingValue,
    NotFound,
    nearest,
)
from ozonewright.notebook import Notebook
from ozonewright.questions.drift import Drift, Known, Rig, SeriesRun, Start, drift
from ozonewright.records import run as records
from ozonewright.references.constants import M_KI
from ozonewright.units import Kind

FIELDS: dict[str, tuple[Kind, ...]] = {
    "titrant": (Kind.CONCENTRATION,),
    "flow": (Kind.VOLUME_FLOW,),
    "iodide": (Kind.MASS,),
    "volume": (Kind.VOLUME,),
    "rest": (Kind.TIME,),
    "hold_up": (Kind.TIME,),
    "temperature": (Kind.TEMPERATURE,),
    "time_constant": (Kind.TIME,),
    "cold_excess": (Kind.SHARE,),
}
"""What may be said of all runs at once, and what kind of quantity it is."""


LIMITS: dict[str, dict[str, Any]] = {
    "rest": {"least": 0.0},
    "hold_up": {"least": 0.0},
    "cold_excess": {"above": -1.0},
}
"""What is not simply above nought."""


@dataclass(frozen=True, slots=True)
class About:
    """What is said of all runs of the series, as typed."""

    texts: Mapping[str, str | None] = field(default_factory=dict)
    """By the names of `FIELDS`."""
    start: Start | None = None
    in_order: bool = False
    """The runs were made in the order in which they are given."""
    field_blanks: tuple[str, ...] = ()
    """Points of runs with the discharge off: "8 min: 2 mg"."""
    warmth: Mapping[str, Known] = field(default_factory=dict)
    """``settling`` of the tube and ``excess`` of its cold output, from a log and a fit."""

    @property
    def says_nothing(self) -> bool:
        """Whether it leaves the runs to speak for themselves."""
        said = (*self.texts.values(), self.start, self.in_order, self.field_blanks, self.warmth)
        return not any(said)


def drift_of_points(texts: Iterable[str], about: About | None = None) -> Drift:
    """Return the answer for points such as ``2 min: 0.92 g/h``."""
    about = about or About()
    documents = [*points(texts), *_blanks(about)]
    titrant = about.texts.get("titrant")
    if not titrant and any("titration" in document for document in documents):
        raise MissingValue(
            "titres need the strength of the titrant",
            where="titrant",
            fix='Say it with --titrant "0.1 mol/L", or give rates or masses.',
        )
    if titrant:
        documents = [_with_titrant(document, titrant) for document in documents]
    return drift_of([as_one(documents)] if documents else [], about)


def _blanks(about: About) -> list[dict[str, Any]]:
    found = points(about.field_blanks)
    for document in found:
        document["run"]["discharge"] = "off"
    return found


def _with_titrant(document: dict[str, Any], titrant: str) -> dict[str, Any]:
    if "titration" not in document:
        return document
    return document | {"titration": document["titration"] | {"titrant": {"concentration": titrant}}}


def drift_of_notebook(
    notebook: Notebook, setting: str, about: About | None = None, last: int | None = None
) -> Drift:
    """Return the answer for the (last) runs of a setting that stand, field blanks included."""
    if setting not in notebook.settings():
        raise NotFound(
            "no run of this setting stands in the notebook",
            got=setting,
            fix=nearest(setting, notebook.settings()),
        )
    entries = notebook.entries(kind="run", setting=setting, last=last)
    return drift_of([labelled(entry) for entry in entries], about)


def drift_of(
    sources: Sequence[Source], about: About | None = None, setting: str | None = None
) -> Drift:
    """Return the answer for the runs of files or tables, all of one setting."""
    runs = load_runs(sources) if sources else ()
    return drift_of_runs(_of_one_setting(runs, setting), about, setting)


def drift_of_runs(
    chosen: Sequence[records.Run], about: About | None = None, setting: str | None = None
) -> Drift:
    """Return the same of runs that are read already, all of one setting."""
    about = about or About()
    read = _read(about)
    ordered, known = in_order(chosen)
    rig = Rig(
        hold_up=_value(read, "hold_up"),
        titrant=_value(read, "titrant"),
        temperature=_value(read, "temperature"),
        settling=_known(read, "time_constant") or about.warmth.get("settling"),
        excess=_known(read, "cold_excess") or about.warmth.get("excess"),
    )
    found = [_filled(run, read, about) for run in series_of(ordered)]
    name = next((run.setting for run in chosen if run.setting), None)
    last = next((run.titration for run in reversed(ordered) if run.titration), None)
    if rig.titrant is None and last is not None and last.titrant.stated is not None:
        rig = replace(rig, titrant=last.titrant.stated.value)
    return drift(found, rig, order=known or about.in_order, setting=setting or name)


def _of_one_setting(runs: Sequence[records.Run], setting: str | None) -> tuple[records.Run, ...]:
    names = sorted({run.setting for run in runs if run.setting})
    if setting is not None:
        if setting not in names:
            raise NotFound("no run is of this setting", got=setting, fix=nearest(setting, names))
        return tuple(run for run in runs if run.setting == setting)
    if len(names) > 1:
        raise Inconsistent(
            "runs of more than one setting",
            where="run.setting",
            got=", ".join(names),
            fix="Name the one that is meant with --setting; drift is of one setting.",
        )
    return tuple(runs)


def _read(about: About) -> dict[str, Typed]:
    read: dict[str, Typed] = {}
    faults: list[AppError] = []
    for name, text in about.texts.items():
        if not text:
            continue
        try:
            read[name] = typed(text, FIELDS[name], **LIMITS.get(name, {"above": 0.0}))
        except AppError as error:
            faults.append(error.at(name))
    if faults:
        raise Faults(faults)
    return read


def _value(read: Mapping[str, Typed], name: str) -> float | None:
    return read[name].value if name in read else None


def _filled(run: SeriesRun, read: Mapping[str, Typed], about: About) -> SeriesRun:
    """Return the run with what was said of all runs, where it says nothing itself."""
    iodide = _value(read, "iodide")
    salt = None if iodide is None else iodide / M_KI
    start = about.start if run.discharge_on else None
    return replace(
        run,
        flow=_or(run.flow, _value(read, "flow")),
        iodide=_or(run.iodide, salt),
        volume=_or(run.volume, _value(read, "volume")),
        rest=_or(run.rest, _value(read, "rest")),
        start=run.start or start,
    )


def _known(read: Mapping[str, Typed], name: str) -> Known | None:
    return Known(read[name].value, read[name].u) if name in read else None


def _or(own: float | None, said: float | None) -> float | None:
    return said if own is None else own
