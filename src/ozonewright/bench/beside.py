"""What a report asks besides: further questions of a setting or a reaction, each by itself.

A question that the notebook holds too little for is kept as the error that says what is missing,
so that a report can tell it; nothing is filled in.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

from ozonewright.bench.absorber import uptake
from ozonewright.bench.claim import claim_of_setting
from ozonewright.bench.clock import now
from ozonewright.bench.compare import compare_settings
from ozonewright.bench.count import Asked, answered_anew, count_so_far
from ozonewright.bench.duty import timer
from ozonewright.bench.gas_use import use_of_gas
from ozonewright.bench.generator import generator_of_notebook
from ozonewright.bench.log import events_of, logged
from ozonewright.bench.notebook import document_of, entry_of
from ozonewright.bench.planned import planned_reaction
from ozonewright.bench.room import load_room
from ozonewright.bench.settled import settled_setting
from ozonewright.bench.subject import MOST_RUNS
from ozonewright.bench.walls import readings_of
from ozonewright.errors import AppError, MissingValue, OutOfBounds
from ozonewright.notebook import Entry, Notebook
from ozonewright.questions.output import Output
from ozonewright.questions.reaction.result import ReactionPlan
from ozonewright.questions.room.answer import room_answer
from ozonewright.questions.room.release import releases
from ozonewright.questions.setting import SettingOutput
from ozonewright.results import Result
from ozonewright.uncertain import Estimate, Measured
from ozonewright.units import Kind, number, size

MOST_OTHERS = 4
"""Settings that one is compared with; more have the command."""
COUNTED = Asked(answered_anew, planned_reaction, settled_setting)


@dataclass(frozen=True, slots=True)
class Beside:
    """One further question: its answer, or why there is none."""

    question: str
    """The word of its command."""
    found: Result | None = None
    trouble: AppError | None = None


@dataclass(frozen=True, slots=True)
class Known:
    """What is known of a setting before its further questions are asked."""

    name: str
    runs: Sequence[Output]
    mean: SettingOutput | None
    last: Entry
    """Its last run with the discharge on, if there is any."""
    rig: Entry | None
    """The rig which that run names, as it was pinned."""

    @property
    def output(self) -> str:
        """The output of the setting as text."""
        if self.mean is None or self.mean.rate is None:
            raise MissingValue(
                "the setting has no output",
                where="output",
                fix="Give a run its on-time and titres.",
            )
        return _text(self.mean.rate, Kind.MASS_RATE, "g/h")

    @property
    def flow(self) -> str:
        """The feed of its last run that tells one, as text."""
        for run in reversed(self.runs):
            if isinstance(run.feed_flow, Estimate):
                return _text(run.feed_flow, Kind.NORMAL_FLOW, "NL/min")
        raise MissingValue(
            "no run of the setting tells its flow", where="gas.flow",
            fix="State it, with its temperature and pressure.",
        )  # fmt: skip

    def document_of_rig(self) -> dict[str, Any]:
        """Return the document of the rig."""
        if self.rig is None:
            raise MissingValue(
                "the last run names no rig of the notebook", where="run.rig",
                fix="Keep the gas line as a rig, and name it in the run.",
            )  # fmt: skip
        return document_of(self.rig)


def of_setting(
    notebook: Notebook, known: Known, others: Sequence[str] | None, wanted: frozenset[str]
) -> tuple[Beside, ...]:
    """Return the further questions of a setting; with `others` it is compared, unless None."""
    asked: dict[str, Callable[[], Result]] = {
        "claim": lambda: _claim(notebook, known),
        "generator": lambda: generator_of_notebook(notebook, known.name, {}),
        "absorber": lambda: uptake(known.document_of_rig(), _sent_in(known)),
        "duty": lambda: _duty(notebook, known),
        "gas-use": lambda: _gas_use(known),
    }
    found: list[Beside] = []
    if others is not None and "compare" in wanted:
        found += _compared(notebook, known, others)
    found += [_tried(word, asked[word]) for word in asked if word in wanted]
    return tuple(found)


def of_reaction(
    notebook: Notebook, entry: Entry, plan: ReactionPlan | None, wanted: frozenset[str]
) -> tuple[Beside, ...]:
    """Return the further questions of a reaction: what was delivered, what people would breathe."""
    asked: dict[str, Callable[[], Result]] = {}
    if events_of(logged(notebook, entry.label)):
        asked["log"] = lambda: count_so_far(notebook, entry.label, now(), COUNTED)
    asked["room"] = lambda: _room(notebook, entry, plan)
    return tuple(_tried(word, ask) for word, ask in asked.items() if word in wanted)


def _tried(word: str, ask: Callable[[], Result]) -> Beside:
    try:
        return Beside(word, ask())
    except AppError as error:
        return Beside(word, trouble=error)


def _compared(notebook: Notebook, known: Known, others: Sequence[str]) -> Iterator[Beside]:
    for other in others[:MOST_OTHERS]:
        yield _tried("compare", partial(_beside, notebook, known.name, other))
    if not others:
        nothing = MissingValue(
            "the notebook holds no other setting", fix="Measure one: change one thing, repeat."
        )
        yield Beside("compare", trouble=nothing)
    if more := others[MOST_OTHERS:]:
        left = OutOfBounds(
            f"compared with {MOST_OTHERS} settings alone", got=", ".join(more[:MOST_OTHERS]),
            fix=f'Ask: ozonewright compare --notebook FILE "{known.name}" "{more[0]}".',
        )  # fmt: skip
        yield Beside("compare", trouble=left)


def _beside(notebook: Notebook, name: str, other: str) -> Result:
    for one in (name, other):
        count = len(notebook.entries(kind="run", setting=one))
        if count > MOST_RUNS:
            raise OutOfBounds(
                "more runs than a report compares", where=one, got=str(count),
                fix=f'Ask: ozonewright compare --notebook FILE "{name}" "{other}".',
            )  # fmt: skip
    return compare_settings(notebook, name, other)


def _claim(notebook: Notebook, known: Known) -> Result:
    tubes = _parts(known.document_of_rig(), "discharge tube")
    claimed = [part["claimed"] for part in tubes if "claimed" in part]
    if len(claimed) != 1:
        raise MissingValue(
            "the rig does not say what its generator is sold or known with", where="part.claimed",
            got=", ".join(claimed),
            fix='Write claimed = "4 g/h" in its discharge tube, or ask: ozonewright claim.',
        )  # fmt: skip
    return claim_of_setting(notebook, known.name, claimed[0])


def _sent_in(known: Known) -> dict[str, str]:
    """Return what goes into the bottles; a guard share that was measured corrects the model."""
    texts = {"output": known.output, "flow": known.flow}
    shares = [run.guard_share for run in known.runs if isinstance(run.guard_share, Estimate)]
    if shares:
        texts["guard_share"] = f"{_text(shares[-1], Kind.SHARE, '%')} points"
    return texts


def _duty(notebook: Notebook, known: Known) -> Result:
    run = known.last.data["run"]
    if not run.get("rest_before") or not run.get("on_time"):
        raise MissingValue(
            "its last run does not tell a pattern of on and rest", where="run.rest_before",
            fix="State on_time and rest_before, or ask: ozonewright duty.",
        )  # fmt: skip
    if not readings_of(notebook, known.last.label):
        raise MissingValue(
            "no temperature of the tube was logged of its last run", where=known.last.label,
            fix=f'Log some: ozonewright log --of "{known.last.label}" "tube temperature" '
            '--value "41 °C".',
        )  # fmt: skip
    texts = {"on": run["on_time"], "off": run["rest_before"], "output": known.output}
    return timer(texts | {"readings": known.last.label}, notebook)


def _gas_use(known: Known) -> Result:
    cylinders = _parts(known.document_of_rig(), "cylinder")
    full = [part for part in cylinders if part.get("volume") and part.get("pressure")]
    if len(full) != 1:
        raise MissingValue(
            "the rig has no cylinder of known volume and pressure",
            got=f"{len(cylinders)} cylinders" if cylinders else "",
            fix='State volume = "10 L" and pressure = "150 bar gauge" of it, or ask: ozonewright '
            "gas-use.",
        )  # fmt: skip
    gas = full[0].get("gas")
    texts = {
        "cylinder": full[0]["volume"], "pressure": full[0]["pressure"], "flow": known.flow,
        "output": known.output,
    }  # fmt: skip
    return use_of_gas(texts | ({"gas": gas} if isinstance(gas, str) else {}))


def _parts(rig: Mapping[str, Any], kind: str) -> list[Mapping[str, Any]]:
    return [part for part in rig.get("part", ()) if part.get("kind") == kind]


def _room(notebook: Notebook, entry: Entry, plan: ReactionPlan | None) -> Result:
    named = entry.data["reaction"].get("room")
    if not named:
        raise MissingValue(
            "the reaction names no room", where="reaction.room",
            fix='Keep the room, and write room = "workshop" in the reaction.',
        )  # fmt: skip
    room = load_room(document_of(entry_of(notebook, "room", named)))
    if plan is None or not isinstance(plan.output, Estimate):
        raise MissingValue(
            "nothing says how much ozone there is to get out", where="reaction.output",
            fix="State the output of the reaction, or its setting.",
        )  # fmt: skip
    output = Measured(plan.output.value, plan.output.u, "output", Kind.MASS_RATE)
    slip = None
    if isinstance(plan.uptake, Estimate):
        slip = Measured(1.0 - plan.uptake.value, plan.uptake.u, "slip", Kind.SHARE)
    return room_answer(room, tuple(releases(output=output, slip=slip)))


def _text(value: Estimate, kind: Kind, unit: str) -> str:
    """Return an estimate as a person would type it, to more digits than it is sure of."""
    return f"{number(value.value, kind, unit):.8g} {unit} ± {value.u / size(kind, unit):.3g}"
