"""The application: routes of every page, the guard before them, and errors told as pages."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.responses import Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles
from starlette.types import ASGIApp

from ozonewright.errors import AppError
from ozonewright.web.desk import Desk
from ozonewright.web.pages import PAGES
from ozonewright.web.pages.trouble import no_such_page, our_fault, refusal, told
from ozonewright.web.security import Guard

STATIC = Path(__file__).parent / "static"


class Static(StaticFiles):
    """Files of ours; the browser asks whether they changed, and no more."""

    def file_response(self, *args: Any, **more: Any) -> Response:
        reply = super().file_response(*args, **more)
        reply.headers["cache-control"] = "no-cache"
        return reply


def create_app(notebook: Path | None, folder: Path) -> ASGIApp:
    """Return the application for one notebook, or for none yet; new ones go into `folder`."""
    desk = Desk(notebook, folder)
    routes: list[Route | Mount] = [route for page in PAGES for route in page.ROUTES]
    app = Starlette(
        routes=[*routes, Mount("/static", Static(directory=STATIC))],
        exception_handlers={AppError: told, HTTPException: no_such_page, Exception: our_fault},
    )
    app.state.desk = desk
    # Around everything, so that even the page of our own fault carries the headers.
    return Guard(app, token=desk.token, refuse=refusal)
