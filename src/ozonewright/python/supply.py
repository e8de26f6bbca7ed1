"""Questions about gas, warmth and what the bottles take up."""

from __future__ import annotations

from ozonewright.bench import absorber as absorber_bench
from ozonewright.bench import duty as duty_bench
from ozonewright.bench import gas_use as gas_use_bench
from ozonewright.bench import power as power_bench
from ozonewright.bench.load import Source
from ozonewright.python.answers import Answer, known
from ozonewright.questions.absorber import Absorber, SimulatedRun
from ozonewright.questions.duty import Duty
from ozonewright.questions.gas_use import GasUse
from ozonewright.questions.power import Power
from ozonewright.show.absorber import absorber_text
from ozonewright.show.absorber_run import run_text
from ozonewright.show.duty import duty_text
from ozonewright.show.gas_use import gas_use_text
from ozonewright.show.power import power_text
from ozonewright.show.sheet.absorber import absorber_section, simulated_section
from ozonewright.show.sheet.duty import duty_section
from ozonewright.show.sheet.gas_use import gas_use_section
from ozonewright.show.sheet.power import power_section

SUPPLY = (*gas_use_bench.FIELDS, *gas_use_bench.PRICES, "gas", "gas_at_rest")
TIMER = (*duty_bench.FIELDS, "gas", "log", "solvent")
METER = (*power_bench.FIELDS, "loop", "blank", "wave")
OF_A_NOTEBOOK = ("setting", "at", "readings")
"""What a timer takes besides, where a notebook tells the output or the temperatures."""


def gas_use(**supply: str) -> Answer[GasUse]:
    """Return how long a cylinder lasts, and what an hour, a gram and a mmol cost.

    ``cylinder``, ``pressure`` and ``flow`` are needed; each is named as the command's option is.
    """
    known(supply, SUPPLY)
    return gas_use_answer(gas_use_bench.use_of_gas(supply))


def gas_use_answer(found: GasUse) -> Answer[GasUse]:
    """Return a gas use as an answer."""
    return Answer(found, gas_use_text, gas_use_section)


def duty(**timer: str) -> Answer[Duty]:
    """Return how warm a tube on a timer becomes, and what it delivers per hour of the clock.

    ``on``, ``off`` and ``time_constant`` are needed; ``log``, the text of a table of
    temperatures, serves in place of the time constant.
    """
    known(timer, TIMER)
    return duty_answer(duty_bench.timer(timer))


def duty_answer(found: Duty) -> Answer[Duty]:
    """Return what a timer does as an answer."""
    return Answer(found, duty_text, duty_section)


def power(**read: str) -> Answer[Power]:
    """Return plug power, what the gas gets of it, and the grams of a kilowatt-hour.

    ``plug``, or ``energy`` and ``time``; ``loop`` is the text of a record, with ``probe`` and
    ``capacitor``. Read docs/power.md before anything is connected to high voltage.
    """
    known(read, METER)
    return power_answer(power_bench.power_of(read))


def power_answer(found: Power) -> Answer[Power]:
    """Return powers as an answer."""
    return Answer(found, power_text, power_section)


def absorber(rig: Source, **asked: str) -> Answer[Absorber]:
    """Return how much of the ozone the bottles of a rig take up, and what slips past.

    ``output="0.6 g/h"`` is needed; what was measured is named as the command's options are.
    """
    known(asked, absorber_bench.FIELDS)
    return Answer(absorber_bench.uptake(rig, asked), absorber_text, absorber_section)


def flask(rig: Source, reaction: Source, **asked: str) -> Answer[SimulatedRun]:
    """Return a reaction in the flask of a rig, minute by minute.

    ``output``, ``flow`` and ``bubble`` go before what the reaction states.
    """
    known(asked, absorber_bench.SIMULATED)
    found = absorber_bench.run(rig, reaction, asked, None)
    return Answer(found, run_text, simulated_section)
