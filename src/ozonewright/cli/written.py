"""A sheet or a drawing written to a file."""

from __future__ import annotations

from pathlib import Path

from ozonewright.errors import InputError


def write(path: Path, text: str, what: str = "the sheet") -> None:
    """Write a text that a person asked for as a file."""
    try:
        path.write_text(text, encoding="utf-8")
    except OSError as error:
        raise InputError(
            f"{what} can't be written",
            where=str(path),
            got=error.strerror or "",
            fix="Choose a folder that you may write to.",
        ) from error
