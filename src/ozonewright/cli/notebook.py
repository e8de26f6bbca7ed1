"""``ozonewright notebook``: keep, correct, find and carry what was measured."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, TypeVar

import click

from ozonewright.bench import notebook as bench
from ozonewright.documents.load import read_table
from ozonewright.errors import InputError
from ozonewright.notebook import REASONS, Notebook
from ozonewright.show import notebook as show

Command = TypeVar("Command", bound=Callable[..., Any])


def with_notebook(command: Command) -> Command:
    """Give a command the option that names the notebook."""
    return click.option(
        "--notebook",
        "book",
        envvar="OZONEWRIGHT_NOTEBOOK",
        type=click.Path(path_type=Path),
        required=True,
        metavar="FILE",
        help="The notebook, or the environment's OZONEWRIGHT_NOTEBOOK.",
    )(command)


@contextmanager
def opened(path: Path, read_only: bool = False) -> Iterator[Notebook]:
    """Open the notebook for one command."""
    with Notebook.open(path, read_only=read_only) as notebook:
        yield notebook


@click.group()
def command() -> None:
    """Keep, correct, find and carry what was measured."""


@command.command("new")
@click.argument("path", type=click.Path(path_type=Path), metavar="FILE")
@click.option("--label", help="A name for it; the file's name if not given.")
def new(path: Path, label: str | None) -> None:
    """Make a new notebook file."""
    with Notebook.create(path, label or path.stem) as notebook:
        click.echo(show.made(notebook.label, str(path)))


@command.command("add")
@with_notebook
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path))
def add(book: Path, files: tuple[Path, ...]) -> None:
    """Add the documents of files (TOML, or tables of runs as CSV), all of them or none."""
    tables = [(path, bench.read_file(path)) for path in files]
    with opened(book) as notebook, notebook.atomic():
        for path, table in tables:
            for entry in bench.add_table(notebook, table, source=f"file {path.name}"):
                click.echo(show.stored(entry))


@command.command("revise")
@with_notebook
@click.argument("name", metavar="LABEL")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--reason", type=click.Choice(REASONS), required=True, help="Why it is corrected.")
def revise(book: Path, name: str, file: Path, reason: Any) -> None:
    """Correct an entry by the document of a file; what stood before is kept."""
    with opened(book) as notebook, notebook.atomic():
        entry = notebook.revise(notebook.get(name).id, read_table(file), reason=reason)
        bench.keep_answer(notebook, entry)
        click.echo(show.stored(entry))


@command.command("copy")
@with_notebook
@click.argument("name", metavar="LABEL")
@click.option("--set", "changes", multiple=True, metavar="PLACE=VALUE",
              help='As in --set "run.on_time=240 s".')  # fmt: skip
@click.option("--add", "wanted", is_flag=True, help="Keep it; else it is printed to complete.")
def copy(book: Path, name: str, changes: tuple[str, ...], wanted: bool) -> None:
    """As last time, but…: a document like an entry, its readings left out."""
    with opened(book) as notebook:
        data = notebook.copy(name, dict(_change(text) for text in changes))
        if not wanted:
            click.echo(show.as_toml(data), nl=False)
            return
        for entry in bench.add_table(notebook, data, source=f"copy of {name}"):
            click.echo(show.stored(entry))


def _change(text: str) -> tuple[str, Any]:
    place, equals, value = text.partition("=")
    if not equals:
        raise InputError(
            "a change is PLACE=VALUE", got=text, fix='Write --set "run.on_time=240 s".'
        )
    place, value = place.strip(), value.strip()
    if place == "titration.titres":
        return place, [part.strip() for part in value.split(",")]
    return place, value


@command.command("withdraw")
@with_notebook
@click.argument("name", metavar="LABEL")
@click.option("--reason", required=True, help="Why it is struck out.")
def withdraw(book: Path, name: str, reason: str) -> None:
    """Strike an entry out; it is kept."""
    with opened(book) as notebook:
        click.echo(show.stored(notebook.withdraw(notebook.get(name).id, reason=reason)))


@command.command("undo")
@with_notebook
def undo(book: Path) -> None:
    """Undo the last act, by a further revision."""
    with opened(book) as notebook:
        entry = notebook.undo()
        click.echo(show.stored(entry) if entry else "Nothing to undo.")


@command.command("show")
@with_notebook
@click.argument("name", metavar="LABEL")
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def show_entry(book: Path, name: str, json_wanted: bool) -> None:
    """Show an entry as it was typed."""
    with opened(book, read_only=True) as notebook:
        entry = notebook.get(name)
        click.echo(show.entry_json(entry) if json_wanted else show.entry_text(entry), nl=False)


@command.command("list")
@with_notebook
@click.option("--kind", help="run, rig, reaction, room or entry.")
@click.option("--setting", help="Runs of one setting.")
@click.option("--last", type=click.IntRange(1), help="Only so many, the latest.")
@click.option("--withdrawn", is_flag=True, help="Those struck out too.")
@click.option("--json", "json_wanted", is_flag=True, help="Print a JSON list instead.")
def listing(
    book: Path,
    kind: str | None,
    setting: str | None,
    last: int | None,
    withdrawn: bool,
    json_wanted: bool,
) -> None:
    """List the entries."""
    with opened(book, read_only=True) as notebook:
        entries = notebook.entries(kind, setting, last, withdrawn)
        rows = bench.listed(entries)
        click.echo(show.rows_json(rows) if json_wanted else show.rows_text(entries), nl=False)


@command.command("history")
@with_notebook
@click.argument("name", metavar="LABEL")
@click.option("--json", "json_wanted", is_flag=True, help="Print a JSON list instead.")
def history(book: Path, name: str, json_wanted: bool) -> None:
    """Show every revision of an entry, and what each changed."""
    with opened(book, read_only=True) as notebook:
        revisions = notebook.history(notebook.get(name).id)
        text = show.history_json(revisions) if json_wanted else show.history_text(revisions)
        click.echo(text, nl=False)


@command.command("export")
@with_notebook
@click.argument("directory", type=click.Path(path_type=Path), metavar="DIR")
def export(book: Path, directory: Path) -> None:
    """Write everything as TOML into a new or empty folder."""
    with opened(book, read_only=True) as notebook:
        click.echo(f"{notebook.export(directory)} entries are in {directory}.")


@command.command("import")
@with_notebook
@click.argument("path", type=click.Path(path_type=Path), metavar="PATH")
def import_(book: Path, path: Path) -> None:
    """Bring in an exported folder or another notebook, without duplicates."""
    with opened(book) as notebook:
        click.echo(show.imported(notebook.import_(path)))


@command.command("backup")
@with_notebook
@click.argument("path", type=click.Path(path_type=Path), metavar="FILE")
def backup(book: Path, path: Path) -> None:
    """Write a complete second notebook file."""
    with opened(book, read_only=True) as notebook:
        notebook.backup(path)
        click.echo(f"{path} holds everything that {book} holds.")


@command.command("table")
@with_notebook
@click.option("--setting", help="Runs of one setting.")
def table(book: Path, setting: str | None) -> None:
    """Print the runs and their outputs as CSV, units in the header."""
    with opened(book, read_only=True) as notebook:
        click.echo(show.outputs_csv(bench.outputs_of(notebook, setting)), nl=False)


@command.command("verify")
@with_notebook
@click.option("--json", "json_wanted", is_flag=True, help="Print one JSON object instead.")
def verify(book: Path, json_wanted: bool) -> None:
    """Check the file, and work out every stored answer anew (exit 3 if one differs)."""
    with opened(book, read_only=True) as notebook:
        found = bench.verify(notebook)
    click.echo(show.verified_json(found) if json_wanted else show.verified_text(found), nl=False)
    if not found.sound:
        sys.exit(3)
