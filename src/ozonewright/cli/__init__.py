"""The command line: parse, call the bench, show. Commands load on demand."""

from __future__ import annotations

import gc
import sys
from collections.abc import Callable
from importlib import import_module

import click

from ozonewright import __version__
from ozonewright.errors import AppError, Faults, InputError, nearest

COMMANDS = {
    "output": "Ozone output of one run or several.",
    "recipe": "Set-up of the next titration.",
    "gas-line": "Flow and pressures of a gas line, and what to change.",
    "drift": "Why runs disagree, and what to measure next.",
    "absorber": "How much ozone the bottles take up, and what slips past.",
    "reaction": "Plan of a reaction: on-time, end, heat, quench, products.",
    "gas-use": "How long a cylinder lasts, and what a gram costs.",
    "compare": "Two settings: what else differed, and whether the ratio is real.",
    "gate": "Go, fix or stop, before the high voltage goes on.",
    "room": "What people breathe when ozone gets into a room.",
    "clearance": "Whether a solution may be evaporated after ozone.",
    "generator": "Where the generator runs on its map, and what a change would bring.",
    "power": "Plug power, what the gas gets of it, and grams for a kilowatt-hour.",
    "duty": "Warmth and delivery of a generator on a timer.",
    "claim": "A label beside what was measured.",
    "notebook": "Keep, correct, find and carry what was measured.",
    "log": "Bench events, and the count of what they delivered.",
    "open": "The notebook as pages in the browser.",
    "report": "Pages that another person can check: PDF, HTML, or tables.",
    "check": "Check documents without answering anything.",
    "agreement": "Our values beside published ones.",
    "demo": "Write the worked example into a folder and answer it.",
}
"""Name and the line of help; each lives in a module of its name."""
OF_THE_NOTEBOOK = (
    "new", "add", "revise", "copy", "withdraw", "undo", "show", "list", "history", "export",
    "import", "backup", "table", "verify",
)  # fmt: skip
"""Commands of the notebook answer without that word too."""


class OnDemand(click.Group):
    """A group that imports a command when it is called, and speaks of errors in one way."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name in OF_THE_NOTEBOOK:
            notebook = self.get_command(ctx, "notebook")
            assert isinstance(notebook, click.Group)
            return notebook.get_command(ctx, cmd_name)
        if cmd_name not in COMMANDS:
            return None
        command = import_module(f"ozonewright.cli.{cmd_name.replace('-', '_')}").command
        assert isinstance(command, click.Command)
        if not gc.isenabled():
            # What was loaded stays to the end; from here on only what the command makes is swept.
            gc.freeze()
            gc.enable()
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Name the nearest command where there is none of this name."""
        word = args[0]
        if word not in COMMANDS and word not in OF_THE_NOTEBOOK and word[:1].isalnum():
            raise InputError(
                "there is no such command",
                got=word,
                fix=nearest(word, [*COMMANDS, *OF_THE_NOTEBOOK]),
            )
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


@click.command(
    cls=OnDemand,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)
@click.version_option(__version__, prog_name="ozonewright")
def group() -> None:
    """From bench readings to an ozone output you can defend, and on to a reaction."""


def main() -> None:
    """Run the command line; exit 0 answered, 1 our fault, 2 input to mend, 3 found wrong."""
    # Sweeping modules while they load, and all of them once more at exit, is a seventh of the time
    # of a short command and frees nothing.
    gc.disable()
    try:
        group()
    except AppError as error:
        click.echo(_told(error), err=True)
        sys.exit(2)
    finally:
        gc.freeze()


def _told(error: AppError) -> str:
    faults = error.faults if isinstance(error, Faults) else (error,)
    lines = []
    for fault in faults:
        where = f"{fault.where}: " if fault.where else ""
        given = f" (given: {fault.got})" if fault.got else ""
        lines += [f"{where}{fault.what}{given}", f"    {fault.fix}"]
    if isinstance(error, InputError) and len(faults) > 1:
        lines.append(f"{len(faults)} faults; nothing was answered or written.")
    harmless: Callable[[str], str] = import_module("ozonewright.show.harmless").harmless
    return harmless("\n".join(lines))
