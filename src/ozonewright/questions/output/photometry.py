"""Ozone by photometer: the gas in a cell, the yellow of the bottles, indigo bleached."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from ozonewright.errors import Inconsistent
from ozonewright.physics.assay.photometry import (
    absorption_coefficient,
    concentration_from_absorbance,
    cross_section,
    iodine_from_triiodide,
    ozone_fraction_from_absorbance,
    ozone_from_indigo,
    ozone_rate_from_fraction,
)
from ozonewright.physics.chemistry.iodine import triiodide_constant
from ozonewright.questions.output.gas import dry_flow
from ozonewright.questions.output.sheet import ROOM_TEMPERATURE, Calculation, Sheet, Values, nothing
from ozonewright.records.run import Indigo, Run, Triiodide, Ultraviolet
from ozonewright.references.constants import (
    M_KI,
    M_O3,
    NORMAL_PRESSURE,
    NORMAL_TEMPERATURE,
    O3_ABSORPTIVITY_1961,
    O3_ABSORPTIVITY_2019,
    constant,
)
from ozonewright.results import Level, Note
from ozonewright.uncertain import Measured
from ozonewright.units import Kind, number, size

CLEARLY = 2.0
"""Standard uncertainties below zero from which a reading is no scatter of the zero."""
DARK, PALE = 1.5, 0.05
"""Absorbances between which a plain photometer is good (common practice, no source)."""
CROSS_SECTION = {"2019": "O3_ABSORPTIVITY_2019", "1961": "O3_ABSORPTIVITY_1961"}


def _shipped(sheet: Sheet, name: str, words: str) -> Calculation:
    datum = constant(name)
    sheet.sources.append(datum.source)
    return sheet.take(
        Measured(datum.value, datum.u or 0.0, words, datum.kind, basis=datum.evidence)
    )


def ultraviolet_of(sheet: Sheet, run: Run, cell: Ultraviolet) -> None:
    """Put the fraction of ozone on the sheet and, where the flow is known, its rate."""
    absorptivity = _shipped(sheet, CROSS_SECTION[cell.cross_section], "absorptivity of ozone")
    absorbance, path = sheet.take(cell.absorbance), sheet.take(cell.path)
    warm, pressure = sheet.take(cell.temperature), sheet.take(cell.pressure)

    def fraction(v: Values) -> Any:
        return ozone_fraction_from_absorbance(
            absorbance=absorbance(v),
            absorptivity=absorptivity(v),
            path=path(v),
            temperature=warm(v),
            pressure=pressure(v),
        )

    sheet.outputs["mole_fraction"] = fraction
    sheet.outputs["concentration"] = lambda v: fraction(v) * M_O3
    flow = dry_flow(sheet, run.gas)
    if flow is None:
        return
    behind = run.gas.meter.at == "after bottles"
    rate: Calculation = (
        (lambda v: fraction(v) * flow(v))
        if behind
        else lambda v: ozone_rate_from_fraction(mole_fraction=fraction(v), feed_flow=flow(v))
    )
    sheet.outputs["rate"] = rate
    sheet.outputs["rate_mass"] = lambda v: rate(v) * M_O3
    if run.on_time is not None:
        on_time = sheet.take(run.on_time)
        sheet.outputs["ozone"] = lambda v: rate(v) * on_time(v)


def triiodide_of(sheet: Sheet, assay: Triiodide) -> None:
    """Put the ozone of all bottles on the sheet: one ozone frees one iodine."""
    absorptivity = _shipped(sheet, "I3_ABSORPTIVITY", "absorptivity of triiodide")
    path = sheet.take(assay.path)
    blank = sheet.take(assay.blank) if assay.blank else nothing
    if assay.blank is None:
        sheet.unknowns.append("triiodide.blank")
    _check_iodide(assay)
    dilution = _dilution(sheet, assay)
    whole = _whole(sheet, assay)
    each: list[Calculation] = []
    for place, readings in enumerate(assay.absorbances):
        reading = sheet.mean(readings)
        volume = sheet.take(assay.volumes[place if len(assay.volumes) > 1 else 0])
        each.append(_bottle(reading, blank, absorptivity, path, whole, dilution, volume))
        sheet.outputs[f"ozone_{place + 1}"] = each[-1]

    def together(v: Values) -> Any:
        return sum(one(v) for one in each)

    sheet.outputs["ozone"] = together
    if len(each) > 1 and sheet.clear_of_zero(together):
        sheet.outputs["guard_share"] = lambda v: each[-1](v) / together(v)


def _bottle(
    reading: Calculation,
    blank: Calculation,
    absorptivity: Calculation,
    path: Calculation,
    whole: Callable[[Values, Any], Any],
    dilution: Calculation,
    volume: Calculation,
) -> Calculation:
    def ozone(v: Values) -> Any:
        triiodide = concentration_from_absorbance(
            absorbance=reading(v) - blank(v), absorptivity=absorptivity(v), path=path(v)
        )
        return whole(v, triiodide) * dilution(v) * volume(v)

    return ozone


def _check_iodide(assay: Triiodide) -> None:
    """Refuse a cell with less iodide than the triiodide that was read in it."""
    if assay.iodide is None:
        return
    blank = assay.blank.value if assay.blank else 0.0
    iodide = assay.iodide.value / M_KI
    for place, readings in enumerate(assay.absorbances, start=1):
        darkest = max(one.value for one in readings) - blank
        seen = float(
            concentration_from_absorbance(
                absorbance=darkest,
                absorptivity=constant("I3_ABSORPTIVITY").value,
                path=assay.path.value,
            )
        )
        if seen >= iodide:
            raise Inconsistent(
                f"bottle {place} holds more triiodide than the iodide stated",
                where="triiodide.potassium_iodide",
                got=f"{number(assay.iodide.value, Kind.MASS_CONCENTRATION, 'g/L'):.3g} g/L",
                fix="State the iodide in the cell, after dilution: for this reading at least "
                f"{number(seen * M_KI, Kind.MASS_CONCENTRATION, 'g/L'):.2g} g/L.",
            )


def _dilution(sheet: Sheet, assay: Triiodide) -> Calculation:
    if assay.aliquot is None or assay.made_up_to is None:
        return lambda v: 1.0
    aliquot, whole = sheet.take(assay.aliquot), sheet.take(assay.made_up_to)
    return lambda v: whole(v) / aliquot(v)


def _whole(sheet: Sheet, assay: Triiodide) -> Callable[[Values, Any], Any]:
    """Return what makes all iodine of the part that is triiodide."""
    if assay.iodide is None:
        sheet.unknowns.append("triiodide.potassium_iodide")
        sheet.assumed.append("photometry-all-bound")
        return lambda v, triiodide: triiodide
    sheet.sources.append("palmer_1984")
    salt = sheet.take(assay.iodide)
    warm = sheet.take(assay.temperature) if assay.temperature else lambda v: ROOM_TEMPERATURE
    return lambda v, triiodide: iodine_from_triiodide(
        triiodide=triiodide,
        iodide=salt(v) / M_KI,
        constant=triiodide_constant(temperature=warm(v)),
    )


def indigo_of(sheet: Sheet, assay: Indigo) -> None:
    """Put the dissolved ozone on the sheet."""
    absorptivity = _shipped(sheet, "INDIGO_ABSORPTIVITY", "absorptivity of indigo")
    sheet.sources.append("bader_1981")
    blank, left = sheet.take(assay.blank), sheet.take(assay.absorbance)
    path, sample, whole = (sheet.take(one) for one in (assay.path, assay.sample, assay.made_up_to))
    sheet.outputs["dissolved"] = lambda v: ozone_from_indigo(
        bleached=blank(v) - left(v),
        absorptivity=absorptivity(v),
        path=path(v),
        sample=sample(v),
        whole=whole(v),
    )


def photometric_notes(run: Run) -> Iterator[Note]:
    """Yield what may have moved a photometric result."""
    if run.ultraviolet is not None:
        yield from _range(run.ultraviolet.absorbance, "the cell")
        yield from _too_much(run.ultraviolet)
        yield _as_printed(run.ultraviolet)
        yield Note("photometry-before-bottles", "advice")
    if run.triiodide is not None:
        blank = run.triiodide.blank
        for place, readings in enumerate(run.triiodide.absorbances, start=1):
            for reading in readings:
                yield from _range(reading, f"bottle {place}")
                if blank and blank.value - reading.value > CLEARLY * (blank.u + reading.u):
                    yield Note("titre-below-blank", "wrong", {"bottle": place})
        yield Note("photometry-absorptivity", "doubt")
        if run.triiodide.blank is None:
            yield Note("photometry-no-blank", "doubt")
    if run.indigo is not None:
        yield Note("photometry-dissolved", "doubt")
        bleached = 1.0 - run.indigo.absorbance.value / run.indigo.blank.value
        if bleached > INDIGO_MOST:
            level: Level = "wrong" if bleached > 1.0 else "doubt"
            yield Note("photometry-indigo-spent", level, {"share": bleached})
        if bleached <= 0.0:
            yield Note("photometry-indigo-none", "doubt")


def _too_much(cell: Ultraviolet) -> Iterator[Note]:
    fraction = float(
        ozone_fraction_from_absorbance(
            absorbance=cell.absorbance.value,
            absorptivity=constant(CROSS_SECTION[cell.cross_section]).value,
            path=cell.path.value,
            temperature=cell.temperature.value,
            pressure=cell.pressure.value,
        )
    )
    if fraction > STRONGEST:
        yield Note("photometry-too-much", "wrong", {"fraction": fraction})


def _as_printed(cell: Ultraviolet) -> Note:
    """Return the absorptivity in the two forms in which a photometer's papers print it."""
    absorptivity = constant(CROSS_SECTION[cell.cross_section]).value
    pure = absorption_coefficient(
        absorptivity=absorptivity, temperature=NORMAL_TEMPERATURE, pressure=NORMAL_PRESSURE
    )
    return Note(
        "photometry-cross-section",
        "advice",
        {
            "used": cell.cross_section,
            "shift": O3_ABSORPTIVITY_1961 / O3_ABSORPTIVITY_2019 - 1.0,
            "molecule": cross_section(absorptivity=absorptivity),
            "pure": pure * size(Kind.LENGTH, "cm"),
        },
    )


STRONGEST = 0.25
"""Ozone in the gas above which no bench generator goes (common practice, no source)."""
INDIGO_MOST = 0.9
"""Bleached share above which the reagent may have run out (common practice, no source)."""


def _range(reading: Measured, where: str) -> Iterator[Note]:
    if reading.value < -CLEARLY * reading.u:
        yield Note("photometry-negative", "wrong", {"value": reading.value, "where": where})
    elif reading.value > DARK:
        yield Note("photometry-dark", "doubt", {"value": reading.value, "where": where})
    elif reading.value < PALE:
        yield Note("photometry-pale", "doubt", {"value": reading.value, "where": where})
