"""``ozonewright check``."""

from __future__ import annotations

import click

from ozonewright.bench.check import check
from ozonewright.show.check import check_text
from ozonewright.show.plain import as_json


@click.command()
@click.argument("documents", nargs=-1, required=True, metavar="FILE.toml…")
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def command(documents: tuple[str, ...], json_wanted: bool) -> None:
    """Check documents: every fault at once, or what they leave open."""
    found = check(documents)
    if json_wanted:
        click.echo(as_json(found, "documents"))
    else:
        click.echo(check_text(found), nl=False)
