"""``ozonewright duty``."""

from __future__ import annotations

from pathlib import Path

import click

from ozonewright.bench.duty import timer
from ozonewright.bench.notebook import file_text
from ozonewright.show.duty import duty_text
from ozonewright.show.plain import as_json


@click.command()
@click.option("--on", help='Discharge on: "6 min".')
@click.option("--off", help='Discharge off: "9 min".')
@click.option("--time-constant", help='Of the tube: "4.6 min ± 0.5 min".')
@click.option("--output", help='Ozone while on: "0.62 g/h".')
@click.option("--rise", help='Over the ambient if it ran on: "60 K".')
@click.option("--ambient", help='"25 °C".')
@click.option("--limit", help='Highest temperature it may have: "70 °C".')
@click.option("--flow", help='Gas, as a normal flow: "0.74 NL/min".')
@click.option("--gas", help='While the discharge is off it "runs on" or "stops".')
@click.option(
    "--log",
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
    help="Temperatures while it warmed (CSV), in place of time constant and rise.",
)
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def command(log: Path | None, json_wanted: bool, **texts: str | None) -> None:
    """How warm a tube on a timer becomes, and what it delivers per clock hour."""
    texts["log"] = None if log is None else file_text(log)
    found = timer(texts)
    click.echo(as_json(found) if json_wanted else duty_text(found), nl=json_wanted)
