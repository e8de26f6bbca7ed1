"""From readings at the plug and at the tube to powers, and what a kilowatt-hour brings."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from ozonewright.errors import Inconsistent, MissingValue
from ozonewright.physics.generator.electrical import (
    discharge_power_manley_1943,
    gap_capacitance,
    ignition_voltage,
    peak_of_sine,
)
from ozonewright.physics.generator.energy import highest_yield
from ozonewright.questions.power.loop import MeasuredLoop
from ozonewright.questions.power.notes import next_notes, notes_of, unknowns_of
from ozonewright.questions.power.result import LoopPoint, LoopRow, Power
from ozonewright.questions.power.working import working_of
from ozonewright.references.constants import M_O3, O3_FORMATION_ENTHALPY
from ozonewright.results import Share
from ozonewright.uncertain import Measured, Propagated, propagate
from ozonewright.units import Kind, number

Calculation = Callable[[Mapping[str, Any]], Any]
Outputs = dict[str, Calculation]
SOURCES = {"loop": ("manley_1943", "pipa_2019", "peeters_2018", "common_electrical"),
           "Manley's equation": ("manley_1943", "pipa_2019")}  # fmt: skip
THINNED = 4
"""Points of the mean cycle for each that is told."""
METHODS = {
    "loop": "area of the loop of charge against voltage, over whole cycles",
    "Manley's equation": "discharge_power_manley_1943",
}


@dataclass(frozen=True, slots=True)
class Manley:
    """What Manley's equation takes."""

    frequency: Measured
    dielectric: Measured
    gap: Measured
    gap_voltage: Measured
    voltage: Measured
    """Peak, or rms of what is taken as a sine."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What is known; None where nobody stated it."""

    plug: Measured | None = None
    energy: tuple[Measured, Measured] | None = None
    """In place of it what the meter counted, and in what time. [J, s]"""
    standby: Measured | None = None
    discharge: Measured | None = None
    manley: Manley | None = None
    loop: MeasuredLoop | None = None
    rate: Measured | None = None
    """Ozone. [kg/s or mol/s]"""
    setting: str | None = None

    @property
    def way(self) -> str | None:
        """How the discharge power is known."""
        if self.loop is not None:
            return "loop"
        if self.manley is not None:
            return "Manley's equation"
        return "reading" if self.discharge is not None else None


def power(asked: Asked) -> Power:
    """Return both powers, what the supply passes on, and what a kilowatt-hour brings."""
    if asked.manley is not None:
        _refuse_unlit(asked.manley)
    inputs = _inputs(asked)
    if not inputs:
        raise MissingValue(
            "nothing is said of any power",
            where="plug",
            fix='Read the meter at the plug and type "38 W".',
        )
    outputs = _outputs(asked)
    found = propagate(lambda **v: {name: of(v) for name, of in outputs.items()}, inputs)
    _refuse_standby(asked, found)
    row = _loop_row(asked.loop) if asked.loop is not None else None
    way = asked.way
    told = {name: found.get(name) for name in
            ("plug", "standby", "discharge", "supply_efficiency", "supply_efficiency_less_standby",
             "ignition", "rate", "yield_plug", "yield_discharge", "share_plug",
             "share_discharge")}  # fmt: skip
    return Power(
        **told,
        discharge_by=way,
        limit=_limit(),
        loop=row,
        budget=_budget(found),
        at_least=any(
            one.basis == "from digits" for name, one in inputs.items() if name != "standby"
        ),
        setting=asked.setting,
        working=tuple(working_of(asked, found, row, _limit())),
        notes=tuple(notes_of(asked, found, row)),
        next=tuple(next_notes(asked, found)),
        unknowns=tuple(unknowns_of(asked)),
        sources=tuple(dict.fromkeys((*SOURCES.get(way or "", ()), "ruscic_2004"))),
        methods=(METHODS[way],) if way in METHODS else (),
    )


def _limit() -> float:
    return float(highest_yield(formation_enthalpy=O3_FORMATION_ENTHALPY))


def _inputs(asked: Asked) -> dict[str, Measured]:
    energy, time = asked.energy or (None, None)
    every: dict[str, Measured | None] = {
        "plug": asked.plug,
        "energy": energy,
        "time": time,
        "standby": asked.standby,
        "reading": asked.discharge,
        "rate": asked.rate,
    }
    if asked.loop is not None:
        every |= {
            "loop": asked.loop.power,
            "probe": asked.loop.probe,
            "capacitor": asked.loop.capacitor,
            "angle": asked.loop.angle,
        }
    if (manley := asked.manley) is not None:
        every |= {
            "frequency": manley.frequency,
            "dielectric": manley.dielectric,
            "gap": manley.gap,
            "gap_voltage": manley.gap_voltage,
            "voltage": manley.voltage,
        }
    return {name: value for name, value in every.items() if value is not None}


def _outputs(asked: Asked) -> Outputs:
    """Return what can be worked out, each from the inputs by their names."""
    out: Outputs = {}
    if asked.plug is not None:
        out["plug"] = lambda v: 1.0 * v["plug"]
    elif asked.energy is not None:
        out["plug"] = lambda v: v["energy"] / v["time"]
    if asked.standby is not None:
        out["standby"] = lambda v: 1.0 * v["standby"]
    if (discharge := _discharge(asked)) is not None:
        out["discharge"] = discharge
    if asked.manley is not None:
        out["ignition"] = lambda v: ignition_voltage(**_capacitors(v))
    _supply(out)
    if (rate := asked.rate) is not None:
        per = M_O3 if rate.kind is Kind.AMOUNT_RATE else 1.0
        out["rate"] = lambda v: per * v["rate"]
        _yields(out)
    return out


