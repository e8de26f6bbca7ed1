"""What the output question says."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from ozonewright.references.constants import M_O3, R
from ozonewright.show.numbers import percent, quantity, significant
from ozonewright.units import Kind, number


def _ml(volume: float) -> str:
    return f"{number(volume, Kind.VOLUME, 'mL'):.2f} mL"


def _plain_ml(volume: float) -> str:
    return f"{number(volume, Kind.VOLUME, 'mL'):g} mL"


def _mmol(amount: float) -> str:
    return quantity(amount, Kind.AMOUNT, "mmol")


def _strength(concentration: float) -> str:
    return quantity(concentration, Kind.CONCENTRATION, "mol/L")


def _flow(flow: float) -> str:
    return quantity(flow, Kind.NORMAL_FLOW, "NL/min", figures=3)


def _yield(value: float) -> str:
    return quantity(value, Kind.YIELD, "g/kWh", figures=3)


def _minutes(short: bool) -> str:
    return " An on-time this short asks: minutes typed as seconds?" if short else ""


def _factor(ratio: float) -> str:
    return f"{significant(ratio, 3)} times"


NOTES: dict[str, Callable[..., str]] = {
    "no-blank": lambda share, step: (
        f"No blank: each {_plain_ml(step)} of blank would lower the result by {percent(share)}."
    ),
    "burette-refilled": lambda titre, capacity, filled: (
        f"The titre of {_ml(titre)} is more than the {_plain_ml(capacity)} burette holds: "
        "refilled, it has two more readings. A stronger titrant or a shorter run avoids it."
    ),
    "titre-small": lambda titre, capacity, filled, share: (
        f"The titre fills {percent(filled)} of the burette (30 to 100 % is good practice); "
        f"its reading alone is worth {percent(share)} of the titre."
    ),
    "burette-class-unknown": lambda capacity: (
        f"The class of the {_plain_ml(capacity)} burette is not stated, so its own error is left out."
    ),
    "titre-below-blank": lambda bottle: (
        f"Bottle {bottle} reads below its blank: exchanged, or a blank from another batch?"
    ),
    "temperature-unknown": lambda share, step: (
        f"Temperature of the titration not stated: every {step:g} °C from 20 °C moves the "
        f"result by {percent(share)}, unless the titrant was standardised equally warm."
    ),
    "no-guard": lambda: (
        "No guard bottle: what slipped past the first bottle is not counted, so the result is a "
        "lower bound."
    ),
    "guard-high": lambda share, lost: (
        f"The guard bottle holds {percent(share)} of the ozone (up to 5 % is usual). If each bottle "
        f"lets the same share pass, about {percent(lost)} went past both."
    ),
    "guard-above-first": lambda share: (
        f"The last bottle holds {percent(share)} of the ozone, more than the first: are the titres in "
        "flow order, or did the first bottle let the gas pass?"
    ),
    "iodide-low": lambda ratio, bottle: (
        f"Bottle {bottle} had {_factor(ratio)} the least iodide its ozone needs; five times keeps "
        "the iodine bound."
    ),
    "iodide-spent": lambda ratio, bottle: (
        f"Bottle {bottle} had only {_factor(ratio)} the iodide that its ozone needs: it can't have "
        "caught this much. Check the salt, the titre and the titrant."
    ),
    "frit-in-iodide": lambda bottle: (
        f"A frit in iodide bottle {bottle}: the published procedure asks for an open tube, since "
        "iodine and iodate stay behind in the frit (reads low)."
    ),
    "acid-unknown": lambda: (
        "Acid not stated: the iodate that forms in the alkaline trap comes back only with enough "
        "strong acid."
    ),
    "acid-before": lambda: (
        "Acid was in the bottle before the ozone: that reads high, up to half as much again (from "
        "memory). Add it after the gas."
    ),
    "acid-when-unknown": lambda: (
        "It is not stated whether the acid came before or after the ozone."
    ),
    "acid-short": lambda bottle, offered, needed, acid: (
        f"Too little acid: the {acid} gives {_mmol(offered)} of protons down to pH 2.5, bottle "
        f"{bottle} needs {_mmol(needed)}. Iodate stays behind, so the result reads low."
    ),
    "iodine-carried": lambda share: (
        f"The gas may have carried off up to {percent(share)} of the iodine, and there was no guard "
        "bottle to catch it. More iodide or a shorter run holds it."
    ),
    "iodine-carried-guarded": lambda share: (
        f"Up to {percent(share)} of the iodine may have gone with the gas into the guard bottle; it "
        "is counted there."
    ),
    "titrant-by-weight": lambda: (
        "The titrant is known by the weight of its salt alone: the hydrate loses water on standing. "
        "Titrate it against potassium iodate."
    ),
    "purity-unknown": lambda standard: (
        f"Purity of the {standard} not stated and taken as 100 %: each 0.1 % less lowers the result "
        "by 0.1 %."
    ),
    "titrant-old": lambda days: (
        f"The titrant was standardised {days} days before the run; within two weeks is common "
        "practice (no source)."
    ),
    "titrant-later": lambda days: f"The titrant was standardised {days} days after the run.",
    "standard-blank-none": lambda: "No blank is given for the standardisation; none was taken off.",
    "flow-high": lambda flow: (
        f"{quantity(flow, Kind.VOLUME_FLOW, 'L/min', figures=3)} through the bottles; the published "
        "procedure stays at or below 1 L/min."
    ),
    "total-far": lambda ozone: (
        f"{quantity(ozone, Kind.AMOUNT, 'mmol', figures=2)} of ozone in all; the published procedure "
        "aims at about 1 mmol."
    ),
    "nitrite": lambda: (
        "Air feed makes nitrogen oxides; nitrite frees iodine after acid (reads high, and the end "
        "point keeps coming back). Titrate at once; a second end point after a minute tells."
    ),
    "moisture-unknown": lambda: (
        "Room air of unknown dew point: its water was taken as anything between dry and saturated."
    ),
    "feed-dry": lambda: "The feed is not stated and was taken as dry.",
    "rotameter-scale": lambda: (
        "The rotameter's scale was taken as drawn for 20 °C and 101.325 kPa; see its plate."
    ),
    "field-blank-used": lambda labels: (
        f"Field blank {' and '.join(labels)} (discharge off) stands in place of the reagent blank."
    ),
    "field-blank-differs": lambda **values: (
        f"Field blank {values['label']} differs from this run in {', '.join(values['in'])}; it was "
        "not scaled."
    ),
    "field-blank-other-train": lambda label: (
        f"Field blank {label} has another number of bottles, or no titres, and was left out."
    ),
    "readings-only": lambda: (
        "Readings only: a lone run can't show how runs scatter; repeats of this method usually "
        "scatter by 1 to 2 % (from memory)."
    ),
    "on-time-short": lambda on_time, share: (
        f"An on-time of {quantity(on_time, Kind.TIME, 's', figures=3)}: minutes typed as seconds? If it "
        f"was so short, each second of error is worth {percent(share)} of the result."
    ),
    "above-enthalpy-limit": lambda **v: (
        f"{_yield(v['yield'])} can't be: bonds alone cost so much that {_yield(v['ceiling'])} is the "
        f"most any generator could give. Check power, on-time and titrant.{_minutes(v['short'])}"
    ),
    "yield-doubtful": lambda **v: (
        f"{_yield(v['yield'])} is above the best published for oxygen ({_yield(v['best'])}, from "
        f"memory). Check power, on-time and titrant.{_minutes(v['short'])}"
    ),
    "more-ozone-than-oxygen": lambda rate, oxygen: (
        "This ozone needs more oxygen than was fed "
        f"({quantity(rate, Kind.AMOUNT_RATE, 'mmol/min', figures=3)} against "
        f"{quantity(oxygen, Kind.AMOUNT_RATE, 'mmol/min', figures=3)}). Check flow, feed and on-time."
    ),
    "typed-factor-two": lambda ratio, of, by: (
        f"What was typed as {of} is {_factor(ratio)} {by}: 1 mmol of thiosulfate is 24 mg of "
        "ozone, not 48."
    ),
    "typed-hydrate": lambda ratio, of, by: (
        f"What was typed as {of} is {_factor(ratio)} {by}: the ratio of thiosulfate "
        "pentahydrate to anhydrous salt."
    ),
    "typed-minutes-seconds": lambda ratio, of, by: (
        f"What was typed as {of} is {_factor(ratio)} {by}: minutes taken for seconds?"
    ),
    "typed-mg-per-min-as-g-per-h": lambda ratio, of, by: (
        f"What was typed as {of} is {_factor(ratio)} {by}: mg/min taken for g/h?"
    ),
    "typed-differs": lambda ratio, of, by: (
        f"What was typed as {of} is {_factor(ratio)} what {by} gives, which is used."
    ),
}

DOUBT = {
    "on-time": "switch the ozone into the bottle with a diverted start and time both ends, or run longer",
    "flow": "time the gas displacing water from a litre bottle",
    "blank": "titrate the blank three times",
}


def _largest(input: str, share: float, basis: str, diverted: bool) -> str:
    act = DOUBT.get(input)
    if input == "on-time" and basis == "from digits":
        act = 'type it to the second, as in "4 min 0 s", or state its ±'
    elif input == "on-time" and diverted:
        act = "film the switch with the clock in view, or run longer"
    elif act is None and basis == "from digits":
        act = "state its class or its ±, for only the digits typed say how sure it is"
    elif act is None and basis.startswith("class"):
        act = "weigh what it delivers, or use a better class"
    elif act is None:
        act = "measure it again or better"
    return f"Largest doubt: {input} ({percent(share)} of the variance). To lower it: {act}."


NEXT: dict[str, Callable[..., str]] = {
    "mend-first": lambda code: "First mend what can't be true (see above).",
    "type-on-time": lambda: (
        "Add the on-time (run.on_time): ozone by the minute is ozone over the time it was fed."
    ),
    "titrate-blank": lambda: (
        "Titrate a blank: the same iodide, acid and wait, no ozone. Better still with the gas on and "
        "the discharge off, for the same minutes."
    ),
    "add-guard": lambda: "Put a second bottle of iodide behind the first and titrate it too.",
    "largest-doubt": _largest,
    "type-more": lambda fields: (
        f"Add {' and '.join(fields)} for the concentration and the yield."
        if len(fields) > 1
        else f"Add {fields[0]} for the " + ("yield." if "power" in fields[0] else "concentration.")
    ),
    "repeat-run": lambda: "Repeat the run twice: three runs show their own scatter.",
}


def _standard(**v: Any) -> str:
    purity = f" × {significant(v['purity'], 5)}" if v["purity"] != 1.0 else ""
    titre = _ml(v["titre"]) if not v["blank"] else f"({_ml(v['titre'])} − {_ml(v['blank'])})"
    return (
        f"titrant: {v['equivalents']:g} × {quantity(v['mass'], Kind.MASS, 'g')}{purity} ÷ "
        f"{quantity(v['molar_mass'], Kind.MOLAR_MASS, 'g/mol', figures=5)} × {_ml(v['aliquot'])} ÷ "
        f"{_plain_ml(v['flask'])} ÷ {titre} = {_strength(v['concentration'])}"
    )


def _salt(**v: Any) -> str:
    purity = f" × {significant(v['purity'], 5)}" if v["purity"] != 1.0 else ""
    return (
        f"titrant: {quantity(v['mass'], Kind.MASS, 'g')}{purity} ÷ "
        f"{quantity(v['molar_mass'], Kind.MOLAR_MASS, 'g/mol', figures=5)} ÷ {_plain_ml(v['flask'])} "
        f"= {_strength(v['concentration'])}"
    )


def _bottle(**v: Any) -> str:
    net = _ml(v["titre"]) if v["blank"] is None else f"({_ml(v['titre'])} − {_ml(v['blank'])})"
    mean = f", mean of {v['repeats']}" if v["repeats"] > 1 else ""
    taken = "" if v["taken"] == 1.0 else f" ÷ {significant(v['taken'])}"
    field = " less the field blank" if v["field"] else ""
    return (
        f"bottle {v['bottle']}{mean}: {net} × {_strength(v['concentration'])}{taken}{field} = "
        f"{_mmol(v['thiosulfate'])} thiosulfate"
    )


def _ozone(amount: float, mass: float, titrated: bool) -> str:
    grams = quantity(M_O3, Kind.MOLAR_MASS, "g/mol", figures=5)
    start = f"{_mmol(2.0 * amount)} ÷ 2 × {grams}" if titrated else f"{_mmol(amount)} × {grams}"
    return f"ozone: {start} = {quantity(mass, Kind.MASS, 'mg')}"


def _rate(mass: float, on_time: float, rate: float, amount: float) -> str:
    return (
        f"output: {quantity(mass, Kind.MASS, 'mg')} ÷ {quantity(on_time, Kind.TIME, 's')} × 3.6 = "
        f"{quantity(rate, Kind.MASS_RATE, 'g/h')} = {quantity(amount, Kind.AMOUNT_RATE, 'mmol/h')}"
    )


WHERE = {
    "before tube": "feed",
    "after bottles": "ozonised gas, dry",
    "after destruct": "feed, dry",
}


def _dry(**v: Any) -> str:
    corrected = " (corrected for the gas)" if v["meter"] == "rotameter" else ""
    return (
        f"{WHERE[v['at']]}: {quantity(v['pressure'], Kind.PRESSURE, 'kPa')} × "
        f"{quantity(v['flow'], Kind.VOLUME_FLOW, 'L/min', figures=3)}{corrected} ÷ "
        f"({significant(R)} J/mol/K × {v['temperature']:.2f} K) × 22.414 L/mol = {_flow(v['dry'])}"
    )


def _other(feed: float, ozonised: float, rate: float, behind: bool) -> str:
    half = quantity(rate / 2.0, Kind.NORMAL_FLOW, "NL/min", figures=2)
    if behind:
        return f"feed: {_flow(ozonised)} + {half} (half the ozone) = {_flow(feed)}"
    return f"ozonised gas: {_flow(feed)} − {half} (half the ozone) = {_flow(ozonised)}"


def _concentration(rate: float, flow: float, concentration: float, mole_fraction: float) -> str:
    return (
        f"concentration: {quantity(rate, Kind.MASS_RATE, 'mg/min')} ÷ {_flow(flow)} = "
        f"{quantity(concentration, Kind.NORMAL_CONCENTRATION, 'g/Nm3')}; × 22.414 ÷ 47.997 ÷ 10 = "
        f"{quantity(mole_fraction, Kind.MOLE_FRACTION, 'vol%', figures=3)}"
    )


WORKING: dict[str, Callable[..., str]] = {
    "titrant-stated": lambda concentration: f"titrant: {_strength(concentration)}, as stated",
    "titrant-standard": _standard,
    "titrant-salt": _salt,
    "bottle": _bottle,
    "ozone": _ozone,
    "rate": _rate,
    "flow-normal": lambda dry, at: f"{WHERE[at]}: {_flow(dry)}, as stated",
    "flow-dry": _dry,
    "flow-other": _other,
    "concentration": _concentration,
    "mass-fraction": lambda mass_fraction: (
        "mass fraction: ozone over the mass of the feed = "
        f"{quantity(mass_fraction, Kind.MASS_FRACTION, 'wt%', figures=3)}"
    ),
    "yield": lambda **v: (
        f"yield: {quantity(v['rate'], Kind.MASS_RATE, 'g/h')} ÷ "
        f"{quantity(v['power'], Kind.POWER, 'W', figures=3)} at the {v['at']} × 1000 = {_yield(v['yield'])}"
    ),
}

SENTENCES = {**NOTES, **NEXT, **WORKING}
