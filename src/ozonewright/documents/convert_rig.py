"""From the rig document to its numeric twin; names the origin of every number."""

from __future__ import annotations

from typing import Any

from ozonewright.documents.convert import feed_record
from ozonewright.documents.part import PartSection
from ozonewright.documents.rig import AmbientSection, RigDocument, before, names_of
from ozonewright.documents.section import fields_of
from ozonewright.documents.typed import Typed
from ozonewright.records.rig import Ambient, Part, Rig
from ozonewright.records.run import Feed
from ozonewright.uncertain import Measured
from ozonewright.units import Kind

CANONICAL = {"barb": "connector", "manifold": "tee", "destruct bed": "destruct"}
"""Two words of the trade for one kind of part."""
APART = ("kind", "name", "after", "material", "remark", "curve", "gas", "dew_point", "wet")
"""Fields of a part that the record keeps otherwise than by their name alone."""
SUPPLIED = ("pump", "cylinder", "concentrator")


def rig_record(document: RigDocument) -> Rig:
    """Return the numeric twin of a rig document."""
    names = names_of(document.part)
    earlier = before(document.part, names)
    rig = document.rig
    return Rig(
        label=rig.label,
        by=rig.by,
        remark=rig.remark,
        ambient=_ambient(rig.ambient),
        parts=tuple(
            _part(part, names[number], earlier[number], f"part[{number + 1}]")
            for number, part in enumerate(document.part)
        ),
        checklist={
            name: answer
            for name in fields_of(type(document.checklist))
            if (answer := getattr(document.checklist, name)) is not None
        },
    )


def _ambient(section: AmbientSection) -> Ambient:
    def named(value: Typed | None, name: str) -> Measured | None:
        return None if value is None else value.measured(name)

    return Ambient(
        temperature=named(section.temperature, "ambient temperature"),
        pressure=named(section.pressure, "ambient pressure"),
        humidity=named(section.humidity, "ambient humidity"),
        dew_point=named(section.dew_point, "ambient dew point"),
    )


def _part(section: PartSection, name: str, after: tuple[str, ...], place: str) -> Part:
    values: dict[str, Any] = {
        field: getattr(section, field)
        for field in fields_of(type(section))
        if field not in APART and getattr(section, field) is not None
    }
    dew_point = getattr(section, "dew_point", None)
    supplier = section.kind in SUPPLIED
    if dew_point is not None and not supplier:
        values["dew_point"] = dew_point
    typed = {field: value for field, value in values.items() if isinstance(value, Typed)}
    return Part(
        name=name,
        kind=CANONICAL.get(section.kind, section.kind),
        place=place,
        after=after,
        material=section.material or (),
        quantities={field: value.measured(f"{name}, {field}") for field, value in typed.items()},
        words={field: value for field, value in values.items() if isinstance(value, str)},
        counts={
            field: value
            for field, value in values.items()
            if isinstance(value, int) and not isinstance(value, bool)
        },
        curve=tuple(
            (pressure.measured(f"{name}, pressure {step}"), flow.measured(f"{name}, flow {step}"))
            for step, (pressure, flow) in enumerate(getattr(section, "curve", None) or (), start=1)
        ),
        gas=_gas(section, dew_point) if supplier else None,
        gas_stated=getattr(section, "gas", None) is not None,
        gauge={
            field: "gauge" in value.text
            for field, value in typed.items()
            if value.kind is Kind.CYLINDER_PRESSURE
        },
        wet=getattr(section, "wet", None),
    )


def _gas(section: PartSection, dew_point: Typed | None) -> Feed:
    written: str | dict[str, Typed] | None = getattr(section, "gas", None)
    return feed_record(written if written is not None else "room air", dew_point)
