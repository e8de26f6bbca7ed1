"""Cases about absorption: solubility, diffusion, bubbles, transfer."""

from __future__ import annotations

from ozonewright.physics.liquid.bubble import (
    bubble_davidson_1960,
    bubble_tate_1864,
    rise,
    rise_mendelson_1967,
)
from ozonewright.physics.liquid.diffusivity import diffusivity_johnson_1996
from ozonewright.physics.liquid.enhancement import iodide_rate
from ozonewright.physics.liquid.solubility import (
    henry_constant,
    partition,
    partition_morris_1988,
    salting_out,
)
from ozonewright.physics.liquid.transfer import (
    kl_calderbank_1961,
    kl_froessling_1938,
    kl_higbie_1935,
    kl_lamont_1970,
    kl_of_bubble,
    mobility,
)
from ozonewright.questions.agreement.reading import Binding, Found, Inputs, si
from ozonewright.references.constants import M_O3, R
from ozonewright.references.liquid_surface import DENSITY_AT, SURFACE_AT, liquid
from ozonewright.references.liquid_viscosity import viscosities_of
from ozonewright.references.ozone_solubility import absorption, henry_sets
from ozonewright.units import Kind, size

NANO = 1e-9


def _figure(inputs: Inputs, name: str) -> float:
    return si(inputs, name, Kind.DIMENSIONLESS)


def _kelvin(inputs: Inputs) -> float:
    return si(inputs, "temperature", Kind.TEMPERATURE)


def _henry(inputs: Inputs) -> float:
    (found,) = (one for one in henry_sets() if one.name == inputs["set"])
    henry = henry_constant(henry=found.henry, slope=found.slope, temperature=_kelvin(inputs))
    return float(henry)


def _dissolved(inputs: Inputs) -> dict[str, Found]:
    dissolved = _henry(inputs) * si(inputs, "pressure", Kind.PRESSURE) * M_O3
    return {"dissolved": Found(float(dissolved), Kind.MASS_CONCENTRATION)}


def _partition(inputs: Inputs) -> dict[str, Found]:
    found = partition(henry=_henry(inputs), temperature=_kelvin(inputs))
    return {"partition": Found(float(found), Kind.DIMENSIONLESS)}


def _morris(inputs: Inputs) -> dict[str, Found]:
    found = partition_morris_1988(celsius=_figure(inputs, "celsius"))
    return {"partition": Found(float(found), Kind.DIMENSIONLESS)}


def _volatility(inputs: Inputs) -> dict[str, Found]:
    """Return the pressure of ozone over a solution of 1 mol/L."""
    over = size(Kind.CONCENTRATION, "mol/L") / _henry(inputs)
    return {"volatility": Found(over, Kind.PRESSURE)}


def _salting(inputs: Inputs) -> dict[str, Found]:
    factor = salting_out(
        ionic_strength=_figure(inputs, "ionic_strength"),
        temperature=_kelvin(inputs),
        coefficient=absorption("SALTING").value,
        slope=absorption("SALTING_SLOPE").value,
    )
    return {"rise": Found(float(1.0 / factor - 1.0), Kind.DIMENSIONLESS)}


def _diffusivity(inputs: Inputs) -> dict[str, Found]:
    found = diffusivity_johnson_1996(temperature=_kelvin(inputs))
    return {"diffusivity": Found(float(found / NANO), Kind.DIMENSIONLESS)}


def _bubble_tate(inputs: Inputs) -> dict[str, Found]:
    found = bubble_tate_1864(
        orifice=si(inputs, "orifice", Kind.LENGTH),
        surface_tension=_figure(inputs, "tension"),
        density=si(inputs, "density", Kind.MASS_CONCENTRATION),
    )
    return {"bubble": Found(float(found), Kind.LENGTH)}


def _bubble_davidson(inputs: Inputs) -> dict[str, Found]:
    found = bubble_davidson_1960(flow=si(inputs, "flow", Kind.VOLUME_FLOW))
    return {"bubble": Found(float(found), Kind.LENGTH)}


