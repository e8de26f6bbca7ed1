"""The application: routes of every page, the guard before them, and errors told as pages."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles
from starlette.types import ASGIApp

from ozonewright.errors import AppError
from ozonewright.show.ink import plot_style
from ozonewright.web.desk import Desk
from ozonewright.web.door import ByAddress, Door
from ozonewright.web.pages import routes
from ozonewright.web.pages.trouble import no_such_page, our_fault, refusal, told
from ozonewright.web.phone import Phones
from ozonewright.web.security import Guard

STATIC = Path(__file__).parent / "static"


class Static(StaticFiles):
    """Files of ours; the browser asks whether they changed, and no more."""

    def file_response(self, *args: Any, **more: Any) -> Response:
        reply = super().file_response(*args, **more)
        reply.headers["cache-control"] = "no-cache"
        return reply


def create_app(
    notebook: Path | None,
    folder: Path,
    phones: Phones | None = None,
    patience: float | None = None,
) -> ASGIApp:
    """Return the application for one notebook, or for none yet; new ones go into `folder`.

    With `phones`, requests that come in at their address get the bench page alone. An answer that
    takes longer than `patience` is told to be underway meanwhile. [s]
    """
    desk = Desk(notebook, folder, phones, patience=patience)
    # Around everything, so that even the page of our own fault carries the headers.
    at_desk = Guard(_application(desk, routes()), tokens=lambda _: (desk.token,), refuse=refusal)
    return at_desk if phones is None else ByAddress(at_desk, _at_phone(desk, phones), phones)


def _at_phone(desk: Desk, phones: Phones) -> ASGIApp:
    """Return what telephones are served: behind their own guard, and behind the door."""
    from ozonewright.web.pages import bench
    from ozonewright.web.pages.phone import ON_THE_PHONE

    door = Door(_application(desk, [*bench.ROUTES, *ON_THE_PHONE]), phones, refusal)
    return Guard(
        door, tokens=door.tokens, refuse=refusal, ours=lambda host: host == phones.authority
    )


def _paper(request: Request) -> Response:
    """Send the look of every page, that of the figures on it included."""
    look = (STATIC / "paper.css").read_text(encoding="utf-8") + plot_style()
    return Response(look, media_type="text/css", headers={"cache-control": "no-cache"})


def _application(desk: Desk, routes: Sequence[Route]) -> Starlette:
    app = Starlette(
        routes=[
            *routes,
            Route("/static/paper.css", _paper),
            Mount("/static", Static(directory=STATIC)),
        ],
        exception_handlers={AppError: told, HTTPException: no_such_page, Exception: our_fault},
    )
    app.state.desk = desk
    return app
