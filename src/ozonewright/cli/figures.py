"""The option ``--figures DIR`` of commands whose answer has figures."""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module
from pathlib import Path
from typing import Any

import click

with_figures = click.option(
    "--figures",
    type=click.Path(path_type=Path),
    metavar="DIR",
    help="Write the figures there: SVG, PNG, and the numbers behind them (CSV).",
)


def save_figures(folder: Path | None, section: str, *found: Any) -> None:
    """Write the figures of an answer, if it was asked for; `section` is ``module:function``.

    Sheets and the typesetter are loaded when a figure is to be saved.
    """
    if folder is None:
        return
    module, _, name = section.partition(":")
    made: Callable[..., Any] = getattr(import_module(f"ozonewright.show.sheet.{module}"), name)
    save = import_module("ozonewright.report.figures").save_figures
    for path in save(folder, made(*found)):
        click.echo(f"{path} is written.", err=True)
