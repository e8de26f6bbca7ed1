"""From the truth to what a person would have written down: the assay run in reverse.

Reading noise comes from a seed, so that the same seed gives the same files.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields
from datetime import timedelta
from random import Random

from ozonewright.demo.truth import MARK, TRUTH, Planned, Truth
from ozonewright.physics.assay.forward import (
    ozone_delivered,
    ozone_in_bottle,
    standard_titre_expected,
    titre_expected,
)
from ozonewright.references.constants import M_KIO3, M_O3, THIOSULFATE_PER_IODATE
from ozonewright.units import Kind, number, parse, read

SEED = 7
BOTTLES = (1, 2)


def run_files(seed: int = SEED, truth: Truth = TRUTH) -> dict[str, str]:
    """Return the text of every run document, and of the truth, by its path inside the folder."""
    noise = Random(seed)
    standard = _read_off(noise, truth, _standard_titre(truth))
    files = {
        f"runs/{run.label}.toml": _document(run, truth, standard, noise, seed) for run in truth.runs
    }
    return {**files, "truth.toml": _truth_file(truth, seed)}


def _mass(text: str) -> float:
    return parse(text, Kind.MASS)


def _standard_titre(truth: Truth) -> float:
    return float(
        standard_titre_expected(
            mass=_mass(truth.iodate),
            purity=parse(truth.iodate_purity, Kind.MASS_FRACTION),
            molar_mass=M_KIO3,
            equivalents=THIOSULFATE_PER_IODATE,
            flask=parse(truth.flask, Kind.VOLUME),
            aliquot=parse(truth.aliquot, Kind.VOLUME),
            concentration=parse(truth.titrant, Kind.CONCENTRATION),
        )
    )


def titres(run: Planned, truth: Truth, noise: Random) -> Iterator[str]:
    """Yield the titre of each bottle as the burette reads it."""
    (setting,) = (one for one in truth.settings if one.name == run.setting)
    on_time = parse(run.really or run.typed, Kind.TIME)
    on_time += noise.gauss(0.0, parse(truth.timing, Kind.TIME))
    scatter = 1.0 + noise.gauss(0.0, parse(truth.scatter, Kind.SHARE))
    production = parse(setting.output, Kind.MASS_RATE) / M_O3 * scatter
    delivered = ozone_delivered(
        production=production if run.discharge else 0.0,
        on_time=on_time,
        loss=parse(run.loss, Kind.SHARE),
    )
    concentration = parse(truth.titrant, Kind.CONCENTRATION)
    for place in BOTTLES:
        ozone = ozone_in_bottle(
            delivered=delivered, capture=parse(setting.capture, Kind.SHARE), place=place
        )
        # The surplus is stated as ozone; it uses as much thiosulfate as that ozone would.
        titre = titre_expected(
            ozone=ozone + _mass(setting.surplus) / M_O3,
            recovery=1.0,
            surplus=0.0,
            concentration=concentration,
            blank=parse(truth.blank, Kind.VOLUME),
        )
        yield _read_off(noise, truth, float(titre))


def _read_off(noise: Random, truth: Truth, volume: float) -> str:
    """Return a volume as read: with the reading's own error, to the step of the burette."""
    reading = read(truth.reading, Kind.VOLUME)
    steps = round((volume + noise.gauss(0.0, reading.value)) / reading.value)
    return f"{number(steps * reading.value, Kind.VOLUME, 'mL'):.2f} mL"


def _truth_file(truth: Truth, seed: int) -> str:
    """Return the truth as a table, every entry as typed above."""
    lines = [f"# {MARK}", 'evidence = "invented"', f"seed = {seed}"]
    alone = [item.name for item in fields(Truth) if item.name not in ("settings", "runs")]
    lines += ["", "[everywhere]", *(f'{name} = "{getattr(truth, name)}"' for name in alone)]
    for setting in truth.settings:
        lines += ["", "[[setting]]", f'name = "{setting.name}"']
        lines += [f'{name} = "{getattr(setting, name)}"' for name in ("output", "capture")]
        lines += [f'surplus_per_bottle = "{setting.surplus}"', f"feed = {setting.feed}"]
    for run in truth.runs:
        lines += ["", "[[run]]", f'label = "{run.label}"', f'setting = "{run.setting}"']
        lines += [f'on_time_typed = "{run.typed}"', f'on_time = "{run.really or run.typed}"']
        lines += [f'lost_on_the_way = "{run.loss}"']
        lines += [f'discharge = "{"on" if run.discharge else "off"}"']
    return "\n".join(lines) + "\n"


def _document(run: Planned, truth: Truth, standard: str, noise: Random, seed: int) -> str:
    (setting,) = (one for one in truth.settings if one.name == run.setting)
    first, guard = titres(run, truth, noise)
    blank = _read_off(noise, truth, parse(truth.blank, Kind.VOLUME))
    remark = f"{run.remark} {MARK}" if run.remark else MARK
    standardised = run.started.date() - timedelta(days=run.started.weekday() - 3)
    return TEMPLATE.format(
        seed=seed,
        label=run.label,
        remark=remark,
        setting=setting.name,
        rig=setting.rig,
        started=run.started.isoformat(),
        on_time=run.typed,
        discharge="on" if run.discharge else "off",
        feed=setting.feed,
        flow=setting.flow,
        power=setting.power,
        first=first,
        guard=guard,
        blank=blank,
        standardised=standardised.isoformat(),
        mass=truth.iodate,
        purity=truth.iodate_purity,
        flask=truth.flask,
        aliquot=truth.aliquot,
        standard=standard,
    )


TEMPLATE = """\
# Invented: made by `ozonewright demo` with seed {seed}; the truth is in ../truth.toml.

[run]
label = "{label}"
by = "demo"
remark = "{remark}"
setting = "{setting}"
rig = "{rig}"
started = {started}
on_time = "{on_time} ± 1.5 s"
start = "diverted"
rest_before = "15 min"
discharge = "{discharge}"

[gas]
feed = {feed}
flow = "{flow}"
meter = {{ kind = "volume", at = "before tube" }}
temperature = "21 °C"
pressure = "101.0 kPa"

[electrical]
power = "{power}"

[absorber]
bottles = [
    {{ volume = "200 mL", potassium_iodide = "4.0 g", sparger = "open tube" }},
    {{ volume = "200 mL", potassium_iodide = "4.0 g", sparger = "open tube" }},
]
acid = {{ kind = "sulfuric acid", amount = "10 mL", concentration = "1 mol/L", when = "after" }}

[titration]
burette = "50 mL class A"
titres = ["{first}", "{guard}"]
blank = "{blank}"
temperature = "21 °C"

[titration.titrant]
standard = "potassium iodate"
mass = "{mass} ± 0.0002 g"
purity = "{purity} ± 0.1 points"
flask = "{flask} class A"
aliquot = "{aliquot} class A"
titre = "{standard}"
blank = "0.00 mL"
temperature = "21 °C"
standardised = {standardised}
"""
