"""From the run document to its numeric twin; names the origin of every number."""

from __future__ import annotations

from ozonewright.documents.photometry import (
    IndigoSection,
    TriiodideSection,
    UltravioletSection,
)
from ozonewright.documents.run import (
    AcidSection,
    BottleSection,
    GasSection,
    MeterSection,
    RunDocument,
    TitrantSection,
    TitrationSection,
)
from ozonewright.documents.typed import Typed
from ozonewright.records import run as records
from ozonewright.references.gases import DRY_AIR
from ozonewright.uncertain import Measured
from ozonewright.units import Kind


def run_record(document: RunDocument, place: str = "run") -> records.Run:
    """Return the numeric twin of a run document."""
    run = document.run
    return records.Run(
        place=place,
        label=run.label,
        setting=run.setting,
        rig=run.rig,
        room=run.room,
        by=run.by,
        started=run.started,
        on_time=named(run.on_time, "on-time"),
        start=run.start,
        rest_before=named(run.rest_before, "rest before"),
        discharge_on=run.discharge == "on",
        gas=gas_record(document.gas),
        power=named(document.electrical.power, "power"),
        power_at=document.electrical.at,
        discharge_power=named(document.electrical.discharge_power, "discharge power"),
        wall=named(document.electrical.wall, "wall temperature"),
        bottles=tuple(
            _bottle(bottle, number)
            for number, bottle in enumerate(document.absorber.bottles, start=1)
        ),
        acid=_acid(document.absorber.acid),
        titration=_titration(document.titration),
        ultraviolet=_ultraviolet(document.ultraviolet),
        triiodide=_triiodide(document.triiodide),
        indigo=_indigo(document.indigo),
        collected=named(run.collected, "collected"),
        rate=named(run.rate, "rate"),
    )


def named(value: Typed | None, name: str) -> Measured | None:
    """Return a typed quantity as an input under the name of its origin."""
    return None if value is None else value.measured(name)


def _glass(value: Typed | None, piece: str, use: str) -> Measured | None:
    """Name a piece of glassware by itself when its class is declared: then it is one input."""
    if value is None:
        return None
    return value.measured(f"{piece} {value.text}" if value.basis.startswith("class") else use)


def gas_record(gas: GasSection) -> records.Gas:
    """Return the numeric twin of the gas section."""
    return records.Gas(
        feed=None if gas.feed is None else feed_record(gas.feed, gas.dew_point),
        flow=named(gas.flow, "flow"),
        meter=_meter(gas.meter),
        temperature=named(gas.temperature, "gas temperature"),
        pressure=named(gas.pressure, "gas pressure"),
    )


def feed_record(feed: str | dict[str, Typed], typed_dew_point: Typed | None) -> records.Feed:
    """Return a feed from its name or its parts."""
    dew_point = named(typed_dew_point, "dew point")
    if isinstance(feed, dict):
        parts = {name: part.measured(f"feed, {name}") for name, part in feed.items()}
        return records.Feed("mixture", parts, dew_point)
    if feed == "oxygen":
        oxygen = Measured(1.0, 0.0, "feed, oxygen", Kind.MOLE_FRACTION, basis="exact")
        return records.Feed("oxygen", {"oxygen": oxygen}, dew_point)
    air = {
        name: Measured(
            datum.value, datum.u or 0.0, f"air, {name}", Kind.MOLE_FRACTION, basis="table"
        )
        for name, datum in DRY_AIR.items()
    }
    moist = feed == "room air" and dew_point is None
    return records.Feed(feed, air, dew_point, may_be_moist=moist)


def _meter(meter: MeterSection) -> records.Meter:
    return records.Meter(
        kind=meter.kind,
        at=meter.at,
        calibrated_for=meter.calibrated_for,
        calibrated_temperature=named(meter.calibrated_temperature, "rotameter scale temperature"),
        calibrated_pressure=named(meter.calibrated_pressure, "rotameter scale pressure"),
        dried=meter.dried,
    )


def _bottle(bottle: BottleSection, number: int) -> records.Bottle:
    salt = bottle.potassium_iodide
    kept = named(salt, f"potassium iodide, bottle {number}")
    by_mass = salt is not None and salt.kind is Kind.MASS
    return records.Bottle(
        volume=named(bottle.volume, f"liquid, bottle {number}"),
        iodide_mass=kept if by_mass else None,
        iodide_concentration=None if by_mass else kept,
        sparger=bottle.sparger,
    )


