"""Results as JSON."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from ozonewright.results import Row, plain
from ozonewright.show.words import sentence


def as_json(value: Row | Sequence[Row], name: str = "runs") -> str:
    """Return one result as an object, several as a list under `name`."""
    if isinstance(value, Row):
        return _dumped(plain(value, sentence))
    return _dumped({name: [plain(one, sentence) for one in value]})


def _dumped(value: dict[str, Any]) -> str:
    return json.dumps(value, ensure_ascii=False, indent=2, allow_nan=False)
