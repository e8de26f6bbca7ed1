"""What the comparison of two settings says."""

from __future__ import annotations

from collections.abc import Callable

from ozonewright.show.numbers import percent, quantity, significant
from ozonewright.show.part_words import field_words
from ozonewright.units import Kind

MOST = 10
"""Things that differ which one sentence names."""


def factor_words(name: str) -> str:
    """Return what differs, in words: a place of the rig by the part it belongs to."""
    if not name.startswith("part, "):
        return name
    part, _, field = name.removeprefix("part, ").rpartition(", ")
    return f"{part} ({field_words(field)})" if part else field


def _list(names: tuple[str, ...]) -> str:
    told = [factor_words(name) for name in names[:MOST]]
    if len(names) > MOST:
        told.append(f"{len(names) - MOST} more, listed as what differs")
    return told[0] if len(told) == 1 else f"{', '.join(told[:-1])} and {told[-1]}"


def _rate(value: float) -> str:
    return quantity(value, Kind.MASS_RATE, "g/h")


def _runs(count: int) -> str:
    return "1 run" if count == 1 else f"{count} runs"


SENTENCES: dict[str, Callable[..., str]] = {
    "comparison-ratio": lambda first, second, ratio: (
        f"ratio: {_rate(first)} ÷ {_rate(second)} = {significant(ratio)}"
    ),
    "comparison-scatter-own": lambda scatter, first, second: (
        f"scatter: each setting its own ({first} and {second} runs); both together "
        f"{percent(scatter)} for one run"
    ),
    "comparison-scatter-pooled": lambda scatter, first, second: (
        f"scatter: one for both settings, {percent(scatter)} for one run ({_runs(first)} and "
        f"{_runs(second)}: too few for each its own)"
    ),
    "comparison-scatter-assumed": lambda scatter, first, second: (
        f"scatter: {percent(scatter)} for one run, as repeats of this method usually scatter (from "
        "memory), with the readings' own uncertainty besides"
    ),
    "comparison-scatter-slope": lambda scatter, first, second: (
        "scatter: an output that is a slope brings the uncertainty of that slope, the other the "
        f"scatter of its runs; a run counts as good to {percent(scatter)}"
    ),
    "comparison-interval": lambda u, dof, k: (
        f"interval: {percent(u)} of the ratio is one standard uncertainty"
        + (f"; {significant(dof, 2)} degrees of freedom" if dof < 1e6 else "")
        + f", so 95 % is {significant(k, 3)} times as much"
    ),
    "comparison-several-differ": lambda names: (
        f"{len(names)} things differ besides the name: {_list(names)}. The ratio is that of all "
        "of them together."
    ),
    "comparison-one-differs": lambda name: (
        f"Of what was written down, only the {factor_words(name)} differs beyond its uncertainty."
    ),
    "comparison-none-differs": lambda: (
        "Nothing that was written down differs beyond its uncertainty."
    ),
    "comparison-lone-runs": lambda scatter: (
        f"One run of each: how runs scatter was not measured; {percent(scatter)} stands in (from "
        "memory)."
    ),
    "comparison-surplus": lambda least, most: (
        "Surplus not ruled out: with the slopes of collected mass in place of the means the ratio "
        f"lies between {significant(least, 3)} and {significant(most, 3)}; the interval holds that."
    ),
    "comparison-surplus-unseen": lambda settings: (
        f"All runs of {_list(settings)} have the same minutes: a surplus there (blank, late stop) "
        "would pull the ratio towards 1, and nothing here can show it."
    ),
    "comparison-order-unknown": lambda: (
        "Not every run says when it began, so a drift from day to day can't be told from the "
        "settings."
    ),
    "comparison-not-alternated": lambda: (
        "All runs of one setting came before the other: whatever drifted meanwhile is in the ratio."
    ),
    "comparison-field-blank-one-side": lambda setting: (
        f"A field blank was taken off in {setting} alone."
    ),
    "comparison-oxygen-unknown": lambda: (
        "No ratio per oxygen fed: flow and feed of every run would be needed."
    ),
    "comparison-hold-still": lambda names: (
        f"Repeat one setting with the same {_list(names[1:])}, so that only the {factor_words(names[0])} differs."
        if len(names) <= 4
        else "Repeat one setting with everything as in the other but the one thing you ask about."
    ),
    "comparison-alternate": lambda difference, runs: (
        f"To tell a difference of {percent(difference)}: {_runs(runs)} of each setting, alternated "
        "(there and back), the same minutes, warm or diverted."
    ),
    "comparison-out-of-reach": lambda difference: (
        f"A difference of {percent(difference)} is out of reach of this scatter, or of what the "
        "settings do not share: standardise one titrant for both."
    ),
    "comparison-settle-surplus": lambda settings: (
        f"Gas on, discharge off, the same minutes, in {_list(settings)}: a field blank helps to "
        "settle the surplus; ozonewright drift names the run that tells most."
    ),
}
