"""Reaction documents for tests, as tables; what they hold is invented."""

from __future__ import annotations

import copy
import tomllib
from pathlib import Path
from typing import Any

EXAMPLE = tomllib.loads(
    (Path(__file__).parents[2] / "docs" / "examples" / "reaction.toml").read_text("utf-8")
)
FEED = {
    "feed": {"oxygen": "93 vol%", "argon": "4 vol%", "nitrogen": "3 vol%"},
    "flow": "0.50 NL/min",
}


def table(
    substrate: dict[str, Any] | list[dict[str, Any]] | None = None,
    gas: dict[str, Any] | None = None,
    **changes: Any,
) -> dict[str, Any]:
    """Return the reaction of the docs with fields changed; None removes one."""
    out = copy.deepcopy(EXAMPLE)
    if substrate is not None:
        out["substrate"] = substrate if isinstance(substrate, list) else [substrate]
    if gas is not None:
        out["gas"] = gas
    for name, value in changes.items():
        if value is None:
            out["reaction"].pop(name, None)
        else:
            out["reaction"][name] = value
    return out
