"""The documents of the invented workshop as they are written: gas lines, room, reaction."""

from __future__ import annotations

from pathlib import Path

FOLDER = Path(__file__).parent


def rig_files() -> dict[str, str]:
    """Return the text of every rig document by its path inside the demo's folder."""
    return _written("rigs")


def room_files() -> dict[str, str]:
    """Return the text of every room document by its path inside the demo's folder."""
    return _written("rooms")


def reaction_files() -> dict[str, str]:
    """Return the text of every reaction document by its path inside the demo's folder."""
    return _written("reactions")


def _written(kind: str) -> dict[str, str]:
    """Return the documents of a folder; the shortest name first, for that rig comes first."""
    files = sorted((FOLDER / kind).glob("*.toml"), key=lambda path: len(path.name))
    return {f"{kind}/{path.name}": path.read_text(encoding="utf-8") for path in files}
