"""The form of a run: the fields of its document in the order of the bench."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ozonewright.errors import Faults, Inconsistent
from ozonewright.web.absorbance_form import absorbance_groups
from ozonewright.web.form import Field, Form, Group, Table, fields_of, filled, shown

BOTTLES = 2
"""Bottles of which the form always has a field: a first one and a guard."""
MOST_BOTTLES = 8
PARTS = ("oxygen", "nitrogen", "argon")

TIME = Field("run.on_time", "On-time, ozone into the bottle", "4 min, or 240 s ± 1.5 s")
STRENGTH = Field(
    "titration.titrant.concentration", "Thiosulfate in the burette", "0.0510 mol/L ± 0.0002"
)
BLANK = Field("titration.blank", "Blank: same iodide and acid, no ozone", "0.18 mL", "repeats")


def choices(*values: str) -> tuple[tuple[str, str], ...]:
    """Return words to choose from, or none of them."""
    return (("", "not stated"), *((value, value) for value in values))


def titre_field(number: int) -> Field:
    """Return the field of one bottle's titre."""
    if number == 1:
        return Field(
            "titration.titres[1]", "Titre of bottle 1", "28.46 mL, or 28.46 mL; 28.50 mL", "repeats"
        )
    name = "guard bottle" if number == BOTTLES else f"bottle {number}"
    return Field(
        f"titration.titres[{number}]",
        f"Titre of the {name}".replace("the bottle", "bottle"),
        "1.02 mL",
        "repeats",
    )


def first_groups() -> tuple[Group, ...]:
    """Return what is asked of a person who has no notebook yet."""
    return (
        Group("", (TIME, titre_field(1), STRENGTH), closed=False),
        Group("A guard bottle, or a blank", (titre_field(2), BLANK)),
    )


def run_groups(bottles: int = BOTTLES) -> tuple[Group, ...]:
    """Return the whole form for so many bottles."""
    count = min(max(bottles, BOTTLES), MOST_BOTTLES)
    numbers = range(1, count + 1)
    return (
        Group(
            "",
            (
                Field("run.label", "Name of the run", "C4"),
                Field("run.setting", "Setting, what all such runs share", "concentrator 0.8 L/min"),
                TIME,
                *(titre_field(number) for number in numbers),
                BLANK,
                STRENGTH,
                Field("run.started", "Started", "2026-05-09 10:20", "moment"),
            ),
            closed=False,
        ),
        *_titration(),
        gas_group("Gas: for the concentration"),
        _power(),
        *_absorber(numbers),
        Group(
            "Start, rest, field blank",
            (
                Field(
                    "run.start",
                    "Start",
                    kind="choice",
                    choices=choices("cold", "warm", "diverted"),
                ),
                Field("run.rest_before", "Rest before", "15 min"),
                Field(
                    "run.discharge",
                    "Discharge",
                    kind="choice",
                    choices=(("", "on"), ("off", "off: this run is a field blank")),
                ),
            ),
        ),
        *absorbance_groups(numbers),
        Group(
            "Ozone known without a titre",
            (
                Field("run.collected", "Ozone collected", "35.6 mg"),
                Field("run.rate", "Output", "0.53 g/h"),
            ),
        ),
        Group(
            "By whom, rig, remark",
            (
                Field("run.by", "By", "M. K."),
                Field("run.rig", "Rig", "workshop"),
                Field("run.room", "Room", "workshop"),
                Field("run.remark", "Remark", kind="area"),
            ),
        ),
    )


def _titration() -> tuple[Group, ...]:
    at = "titration.titrant."
    return (
        Group(
            "Thiosulfate weighed or standardised instead",
            (
                Field(
                    at + "standard",
                    "Standard",
                    kind="choice",
                    choices=choices(
                        "potassium iodate",
                        "potassium dichromate",
                        "sodium thiosulfate pentahydrate",
                        "sodium thiosulfate anhydrous",
                    ),
                ),
                Field(at + "mass", "Mass weighed", "0.8917 g"),
                Field(at + "purity", "Purity of the standard", "99.8 %"),
                Field(at + "flask", "Flask", "250 mL class A"),
                Field(at + "aliquot", "Pipetted", "10.00 mL"),
                Field(at + "titre", "Titre of the standard", "19.62 mL", "repeats"),
                Field(at + "blank", "Blank of the standard", "0.04 mL"),
                Field(at + "temperature", "Temperature of the standardisation", "21 °C"),
                Field(at + "standardised", "Standardised on", "2026-05-02", "date"),
            ),
        ),
        Group(
            "Burette, pipette, temperature",
            (
                Field("titration.burette", "Burette", "50 mL class A"),
                Field("titration.aliquot", "Pipetted from the bottle", "50.00 mL"),
                Field("titration.made_up_to", "Bottle made up to", "250 mL class A"),
                Field("titration.end_point", "Doubt of the end point", "0.03 mL"),
                Field("titration.temperature", "Temperature of the titration", "22 °C"),
            ),
        ),
    )


