"""The output of a setting; what drift has determined of it comes from `bench.settled`."""

from __future__ import annotations

from collections.abc import Sequence

from ozonewright.errors import NotFound, nearest
from ozonewright.notebook import Notebook
from ozonewright.questions.output import Output
from ozonewright.questions.setting import RunPoint, SettingOutput, Settled
from ozonewright.questions.setting import setting_output as mean_of
from ozonewright.uncertain import Estimate


def setting_output(
    notebook: Notebook, name: str, outputs: Sequence[Output], settled: Settled | None = None
) -> SettingOutput:
    """Return the output of a setting from the outputs of its runs and what drift has determined."""
    if name not in notebook.settings():
        raise NotFound(
            "no run of this setting stands in the notebook",
            got=name,
            fix=nearest(name, notebook.settings()),
        )
    return mean_of_runs(name, outputs, settled)


def mean_of_runs(
    name: str, outputs: Sequence[Output], settled: Settled | None = None
) -> SettingOutput:
    """Return the same of runs that need not be in a notebook."""
    points = [_point(found) for found in outputs if found.discharge == "on" and found.rate]
    blank_known = any(found.discharge == "off" for found in outputs)
    return mean_of(name, points, blank_known=blank_known, settled=settled)


def _point(found: Output) -> RunPoint:
    rate, ozone = found.rate, found.ozone
    assert isinstance(rate, Estimate)
    return RunPoint(
        label=found.label or "",
        on_time=found.on_time.value if isinstance(found.on_time, Estimate) else None,
        ozone=ozone.value if isinstance(ozone, Estimate) else None,
        u_ozone=ozone.u if isinstance(ozone, Estimate) else 0.0,
        rate=rate.value,
        u_rate=rate.u,
        budget=rate.budget,
    )
