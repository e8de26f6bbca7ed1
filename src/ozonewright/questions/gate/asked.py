"""What only a person can tell: each answered yes, or the verdict is the same as for no."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ozonewright.questions.gate.facts import Facts
from ozonewright.questions.gate.materials import glued
from ozonewright.questions.gate.result import Check, Verdict
from ozonewright.results import Note

PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Asked:
    """One question of the checklist; yes is the safe answer."""

    code: str
    verdict: Verdict
    """Unless it is answered with yes."""
    oxygen_only: bool = False
    reaction_only: bool = False
    cylinder_only: bool = False


CHECKLIST = (
    Asked("earthed", "stop"),
    Asked("residual-current-device", "stop"),
    Asked("fused", "stop"),
    Asked("bled", "stop"),
    Asked("never-open-circuit", "stop"),
    Asked("supply-sound", "stop"),
    Asked("fan-proven", "stop"),
    Asked("no-oxygen-joint-in-box", "stop"),
    Asked("no-glued-joint", "stop"),
    Asked("nothing-flammable-near", "stop"),
    Asked("attended", "stop"),
    Asked("joints-tested", "stop"),
    Asked("oxygen-clean", "stop", oxygen_only=True),
    Asked("cylinder-chained", "stop", cylinder_only=True),
    Asked("cylinder-shaded", "fix", cylinder_only=True),
    Asked("no-cold-trap", "stop"),
    Asked("no-spark", "stop", reaction_only=True),
    Asked("no-acetone", "stop", reaction_only=True),
    Asked("old-residue-cleared", "stop"),
    Asked("shielded", "fix"),
    Asked("detector", "fix"),
)


def asked(facts: Facts) -> Iterator[Check]:
    """Yield the checks of the checklist that this rig and reaction need."""
    cylinder = bool(facts.rig.of_kind("cylinder"))
    for one in CHECKLIST:
        if one.oxygen_only and not facts.oxygen:
            continue
        if one.reaction_only and facts.reaction is None:
            continue
        if one.cylinder_only and not cylinder:
            continue
        answer = facts.rig.checklist.get(one.code.replace("-", "_"))
        if one.code == "old-residue-cleared" and facts.residue_locked:
            answer = False
        if one.code == "no-glued-joint" and glued(facts):
            answer = False
        yield Check(
            code=one.code,
            verdict="go" if answer else one.verdict,
            value=Note("gate-answer", values={"answer": answer}),
            text=Note("gate-asked", values={"code": one.code, "answer": answer}),
            mend=None if answer else Note("gate-asked-mend", values={"code": one.code}),
            source=PRACTICE,
            unknown=(f"checklist.{one.code.replace('-', '_')}",) if answer is None else (),
        )
