"""Damaged documents of every kind that the program reads, and the question behind each.

The tests put a few through, the benchmark a hundred thousand. Damage is that of `mutations`; a
trial goes all the way: reader, question, words and JSON.
"""

from __future__ import annotations

import json
import random
import tempfile
import tomllib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from math import exp
from pathlib import Path
from typing import Any

from ozonewright.bench.absorber import run as simulated_run
from ozonewright.bench.absorber import uptake
from ozonewright.bench.claim import claim_of_files
from ozonewright.bench.clearance import clearance_of
from ozonewright.bench.clock import now
from ozonewright.bench.compare import compare_files
from ozonewright.bench.count import count_so_far
from ozonewright.bench.drift import drift_of
from ozonewright.bench.duty import timer
from ozonewright.bench.gas_line import answer as gas_line
from ozonewright.bench.gate import ask as gate
from ozonewright.bench.generator import answered, question_of_files
from ozonewright.bench.notebook import add_table
from ozonewright.bench.output import outputs
from ozonewright.bench.reaction import reaction_plan
from ozonewright.bench.rig import rig_of
from ozonewright.bench.room import ask as room
from ozonewright.cli.log import ASKED
from ozonewright.documents.load import read_text
from ozonewright.documents.table import as_one, read_csv
from ozonewright.errors import AppError, Faults
from ozonewright.notebook import Notebook
from ozonewright.show.absorber import absorber_text
from ozonewright.show.absorber_run import run_text
from ozonewright.show.claim import claim_text
from ozonewright.show.clearance import clearance_text
from ozonewright.show.compare import comparison_text
from ozonewright.show.count import count_text
from ozonewright.show.drawing import drawing_file
from ozonewright.show.drift import drift_text
from ozonewright.show.duty import duty_text
from ozonewright.show.gas_line import gas_line_text
from ozonewright.show.gate import gate_text
from ozonewright.show.generator import generator_text
from ozonewright.show.output import outputs_text
from ozonewright.show.plain import as_json
from ozonewright.show.reaction import reaction_text
from ozonewright.show.reaction_sheet import reaction_sheet
from ozonewright.show.room import asked_text
from property.mutations import ROOT, garbled, mutated
from property.mutations import sources as runs
from unit.gate_world import world

Table = dict[str, Any]
DEMO = ROOT / "src" / "ozonewright" / "demo"
TITRANT = '[titration.titrant]\nconcentration = "0.0510 mol/L"\n'
ASSAYS = (
    '[run]\nlabel = "U1"\non_time = "240 s ± 1.5 s"\n[gas]\nfeed = "oxygen"\n'
    'flow = "0.80 L/min ± 4 %"\ntemperature = "22 °C"\npressure = "101.3 kPa"\n'
    '[ultraviolet]\nabsorbance = "0.690 ± 0.005"\npath = "1.00 mm ± 0.005 mm"\n'
    'temperature = "0 °C"\npressure = "101.325 kPa"\n',
    '[run]\non_time = "60 s ± 1 s"\n[triiodide]\nabsorbances = ["0.264"]\nblank = "0.000"\n'
    'path = "1.00 cm"\nvolume = "50 mL"\npotassium_iodide = "20 g/L"\n',
    '[run]\n[indigo]\nblank = "0.900"\nabsorbance = "0.400"\npath = "5.00 cm"\n'
    'sample = "90 mL"\nmade_up_to = "100 mL"\n',
)
ENTRIES = (
    '[entry]\nwhat = "discharge on"\nof = "C1"\nwhen = 2026-05-09T10:20:00\nby = "hand"\n',
    '[entry]\nwhat = "peroxide test"\nof = "vanillin"\nvalue = "negative"\n'
    'when = 2026-05-09T12:20:00\nmethod = "strip"\n',
    '[entry]\nwhat = "wall temperature"\nof = "C1"\nvalue = "31.5 °C"\n'
    'when = 2026-05-09T10:25:00\nremark = "invented"\n',
    '[entry]\nwhat = "titre of bottle 1"\nof = "C1"\nvalue = "28.46 mL"\n',
)
LINES = (
    "label,setting,on-time (s),titre (mL),titrant (mol/L)\nC1,a,240,28.46,0.0510\n"
    "C2,a,480,56.02,0.0510\nC3,a,120,14.09,0.0510\n",
    "on-time (min);rate (g/h)\n2;0,92\n4;0,81\n8;0,75\n",
)


