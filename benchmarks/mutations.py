"""Ten thousand damaged documents: each ends in an answer or a clear error."""

from __future__ import annotations

import sys
from collections import Counter
from pathlib import Path

from figure import Figure

from ozonewright.bench.output import outputs
from ozonewright.documents.load import read_text
from ozonewright.errors import AppError
from ozonewright.show.output import outputs_text
from ozonewright.show.plain import as_json

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from property.mutations import damaged  # the tests' folder joins the path above

COUNT = 10_000
FIRST_SEED = 1_000_000
"""Other seeds than the tests'."""


def end_of(seed: int) -> str:
    """Return how one damaged document ends."""
    document = damaged(seed)
    try:
        found = outputs([read_text(document) if isinstance(document, str) else document])
        as_json(found)
        outputs_text(found)
    except AppError:
        return "error"
    except Exception as fault:  # whatever it is, it is what we count
        print(f"seed {seed}: {type(fault).__name__}: {fault}")
        return "trace"
    return "answer"


def main() -> list[Figure]:
    """Count the ends."""
    ends = Counter(end_of(seed) for seed in range(FIRST_SEED, FIRST_SEED + COUNT))
    return [
        Figure("damaged documents", COUNT, "documents"),
        Figure("ended in an answer", ends["answer"], "documents"),
        Figure("ended in a clear error", ends["error"], "documents"),
        Figure("ended in a trace", ends["trace"], "documents", at_most=0),
    ]
