"""The plan of a reaction as text."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.reaction.result import (
    ProductRow,
    QuenchRow,
    ReactionPlan,
    SiteRow,
    SubstrateRow,
    TimerRow,
)
from ozonewright.show.numbers import percent, power_of_ten, quantity, significant, span
from ozonewright.show.reaction_simulated import simulated_lines
from ozonewright.show.signs import sign_lines
from ozonewright.show.wrap import foot, marked, numbered, wrapped
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind, number

SIGNS = {
    "blue": "Blue liquid: free ozone; the fast sites are gone",
    "dye": "A dye (Sudan III, Sudan red 7B) pales: ozone has turned to it, after the alkene",
    "off-gas": "Starch-iodide paper or bottle in the off-gas darkens: ozone comes through",
    "tail titre": "The tail titre rises above the slip so far: ozone comes through",
}
USES = {"yes": "", "hardly": "hardly to be seen this warm", "unknown": "only below −60 °C"}
CASES = {
    "normal slip": "what slips past while the reaction takes ozone",
    "run-on": "done early, and ozone on until the stop-by mark",
    "abort": "nothing taken up until the stop-by mark",
}


def minutes(seconds: float | None, decimals: int = 0) -> str:
    """Return a time in minutes for the answer line."""
    return "–" if seconds is None else f"{number(seconds, Kind.TIME, 'min'):.{decimals}f}"


def answer_line(plan: ReactionPlan) -> str:
    """Return the one line that answers: how long, when to look, when to stop."""
    if isinstance(plan.on_time, Estimate):
        low, high = plan.on_time.interval
        return (
            f"{minutes(plan.on_time.value, 1)} min ({minutes(low, 1)} to {minutes(high, 1)}) of "
            f"on-time; "
            f"look from {minutes(plan.look_from)}; stop by {minutes(plan.stop_by)} min"
        )
    if plan.shortest is not None:
        return (
            f"At least {minutes(plan.shortest)} min of on-time; the uptake is unknown, so the end "
            f"point decides: look from {minutes(plan.look_from)} min"
        )
    demand = plan.demand.value if isinstance(plan.demand, Estimate) else 0.0
    amount = quantity(demand, Kind.AMOUNT, "mmol", figures=3)
    known = "known too poorly for a time" if plan.output is not None else "unknown, so is the time"
    return f"{amount} of ozone wanted; the output is {known}"


def product_line(row: ProductRow) -> str:
    """Return one product with its theoretical yield."""
    mass = quantity(row.mass or 0.0, Kind.MASS, "g", figures=3)
    amount = quantity(row.amount or 0.0, Kind.AMOUNT, "mmol", figures=3)
    return f"{mass} ({amount})  {row.formula}  {row.smiles}  {row.role}"


def quench_line(row: QuenchRow) -> str:
    """Return one quench with its amounts."""
    mass = quantity(row.mass or 0.0, Kind.MASS, "g", figures=3)
    amount = quantity(row.amount or 0.0, Kind.AMOUNT, "mmol", figures=3)
    by = quantity(row.by_product_mass or 0.0, Kind.MASS, "g", figures=3)
    return f"{amount} = {mass} of {row.reagent}; leaves {by} of {row.by_product}"


def site_line(row: SiteRow) -> str:
    """Return one kind of site: what, how fast, by which evidence."""
    many = f"{row.count} × " if row.count > 1 else ""
    if row.rate_constant is None:
        rate = f"no rate constant on record; placed by {row.placed_by} ({row.evidence})"
    else:
        k = number(row.rate_constant, Kind.RATE_CONSTANT, "L/(mol s)")
        of = f"{f'of {row.rate_of} ' if row.rate_of else ''}in {row.medium}"
        rate = f"{power_of_ten(k)} L/(mol s), {of} ({row.evidence})"
    wanted = "to be cleaved" if row.attacked else "to be spared"
    whose = f" of {row.of}" if row.of else ""
    return f"{many}{row.kind}{whose}: {rate}; {wanted}"


def substrate_line(row: SubstrateRow) -> str:
    """Return one substrate with amount and ozone."""
    amount = quantity(row.amount or 0.0, Kind.AMOUNT, "mmol", figures=3)
    mass = number(row.molar_mass or 0.0, Kind.MOLAR_MASS, "g/mol")
    name = f"{row.name}: " if row.name else ""
    return f"{name}{row.smiles}  {row.formula}, {mass:.2f} g/mol, {amount}, {row.ozone:g} O₃ each"


def sums(plan: ReactionPlan) -> Iterator[tuple[str, str]]:
    """Yield the figures of the plan as words and value, those that are known."""
    for words, value, kind, unit in (
        ("ozone demand", plan.demand, Kind.AMOUNT, "mmol"),
        ("output", plan.output, Kind.MASS_RATE, "g/h"),
        ("as amount", plan.output_amount, Kind.AMOUNT_RATE, "mmol/h"),
        ("uptake", plan.uptake, Kind.SHARE, "%"),
        ("on-time", plan.on_time, Kind.TIME, "min"),
    ):
        if isinstance(value, Estimate):
            yield words, quantity(value.value, kind, unit, u=value.u)
    if isinstance(plan.on_time, Estimate):
        low, high = plan.on_time.interval
        told = span(low, high, Kind.TIME, "min", plan.on_time.u)
        yield "95 %", f"{told} ({plan.interval_method})"
    if plan.clock_time is not None and plan.starts and plan.starts > 1:
        clock = quantity(plan.clock_time, Kind.TIME, "min", figures=3)
        yield "by the clock", f"{clock} in {plan.starts} periods"
    if plan.timer is not None:
        yield "timer", timer_line(plan.timer)
    if isinstance(plan.oxygen, Estimate):
        yield "oxygen", quantity(plan.oxygen.value, Kind.NORMAL_VOLUME, "NL", figures=2)
    elif "gas.flow" in plan.unknowns:
        yield "oxygen", "unknown: no flow is stated"


def timer_line(row: TimerRow) -> str:
    """Return what the generator's timer does: pattern, peak, output."""
    parts = ["runs on, no rest needed"]
    if row.on is not None and row.off is not None:
        on, off = (quantity(one, Kind.TIME, "min", figures=2) for one in (row.on, row.off))
        parts = [f"{on} on, {off} off"]
    if row.chosen and row.limit is not None:
        limit = quantity(row.limit, Kind.TEMPERATURE, "°C", figures=3)
        parts[0] += f" (chosen: most ozone with the tube below {limit})"
    if isinstance(row.peak_temperature, Estimate):
        peak = quantity(row.peak_temperature.value, Kind.TEMPERATURE, "°C", figures=3)
        parts.append(f"the tube peaks at {peak}")
    if isinstance(row.rate_on, Estimate) and isinstance(row.rate_cold, Estimate):
        mean, cold = (
            quantity(one.value, Kind.MASS_RATE, "g/h", figures=3)
            for one in (row.rate_on, row.rate_cold)
        )
        parts.append(f"output {mean} while on, {cold} cold")
    if isinstance(row.ozone_rate, Estimate):
        hour = quantity(row.ozone_rate.value, Kind.MASS_RATE, "mg/h", figures=3)
        parts.append(f"{hour.replace('/h', '')} of ozone per clock hour")
    return "; ".join(parts)


