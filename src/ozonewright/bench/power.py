"""From what is typed, a recorded loop and perhaps a setting to the power of a generator."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

from ozonewright.bench.load import load_runs
from ozonewright.bench.notebook import file_text, labelled
from ozonewright.bench.output import outputs_of_runs
from ozonewright.bench.setting import setting_output
from ozonewright.bench.settled import settled_setting
from ozonewright.documents.loop import LONGEST, read_loop
from ozonewright.documents.typed import Typed, typed
from ozonewright.errors import AppError, Faults, Inconsistent, InputError, MissingValue
from ozonewright.notebook import Notebook
from ozonewright.questions.power import (
    Asked,
    Manley,
    MeasuredLoop,
    Power,
    measured_loop,
    power,
    power_of_runs,
)
from ozonewright.records.loop import Loop
from ozonewright.uncertain import Estimate, Measured
from ozonewright.units import Kind

FIELDS: dict[str, tuple[Kind, ...]] = {
    "plug": (Kind.POWER,),
    "energy": (Kind.ENERGY,),
    "time": (Kind.TIME,),
    "standby": (Kind.POWER,),
    "output": (Kind.MASS_RATE, Kind.AMOUNT_RATE),
    "discharge": (Kind.POWER,),
    "probe": (Kind.DIMENSIONLESS,),
    "capacitor": (Kind.CAPACITANCE,),
    "frequency": (Kind.FREQUENCY,),
    "dielectric": (Kind.CAPACITANCE,),
    "gap": (Kind.CAPACITANCE,),
    "gap_voltage": (Kind.VOLTAGE,),
    "voltage": (Kind.PEAK_VOLTAGE, Kind.RMS_VOLTAGE),
}
"""What may be typed, and its kinds."""
EXAMPLES = {
    "energy": "0.114 kWh", "time": "3 h 0 min", "probe": "1000 ± 3 %", "capacitor": "100 nF ± 5 %",
    "frequency": "1.0 kHz", "dielectric": "200 pF", "gap": "50 pF", "gap_voltage": "3.0 kV",
    "voltage": "8.0 kV peak",
}  # fmt: skip
MANLEY = ("frequency", "dielectric", "gap", "gap_voltage", "voltage")
WAYS = ("discharge", "loop", "voltage")
"""Ways to the discharge power, each by the field that names it; one is taken."""
WAVES = ("rises and falls", "flat-topped")
RATIO = re.compile(r"^\s*([\d.,]+)\s*:\s*1\b")


def power_of(texts: Mapping[str, str | None], notebook: Notebook | None = None) -> Power:
    """Return powers and yields from what is typed; all faults at once.

    `loop` is the text of a record, `blank` that of one below ignition; `setting` names runs of the
    notebook, whose output and plug power are taken where none is typed; `wave` is ``flat-topped``
    for a voltage that stands still at its top.
    """
    faults: list[AppError] = []
    read: dict[str, Measured] = {}
    for name, kinds in FIELDS.items():
        try:
            if text := (texts.get(name) or "").strip():
                read[name] = _typed(name, text, kinds).measured(name.replace("_", " "))
        except AppError as error:
            faults.append(error.at(name))
    faults += _gaps(texts)
    faults += _several(texts)
    loop = _loop(texts, read, faults)
    if faults:
        raise Faults(faults)
    asked = Asked(
        plug=read.get("plug"),
        energy=(read["energy"], read["time"]) if "energy" in read else None,
        standby=read.get("standby"),
        discharge=read.get("discharge"),
        manley=_manley(read) if "voltage" in read else None,
        loop=loop,
        rate=read.get("output"),
    )
    if setting := (texts.get("setting") or "").strip():
        asked = _of_setting(asked, setting, notebook)
    return power(asked)


def loop_text(path: Path, where: str = "loop") -> str:
    """Return the text of a record, which may not be endless."""
    if (size := path.stat().st_size) > LONGEST:
        raise InputError(
            "the record is far too long",
            where=where,
            got=f"{size / 1e6:.0f} MB",
            fix="Export a shorter piece: twenty to a hundred cycles are plenty.",
        )
    return file_text(path)


def _typed(name: str, text: str, kinds: tuple[Kind, ...]) -> Typed:
    if name == "probe":
        text = RATIO.sub(r"\1", text)
    least = {"gap": 0.0, "standby": 0.0}
    if name in least:
        return typed(text, kinds, least=0.0)
    return typed(text, kinds, above=0.0)


def _manley(read: Mapping[str, Measured]) -> Manley:
    return Manley(**{name: read[name] for name in MANLEY})


def _gaps(texts: Mapping[str, str | None]) -> list[AppError]:
    """Return what is missing beside what is typed."""
    sets = (("energy", "time"), MANLEY)
    found: list[AppError] = []
    for names in sets:
        given = [name for name in names if (texts.get(name) or "").strip()]
        found += [
            MissingValue(
                f"this is needed beside {given[0].replace('_', ' ')}",
                where=name,
                fix=f'Write it as "{EXAMPLES[name]}".',
            )
            for name in names
            if given and name not in given
        ]
    if (texts.get("blank") or "").strip() and not (texts.get("loop") or "").strip():
        found.append(
            MissingValue(
                "a blank is taken off a loop, and there is none",
                where="loop",
                fix="Give the record with the discharge on too.",
            )
        )
    return found


def _several(texts: Mapping[str, str | None]) -> list[AppError]:
    """Return what is told in two ways at once."""
    found: list[AppError] = []
    given = [name for name in WAYS if (texts.get(name) or "").strip()]
    found += [
        Inconsistent(
            "the discharge power is told in two ways", where=name, fix="Leave one of the two out."
        )
        for name in given[1:]
    ]
    if texts.get("plug") and texts.get("energy"):
        found.append(
            Inconsistent(
                "plug power is told in two ways",
                where="energy",
                fix="Leave out either the watts or the energy with its time.",
            )
        )
    return found


def _loop(
    texts: Mapping[str, str | None], read: Mapping[str, Measured], faults: list[AppError]
) -> MeasuredLoop | None:
    """Return what the record tells; its faults at their fields."""
    text = texts.get("loop") or ""
    if not text.strip():
        return None
    wave = texts.get("wave") or WAVES[0]
    try:
        if wave not in WAVES:
            raise InputError(
                "this wave is not known", where="wave", got=wave, fix=f'Write "{WAVES[1]}".'
            )
        record = read_loop(text)
        blank = _blank(texts, record.of)
        _check_instruments(record.of, texts)
        if "probe" not in read or (record.of == "sense" and "capacitor" not in read):
            return None
        capacitor = read.get("capacitor") if record.of == "sense" else None
        flat = wave == WAVES[1]
        return measured_loop(record, read["probe"], capacitor, blank=blank, flat_topped=flat)
    except Faults as several:
        faults += [_at_loop(fault) for fault in several]
    except AppError as error:
        faults.append(_at_loop(error))
    return None


def _blank(texts: Mapping[str, str | None], of: str) -> Loop | None:
    """Return the record below ignition, if there is one; its faults at its own field."""
    text = texts.get("blank") or ""
    if not text.strip():
        return None
    try:
        blank = read_loop(text)
        if blank.of != of:
            raise Inconsistent(
                "loop and blank are not of one kind",
                got=f"{of} and {blank.of}",
                fix="Record both with the same capacitor and the same columns.",
            )
    except Faults as several:
        raise Faults([fault.at("blank") for fault in several]) from several
    except AppError as error:
        raise error.at("blank") from error
    return blank


def _check_instruments(of: str, texts: Mapping[str, str | None]) -> None:
    faults: list[AppError] = []
    if not (texts.get("probe") or "").strip():
        faults.append(
            MissingValue(
                "how many volts at the tube is one volt of the record?",
                where="probe",
                fix='Write the ratio of the probe, "1000 ± 3 %", or "1 ± 3 %" if the record holds '
                "the volts of the tube already.",
            )
        )
    typed_capacitor = (texts.get("capacitor") or "").strip()
    if of == "sense" and not typed_capacitor:
        faults.append(
            MissingValue(
                "charge is this capacitance times the sense voltage",
                where="capacitor",
                fix=f'Write it as "{EXAMPLES["capacitor"]}".',
            )
        )
    if of == "charge" and typed_capacitor:
        faults.append(
            Inconsistent(
                "the record holds charge already",
                where="capacitor",
                got=typed_capacitor,
                fix="Leave it out, or name the column sense.",
            )
        )
    if faults:
        raise Faults(faults)


def _at_loop(fault: AppError) -> AppError:
    """Return a fault of the record at the field it was given in."""
    if fault.where.startswith(("probe", "capacitor", "wave", "loop", "blank")):
        return fault
    return fault.at("loop")


def _of_setting(asked: Asked, setting: str, notebook: Notebook | None) -> Asked:
    """Return what is asked with output and powers of a setting, where none is typed."""
    if notebook is None:
        raise MissingValue(
            "a setting stands in a notebook",
            where="setting",
            got=setting,
            fix="Name the notebook too: --notebook FILE.",
        )
    runs = load_runs([labelled(entry) for entry in notebook.entries(kind="run", setting=setting)])
    if asked.rate is None:
        outputs = outputs_of_runs(runs)
        settled = settled_setting(notebook, setting) if runs else None
        mean = setting_output(notebook, setting, outputs, settled).rate
        if isinstance(mean, Estimate):
            rate = Measured(mean.value, mean.u, "output", Kind.MASS_RATE, dof=max(mean.dof, 1.0))
            asked = replace(asked, rate=rate)
    made = [run for run in runs if run.discharge_on]
    if asked.plug is None and asked.energy is None:
        at_plug = [run.power for run in made if run.power and run.power_at == "plug"]
        asked = replace(asked, plug=power_of_runs(at_plug, "plug"))
    if asked.way is None:
        inside = [run.power for run in made if run.power and run.power_at == "discharge"]
        inside += [run.discharge_power for run in made if run.discharge_power]
        asked = replace(asked, discharge=power_of_runs(inside, "discharge"))
    return replace(asked, setting=setting)
