"""A setting on a sheet: its mean, its runs, why they disagree."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ozonewright.errors import AppError
from ozonewright.questions.drift import Drift
from ozonewright.questions.output import Output
from ozonewright.questions.setting import SettingOutput
from ozonewright.results import plain
from ozonewright.show.drift import fit_text, out_texts, step_text
from ozonewright.show.drift_page import cause_lines, heading, next_text
from ozonewright.show.pages import Remark, remarks, run_numbers, sentences, setting_answer
from ozonewright.show.sheet.blocks import Block, Lines, Notes, Section, Table, Text, kept
from ozonewright.show.sheet.figures import drift_figures
from ozonewright.show.sheet.setting_figure import setting_figure
from ozonewright.show.words import sentence


def setting_section(
    name: str,
    runs: Sequence[Output],
    mean: SettingOutput | None,
    drift: Drift | None,
    trouble: Sequence[AppError] = (),
    told: str = "",
) -> Section:
    """Return the section of one setting."""
    return Section(
        f"Setting {name}",
        "setting",
        kept(
            (
                setting_answer(mean) if mean else None,
                *troubles(trouble),
                Text(told, soft=True),
                run_table(runs),
                setting_figure(name, runs, mean),
                Lines("Next", sentences(mean.next) if mean else (), numbered=True),
                Notes("Notes", remarks(mean.notes) if mean else ()),
                *(drift_blocks(drift) if drift else ()),
            )
        ),
        tuple(dict.fromkeys([*(mean.sources if mean else ()), *(drift.sources if drift else ())])),
        ("output", "setting", *(("drift",) if drift else ())),
    )


def troubles(errors: Sequence[AppError]) -> Iterator[Block]:
    """Yield what could not be answered, and how to mend it."""
    lines = tuple(
        Remark("doubt", "◪", "not answered", f"{' '.join(str(error).split())}") for error in errors
    )
    yield Notes("Not answered", lines)


def run_table(runs: Sequence[Output]) -> Table:
    """Return the runs beside each other."""
    rows = []
    for found in runs:
        numbers = run_numbers(plain(found, sentence))
        note = "field blank" if found.discharge == "off" else ""
        rows.append((found.label or "", numbers.minutes, numbers.ozone, numbers.rate, note))
    head = ("run", "on-time / min", "ozone / mg", "output / (g/h)", "")
    return Table("Runs", head, tuple(rows), frozenset({1, 2, 3}))


def drift_blocks(found: Drift) -> Iterator[Block]:
    """Yield why runs disagree: the answer, the causes, the line, what tells more."""
    told = tuple(text for text in (heading(found), next_text(found)) if text)
    yield Lines("Why the runs disagree", told)
    yield from drift_figures(found)
    rows = tuple((one.words, one.chance, one.status, one.implied) for one in cause_lines(found))
    head = ("cause", "probability", "status", "what it would have to be")
    yield Table("Causes", head, rows, frozenset({1}))
    yield Lines("Ruled out", tuple(out_texts(found)))
    line = fit_text(found)
    steps = tuple(step_text(step) for step in found.steps)
    yield Lines("From run to run", (*((line,) if line else ()), *steps))
    yield Notes("Notes of drift", remarks(found.notes))
    yield Lines("Assumed", sentences(found.assumed))


def drift_section(found: Drift) -> Section:
    """Return drift as a section of its own."""
    title = f"Setting {found.setting}" if found.setting else "Drift"
    return Section(title, "drift", kept(drift_blocks(found)), found.sources, ("drift",))
