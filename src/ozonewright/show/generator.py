"""The answer about a generator as text."""

from __future__ import annotations

from collections.abc import Iterator

from ozonewright.questions.generator import Generator
from ozonewright.questions.generator.result import BestPoint, Upgrade
from ozonewright.results import Quantity, Row, declared
from ozonewright.show.fields import told as field_told
from ozonewright.show.numbers import percent, significant, span
from ozonewright.show.words import sentence
from ozonewright.show.wrap import wrapped
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind, number

MARKS = {"wrong": "■", "doubt": "◪", "advice": "□"}
CHANGES = {
    "twice the flow": "twice the flow",
    "half the flow": "half the flow",
    "cooler wall": "tube 20 K cooler",
    "dry feed": "dry feed",
    "oxygen feed": "concentrator oxygen",
    "half more power": "half more power",
    "second tube beside": "second tube side by side",
    "second tube behind": "second tube one after the other",
}
WISHES = {
    "concentration": "most ozone that is strong enough",
    "output": "least gas that is enough ozone",
    "cost": "cheapest gram",
}
LUMPED = {
    "efficiency": "efficiency",
    "loss": "loss in the discharge",
    "nitrogen": "share of nitrogen",
    "nox": "nitrogen oxides",
    "gap": "volume of the gap",
    "warmth": "gas over wall",
    "wall rise": "wall over gas",
    "scatter": "scatter of a run",
    "damp": "damp of room air",
    "supply": "discharge over plug",
    "power": "power",
}
UNITS = {
    "gap": (Kind.VOLUME, "cm3", "cm³"),
    "warmth": (Kind.DIMENSIONLESS, "", "K/W"),
    "wall rise": (Kind.TEMPERATURE_DIFFERENCE, "K", "K"),
    "power": (Kind.POWER, "W", "W"),
}
"""Kind, unit and how it is shown, of the unknowns that have one."""


def told(row: Row, name: str, *, with_u: bool = False, figures: int = 3) -> str:
    """Return a field in its declared unit, or a dash when it can't be known."""
    return field_told(row, name, with_u=with_u, figures=figures) or "–"


def ends(row: Row, name: str) -> str:
    """Return the 95 % interval of a field, or nothing."""
    declaration = dict(declared(row))[name]
    value = getattr(row, name)
    assert isinstance(declaration, Quantity)
    if not isinstance(value, Estimate):
        return ""
    return span(*value.interval, declaration.kind, declaration.unit, value.u)


def answer_line(result: Generator) -> str:
    """Return the one line that answers: the output here, how sure, how strong."""
    place = [f"{told(result, 'flow')} of feed"]
    if result.power is not None:
        place.append(f"{told(result, 'power')} at the {result.power_at}")
    return (
        f"{told(result, 'rate')} ({ends(result, 'rate')}) of ozone at {', '.join(place)}; "
        f"{told(result, 'concentration')}"
    )


def clock_line(result: Generator) -> str:
    """Return what an hour of the clock brings under the pattern asked for; nothing without one."""
    if not isinstance(result.ozone_rate, Estimate):
        return ""
    ozone = told(result, "ozone_rate", with_u=True).replace("/h", "")
    return (
        f"Under the pattern ({percent(result.on_share or 0.0)} on) that is {ozone} per clock hour "
        f"({ends(result, 'ozone_rate').replace('/h', '')})."
    )


def place_line(result: Generator) -> str:
    """Return where on the map this is."""
    share = result.share_of_most
    assert isinstance(share, Estimate)
    low, high = share.interval
    parts = [
        f"That is {percent(share.value)} ({percent(low)} to {percent(high)}) of what four times "
        "the flow would give; the gas in the tube is near "
        f"{told(result, 'gas_temperature', figures=2)}"
    ]
    if result.energy_yield is not None:
        parts.append(
            f"{told(result, 'energy_yield')} at the {result.power_at} "
            f"({ends(result, 'energy_yield')})"
        )
    if result.yield_discharge is not None and result.power_at == "plug":
        parts.append(
            f"of the power in the gas {told(result, 'yield_discharge')} "
            f"({ends(result, 'yield_discharge')}; the supply passes on "
            f"{told(result, 'supply_efficiency', figures=2)})"
        )
    if isinstance(result.nox, Estimate):
        parts.append(f"nitrogen oxides {told(result, 'nox', figures=2)} of the ozone in moles")
    return "; ".join(parts) + "."


