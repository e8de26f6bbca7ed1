"""Text with a unit on one side, SI floats on the other."""

from ozonewright.units.reader import Reading, parse, read
from ozonewright.units.table import (
    CELSIUS_ZERO,
    NORMAL_MOLAR_VOLUME,
    STANDARD_ATMOSPHERE,
    Kind,
    number,
    size,
    slug,
)

__all__ = [
    "CELSIUS_ZERO",
    "NORMAL_MOLAR_VOLUME",
    "STANDARD_ATMOSPHERE",
    "Kind",
    "Reading",
    "number",
    "parse",
    "read",
    "size",
    "slug",
]
