"""An output typed as mass or as amount in a time, as amount."""

from __future__ import annotations

from ozonewright.documents.typed import Typed
from ozonewright.physics.assay.plan import amount_of_ozone
from ozonewright.uncertain import Measured
from ozonewright.units import Kind


def ozone_rate(output: Typed, name: str = "output") -> Measured:
    """Return the ozone in a time as amount, with its uncertainty."""
    rate = output.measured(name)
    if output.kind is Kind.AMOUNT_RATE:
        return rate
    value, u = (float(amount_of_ozone(mass=each)) for each in (rate.value, rate.u))
    return Measured(value, u, rate.name, Kind.AMOUNT_RATE, rate.shape, basis=rate.basis)
