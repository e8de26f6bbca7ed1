"""One file for each page, with its ROUTES; a question's is read when it is first asked for.

What the first page needs is read at the start. The rest would triple the time to it: structures,
flow networks and evidence take their libraries along.
"""

from __future__ import annotations

from importlib import import_module

from starlette.routing import Route, Router
from starlette.types import Receive, Scope, Send

from ozonewright.web.pages import files, first, home, new, run, runs, setting

AT_THE_START = (home, first, runs, new, setting, run, files)
"""Pages of every notebook."""

WHEN_ASKED: dict[str, tuple[str, ...]] = {
    "recipe": ("recipe",),
    "reaction": ("reaction", "reaction_kept"),
    "duty": ("duty",),
    "generator": ("generator",),
    "power": ("power",),
    "gas-line": ("gas_line",),
    "gas-use": ("gas_use",),
    "absorber": ("absorber",),
    "new-rig": ("rig",),
    "rig": ("rig",),
    "drawing.css": ("rig",),
    "gate": ("gate",),
    "room": ("room",),
    "clearance": ("clearance",),
    "drift": ("drift",),
    "compare": ("compare",),
    "claim": ("claim",),
    "bench": ("bench",),
    "phone": ("phone",),
}
"""First step of the address: the modules that answer below it. A new question is one line here."""


class WhenAsked:
    """The routes of some modules, imported at the first request."""

    def __init__(self, names: tuple[str, ...]) -> None:
        self.names = names
        self.router: Router | None = None

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if self.router is None:
            modules = [import_module(f"{__name__}.{name}") for name in self.names]
            self.router = Router([route for module in modules for route in module.ROUTES])
        await self.router(scope, receive, send)


def routes() -> list[Route]:
    """Return the routes of every page."""
    found = [route for page in AT_THE_START for route in page.ROUTES]
    for step, names in WHEN_ASKED.items():
        later = WhenAsked(names)
        found += [Route(f"/{step}", later), Route(f"/{step}/{{rest:path}}", later)]
    return found
