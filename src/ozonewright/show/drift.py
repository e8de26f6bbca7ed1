"""The answer of drift as text: what fits, what is out, what decides; then the working."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ozonewright.questions.drift import CauseRow, Drift, NextRow, PointRow, StepRow
from ozonewright.show.numbers import quantity
from ozonewright.show.words import sentence
from ozonewright.show.words.drift import OF_THE_TRAP, SURPLUS, WHY, cause_words, time_words
from ozonewright.show.wrap import foot, marked, noted, unmarked, wrapped
from ozonewright.uncertain import Estimate
from ozonewright.units import Kind

TOLD_NEXT = 4
TOLD = 0.001
"""Probability from which a cause has a line; those below are told in one sentence."""
DETERMINED = (
    "The cause is determined; no further run is needed to tell it. The output of the setting is "
    "told with it in mind."
)
NOTHING_TELLS = "No further run that is thought of here would tell more of the cause."
WORTH_TELLING = 0.005
"""Bits from which a further run is told; fewer would be shown as nought."""
FAMILIAR = 0.05
"""Probability of a group from which it is named in the answer line."""


def answer_line(found: Drift) -> str:
    """Return the sentence that answers."""
    head = f"{found.setting}: " if found.setting else ""
    if found.verdict is not None:
        chance = _chance(found, found.verdict)
        return f"{head}determined: {cause_words(found.verdict)}, {shown(chance)}."
    fitting = [row.group for row in found.groups if row.probability >= FAMILIAR]
    told = [*_surplus(found, fitting), *(cause_words(name) for name in _others(found, fitting))]
    if not told:
        return f"{head}not determined."
    first = f"{told[0][0].upper()}{told[0][1:]} fits"
    rest = "; so does ".join([first, *told[1:]])
    return f"{head}not determined. {rest}; {_count(found)} can't tell."


def _is_surplus(found: Drift) -> bool:
    fit = found.fit
    if fit is None or not isinstance(fit.intercept, Estimate):
        return False
    return fit.intercept.value > 2.0 * fit.intercept.u


def _surplus(found: Drift, fitting: Sequence[str]) -> Iterator[str]:
    """Yield the line with a surplus, and what may make one."""
    names = [name for name in SURPLUS if name in fitting]
    if names and _is_surplus(found) and found.fit is not None and found.fit.intercept is not None:
        size = quantity(found.fit.intercept.value, Kind.MASS, "mg", figures=1)
        reasons = ", ".join(SURPLUS[name] for name in names)
        yield f"a line with a surplus of about {size} ({reasons})"


def _others(found: Drift, fitting: Sequence[str]) -> list[str]:
    surplus = _is_surplus(found)
    return [name for name in fitting if not (surplus and name in SURPLUS)]


def _count(found: Drift) -> str:
    count = sum(point.discharge == "on" for point in found.points)
    words = {2: "two", 3: "three", 4: "four", 5: "five", 6: "six"}
    return f"{words.get(count, str(count))} points"


def _chance(found: Drift, name: str) -> float:
    for row in found.groups:
        if row.group == name:
            return row.probability
    return next((row.probability or 0.0 for row in found.causes if row.cause == name), 0.0)


def shown(chance: float | None) -> str:
    """Return a probability in words that never say nought or one."""
    if chance is None:
        return "–"
    if chance < 0.001:
        return "< 0.1 %"
    if chance > 0.999:
        return "> 99.9 %"
    return f"{100.0 * chance:.1f} %" if chance < 0.1 else f"{100.0 * chance:.0f} %"


def drift_text(found: Drift) -> str:
    """Return the answer: what fits, what is out, what decides, then the working."""
    return "\n".join(_lines(found)) + "\n"


def _lines(found: Drift) -> Iterator[str]:
    yield from wrapped(answer_line(found), "")
    for text in (fit_text(found), *out_texts(found), cheapest_text(found)):
        if text:
            yield from wrapped(text, "")
    yield from marked(note for note in found.notes if note.level == "wrong")
    yield from _next(found)
    yield from _causes(found.causes)
    yield from _points(found)
    yield from noted(note for note in found.notes if note.level != "wrong")
    yield from ("", "Assumed")
    yield from unmarked(found.assumed)
    yield from foot(found.unknowns, found.sources)


def fit_text(found: Drift) -> str:
    """Return the line through the runs, or nothing without two different on-times."""
    fit = found.fit
    if fit is None or not isinstance(fit.intercept, Estimate) or fit.slope is None:
        return ""
    surplus = quantity(fit.intercept.value, Kind.MASS, "mg", fit.intercept.u)
    slope = quantity(fit.slope.value, Kind.MASS_RATE, "mg/min", fit.slope.u)
    hour = quantity(fit.slope.value, Kind.MASS_RATE, "g/h", figures=3)
    return f"Line through collected mass: surplus {surplus}, slope {slope} ({hour})."


def out_texts(found: Drift) -> Iterator[str]:
    """Yield which causes are out, and why."""
    out = [
        row
        for row in found.causes
        if row.ruled_out and row.cause != "steady" and row.status != "too small"
    ]
    by_reason = {
        reason: [cause_words(row.cause) for row in out if row.reason == reason] for reason in WHY
    }
    parts = [f"{', '.join(names)} ({WHY[why]})" for why, names in by_reason.items() if names]
    if parts:
        yield f"Ruled out: {'; '.join(parts)}."
    small = [row.cause for row in found.causes if row.status == "too small"]
    unstated = "absorber.bottles.potassium_iodide" in found.unknowns
    trap = [name for name in small if unstated and name in OF_THE_TRAP]
    if trap:
        told = "; ".join(cause_words(name) for name in trap)
        yield f"Too small if the trap is the usual one: {told}; say yours."
    if others := [name for name in small if name not in trap]:
        told = "; ".join(cause_words(name) for name in others)
        yield f"Too small: {told}."


def cheapest_text(found: Drift) -> str:
    """Return the cheapest run that decides, with its rule, or nothing."""
    row = next((row for row in found.next if row.cheapest), None)
    if row is None or row.what is None or row.decide is None:
        return ""
    what = sentence(row.what)
    then = ""
    if row.then is not None:
        told = sentence(row.then)
        then = f", then {told[0].lower()}{told[1:]} tells which"
    return f"Cheapest to decide: {what[0].lower()}{what[1:]}: {sentence(row.decide)}{then}."


def next_texts(row: NextRow) -> tuple[str, str]:
    """Return a further run with what it tells and costs, and how its titre decides."""
    assert row.what is not None
    what = f"{sentence(row.what)} ({row.bits:.2f} bits, {row.minutes:.0f} min)."
    if row.decide is not None:
        told = sentence(row.decide)
        return what, f"{told[0].upper()}{told[1:]}."
    return what, f"{_titres(row)}." if row.titre else ""


def telling(rows: Sequence[NextRow]) -> tuple[NextRow, ...]:
    """Return the further runs that tell anything; of a determined cause there are none."""
    return tuple(row for row in rows if row.bits >= WORTH_TELLING)


def _next(found: Drift) -> Iterator[str]:
    rows = telling(found.next)
    if not rows:
        yield from ("", "Next")
        yield from wrapped(DETERMINED if found.determined else NOTHING_TELLS, "  ", "  ")
        return
    yield from ("", "Next, by bits for the minutes (25 for bottles and titration included)")
    for number, row in enumerate(rows[:TOLD_NEXT], start=1):
        what, decide = next_texts(row)
        yield from wrapped(what, f"  {number} ")
        if decide:
            yield from wrapped(decide, "    ")


def _titres(row: NextRow) -> str:
    where = " in the guard bottle" if row.change == "guard" else ""
    return f"Expected{where}: " + "; ".join(
        f"{cause_words(name)} {quantity(titre, Kind.VOLUME, 'mL', row.u_titre[name])}"
        for name, titre in row.titre.items()
    )


def _causes(rows: Sequence[CauseRow]) -> Iterator[str]:
    yield from ("", "Causes")
    for row in likely(rows):
        text = f"{cause_words(row.cause)}: {status_text(row)}"
        yield from wrapped(text, f"  {shown(row.probability):>8}  ")
        if row.implied is not None and row.status == "fits":
            yield from wrapped(sentence(row.implied), " " * 12)


def likely(rows: Sequence[CauseRow]) -> Iterator[CauseRow]:
    """Yield the causes that are likely at all, the likeliest first."""
    yield from (row for row in rows if (row.probability or 0.0) >= TOLD)


def status_text(row: CauseRow) -> str:
    """Return the status of a cause, with the reason where it is ruled out."""
    why = f", {WHY[row.reason]}" if row.reason and row.status == "ruled out" else ""
    return f"{row.status}{why}"


def blank_text(found: Drift) -> str:
    """Return why the runs read otherwise here than by themselves, where they do."""
    blanks = [row.label for row in found.points if row.discharge == "off"]
    return f"As titrated: the field blank {', '.join(blanks)} is not taken off." if blanks else ""


def run_texts(row: PointRow) -> tuple[str, str, str, str]:
    """Return on-time, ozone, rate and kind of one run."""
    assert row.on_time is not None
    assert row.ozone is not None
    return (
        time_words(row.on_time),
        quantity(row.ozone, Kind.MASS, "mg", row.u_ozone),
        quantity(row.rate, Kind.MASS_RATE, "g/h", figures=3) if row.rate else "",
        "discharge off" if row.discharge == "off" else row.start or "",
    )


def step_text(step: StepRow) -> str:
    """Return what one run collected more than the next shorter one."""
    assert step.on_time is not None
    assert step.ozone is not None
    assert step.rate is not None
    return (
        f"{step.since[:8]} to {step.label[:8]}: {quantity(step.ozone, Kind.MASS, 'mg')} in "
        f"{time_words(step.on_time)} more, "
        f"{quantity(step.rate, Kind.MASS_RATE, 'g/h', figures=3)} between them"
    )


def _points(found: Drift) -> Iterator[str]:
    yield from ("", "Runs")
    if blank := blank_text(found):
        yield from wrapped(blank, "  ", "  ")
    for row in found.points:
        on_time, ozone, rate, kind = run_texts(row)
        yield f"  {row.label[:12]:<12} {on_time:>10} {ozone:>18} {rate:>12}  {kind}"
    for step in found.steps:
        yield f"  {step_text(step)}"
