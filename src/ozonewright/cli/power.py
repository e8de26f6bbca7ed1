"""``ozonewright power``."""

from __future__ import annotations

from pathlib import Path

import click

from ozonewright.bench.power import WAVES, loop_text, power_of
from ozonewright.cli.figures import save_figures, with_figures
from ozonewright.notebook import Notebook
from ozonewright.show.plain import as_json
from ozonewright.show.power import power_text


@click.command()
@click.option("--plug", help='What the meter at the plug reads: "38 W ± 2 %".')
@click.option("--energy", help='Or what it counted: "0.114 kWh" …')
@click.option("--time", help='… in "3 h 0 min".')
@click.option("--standby", help='At the plug, all running but the discharge: "6 W".')
@click.option("--output", help='Ozone: "0.6 g/h ± 3 %".')
@click.option("--setting", help="Or of this setting of the notebook, with its plug power.")
@click.option(
    "--notebook", type=click.Path(path_type=Path), envvar="OZONEWRIGHT_NOTEBOOK",
    help="Where the setting stands.",
)  # fmt: skip
@click.option(
    "--loop",
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
    help="A record (CSV) of time, voltage and sense voltage or charge; read docs/power.md first.",
)
@click.option(
    "--blank",
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
    help="A record with the same leads just below ignition: its phase is taken off.",
)
@click.option("--probe", help='Volts at the tube for a volt of the record: "1000 ± 3 %".')
@click.option("--capacitor", help='Sense capacitor in the earth return: "100 nF ± 5 %".')
@click.option("--flat-topped", is_flag=True, help="The voltage truly stands still at its top.")
@click.option("--frequency", help='Or Manley\'s equation: "1.0 kHz" …')
@click.option("--dielectric", help='… capacitance of the dielectric: "200 pF" …')
@click.option("--gap", help='… and of the gap: "50 pF" …')
@click.option("--gap-voltage", help='… voltage over the gap while it burns: "3.0 kV" …')
@click.option("--voltage", help='… and at the tube: "8.0 kV peak", "16 kV pp" or "5.7 kV rms".')
@click.option("--discharge", help='Or the discharge power, known already: "18 W ± 1 W".')
@with_figures
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def command(
    notebook: Path | None,
    loop: Path | None,
    blank: Path | None,
    figures: Path | None,
    flat_topped: bool,
    json_wanted: bool,
    **texts: str | None,
) -> None:
    """Plug power, what the gas gets of it, and the grams of a kilowatt-hour on both bases."""
    texts["loop"] = None if loop is None else loop_text(loop)
    texts["blank"] = None if blank is None else loop_text(blank, "blank")
    texts["wave"] = WAVES[1] if flat_topped else None
    if notebook is None or not texts.get("setting"):
        found = power_of(texts)
    else:
        with Notebook.open(notebook, read_only=True) as book:
            found = power_of(texts, book)
    click.echo(as_json(found) if json_wanted else power_text(found), nl=json_wanted)
    save_figures(figures, "power:power_section", found)