def _warming() -> str:
    """Return the log of a tube that warms by 30 K with a time constant of 4.6 min, and cools."""
    warm = [20 + 30 * (1 - exp(-minute / 4.6)) for minute in range(16)]
    cool = [20 + (warm[-1] - 20) * exp(-minute / 4.6) for minute in range(1, 16)]
    lines = [
        f"{minute},{reading:.1f},{'on' if minute < 16 else 'off'}"
        for minute, reading in enumerate(warm + cool)
    ]
    return "\n".join(["time (min), temperature (°C), discharge", *lines]) + "\n"


@dataclass(frozen=True)
class Kind:
    """One kind of document: whole ones, and all that is done with one of them."""

    whole: Callable[[], list[str | Table]]
    ask: Callable[[Any], Iterator[str]]
    share: int
    """How many of a thousand documents are of this kind; less of those that take long to answer."""


def _output(document: str | Table) -> Iterator[str]:
    found = outputs([_table(document)])
    yield as_json(found)
    yield outputs_text(found)


def _gas_line(document: str | Table) -> Iterator[str]:
    table = _table(document)
    yield drawing_file(rig_of(table))
    found = gas_line(table)
    yield as_json(found)
    yield gas_line_text(found)


def _room(document: str | Table) -> Iterator[str]:
    texts = {"output": "0.6 g/h", "slip": "5 %", "leak": "1 %", "oxygen": "1 L/min"}
    found = room(_table(document), texts)
    yield as_json([one for one in (found.ozone, found.oxygen) if one is not None])
    yield asked_text(found.ozone, found.oxygen, found.detector)


def _reaction(document: str | Table) -> Iterator[str]:
    found = reaction_plan(_table(document))
    yield as_json(found)
    yield reaction_text(found)
    yield reaction_sheet(found)


def _gate(document: str | Table) -> Iterator[str]:
    rig, room, reaction = _three(document)
    found = gate(rig, room, reaction, {"flow": "0.8 L/min"})
    yield as_json(found)
    yield gate_text(found)


def _entry(document: str | Table) -> Iterator[str]:
    table = _table(document)
    book = _book()
    try:
        with book.atomic():
            (entry,) = add_table(book, table)
            of = str(entry.data.get("entry", {}).get("of") or "C1")
            found = count_so_far(book, of, now(), ASKED)
            yield as_json(found)
            yield count_text(found)
            yield clearance_text(clearance_of(book, "vanillin", now().wall))
            raise Undone
    except Undone:
        pass


class Undone(Exception):
    """Takes an entry out of the notebook of the trials again."""


def _lines(document: str | Table) -> Iterator[str]:
    assert isinstance(document, str)
    yield from _output(as_one(read_csv(document)))


def _log(document: str | Table) -> Iterator[str]:
    assert isinstance(document, str)
    found = timer({"on": "6 min", "off": "9 min", "output": "0.6 g/h", "log": document})
    yield as_json(found)
    yield duty_text(found)


def _series(document: str | Table) -> Iterator[str]:
    table = _table(document)
    found = compare_files([table])
    yield as_json(found)
    yield comparison_text(found)


def _claim(document: str | Table) -> Iterator[str]:
    found = claim_of_files([_table(document)], "4 g/h")
    yield as_json(found)
    yield claim_text(found)


def _generator(document: str | Table) -> Iterator[str]:
    found = answered(question_of_files([_table(document)], {}))
    yield as_json(found)
    yield generator_text(found)


def _drift(document: str | Table) -> Iterator[str]:
    found = drift_of([_table(document)])
    yield as_json(found)
    yield drift_text(found)


def _absorber(document: str | Table) -> Iterator[str]:
    rig, _, reaction = _three(document)
    found = uptake(rig, {"output": "0.6 g/h"})
    yield as_json(found)
    yield absorber_text(found)
    course = simulated_run(rig, reaction, {}, None)
    yield as_json(course)
    yield run_text(course)


def _three(document: str | Table) -> tuple[Table, Table, Table]:
    """Return the tables of a rig, a room and a reaction, as three files would give them."""
    table = _table(document)
    rig, room, reaction = (table.get(name) for name in ("rig", "room", "reaction"))
    return tuple(one if isinstance(one, dict) else {} for one in (rig, room, reaction))