def heat_lines(plan: ReactionPlan) -> Iterator[tuple[str, str]]:
    """Yield heat, coolant, peroxide."""
    if isinstance(plan.heat, Estimate):
        power = quantity(plan.heat.value, Kind.POWER, "W", figures=3)
        assert isinstance(plan.reaction_heat, Estimate)
        per = quantity(plan.reaction_heat.value, Kind.MOLAR_ENERGY, "kJ/mol", figures=3)
        yield "heat", f"{power} while ozone is taken, at {per}"
    if isinstance(plan.heat_in_all, Estimate):
        whole = quantity(plan.heat_in_all.value, Kind.ENERGY, "kJ", figures=2)
        ice = quantity(plan.dry_ice or 0.0, Kind.MASS, "g", figures=2)
        yield "in all", f"{whole}; {ice} of dry ice take it"
    if plan.dry_ice_to_cool:
        down = quantity(plan.dry_ice_to_cool, Kind.MASS, "g", figures=2)
        yield "to cool the liquid", f"{down} of dry ice from 20 °C, the bath's own losses apart"
    if isinstance(plan.adiabatic_rise, float):
        yield "if cooling failed", f"{significant(plan.adiabatic_rise, 2)} K warmer"
    if plan.concentration is not None:
        yield "substrate", quantity(plan.concentration, Kind.CONCENTRATION, "mol/L", figures=2)
    if plan.peroxide_amount:
        amount = quantity(plan.peroxide_amount, Kind.AMOUNT, "mmol", figures=3)
        energy = quantity(plan.peroxide_energy or 0.0, Kind.ENERGY, "kJ", figures=2)
        each = quantity(
            plan.peroxide_energy_per_mass or 0.0, Kind.SPECIFIC_ENERGY, "J/g", figures=2
        )
        yield (
            "peroxide",
            f"{amount} of {plan.peroxide or 'peroxide, its kind set by the solvent'}: {energy}, "
            f"{each} free of solvent ({plan.peroxide_evidence})",
        )
    if plan.peroxide_forms:
        masses = [
            quantity(row.molar_mass or 0.0, Kind.MOLAR_MASS, "g/mol", figures=4)
            for row in plan.peroxide_forms
        ]
        forms = (
            f"{row.smiles}, {mass}" for row, mass in zip(plan.peroxide_forms, masses, strict=True)
        )
        yield "which is" if len(masses) == 1 else "which may be", "; ".join(forms)


