"""``ozonewright open``."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path

import click


@click.command()
@click.option(
    "--notebook",
    envvar="OZONEWRIGHT_NOTEBOOK",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="The notebook; without one, a first question is asked.",
)
@click.option("--port", type=click.IntRange(0, 65535), help="Port on this machine.")
@click.option("--no-browser", is_flag=True, help="Print the address and open nothing.")
def command(notebook: Path | None, port: int | None, no_browser: bool) -> None:
    """Open the notebook as pages in the browser, until stopped with Ctrl+C.

    They are served to this machine alone.
    """
    # The pages are a skin of their own: loaded when asked for, like any command.
    serve = import_module("ozonewright.web.server").serve
    name = f" {notebook}" if notebook else ""
    serve(
        notebook,
        port,
        not no_browser,
        lambda address: click.echo(f"ozonewright{name}: {address}  (stop with Ctrl+C)"),
    )
