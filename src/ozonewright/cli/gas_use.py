"""``ozonewright gas-use``."""

from __future__ import annotations

from pathlib import Path

import click

from ozonewright.bench.gas_use import use_of_gas
from ozonewright.notebook import Notebook
from ozonewright.show.gas_use import gas_use_text
from ozonewright.show.plain import as_json


@click.command()
@click.option("--cylinder", help='Water capacity, stamped on it: "10.0 L".')
@click.option("--pressure", help='What the gauge reads: "150 bar gauge".')
@click.option("--flow", help='Drawn from it: "0.5 NL/min", or true flow "0.5 L/min".')
@click.option("--temperature", help='Of the cylinder: "15 °C".')
@click.option("--ambient", help='Air pressure: "101.3 kPa".')
@click.option("--reserve", help='Left in the cylinder: "10 bar gauge".')
@click.option("--gas", help="oxygen (if not said), air or nitrogen.")
@click.option("--output", help='Ozone while the discharge is on: "0.6 g/h".')
@click.option("--on", help='Discharge on for "6 min" …')
@click.option("--off", help='… and off for "9 min".')
@click.option("--gas-at-rest", help="runs or stops, while the discharge is off.")
@click.option("--price", help='Of a full cylinder\'s gas: "130" or "130 EUR".')
@click.option("--full", help='Pressure of a full cylinder: "200 bar gauge".')
@click.option("--hardware", help="Regulator, hoses: bought once.")
@click.option("--hardware-life", help='Hours of gas over which it is spread: "2000 h".')
@click.option("--rent", help="Of the cylinder, for a year.")
@click.option("--use", help='Hours of gas in a year: "100 h".')
@click.option("--deposit", help="Comes back with the cylinder.")
@click.option("--energy-price", help="Of one kWh.")
@click.option("--concentrator-price", help="Instead: an oxygen concentrator …")
@click.option("--concentrator-power", help='… its power: "350 W" …')
@click.option("--concentrator-output", help='… and the ozone made with it: "0.55 g/h".')
@click.option("--second-tube-price", help="Or a second tube for the same gas …")
@click.option("--second-tube-power", help='… its power: "38 W" …')
@click.option("--second-tube-output", help='… and the ozone of both: "0.9 g/h".')
@click.option(
    "--notebook", type=click.Path(path_type=Path), envvar="OZONEWRIGHT_NOTEBOOK",
    help="Its runs tell the lowest flow that keeps the output.",
)  # fmt: skip
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def command(notebook: Path | None, json_wanted: bool, **texts: str | None) -> None:
    """How long a cylinder lasts, and what an hour, a gram and a mmol cost."""
    if notebook is None:
        found = use_of_gas(texts)
    else:
        with Notebook.open(notebook, read_only=True) as book:
            found = use_of_gas(texts, book)
    click.echo(as_json(found) if json_wanted else gas_use_text(found), nl=json_wanted)
