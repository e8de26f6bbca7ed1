"""``ozonewright drift``."""

from __future__ import annotations

import os
from dataclasses import replace
from importlib import import_module
from pathlib import Path

import click

from ozonewright.bench.drift import About, drift_of, drift_of_notebook, drift_of_points
from ozonewright.bench.notebook import file_text, read_file
from ozonewright.cli.figures import save_figures, with_figures
from ozonewright.errors import InputError, MissingValue
from ozonewright.notebook import Notebook
from ozonewright.questions.drift import Drift, Known, Start
from ozonewright.show.drift import drift_text
from ozonewright.show.plain import as_json


class Several(click.Command):
    """A command whose option --points takes every value up to the next option."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        return super().parse_args(ctx, _spread(args, ("--points", "--field-blank")))


def _spread(args: list[str], names: tuple[str, ...]) -> list[str]:
    """Repeat the option before each of its values, so that a shell needs it once."""
    out: list[str] = []
    open_option = ""
    for word in args:
        if word.startswith("-") and not word[1:2].isdigit():
            open_option = word if word in names else ""
            if not open_option:
                out.append(word)
        elif open_option:
            out += [open_option, word]
        else:
            out.append(word)
    return out


@click.command(cls=Several)
@click.argument("runs", nargs=-1, metavar="RUN.toml…")
@click.option("--points", multiple=True, help='Times and what they gave: "2 min: 0.92 g/h" …')
@click.option(
    "--table", type=click.Path(path_type=Path), metavar="FILE.csv", help="A line for each run."
)
@click.option(
    "--notebook", "book", type=click.Path(path_type=Path), metavar="FILE",
    help="Runs of a notebook; or set OZONEWRIGHT_NOTEBOOK.",
)  # fmt: skip
@click.option("--setting", help="Runs of this setting.")
@click.option("--field-blank", multiple=True, help='Gas on, discharge off: "8 min: 2 mg" …')
@click.option("--in-order", is_flag=True, help="The runs were made in the order given.")
@click.option("--start", type=click.Choice(["cold", "warm", "diverted"]), help="Of every run.")
@click.option("--rest", help='Before every run: "15 min".')
@click.option("--titrant", help='Thiosulfate: "0.1 mol/L".')
@click.option("--flow", help='Gas through the bottles: "0.8 L/min".')
@click.option("--iodide", help='Potassium iodide in the first bottle: "4 g".')
@click.option("--volume", help='Water in each bottle: "200 mL".')
@click.option("--hold-up", help='Gas between tube and liquid, as time: "12 s".')
@click.option("--temperature", help='Of the bottles: "20 °C".')
@click.option("--time-constant", help='Of the tube that warms: "4.6 min ± 0.3 min".')
@click.option(
    "--cold-excess", help='Output of the cold generator over the settled one: "12 % ± 4 points".'
)
@click.option(
    "--log",
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
    metavar="FILE.csv",
    help="Temperatures of the tube: its time constant and, with a notebook, the cold excess.",
)
@with_figures
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def command(
    runs: tuple[str, ...],
    points: tuple[str, ...],
    table: Path | None,
    book: Path | None,
    setting: str | None,
    field_blank: tuple[str, ...],
    in_order: bool,
    start: Start | None,
    log: Path | None,
    figures: Path | None,
    json_wanted: bool,
    **texts: str | None,
) -> None:
    """Why runs of one setting disagree: which causes fit, and what to measure next."""
    about = About(texts, start, in_order, field_blank)
    ways = {"files": bool(runs), "--points": bool(points), "--table": bool(table)}
    if (
        book is None
        and not any(ways.values())
        and (usual := os.environ.get("OZONEWRIGHT_NOTEBOOK"))
    ):
        book = Path(usual)
    ways["--notebook"] = book is not None
    given = [way for way, is_given in ways.items() if is_given]
    if not given:
        raise MissingValue(
            "no runs are given",
            fix='Write --points "2 min: 0.92 g/h" "4 min: 0.81 g/h", or name files, a --table, or '
            "--notebook with --setting.",
        )
    if len(given) > 1:
        raise InputError("runs from two places", got=", ".join(given), fix="Give one of them.")
    if field_blank and not points:
        raise InputError(
            "--field-blank goes with --points",
            got=", ".join(field_blank),
            fix='Among files or lines, a field blank is a run with discharge = "off".',
        )
    if log is not None:
        about = replace(about, warmth=_warmth(file_text(log), book, setting))
    found = _answer(runs, points, table, book, setting, about)
    click.echo(as_json(found) if json_wanted else drift_text(found), nl=json_wanted)
    save_figures(figures, "setting:drift_section", found)


def _warmth(log: str, book: Path | None, setting: str | None) -> dict[str, Known]:
    """Return what a log tells of the warming; what it takes is loaded when it is asked."""
    tell = import_module("ozonewright.bench.drift_warmth").warmth_of_log
    if book is None:
        found: dict[str, Known] = tell(log)
        return found
    with Notebook.open(book, read_only=True) as notebook:
        found = tell(log, notebook, setting)
        return found


def _answer(
    runs: tuple[str, ...],
    points: tuple[str, ...],
    table: Path | None,
    book: Path | None,
    setting: str | None,
    about: About,
) -> Drift:
    if points:
        return drift_of_points(points, about)
    if table is not None:
        return drift_of([read_file(table)], about, setting)
    if book is not None:
        if setting is None:
            raise MissingValue("no setting is named", fix='Write --setting "name of the setting".')
        with Notebook.open(book, read_only=True) as notebook:
            return drift_of_notebook(notebook, setting, about)
    return drift_of(list(runs), about, setting)
