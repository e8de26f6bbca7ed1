"""Further questions of a setting or a reaction on a sheet, and those that have no answer."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from ozonewright.bench.beside import Beside
from ozonewright.errors import AppError, Faults
from ozonewright.show.pages import Remark
from ozonewright.show.sheet.absorber import absorber_section
from ozonewright.show.sheet.blocks import Notes, Section
from ozonewright.show.sheet.claim import claim_section
from ozonewright.show.sheet.comparison import comparison_section
from ozonewright.show.sheet.count import count_section
from ozonewright.show.sheet.duty import duty_section
from ozonewright.show.sheet.gas_use import gas_use_section
from ozonewright.show.sheet.generator import generator_section
from ozonewright.show.sheet.room import room_section

SECTIONS: Mapping[str, Callable[[Any, int], Section]] = {
    "compare": comparison_section,
    "claim": claim_section,
    "generator": generator_section,
    "absorber": absorber_section,
    "duty": duty_section,
    "gas-use": gas_use_section,
    "log": count_section,
    "room": room_section,
}
"""By the word of the command."""
LEVEL = 2


def beside_sections(of: str, asked: Sequence[Beside]) -> Iterator[Section]:
    """Yield a section for each answer, and one that tells what was not determined and why."""
    for one in asked:
        if one.found is not None:
            yield SECTIONS[one.question](one.found, LEVEL)
    lines = tuple(_open(one.question, one.trouble) for one in asked if one.trouble is not None)
    if lines:
        notes = Notes("The notebook holds too little, or too much, for these", lines)
        yield Section(f"Not determined of {of}", "open", (notes,), level=LEVEL)


def _open(question: str, trouble: AppError) -> Remark:
    return Remark("doubt", "◪", question, f"not determined: {trouble_text(trouble)}")


def trouble_text(trouble: AppError) -> str:
    """Return what is missing and how to mend it, in one line."""
    faults = trouble.faults if isinstance(trouble, Faults) else (trouble,)
    return " ".join(" ".join(str(fault).split()) for fault in faults)
