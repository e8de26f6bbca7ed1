"""``ozonewright duty``."""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path

import click

from ozonewright.bench.duty import timer
from ozonewright.bench.notebook import file_text
from ozonewright.cli.figures import save_figures, with_figures
from ozonewright.errors import MissingValue
from ozonewright.notebook import Notebook
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
@click.option("--temperature-coefficient", help='Of that output: "-0.4 %/K".')
@click.option("--output-at", help='Its tube temperature then: "55 °C", cold, or warm.')
@click.option("--solvent", help='That the gas passes through: "methanol".')
@click.option("--liquid-temperature", help='Of the solvent: "-40 °C".')
@click.option("--heat", help='Of the tube, for what air would bring: "30 W".')
@click.option("--tube-diameter", help='Outside: "20 mm".')
@click.option("--tube-length", help='That is warm: "200 mm".')
@click.option("--fan", help='Air it moves freely: "30 m3/h".')
@click.option("--shut-off", help='Pressure at which it moves none: "25 Pa".')
@click.option("--openings", help='Free area into the box, as much out: "20 cm2".')
@click.option("--box-section", help='Across which the air passes the tube: "300 cm2".')
@click.option("--fan-outlet", help='Area of a fan that blows on the tube: "50 cm2".')
@click.option(
    "--notebook",
    "book",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Whose runs tell the output and how it falls; or OZONEWRIGHT_NOTEBOOK and --setting.",
)
@click.option(
    "--readings",
    metavar="LABEL",
    help='In place of a log: the "tube temperature" entries of that label in the notebook.',
)
@click.option("--setting", help="Only the runs of this setting of the notebook.")
@click.option("--at", help='With a notebook, a place other than the last run: "flow=1.2 L/min".')
@with_figures
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def command(
    log: Path | None,
    book: Path | None,
    figures: Path | None,
    json_wanted: bool,
    **texts: str | None,
) -> None:
    """How warm a tube on a timer becomes, and what it delivers per clock hour."""
    texts["log"] = None if log is None else file_text(log)
    if book is None and texts["setting"] and (usual := os.environ.get("OZONEWRIGHT_NOTEBOOK")):
        book = Path(usual)
    if book is None:
        _refuse_without_notebook(texts)
        found = timer(texts)
    else:
        with Notebook.open(book, read_only=True) as notebook:
            found = timer(texts, notebook)
    click.echo(as_json(found) if json_wanted else duty_text(found), nl=json_wanted)
    save_figures(figures, "duty:duty_section", found)


def _refuse_without_notebook(texts: Mapping[str, str | None]) -> None:
    for name in ("setting", "at", "readings"):
        if texts[name]:
            raise MissingValue(
                "this is of a notebook, and none is given",
                where=name,
                got=str(texts[name]),
                fix="Add --notebook FILE.",
            )
