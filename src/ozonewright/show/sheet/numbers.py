"""Names of files and the numbers behind figures."""

from __future__ import annotations

import re

from ozonewright.show.numbers import significant
from ozonewright.units import Kind, number

LONGEST = 80
"""Letters of a file name."""
FIGURES = 6
"""Significant figures of the numbers behind a picture."""


def file_name(told: str) -> str:
    """Return the name of a file for a figure: small letters, digits and hyphens."""
    return re.sub(r"[^a-z0-9.]+", "-", told.lower()).strip("-.")[:LONGEST].rstrip("-.") or "figure"


def figure_text(value: float | None, kind: Kind, unit: str) -> str:
    """Return a number behind a picture in its unit; what can't be known is left empty.

    Its minus is that of a keyboard, for programs read it.
    """
    if value is None:
        return ""
    return significant(number(value, kind, unit), FIGURES).replace("\u2212", "-")
