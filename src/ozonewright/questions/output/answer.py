"""How much ozone came out, how sure that is, and what to do next."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from ozonewright import results
from ozonewright.physics.assay.iodometry import ozone_from_thiosulfate
from ozonewright.questions.output.judge import judge
from ozonewright.questions.output.model import sheet_of
from ozonewright.questions.output.photometry import photometric_notes
from ozonewright.questions.output.result import BottleRow, Output
from ozonewright.questions.output.sheet import Sheet
from ozonewright.questions.output.slips import slips
from ozonewright.questions.output.titration import FieldBlank
from ozonewright.questions.output.working import working
from ozonewright.records.run import Run
from ozonewright.references.constants import M_O3
from ozonewright.results import Note
from ozonewright.uncertain import Estimate, Measured, Propagated, alone, propagate
from ozonewright.units import Kind

MATTERS = 1.0
"""Per cent of the variance from which an uncertainty read off the digits is told."""
DIRECT = {
    "titrant": "titrant",
    "ozone": "ozone_mass",
    "ozone_amount": "ozone",
    "rate": "rate_mass",
    "rate_per_minute": "rate_mass",
    "rate_amount": "rate",
    "feed_flow": "feed_flow",
    "ozonised_flow": "ozonised_flow",
    "concentration": "concentration",
    "mass_fraction": "mass_fraction",
    "mole_fraction": "mole_fraction",
    "energy_yield": "energy_yield",
    "yield_discharge": "yield_discharge",
    "guard_share": "guard_share",
    "dissolved": "dissolved",
}
"""Field of the result: name on the sheet."""
OF_A_BLANK = ("titrant", "ozone", "ozone_amount")
"""With the discharge off nothing was made, so the titre is no output."""


def output(run: Run, field_blanks: Sequence[Run] = ()) -> Output:
    """Return the output of one run; field blanks of its setting replace its reagent blank."""
    usable, notes = _usable(run, field_blanks)
    sheet = sheet_of(run, usable)
    found = propagate(sheet.evaluate, sheet.inputs)
    values = {name: estimate.value for name, estimate in found.items()}
    if usable:
        values["field_blank"] = sum(blank.thiosulfate[0].value for blank in usable)
    notes += (*slips(run, values), *(Note(code, "advice") for code in sheet.assumed))
    notes += (*judge(run, values), *photometric_notes(run))
    key = next(name for name in _told(run) if name in found or name == LAST_TOLD)
    shares = found[key].budget if key in found else ()
    budget = tuple(
        results.Share(input=s.input, share=s.share_percent / 100.0)
        for s in shares
        if s.share_percent
    )
    if run.discharge_on:
        read = run.ultraviolet or run.triiodide or run.indigo
        notes += (Note("photometry-lone" if read else "readings-only", "advice"),)
    return Output(
        label=run.label,
        setting=run.setting,
        started=run.started,
        discharge="on" if run.discharge_on else "off",
        on_time=alone(run.on_time),
        **{
            name: found.get(key)
            for name, key in DIRECT.items()
            if run.discharge_on or name in OF_A_BLANK
        },
        power=alone(run.power),
        power_at=run.power_at,
        discharge_power=alone(run.discharge_power),
        iodide_ratio=_worst_ratio(found),
        bottles=tuple(_bottle_rows(run, values, bool(usable))),
        budget=budget,
        at_least=_at_least(sheet, budget),
        interval_method=found[key].method if key in found else "first order",
        working=tuple(working(run, values)),
        notes=notes,
        next=tuple(_next(run, sheet, budget, notes)),
        unknowns=_unknowns(run, sheet),
        sources=tuple(dict.fromkeys(_sources(run, sheet, notes))),
        methods=tuple(_methods(run)),
    )


LAST_TOLD = "ozone_mass"


def _told(run: Run) -> tuple[str, ...]:
    """Name what the answer is about, the best first: its budget and its interval are shown."""
    if not run.discharge_on:
        return (LAST_TOLD,)
    return ("rate_mass", "concentration", "dissolved", LAST_TOLD)


def field_blank(run: Run) -> FieldBlank | None:
    """Return what a run with the discharge off says about the blank, or None without titres."""
    if run.titration is None or run.on_time is None:
        return None
    bare = replace(run, titration=replace(run.titration, blanks=()))
    sheet = sheet_of(bare)
    found = propagate(sheet.evaluate, sheet.inputs)
    label = run.label or run.place
    per_bottle = tuple(
        Measured(
            found[f"thiosulfate_{place}"].value,
            found[f"thiosulfate_{place}"].u,
            f"field blank {label} of {run.on_time.value:g} s, bottle {place}",
            Kind.AMOUNT,
            basis="field blank",
        )
        for place in range(1, len(run.titration.titres) + 1)
    )
    return FieldBlank(label, run.on_time.value, per_bottle)


def _usable(run: Run, blanks: Sequence[Run]) -> tuple[tuple[FieldBlank, ...], tuple[Note, ...]]:
    """Return at most two field blanks (shortest and longest) of the same train of bottles."""
    if not run.discharge_on or run.titration is None:
        return (), ()
    notes: list[Note] = []
    found: dict[float, FieldBlank] = {}
    for blank in blanks:
        read = field_blank(blank)
        if read is None or len(read.thiosulfate) != len(run.titration.titres):
            notes.append(
                Note("field-blank-other-train", values={"label": blank.label or blank.place})
            )
            continue
        if differs := _differs(run, blank):
            notes.append(Note("field-blank-differs", values={"label": read.label, "in": differs}))
        found[read.on_time] = read
    times = sorted(found)
    ends = tuple(found[time] for time in dict.fromkeys([*times[:1], *times[-1:]]))
    if ends:
        notes.append(Note("field-blank-used", "advice", {"labels": tuple(b.label for b in ends)}))
    return ends, tuple(notes)


def _differs(run: Run, blank: Run) -> tuple[str, ...]:
    """Name what the field blank did not share with the run."""
    pairs = {
        "minutes": (run.on_time, blank.on_time),
        "flow": (run.gas.flow, blank.gas.flow),
        "acid": (_acid_volume(run), _acid_volume(blank)),
        "iodide": (_iodide_mass(run), _iodide_mass(blank)),
    }
    return tuple(
        name
        for name, (one, other) in pairs.items()
        if one is not None
        and other is not None
        and abs(one.value - other.value) > 2.0 * (one.u + other.u) + 0.02 * abs(one.value)
    )


def _acid_volume(run: Run) -> Measured | None:
    return run.acid.volume if run.acid else None


def _iodide_mass(run: Run) -> Measured | None:
    return run.bottles[0].iodide_mass if run.bottles else None


def _unknowns(run: Run, sheet: Sheet) -> tuple[str, ...]:
    """Name what was left empty and some answer waits for; a field blank needs no gas, no blank."""
    needless = () if run.discharge_on else ("titration.blank", "electrical.", "gas.")
    names = dict.fromkeys(sheet.unknowns)
    return tuple(name for name in names if not name.startswith(needless))


def _worst_ratio(found: Propagated) -> Estimate | None:
    ratios = [found[name] for name in found if name.startswith("iodide_ratio_")]
    positive = [ratio for ratio in ratios if ratio.value > 0.0]
    return min(positive, key=lambda ratio: ratio.value) if positive else None


def _bottle_rows(run: Run, values: dict[str, float], field: bool) -> Iterator[BottleRow]:
    if run.titration is None:
        return
    blanks = run.titration.blanks
    for place, readings in enumerate(run.titration.titres, start=1):
        used = values[f"thiosulfate_{place}"]
        ozone = float(ozone_from_thiosulfate(thiosulfate=used))
        blank = blanks[min(place, len(blanks)) - 1].value if blanks and not field else None
        yield BottleRow(
            bottle=place,
            titre=sum(reading.value for reading in readings) / len(readings),
            blank=blank,
            thiosulfate=used,
            ozone=ozone * M_O3,
            share=ozone / values["ozone"] if values["ozone"] else None,
            iodide=values.get(f"iodide_{place}"),
            ratio=values.get(f"iodide_ratio_{place}"),
        )


def _at_least(sheet: Sheet, budget: Sequence[results.Share]) -> bool:
    """Whether digits alone say how sure a reading is that matters."""
    bare = {one.name for one in sheet.inputs.values() if one.basis == "from digits"}
    return any(
        line.input in bare and line.share is not None and 100.0 * line.share >= MATTERS
        for line in budget
    )


def _next(
    run: Run, sheet: Sheet, budget: Sequence[results.Share], notes: Sequence[Note]
) -> Iterator[Note]:
    """What would make the answer better, most useful first; three at most are shown."""
    codes = {note.code for note in notes}
    for note in notes:
        if note.level == "wrong":
            yield Note("mend-first", "advice", {"code": note.code})
            return
    if "run.on_time" in sheet.unknowns and run.discharge_on:
        yield Note("type-on-time", "advice")
    if "no-blank" in codes:
        yield Note("titrate-blank", "advice")
    if "no-guard" in codes:
        yield Note("add-guard", "advice")
    if budget and run.discharge_on:
        largest = budget[0]
        basis = {one.name: one.basis for one in sheet.inputs.values()}.get(largest.input, "")
        yield Note(
            "largest-doubt",
            "advice",
            {
                "input": largest.input,
                "share": largest.share,
                "basis": basis,
                "diverted": run.start == "diverted",
            },
        )
    missing = [name for name in ("gas.flow", "electrical.power") if name in sheet.unknowns]
    if run.ultraviolet is not None and "gas.flow" in missing:
        yield Note("photometry-add-flow", "advice")
    elif missing and run.discharge_on and run.indigo is None:
        yield Note("type-more", "advice", {"fields": tuple(missing)})
    if run.discharge_on:
        yield Note("repeat-run", "advice")


def _sources(run: Run, sheet: Sheet, notes: Sequence[Note]) -> Iterator[str]:
    if run.titration is not None:
        yield "sac_undated"
    yield from sheet.sources
    if run.gas.flow is not None:
        yield "din_1990"
    for note in notes:
        yield from NOTE_SOURCES.get(note.code, ())


NOTE_SOURCES = {
    "titre-small": ("usp_2006",),
    "flow-high": ("ioa_1996",),
    "total-far": ("ioa_1996",),
    "frit-in-iodide": ("ioa_1996",),
    "iodine-carried": ("palmer_1984", "sander_2023"),
    "iodine-carried-guarded": ("palmer_1984", "sander_2023"),
    "above-enthalpy-limit": ("ruscic_2004",),
    "readings-only": ("gordon_1983",),
    "temperature-unknown": ("eurachem_2012",),
    "acid-short": ("haynes_2016",),
}


def _methods(run: Run) -> Iterator[str]:
    if run.ultraviolet is not None:
        yield f"ultraviolet absorbance of the gas, cross-section of {run.ultraviolet.cross_section}"
    if run.triiodide is not None:
        yield "triiodide at 352 nm: one ozone frees one iodine"
    if run.indigo is not None:
        yield "indigo at 600 nm"
    if run.titration is not None:
        yield "iodometry: one ozone frees one iodine, which takes two thiosulfate"
    yield "JCGM 100 first order, JCGM 101 where that is not good enough"