def _acid(acid: AcidSection | None) -> records.Acid | None:
    if acid is None:
        return None
    return records.Acid(
        kind=acid.kind,
        volume=acid.amount.measured("acid volume"),
        concentration=acid.concentration.measured("acid concentration"),
        when=acid.when,
    )


def _titration(titration: TitrationSection | None) -> records.Titration | None:
    if titration is None:
        return None
    return records.Titration(
        titrant=_titrant(titration.titrant),
        titres=tuple(
            _repeats(titres, f"titre, bottle {number}")
            for number, titres in enumerate(titration.titres, start=1)
        ),
        blanks=_repeats(titration.blank or (), "blank"),
        burette=_burette(titration.burette),
        aliquot=_glass(titration.aliquot, "pipette", "aliquot of a bottle"),
        made_up_to=_glass(titration.made_up_to, "flask", "bottle made up to"),
        end_point=named(titration.end_point, "end point"),
        temperature=named(titration.temperature, "titration temperature"),
    )


def _ultraviolet(cell: UltravioletSection | None) -> records.Ultraviolet | None:
    if cell is None:
        return None
    return records.Ultraviolet(
        absorbance=cell.absorbance.measured("absorbance"),
        path=cell.path.measured("path of the cell"),
        temperature=cell.temperature.measured("cell temperature"),
        pressure=cell.pressure.measured("cell pressure"),
        cross_section=cell.cross_section,
    )


def _triiodide(assay: TriiodideSection | None) -> records.Triiodide | None:
    if assay is None:
        return None
    return records.Triiodide(
        absorbances=tuple(
            _repeats(readings, f"absorbance, bottle {number}")
            for number, readings in enumerate(assay.absorbances, start=1)
        ),
        path=assay.path.measured("path of the cell"),
        volumes=tuple(
            volume.measured("liquid" if len(assay.volume) == 1 else f"liquid, bottle {number}")
            for number, volume in enumerate(assay.volume, start=1)
        ),
        blank=named(assay.blank, "absorbance, blank"),
        aliquot=_glass(assay.aliquot, "pipette", "aliquot of a bottle"),
        made_up_to=_glass(assay.made_up_to, "flask", "aliquot made up to"),
        iodide=named(assay.potassium_iodide, "potassium iodide in the cell"),
        temperature=named(assay.temperature, "cell temperature"),
    )


def _indigo(assay: IndigoSection | None) -> records.Indigo | None:
    if assay is None:
        return None
    return records.Indigo(
        blank=assay.blank.measured("indigo, blank"),
        absorbance=assay.absorbance.measured("indigo, sample"),
        path=assay.path.measured("path of the cell"),
        sample=assay.sample.measured("sample"),
        made_up_to=assay.made_up_to.measured("sample and reagent"),
    )


def _repeats(values: tuple[Typed, ...], name: str) -> tuple[Measured, ...]:
    if len(values) == 1:
        return (values[0].measured(name),)
    return tuple(
        value.measured(f"{name}, reading {number}") for number, value in enumerate(values, start=1)
    )


def _burette(burette: Typed | None) -> records.Burette | None:
    if burette is None:
        return None
    if not burette.basis.startswith("class") and burette.basis != "stated":
        return records.Burette(burette.value)
    error = Measured(
        0.0, burette.u, f"burette {burette.text}", Kind.VOLUME, burette.shape, basis=burette.basis
    )
    return records.Burette(burette.value, error)


def _titrant(titrant: TitrantSection) -> records.Titrant:
    return records.Titrant(
        stated=named(titrant.concentration, "titrant concentration"),
        standard=titrant.standard,
        mass=named(titrant.mass, "standard, mass"),
        purity=named(titrant.purity, "standard, purity"),
        flask=_glass(titrant.flask, "flask", "standard, flask"),
        aliquot=_glass(titrant.aliquot, "pipette", "standard, aliquot"),
        titres=_repeats(titrant.titre or (), "standard, titre"),
        blank=named(titrant.blank, "standard, blank"),
        temperature=named(titrant.temperature, "standardisation temperature"),
        standardised=titrant.standardised,
    )
