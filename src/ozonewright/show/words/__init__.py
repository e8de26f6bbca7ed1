"""The sentence of every note code; one file per question, read when its first note is shown.

A code begins with the name of the file that holds its words (``setting-two-runs``). The codes of
the output carry no name: they are told wherever a run is.
"""

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


def sentence(note: Note) -> str:
    """Return the words of a note."""
    words = import_module(f"{__name__}.{_file_of(note.code)}")
    found: str = words.SENTENCES[note.code](**note.values)
    return found
