"""``ozonewright agreement``."""

from __future__ import annotations

import click

from ozonewright.bench.agreement import agreement
from ozonewright.show.agreement import agreement_text
from ozonewright.show.plain import as_json

FOUND_WRONG = 3


@click.command()
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
@click.pass_context
def command(ctx: click.Context, json_wanted: bool) -> None:
    """Our values beside published ones; exit 3 when one disagrees."""
    found = agreement()
    click.echo(as_json(found) if json_wanted else agreement_text(found), nl=json_wanted)
    if found.disagree_count:
        ctx.exit(FOUND_WRONG)
