"""``ozonewright recipe``."""

from __future__ import annotations

from pathlib import Path

import click

from ozonewright.bench.recipe import plan
from ozonewright.cli.written import write
from ozonewright.show.plain import as_json
from ozonewright.show.recipe import recipe_sheet, recipe_text


@click.command()
@click.option("--output", help='Expected output: "0.6 g/h", or "0.6 g/h ± 20 %".')
@click.option("--titrant", help='Thiosulfate: "0.05 mol/L".')
@click.option("--burette", help='Capacity: "50 mL".')
@click.option("--flow", help='Gas through the bottles: "0.8 L/min".')
@click.option("--volume", help='Water in each bottle: "200 mL".')
@click.option("--iodide", help='Potassium iodide on hand for each bottle: "4 g".')
@click.option("--acid", help="Acid on hand (sulfuric acid if not said).")
@click.option("--acid-strength", help='Its solution: "1 mol/L".')
@click.option("--on-time", help='A time you want instead: "4 min".')
@click.option("--sheet", type=click.Path(path_type=Path), help="Write a page to print (HTML).")
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def command(sheet: Path | None, json_wanted: bool, **texts: str | None) -> None:
    """Set-up of the next titration: on-time, iodide, acid, titre to expect."""
    found = plan(texts)
    if sheet is not None:
        write(sheet, recipe_sheet(found))
    click.echo(as_json(found) if json_wanted else recipe_text(found), nl=json_wanted)
