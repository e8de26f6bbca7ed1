"""The gate as text, and as the parts of a page: in full, in words a neighbour can follow."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.gate import Check, Gate
from ozonewright.show.words import sentence
from ozonewright.show.wrap import foot, noted, numbered, wrapped

MARKS = {"go": "□", "fix": "◪", "stop": "■"}
"""An outline, half and full square: never colour alone."""
ORDER_OF_WORK = (
    "Gate read, shield and goggles on, detector on, somebody knows that you are at it.",
    "Gas on, flow read, every joint tested; bubbles in every bottle.",
    "Fan on and proven. Discharge on, to the tail; then into the flask.",
    "Discharge off. Gas goes on for two minutes at the least: purge.",
    "Only then lift the tube, open a joint, add the quench; inert gas first where hydrogen or a "
    "low flash point comes in.",
    "Quench, wait, two negative peroxide tests ten minutes apart; only then evaporate.",
    "High voltage off, waited, shorted, earthed before anything is touched. Gas off last.",
)
ABORT = (
    "High voltage off at the plug. Do not touch the tube.",
    "Gas stays on if that is safe: it keeps liquid out and ozone moving to the tail.",
    "Out of the room; windows from outside. Come back when the detector says so, not the nose.",
    "Fire with oxygen: close the cylinder only if you can reach it safely; call for help.",
    "Liquid in the tube, a smell of burning, a supply that tripped: it does not go on again today.",
)


def answer_line(found: Gate) -> str:
    """Return the one line that answers."""
    count = {v: sum(check.verdict == v for check in found.checks) for v in MARKS}
    told = ", ".join(f"{count[v]} {v}" for v in ("stop", "fix", "go") if count[v])
    return f"{found.verdict.capitalize()}: {told}"


HEADS = {"stop": "Stop", "fix": "Fix", "go": "Go"}


def open_question(check: Check) -> bool:
    """Whether this check only waits for an answer of the checklist."""
    asked = check.text is not None and check.text.code == "gate-asked"
    return asked and check.verdict != "go" and bool(check.unknown)


def key(check: Check) -> str:
    """Return the field of the checklist that answers a check."""
    return check.unknown[0].removeprefix("checklist.")


def statement(check: Check) -> str:
    """Return what a yes would mean."""
    why = sentence(check.text) if check.text else ""
    return why.rpartition(": ")[0] or why


def figures(check: Check) -> str:
    """Return the number behind a check and its limit, or nothing."""
    parts = []
    if check.value is not None and check.value.code != "gate-answer":
        parts.append(sentence(check.value))
    if check.limit is not None:
        parts.append(f"limit {sentence(check.limit)}")
    return ", ".join(parts)


def title(check: Check) -> str:
    """Return the name of a check in words."""
    return check.code.replace("-", " ")


def subject(found: Gate) -> str:
    """Return which rig, room and reaction the gate was asked for."""
    of = (("rig", found.rig), ("room", found.room), ("reaction", found.reaction))
    return ", ".join(f"{name} {label}" for name, label in of if label)


def gate_text(found: Gate) -> str:
    """Return the whole gate for a terminal."""
    return "\n".join(_lines(found)) + "\n"


def _lines(found: Gate) -> Iterator[str]:
    yield f"{MARKS[found.verdict]} {answer_line(found)}"
    if of := subject(found):
        yield of
    if found.next:
        yield from ("", "Next")
        yield from numbered(found.next[:3])
    for verdict, words in HEADS.items():
        checks = [check for check in found.checks if check.verdict == verdict]
        told = [check for check in checks if not open_question(check)]
        asked = [check for check in checks if open_question(check)]
        if told:
            yield from ("", words)
        for check in told:
            yield from _check(check)
        if asked:
            yield from ("", f"{words} until answered in the rig's [checklist], true or false")
        for check in asked:
            yield from wrapped(f"{key(check)}: {statement(check)}", f"  {MARKS[verdict]} ")
    yield from ("", "In this order")
    for number, step in enumerate(ORDER_OF_WORK, start=1):
        yield from wrapped(step, f"  {number} ")
    yield from ("", "If something goes wrong")
    for step in ABORT:
        yield from wrapped(step, "  ")
    yield from noted(found.notes)
    yield from foot((), found.sources)


def _check(check: Check) -> Iterator[str]:
    numbers = f" [{told}]" if (told := figures(check)) else ""
    why = sentence(check.text) if check.text else ""
    yield from wrapped(f"{title(check)}: {why}{numbers}", f"  {MARKS[check.verdict]} ")
    if check.mend is not None:
        yield from wrapped(sentence(check.mend), "    → ", "      ")
