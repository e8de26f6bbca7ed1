"""The gas lines of the invented workshop, as documents."""

from __future__ import annotations

from pathlib import Path

FOLDER = Path(__file__).parent


def rig_files() -> dict[str, str]:
    """Return the text of every rig document by its path inside the demo's folder."""
    return {
        f"rigs/{path.name}": path.read_text(encoding="utf-8")
        for path in sorted(FOLDER.glob("*.toml"), key=lambda path: len(path.name))
    }
