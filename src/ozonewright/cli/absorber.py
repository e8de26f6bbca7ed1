"""``ozonewright absorber``."""

from __future__ import annotations

from typing import TextIO, cast

import click

from ozonewright.bench.absorber import uptake
from ozonewright.bench.load import Source
from ozonewright.show.absorber import absorber_text
from ozonewright.show.plain import as_json


@click.command()
@click.argument("rig", metavar="RIG.toml")
@click.option("--output", help='Ozone sent in: "0.6 g/h".')
@click.option("--flow", help='Dry feed: "0.8 NL/min"; if not said, that of the gas line.')
@click.option("--bubble", help='Diameter seen, in place of that worked out: "3 mm".')
@click.option("--guard-share", help='Measured: ozone of the last bottle over all, "2.9 %".')
@click.option("--slip", help='Measured: ozone behind the bottles over ozone sent in, "4 %".')
@click.option("--tail-titre", help='Or the titre of a tail bottle behind them, "1.02 mL" …')
@click.option("--titrant", help='… with "0.0510 mol/L" …')
@click.option("--blank", help='… less a blank, "0.18 mL" …')
@click.option("--on-time", help='… caught in "4 min".')
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def command(rig: str, json_wanted: bool, **texts: str | None) -> None:
    """How much ozone the bottles take up, and what slips past; - reads standard input."""
    source: Source = cast(TextIO, click.open_file(rig, encoding="utf-8-sig")) if rig == "-" else rig
    found = uptake(source, texts)
    click.echo(as_json(found) if json_wanted else absorber_text(found), nl=json_wanted)
