"""The errors a person can meet, grouped by what they can do about it.

::

    AppError
      InputError     mend what was typed
        UnitError, MissingValue, OutOfBounds, Inconsistent, Faults
      ModelError     the question can't be answered from these values
        NotConverged, NotApplicable
      DataError      a shipped table has no answer
        UnknownSubstance, UnknownSource, NoDataInRange
      StoreError     the notebook file
        NotFound, SchemaTooNew, Busy, Damaged, Unwritable
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from difflib import get_close_matches
from typing import Self


class AppError(Exception):
    """A fault that is told to the person: what is wrong, where, what was given, how to mend it."""

    def __init__(self, what: str, *, where: str = "", got: str = "", fix: str) -> None:
        super().__init__(what, where, got, fix)
        if not fix.strip():
            raise ValueError("an error without a mend helps nobody: fill in fix")
        self.what, self.where, self.got, self.fix = what, where, got, fix

    def at(self, place: str) -> Self:
        """Return the same error, placed under `place` of the document."""
        # a fault of the second row of a list stands at "[2].…"
        joint = "" if self.where.startswith("[") else "."
        where = f"{place}{joint}{self.where}" if self.where else place
        return type(self)(self.what, where=where, got=self.got, fix=self.fix)

    def __str__(self) -> str:
        head = f"{self.where}: {self.what}" if self.where else self.what
        given = f" (given: {self.got})" if self.got else ""
        return f"{head}{given}. {self.fix}"


class InputError(AppError):
    """Something typed must be mended."""


class UnitError(InputError):
    """A quantity could not be read: number, unit or uncertainty."""


class MissingValue(InputError):
    """A value without which there is no answer at all."""


class OutOfBounds(InputError):
    """A value that can't be, such as a negative volume."""


class Inconsistent(InputError):
    """Two values that can't both be true."""


class Faults(InputError):
    """Every fault of one document or form, reported together."""

    def __init__(self, faults: Iterable[AppError]) -> None:
        self.faults = tuple(faults)
        count = len(self.faults)
        super().__init__(
            f"{count} faults" if count != 1 else "1 fault",
            fix="Mend each place named and try again.",
        )

    def __iter__(self) -> Iterator[AppError]:
        return iter(self.faults)

    def __str__(self) -> str:
        return "\n".join(str(fault) for fault in self.faults)


class ModelError(AppError):
    """The values are readable, yet the model gives no answer for them."""


class NotConverged(ModelError):
    """A solver stopped without a solution."""


class NotApplicable(ModelError):
    """A formula asked outside the limits within which it means anything."""


class DataError(AppError):
    """A shipped table has no such entry."""


class UnknownSubstance(DataError):
    """A name that stands in no shipped table."""


class UnknownSource(DataError):
    """A citation key that the bibliography does not hold."""


class NoDataInRange(DataError):
    """The table ends before the value asked for."""


class StoreError(AppError):
    """The notebook file could not be read or written."""


class NotFound(StoreError):
    """No such file or entry."""


class SchemaTooNew(StoreError):
    """The notebook was written by a newer ozonewright."""


class Busy(StoreError):
    """Another program holds the notebook."""


class Damaged(StoreError):
    """The file is no notebook, or its pages are broken."""


class Unwritable(StoreError):
    """The disk is full or the file may not be written."""


def nearest(name: str, known: Iterable[str]) -> str:
    """Return a sentence that names the nearest three of `known` for a mistyped `name`."""
    names = sorted(known)
    lowered = {candidate.lower(): candidate for candidate in reversed(names)}
    close = get_close_matches(name.lower(), lowered, n=3, cutoff=0.5)
    if close:
        return "Nearest: " + ", ".join(lowered[match] for match in close) + "."
    if not names:
        return "None is kept or known yet."
    return "Known: " + ", ".join(names[:12]) + (", …" if len(names) > 12 else "") + "."
