"""``ozonewright gas-line``."""

from __future__ import annotations

from pathlib import Path
from typing import TextIO, cast

import click

from ozonewright.bench.gas_line import answer, meter
from ozonewright.bench.load import Source, table_of
from ozonewright.bench.rig import load_rig
from ozonewright.cli.written import write
from ozonewright.errors import InputError, MissingValue
from ozonewright.show.drawing import drawing_file
from ozonewright.show.gas_line import gas_line_text, meter_text
from ozonewright.show.gas_line_drawing import readout_of
from ozonewright.show.plain import as_json


@click.command()
@click.argument("rig", required=False, metavar="RIG.toml")
@click.option(
    "--drawing", type=click.Path(path_type=Path), help="Write the line as a drawing: FILE.svg."
)
@click.option("--reading", help='Without a rig: what a rotameter reads, "0.75 L/min".')
@click.option("--scale", help="The gas its scale is for: air, oxygen, nitrogen, argon.")
@click.option("--gas", help="The gas in it: oxygen, dry air, room air.")
@click.option("--displaced", help='Without a rig: water displaced by the gas, "500 mL".')
@click.option("--time", help='In which time: "38 s".')
@click.option("--temperature", help='At the meter: "21 °C".')
@click.option("--pressure", help='At the meter: "101.3 kPa".')
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def command(rig: str | None, drawing: Path | None, json_wanted: bool, **texts: str | None) -> None:
    """Flow and pressures of a gas line, where they are lost, and what to change.

    Without a rig it helps with a meter: a rotameter drawn for another gas (--reading --scale
    --gas), or gas that displaces water (--displaced --time); - reads a rig from standard input.
    """
    if rig is not None:
        if typed := [name for name, text in texts.items() if text]:
            raise InputError(
                "a rig and a meter are two questions",
                where=typed[0],
                got=str(texts[typed[0]]),
                fix="Leave out the rig, or the options of the meter.",
            )
        source: Source = (
            cast(TextIO, click.open_file(rig, encoding="utf-8-sig")) if rig == "-" else rig
        )
        table = table_of(source)
        found = answer(table)
        if drawing is not None:
            line = load_rig(table)
            write(drawing, drawing_file(line, readout_of(line, found)), "the drawing")
        click.echo(as_json(found) if json_wanted else gas_line_text(found), nl=json_wanted)
        return
    if not texts["reading"] and not texts["displaced"]:
        raise MissingValue(
            "no rig is given",
            fix='Name its file, or a meter: --reading "0.75 L/min" --scale air --gas oxygen '
            '--temperature "21 °C" --pressure "101.3 kPa".',
        )
    said = meter(texts)
    click.echo(as_json(said) if json_wanted else meter_text(said), nl=json_wanted)
