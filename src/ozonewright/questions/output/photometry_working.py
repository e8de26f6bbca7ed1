"""The sum of a photometric assay as lines that a pocket calculator can follow."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from statistics import fmean

from ozonewright.questions.output.photometry import CROSS_SECTION
from ozonewright.records.run import Run
from ozonewright.references.constants import I3_ABSORPTIVITY, INDIGO_ABSORPTIVITY, constant
from ozonewright.results import Note


def photometric_working(run: Run, values: Mapping[str, float]) -> Iterator[Note]:
    """Yield each step with the readings that go in and the value that comes out."""
    if run.ultraviolet is not None:
        yield from _cell(run, values)
    if run.triiodide is not None:
        yield from _yellow(run, values)
    if run.indigo is not None:
        assay = run.indigo
        yield Note(
            "photometry-indigo",
            values={
                "blank": assay.blank.value,
                "absorbance": assay.absorbance.value,
                "absorptivity": INDIGO_ABSORPTIVITY,
                "path": assay.path.value,
                "sample": assay.sample.value,
                "whole": assay.made_up_to.value,
                "dissolved": values["dissolved"],
            },
        )


def _cell(run: Run, values: Mapping[str, float]) -> Iterator[Note]:
    cell = run.ultraviolet
    assert cell is not None
    yield Note(
        "photometry-cell",
        values={
            "absorbance": cell.absorbance.value,
            "temperature": cell.temperature.value,
            "absorptivity": constant(CROSS_SECTION[cell.cross_section]).value,
            "path": cell.path.value,
            "pressure": cell.pressure.value,
            "fraction": values["mole_fraction"],
        },
    )


def _yellow(run: Run, values: Mapping[str, float]) -> Iterator[Note]:
    assay = run.triiodide
    assert assay is not None
    dilution = 1.0
    if assay.aliquot is not None and assay.made_up_to is not None:
        dilution = assay.made_up_to.value / assay.aliquot.value
    for place, readings in enumerate(assay.absorbances, start=1):
        net = fmean(one.value for one in readings) - (assay.blank.value if assay.blank else 0.0)
        volume = assay.volumes[place - 1 if len(assay.volumes) > 1 else 0].value
        bound = net / (I3_ABSORPTIVITY * assay.path.value) * dilution * volume
        yield Note(
            "photometry-yellow",
            values={
                "bottle": place,
                "absorbance": fmean(reading.value for reading in readings),
                "blank": assay.blank.value if assay.blank else 0.0,
                "absorptivity": I3_ABSORPTIVITY,
                "path": assay.path.value,
                "free": values[f"ozone_{place}"] / bound if bound > 0.0 else 1.0,
                "dilution": dilution,
                "volume": volume,
                "ozone": values[f"ozone_{place}"],
            },
        )
