"""What the generator question says."""

from __future__ import annotations

from collections.abc import Callable

from ozonewright.show.numbers import percent, quantity, significant
from ozonewright.units import Kind

LACKS = {
    "gas.flow": "flow with its temperature and pressure",
    "gas.feed": "feed",
    "run.rate": "output",
}
RUNS = {
    "twice the flow": "at twice the flow",
    "half the flow": "at half the flow",
    "a fifth of the flow": "at a fifth of the flow",
    "cooler wall": "with the tube cooled by 20 K, its temperature read",
    "half the power": "at half the power",
    "dry air": "on dry air",
    "the same again": "like the last one",
}


def _left_out(runs: tuple[tuple[str, str], ...]) -> str:
    named = "; ".join(f"{label} (no {LACKS[place]})" for label, place in runs)
    return f"Left out, because they can't be placed on the map: {named}."


WAYS = {
    "readings": "from the readings logged of it",
    "clock": "from the temperature log, by the clock",
    "warming": "from the warming fitted to the log, at the power of that log",
}


def _degrees(value: float) -> str:
    return quantity(value, Kind.TEMPERATURE, "°C", figures=3)


def _slope(share: float) -> str:
    return significant(100.0 * share, 2).replace("-", "\u2212")


SENTENCES: dict[str, Callable[..., str]] = {
    "generator-one-run": lambda: (
        "One run only: it sets the scale; how the output changes with flow, power and temperature is "
        "what published generators do, with their spread."
    ),
    "generator-one-flow": lambda: (
        "All runs are at one flow: how the output changes with flow rests on what is thought of "
        "generators beforehand."
    ),
    "generator-left-out": _left_out,
    "generator-wall-unknown": lambda: (
        "Nobody read the temperature of the tube: it is taken as about 30 K above the gas that comes "
        "in (16 to 54 K in two of three cases; judgement, no source)."
    ),
    "generator-cold-start": lambda: (
        "A run that started cold has no wall temperature: it is taken as warm as the others, which "
        "makes it look better than a warm one."
    ),
    "generator-no-power": lambda: (
        "No run has its power: efficiency and yield are not determined, and what other watts would "
        "bring is unsure."
    ),
    "generator-damp-unknown": lambda: (
        "Room air without a dew point: about 0.9 mol of water for 100 mol is assumed (judgement). What "
        "damp does to the surface of the dielectric is not in the model and can be more."
    ),
    "generator-extrapolated": lambda: (
        "This place lies more than a factor of two beyond the flows or powers that were measured: a "
        "prediction to test before money is spent on it."
    ),
    "generator-other-feed": lambda: (
        "No run was made with this kind of feed: what nitrogen does is what is thought of generators "
        "beforehand."
    ),
    "generator-poisoned": lambda nox: (
        f"Nitrogen oxides are {percent(nox)} of the ozone: near the point where a discharge in air stops "
        "making ozone. More flow, less power or a cooler tube lead away from it."
    ),
    "generator-nox": lambda nox: (
        f"Air feed makes nitrogen oxides, about {percent(nox)} of the ozone in moles by the model; with "
        "damp they are nitric acid, and acidified iodide counts part of them as ozone."
    ),
    "generator-hot": lambda: (
        "By the model the gas is warmer than 147 °C, beyond the range of the rate constants."
    ),
    "generator-scatter": lambda scatter: (
        f"The runs scatter by {percent(scatter)} about one generator: something differed that is not "
        "written down. Ask drift or compare."
    ),
    "generator-high-efficiency": lambda: (
        "The fitted efficiency is above 35 %, where no published discharge on oxygen stands (from "
        "memory): look at power, flow and titres."
    ),
    "generator-warmth": lambda runs, flow, low, high: (
        f"The output is that of the generator fitted to {runs} run{'s' if runs > 1 else ''}, at "
        f"{quantity(flow, Kind.NORMAL_FLOW, 'NL/min', figures=3)}: it changes by "
        f"{_slope(low)} to {_slope(high)} % (95 %) for each kelvin of the tube."
    ),
    "generator-warmth-bent": lambda share: (
        f"The output is taken on a straight line against temperature, which the model leaves by up "
        f"to {percent(share)}."
    ),
    "generator-under-pattern": lambda mean, trough, peak: (
        f"Under this pattern the tube is {_degrees(mean)} as a mean while on ({_degrees(trough)} at the "
        f"start of an on-time, {_degrees(peak)} at its end, once it repeats itself); the output is that "
        "while on. How sure rise and time constant are is not in the interval. A timer is a "
        "convenience, never the safeguard."
    ),
    "generator-walls-from": lambda runs: (
        "Tube temperatures that the runs do not state: "
        + "; ".join(f"{label} {WAYS[way]}" for label, way in runs)
        + "."
    ),
    "generator-fitted": lambda basis: (
        f"Efficiency (of the power at the {basis}), loss and the share of nitrogen are fitted to these "
        "runs, never known. Intervals hold if the model does; they are of the output, without the "
        "scatter of a single run."
    ),
    "generator-cannot-know": lambda: (
        "The model can't know the filaments and the field, the state of electrodes and dielectric, "
        "leaks, hot spots, or a supply whose watts change with the gas."
    ),
    "generator-run": lambda run, share: (
        f"Make a run {RUNS[run]}: it would take away {percent(share)} of the doubt about the changes."
    ),
    "generator-read-wall": lambda: (
        "Read the temperature of the tube in each run (high voltage off, or a sensor kept clear of it) "
        'and write wall = "45 °C" under [electrical].'
    ),
    "generator-read-power": lambda: (
        'Read the watts at the plug and write power = "38 W" under [electrical].'
    ),
}
