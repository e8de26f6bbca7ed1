"""Every template uses what its page declares, all of it and nothing else."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields
from importlib import import_module
from pkgutil import iter_modules

import pytest
from jinja2 import Environment, nodes

from ozonewright.web import pages
from ozonewright.web.view import TEMPLATES, Page, Shell

MACROS = {"parts.html", "plan.html", "sheet.html"}


def page_classes() -> Iterator[type[Page]]:
    """Yield every kind of page that has a template, whichever module declares it."""
    for _, name, _ in iter_modules(pages.__path__):
        import_module(f"{pages.__name__}.{name}")
    waiting = list(Page.__subclasses__())
    while waiting:
        one = waiting.pop()
        waiting += one.__subclasses__()
        if hasattr(one, "template"):
            yield one


def used(template: str, name: str) -> set[str]:
    """Return the attributes of a name that a template asks for."""
    tree = Environment().parse((TEMPLATES / template).read_text(encoding="utf-8"))
    return {
        one.attr
        for one in tree.find_all(nodes.Getattr)
        if isinstance(one.node, nodes.Name) and one.node.name == name
    }


@pytest.mark.parametrize("kind", sorted(page_classes(), key=lambda kind: kind.__name__))
def test_a_template_uses_what_its_page_declares(kind: type[Page]) -> None:
    declared = {one.name for one in fields(kind)}
    assert used(kind.template, "page") - declared == set()
    assert declared - used(kind.template, "page") - {"title"} == set()


def test_the_shell_is_declared() -> None:
    asked = {name for path in TEMPLATES.glob("*.html") for name in used(path.name, "shell")}
    assert asked - {one.name for one in fields(Shell)} == set()


def test_every_template_belongs_to_a_page() -> None:
    assert {path.name for path in TEMPLATES.glob("*.html")} - MACROS == {
        kind.template for kind in page_classes()
    }


@pytest.mark.parametrize(("step", "names"), sorted(pages.WHEN_ASKED.items()))
def test_every_route_that_is_read_when_asked_can_be_reached(
    step: str, names: tuple[str, ...]
) -> None:
    """The first step of an address leads to the module; every module is named by its steps."""
    for name in names:
        for route in import_module(f"{pages.__name__}.{name}").ROUTES:
            first = route.path.split("/")[1]
            assert name in pages.WHEN_ASKED[first], route.path


NOT_SAVED = {"parts.html": 2, "phone.html": 1, "plan.html": 1}
"""Figures that are no numbers: the drawing of a rig, which has a file of its own, and the macro of
all others; a code to be read by a telephone; molecules."""


def test_every_figure_of_numbers_on_a_page_can_be_saved() -> None:
    """Mend: give the page a `Drawn` (web/figure.py), and draw it with `parts.figure`."""
    found = {
        path.name: count
        for path in TEMPLATES.glob("*.html")
        if (count := path.read_text(encoding="utf-8").count("<figure"))
    }
    assert found == NOT_SAVED