def tail_lines(plan: ReactionPlan) -> Iterator[str]:
    """Yield what may reach the tail bottle, and the iodide for it."""
    for row in plan.tail:
        ozone = quantity(row.ozone or 0.0, Kind.AMOUNT, "mmol", figures=2)
        salt = quantity(row.potassium_iodide or 0.0, Kind.MASS, "g", figures=2)
        yield f"{CASES[row.case]}: {ozone} of ozone, {salt} of potassium iodide"


def signal_lines(plan: ReactionPlan) -> Iterator[str]:
    """Yield the signs of the end point: what each shows, and whether it can be seen."""
    for row in plan.signals:
        use = f" ({USES[row.use]})" if USES[row.use] else ""
        mark = "→ " if row.watched else ""
        yield f"{mark}{SIGNS[row.signal]}{use}"


def loss_line(plan: ReactionPlan) -> str:
    """Return what each minute too long may cost, at most."""
    return "" if plan.loss_per_minute is None else percent(plan.loss_per_minute)


def reaction_text(plan: ReactionPlan) -> str:
    """Return the plan for a terminal."""
    lines = [answer_line(plan)]
    lines += ["", *(f"  {substrate_line(row)}" for row in plan.substrates)]
    for title, rows in (
        ("Ozone takes, in this order", [site_line(row) for row in plan.sites]),
        (f"Products in theory, {plan.work_up} work-up", [product_line(p) for p in plan.products]),
        ("Quench", [quench_line(row) for row in plan.quench]),
        ("The sum", _table(sums(plan))),
        (f"Simulated in the flask of {plan.simulated}", _table(simulated_lines(plan))),
        ("Heat and peroxide", _table(heat_lines(plan))),
        ("Tail bottle, twice the least", list(tail_lines(plan))),
        ("End point", list(signal_lines(plan))),
        ("What to expect, by the simulated run", list(sign_lines(plan.signs))),
    ):
        if rows:
            lines += ["", title, *(f"  {row}" for row in rows)]
    lines = [line for each in lines for line in _wrapped(each)]
    if plan.notes:
        lines += ["", "Notes", *marked(plan.notes)]
    if plan.next:
        lines += ["", "At the bench", *numbered(plan.next)]
    return "\n".join([*lines, *foot(plan.unknowns, plan.sources)]) + "\n"


def _table(rows: Iterator[tuple[str, str]]) -> list[str]:
    found = list(rows)
    width = max((len(words) for words, _ in found), default=0)
    return [f"{words:<{width}}  {value}" for words, value in found]


def _wrapped(line: str) -> list[str]:
    indented = line.startswith("  ")
    lead, further = ("  ", "     ") if indented else ("", "  ")
    return wrapped(line.removeprefix("  "), lead, further) or [""]
