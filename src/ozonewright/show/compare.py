"""The comparison of two settings as text."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ozonewright.questions.comparison import Comparison, Differing, Planned
from ozonewright.show.budget import budget_text
from ozonewright.show.numbers import percent, quantity, significant, span, unit_text, with_u
from ozonewright.show.pages import Answer
from ozonewright.show.words.comparison import factor_words
from ozonewright.show.wrap import foot, noted, numbered, unmarked, wrapped
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind

BUDGET_LINES = 5


def answer_line(found: Comparison) -> str:
    """Return the one line that answers."""
    assert found.ratio is not None
    ratio = with_u(found.ratio.value, found.ratio.u)
    verdict = "told apart" if found.told_apart else "not told apart"
    return f"{found.first} gives {ratio} times {found.second}: {verdict}"


def page_answer(found: Comparison) -> Answer:
    """Return the answer as a page shows it."""
    assert found.ratio is not None
    return Answer(
        with_u(found.ratio.value, found.ratio.u),
        "times",
        "told apart" if found.told_apart else "not told apart",
        f"{found.first} over {found.second}",
        sureness_line(found),
    )


def sureness_line(found: Comparison) -> str:
    """Return the interval, what it rests on, and what it leaves open."""
    assert found.ratio is not None
    ratio = found.ratio
    between = span(*ratio.interval, Kind.DIMENSIONLESS, "", ratio.u)
    runs = f"{found.first_runs} against {found.second_runs} runs"
    dof = f", {significant(ratio.dof, 2)} degrees of freedom" if ratio.dof < 1e6 else ""
    doubt = "" if found.surplus_ruled_out else "; surplus not ruled out"
    return f"95 %: {between} ({runs}{dof}{doubt})."


def rates_line(found: Comparison) -> str:
    """Return both outputs, and the ratio per oxygen fed where it is known."""
    parts = [
        f"{name} {quantity(rate.value, Kind.MASS_RATE, 'g/h', rate.u)}"
        for name, rate in ((found.first, found.first_rate), (found.second, found.second_rate))
        if rate is not None
    ]
    if isinstance(found.ratio_per_oxygen, Estimate):
        each = found.ratio_per_oxygen
        parts.append(f"per oxygen fed {with_u(each.value, each.u)}")
    return "; ".join(parts) + "."


def values_text(values: Sequence[float | str], unit: str) -> str:
    """Return the values of one setting: a few one by one, many numbers as their span."""
    if not values:
        return "none"
    numbers = [value for value in values if not isinstance(value, str)]
    label = f" {unit_text(unit)}" if unit and numbers else ""
    if len(numbers) == len(values) > 2:
        return f"{_typed(min(numbers))} to {_typed(max(numbers))}{label}"
    texts = [value if isinstance(value, str) else _typed(value) for value in values]
    return ", ".join(texts) + label


def _typed(value: float) -> str:
    """Return a number as it was typed, near enough."""
    return f"{value:.6g}".replace("-", "\u2212")


def difference_rows(rows: Sequence[Differing]) -> Iterator[tuple[str, str, str, str]]:
    """Yield factor, both values, and a word where the readings can't tell them apart."""
    for row in rows:
        within = "" if row.beyond else "within readings"
        yield (
            factor_words(row.factor),
            values_text(row.first, row.unit),
            values_text(row.second, row.unit),
            within,
        )


def plan_lines(rows: Sequence[Planned]) -> Iterator[str]:
    """Yield how many runs tell which difference."""
    for row in rows:
        runs = f"{row.runs_per_arm} of each" if row.runs_per_arm else "out of reach"
        yield f"{percent(row.difference or 0.0)}: {runs}"


def order_line(found: Comparison) -> str:
    """Return the order of the next runs, or nothing."""
    if not found.order:
        return ""
    letters = {found.first: "A", found.second: "B"}
    text = " ".join(letters[name] for name in found.order)
    return f"Order: {text} (A {found.first}, B {found.second})."


def comparison_text(found: Comparison) -> str:
    """Return the whole answer: answer first, then what to do next, then the working."""
    return "\n".join(_lines(found)) + "\n"


def _lines(found: Comparison) -> Iterator[str]:
    yield from wrapped(answer_line(found))
    yield from wrapped(sureness_line(found))
    yield from wrapped(rates_line(found))
    yield from ("", "Next")
    yield from numbered(found.next[:3])
    yield from ("", "What differs")
    yield from _differs(found)
    yield from ("", "Runs that tell a difference (80 % chance)")
    yield from (f"  {line}" for line in plan_lines(found.plan))
    if order := order_line(found):
        yield from wrapped(order, "  ")
    yield from ("", "Working")
    yield from unmarked(found.working)
    yield from budget_text(found.budget, "the ratio", BUDGET_LINES)
    yield from noted(found.notes)
    if found.not_compared:
        yield ""
        yield from wrapped(
            "Not stated in both, so not compared: " + ", ".join(found.not_compared) + ".", ""
        )
    yield from foot((), found.sources)


def _differs(found: Comparison) -> Iterator[str]:
    rows = list(difference_rows(found.differs))
    if not rows:
        yield "  nothing that was written down"
    for factor, first, second, within in rows:
        suffix = f" ({within})" if within else ""
        yield from wrapped(f"{factor}: {first} against {second}{suffix}", "  ")
