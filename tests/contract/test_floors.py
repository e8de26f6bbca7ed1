"""A floor imports only floors below it; inside a floor only to the left of itself."""

from __future__ import annotations

import ast
from collections.abc import Iterator

import pytest

from contract.tree import (
    PACKAGE,
    Import,
    Module,
    floor_names,
    imports,
    module_names,
    modules,
    planted,
)

# Top to bottom; inside a floor left to right.
FLOORS: tuple[tuple[str, ...], ...] = (
    ("cli", "web", "report", "python"),
    ("show",),
    ("bench", "demo"),
    ("documents", "notebook"),
    ("questions",),
    ("records",),
    ("physics",),
    ("errors", "units", "uncertain", "results", "references"),
)
SKINS = frozenset(FLOORS[0])
PHYSICS_ROOMS = ("gas", "chemistry", "liquid", "assay", "generator", "hazards")
ROOT_MODULES = {PACKAGE, f"{PACKAGE}.__main__"}
PLACE = {
    name: (height, column)
    for height, floor in enumerate(reversed(FLOORS))
    for column, name in enumerate(floor)
}

# Start-up time: these two fetch what a command or a page needs when it needs it.
IMPORTS_ON_DEMAND = ("cli", "web")

NOT_IN_PHYSICS = {
    "sqlite3", "datetime", "time", "random", "numpy.random", "secrets", "os", "pathlib", "click",
    "pydantic", "logging",
}  # fmt: skip


def forbidden(module: Module, edge: Import) -> str | None:
    """Return why this import may not be, or None."""
    here, there = module.name.split("."), edge.target.split(".")
    if module.name in ROOT_MODULES or there[0] != PACKAGE or len(there) == 1:
        return None
    mine, other = here[1], there[1]
    if mine not in PLACE or other not in PLACE:
        return f"{mine if mine not in PLACE else other} stands on no floor"
    if mine == other:
        return _inside(mine, here[2:], there[2:])
    (my_height, my_column), (height, column) = PLACE[mine], PLACE[other]
    if height > my_height:
        return f"{other} stands above {mine}"
    if height == my_height and {mine, other} <= SKINS:
        return "no skin imports another"
    if height == my_height and column > my_column:
        return f"{other} stands right of {mine}"
    return None


def _inside(floor: str, here: list[str], there: list[str]) -> str | None:
    if floor not in ("physics", "questions") or not there or here[:1] == there[:1]:
        return None
    room = there[0]
    if floor == "questions":
        return f"question {here[0] if here else floor} imports question {room}"
    if room not in PHYSICS_ROOMS:
        return f"physics has no room {room}"
    if not here or here[0] not in PHYSICS_ROOMS:
        return f"physics itself imports its room {room}"
    if PHYSICS_ROOMS.index(room) > PHYSICS_ROOMS.index(here[0]):
        return f"{room} stands right of {here[0]}"
    return None


def faults(module: Module, known: frozenset[str]) -> Iterator[str]:
    """Yield every fault of a module's imports, with its place."""
    for edge in imports(module, known):
        if why := forbidden(module, edge):
            yield f"{module.at(edge.node)}: {why}"
        on_demand = module.name.split(".")[1:2] in [[name] for name in IMPORTS_ON_DEMAND]
        if edge.inside_function and not on_demand and module.name not in ROOT_MODULES:
            yield f"{module.at(edge.node)}: import of {edge.target} inside a function"


def physics_faults(module: Module, known: frozenset[str]) -> Iterator[str]:
    """Yield what makes a physics module more than numbers from numbers."""
    for edge in imports(module, known):
        if any(f"{edge.target}.".startswith(f"{name}.") for name in NOT_IN_PHYSICS):
            yield f"{module.at(edge.node)}: physics imports {edge.target}"
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Name) and node.id in ("print", "input", "open"):
            yield f"{module.at(node)}: physics uses {node.id}"
        if isinstance(node, ast.Attribute) and node.attr == "random":
            yield f"{module.at(node)}: physics uses a random source"


def test_no_import_goes_up_or_right() -> None:
    known = module_names()
    assert [fault for module in modules() for fault in faults(module, known)] == []


def test_every_package_stands_on_a_floor() -> None:
    assert floor_names() - set(PLACE) - {"__main__"} == set()


def test_physics_is_numbers_from_numbers() -> None:
    known = module_names()
    rooms = [module for module in modules() if module.name.startswith(f"{PACKAGE}.physics")]
    assert [fault for room in rooms for fault in physics_faults(room, known)] == []


def test_every_room_of_physics_is_known() -> None:
    rooms = {m.name.split(".")[2] for m in modules() if m.name.startswith(f"{PACKAGE}.physics.")}
    assert rooms - set(PHYSICS_ROOMS) == set()


KNOWN = frozenset(
    {PACKAGE}
    | {f"{PACKAGE}.{name}" for name in PLACE}
    | {f"{PACKAGE}.physics.{room}" for room in PHYSICS_ROOMS}
)


@pytest.mark.parametrize(
    ("name", "text", "why"),
    [
        ("physics.gas.flow", "from ozonewright.records import Run", "above"),
        ("physics.gas.flow", "from ozonewright import records", "above"),
        ("physics.gas.flow", "from ...records import Run", "above"),
        ("physics.gas.flow", "import ozonewright.bench", "above"),
        ("physics.gas.flow", "from ozonewright.physics import assay", "right of gas"),
        ("physics.odd", "import ozonewright.physics.gas", "imports its room"),
        ("units.table", "from ozonewright.references import constant", "right of units"),
        ("bench", "import ozonewright.demo", "right of bench"),
        ("documents.run", "import ozonewright.notebook.store", "right of documents"),
        ("web.app", "import ozonewright.cli.main", "no skin"),
        ("report.page", "import ozonewright.web.app", "no skin"),
        ("python.book", "import ozonewright.report.write", "no skin"),
        ("questions.drift.fit", "from ozonewright.questions.output import x", "imports question"),
        ("questions.drift.fit", "from ..output import x", "imports question"),
        ("helpers.text", "import ozonewright.units", "no floor"),
        ("records", "if TYPE_CHECKING:\n    from ozonewright.bench import x", "above"),
        ("show.answer", "def f():\n    import math", "inside a function"),
        ("show.answer", "class A:\n    def f(self):\n        import math", "inside a function"),
    ],
)
def test_a_planted_edge_is_seen(name: str, text: str, why: str) -> None:
    found = list(faults(planted(f"{PACKAGE}.{name}", text), KNOWN))
    assert len(found) == 1
    assert why in found[0]


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("cli.main", "def f():\n    from ozonewright import bench"),
        ("web.app", "import ozonewright.show.words"),
        ("demo", "import ozonewright.bench"),
        ("notebook.store", "import ozonewright.documents.run"),
        ("questions.drift.fit", "from ozonewright.questions.drift.causes import x"),
        ("physics.assay.iodometry", "from ozonewright.physics import Real, gas"),
        ("results", "from ozonewright import __version__, uncertain"),
    ],
)
def test_a_permitted_edge_passes(name: str, text: str) -> None:
    assert list(faults(planted(f"{PACKAGE}.{name}", text), KNOWN)) == []


@pytest.mark.parametrize(
    "text",
    [
        "import time",
        "from os import path",
        "import os.path",
        "from numpy.random import default_rng",
        "from numpy import random",
        "import numpy as np\nx = np.random.normal()",
        "print(1)",
    ],
)
def test_a_planted_clock_or_random_source_is_seen(text: str) -> None:
    module = planted(f"{PACKAGE}.physics.gas.flow", text)
    assert list(physics_faults(module, frozenset({"numpy.random"})))
