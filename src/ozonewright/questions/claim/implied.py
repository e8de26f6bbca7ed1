"""What grams per hour mean at the watts and the flow of a run."""

from __future__ import annotations

from typing import Any

from ozonewright.physics.gas.flow import mean_molar_mass, ozone_mass_fraction
from ozonewright.physics.generator.energy import oxygen_used
from ozonewright.questions.claim.result import Measurement
from ozonewright.references.constants import M_O3
from ozonewright.references.gases import MOLAR_MASS
from ozonewright.uncertain import Estimate, Measured, Propagated, propagate
from ozonewright.units import Kind


def implied(found: Measurement, rate: Measured) -> dict[str, Estimate]:
    """Return yield, strength and oxygen used at a rate; what can't be known is left out."""
    inputs = {"rate": rate}
    wanted = []
    if found.run.power is not None:
        inputs["power"] = found.run.power
        wanted.append("yield")
    feed = found.run.gas.feed
    if found.feed_flow is not None and feed is not None:
        inputs["flow"] = _flow(found.feed_flow)
        inputs |= {f"part_{name}": part for name, part in feed.parts.items()}
        wanted.append("fraction")
        if "oxygen" in feed.parts:
            wanted.append("oxygen")
    if not wanted:
        return {}
    estimates: Propagated = propagate(lambda **values: _evaluate(values, wanted), inputs)
    return dict(estimates)


def exact(label: float) -> Measured:
    """Return the label as a rate that is what it says."""
    return Measured(label, 0.0, "label", Kind.MASS_RATE, basis="exact")


def measured(rate: Estimate) -> Measured:
    """Return a measured rate as an input."""
    return Measured(rate.value, rate.u, "output", Kind.MASS_RATE, dof=max(rate.dof, 1.0))


def share_of_label(rate: Estimate, label: float) -> Estimate:
    """Return the measured output over the label."""
    low, high = rate.interval
    return Estimate(
        value=rate.value / label,
        u=rate.u / label,
        dof=rate.dof,
        interval=(low / label, high / label),
        k=rate.k,
        method=rate.method,
        budget=rate.budget,
    )


def _flow(flow: Estimate) -> Measured:
    return Measured(flow.value, flow.u, "flow of the feed", Kind.NORMAL_FLOW, dof=max(flow.dof, 1))


def _evaluate(values: dict[str, Any], wanted: list[str]) -> dict[str, Any]:
    out: dict[str, Any] = {}
    if "yield" in wanted:
        out["yield"] = values["rate"] / values["power"]
    if "fraction" in wanted:
        parts = {
            name.removeprefix("part_"): value
            for name, value in values.items()
            if name.startswith("part_")
        }
        molar_mass = mean_molar_mass(
            fractions=list(parts.values()), molar_masses=[MOLAR_MASS[name] for name in parts]
        )
        amount = values["rate"] / M_O3
        out["fraction"] = ozone_mass_fraction(
            ozone_rate=amount, feed_flow=values["flow"], feed_molar_mass=molar_mass
        )
        if "oxygen" in wanted:
            out["oxygen"] = oxygen_used(
                ozone_rate=amount, oxygen_flow=values["flow"] * parts["oxygen"]
            )
    return out
