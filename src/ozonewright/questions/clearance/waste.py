"""Waste of a reaction: what makes each stream harmless, and what must never meet."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.physics.hazards.waste import neutraliser_mass
from ozonewright.questions.clearance.result import WasteRow
from ozonewright.records.clearance import Flask
from ozonewright.records.reaction import Reaction
from ozonewright.references.constants import IODIDE_PER_OZONE, M_KI
from ozonewright.references.waste import Waste, waste_of
from ozonewright.results import Note


def waste_rows(flask: Flask) -> Iterator[WasteRow]:
    """Yield every stream that this reaction leaves; amounts where they are known."""
    reaction = flask.reaction
    ozone = _ozone(reaction) if reaction else None
    for stream in waste_of("tail iodide"):
        yield _row(stream, _iodine(reaction) if reaction else None)
    for stream in waste_of("peroxide"):
        yield _row(stream, ozone)
    for quench in reaction.quenches if reaction else ():
        charged = None if ozone is None else quench.equivalents * ozone
        for stream in waste_of(quench.reagent):
            yield _row(stream, charged)


def _row(stream: Waste, amount: float | None) -> WasteRow:
    mass = None
    if amount is not None and stream.per_mole > 0.0:
        mass = float(
            neutraliser_mass(amount=amount, per_mole=stream.per_mole, molar_mass=stream.molar_mass)
        )
    return WasteRow(
        stream=stream.stream,
        amount=amount if stream.per_mole > 0.0 else None,
        neutraliser=stream.neutraliser,
        mass=mass,
        how=stream.how,
        never=stream.never,
        evidence=stream.evidence,
    )


def _ozone(reaction: Reaction) -> float | None:
    """Return the ozone taken up where every substrate states its amount: one each, or as typed."""
    amounts = [one.amount.value for one in reaction.substrates if one.amount is not None]
    if not amounts or len(amounts) < len(reaction.substrates):
        return None
    each = reaction.equivalents.value if reaction.equivalents else 1.0
    return sum(amounts) * each


def _iodine(reaction: Reaction) -> float | None:
    """Return the most iodine that the iodide of the tail bottle can hold."""
    tail = reaction.tail
    if tail.iodide_mass is not None:
        return tail.iodide_mass.value / M_KI / IODIDE_PER_OZONE
    if tail.iodide_concentration is not None and tail.volume is not None:
        return tail.iodide_concentration.value * tail.volume.value / M_KI / IODIDE_PER_OZONE
    return None


def notes_of_waste(flask: Flask) -> Iterator[Note]:
    """Yield what must never meet; what is on this bench now comes as wrong."""
    reaction = flask.reaction
    solvents = {name for name, _ in reaction.solvent} if reaction else set()
    quenches = {one.reagent for one in reaction.quenches} if reaction else set()
    acetone = "acetone" in solvents or "hydrogen peroxide" in quenches
    if reaction and reaction.equivalents is None and _ozone(reaction) is not None:
        yield Note("clearance-one-each", "advice")
    yield Note("clearance-never-acetone", "wrong" if acetone else "doubt")
    bleach = "dimethyl sulfide" in quenches
    yield Note("clearance-never-bleach", "wrong" if bleach else "doubt")
    if "sodium borohydride" in quenches or "zinc" in quenches:
        yield Note("clearance-never-hydrogen", "wrong")
