"""``ozonewright open``."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path

import click

from ozonewright.errors import MissingValue


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
@click.option("--phone", is_flag=True, help="Serve the bench page to a telephone in this network.")
@click.option(
    "--phone-address", metavar="ADDRESS", help="This machine's address there, if it has several."
)
def command(
    notebook: Path | None,
    port: int | None,
    no_browser: bool,
    phone: bool,
    phone_address: str | None,
) -> None:
    """Open the notebook as pages in the browser, until stopped with Ctrl+C.

    They are served to this machine alone. With --phone the bench page, and nothing else, is served
    in the local network too, to each telephone that uses a code.
    """
    # The pages are a skin of their own: loaded when asked for, like any command.
    serve = import_module("ozonewright.web.server").serve
    where = None
    if phone or phone_address:
        if notebook is None:
            raise MissingValue(
                "the bench page needs a notebook",
                where="--notebook",
                fix="Name it: ozonewright open --notebook FILE --phone.",
            )
        where = import_module("ozonewright.web.phone").local_address(phone_address)
    name = f" {notebook}" if notebook else ""
    serve(
        notebook,
        port,
        not no_browser,
        lambda address: click.echo(f"ozonewright{name}: {address}  (stop with Ctrl+C)"),
        where,
        lambda address: click.echo(import_module("ozonewright.show.qr").for_one_phone(address)),
    )
