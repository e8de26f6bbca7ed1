"""The whole measurement of one run on one sheet."""

from __future__ import annotations

from collections.abc import Sequence

from ozonewright.questions.output.gas import gas_of
from ozonewright.questions.output.photometry import indigo_of, triiodide_of, ultraviolet_of
from ozonewright.questions.output.sheet import Calculation, Sheet
from ozonewright.questions.output.titration import FieldBlank, iodide_of_bottles, titrate
from ozonewright.records.run import Run
from ozonewright.references.constants import M_O3
from ozonewright.units import Kind


def sheet_of(run: Run, field_blanks: Sequence[FieldBlank] = ()) -> Sheet:
    """Return the sheet of a run, field blanks in place of the reagent blank."""
    sheet = Sheet()
    _amounts(sheet, run, field_blanks)
    if run.ultraviolet is not None:
        ultraviolet_of(sheet, run, run.ultraviolet)
    if run.indigo is not None:
        indigo_of(sheet, run.indigo)
    if "ozone" in sheet.outputs:
        _rates(sheet, run)
    if "rate" in sheet.outputs:
        gas_of(sheet, run.gas)
        _yield(sheet, run)
        _discharge_yield(sheet, run)
    return sheet


def _amounts(sheet: Sheet, run: Run, field_blanks: Sequence[FieldBlank]) -> None:
    on_time = sheet.take(run.on_time) if run.on_time else None
    if run.titration is not None:
        titrate(sheet, run.titration, on_time, field_blanks)
        iodide_of_bottles(sheet, run.bottles, len(run.titration.titres))
    elif run.triiodide is not None:
        triiodide_of(sheet, run.triiodide)
    elif run.collected is not None:
        collected = sheet.take(run.collected)
        per = M_O3 if run.collected.kind is Kind.MASS else 1.0
        sheet.outputs["ozone"] = lambda v: collected(v) / per
    elif run.rate is not None and on_time is not None:
        rate = _typed_rate(sheet, run)
        sheet.outputs["ozone"] = lambda v: rate(v) * on_time(v)
    elif run.rate is not None:
        rate = _typed_rate(sheet, run)
        sheet.outputs["rate"] = rate
        sheet.outputs["rate_mass"] = lambda v: rate(v) * M_O3


def _typed_rate(sheet: Sheet, run: Run) -> Calculation:
    assert run.rate is not None
    rate = sheet.take(run.rate)
    per = M_O3 if run.rate.kind is Kind.MASS_RATE else 1.0
    return lambda v: rate(v) / per


def _rates(sheet: Sheet, run: Run) -> None:
    ozone = sheet.outputs["ozone"]
    sheet.outputs["ozone_mass"] = lambda v: ozone(v) * M_O3
    if run.on_time is None:
        sheet.unknowns.append("run.on_time")
        return
    on_time = sheet.take(run.on_time)
    sheet.outputs["rate"] = lambda v: ozone(v) / on_time(v)
    sheet.outputs["rate_mass"] = lambda v: ozone(v) * M_O3 / on_time(v)


def _yield(sheet: Sheet, run: Run) -> None:
    if run.power is None:
        sheet.unknowns.append("electrical.power")
        return
    power, rate = sheet.take(run.power), sheet.outputs["rate_mass"]
    sheet.outputs["energy_yield"] = lambda v: rate(v) / power(v)


def _discharge_yield(sheet: Sheet, run: Run) -> None:
    if run.discharge_power is None:
        return
    power, rate = sheet.take(run.discharge_power), sheet.outputs["rate_mass"]
    sheet.outputs["yield_discharge"] = lambda v: rate(v) / power(v)
