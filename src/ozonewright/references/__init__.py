"""Shipped figures with their sources: constants, tolerances, procedure limits, bibliography.

The agreement cases are in `ozonewright.references.cases`.
"""

from ozonewright.references.constants import constant
from ozonewright.references.glassware import tolerance
from ozonewright.references.limits import limit
from ozonewright.references.sources import Source, source, sources_page
from ozonewright.references.tables import EVIDENCE, Datum

__all__ = [
    "EVIDENCE",
    "Datum",
    "Source",
    "constant",
    "limit",
    "source",
    "sources_page",
    "tolerance",
]
