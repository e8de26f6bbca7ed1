"""What the clearance says."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from ozonewright.show.numbers import quantity
from ozonewright.units import Kind


def _at(when: datetime) -> str:
    return f"{when.day} {when:%b, %H:%M}"


SENTENCES: dict[str, Callable[..., str]] = {
    "clearance-no-quench": lambda: "No quench is logged, so the peroxides are still there.",
    "clearance-ozone-after": lambda when: (
        f"Ozone was let in at {_at(when)}, after the quench: new peroxides may be there."
    ),
    "clearance-waiting-unknown": lambda: (
        "Nothing says how long this quench takes, so no test can be called late enough."
    ),
    "clearance-waiting": lambda ready: f"The quench is at work until {_at(ready)}.",
    "clearance-positive": lambda when: (
        f"The test of {_at(when)} was positive, and no negative has followed."
    ),
    "clearance-early": lambda ready: (
        f"Every test was made before the quench had its time ({_at(ready)}): none counts."
    ),
    "clearance-no-tests": lambda: "No peroxide test is logged.",
    "clearance-one-negative": lambda first, last: f"One negative test counts, of {_at(first)}.",
    "clearance-too-close": lambda first, last: (
        f"The negatives of {_at(first)} and {_at(last)} are less than 10 min apart."
    ),
    "clearance-clear": lambda first, last: (
        f"Negative at {_at(first)} and at {_at(last)}, both after the quench had its time."
    ),
    "clearance-need-quench": lambda: "Purge the oxygen out, add the quench, and log it.",
    "clearance-need-waiting": lambda: (
        "State how long the quench takes, with its entry, or name its reagent in the reaction."
    ),
    "clearance-need-wait": lambda ready: f"Stir until {_at(ready)}; only tests after that count.",
    "clearance-need-two": lambda: "Two negative peroxide tests, at least 10 min apart.",
    "clearance-need-second": lambda after: (
        f"A second negative test at {_at(after)} or later; stir until then."
    ),
    "clearance-need-more-quench": lambda: (
        "Add more quench, cold, log it, and give it its time again."
    ),
    "clearance-changed": lambda: (
        "A positive reading was corrected or struck out. It still counts: what was positive once needs two new negatives after it."
    ),
    "clearance-some-early": lambda ready: (
        f"Tests before {_at(ready)} don't count: the quench was still at work."
    ),
    "clearance-method-unknown": lambda: (
        'How a test was made is not stated; write method = "strip" or "iodide".'
    ),
    "clearance-strips-only": lambda: (
        "Strips alone: add one test with acidified iodide on a drop of the solution before a large or unusual batch."
    ),
    "clearance-strips": lambda: (
        "What strips miss: dialkyl, cyclic and polymeric peroxides and stable ozonides, in whole or in part. Wet them (in solvent: let it dry, then a drop of water); they read up to 25 mg/L at pH 2 to 12; keep them dry, cool and in date."
    ),
    "clearance-short-wait": lambda usual: (
        f"The time stated for the quench is shorter than usual ({quantity(usual, Kind.TIME, 'h', figures=2)}; common practice, no source)."
    ),
    "clearance-old": lambda last: (
        f"The last negative is of {_at(last)}: test again right before you evaporate."
    ),
    "clearance-evaporate": lambda: (
        "Once clear: behind a shield, bath at 40 °C or below, never to dryness (common practice, no source)."
    ),
    "clearance-one-each": lambda: (
        "Amounts are for one ozone taken up by each molecule of substrate; take more where it has more double bonds, or write equivalents."
    ),
    "clearance-never-acetone": lambda: (
        "Acetone, acid and peroxide never meet, in the flask, as a rinse or in the waste: an explosive cyclic peroxide falls out."
    ),
    "clearance-never-bleach": lambda: (
        "Acid and bleach never meet: chlorine. Nor bleach and ammonia, amines, alcohol or acetone."
    ),
    "clearance-never-hydrogen": lambda: (
        "Borohydride or zinc gives hydrogen: never while oxygen flows or fills the flask; purge with inert gas first, leave it open to the draught."
    ),
}
