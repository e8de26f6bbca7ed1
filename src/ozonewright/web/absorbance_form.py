"""The fields of a run whose ozone was read as an absorbance, and not titrated."""

from __future__ import annotations

from collections.abc import Iterable

from ozonewright.web.form import Field, Group

CROSS_SECTIONS = (
    ("", "not stated: that of 2019"),
    ("2019", "of 2019"),
    ("1961", "of 1961, in force before 2025"),
)


def absorbance_groups(numbers: Iterable[int]) -> tuple[Group, ...]:
    """Return a group for each assay by absorbance; `numbers` are those of the bottles."""
    return (_ultraviolet(), _triiodide(numbers), _indigo())


def _ultraviolet() -> Group:
    at = "ultraviolet."
    return Group(
        "Instead of a titre: the gas in ultraviolet light, 253.65 nm",
        (
            Field(
                at + "absorbance",
                "Absorbance, that of bare gas taken off",
                "0.690 ± 0.005",
            ),
            Field(at + "path", "Path of the gas cell", "1.00 mm ± 0.005 mm"),
            Field(at + "temperature", "Temperature of the gas in the cell", "22 °C"),
            Field(at + "pressure", "Pressure in the cell, absolute", "101.3 kPa"),
            Field(at + "cross_section", "Cross-section", kind="choice", choices=CROSS_SECTIONS),
        ),
    )


def _triiodide(numbers: Iterable[int]) -> Group:
    at = "triiodide."
    return Group(
        "Instead of a titre: the yellow of the iodide, 352 nm",
        (
            *(
                Field(
                    f"{at}absorbances[{number}]",
                    f"Absorbance of bottle {number}",
                    "0.664, or 0.664; 0.668" if number == 1 else "0.031",
                    "repeats",
                )
                for number in numbers
            ),
            Field(at + "blank", "Absorbance of the blank", "0.004"),
            Field(at + "path", "Path of the cuvette", "1.00 cm"),
            Field(at + "volume", "Liquid of each bottle", "200 mL, or 200 mL; 180 mL", "repeats"),
            Field(at + "aliquot", "Pipetted from the bottle", "5.00 mL"),
            Field(at + "made_up_to", "Made up to", "100 mL"),
            Field(at + "potassium_iodide", "Potassium iodide in the cuvette", "20 g/L"),
            Field(at + "temperature", "Temperature of the cuvette", "20 °C"),
        ),
    )


def _indigo() -> Group:
    at = "indigo."
    return Group(
        "Ozone dissolved in the liquid, by indigo, 600 nm",
        (
            Field(at + "blank", "Absorbance of the reagent with water", "0.900"),
            Field(at + "absorbance", "Absorbance with the sample", "0.400"),
            Field(at + "path", "Path of the cuvette", "5.00 cm"),
            Field(at + "sample", "Sample", "90 mL"),
            Field(at + "made_up_to", "Made up to", "100 mL"),
        ),
    )
