"""The worked example: what it answers, and the notes that go with its files."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from statistics import median

from ozonewright.demo import MARK, Demo, Setting, Truth
from ozonewright.questions.output import Output
from ozonewright.show.fields import told
from ozonewright.show.numbers import percent
from ozonewright.show.output import answer_line
from ozonewright.show.words import sentence
from ozonewright.show.wrap import wrapped
from ozonewright.uncertain import Estimate

REACTION = "vanillin, second lot"
"""Label of the demo's reaction."""
ODD = 0.05
"""A run that far from the median of its setting is pointed at."""


def demo_text(found: Demo, folder: str, seed: int) -> str:
    """Return what the example answers, and where to look next."""
    return "\n".join(_lines(found, folder, seed)) + "\n"


def _lines(found: Demo, folder: str, seed: int) -> Iterator[str]:
    yield from wrapped(
        f"{len(found.outputs)} invented runs are in {folder}/runs (seed {seed}); the truth they "
        f"were made from is in {folder}/truth.toml, the story in {folder}/notes.md. "
        f"{folder}/demo.sqlite is the same as a notebook.",
        "",
    )
    for setting, runs in _by_setting(found.outputs).items():
        yield from ("", setting)
        yield from (_row(run) for run in runs)
        yield from _weakest(runs)
    yield from ("", "Next")
    for place, line in enumerate(_next(found), start=1):
        yield from wrapped(line, f"  {place} ")
    yield from ("", "Where to look next")
    for what, command in _looks(found, folder):
        yield from (f"  {what}", f"      {command}")


def _looks(found: Demo, folder: str) -> Iterator[tuple[str, str]]:
    """Yield what there is to see, and the command that shows it."""
    book = f"{folder}/demo.sqlite"
    yield "one run with its working", f"ozonewright output {folder}/runs/C2.toml"
    yield "the air runs with their field blank", f"ozonewright output {folder}/runs/A*.toml"
    settings = _by_setting(found.outputs)
    blank = next((name for name, runs in settings.items() if _has_blank(runs)), None)
    pair = next((name for name, runs in settings.items() if len(runs) == 2), None)
    ask = f"ozonewright drift --notebook {book} --setting"
    if blank:
        yield "why these runs disagree: determined", f'{ask} "{blank}"'
    if pair:
        yield "why these two disagree: not determined, and what would tell", f'{ask} "{pair}"'
    if blank and pair:
        yield (
            "is the difference between two settings real?",
            f'ozonewright compare --notebook {book} "{blank}" "{pair}"',
        )
    yield (
        "the label of the generator says 4 g/h",
        f'ozonewright claim {folder}/runs/C2.toml --label "4 g/h"',
    )
    yield (
        "a reaction with the output of its runs",
        f'ozonewright reaction "{REACTION}" --notebook {book}',
    )
    yield (
        "go, fix or stop before its high voltage goes on",
        f'ozonewright gate --reaction "{REACTION}" --notebook {book}',
    )
    yield (
        "it runs: log what you do, and read the count",
        f'ozonewright log --notebook {book} --of "{REACTION}" "gas on"',
    )
    yield (
        "may its solution be evaporated?",
        f'ozonewright clearance "{REACTION}" --notebook {book}',
    )
    yield (
        "what people breathe when a hose comes off",
        f'ozonewright room {folder}/rooms/workshop.toml --output "0.62 g/h"',
    )
    yield (
        "where the gas goes, and what another bore would change",
        f"ozonewright gas-line {folder}/rigs/workshop.toml",
    )
    yield (
        "how much the bottles take up, and what slips past",
        f'ozonewright absorber {folder}/rigs/workshop.toml --output "0.62 g/h"',
    )
    yield (
        "where the generator runs on its map, and what a change would bring",
        f'ozonewright generator --notebook {book} --setting "{found.outputs[0].setting}"',
    )
    yield (
        "what it takes at the plug, and that what the gas gets is not determined",
        f'ozonewright power --notebook {book} --setting "{found.outputs[0].setting}"',
    )
    yield "pages to print and to pass on", f"ozonewright report --notebook {book} --out report.pdf"
    yield (
        "the same as pages, the bench page for a telephone among them",
        f"ozonewright open --notebook {book} --phone",
    )
    yield "our values beside published ones", "ozonewright agreement"


def _has_blank(runs: Sequence[Output]) -> bool:
    return any(run.discharge == "off" for run in runs)


def _by_setting(outputs: Sequence[Output]) -> dict[str, list[Output]]:
    parts: dict[str, list[Output]] = {}
    for one in outputs:
        parts.setdefault(one.setting or "", []).append(one)
    return parts


