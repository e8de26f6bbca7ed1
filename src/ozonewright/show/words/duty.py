"""What the duty question says."""

from __future__ import annotations

from collections.abc import Callable

from ozonewright.show.numbers import percent, quantity
from ozonewright.units import Kind


def _degrees(value: float) -> str:
    return quantity(value, Kind.TEMPERATURE, "°C", figures=3)


def _minutes(value: float) -> str:
    return quantity(value, Kind.TIME, "min", figures=2)


SENTENCES: dict[str, Callable[..., str]] = {
    "duty-above-limit": lambda peak, limit: (
        f"This pattern passes the limit: it peaks at {_degrees(peak)}, the limit is {_degrees(limit)}."
    ),
    "duty-near-limit": lambda high, limit: (
        f"The peak may be as high as {_degrees(high)}; the limit is {_degrees(limit)}."
    ),
    "duty-never-reached": lambda: (
        "By these numbers the tube stays below the limit even if it runs on. Check that with a "
        "thermometer before you rely on it."
    ),
    "duty-timer": lambda: (
        "A timer is a convenience, never the safeguard: a thermal cut-out on the tube, a fan interlock "
        "and somebody in the room are. Never leave high voltage and oxygen alone."
    ),
    "duty-settles": lambda time: (
        f"The pattern repeats itself after about {_minutes(time)}; before that it is cooler."
    ),
    "duty-output-constant": lambda warmed: (
        f"The output is taken as constant while on. From cold, the tube reaches {percent(warmed)} of its "
        "rise in one on-time; a generator that settles as it warms delivers more at first and less later."
    ),
    "duty-output-typed-slope": lambda coefficient: (
        f"The output changes by {100.0 * coefficient:.2g} % for each kelvin, as typed, on a straight "
        "line.".replace("-", "\u2212")
    ),
    "duty-warmth-unknown": lambda: (
        "Rise and ambient (or a temperature log) are needed before the output can fall with the "
        "temperature of the tube."
    ),
    "duty-no-fit": lambda why: (
        "The output is the mean of the setting, as constant: "
        + (
            "rise and ambient, or a temperature log, would tell how warm the tube becomes."
            if why == "warmth"
            else f"{why}, so no generator could be fitted."
        )
    ),
    "duty-cooling-model": lambda: (
        "What air would bring is worked out for a plain horizontal tube that gives all its heat to the "
        "air around it (correlations from memory, films within 15 %, emissivity 0.9): good for which "
        "arrangement is better, not in place of a thermometer. Keep air that smells of ozone out of the "
        "room, and high voltage out of reach of the fan."
    ),
    "duty-no-fan": lambda: (
        "No fan is stated: say what it moves freely, its shut-off pressure and the openings of the box."
    ),
    "duty-fan-free": lambda: (
        "The fan is taken at its free flow; against openings it moves less, often half. Say its shut-off "
        "pressure and the free area of the openings."
    ),
    "duty-fan-nowhere": lambda: (
        "Say the section of the box that the air passes, or the outlet area of a fan that blows on the "
        "tube: the velocity across the tube hangs on it."
    ),
    "duty-suck-back": lambda times: (
        f"The gas stops {times:.2g} times an hour, and each time liquid can be drawn back: check valve and "
        "empty safety bottle, and look at the suck-back of your gas line."
    ),
    "duty-gas-unknown": lambda share, times: (
        f"Not said whether the gas runs on. If it does, {percent(share)} of it, and of the solvent it "
        f"carries off, passes without ozone; if it stops, liquid can be drawn back {times:.2g} times an hour."
    ),
    "duty-measure-rise": lambda: (
        "Measure the ambient and the steady temperature of the tube (a thermocouple kept clear of the high "
        "voltage), and state the limit: then the peak and the longest on-time are known."
    ),
    "duty-shorten": lambda on, off: (
        f"Plan with at most {_minutes(on)} on and {_minutes(off)} off: then 39 of 40 such tubes stay below "
        "the limit."
    ),
    "duty-started-cold": lambda first: (
        f"The log is taken to begin cold, at the ambient ({_degrees(first)} read)."
    ),
    "duty-thermometer": lambda: (
        "What the thermometer itself is off by, and how well it touches the hottest place, is in none of "
        "these ±."
    ),
    "duty-on-throughout": lambda: (
        "No discharge column in the log: the discharge is taken as on from the first line to the last."
    ),
    "duty-gap": lambda gap: (
        f"A gap of {_minutes(gap)} in the log: nothing is known of the temperature meanwhile."
    ),
    "duty-log-short": lambda span, time_constant: (
        f"The log covers {_minutes(span)}, the slowest time constant is {_minutes(time_constant)}: the "
        "steady temperature is drawn out beyond what was read. Read longer."
    ),
    "duty-measure-time-constant": lambda: (
        "State how sure the time constant is (±), or read the temperature each minute while it warms: it "
        "is the time to 63 % of the rise."
    ),
}
