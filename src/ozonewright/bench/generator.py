"""From a notebook, or run documents, to the map of their generator."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from csv import writer
from dataclasses import dataclass
from functools import partial
from io import StringIO
from typing import TypeVar

import numpy as np

from ozonewright.bench.generator_place import PARTS, moved
from ozonewright.bench.load import Source, load_runs
from ozonewright.bench.notebook import runs_of
from ozonewright.bench.output import outputs_of_runs
from ozonewright.bench.tube import tube_run
from ozonewright.bench.walls import Reading, readings_of, with_walls
from ozonewright.documents.money import one_currency, price
from ozonewright.documents.temperature_log import read_temperature_log
from ozonewright.documents.typed import typed
from ozonewright.errors import (
    AppError,
    Faults,
    InputError,
    MissingValue,
    NotFound,
    nearest,
)
from ozonewright.notebook import Notebook
from ozonewright.questions.generator import (
    Generator,
    Price,
    Question,
    TubeRun,
    Wish,
    generator,
)
from ozonewright.questions.generator.answer import answer_of, fit_of
from ozonewright.questions.generator.changes import names
from ozonewright.questions.generator.fit import Fit
from ozonewright.questions.generator.map import OVER, Map, Over, drawn_map, mapped
from ozonewright.records.run import Run
from ozonewright.records.temperature_log import TemperatureLog
from ozonewright.references.constants import M_O3
from ozonewright.units import Kind, number, size

TEXTS = ("at", "prices", "concentration", "output", "gas_price", "energy_price")
T = TypeVar("T")
MAP_SIDE, MAP_REACH = 41, 4.0
"""Flows and powers of a map, from a quarter to four times those of the place."""
MAP_HEAD = ("output (g/h)", "low (g/h)", "high (g/h)", "concentration (g/Nm3)")


def generator_of_notebook(
    notebook: Notebook, setting: str | None, texts: Mapping[str, str | None]
) -> Generator:
    """Return the map of the generator whose runs stand in a notebook, or of one setting."""
    return answered(question_of_notebook(notebook, setting, texts))


def answered(question: Question) -> Generator:
    """Return the map of the generator that a question is about."""
    return generator(question)


@dataclass(frozen=True, slots=True)
class Mapped:
    """An answer with its maps, all from one fit."""

    question: Question
    fit: Fit
    answer: Generator
    maps: tuple[Map, ...]


def answered_with_maps(question: Question) -> Mapped:
    """Return the answer and what can be drawn of its map: over power, over tube temperature."""
    fit = fit_of(question)
    maps = (drawn_map(fit, question.point, over) for over in OVER)
    found = tuple(one for one in maps if one is not None)
    return Mapped(question, fit, answer_of(question, fit), found)


def question_of_notebook(
    notebook: Notebook, setting: str | None, texts: Mapping[str, str | None]
) -> Question:
    """Return what is asked of the runs of a notebook, or of one setting."""
    entries = notebook.entries(kind="run", setting=setting)
    if not entries:
        known = notebook.settings()
        raise NotFound(
            "no run of this setting stands in the notebook" if setting else "no run stands here",
            got=setting or "",
            fix=nearest(setting, known) if setting and known else "Add runs with flow and power.",
        )
    readings = {entry.label: readings_of(notebook, entry.label) for entry in entries}
    return question_of(runs_of(entries), setting, texts, readings)


def question_of_files(sources: Sequence[Source], texts: Mapping[str, str | None]) -> Question:
    """Return what is asked of run documents."""
    return question_of(load_runs(sources), None, texts)


def map_over(found: Mapped, over: Over) -> Map:
    """Return the drawn map over power or tube temperature."""
    for one in found.maps:
        if one.over == over:
            return one
    raise _no_power()


def _no_power() -> MissingValue:
    return MissingValue(
        "a map over power needs the power of a place",
        where="map",
        fix='State it: --at "power=38 W", or take --map-over wall.',
    )


def map_text(found: Mapped, over: Over = "power") -> str:
    """Return a table of output over flow, and power or tube temperature, as CSV.

    Over power it reaches a factor either way of the place, over temperature it is the drawn one.
    """
    if over == "wall":
        return _table(map_over(found, over), "tube temperature (°C)", Kind.TEMPERATURE, "°C")
    point = found.question.point
    if point.power is None:
        raise _no_power()
    factors = np.geomspace(1.0 / MAP_REACH, MAP_REACH, MAP_SIDE)
    around = mapped(found.fit, point, point.flow * factors, point.power * factors)
    return _table(around, "power (W)", Kind.POWER, "W")


def _table(found: Map, head: str, kind: Kind, unit: str) -> str:
    out = StringIO()
    lines = writer(out, lineterminator="\n")
    lines.writerow(("flow (NL/min)", head, *MAP_HEAD))
    for row, flow in enumerate(found.flows):
        for column, value in enumerate(found.values):
            rates = (found.rate, found.low, found.high)
            strength = found.strength[row, column]
            lines.writerow(
                [
                    f"{number(flow, Kind.NORMAL_FLOW, 'NL/min'):.5g}",
                    f"{number(value, kind, unit):.5g}",
                    *(f"{_grams(rate[row, column]):.5g}" for rate in rates),
                    f"{number(strength, Kind.NORMAL_CONCENTRATION, 'g/Nm3'):.5g}",
                ]
            )
    return out.getvalue()


def _grams(rate: float) -> float:
    return number(rate * M_O3, Kind.MASS_RATE, "g/h")


def question_of(
    runs: Sequence[Run],
    setting: str | None,
    texts: Mapping[str, str | None],
    readings: Mapping[str, Sequence[Reading]] | None = None,
) -> Question:
    """Return what is asked; every fault at once. `log` is the text of a temperature log."""
    log = _log(texts.get("log"))
    runs, ways = with_walls(runs, readings or {}, log)
    used: list[tuple[Run, TubeRun]] = []
    left_out: dict[str, str] = {}
    for place, (run, found) in enumerate(zip(runs, outputs_of_runs(runs), strict=True), start=1):
        if not run.discharge_on:
            continue
        made = tube_run(run, found, run.label or str(place))
        if isinstance(made, str):
            left_out[run.label or str(place)] = made
        else:
            used.append((run, made))
    if not used:
        raise MissingValue(
            "no run says enough to place it on a map",
            where=next(iter(left_out.values()), "run"),
            got="; ".join(f"{label} lacks {place}" for label, place in left_out.items()),
            fix="A run needs an output, flow (with its temperature and pressure) and feed; power "
            "and wall temperature sharpen it.",
        )
    last, made_last = used[-1]
    labels = {one.label for _, one in used}
    faults: list[AppError] = []
    placed = _collected(
        faults, "at", lambda: moved(made_last.point, last.gas, texts.get("at"), log)
    )
    prices = _collected(faults, "prices", lambda: _prices(texts.get("prices")))
    wishes = _wishes(texts, faults)
    if faults:
        raise Faults(faults)
    assert placed is not None
    point, pattern = placed
    return Question(
        runs=[one for _, one in used],
        point=point,
        setting=setting,
        asked=texts.get("at"),
        left_out=left_out,
        prices=prices or {},
        wishes=wishes,
        pattern=pattern,
        walls_from={label: way for label, way in ways.items() if label in labels},
    )


def _log(text: str | None) -> TemperatureLog | None:
    if not text:
        return None
    try:
        return read_temperature_log(text)
    except Faults as several:
        raise Faults([fault.at("log") for fault in several]) from several
    except AppError as error:
        raise Faults([error.at("log")]) from error


def _collected(faults: list[AppError], place: str, read: Callable[[], T]) -> T | None:
    try:
        return read()
    except Faults as several:
        faults += [fault.at(place) for fault in several]
    except AppError as error:
        faults.append(error.at(place))
    return None


def _prices(text: str | None) -> dict[str, Price]:
    """Return what changes cost, from ``oxygen feed=180 EUR, cooler wall=15 EUR``."""
    if not text or not text.strip():
        return {}
    read = {}
    for part in PARTS.split(text.strip()):
        name, _, value = (piece.strip() for piece in part.partition("="))
        if name not in names():
            raise InputError("no change has this name", got=name, fix=nearest(name, names()))
        read[name] = price(value)
    currency = one_currency(read)
    return {name: Price(one.amount, currency) for name, one in read.items()}


def _wishes(texts: Mapping[str, str | None], faults: list[AppError]) -> tuple[Wish, ...]:
    found: list[Wish | None] = []
    if text := texts.get("concentration"):
        found.append(_collected(faults, "concentration", partial(_strength, text)))
    if text := texts.get("output"):
        found.append(_collected(faults, "output", partial(_amount, text)))
    gas, energy = texts.get("gas_price"), texts.get("energy_price")
    if gas or energy:
        found.append(_collected(faults, "gas_price", lambda: _cost(gas, energy)))
    return tuple(wish for wish in found if wish is not None)


def _strength(text: str) -> Wish:
    return Wish("concentration", typed(text, (Kind.NORMAL_CONCENTRATION,), above=0.0).value)


def _amount(text: str) -> Wish:
    return Wish("output", typed(text, (Kind.MASS_RATE,), above=0.0).value)


def _cost(gas: str | None, energy: str | None) -> Wish:
    """Return the wish for the least cost of a gram, from prices of a Nm³ and a kWh."""
    if not gas or not energy:
        raise MissingValue(
            "the least cost needs the price of gas and that of energy",
            fix='Write --gas-price "9 EUR" (of a Nm³) and --energy-price "0.30 EUR" (of a kWh).',
        )
    read = {"gas": price(gas), "energy": price(energy)}
    return Wish(
        "cost",
        gas_price=read["gas"].amount / size(Kind.NORMAL_VOLUME, "Nm3"),
        energy_price=read["energy"].amount / size(Kind.ENERGY, "kWh"),
        currency=one_currency(read),
    )
