"""Every physical function says what it takes, gives, holds for, and rests on, with units."""

from __future__ import annotations

import ast
import re

import pytest

from contract.docstrings import faults, is_unit
from contract.tree import PACKAGE, ROOT, bibliography, modules
from ozonewright import errors

ERRORS = {
    name
    for name, value in vars(errors).items()
    if isinstance(value, type) and issubclass(value, errors.AppError)
}
GOOD = '''
def film_flux(*, kL: Real, concentration: Real, gas: str) -> Real:
    """Flux of ozone into the liquid through the film at a bubble.

    Parameters
    ----------
    kL : float
        Mass transfer coefficient of the liquid film. [m/s]
    concentration : float
        Of ozone at the surface, less that in the bulk, which in a
        fast reaction is none. [mol/m3]
    gas : str
        Name of the carrier. [-]

    Returns
    -------
    flux : float
        Into the liquid. [mol/(m2 s)]

    Raises
    ------
    NotApplicable
        A coefficient below zero.

    Valid
    -----
    kL 1e-5..1e-3 m/s; steady film.

    Source
    ------
    author_1950, eq. 12, p. 41
    other_1960

    Notes
    -----
    n = kL c
    """
    if kL < 0:
        raise NotApplicable("a coefficient below zero", got=str(kL), fix="Give a positive one.")
    return kL * concentration
'''
KEYS = {"author_1950", "other_1960"}


def first_function(text: str) -> ast.FunctionDef:
    found = next(node for node in ast.walk(ast.parse(text)) if isinstance(node, ast.FunctionDef))
    return found


def test_physical_functions_are_documented() -> None:
    found = [
        f"{module.at(node)}: {node.name} {fault}"
        for module in modules()
        if module.name.startswith(f"{PACKAGE}.physics")
        for node in module.tree.body
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_")
        for fault in faults(node, bibliography(), ERRORS)
    ]
    assert found == []


def test_the_example_for_contributors_keeps_the_form() -> None:
    text = (ROOT / "CONTRIBUTING.md").read_text(encoding="utf-8")
    blocks = re.findall(r"```python\n(.*?)```", text, flags=re.DOTALL)
    examples = [block for block in blocks if "\n    Parameters\n" in block]
    assert len(examples) == 1
    assert list(faults(first_function(examples[0]), bibliography(), ERRORS)) == []


def test_a_good_function_passes() -> None:
    assert list(faults(first_function(GOOD), KEYS, ERRORS)) == []


@pytest.mark.parametrize(
    ("old", "new", "fault"),
    [
        ("*, kL", "kL", "keyword-only"),
        ("gas: str)", "gas: str, **more: Real)", "keyword-only"),
        ("Flux of ozone into the liquid through the film at a bubble.", "", "first sentence"),
        ("    Valid\n    -----\n    kL 1e-5..1e-3 m/s; steady film.\n", "", "section Valid"),
        ("kL 1e-5..1e-3 m/s; steady film.", "", "empty section Valid"),
        ("    Notes\n    -----", "    Remarks\n    -------", "unknown section Remarks"),
        ("    Raises\n", "    Example\n    -------\n    >>> x\n\n    Raises\n", "another order"),
        ("    gas : str\n", "    carrier : str\n", "but takes"),
        (
            "    gas : str\n        Name of the carrier. [-]\n",
            "",
            "but takes ['kL', 'concentration', 'gas']",
        ),
        ("    flux : float\n        Into the liquid. [mol/(m2 s)]", "    A flux.", "returns"),
        ("film. [m/s]", "film.", "no [unit] at the end of kL"),
        ("film. [m/s]", "film. [smoot/s/banana]", "unknown unit"),
        ("other_1960", "nobody_1960", "not in the bibliography"),
        ("    NotApplicable\n        A", "    ValueError\n        A", "unknown error ValueError"),
        ("    NotApplicable\n        A coefficient below zero.", "    None", "without saying so"),
    ],
)
def test_a_planted_fault_is_seen(old: str, new: str, fault: str) -> None:
    assert old in GOOD
    found = list(faults(first_function(GOOD.replace(old, new, 1)), KEYS, ERRORS))
    assert any(fault in line for line in found), found


def test_a_function_without_docstring_is_seen() -> None:
    assert list(faults(first_function("def f(*, x): ..."), KEYS, ERRORS)) == ["has no docstring"]


@pytest.mark.parametrize(
    "unit",
    ["1", "-", "m", "K", "1/s", "m3/s", "mol/m3", "mol/(m2 s)", "Pa s", "J/mol/K", "W/(m K)",
     "mol/(m3 Pa)", "m6/(mol2 s)", "L/mol", "1/(m3 s)", "kg/J", "V", "m/s2"],
)  # fmt: skip
def test_units_are_known(unit: str) -> None:
    assert is_unit(unit)


@pytest.mark.parametrize("unit", ["banana", "mol/", "(m", "2 s", "vol%", "Nm3!"])
def test_no_units_are_refused(unit: str) -> None:
    assert not is_unit(unit)
