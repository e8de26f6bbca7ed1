"""Cases about the gas in a discharge: rate constants, and how long an atom lives."""

from __future__ import annotations

from ozonewright.physics.generator.kinetics import arrhenius, oxygen_rates
from ozonewright.questions.agreement.reading import Binding, Found, Inputs, si
from ozonewright.references.discharge import PER_MOLE, gas_rate, of_three
from ozonewright.units import Kind


def _rate(inputs: Inputs) -> dict[str, Found]:
    """Return a rate constant as tables of gases print it, in cm³ and molecules."""
    name = inputs["reaction"]
    known = gas_rate(name)
    found = arrhenius(
        a=known.a, n=known.n, b=known.b, temperature=si(inputs, "temperature", Kind.TEMPERATURE)
    )
    if of_three(name):
        return {"rate": Found(float(found) / PER_MOLE**2, "cm6/s")}
    return {"rate": Found(float(found) / PER_MOLE, "cm3/s")}


def _life_of_atom(inputs: Inputs) -> dict[str, Found]:
    rates = oxygen_rates(
        temperature=si(inputs, "temperature", Kind.TEMPERATURE),
        pressure=si(inputs, "pressure", Kind.PRESSURE),
        oxygen=1.0,
    )
    met = rates.o_o2 * rates.density * si(inputs, "oxygen", Kind.MOLE_FRACTION)
    return {"life": Found(float(1.0 / met), Kind.TIME)}


BINDINGS: dict[str, Binding] = {
    "discharge.life_of_atom": _life_of_atom,
    "discharge.rate": _rate,
}
