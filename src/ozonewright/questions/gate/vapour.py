"""Solvent vapour in the gas of the flask against its flammable limits."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.errors import NotApplicable, UnknownSubstance
from ozonewright.physics.hazards.solvent import temperature_of_fraction, vapour_of
from ozonewright.physics.hazards.vapour import share_of_lower_limit, vapour_fraction
from ozonewright.questions.gate.asked import PRACTICE
from ozonewright.questions.gate.facts import Facts
from ozonewright.questions.gate.line import amount
from ozonewright.questions.gate.result import Check, Verdict
from ozonewright.references.flammability import Limits, Medium, flammability
from ozonewright.references.hazards import hazard
from ozonewright.results import Note
from ozonewright.units import Kind

SURE = 2.0
"""Standard uncertainties that count against the person."""


def vapour(facts: Facts) -> Iterator[Check]:
    """Yield a check for each solvent of the reaction; without a reaction the liquid is water."""
    reaction = facts.reaction
    if reaction is None:
        return
    if not reaction.solvent:
        yield _unknown("", ("reaction.solvent",))
        return
    for name, _ in reaction.solvent:
        if reaction.temperature is None:
            yield _unknown(name, ("reaction.temperature",))
            continue
        yield _one(facts, name, reaction.temperature.value, reaction.temperature.u)
    if len(reaction.solvent) > 1 and reaction.temperature is not None:
        names = tuple(name for name, _ in reaction.solvent)
        warm = reaction.temperature.value + SURE * reaction.temperature.u
        yield from _together(facts, names, warm)


def _unknown(name: str, places: tuple[str, ...]) -> Check:
    return Check(
        code="vapour",
        verdict="stop",
        text=Note("gate-vapour-unknown", values={"solvent": name}),
        mend=Note("gate-vapour-unknown-mend", values={"solvent": name}),
        source=PRACTICE,
        unknown=places,
    )


def _one(facts: Facts, name: str, temperature: float, u: float) -> Check:
    """Each solvent as if it were alone."""
    limits = flammability(name, "oxygen" if facts.oxygen else "air")
    if limits.burns is False:
        return Check(
            code="vapour",
            verdict="go",
            text=Note("gate-vapour-none", values={"solvent": name}),
            source=limits.rows[0].source or limits.evidence,
        )
    warm = temperature + SURE * u
    try:
        found = vapour_of(substance=name, temperature=warm)
        fraction = _fraction(facts, name, warm)
    except UnknownSubstance:
        return _unknown(name, ())
    if limits.burns is None or limits.lower is None:
        return _unknown(name, ())
    verdict = _verdict(fraction, limits)
    return Check(
        code="vapour",
        verdict=verdict,
        value=amount(Kind.MOLE_FRACTION, "vol%", fraction),
        limit=amount(Kind.MOLE_FRACTION, "vol%", limits.lower),
        text=Note(
            "gate-vapour",
            values={
                "solvent": name,
                "fraction": fraction,
                "lower": limits.lower,
                "oxygen": facts.oxygen,
                "verdict": verdict,
                "frozen": found.frozen,
                "flash_point": limits.flash_point,
                "temperature": temperature,
            },
        ),
        mend=None
        if verdict == "go"
        else Note(
            "gate-vapour-mend",
            values={"solvent": name, "below": _cold_enough(name, limits.lower, facts.pressure)},
        ),
        source=limits.rows[0].source or limits.evidence,
    )


def _fraction(facts: Facts, name: str, warm: float) -> float:
    """Return the vapour over the pure solvent, at the most."""
    found = vapour_of(substance=name, temperature=warm)
    pressure = found.pressure * (1.0 + SURE * found.spread)
    return float(vapour_fraction(vapour_pressure=pressure, pressure=facts.pressure))


def _together(facts: Facts, names: tuple[str, ...], warm: float) -> Iterator[Check]:
    """Yield the check of a mixture as if its liquids did not mix: more than any mixture gives."""
    medium: Medium = "oxygen" if facts.oxygen else "air"
    fractions, lowers = [], []
    for name in names:
        limits = flammability(name, medium)
        if limits.burns is False:
            continue
        try:
            fraction = _fraction(facts, name, warm)
        except UnknownSubstance:
            return
        if limits.lower is None:
            return
        fractions.append(fraction)
        lowers.append(limits.lower)
    if len(lowers) < 2:
        return
    share = float(share_of_lower_limit(fractions=fractions, limits=lowers))
    quarter = hazard("VAPOUR_SHARE_OF_LIMIT").value
    verdict: Verdict = "stop" if share >= 1.0 else "fix" if share > quarter else "go"
    yield Check(
        code="vapour",
        verdict=verdict,
        value=amount(Kind.SHARE, "%", share),
        limit=amount(Kind.SHARE, "%", quarter),
        text=Note("gate-vapour-mixture", values={"share": share}),
        mend=None if verdict == "go" else Note("gate-vapour-mixture-mend"),
        source=PRACTICE,
    )


def _verdict(fraction: float, limits: Limits) -> Verdict:
    """Above the upper limit counts as inside: on the way there the gas passes through."""
    assert limits.lower is not None
    if fraction >= limits.lower:
        return "stop"
    return "fix" if fraction > hazard("VAPOUR_SHARE_OF_LIMIT").value * limits.lower else "go"


def _cold_enough(name: str, lower: float, pressure: float) -> float | None:
    """Return the temperature below which the vapour is under control, if it is not frozen then."""
    try:
        return temperature_of_fraction(
            substance=name,
            fraction=hazard("VAPOUR_SHARE_OF_LIMIT").value * lower,
            pressure=pressure,
        )
    except NotApplicable:
        return None
