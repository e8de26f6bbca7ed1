"""What other correlations say of the transfer coefficient, beside the one that is used."""

from __future__ import annotations

import numpy as np

from ozonewright.physics import Real
from ozonewright.physics.gas.parts.threshold import GRAVITY
from ozonewright.physics.liquid.diffusivity import viscosity_of_liquid
from ozonewright.physics.liquid.swarm import Column
from ozonewright.physics.liquid.transfer import kl_calderbank_1961, kl_lamont_1970
from ozonewright.questions.absorber.train import Bottle
from ozonewright.references.liquid_surface import DENSITY_AT, liquid
from ozonewright.references.liquid_viscosity import viscosities_of


def beside(bottle: Bottle, made: Column, through: Real) -> dict[str, float]:
    """Return the coefficient by other laws, at the best estimates."""
    figures, known = viscosities_of(bottle.liquid.name), liquid(bottle.liquid.name)
    viscosity = viscosity_of_liquid(
        temperature=bottle.temperature,
        temperatures=figures.temperatures,
        viscosities=figures.viscosities,
    )
    density = known.density + known.density_slope * (bottle.temperature - DENSITY_AT)
    diffusivity, velocity = (float(np.atleast_1d(v)[0]) for v in (made.diffusivity, through))
    kinematic = float(viscosity) / density
    large, small = (
        kl_calderbank_1961(diffusivity=diffusivity, kinematic_viscosity=kinematic, large=each)
        for each in (True, False)
    )
    power = kl_lamont_1970(
        diffusivity=diffusivity, kinematic_viscosity=kinematic, power=velocity * GRAVITY
    )
    return {"kl_large": float(large), "kl_small": float(small), "kl_power": float(power)}
