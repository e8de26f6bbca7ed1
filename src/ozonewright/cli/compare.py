"""``ozonewright compare``."""

from __future__ import annotations

import os
from pathlib import Path

import click

from ozonewright.bench.compare import compare_files, compare_settings
from ozonewright.cli.figures import save_figures, with_figures
from ozonewright.errors import MissingValue
from ozonewright.notebook import Notebook
from ozonewright.show.compare import comparison_text
from ozonewright.show.plain import as_json


@click.command()
@click.argument("which", nargs=-1, metavar="SETTING SETTING | RUN.toml…")
@click.option(
    "--notebook",
    "book",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Compare two settings of a notebook; or set OZONEWRIGHT_NOTEBOOK.",
)
@click.option("--difference", help='A difference you want to tell: "5 %".')
@with_figures
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def command(
    which: tuple[str, ...],
    book: Path | None,
    difference: str | None,
    figures: Path | None,
    json_wanted: bool,
) -> None:
    """Two settings beside each other: what else differed, and whether the ratio is real.

    With a notebook, name two of its settings; without one, the files of the runs of two settings.
    """
    usual = os.environ.get("OZONEWRIGHT_NOTEBOOK")
    if book is None and usual and not any(Path(name).is_file() for name in which):
        book = Path(usual)
    if book is not None:
        if len(which) != 2:
            raise MissingValue(
                "a comparison needs two settings",
                got=", ".join(which) or "none",
                fix='Name both: compare --notebook FILE "first setting" "second setting".',
            )
        with Notebook.open(book, read_only=True) as notebook:
            found = compare_settings(notebook, *which, difference)
    else:
        if not which:
            raise MissingValue(
                "nothing to compare",
                fix="Name two settings and --notebook FILE, or the files of their runs.",
            )
        found = compare_files(which, difference)
    click.echo(as_json(found) if json_wanted else comparison_text(found), nl=json_wanted)
    save_figures(figures, "comparison:comparison_section", found)