def _supply(out: Outputs) -> None:
    if "plug" not in out or "discharge" not in out:
        return
    plug, discharge = out["plug"], out["discharge"]
    out["supply_efficiency"] = lambda v: discharge(v) / plug(v)
    if (standby := out.get("standby")) is not None:
        out["supply_efficiency_less_standby"] = lambda v: discharge(v) / (plug(v) - standby(v))


def _yields(out: Outputs) -> None:
    limit = _limit()

    def per(of: Calculation, by: float) -> Calculation:
        return lambda v: out["rate"](v) / of(v) / by

    for basis in ("plug", "discharge"):
        if basis in out:
            out[f"yield_{basis}"] = per(out[basis], 1.0)
            out[f"share_{basis}"] = per(out[basis], limit)


def _discharge(asked: Asked) -> Calculation | None:
    """Return the power in the gas from what it is known by."""
    if (loop := asked.loop) is not None:
        return lambda v: _net(loop, v) * _scale(loop, v)
    if asked.manley is not None:
        rms = asked.manley.voltage.kind is Kind.RMS_VOLTAGE
        return lambda v: discharge_power_manley_1943(
            frequency=v["frequency"],
            **_capacitors(v),
            peak_voltage=peak_of_sine(rms_voltage=v["voltage"]) if rms else v["voltage"],
        )
    return None if asked.discharge is None else lambda v: 1.0 * v["reading"]


def _capacitors(v: Mapping[str, Any]) -> dict[str, Any]:
    return {
        "dielectric_capacitance": v["dielectric"],
        "gap_capacitance": v["gap"],
        "gap_voltage": v["gap_voltage"],
    }


def _net(loop: MeasuredLoop, v: Mapping[str, Any]) -> Any:
    """Return the power of the record less that of its blank, at the ratios stated."""
    return v["loop"] - v["angle"] * loop.reactive if "angle" in v else v["loop"]


def _scale(loop: MeasuredLoop, v: Mapping[str, Any]) -> Any:
    """Return how much larger an energy is at other ratios than at those stated."""
    scale = v["probe"] / loop.probe.value
    return scale if loop.capacitor is None else scale * v["capacitor"] / loop.capacitor.value


def _refuse_unlit(manley: Manley) -> None:
    """Refuse a voltage at which nothing burns."""
    rms = manley.voltage.kind is Kind.RMS_VOLTAGE
    peak = peak_of_sine(rms_voltage=manley.voltage.value) if rms else manley.voltage.value
    least = ignition_voltage(
        dielectric_capacitance=manley.dielectric.value,
        gap_capacitance=manley.gap.value,
        gap_voltage=manley.gap_voltage.value,
    )
    if peak <= least:
        kilovolts = [number(float(each), Kind.VOLTAGE, "kV") for each in (peak, least)]
        raise Inconsistent(
            "nothing burns at this voltage by these capacitances",
            where="voltage",
            got=f"{kilovolts[0]:.3g} kV peak; burning needs {kilovolts[1]:.3g} kV",
            fix="Look at peak, peak-to-peak and rms, at both capacitances and the gap voltage.",
        )


def _refuse_standby(asked: Asked, found: Propagated) -> None:
    if asked.standby is not None and "plug" in found and asked.standby.value >= found["plug"].value:
        raise Inconsistent(
            "standby power is not below the power with the discharge on",
            where="standby",
            got=f"{asked.standby.value:.4g} W of {found['plug'].value:.4g} W",
            fix="Standby is what the meter reads with all running but the discharge.",
        )


def _budget(found: Propagated) -> tuple[Share, ...]:
    if "discharge" not in found:
        return ()
    return tuple(
        Share(input=one.input, share=one.share_percent / 100.0)
        for one in found["discharge"].budget
        if one.share_percent
    )


def _loop_row(loop: MeasuredLoop) -> LoopRow:
    """Return the loop's own facts with the doubt of probe and capacitor."""
    facts = loop.shape.facts
    inputs = {"probe": loop.probe, "loop": loop.power, **facts}
    if loop.capacitor is not None:
        inputs["capacitor"] = loop.capacitor
    if loop.angle is not None:
        inputs["angle"] = loop.angle
    found = propagate(lambda **v: dict(_loop_facts(loop, v)), inputs)
    return LoopRow(
        cycles=loop.cycles,
        frequency=loop.frequency,
        per_degree=loop.per_degree,
        outline=tuple(
            LoopPoint(voltage=float(v), charge=float(q))
            for v, q in zip(
                loop.shape.voltage[::THINNED], loop.shape.charge[::THINNED], strict=True
            )
        ),
        corners=tuple(LoopPoint(voltage=v, charge=q) for v, q in loop.shape.corners),
        **dict(found),
    )


def _loop_facts(loop: MeasuredLoop, v: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    probe = v["probe"] / loop.probe.value
    yield "energy", _net(loop, v) * _scale(loop, v) / loop.frequency
    yield "peak", v["peak"] * probe
    if "dielectric" not in v:
        return
    # charge over voltage: as the capacitor, and against the probe
    ratio = _scale(loop, v) / probe**2
    dielectric, cell = v["dielectric"] * ratio, v["cell"] * ratio
    gap = gap_capacitance(dielectric_capacitance=dielectric, cell_capacitance=cell)
    of_tube = {
        "dielectric_capacitance": dielectric,
        "gap_capacitance": gap,
        "gap_voltage": v["gap_voltage"] * probe,
    }
    yield "dielectric", dielectric
    yield "cell", cell
    yield "gap", gap
    yield "gap_voltage", v["gap_voltage"] * probe
    yield "ignition", ignition_voltage(**of_tube)
    yield (
        "manley",
        discharge_power_manley_1943(
            frequency=loop.frequency, **of_tube, peak_voltage=v["peak"] * probe
        ),
    )
