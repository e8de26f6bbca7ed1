"""What drift says."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from ozonewright.show.numbers import percent, quantity
from ozonewright.units import Kind, number

CAUSES = {
    "steady": "nothing that matters",
    "blank-surplus": "a blank (the same surplus in every run)",
    "aerial-oxidation": "iodide oxidised by air",
    "timing-surplus": "gas longer than timed",
    "stored-gas": "ozone stored in the line before the start",
    "start-stop": "handling (gas longer than timed, or stored before the start)",
    "hold-up": "gas held in the line",
    "cold-start": "a generator that settles in every run",
    "carried-warming": "a generator that settles and stays warm into the next run",
    "warming": "a generator that settles",
    "iodide-spent": "iodide used up",
    "iodine-loss": "iodine carried off",
    "iodate-left": "iodate left for want of acid",
    "trap-full": "a trap that is full (iodide used up, or iodate left)",
    "slip": "ozone past the bottles",
    "flow-creep": "output that creeps from run to run",
    "misread": "one run that is not what was written",
    "scatter": "scatter beyond what the method has",
    "other": "something on no list",
}
"""The causes and told-alike groups in words."""
PARAMETERS = {
    "blank": "",
    "aerial": "",
    "late": "",
    "stored": "",
    "lag": "",
    "excess": "cold output above the settled one by",
    "settling": "time constant",
    "rest": "rest between runs",
    "capacity": "most that is held",
    "loss": "",
    "acid": "most that is brought back",
    "slip": "",
    "creep": "per run",
    "scatter": "",
    "bend": "exponent off by",
}
FACTORS = {"capacity": "of half the iodide", "acid": "of half the protons", "loss": "of the calculated loss",
           "lag": "of the hold-up stated"}  # fmt: skip
SURPLUS = {
    "blank-surplus": "a blank",
    "start-stop": "gas longer than timed or stored before the start",
}
"""Groups that make a line with a surplus, in short words."""
OF_THE_TRAP = ("iodide-spent", "iodine-loss", "iodate-left")
WHY = {
    "sign": "wrong sign",
    "size": "no likely size of it",
    "shape": "alone, no size of it fits all runs",
}


def cause_words(name: str) -> str:
    """Return a cause, a group, or several at once in words."""
    return " together with ".join(CAUSES[part] for part in name.split("+"))


def cause_short(name: str) -> str:
    """Return a cause, or several at once, in words that fit into a figure."""
    return " + ".join(SHORT_NAMES[part] for part in name.split("+"))


def _implied(cause: str, values: Mapping[str, Mapping[str, Any]]) -> str:
    return "; ".join(_one(name, value) for name, value in values.items())


def _one(name: str, value: Mapping[str, Any]) -> str:
    kind: Kind = value["kind"]
    lead = PARAMETERS.get(name, name)
    numbers = [_number(name, value[end], kind) for end in ("middle", "low", "high")]
    text = f"{numbers[0]} (95 %: {numbers[1]} to {numbers[2]})"
    if kind is Kind.DIMENSIONLESS and name in FACTORS:
        text += f" {FACTORS[name]}"
    return f"{lead} {text}".strip()


def _number(name: str, value: float, kind: Kind) -> str:
    if kind is Kind.DIMENSIONLESS and name in FACTORS:
        return quantity(value, kind, "", figures=2)
    if kind in (Kind.SHARE, Kind.DIMENSIONLESS):
        return percent(value)
    units = {
        Kind.MASS: "mg",
        Kind.MASS_RATE: "mg/min",
        Kind.TIME: "s" if name in ("late", "stored", "lag") else "min",
    }
    if kind is Kind.RATE:
        return f"{percent(number(value, kind, '1/min'))} per minute"
    return quantity(value, kind, units[kind], figures=2)


def _do(on_time: float, start: str, discharge: bool, change: str, repeat: bool) -> str:
    minutes = time_words(on_time)
    if not discharge:
        return f"Gas on, discharge off, same bottle, {minutes}"
    starts = {
        "cold": f"A run of {minutes} from cold",
        "warm": f"A run of {minutes} with the generator warm",
        "diverted": f"A diverted run of {minutes} (generator warm, stream switched into a fresh bottle)",
    }
    text = starts[start]
    if repeat and start == "cold" and not change:
        text = f"The run of {minutes} from cold again"
    changes = {
        "": "",
        "iodide": ", with three times the iodide",
        "acid": ", with three times the acid",
        "iodide and acid": ", with three times the iodide and three times the acid",
        "guard": ", with a guard bottle behind, titrated by itself",
        "flow": ", at half the flow",
    }
    return text + changes[change]


SHORT = 1.5


def time_words(seconds: float) -> str:
    """Return a time as a person says it: ``30 s``, ``2 min``, ``4 min 30 s``."""
    minutes = number(seconds, Kind.TIME, "min")
    if minutes < SHORT:
        return f"{seconds:.3g} s"
    return f"{minutes:.3g} min"


def titre_words(titre: float) -> str:
    """Return a titre to a tenth of a millilitre."""
    return quantity(round(titre, 7), Kind.VOLUME, "mL", figures=2 if titre < 1e-5 else 3)


def _decide(
    low: Sequence[str],
    high: Sequence[str],
    below: float,
    above: float,
    about_low: Sequence[float],
    about_high: Sequence[float],
    titrant: float,
    guard: bool,
) -> str:
    strength = quantity(titrant, Kind.CONCENTRATION, "mol/L", figures=1)
    both = {SHORT_NAMES[name] for name in low} & {SHORT_NAMES[name] for name in high}
    means = {name: CAUSES[name] if short in both else short for name, short in SHORT_NAMES.items()}
    upper = f"above {titre_words(above)}"
    if len(high) == 1:
        upper = f"about {titre_words(about_high[0])}"
    where = " in the guard bottle" if guard else ""
    return (
        f"{upper} of {strength}{where} means {_listed(high, means)}; "
        f"below {titre_words(below)} means {_listed(low, means)}"
    )


def _listed(names: Sequence[str], means: Mapping[str, str]) -> str:
    return " or ".join(dict.fromkeys(means[name] for name in means if name in names))


SHORT_NAMES = {
    "steady": "nothing that matters",
    "blank-surplus": "a blank",
    "aerial-oxidation": "oxidation by air",
    "cold-start": "the generator",
    "carried-warming": "the generator",
    "timing-surplus": "handling",
    "stored-gas": "handling",
    "hold-up": "gas held in the line",
    "iodide-spent": "iodide used up",
    "iodine-loss": "iodine carried off",
    "iodate-left": "iodate left",
    "slip": "ozone past the bottles",
    "flow-creep": "creep",
    "misread": "a run misread",
    "scatter": "scatter",
    "other": "something on no list",
}
"""Short words for the two sides of a decision, in the order in which they are told."""

SENTENCES: dict[str, Callable[..., str]] = {
    "drift-implied": _implied,
    "drift-do": _do,
    "drift-decide": _decide,
    "drift-longer-tells-nothing": lambda on_time: (
        f"A longer run ({time_words(on_time)} from cold), the obvious idea, would tell next to nothing."
    ),
    "drift-assumed-order": lambda: "The runs were made in the order given.",
    "drift-assumed-cold": lambda: "Runs whose start is not stated began cold.",
    "drift-assumed-u": lambda timing: (
        "Readings without ± are as sure as their digits, titres to 0.08 mL, times to "
        f"{quantity(timing, Kind.TIME, 's', figures=2)}."
    ),
    "drift-assumed-trap": lambda: (
        "The trap is a usual one, since iodide, volume or flow are not stated; say yours."
    ),
    "drift-assumed-titrant": lambda titrant: (
        f"The next run is titrated with {quantity(titrant, Kind.CONCENTRATION, 'mol/L', figures=2)}."
    ),
    "drift-known-settling": lambda value, u: (
        "How fast the output settles is that of the tube: time constant "
        f"{quantity(value, Kind.TIME, 'min', u)}."
    ),
    "drift-known-excess": lambda value, u: (
        f"The cold generator gives {percent(abs(value))} {'more' if value > 0.0 else 'less'} than the "
        f"settled one (± {100.0 * u:.2g} points), as known from elsewhere."
    ),
    "drift-assumed-priors": lambda: (
        "How large each cause usually is: judgement without a source, listed in docs/drift.md."
    ),
    "drift-nothing-fits": lambda: (
        "The readings lie further off than the likeliest cause allows: no verdict. A reading or its uncertainty may be wrong, or the cause is on no list."
    ),
    "drift-hangs-on-priors": lambda leader: (
        f"Likeliest is {cause_words(leader)}, but not if causes of twice or half the usual size are thought of: no verdict yet."
    ),
    "drift-same-minutes": lambda: (
        "All runs have the same minutes: a surplus and the output can't be told apart."
    ),
    "drift-two-runs": lambda: "Two runs: any line goes through two points.",
    "drift-no-blank": lambda: "No run with the discharge off is among them.",
    "drift-hidden": lambda causes: (
        "Invisible in these runs, whatever its size: "
        + ", ".join(cause_words(cause) for cause in causes)
        + ". A field blank and a guard bottle would show it."
    ),
    "drift-unlisted": lambda chance: f"Something on no list is {percent(chance)} likely.",
    "drift-u-matters": lambda threshold: (
        f"The uncertainties are guesses; were they three times larger, a verdict could be wrong. It needs {percent(threshold)} instead of 90 %."
    ),
    "drift-order-matters": lambda threshold: (
        f"The order of the runs is not known; a wrong one can give a wrong name. A verdict needs {percent(threshold)}."
    ),
}