def _row(run: Output) -> str:
    if run.discharge == "off":
        return f"  {run.label:<4}{told(run, 'on_time') or '':>7}  {answer_line(run)}"
    rate = told(run, "rate", with_u=True) or "not determined"
    return (
        f"  {run.label:<4}{told(run, 'on_time') or '':>7}  {rate:<23}"
        f"{told(run, 'concentration') or '':>12}"
        f"   guard {told(run, 'guard_share', figures=2)}"
    )


def _weakest(runs: Sequence[Output]) -> Iterator[str]:
    """Say which reading the outputs of a setting hang on."""
    budgets = [run.budget[0] for run in runs if run.discharge == "on" and run.budget]
    if not budgets:
        return
    weakest = max(budgets, key=lambda share: share.share or 0.0)
    yield (
        f"  weakest reading: {weakest.input}, up to {percent(weakest.share or 0.0)} of the variance"
    )


def _next(found: Demo) -> Iterator[str]:
    """Yield what to do: the runs that stand apart, the surplus, then the general advice."""
    for runs in _by_setting(found.outputs).values():
        rates = [run for run in runs if run.discharge == "on"]
        middle = median(_rate(run) for run in rates)
        for run in rates:
            apart = _rate(run) / middle - 1.0
            if len(rates) > 2 and abs(apart) > ODD:
                side = "below" if apart < 0.0 else "above"
                yield (
                    f"{run.label} reads {percent(abs(apart))} {side} the other runs of its "
                    "setting. Compare the on-time typed with the remark in its document."
                )
        if len(rates) == 2:
            first, second = rates
            apart = abs(_rate(second) / _rate(first) - 1.0)
            yield (
                f"{first.label} and {second.label} differ by {percent(apart)} at the same minutes: "
                "from these two alone the cause is not determined; drift names the run that tells "
                "most."
            )
    yield from _surplus(found)
    advice = [note for run in found.outputs for note in run.next if note.code == "largest-doubt"]
    if advice:
        yield sentence(advice[0])


def _surplus(found: Demo) -> Iterator[str]:
    blanks = [run for run in found.outputs if run.discharge == "off"]
    ends = found.without_field_blank
    if blanks and ends:
        both = ", ".join(
            f"{told(run, 'rate')} in {told(run, 'on_time')}" for run in (ends[0], ends[-1])
        )
        yield (
            f"Keep the field blank {blanks[0].label}: it reads as "
            f"{told(blanks[0], 'ozone')} of ozone with the discharge off. Without it the air "
            f"runs would read more the shorter they are ({both})."
        )


def _rate(run: Output) -> float:
    assert isinstance(run.rate, Estimate)
    return run.rate.value


def notes_text(truth: Truth, seed: int) -> str:
    """Return the notes that go with the files: what is true, and what there is to find."""
    slip = next(run for run in truth.runs if run.really)
    blank = next(run for run in truth.runs if not run.discharge)
    lost = next(run for run in truth.runs if run.loss != "0 %")
    biased = next(one for one in truth.settings if one.name == blank.setting)
    pair = [run.label for run in truth.runs if run.setting == lost.setting]
    paragraphs = [
        "# The worked example",
        f"**{MARK}** Seed {seed}; `ozonewright demo DIR --seed N` draws other reading noise.",
        "A retired instrument fitter makes small lots of vanillin in a garden workshop and wants "
        "to know what the home-built generator delivers, on concentrator oxygen and on pump air.",
        "## What is true",
        "\n".join(
            [
                "| setting | output | caught by each bottle | surplus in each bottle |",
                "|---|---|---|---|",
                *(_truth_row(setting) for setting in truth.settings),
            ]
        ),
        f"Titrant {truth.titrant}, reagent blank {truth.blank}. Each burette reading scatters by "
        f"{truth.reading}, each on-time by {truth.timing}, the output from run to run by "
        f"{truth.scatter}.",
        "## What there is to find",
        f"- **A slip.** {slip.label} was planned for {slip.typed} and typed so; the gas was on "
        f"for {slip.really}.\n"
        f"- **A surplus.** In the setting *{biased.name}* each bottle holds iodine worth "
        f"{biased.surplus} of ozone that ozone did not free; the reagent blank was made from "
        f"another jar of iodide and does not show it. The field blank {blank.label} proves it, and "
        f'`ozonewright drift --notebook demo.sqlite --setting "{biased.name}"` must determine it.\n'
        f"- **Not to be found.** {' and '.join(pair)} ran equally long. {lost.label} lost "
        f"{lost.loss} of its ozone in a warm line; the two documents alone can't tell that from "
        f'other causes, so `drift --setting "{lost.setting}"` must say "not determined", and name '
        "the run that would tell most.",
    ]
    return "\n\n".join(paragraphs) + "\n"


def _truth_row(setting: Setting) -> str:
    cells = (setting.name, setting.output, setting.capture, setting.surplus)
    return f"| {' | '.join(cells)} |"