def _rise(inputs: Inputs) -> dict[str, Found]:
    found = rise_mendelson_1967(
        bubble=si(inputs, "bubble", Kind.LENGTH),
        surface_tension=_figure(inputs, "tension"),
        density=si(inputs, "density", Kind.MASS_CONCENTRATION),
    )
    return {"rise": Found(float(found), Kind.VELOCITY)}


def _higbie(inputs: Inputs) -> dict[str, Found]:
    found = kl_higbie_1935(
        diffusivity=diffusivity_johnson_1996(temperature=_kelvin(inputs)),
        rise=si(inputs, "rise", Kind.VELOCITY),
        bubble=si(inputs, "bubble", Kind.LENGTH),
    )
    return {"kl": Found(float(found), Kind.VELOCITY)}


def _kinematic(inputs: Inputs) -> tuple[float, float]:
    diffusivity = float(diffusivity_johnson_1996(temperature=_kelvin(inputs)))
    return diffusivity, _figure(inputs, "schmidt") * diffusivity


def _calderbank(inputs: Inputs) -> dict[str, Found]:
    diffusivity, kinematic = _kinematic(inputs)
    return {
        name: Found(
            float(
                kl_calderbank_1961(
                    diffusivity=diffusivity,
                    kinematic_viscosity=kinematic,
                    large=name == "large",
                )
            ),
            Kind.VELOCITY,
        )
        for name in ("large", "small")
    }


def _lamont(inputs: Inputs) -> dict[str, Found]:
    diffusivity, kinematic = _kinematic(inputs)
    found = kl_lamont_1970(
        diffusivity=diffusivity, kinematic_viscosity=kinematic, power=_figure(inputs, "power")
    )
    return {"kl": Found(float(found), Kind.VELOCITY)}


def _bubble_kl(inputs: Inputs) -> dict[str, Found]:
    bubble, kelvin = si(inputs, "bubble", Kind.LENGTH), _kelvin(inputs)
    water, viscosity = liquid("water"), viscosities_of("water").viscosities[1]
    density = water.density + water.density_slope * (kelvin - DENSITY_AT)
    tension = water.surface_tension + water.surface_slope * (kelvin - SURFACE_AT)
    own = rise(bubble=bubble, viscosity=viscosity, surface_tension=tension, density=density)
    diffusivity = diffusivity_johnson_1996(temperature=kelvin)
    found = kl_of_bubble(
        still=kl_froessling_1938(
            diffusivity=diffusivity,
            rise=own,
            bubble=bubble,
            kinematic_viscosity=viscosity / density,
        ),
        moving=kl_higbie_1935(diffusivity=diffusivity, rise=own, bubble=bubble),
        mobility=mobility(
            bubble=bubble,
            still=absorption("RIGID_BELOW").value,
            moving=absorption("MOBILE_ABOVE").value,
        ),
    )
    return {"kl": Found(float(found), Kind.VELOCITY)}


def _iodide_rate(inputs: Inputs) -> dict[str, Found]:
    found = iodide_rate(
        factor=absorption("IODIDE_FACTOR").value,
        energy=absorption("IODIDE_ENERGY").value,
        temperature=_kelvin(inputs),
        gas_constant=R,
    )
    return {"rate": Found(float(found), Kind.RATE_CONSTANT)}


BINDINGS: dict[str, Binding] = {
    "absorption.dissolved": _dissolved,
    "absorption.partition": _partition,
    "absorption.morris": _morris,
    "absorption.volatility": _volatility,
    "absorption.salting": _salting,
    "absorption.diffusivity": _diffusivity,
    "absorption.bubble_tate": _bubble_tate,
    "absorption.bubble_davidson": _bubble_davidson,
    "absorption.rise": _rise,
    "absorption.higbie": _higbie,
    "absorption.calderbank": _calderbank,
    "absorption.lamont": _lamont,
    "absorption.bubble_kl": _bubble_kl,
    "absorption.iodide_rate": _iodide_rate,
}
