"""Rate constants of a reaction's sites, drawn within what is known of them."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from ozonewright.errors import NotApplicable
from ozonewright.physics import Real
from ozonewright.physics.liquid.enhancement import warmed_rate
from ozonewright.physics.liquid.semibatch import Chain
from ozonewright.physics.liquid.solubility import REFERENCE
from ozonewright.questions.absorber.draws import Array, Drawn
from ozonewright.records.flask import Attack, Flasked, Reactant
from ozonewright.references.constants import R
from ozonewright.references.ozone_solubility import absorption

Leaving = Callable[[Reactant], tuple[Array, Array]]
"""How fast the gas carries off a substrate and its product. [1/s]"""


def chains_of(flask: Flasked, drawn: Drawn, leaving: Leaving) -> tuple[Chain, ...]:
    """Return the substrates as chains of attacks.

    Raises
    ------
    NotApplicable
        A wanted site has no published rate constant.
    """
    return tuple(_chain(flask, reactant, drawn, leaving(reactant)) for reactant in flask.reactants)


def _chain(
    flask: Flasked, reactant: Reactant, drawn: Drawn, stripped: tuple[Array, Array]
) -> Chain:
    wanted: list[Array] = []
    spoiling: Array = np.zeros(drawn.draws + 1)
    for place, attack in enumerate(reactant.attacks):
        if attack.rate_constant is None:
            if attack.wanted:
                raise NotApplicable(
                    "no rate constant is published for a site that is to be cleaved",
                    where="reaction.substrate",
                    got=reactant.name,
                    fix="The run can't be simulated: type the uptake, or measure the slip.",
                )
            continue
        rate = _rate(flask, attack, f"rate of site {place + 1} of {reactant.name}", drawn)
        if attack.wanted:
            wanted += [rate * left for left in range(attack.count, 0, -1)]
        else:
            spoiling = spoiling + attack.count * rate
    made = drawn.within("rate of the carbonyls made", "PRODUCT_SPREAD")
    product = spoiling + absorption("PRODUCT_RATE").value * made * _warmth(flask, drawn)
    raw, ready = stripped
    return Chain(
        wanted=tuple(wanted),
        spoiling=(*(spoiling for _ in wanted), product),
        # a molecule on its way is heavier than the substrate: at most it leaves as that does
        stripped=(*(raw for _ in wanted), ready),
    )


def _rate(flask: Flasked, attack: Attack, name: str, drawn: Drawn) -> Array:
    assert attack.rate_constant is not None
    value = attack.rate_constant
    other = attack.in_water and flask.solvent != "water"
    if attack.ring and other:
        value /= absorption("RING_IN_WATER").value
    rate = value * _warmth(flask, drawn)
    return np.asarray(rate * drawn.within(name, "KIND_SPREAD") if other or not attack.exact
                      else rate)  # fmt: skip


def _warmth(flask: Flasked, drawn: Drawn) -> Real:
    return warmed_rate(
        energy=drawn.figure("activation energy", "ACTIVATION"),
        temperature=flask.temperature.value,
        reference=REFERENCE,
        gas_constant=R,
    )
