"""A report to a file or a folder, whole or not at all."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from ozonewright.bench.report import Part, RunPart, parts
from ozonewright.bench.subject import Subject, wanted_of
from ozonewright.errors import InputError
from ozonewright.notebook import Notebook
from ozonewright.report.folder import fill
from ozonewright.report.page import html
from ozonewright.report.paper import pdf
from ozonewright.show.sheet.notebook import sheet, title_block

MOST_ON_PAPER = 200
"""Runs whose sums stand on paper; the pages are set as one piece, so their number has an end."""
ENDINGS = (".pdf", ".html")

Told = Callable[[int], None]
"""Is told how many parts are done."""


@dataclass(frozen=True, slots=True)
class Wish:
    """How a report is wished."""

    paper: str = "a4"
    only: tuple[str, ...] = ()
    """Questions it asks, by the words of the commands; all that are quick, where none is named."""


def write(
    notebook: Notebook,
    subject: Subject,
    out: Path,
    wish: Wish | None = None,
    told: Told | None = None,
) -> None:
    """Write the report of a subject: .pdf, .html, or a folder of tables and figures.

    Raises
    ------
    InputError
        Another ending, a folder that is not empty, a place that can't be written to, a question
        that no report asks.
    """
    ending = out.suffix.lower()
    if ending and ending not in ENDINGS:
        raise InputError(
            "a report is not written with this ending",
            where="--out",
            got=out.name,
            fix="End it in .pdf or .html, or name a folder for tables (CSV) and figures.",
        )
    told, wish = told or (lambda done: None), wish or Wish()
    wanted = wanted_of(subject, wish.only)
    try:
        if ending == ".pdf":
            with _whole_file(out) as part:
                part.write_bytes(paper_of(notebook, subject, wish, told))
        elif ending == ".html":
            with _whole_file(out) as part, part.open("w", encoding="utf-8") as file:
                found = _counted(parts(notebook, subject, wanted=wanted), told)
                sections = sheet(notebook, subject, found, wanted)
                file.writelines(html(sections, title_block(notebook, subject)))
        else:
            with _whole_folder(out) as part:
                found = _counted(parts(notebook, subject, wanted=wanted), told)
                fill(part, found, title_block(notebook, subject))
    except OSError as error:
        raise InputError(
            "the report can't be written",
            where="--out",
            got=f"{out}: {error.strerror or 'no such place'}",
            fix="Name a file in a folder that is there and that you may write to.",
        ) from error


def paper_of(
    notebook: Notebook, subject: Subject, wish: Wish | None = None, told: Told | None = None
) -> bytes:
    """Return the pages of a subject as PDF."""
    wish = wish or Wish()
    wanted = wanted_of(subject, wish.only)
    found = _counted(parts(notebook, subject, MOST_ON_PAPER, wanted), told or (lambda done: None))
    left_out = max(_runs(notebook, subject) - MOST_ON_PAPER, 0)
    sections = sheet(notebook, subject, found, wanted, left_out)
    return pdf(sections, title_block(notebook, subject), wish.paper)


def _runs(notebook: Notebook, subject: Subject) -> int:
    if subject.entry is not None:
        return 1
    setting = subject.label if subject.kind == "setting" else None
    return len(notebook.entries(kind="run", setting=setting))


def _counted(found: Iterable[Part], told: Told) -> Iterator[Part]:
    done = 0
    for part in found:
        yield part
        if isinstance(part, RunPart):
            done += 1
            told(done)


@contextmanager
def _whole_file(out: Path) -> Iterator[Path]:
    """Give a file beside the one wanted; it takes its place when all is written."""
    if out.is_dir():
        raise IsADirectoryError(0, "this is a folder")
    handle, name = tempfile.mkstemp(prefix=".report-", suffix=out.suffix, dir=out.parent)
    os.close(handle)
    part = Path(name)
    try:
        yield part
        part.chmod(0o644)
        part.replace(out)
    finally:
        part.unlink(missing_ok=True)


@contextmanager
def _whole_folder(out: Path) -> Iterator[Path]:
    if out.exists() and not out.is_dir():
        raise InputError(
            "a file of this name is there, and tables need a folder",
            where="--out",
            got=str(out),
            fix="Name a new folder, or end the name in .pdf or .html for one file.",
        )
    if out.exists() and any(out.iterdir()):
        raise InputError(
            "this folder is not empty",
            where="--out",
            got=str(out),
            fix="Name a new or an empty one; nothing that is there is written over.",
        )
    part = Path(tempfile.mkdtemp(prefix=".report-", dir=out.parent))
    try:
        yield part
        part.chmod(0o755)
        if out.is_dir():
            out.rmdir()
        part.replace(out)
    finally:
        shutil.rmtree(part, ignore_errors=True)
