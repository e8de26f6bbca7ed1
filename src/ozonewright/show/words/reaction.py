"""What the plan of a reaction says: its notes, and the acts at the bench."""

from __future__ import annotations

from collections.abc import Callable

from ozonewright.show.numbers import percent, quantity, significant
from ozonewright.units import Kind


def _minutes(seconds: float) -> str:
    return quantity(seconds, Kind.TIME, "min", figures=2)


def _grams(kilograms: float, figures: int = 3) -> str:
    return quantity(kilograms, Kind.MASS, "g", figures=figures)


def _volume(volume: float) -> str:
    return quantity(volume, Kind.VOLUME, "mL", figures=3)


def _amount(amount: float) -> str:
    return quantity(amount, Kind.AMOUNT, "mmol", figures=3)


def _next_site(site: str, most: float, evidence: str) -> str:
    return f"Next in line is the {site} ({evidence}). Once the wanted site is gone, each minute too long costs between nothing and {percent(most)} of the product; the upper end if every ozone spoils one molecule."


def _charge(amount: float, mass: float, volume: float | None, solvent: str | None) -> str:
    into = f" in {_volume(volume)}" if volume else ""
    of = f" of {solvent}" if solvent else ""
    return f"Dissolve {_amount(amount)} of substrate ({_grams(mass)} pure){into}{of}. Shield in front; behind the flask a tail bottle, then the destruct."


def _cool(temperature: float, ice: float | None, down: float | None) -> str:
    at = quantity(temperature, Kind.TEMPERATURE, "°C", figures=2)
    heat = f"{_grams(ice, 2)} of dry ice take the reaction heat" if ice is not None else ""
    cool = f"{_grams(down, 2)} cool the liquid down" if down else ""
    told = ", ".join(part for part in (heat, cool) if part)
    end = f" ({told}; what the bath takes from the room comes on top)" if told else ""
    return f"Cool to {at}{end}. Never with liquid nitrogen: it would condense ozone."


def _look(look_from: float, signal: str | None, surely: bool, early: float | None) -> str:
    watch = f"watch the {signal}" if signal else "watch for the end point"
    if not surely:
        return f"From {_minutes(look_from)} of on-time on, {watch}. It may come much later: the uptake is unknown."
    if early is not None:
        watch = f"watch the {signal or 'off-gas'}"
        return f"From {_minutes(look_from)} of on-time on, {watch}. By the simulated run it has half turned {_minutes(early)} before 99 % are converted: go on for that long, no longer."
    return f"From {_minutes(look_from)} of on-time on, {watch}; at the first sign, stop."


_WHY: dict[str, Callable[[str], str]] = {
    "no rig": lambda what: "the reaction names no rig",
    "no notebook": lambda what: (
        f"the rig {what} stands in a notebook, and none is given (--notebook, or --rig FILE)"
    ),
    "rig unknown": lambda what: f"the notebook has no rig {what}",
    "output": lambda what: "the output is not known",
    "flow": lambda what: "no flow of gas is stated ([gas] flow)",
    "equivalents": lambda what: "the ozone is typed as equivalents, not by sites",
    "unsure": lambda what: "output or uptake is known too poorly",
    "not done": lambda what: "the simulated flask does not get done",
    "refused": lambda what: what.rstrip("."),
}


def _not_simulated(why: str, what: str) -> str:
    return f"Look-from, stop-by and the cost of being late are rules of thumb, not simulated: {_WHY[why](what)}."


def _quench(
    reagent: str,
    amount: float,
    mass: float,
    volume: float | None,
    hydrogen: float | None,
    waiting: float,
    peroxide: str,
) -> str:
    of = f", {_volume(volume)}" if volume else ""
    gas = (
        f" It gives off up to {_volume(hydrogen)} of hydrogen: open to a vent, no flame, no spark."
        if hydrogen
        else ""
    )
    return f"Cold and in portions, {_amount(amount)} of {reagent} ({_grams(mass)}{of}). The {peroxide} stays dangerous until it is used up; let it come to room temperature slowly, about {quantity(waiting, Kind.TIME, 'h', figures=2)}.{gas}"


