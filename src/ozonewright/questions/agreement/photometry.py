"""Cases about light: ozone in the gas, triiodide, indigo, dissolved ozone."""

from __future__ import annotations

from typing import Any

from ozonewright.physics.assay.photometry import (
    absorption_coefficient,
    concentration_from_absorbance,
    cross_section,
    ozone_fraction_from_absorbance,
    ozone_from_indigo,
)
from ozonewright.questions.agreement.reading import Binding, Found, Inputs, si
from ozonewright.references.constants import M_O3, O3_ABSORPTIVITY_2019, constant
from ozonewright.uncertain import Measured, propagate
from ozonewright.units import Kind, size

SETS = {"2019": "O3_ABSORPTIVITY_2019", "1961": "O3_ABSORPTIVITY_1961"}


def _seen(inputs: Inputs) -> float:
    found = concentration_from_absorbance(
        absorbance=si(inputs, "absorbance", Kind.DIMENSIONLESS),
        absorptivity=si(inputs, "absorptivity", Kind.ABSORPTIVITY),
        path=si(inputs, "path", Kind.LENGTH),
    )
    return float(found)


def _triiodide(inputs: Inputs) -> dict[str, Found]:
    seen = _seen(inputs)
    ozone = seen * si(inputs, "volume", Kind.VOLUME) * M_O3
    return {"triiodide": Found(seen, Kind.CONCENTRATION), "ozone": Found(ozone, Kind.MASS)}


def _dissolved(inputs: Inputs) -> dict[str, Found]:
    seen = _seen(inputs)
    return {
        "amount": Found(seen, Kind.CONCENTRATION),
        "dissolved": Found(seen * M_O3, Kind.MASS_CONCENTRATION),
    }


def _absorptivity(inputs: Inputs) -> dict[str, Found]:
    """Return one of our absorptivities in the two forms in which sources print it."""
    absorptivity = constant(SETS[inputs["set"]]).value
    pure = absorption_coefficient(
        absorptivity=absorptivity,
        temperature=si(inputs, "temperature", Kind.TEMPERATURE),
        pressure=si(inputs, "pressure", Kind.PRESSURE),
    )
    molecule = cross_section(absorptivity=absorptivity)
    return {
        "coefficient": Found(float(pure) * size(Kind.LENGTH, "cm"), "1/atm/cm"),
        "molecule": Found(float(molecule), Kind.AREA),
    }


def _molecule(inputs: Inputs, name: str) -> float:
    if inputs[name] in SETS:
        return float(cross_section(absorptivity=constant(SETS[inputs[name]]).value))
    return si(inputs, name, Kind.AREA)


def _change(inputs: Inputs) -> dict[str, Found]:
    new, old = (_molecule(inputs, name) for name in ("new", "old"))
    return {
        "change": Found(new / old - 1.0, Kind.SHARE),
        "readings": Found(old / new - 1.0, Kind.SHARE),
    }


def _cross_section(inputs: Inputs) -> dict[str, Found]:
    found = cross_section(absorptivity=si(inputs, "absorptivity", Kind.ABSORPTIVITY))
    return {"molecule": Found(float(found), Kind.AREA)}


def _indigo(inputs: Inputs) -> dict[str, Found]:
    found = ozone_from_indigo(
        bleached=si(inputs, "bleached", Kind.DIMENSIONLESS),
        absorptivity=si(inputs, "factor", Kind.MASS_ABSORPTIVITY),
        path=si(inputs, "path", Kind.LENGTH),
        sample=si(inputs, "sample", Kind.VOLUME),
        whole=si(inputs, "whole", Kind.VOLUME),
    )
    return {"dissolved": Found(float(found), Kind.MASS_CONCENTRATION)}


def _tolerances(inputs: Inputs) -> dict[str, Found]:
    """Return what the tolerances of a photometer do to its reading, each and together."""
    warm, pressure = (
        si(inputs, "at", Kind.TEMPERATURE),
        si(inputs, "near", Kind.PRESSURE),
    )
    given = {
        "path": Measured(1.0, si(inputs, "path", Kind.SHARE), "path", Kind.LENGTH),
        "temperature": Measured(
            warm,
            si(inputs, "temperature", Kind.TEMPERATURE_DIFFERENCE),
            "temperature",
            Kind.TEMPERATURE,
        ),
        "pressure": Measured(
            pressure,
            si(inputs, "pressure", Kind.PRESSURE_DIFFERENCE),
            "pressure",
            Kind.PRESSURE,
        ),
    }

    def relative(*doubtful: str) -> Found:
        exact = {name: one.value for name, one in given.items() if name not in doubtful}

        def reading(**drawn: Any) -> Any:
            return ozone_fraction_from_absorbance(
                absorbance=1.0, absorptivity=O3_ABSORPTIVITY_2019, **exact, **drawn
            )

        found = propagate(reading, {name: given[name] for name in doubtful})
        return Found(found.u / found.value, Kind.SHARE)

    return {
        "of_temperature": relative("temperature"),
        "of_pressure": relative("pressure"),
        "together": relative(*given),
    }


BINDINGS: dict[str, Binding] = {
    "photometry.absorptivity": _absorptivity,
    "photometry.change": _change,
    "photometry.cross_section": _cross_section,
    "photometry.dissolved": _dissolved,
    "photometry.indigo": _indigo,
    "photometry.tolerances": _tolerances,
    "photometry.triiodide": _triiodide,
}
