"""``ozonewright output``."""

from __future__ import annotations

import click

from ozonewright.bench.output import outputs
from ozonewright.show.output import outputs_text
from ozonewright.show.plain import as_json


@click.command()
@click.argument("runs", nargs=-1, required=True, metavar="RUN.toml…")
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def command(runs: tuple[str, ...], json_wanted: bool) -> None:
    """Ozone output of one run or several, with its uncertainty and what to do next.

    Field blanks (discharge = "off") among the files serve the runs of their setting.
    """
    results = outputs(runs)
    if json_wanted:
        click.echo(as_json(results[0] if len(results) == 1 else results))
    else:
        click.echo(outputs_text(results), nl=False)
