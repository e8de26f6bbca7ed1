"""What the output of a setting says."""

from __future__ import annotations

from collections.abc import Callable

from ozonewright.show.numbers import percent, quantity
from ozonewright.show.words.drift import cause_words
from ozonewright.units import Kind

SENTENCES: dict[str, Callable[..., str]] = {
    "setting-one-run": lambda: (
        "One run: readings only. Repeats of this method usually scatter by 1 to 2 % (from memory)."
    ),
    "setting-two-runs": lambda: (
        "Two runs: too few for their scatter to stand in place of the readings' uncertainty; the "
        "larger of the two is told."
    ),
    "setting-scatter": lambda share: (
        f"The runs scatter by {percent(share)}; three sound repeats stay within 2 %. "
        "Something changed between them."
    ),
    "setting-same-minutes": lambda: (
        "All runs have the same minutes, so a surplus (blank, late stop) can't be told from output."
    ),
    "setting-surplus": lambda surplus, u, slope: (
        "Surplus not ruled out: a line through collected mass starts at "
        f"{quantity(surplus, Kind.MASS, 'mg', u)} and rises by "
        f"{quantity(slope, Kind.MASS_RATE, 'g/h', figures=3)}; the interval includes that."
    ),
    "setting-by-slope": lambda cause, surplus, u: (
        f"Drift has determined {cause_words(cause)}. The output is the slope of collected mass; "
        + (
            "the surplus"
            if surplus is None
            else f"the surplus of {quantity(surplus, Kind.MASS, 'mg', u)}"
        )
        + " is taken off."
    ),
    "setting-steady": lambda: (
        "Drift finds nothing that matters between short and long runs: the mean is the output."
    ),
    "setting-blank-settles": lambda cause: (
        f"Drift has determined {cause_words(cause)}, and the field blank takes it off."
    ),
    "setting-other-cause": lambda cause: (
        f"Drift has determined {cause_words(cause)}: no one number is the output of these runs; "
        "their mean stands, with its scatter."
    ),
    "setting-narrow": lambda: "More runs, short and long in turn, narrow it.",
    "setting-mend-cause": lambda cause: (
        f"Mend or avoid {cause_words(cause)}, then run again; ozonewright drift tells its size."
    ),
    "setting-ask-drift": lambda: (
        "Ask ozonewright drift: it names the run that tells most about the surplus."
    ),
    "setting-repeat": lambda missing, longer: (
        ("Repeat the run once more" if missing == 1 else f"Repeat the run {missing} times")
        + (
            "."
            if not longer
            else ", of twice the minutes: that tells scatter and surplus."
            if missing == 1
            else ", one of them of twice the minutes: that tells scatter and surplus."
        )
    ),
    "setting-other-minutes": lambda: "Make a run of twice the minutes.",
    "setting-alternate": lambda: (
        "The blank is known. More runs, short and long in turn, narrow the mean."
    ),
    "setting-field-blank": lambda: (
        "Gas on, discharge off, the same minutes: a field blank tells whether there is a surplus."
    ),
}
