"""``ozonewright report``."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path

import click

from ozonewright.bench.subject import subject_of
from ozonewright.cli.notebook import opened, with_notebook

EVERY = 100
"""Runs after which a line of progress is printed."""


@click.command()
@with_notebook
@click.option("--of", metavar="LABEL", help="A run, setting, reaction or rig; else all.")
@click.option(
    "--out",
    required=True,
    type=click.Path(path_type=Path),
    help="FILE.pdf, FILE.html, or a folder for tables (CSV) and figures.",
)
@click.option(
    "--paper", type=click.Choice(["a4", "letter"]), default="a4", help="Of a PDF; a4 unless said."
)
@click.option(
    "--only",
    multiple=True,
    metavar="QUESTION",
    help="Of the further questions only this, by the word of its command; may be repeated.",
)
def command(book: Path, of: str | None, out: Path, paper: str, only: tuple[str, ...]) -> None:
    """What was done, what came out and how sure: pages that another person can check.

    With sums line by line, budgets, figures, gate and clearance as they stand, everything typed
    with its corrections, sources, and the formulas in use.
    """
    # The report is a skin of its own: loaded when asked for, like any command.
    report = import_module("ozonewright.report.write")
    with opened(book, read_only=True) as notebook:
        wish = report.Wish(paper, only)
        report.write(notebook, subject_of(notebook, of), out, wish, _told)
    click.echo(f"{out} is written.")


def _told(done: int) -> None:
    if done % EVERY == 0:
        click.echo(f"{done} runs so far", err=True)