def _table(document: str | Table) -> Table:
    return read_text(document) if isinstance(document, str) else document


def _several() -> str:
    one = "[[run]]\n" + 'label = "{}"\nsetting = "{}"\non_time = "{} s"\ncollected = "{} mg"\n'
    gas = 'flow = "0.80 L/min"\ntemperature = "22 °C"\npressure = "101.3 kPa"\n'
    feed = 'feed = "oxygen"\n'
    runs = [("A1", "air", 120, 9.1), ("A2", "air", 240, 18.0), ("A3", "air", 360, 27.4),
            ("O1", "oxygen", 120, 18.4), ("O2", "oxygen", 240, 36.1)]  # fmt: skip
    return (
        f"[gas]\n{feed}{gas}"
        + '[electrical]\npower = "41 W"\n'
        + "".join(one.format(*run) for run in runs)
    )


def _of_one_setting() -> str:
    return _several().replace('"air"', '"oxygen"')


def _in_water() -> Table:
    """Return a rig whose bottles all say what is in them, and a reaction in it."""
    found = world()
    for part in found["rig"]["part"]:
        if part["kind"] in ("bottle", "tail bottle"):
            part["liquid"] = "water"
    return found


def _demo(folder: str, name: str) -> str:
    return (DEMO / folder / f"{name}.toml").read_text(encoding="utf-8")


@cache
def _book() -> Notebook:
    """Return a notebook with a run and a reaction, for what is logged of them."""
    folder = Path(tempfile.mkdtemp(prefix="ozonewright-trials-"))
    book = Notebook.create(folder / "trials.sqlite", "invented")
    book.add("reaction", world()["reaction"])
    book.add("run", tomllib.loads(runs()[0]))
    return book


KINDS: dict[str, Kind] = {
    "run": Kind(lambda: [*runs()], _output, 640),
    "other assay": Kind(lambda: [*ASSAYS], _output, 100),
    "rig": Kind(
        lambda: [world()["rig"], _demo("rigs", "workshop"), _demo("rigs", "workshop-pump-air")],
        _gas_line,
        70,
    ),
    "room": Kind(lambda: [world()["room"], _demo("rooms", "workshop")], _room, 40),
    "reaction": Kind(
        lambda: [
            world()["reaction"],
            (ROOT / "docs" / "examples" / "reaction.toml").read_text(encoding="utf-8"),
        ],
        _reaction,
        60,
    ),
    "rig, room and reaction": Kind(lambda: [world()], _gate, 10),
    "bench event": Kind(lambda: [*ENTRIES], _entry, 40),
    "table of runs": Kind(lambda: [*LINES], _lines, 24),
    "temperature log": Kind(lambda: [_warming()], _log, 10),
    "runs of two settings": Kind(lambda: [_several()], _series, 1),
    "runs and a label": Kind(lambda: [_of_one_setting()], _claim, 1),
    "runs of a generator": Kind(lambda: [_several()], _generator, 1),
    "runs of one setting": Kind(lambda: [_of_one_setting()], _drift, 1),
    "rig and reaction": Kind(lambda: [_in_water()], _absorber, 2),
}
"""By the name in the benchmark's table."""
ONLY_TEXT = {"table of runs", "temperature log"}


def damaged(kind: str, seed: int) -> str | Table:
    """Return a damaged document of a kind."""
    chance = random.Random(f"{kind} {seed}")
    whole = chance.choice(KINDS[kind].whole())
    if kind in ONLY_TEXT or (isinstance(whole, str) and chance.random() < 0.25):
        assert isinstance(whole, str)
        return garbled(whole, chance)
    table = tomllib.loads(whole) if isinstance(whole, str) else whole
    for _ in range(chance.choice((1, 1, 1, 2, 4))):
        table = mutated(table, chance)
    return table


def end_of(kind: str, document: str | Table) -> str:
    """Return how a document ends: in an answer, in an error that says what to do, or in neither.

    A trace is not caught here: whoever calls wants to see it.
    """
    try:
        texts = list(KINDS[kind].ask(document))
    except AppError as error:
        several = error.faults if isinstance(error, Faults) else (error,)
        return "error" if several and all(one.what and one.fix for one in several) else "no mend"
    json.loads(texts[0] if kind not in ("rig",) else texts[1])
    return "answer" if all(text.strip() for text in texts) else "no words"
