"""The sentence of every note code; one file per question, read when its first note is shown.

A code begins with the name of the file that holds its words (``setting-two-runs``). The codes of
the output carry no name: they are told wherever a run is.
"""

from collections.abc import Callable
from functools import cache
from importlib import import_module
from pkgutil import iter_modules

from ozonewright.results import Note


@cache
def _files() -> tuple[str, ...]:
    """Return the names of the files, the longest first, so that a name may begin with another."""
    return tuple(sorted((name for _, name, _ in iter_modules(__path__)), key=len, reverse=True))


@cache
def _file_of(code: str) -> str:
    names = (name for name in _files() if code.startswith(f"{name.replace('_', '-')}-"))
    return next(names, "output")


def words_of(code: str) -> Callable[..., str]:
    """Return what makes the words of a code."""
    found: Callable[..., str] = import_module(f"{__name__}.{_file_of(code)}").SENTENCES[code]
    return found


def sentence(note: Note) -> str:
    """Return the words of a note."""
    return words_of(note.code)(**note.values)
