"""What a reaction document leaves open."""

from __future__ import annotations

from ozonewright.records.reaction import Reaction

WANTED = {
    "solvent": "solvent",
    "volume": "volume",
    "temperature": "temperature",
    "work_up": "work_up",
    "quenches": "quench",
}
"""Field of the record, and its name in the document."""


def unknowns(reaction: Reaction) -> tuple[str, ...]:
    """Return the places that some answer waits for, in the order of the document."""
    found = [f"reaction.{name}" for field, name in WANTED.items() if not getattr(reaction, field)]
    if not (reaction.output or reaction.setting or reaction.run):
        found.append("reaction.output")
    if not (reaction.uptake or reaction.slip):
        found.append("reaction.uptake")
    found += [
        f"substrate[{number}].purity"
        for number, one in enumerate(reaction.substrates, start=1)
        if one.mass and not one.purity
    ]
    if reaction.gas.flow is None:
        found.append("gas.flow")
    return tuple(found)
