"""What the photometric assays of the output say."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from ozonewright.references.constants import R
from ozonewright.show.numbers import percent, quantity, significant
from ozonewright.units import Kind


def _cell(**v: Any) -> str:
    return (
        f"ozone in the cell: {significant(v['absorbance'])} × {significant(R)} J/mol/K × "
        f"{v['temperature']:.2f} K ÷ ({quantity(v['absorptivity'], Kind.ABSORPTIVITY, 'L/mol/cm')} × "
        f"{quantity(v['path'], Kind.LENGTH, 'cm', figures=3)} × "
        f"{quantity(v['pressure'], Kind.PRESSURE, 'kPa')}) = "
        f"{quantity(v['fraction'], Kind.MOLE_FRACTION, 'vol%', figures=3)}"
    )


def _yellow(**v: Any) -> str:
    net = significant(v["absorbance"])
    if v["blank"]:
        net = f"({net} − {significant(v['blank'])})"
    diluted = f" × {significant(v['dilution'], 3)} (dilution)" if v["dilution"] != 1.0 else ""
    bound = "" if v["free"] == 1.0 else f" × {significant(v['free'])} (free iodine)"
    return (
        f"bottle {v['bottle']}: {net} ÷ ({quantity(v['absorptivity'], Kind.ABSORPTIVITY, 'L/mol/cm')} × "
        f"{quantity(v['path'], Kind.LENGTH, 'cm', figures=3)}){bound}{diluted} × "
        f"{quantity(v['volume'], Kind.VOLUME, 'mL', figures=3)} = "
        f"{quantity(v['ozone'], Kind.AMOUNT, 'mmol')}"
    )


def _indigo(**v: Any) -> str:
    return (
        f"dissolved: ({significant(v['blank'])} − {significant(v['absorbance'])}) ÷ "
        f"({quantity(v['absorptivity'], Kind.MASS_ABSORPTIVITY, 'L/mg/cm', figures=2)} × "
        f"{quantity(v['path'], Kind.LENGTH, 'cm', figures=3)}) × "
        f"{quantity(v['whole'], Kind.VOLUME, 'mL', figures=3)} ÷ "
        f"{quantity(v['sample'], Kind.VOLUME, 'mL', figures=3)} = "
        f"{quantity(v['dissolved'], Kind.MASS_CONCENTRATION, 'mg/L')}"
    )


def _cross_section(**v: Any) -> str:
    printed = (
        f"({quantity(v['molecule'], Kind.AREA, 'cm2', figures=4)} a molecule, "
        f"{significant(v['pure'])} for each atmosphere and centimetre at 0 °C)"
    )
    if v["used"] == "2019":
        return (
            f"Read with the cross-section of 2019 {printed}. The one in force before 2025 gives "
            f"{percent(v['shift'])} less ozone."
        )
    return (
        f"Read with the earlier cross-section {printed}. That of 2019 gives "
        f"{percent(v['shift'])} more ozone."
    )


SENTENCES: dict[str, Callable[..., str]] = {
    "photometry-cell": _cell,
    "photometry-yellow": _yellow,
    "photometry-indigo": _indigo,
    "photometry-cross-section": _cross_section,
    "photometry-before-bottles": lambda: (
        "Ozone as it stands in the cell, before the bottles; what is lost in the line up to the cell is not "
        "counted. Dry gas is taken for granted."
    ),
    "photometry-absorptivity": lambda: (
        "The published absorptivities of triiodide range from 25 000 to 27 600 L/mol/cm (from memory): that "
        "is 3 % of the result. Calibrate with iodate in your own cell to do better."
    ),
    "photometry-no-blank": lambda: (
        "No blank: iodide that stood in the light is yellow by itself. Read the same solution without ozone."
    ),
    "photometry-all-bound": lambda: (
        "Iodide in the cell not stated: all iodine is taken as triiodide, which reads low, by 1 to 2 % at "
        "0.1 mol/L of iodide and more if diluted with water."
    ),
    "photometry-dark": lambda value, where: (
        f"Absorbance {significant(value, 3)} in {where}: above 1.5 a plain photometer reads low. Dilute, or "
        "take a shorter path."
    ),
    "photometry-pale": lambda value, where: (
        f"Absorbance {significant(value, 2)} in {where}: below 0.05 the last digit decides. Take a longer "
        "path, or run longer."
    ),
    "photometry-negative": lambda value, where: (
        f"Absorbance {significant(value, 2)} in {where} is below zero: the zero was taken on something "
        "darker. Take it anew, the cell filled and the gas or solution without ozone."
    ),
    "photometry-too-much": lambda fraction: (
        f"{quantity(fraction, Kind.MOLE_FRACTION, 'vol%', figures=2)} of ozone: no bench generator makes "
        "so much. Check the path of the cell and its unit."
    ),
    "photometry-lone": lambda: (
        "A lone reading: it can't show how readings scatter. Read three times, the zero in between."
    ),
    "photometry-add-flow": lambda: "Add gas.flow: then the output follows from the concentration.",
    "photometry-dissolved": lambda: (
        "Indigo tells what was dissolved when the sample was taken, not what the generator delivers. Sample "
        "and read within minutes; bromine and chlorine bleach too."
    ),
    "photometry-indigo-spent": lambda share: (
        f"{percent(share)} of the indigo is bleached: there may have been more ozone than it could take. "
        "Take a smaller sample."
    ),
    "photometry-indigo-none": lambda: "Nothing was bleached: no ozone that this sample can show.",
}
