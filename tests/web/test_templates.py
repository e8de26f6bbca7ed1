"""Every template uses what its page declares, all of it and nothing else."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields

import pytest
from jinja2 import Environment, nodes

from ozonewright.web.pages import PAGES
from ozonewright.web.view import TEMPLATES, Page, Shell

MACROS = {"parts.html", "plan.html", "sheet.html"}


def page_classes() -> Iterator[type[Page]]:
    """Yield every kind of page, whichever module declares it."""
    assert PAGES
    waiting = list(Page.__subclasses__())
    while waiting:
        one = waiting.pop()
        waiting += one.__subclasses__()
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
