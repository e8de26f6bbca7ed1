"""The notebook as files to take away: a complete copy, or the text of every entry."""

from __future__ import annotations

import re
import shutil
import tempfile
from importlib import import_module
from pathlib import Path

from starlette.background import BackgroundTask
from starlette.requests import Request
from starlette.responses import FileResponse, Response
from starlette.routing import Route

from ozonewright.bench.subject import subject_of
from ozonewright.notebook import Notebook
from ozonewright.web.view import desk_of, goes_to

PAPERS = ("a4", "letter")


def backup(request: Request) -> Response:
    """Send a complete second notebook file."""
    file = desk_of(request).file
    if file is None:
        return goes_to("/")
    folder = Path(tempfile.mkdtemp(prefix="ozonewright-"))
    copy = folder / f"{_plain(file.stem)}-copy{file.suffix}"
    with Notebook.open(file) as notebook:
        notebook.backup(copy)
    return _sent(copy, folder, "application/vnd.sqlite3")


def export(request: Request) -> Response:
    """Send every revision as text files in one archive."""
    file = desk_of(request).file
    if file is None:
        return goes_to("/")
    folder = Path(tempfile.mkdtemp(prefix="ozonewright-"))
    name = f"{_plain(file.stem)}-export"
    with Notebook.open(file, read_only=True) as notebook:
        notebook.export(folder / name)
    archive = shutil.make_archive(str(folder / name), "zip", folder, name)
    return _sent(Path(archive), folder, "application/zip")


def report(request: Request) -> Response:
    """Send pages to print of a run, a setting, a reaction or a rig; of everything where none is
    named.
    """
    file, of = desk_of(request).file, request.query_params.get("of") or None
    if file is None:
        return goes_to("/")
    paper = request.query_params.get("paper", "a4")
    # The report is a skin of its own: loaded when the first is asked for.
    report = import_module("ozonewright.report.write")
    with Notebook.open(file, read_only=True) as notebook:
        subject = subject_of(notebook, of)
        pages = report.paper_of(notebook, subject, report.Wish(paper if paper in PAPERS else "a4"))
    name = f"{_plain(subject.label)[:60]}.pdf"
    told = {"content-disposition": f'inline; filename="{name}"', "cache-control": "no-store"}
    return Response(pages, media_type="application/pdf", headers=told)


def _plain(stem: str) -> str:
    return re.sub(r"[^\w.-]+", "-", stem, flags=re.ASCII).strip("-.") or "notebook"


def _sent(file: Path, folder: Path, kind: str) -> Response:
    return FileResponse(
        file,
        media_type=kind,
        filename=file.name,
        background=BackgroundTask(shutil.rmtree, folder, ignore_errors=True),
    )


ROUTES = (Route("/backup", backup), Route("/export", export), Route("/report", report))
