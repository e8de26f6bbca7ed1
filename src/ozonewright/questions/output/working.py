"""The sum of one run as lines that a pocket calculator can follow; `show` holds their words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from statistics import fmean

from ozonewright.questions.output.photometry_working import photometric_working
from ozonewright.questions.output.titration import SALT, STANDARD
from ozonewright.records.run import Run, Titrant
from ozonewright.results import Note
from ozonewright.units import Kind

Values = Mapping[str, float]


def working(run: Run, values: Values) -> Iterator[Note]:
    """Yield each step with the readings that go in and the value that comes out."""
    if run.titration is not None:
        yield from _titrant(run.titration.titrant, values)
        yield from _bottles(run, values)
    yield from photometric_working(run, values)
    if "ozone_mass" in values and run.ultraviolet is None:
        yield Note(
            "ozone",
            values={
                "amount": values["ozone"],
                "mass": values["ozone_mass"],
                "titrated": run.titration is not None,
            },
        )
    if not run.discharge_on:
        return
    if "rate_mass" in values and run.on_time is not None:
        yield Note(
            "rate",
            values={
                "mass": values["ozone_mass"],
                "on_time": run.on_time.value,
                "rate": values["rate_mass"],
                "amount": values["rate"],
            },
        )
    yield from _gas(run, values)
    for name, power, at in (
        ("energy_yield", run.power, run.power_at),
        ("yield_discharge", run.discharge_power, "discharge"),
    ):
        if name in values and power is not None:
            yield Note(
                "yield",
                values={
                    "rate": values["rate_mass"],
                    "power": power.value,
                    "at": at,
                    "yield": values[name],
                },
            )


def _titrant(titrant: Titrant, values: Values) -> Iterator[Note]:
    strength = {"concentration": values["titrant"]}
    if titrant.stated is not None or titrant.standard is None or titrant.mass is None:
        yield Note("titrant-stated", values=strength)
        return
    assert titrant.flask is not None
    weighed = strength | {
        "mass": titrant.mass.value,
        "flask": titrant.flask.value,
        "purity": titrant.purity.value if titrant.purity else 1.0,
    }
    if titrant.standard in SALT:
        yield Note("titrant-salt", values=weighed | {"molar_mass": SALT[titrant.standard]})
        return
    assert titrant.aliquot is not None
    molar_mass, equivalents = STANDARD[titrant.standard]
    yield Note(
        "titrant-standard",
        values=weighed
        | {
            "molar_mass": molar_mass,
            "equivalents": equivalents,
            "aliquot": titrant.aliquot.value,
            "titre": fmean(titre.value for titre in titrant.titres),
            "blank": titrant.blank.value if titrant.blank else 0.0,
        },
    )


def _bottles(run: Run, values: Values) -> Iterator[Note]:
    titration = run.titration
    assert titration is not None
    field = "field_blank" in values
    for place, readings in enumerate(titration.titres, start=1):
        blank = (
            titration.blanks[min(place, len(titration.blanks)) - 1] if titration.blanks else None
        )
        taken = 1.0
        if titration.aliquot is not None and titration.made_up_to is not None:
            taken = titration.aliquot.value / titration.made_up_to.value
        yield Note(
            "bottle",
            values={
                "bottle": place,
                "titre": fmean(reading.value for reading in readings),
                "repeats": len(readings),
                "blank": None if blank is None or field else blank.value,
                "field": field,
                "taken": taken,
                "concentration": values["titrant"],
                "thiosulfate": values[f"thiosulfate_{place}"],
            },
        )


def _gas(run: Run, values: Values) -> Iterator[Note]:
    gas = run.gas
    if "feed_flow" not in values or gas.flow is None:
        return
    behind = gas.meter.at == "after bottles"
    dry = values["ozonised_flow" if behind else "feed_flow"]
    if gas.flow.kind is Kind.NORMAL_FLOW or gas.temperature is None or gas.pressure is None:
        yield Note("flow-normal", values={"dry": dry, "at": gas.meter.at})
    else:
        yield Note(
            "flow-dry",
            values={
                "flow": gas.flow.value,
                "temperature": gas.temperature.value,
                "pressure": gas.pressure.value,
                "dry": dry,
                "at": gas.meter.at,
                "meter": gas.meter.kind,
            },
        )
    yield Note(
        "flow-other",
        values={
            "feed": values["feed_flow"],
            "ozonised": values["ozonised_flow"],
            "rate": values["rate"],
            "behind": behind,
        },
    )
    yield Note(
        "concentration",
        values={
            "rate": values["rate_mass"],
            "flow": values["ozonised_flow"],
            "concentration": values["concentration"],
            "mole_fraction": values["mole_fraction"],
        },
    )
    if "mass_fraction" in values:
        yield Note("mass-fraction", values={"mass_fraction": values["mass_fraction"]})
