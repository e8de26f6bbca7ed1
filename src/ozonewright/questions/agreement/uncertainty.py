"""Cases of the uncertainty guides, on the inputs that the case prints."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import combinations
from math import inf

from ozonewright.questions.agreement import guides
from ozonewright.questions.agreement.reading import Binding, Found, Inputs, si
from ozonewright.uncertain import (
    Measured,
    coverage_factor,
    from_tolerance,
    monte_carlo,
    propagate,
)
from ozonewright.uncertain.expansion import Expansion, expand
from ozonewright.uncertain.origins import ALONE, Origins, gather
from ozonewright.units import Kind

DRAWS = 1_000_000
"""As many as the guide takes; the tolerances of the cases are meant for it."""
SCALE = {"mA": 1e-3}
"""Printed units that differ from those of the measurement function, in the latter."""
NORMAL_LEVEL = 0.95

A1 = {
    "mass": ("m",),
    "purity": ("P",),
    "volume": ("V_flask",),
    "repeatability": ("V_filling",),
    "expansion": ("V_temperature",),
}
"""Each argument of a measurement function: the inputs of the case that add up to it."""
PHTHALATE = {
    "gross": ("m", "m_gross"),
    "tare": ("m_tare",),
    "purity": ("P",),
    "carbon": ("C",),
    "hydrogen": ("H",),
    "oxygen": ("O",),
    "potassium": ("K",),
    "repeatability": ("R",),
}
A2 = PHTHALATE | {"titre": ("V", "V_burette"), "titre_expansion": ("V_temperature",)}
A3 = PHTHALATE | {
    "titre": ("V1", "V1_burette"),
    "titre_expansion": ("V1_temperature",),
    "acid_titre": ("V2", "V2_burette"),
    "acid_titre_expansion": ("V2_temperature",),
    "pipette": ("V3", "V3_pipette"),
    "pipette_expansion": ("V3_temperature",),
}
H1 = {
    "standard": ("ls",),
    "comparison": ("d0",),
    "random_effect": ("d1",),
    "systematic_effect": ("d2",),
    "expansion": ("alpha_s",),
    "expansion_difference": ("delta_alpha",),
    "temperature": ("theta_mean",),
    "cycle": ("theta_cyclic",),
    "temperature_difference": ("delta_theta",),
}
H2 = {"voltage": "V", "current": "I", "phase": "phi"}
IMPEDANCE = {"R": "resistance", "X": "reactance", "Z": "impedance"}
MASS = {
    "reference": ("m",),
    "added": ("delta",),
    "air": ("air",),
    "weight": ("rho_w",),
    "reference_weight": ("rho_r",),
}
SUM = {f"x{place}": (f"X{place}",) for place in (1, 2, 3, 4)}
SQUARES = {"x1": ("X1",), "x2": ("X2",)}

Function = Callable[..., guides.Numeric]
Names = Mapping[str, tuple[str, ...]]


def _measured(inputs: Inputs, names: Names) -> dict[str, Measured]:
    """Return each argument: the sum of its inputs, of which one at most has an uncertainty."""
    return {argument: _one(inputs, *parts) for argument, parts in names.items()}


def _one(inputs: Inputs, *parts: str) -> Measured:
    total = sum(float(inputs[part]["value"]) for part in parts)
    name = parts[-1]
    stated = inputs[name]
    dof = float(stated.get("dof", inf))
    if "half_width" in stated:
        width = float(stated["half_width"])
        return from_tolerance(total, width, stated["shape"], name, Kind.DIMENSIONLESS, dof=dof)
    return Measured(
        total,
        float(stated["u"]),
        name,
        Kind.DIMENSIONLESS,
        shape=stated["shape"],
        dof=dof,
    )


def _first_order(function: Function, inputs: Mapping[str, Measured]) -> tuple[Expansion, Origins]:
    """Return the function near the best estimates: what the guide works out first."""
    origins = gather(inputs, None)
    return expand(function, origins)[0][ALONE], origins


def _plain_example(function: Function, names: Names, unit: str) -> Binding:
    def binding(inputs: Inputs) -> dict[str, Found]:
        found = propagate(function, _measured(inputs, names))
        return {"concentration": Found(found.value, unit), "u": Found(found.u, unit)}

    return binding


def _cadmium(inputs: Inputs) -> dict[str, Found]:
    volumes = {name: A1[name] for name in ("volume", "repeatability", "expansion")}
    parts = _measured(inputs, volumes)
    volume = propagate(guides.sum_of, parts)
    found = _plain_example(guides.cadmium_standard, A1, "mg/L")(inputs)
    return {**found, "u_volume": Found(volume.u, "mL")}


def _end_gauge(inputs: Inputs) -> dict[str, Found]:
    near, origins = _first_order(guides.end_gauge, _measured(inputs, H1))
    u, dof = near.u(origins), near.dof(origins)
    return {
        "length": Found(near.value, "nm"),
        "u": Found(u, "nm"),
        "dof": Found(dof, ""),
        "U99": Found(coverage_factor(0.99, dof) * u, "nm"),
    }


def _impedance(inputs: Inputs) -> dict[str, Found]:
    readings = {
        argument: [float(one) * SCALE.get(inputs[name]["unit"], 1.0) for one in rows]
        for argument, name in H2.items()
        for rows in [inputs[name]["readings"]]
    }
    found = propagate(
        guides.impedance,
        guides.impedance_inputs(readings),
        correlation=guides.impedance_correlation(readings),
    )
    values = {sign: Found(found[name].value, "ohm") for sign, name in IMPEDANCE.items()}
    spreads = {f"u_{sign}": Found(found[name].u, "ohm") for sign, name in IMPEDANCE.items()}
    tied = {
        f"r_{a}{b}": Found(found.correlation(IMPEDANCE[a], IMPEDANCE[b]), "")
        for a, b in combinations(IMPEDANCE, 2)
    }
    return {**values, **spreads, **tied}


def _drawn(function: Function, inputs: Mapping[str, Measured], unit: str) -> dict[str, Found]:
    samples = monte_carlo(function, inputs, draws=DRAWS)
    near, origins = _first_order(function, inputs)
    low, high = samples.interval
    return {
        "value": Found(samples.mean, unit),
        "u": Found(samples.u, unit),
        "u_first_order": Found(near.u(origins), unit),
        "low": Found(low, unit),
        "high": Found(high, unit),
        "half_interval": Found((high - low) / 2.0, unit),
        "half_interval_normal": Found(coverage_factor(NORMAL_LEVEL, inf) * near.u(origins), unit),
    }


def _by_draws(function: Function, names: Names, unit: str) -> Binding:
    return lambda inputs: _drawn(function, _measured(inputs, names), unit)


def _temperature_of_volume(inputs: Inputs) -> dict[str, Found]:
    width = guides.volume_expansion(
        volume=si(inputs, "volume", Kind.VOLUME),
        expansion=si(inputs, "expansion", Kind.EXPANSION),
        half_range=si(inputs, "half_range", Kind.TEMPERATURE_DIFFERENCE),
    )
    flat = from_tolerance(0.0, float(width), "rectangular", "expansion", Kind.VOLUME)
    return {
        "half_width": Found(float(width), Kind.VOLUME),
        "u_rectangular": Found(flat.u, Kind.VOLUME),
        "u_normal": Found(float(width) / coverage_factor(NORMAL_LEVEL, inf), Kind.VOLUME),
    }


BINDINGS: dict[str, Binding] = {
    "uncertainty.gum_h1": _end_gauge,
    "uncertainty.gum_h2": _impedance,
    "uncertainty.mass_calibration": _by_draws(guides.mass_deviation, MASS, "mg"),
    "uncertainty.quam_a1": _cadmium,
    "uncertainty.quam_a2": _plain_example(guides.sodium_hydroxide, A2, "mol/L"),
    "uncertainty.quam_a3": _plain_example(guides.hydrochloric_acid, A3, "mol/L"),
    "uncertainty.sum": _by_draws(guides.sum_of_four, SUM, ""),
    "uncertainty.sum_of_squares": _by_draws(guides.comparison_loss, SQUARES, ""),
    "uncertainty.temperature_of_volume": _temperature_of_volume,
}