def upgrade_cells(row: Upgrade) -> tuple[str, ...]:
    """Return change, output, gain with its interval, strength, price and gain for the money."""
    ratio = row.ratio
    assert isinstance(ratio, Estimate)
    low, high = (_gain(end) for end in ratio.interval)
    price = f"{significant(row.price, 3)} {row.currency}".strip() if row.price else ""
    gain = row.gain_per_price
    per = f"{significant(gain, 2)} mg/h for 1 {row.currency}".strip() if gain is not None else ""
    return (
        CHANGES[row.change],
        told(row, "rate"),
        f"{_gain(ratio.value)} ({low} to {high})",
        told(row, "concentration"),
        price,
        per,
    )


def _gain(ratio: float) -> str:
    percent_more = round(100.0 * (ratio - 1.0))
    return f"{percent_more:+d} %".replace("-", "\u2212")


def best_line(row: BestPoint) -> str:
    """Return the flow that serves a wish, or that none does."""
    if row.flow is None:
        return f"{WISHES[row.wish]}: no flow from a tenth to ten times the present one gives it"
    cost = f"; {significant(row.cost, 3)} {row.currency}/g" if row.cost is not None else ""
    chance = "" if row.cost is not None else f"; {percent(row.sure or 0.0)} sure"
    return (
        f"{WISHES[row.wish]}: {told(row, 'flow')}, {told(row, 'rate')} ({ends(row, 'rate')}), "
        f"{told(row, 'concentration')}{cost}{chance}"
    )


def lumped_cells(result: Generator) -> Iterator[tuple[str, str, str]]:
    """Yield each unknown with what the runs made of it, and how much they told."""
    for row in result.lumped:
        value = row.value
        assert isinstance(value, Estimate)
        kind, unit, shown = UNITS.get(row.name, (Kind.DIMENSIONLESS, "", ""))
        middle, low, high = (
            significant(number(each, kind, unit), 2) for each in (value.value, *value.interval)
        )
        told_share = percent(row.told or 0.0)
        yield LUMPED[row.name], f"{middle} ({low} to {high}) {shown}".strip(), told_share


def generator_text(result: Generator) -> str:
    """Return the whole answer for a terminal."""
    return "\n".join(_lines(result)) + "\n"


def _lines(result: Generator) -> Iterator[str]:
    yield from wrapped(answer_line(result), "")
    yield from wrapped(place_line(result), "")
    if line := clock_line(result):
        yield from wrapped(line, "")
    yield from ("", "What a change would bring")
    for cells in map(upgrade_cells, result.upgrades):
        name, rate, gain, strength, price, per = cells
        yield f"  {name:<32}{rate:>10}  {gain:<26}{strength}".rstrip()
        if price:
            yield f"  {'':<32}{price}: {per}"
    if result.best:
        yield ""
        for row in result.best:
            yield from wrapped(best_line(row), "")
    if result.next:
        yield from ("", "Next")
        for place, note in enumerate(result.next, start=1):
            yield from wrapped(sentence(note), f"  {place} ")
    yield from ("", "Runs beside the model")
    for run in result.runs:
        ratio = significant(run.ratio or 0.0, 3)
        yield (
            f"  {run.label:<20}{told(run, 'flow'):>14}{told(run, 'measured'):>14}"
            f"{told(run, 'modelled'):>14}  {ratio}"
        )
    yield from (
        "",
        "What is not known of the tube, and the share of that doubt these runs took away",
    )
    for name, value, share in lumped_cells(result):
        yield f"  {name:<26}{value:<26}{share}"
    yield from ("", "Notes")
    for note in sorted(result.notes, key=lambda note: list(MARKS).index(note.level)):
        yield from wrapped(sentence(note), f"  {MARKS[note.level]} ")
    if result.unknowns:
        yield ""
        yield from wrapped("Not stated: " + ", ".join(result.unknowns) + ".", "")
    yield from wrapped("Sources: " + ", ".join(result.sources) + " (docs/sources.md).", "")