def gas_group(title: str) -> Group:
    """Return the fields of the gas, for a run or a reaction."""
    return Group(
        title,
        (
            Field(
                "gas.feed",
                "Feed, gas into the tube",
                kind="choice",
                choices=(
                    ("", "not stated, or its parts below"),
                    ("oxygen", "oxygen"),
                    ("dry air", "dry air"),
                    ("room air", "room air"),
                ),
            ),
            *(
                Field(f"gas.feed.{part}", f"Feed: {part}", hint)
                for part, hint in zip(PARTS, ("92 vol%", "4 vol%", "4 vol%"), strict=True)
            ),
            Field("gas.dew_point", "Dew point of the feed", "-40 °C"),
            Field("gas.flow", "Flow", "0.80 L/min ± 4 %, or 0.74 NL/min"),
            Field("gas.temperature", "Temperature at the meter", "22 °C"),
            Field("gas.pressure", "Pressure at the meter, absolute", "101.3 kPa"),
            Field(
                "gas.meter.kind",
                "Flow meter",
                kind="choice",
                choices=choices("volume", "mass", "rotameter", "wet", "displacement"),
            ),
            Field(
                "gas.meter.at",
                "Where it stands",
                kind="choice",
                choices=choices("before tube", "after bottles", "after destruct"),
            ),
            Field(
                "gas.meter.calibrated_for",
                "Rotameter scale for",
                kind="choice",
                choices=choices("air", "oxygen", "nitrogen", "argon"),
            ),
            Field("gas.meter.calibrated_temperature", "Rotameter scale at", "20 °C"),
            Field("gas.meter.calibrated_pressure", "Rotameter scale at", "101.325 kPa"),
            Field(
                "gas.meter.dried",
                "Gas dried before the meter",
                kind="flag",
                choices=(("", "no"), ("yes", "yes")),
            ),
        ),
    )


def _power() -> Group:
    return Group(
        "Power: for the yield",
        (
            Field("electrical.power", "Power", "41 W"),
            Field(
                "electrical.at",
                "Measured at",
                kind="choice",
                choices=choices("plug", "discharge"),
            ),
            Field("electrical.discharge_power", "Power in the discharge, beside it", "18 W ± 1 W"),
            Field("electrical.wall", "Temperature of the discharge tube", "45 °C"),
        ),
    )


def _absorber(numbers: range) -> tuple[Group, ...]:
    bottles: list[Field] = []
    for number in numbers:
        at = f"absorber.bottles[{number}]."
        bottles += [
            Field(at + "volume", f"Bottle {number}: liquid", "200 mL"),
            Field(at + "potassium_iodide", f"Bottle {number}: potassium iodide", "4.0 g"),
            Field(
                at + "sparger",
                f"Bottle {number}: gas goes in by",
                kind="choice",
                choices=choices("open tube", "stone", "frit"),
            ),
        ]
    return (
        Group(
            "Bottles and acid",
            (
                *bottles,
                Field("absorber.acid.kind", "Acid", "sulfuric acid"),
                Field("absorber.acid.amount", "Acid to each bottle", "10 mL"),
                Field("absorber.acid.concentration", "Its concentration", "1 mol/L"),
                Field(
                    "absorber.acid.when",
                    "Given",
                    kind="choice",
                    choices=(
                        ("", "not stated"),
                        ("before", "before the ozone"),
                        ("after", "after the ozone"),
                    ),
                ),
            ),
        ),
    )


def bottles_in(table: Mapping[str, Any], values: Mapping[str, str] | None = None) -> int:
    """Return how many bottles a table or a form as typed speaks of."""
    listed = [
        len(part)
        for section, name in (
            ("titration", "titres"),
            ("triiodide", "absorbances"),
            ("absorber", "bottles"),
        )
        if isinstance(part := (table.get(section) or {}).get(name), list)
    ]
    typed = [
        number
        for number in range(1, MOST_BOTTLES + 1)
        if f"titration.titres[{number}]" in (values or {})
    ]
    return max([BOTTLES, *listed, *typed])


def empty_form(bottles: int = BOTTLES, offers: Mapping[str, tuple[str, ...]] | None = None) -> Form:
    """Return the form of a new run."""
    return Form(run_groups(bottles), {}, offers=offers or {})


def form_of(table: Mapping[str, Any], offers: Mapping[str, tuple[str, ...]] | None = None) -> Form:
    """Return the form filled from a run's table."""
    groups = run_groups(bottles_in(table))
    return Form(groups, shown(table, fields_of(groups)), offers=offers or {})


def table_of(form: Form, base: Mapping[str, Any] | None = None) -> Table:
    """Return the document that a form as typed makes of `base`."""
    base = base or {}
    check_feed(form, base)
    table = filled(base, fields_of(form.groups), form.values)
    table.setdefault("run", {})
    bottles = (table.get("absorber") or {}).get("bottles")
    titres = (table.get("titration") or {}).get("titres")
    if bottles and titres and len(bottles) < len(titres):
        bottles += [{} for _ in range(len(titres) - len(bottles))]
    return table


def check_feed(form: Form, base: Mapping[str, Any]) -> None:
    """Refuse a feed given by name and by parts at once; one of them would be lost unseen."""
    before = shown(base, fields_of(form.groups))
    named = form.values.get("gas.feed", "")
    new_parts = [
        part
        for part in PARTS
        if (text := form.values.get(f"gas.feed.{part}", "").strip())
        and text != before.get(f"gas.feed.{part}")
    ]
    if named and new_parts:
        raise Faults(
            [
                Inconsistent(
                    "the feed is given by name and by its parts",
                    where="gas.feed",
                    got=named,
                    fix="Choose the name, or leave it at not stated and give the parts.",
                )
            ]
        )
