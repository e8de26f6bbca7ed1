"""An answer in the hands of a Python user: its text, its HTML, its numbers by their keys."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from hashlib import sha256
from importlib import import_module
from pathlib import Path
from typing import Any, Generic, TypeVar

from ozonewright.errors import InputError, nearest
from ozonewright.results import Row, plain
from ozonewright.show.ink import PAPER, picture
from ozonewright.show.sheet.blocks import Figure, Section
from ozonewright.show.sheet.html import section_html
from ozonewright.show.words import sentence

Asked = TypeVar("Asked", bound=Row)
LOOK = f"""\
.oz {{ background: {PAPER["paper"]}; color: {PAPER["ink"]}; padding: 0.5rem 1rem; }}
.oz h2, .oz h3, .oz h4 {{ font-size: 1em; margin: 0.8em 0 0.3em; color: inherit; }}
.oz .answer {{ font-size: 1.7em; font-weight: 600; margin: 0 0 0.2em; }}
.oz .beside, .oz .soft, .oz figcaption {{ color: {PAPER["soft"]}; font-weight: 400; }}
.oz table {{ border-collapse: collapse; margin: 0.6em 0; color: inherit; }}
.oz caption {{ text-align: left; font-weight: 600; caption-side: top; color: inherit; }}
.oz th, .oz td {{ text-align: left; font-weight: 400; padding: 0.15em 0.9em 0.15em 0; }}
.oz .number {{ text-align: right; }}
.oz ul.notes {{ list-style: none; padding: 0; }}
.oz svg {{ max-width: 100%; height: auto; }}
"""


@dataclass(frozen=True)
class Answer(Mapping[str, Any], Generic[Asked]):
    """One answer.

    ``print(answer)`` is what the command prints, a notebook cell shows what a page shows, and
    ``answer["rate_g_per_h"]`` is a number of the JSON object, whose keys end in their unit.
    ``answer.result`` is the frozen result in SI with its estimates and budget.
    """

    result: Asked
    _text: Callable[[Asked], str]
    _section: Callable[[Asked], Section]

    @cached_property
    def values_by_key(self) -> dict[str, Any]:
        """The object that ``--json`` prints."""
        return plain(self.result, sentence)

    def __getitem__(self, key: str) -> Any:
        return self.values_by_key[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self.values_by_key)

    def __len__(self) -> int:
        return len(self.values_by_key)

    def __str__(self) -> str:
        return self._text(self.result).rstrip("\n")

    def __repr__(self) -> str:
        return str(self).partition("\n")[0]

    def save_figures(self, folder: str | Path) -> list[Path]:
        """Write the figures of this answer: SVG, PNG, and the numbers behind them (CSV)."""
        save: Callable[[Path, Section], list[Path]]
        save = import_module("ozonewright.report.figures").save_figures
        return save(Path(folder), self._section(self.result))

    def _repr_html_(self) -> str:
        section = self._section(self.result)
        blocks = tuple(
            replace(one, svg=picture(one.svg), narrow="") if isinstance(one, Figure) else one
            for one in section.blocks
        )
        mark = "oz-" + sha256(str(self).encode()).hexdigest()[:12]
        drawn = section_html(replace(section, blocks=blocks), mark)
        return f'<div class="oz"><style>{LOOK}</style>{drawn}</div>'


def known(given: Mapping[str, str], names: Iterable[str]) -> None:
    """Refuse a name that no fact has: left unread it would count as never said."""
    names = tuple(names)
    for name in given:
        if name not in names:
            raise InputError(
                "this question knows no such fact", where=name, fix=nearest(name, names)
            )