SENTENCES: dict[str, Callable[..., str]] = {
    "reaction-output-unknown": lambda: (
        "The output is not stated, so no on-time can be given: type output, or name a setting or run of the notebook."
    ),
    "reaction-uptake-unknown": lambda shortest: (
        f"The uptake is not stated. If all the ozone were taken it would need {_minutes(shortest)}; every per cent that slips makes it longer. Type the uptake, or measure the slip with a tail bottle."
    ),
    "reaction-output-unsure": lambda: (
        "The output is known so poorly that it may be nothing: no time can be told. Measure it, in three runs, before anything is dosed by it."
    ),
    "reaction-uptake-unsure": lambda: (
        "The uptake is known so poorly that it may be nothing: no on-time can be told. Measure the slip with a tail bottle."
    ),
    "reaction-output-of-run": lambda run: (
        f"The output is that of {run} alone, which can't show how runs scatter; repeats usually scatter by 1 to 2 % (from memory)."
    ),
    "reaction-uptake-of-run": lambda run: (
        f"The uptake is taken from the guard bottle of {run}: iodide in water takes ozone faster than a cold solvent does, so the reaction may take less and need longer."
    ),
    "reaction-uptake-of-model": lambda rig: (
        f"The uptake is not stated and comes from the model of the flask in {rig} (ozonewright absorber): bubbles, transfer and solubility are known to a quarter at best. A tail titre makes it sure."
    ),
    "reaction-not-simulated": _not_simulated,
    "reaction-simulated": lambda rig, look, stop: (
        f"Look-from and stop-by are those of a simulated run in the flask of {rig}; rules of thumb would say {_minutes(look)} and {_minutes(stop)}. Look-from is the earliest end of 95 % of the runs, stop-by where their mean product is most."
    ),
    "reaction-uptake-corrects": lambda stated, modelled: (
        f"The uptake stated, {percent(stated)}, corrects the simulated flask, which by its model alone would take {percent(modelled)}."
    ),
    "reaction-uptake-of-tail": lambda: (
        "The uptake is worked out from the tail titre; it holds for this liquid, depth, sparger and flow."
    ),
    "reaction-stop-before-sure": lambda left: (
        f"The on-time is known too poorly for the clock alone: at the stop-by mark up to {percent(left)} of the ozone may still be missing. Let the end point decide, or measure output and uptake better."
    ),
    "reaction-u-from-digits": lambda names: (
        f"No uncertainty is stated for {names}; the last digit stands in its place, so the interval is the narrowest there can be."
    ),
    "reaction-purity-unknown": lambda: (
        "No purity is stated: the mass is taken as pure substrate, which makes the on-time an upper end."
    ),
    "reaction-timer": lambda: (
        "A timer is a convenience, never the safeguard: with solvent and oxygen somebody stays beside it. Each off is a chance of suck-back; the gas stays on."
    ),
    "reaction-under-timer": lambda: (
        "The output is the mean while on of the repeated pattern, as the tube warms and cools; the first on-times, from cold, deliver a little more, so look early."
    ),
    "reaction-no-rest-needed": lambda: (
        "By these numbers the tube stays below the limit if it runs on; the output is that of the warm tube. Check it with a thermometer: the numbers are no safeguard."
    ),
    "reaction-start-unknown": lambda: (
        "No start loss is taken off: start the generator into the tail and divert when it is warm, or type start_loss."
    ),
    "reaction-solvent-reacts": lambda solvent: (
        f"Ozone takes {solvent} itself, and it makes peroxides: choose another solvent."
    ),
    "reaction-solvent-slowly": lambda solvent: (
        f"Ozone takes {solvent} slowly; cold, and while substrate is there, it costs little."
    ),
    "reaction-part-freezes": lambda solvent, melting: (
        f"By itself {solvent} freezes at {quantity(melting, Kind.TEMPERATURE, '°C', figures=2)}: try the mixture at this temperature before ozone is on."
    ),
    "reaction-hydroperoxide": lambda: (
        "The alcohol traps the carbonyl oxide: alkoxy hydroperoxide and carbonyl stand in the flask in place of most of the ozonide. No figure of its energy was read; the ozonide's stands in its place."
    ),
    "reaction-colder-than-dry-ice": lambda: "Dry ice does not reach this temperature.",
    "reaction-concentrated": lambda concentration, volume: (
        f"{quantity(concentration, Kind.CONCENTRATION, 'mol/L', figures=2)} of substrate: heat and peroxide stand close together. {_volume(volume)} would make it 0.1 mol/L (common practice)."
    ),
    "reaction-would-boil": lambda rise, boiling: (
        f"If cooling failed, the liquid would warm by {significant(rise, 2)} K and boil (at {quantity(boiling, Kind.TEMPERATURE, '°C', figures=2)}): more solvent or less substrate."
    ),
    "reaction-rise": lambda rise: (
        f"If cooling failed, the liquid would warm by {significant(rise, 2)} K: keep a full bath, or take more solvent."
    ),
    "reaction-heat-from-memory": lambda: (
        "The reaction heat of 400 kJ/mol is from memory (330 to 450); formation enthalpies less the energy of decay leave 400 to 440."
    ),
    "reaction-no-quench": lambda peroxide: (
        f"No quench is planned: the {peroxide} stays in the flask. Choose one before ozone is on."
    ),
    "reaction-quench-low": lambda reagent, low, high: (
        f"Too little {reagent} to end all peroxide: usual are {significant(low, 3)} to {significant(high, 3)} equivalents (common practice)."
    ),
    "reaction-quench-high": lambda reagent, low, high: (
        f"More {reagent} than usual ({significant(low, 3)} to {significant(high, 3)} equivalents, common practice)."
    ),
    "reaction-acetone-peroxide": lambda: (
        "Acetone with peroxide and acid makes an explosive cyclic peroxide: another solvent, and no acetone to rinse with."
    ),
    "reaction-zinc-acid": lambda amount: (
        f"Zinc needs acetic acid: at least {_amount(amount)}, two for each zinc."
    ),
    "reaction-tail-unknown": lambda iodide: (
        f"The tail bottle is not described. {_grams(iodide, 2)} of potassium iodide hold the worst case, twice over."
    ),
    "reaction-tail-small": lambda there, iodide: (
        f"The tail bottle holds {_grams(there, 2)} of potassium iodide; the worst case needs {_grams(iodide, 2)}."
    ),
    "reaction-nothing-next": lambda most: (
        f"Nothing else in the molecule is known to take ozone. Each minute too long wastes ozone and oxidises what is there slowly: at most {percent(most)} of the product."
    ),
    "reaction-next-site": _next_site,
    "reaction-step-charge": _charge,
    "reaction-step-cool": _cool,
    "reaction-step-tail": lambda mass: (
        f"Tail bottle: {_grams(mass, 2)} of potassium iodide or more, in 200 mL of water. It must hold the ozone if nothing in the flask takes it."
    ),
    "reaction-step-gas": lambda: (
        "Gas on first, an empty safety bottle and a check valve before the flask; bubbles in flask and tail. Discharge on, start the count."
    ),
    "reaction-step-by-end-point": lambda: "No on-time is known: the end point alone decides.",
    "reaction-step-look": _look,
    "reaction-step-stop": lambda stop_by, run_on: (
        f"By {_minutes(stop_by)} of on-time stop, whatever is seen. Discharge off; gas on for {_minutes(run_on)} more, so that nothing is sucked back. Don't lift the sparger while ozone is on."
    ),
    "reaction-step-purge-first": lambda reagents: (
        f"Purge with nitrogen or argon until the starch-iodide paper stays white and the oxygen is out of flask and head-space, 10 min or more. Only then {reagents}: hydrogen or low-flash vapour must never meet oxygen."
    ),
    "reaction-step-purge": lambda: (
        "Purge with nitrogen or argon until the starch-iodide paper stays white, then quench."
    ),
    "reaction-step-quench": _quench,
    "reaction-step-peroxide-left": lambda: (
        "Destroy the hydrogen peroxide left over with sulfite, cold. No acetone near it, not even to rinse: with acid it makes an explosive peroxide."
    ),
    "reaction-step-test": lambda apart: (
        f"Peroxide test, two negatives at least {_minutes(apart)} apart. Wet the strip; in a solvent without water let it dry and wet it. Strips miss dialkyl peroxides and stable ozonides."
    ),
    "reaction-step-by-product": lambda by_product, mass: (
        f"{by_product.capitalize()} to be removed: {_grams(mass)} in theory."
    ),
    "reaction-step-smell": lambda: (
        "Glassware with dimethyl sulfide into cold dilute hypochlorite; never acid with it."
    ),
    "reaction-step-evaporate": lambda: (
        "Not before two negatives: evaporate, never to dryness, behind the shield."
    ),
}
