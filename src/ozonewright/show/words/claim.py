"""What a label beside a measurement says; it accuses nobody."""

from __future__ import annotations

from collections.abc import Callable

from ozonewright.show.numbers import percent, quantity
from ozonewright.units import Kind


def _rate(value: float) -> str:
    return quantity(value, Kind.MASS_RATE, "g/h")


def _among(inside: tuple[str, ...]) -> str:
    return f"inside: {'; '.join(inside)}" if inside else "inside none of them"


SENTENCES: dict[str, Callable[..., str]] = {
    "claim-share": lambda rate, label: (
        f"share: {_rate(rate)} ÷ {_rate(label)} = {percent(rate / label, 3)}"
    ),
    "claim-yield": lambda **values: (
        f"yield of the label: {_rate(values['label'])} ÷ "
        f"{quantity(values['power'], Kind.POWER, 'W')} = "
        f"{quantity(values['yield'], Kind.YIELD, 'g/kWh', figures=3)}"
    ),
    "claim-fraction": lambda label, flow, fraction: (
        f"strength of the label: {_rate(label)} in "
        f"{quantity(flow, Kind.NORMAL_FLOW, 'NL/min', figures=3)} of feed = "
        f"{quantity(fraction, Kind.MASS_FRACTION, 'wt%', figures=3)}"
    ),
    "claim-oxygen": lambda share: (
        f"oxygen for the label: {percent(share, 3)} of what is fed (3 O₂ make 2 O₃)"
    ),
    "claim-wrong-run": lambda codes: (
        "Something in the run can't be true "
        f"({', '.join(code.replace('-', ' ') for code in codes)}); no label is judged by it."
    ),
    "claim-beyond-the-energy-put-in": lambda: (
        "At these watts the label's output would hold more energy than is put in; it must belong "
        "to another power."
    ),
    "claim-beyond-the-oxygen-fed": lambda: (
        "At this flow the label's output would need more oxygen than is fed; it must belong to "
        "another flow or feed."
    ),
    "claim-bands": lambda inside: f"Beside published yields the label lies {_among(inside)}.",
    "claim-measured-bands": lambda inside: (
        f"Beside published yields the measurement lies {_among(inside)}."
    ),
    "claim-feed-unknown": lambda: (
        "Feed not stated, so figures for air and for oxygen are both shown."
    ),
    "claim-slip-unknown": lambda: (
        "No guard bottle: what slipped past the first is not in the measured output."
    ),
    "claim-one-run": lambda: (
        "One run: readings only. Repeats of this method usually scatter by 1 to 2 % (from memory)."
    ),
    "claim-last-run": lambda label: f"Power, feed and flow are those of the last run, {label}.",
    "claim-not-at-plug": lambda: (
        "Power was read at the discharge; at the plug it is higher, and the yield lower."
    ),
    "claim-label-silent": lambda: (
        "An output without flow, feed and power belongs to conditions that the label does not "
        "name. Published yields do not always say whose power they mean."
    ),
    "claim-ask": lambda: (
        "Ask at which flow, feed, dew point and power the label's figure was read, and by what "
        "method; then run there."
    ),
    "claim-repeat": lambda: "Repeat the run twice, so that its scatter is known.",
    "claim-type-more": lambda: (
        "Type flow, feed and power of the run: they tell what the label would mean here."
    ),
    "claim-mend-run": lambda: "Look at the run first: ozonewright output tells what is wrong.",
}
