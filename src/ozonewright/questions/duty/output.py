"""What comes out while the tube warms and cools."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ozonewright.errors import Inconsistent
from ozonewright.physics.generator.duty import peak_share, trough_share
from ozonewright.physics.generator.falling import first_mean_share, mean_share, output_at
from ozonewright.questions.duty.timer import Timer, series
from ozonewright.units import Kind, number


def weighed(share: Any, v: Mapping[str, Any], **times: Any) -> Any:
    """Return a share of the rise of all bodies together, each by what it brings."""
    taus, rises = series(v, "tau"), series(v, "rise")
    weights = [rise / sum(rises) for rise in rises] or [1.0]
    return sum(
        weight * share(time_constant=tau, **times)
        for weight, tau in zip(weights, taus, strict=True)
    )


def output_of_share(timer: Timer, v: Mapping[str, Any], share: Any) -> Any:
    """Return the output at a share of the continuous rise. [kg/s]"""
    assert timer.falling is not None
    rise = sum(series(v, "rise"))
    places = {"cold": v["ambient"], "warm": v["ambient"] + rise}
    at = v["at"] if "at" in v else places[str(timer.falling.at)]
    return output_at(
        rate=v["rate"] * timer.per,
        coefficient=v["coefficient"],
        temperature=v["ambient"] + share * rise,
        reference=at,
    )


def outputs(timer: Timer, v: Mapping[str, Any]) -> dict[str, Any]:
    """Return the output of a pattern: while on, per clock hour, and where it begins and ends."""
    on, off = v["on"], v["off"]
    if not timer.falls:
        rate = v["rate"] * timer.per
        return {"ozone_rate": rate * on / (on + off)}
    times = {"on_time": on, "off_time": off}
    mean = weighed(mean_share, v, **times)
    while_on = output_of_share(timer, v, mean)
    first = output_of_share(timer, v, weighed(first_mean_share, v, on_time=on))
    return {
        "rate_on": while_on,
        "ozone_rate": while_on * on / (on + off),
        "rate_start": output_of_share(timer, v, weighed(trough_share, v, **times)),
        "rate_end": output_of_share(timer, v, weighed(peak_share, v, **times)),
        "rate_cold": output_of_share(timer, v, 0.0),
        "rate_steady": output_of_share(timer, v, 1.0),
        "first_ozone": first * on,
    }


def output_of_pattern(timer: Timer, on: float, off: float) -> float:
    """Return ozone per time of the clock of another pattern; its duty alone without an output."""
    if timer.rate is None:
        return on / (on + off)
    v: dict[str, Any] = {name: value.value for name, value in timer.inputs().items()}
    return float(outputs(timer, v | {"on": on, "off": off})["ozone_rate"])


def refuse_below_nothing(timer: Timer) -> None:
    """Refuse a coefficient under which the tube would give nothing before it is warm."""
    if not timer.falls:
        return
    v: dict[str, Any] = {name: value.value for name, value in timer.inputs().items()}
    for share in (0.0, 1.0):
        if output_of_share(timer, v, share) <= 0.0:
            raise Inconsistent(
                "with this coefficient no ozone would be left between cold and warm",
                where="temperature_coefficient",
                got=f"{number(v['coefficient'], Kind.PER_KELVIN, '%/K'):.3g} %/K",
                fix="A discharge loses 0.1 to 1 % per kelvin (from memory): mend it, or the rise.",
            )
