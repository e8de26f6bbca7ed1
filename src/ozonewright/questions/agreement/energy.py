"""Cases about energy: the least that ozone can cost, and the yield at the plug."""

from __future__ import annotations

from ozonewright.physics.generator.energy import highest_yield
from ozonewright.questions.agreement.reading import Binding, Found, Inputs, si
from ozonewright.units import Kind, number


def _limit(inputs: Inputs) -> dict[str, Found]:
    enthalpy = si(inputs, "formation_enthalpy", Kind.MOLAR_ENERGY)
    best = float(highest_yield(formation_enthalpy=enthalpy))
    return {
        "yield": Found(best, Kind.YIELD),
        "energy": Found(1.0 / number(best, Kind.YIELD, "kg/kWh"), "kWh/kg"),
    }


def _share_of_limit(inputs: Inputs) -> dict[str, Found]:
    reached = si(inputs, "yield", Kind.YIELD)
    return {"share": Found(reached / _limit(inputs)["yield"].value, Kind.SHARE)}


def _yield(inputs: Inputs) -> dict[str, Found]:
    rate, power = si(inputs, "rate", Kind.MASS_RATE), si(inputs, "power", Kind.POWER)
    return {"yield": Found(rate / power, Kind.YIELD)}


BINDINGS: dict[str, Binding] = {
    "energy.limit": _limit,
    "energy.share_of_limit": _share_of_limit,
    "energy.yield": _yield,
}
