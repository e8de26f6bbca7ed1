"""What a temperature log and the fitted generator tell drift of a tube that warms.

Apart from `bench.drift`, because the fit loads much: fetched when a log is given.
"""

from __future__ import annotations

from math import hypot

from ozonewright.bench.duty_output import fitted_warmth
from ozonewright.bench.generator import question_of_notebook
from ozonewright.documents.temperature_log import read_temperature_log
from ozonewright.errors import AppError, Faults, MissingValue
from ozonewright.notebook import Notebook
from ozonewright.physics.generator.falling import cold_excess
from ozonewright.questions.drift import Known
from ozonewright.questions.duty import Bodies, fitted_bodies
from ozonewright.uncertain import propagate


def warmth_of_log(
    log: str, notebook: Notebook | None = None, setting: str | None = None
) -> dict[str, Known]:
    """Return the settling of the tube of a log and, with runs that tell it, its cold excess."""
    try:
        bodies = fitted_bodies(read_temperature_log(log))
    except Faults as several:
        raise Faults([fault.at("log") for fault in several]) from several
    except AppError as error:
        raise error.at("log") from error
    found = {"settling": _settling(bodies)}
    if notebook is not None:
        excess = _excess(notebook, setting, log, bodies)
        found |= {"excess": excess} if excess else {}
    return found


def _settling(bodies: Bodies) -> Known:
    """Return the time constant of the body that brings the largest rise."""
    largest = max(range(len(bodies.rises)), key=lambda place: bodies.rises[place].value)
    tau = bodies.time_constants[largest]
    return Known(tau.value, tau.u)


def _excess(notebook: Notebook, setting: str | None, log: str, bodies: Bodies) -> Known | None:
    """Return the cold output over the settled one, less 1, of the generator of the runs."""
    try:
        question = question_of_notebook(notebook, setting, {"log": log})
    except MissingValue:
        # no run says enough for a map: the excess stays as it was thought beforehand
        return None
    found = fitted_warmth(question, bodies)
    assert bodies.ambient is not None
    rise = sum(one.value for one in bodies.rises)
    u_rise = hypot(*(one.u for one in bodies.rises))
    away = bodies.ambient.value - found.at.value
    estimate = propagate(
        lambda coefficient: cold_excess(coefficient=coefficient, cold=away, rise=rise),
        {"coefficient": found.coefficient},
    )
    return Known(estimate.value, hypot(estimate.u, estimate.value * u_rise / rise))
