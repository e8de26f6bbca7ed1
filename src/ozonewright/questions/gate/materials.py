"""What the parts are made of, against all that they meet: the part's place decides."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.errors import UnknownSubstance
from ozonewright.questions.gate.facts import Facts
from ozonewright.questions.gate.result import Check, Verdict
from ozonewright.records.rig import Part
from ozonewright.references.materials import Medium, disagree, material, ratings
from ozonewright.references.materials import worst as worst_rating
from ozonewright.results import Note

OF_NO_MATERIAL = ("vent", "leak")
GLUES = ("hot glue", "cyanoacrylate", "epoxy")
COLD = 263.15
"""Below it a part counts as cold. [K]"""


def materials(facts: Facts) -> Iterator[Check]:
    """Yield the check of every material of the line, from the supply to the vent."""
    bad: list[tuple[str, str, str, str]] = []
    unnamed = []
    for part in facts.rig.parts:
        media = _media(facts, part)
        if media and not part.material and part.kind not in OF_NO_MATERIAL:
            unnamed.append(part.name)
        for name in part.material:
            for medium in media:
                rating = _rating(name, medium)
                if rating != "use":
                    bad.append((part.name, name, rating, medium))
    verdict: Verdict = (
        "fix" if unnamed or any(rating != "short" for _, _, rating, _ in bad) else "go"
    )
    yield Check(
        code="materials",
        verdict=verdict,
        value=Note("gate-count", values={"count": len(bad)}) if bad else None,
        text=Note("gate-materials", values={"bad": tuple(bad), "unnamed": tuple(unnamed)}),
        mend=Note("gate-materials-mend") if verdict != "go" else None,
        source="trade_letters, trade_words, memory",
        unknown=tuple(f"{name}: material" for name in unnamed),
    )


def glued(facts: Facts) -> bool:
    """Whether a part is written down as glued."""
    return any(_first(name) in GLUES for part in facts.rig.parts for name in part.material)


def _media(facts: Facts, part: Part) -> tuple[Medium, ...]:
    """Return what a part meets: oxygen before the tube, ozone after it, solvent at the flask."""
    tubes = facts.rig.of_kind("discharge tube")
    flasks = facts.flasks
    found: list[Medium] = []
    if facts.oxygen:
        found.append("oxygen")
    if part in tubes or part in facts.behind(*tubes) or not tubes:
        wet = any(one.kind in ("bottle", "tail bottle") for one in facts.before(part))
        found.append("wet ozone" if wet else "ozone")
    at_the_flask = part in flasks or part in facts.behind(*flasks) or _dips(facts, part)
    if facts.reaction is not None and at_the_flask:
        if tuple(name for name, _ in facts.reaction.solvent) != ("water",):
            found.append("solvent")
        cold = facts.reaction.temperature
        if cold is None or cold.value < COLD:
            found.append("cold")
    return tuple(found)


def _dips(facts: Facts, part: Part) -> bool:
    """Whether a part stands in the flask: the sparger before it."""
    return part.kind == "sparger" and any(part.name in flask.after for flask in facts.flasks)


def _first(name: str) -> str:
    try:
        return material(name)
    except UnknownSubstance:
        return name


def _rating(name: str, medium: Medium) -> str:
    """Return the worst rating of a material; nothing known of it in a medium is no rating."""
    try:
        first = material(name)
    except UnknownSubstance:
        return "unknown"
    found = ratings(first, medium)
    rating = worst_rating(found)
    if rating == "avoid" and disagree(found):
        return "disputed"
    return rating or "unknown"
