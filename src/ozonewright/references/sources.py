"""The bibliography: what every source key stands for, and how much of it was read."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache

from ozonewright.errors import UnknownSource
from ozonewright.references.tables import FOLDER, named


@dataclass(frozen=True, slots=True)
class Source:
    """One text that a figure, a formula or an agreement case rests on."""

    key: str
    authors: str
    title: str
    where: str
    read: str
    year: int | None = None
    doi: str = ""
    isbn: str = ""

    def __str__(self) -> str:
        date = f" ({self.year})" if self.year else ""
        number = f" doi:{self.doi}" if self.doi else f" ISBN {self.isbn}" if self.isbn else ""
        return f"{self.authors}{date}: {self.title}. {self.where}.{number}"


@cache
def bibliography() -> dict[str, Source]:
    """Return every source by its key, in alphabetical order."""
    entries = tomllib.loads((FOLDER / "bibliography.toml").read_text(encoding="utf-8"))
    return {key: Source(key=key, **entries[key]) for key in sorted(entries)}


def source(key: str) -> Source:
    """Return the source of that key.

    Raises
    ------
    UnknownSource
        No such key; the nearest three are told.
    """
    return named(bibliography(), key, "the bibliography has no such key", UnknownSource)


MEANING = {
    "full text": "read in full",
    "abstract": "abstract, first page or extract read",
    "secondary": "read as quoted by another text or data library",
    "memory": "from memory, not re-read",
}


def sources_page() -> str:
    """Return the documentation page that lists the bibliography (``docs/sources.md``)."""
    lines = [
        "# Sources",
        "",
        "Made from `src/ozonewright/references/bibliography.toml`; edit there, then",
        '`python -c "from ozonewright.references import sources_page; '
        "print(sources_page(), end='')\" > docs/sources.md`.",
        "",
        "| key | source | how much was read |",
        "|---|---|---|",
    ]
    for entry in bibliography().values():
        lines.append(f"| `{entry.key}` | {entry} | {MEANING[entry.read]} |")
    return "\n".join(lines) + "\n"
