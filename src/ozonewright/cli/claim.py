"""``ozonewright claim``."""

from __future__ import annotations

import os
from pathlib import Path

import click

from ozonewright.bench.claim import claim_of_files, claim_of_setting
from ozonewright.errors import Inconsistent, MissingValue
from ozonewright.notebook import Notebook
from ozonewright.show.claim import claim_text
from ozonewright.show.plain import as_json


@click.command()
@click.argument("runs", nargs=-1, metavar="RUN.toml…")
@click.option("--label", help='Output that the generator is sold or known with: "4 g/h".')
@click.option(
    "--notebook",
    "book",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="A setting of a notebook in place of files; or set OZONEWRIGHT_NOTEBOOK.",
)
@click.option("--setting", help="The setting of the notebook.")
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def command(
    runs: tuple[str, ...],
    label: str | None,
    book: Path | None,
    setting: str | None,
    json_wanted: bool,
) -> None:
    """A label beside what was measured: is it credible at these watts and this flow?"""
    if book is None and setting and (usual := os.environ.get("OZONEWRIGHT_NOTEBOOK")):
        book = Path(usual)
    if runs and (book or setting):
        raise Inconsistent(
            "files and a setting of a notebook are given", fix="Leave one of them out."
        )
    if runs:
        found = claim_of_files(runs, label)
    elif book is not None and setting:
        with Notebook.open(book, read_only=True) as notebook:
            found = claim_of_setting(notebook, setting, label)
    else:
        raise MissingValue(
            "nothing to hold a label against",
            fix="Name a file of a run, or --notebook FILE --setting NAME.",
        )
    click.echo(as_json(found) if json_wanted else claim_text(found), nl=json_wanted)
