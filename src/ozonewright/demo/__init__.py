"""The worked example: invented runs of known truth, written down and answered."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from ozonewright.bench.output import outputs
from ozonewright.demo.book import keep
from ozonewright.demo.readings import SEED, run_files
from ozonewright.demo.truth import MARK, TRUTH, Planned, Setting, Truth
from ozonewright.demo.written import reaction_files, rig_files, room_files
from ozonewright.errors import Inconsistent, InputError
from ozonewright.questions.output import Output
from ozonewright.units import Kind, parse

__all__ = [
    "MARK",
    "SEED",
    "TRUTH",
    "Demo",
    "Planned",
    "Setting",
    "Truth",
    "demo",
    "keep",
    "reaction_files",
    "rig_files",
    "room_files",
    "run_files",
    "store",
]

SHOWN = 3
"""So many names of files tell which folder it is."""


@dataclass(frozen=True, slots=True)
class Demo:
    """What the example answers: every run, and the air runs as they read without field blank."""

    outputs: tuple[Output, ...]
    without_field_blank: tuple[Output, ...]
    """Shortest on-time first."""


def demo(folder: Path) -> Demo:
    """Return the answers for the run documents of a folder."""
    files = [folder / "runs" / f"{run.label}.toml" for run in TRUTH.runs]
    blanks = {run.label for run in TRUTH.runs if not run.discharge}
    biased = {setting.name for setting in TRUTH.settings if parse(setting.surplus, Kind.MASS) > 0.0}
    bare = [
        folder / "runs" / f"{run.label}.toml"
        for run in sorted(TRUTH.runs, key=lambda run: parse(run.typed, Kind.TIME))
        if run.setting in biased and run.label not in blanks
    ]
    return Demo(outputs(files), outputs(bare))


def store(folder: Path, files: Mapping[str, str]) -> None:
    """Write the files; refuse, before anything is written, to change one that is there.

    Raises
    ------
    Inconsistent
        A file of that name holds something else.
    InputError
        The folder can't be written to.
    """
    try:
        changed = [name for name, text in files.items() if _differs(folder / name, text)]
        if changed:
            raise Inconsistent(
                "these files are there already and hold something else",
                where=str(folder),
                got=", ".join(changed[:SHOWN]) + (", …" if len(changed) > SHOWN else ""),
                fix="Give an empty or a new folder, or move them away.",
            )
        for name, text in files.items():
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(text.encode())
    except OSError as error:
        raise InputError(
            "the demo can't be written here",
            where=str(folder),
            got=error.strerror or "",
            fix="Give a folder that you may write to.",
        ) from error


def _differs(path: Path, text: str) -> bool:
    return path.exists() and (not path.is_file() or path.read_bytes() != text.encode())
