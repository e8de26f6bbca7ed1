"""The room of the invented workshop, as a document."""

from __future__ import annotations

from pathlib import Path

FOLDER = Path(__file__).parent


def room_files() -> dict[str, str]:
    """Return the text of every room document by its path inside the demo's folder."""
    return {
        f"rooms/{path.name}": path.read_text(encoding="utf-8")
        for path in sorted(FOLDER.glob("*.toml"))
    }
