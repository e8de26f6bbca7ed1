"""The form of a reaction: the fields of its document in the order of planning."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ozonewright.references.reagents import reagents
from ozonewright.references.solvents import solvents
from ozonewright.web.form import Field, Form, Group, Table, fields_of, filled, shown, typed
from ozonewright.web.run_form import check_feed, choices, gas_group

MOST_SUBSTRATES = 6


def reaction_groups(
    table: Mapping[str, Any] | None = None, substrates: int = 1
) -> tuple[Group, ...]:
    """Return the form for a document, or for so many substrates of a new one."""
    table = table or {}
    count = max(substrates, _count(table.get("substrate")))
    alone = isinstance(table.get("substrate"), Mapping)
    places = ["substrate."] if alone else [f"substrate[{n}]." for n in range(1, count + 1)]
    reaction = table.get("reaction") or {}
    return (
        Group(
            "",
            (
                Field("reaction.label", "Name of the reaction", "vanillin, second lot"),
                *_substrate(places[0], ""),
                *_liquid(reaction),
                Field(
                    "reaction.work_up",
                    "Work-up",
                    kind="choice",
                    choices=(
                        ("", "not stated"),
                        ("reductive", "reductive: aldehydes, ketones"),
                        ("borohydride", "borohydride: alcohols"),
                        ("oxidative", "oxidative: acids, ketones"),
                    ),
                ),
                *_quench(reaction.get("quench")),
                Field("reaction.output", "Output", "0.62 g/h ± 5 %"),
                Field("reaction.uptake", "Uptake of the ozone", "88 % ± 3.5 points"),
            ),
            closed=False,
        ),
        *(
            Group(f"Substrate {number}", _substrate(place, f" {number}"), closed=False)
            for number, place in enumerate(places[1:], start=2)
        ),
        *_more(),
        Group(
            "What the gas may carry off",
            tuple(
                one
                for number, place in enumerate(places, start=1)
                for one in _volatile(place, f" {number}" if len(places) > 1 else "")
            ),
        ),
        gas_group("Gas: for the oxygen it takes"),
        Group(
            "By whom, rig, remark",
            (
                Field("reaction.by", "By", "M. K."),
                Field("reaction.rig", "Rig", "workshop"),
                Field("reaction.room", "Room", "workshop"),
                Field("reaction.remark", "Remark", kind="area"),
            ),
        ),
    )


def _count(written: object) -> int:
    return len(written) if isinstance(written, list) else 1


def _substrate(place: str, which: str) -> tuple[Field, ...]:
    return (
        Field(f"{place}smiles", f"Structure{which}, as SMILES", "C/C=C/c1ccc(O)c(OC)c1"),
        Field(f"{place}amount", f"Amount{which}", "10.0 mmol"),
        Field(f"{place}mass", f"or mass{which}", "1.64 g"),
        Field(f"{place}purity", f"Purity{which} of that mass", "98 wt%"),
        Field(f"{place}name", f"Name{which} of the substrate", "isoeugenol"),
    )


def _volatile(place: str, which: str) -> tuple[Field, ...]:
    return (
        Field(f"{place}boiling_point", f"Boiling point of the substrate{which}", "267 °C"),
        Field(f"{place}vapour_pressure", "or its vapour pressure in the bath", "12 Pa"),
        Field(f"{place}product_boiling_point", f"Boiling point of the product{which}", "285 °C"),
    )


def _liquid(reaction: Mapping[str, Any]) -> tuple[Field, ...]:
    written = reaction.get("solvent")
    if isinstance(written, Mapping):
        mixture = tuple(
            Field(f"reaction.solvent.{name}", f"Solvent: {name}", "80 %") for name in written
        )
    else:
        hint = "methanol, or dichloromethane 80 %, methanol 20 %"
        mixture = (Field("reaction.solvent", "Solvent", hint),)
    return (
        *mixture,
        Field("reaction.volume", "Its volume", "100 mL"),
        Field("reaction.temperature", "Temperature of the bath", "-40 °C"),
    )


def _quench(written: object) -> tuple[Field, ...]:
    several = written if isinstance(written, list) else [{}]
    alone = not isinstance(written, list)
    return tuple(
        one
        for number in range(1, len(several) + 1)
        for one in _one_quench("reaction.quench." if alone else f"reaction.quench[{number}].")
    )


def _one_quench(place: str) -> tuple[Field, Field]:
    return (
        Field(f"{place}reagent", "Quench", kind="choice", choices=choices(*reagents())),
        Field(f"{place}equivalents", "Equivalents, for each ozone taken", "1.10", "number"),
    )


def _more() -> tuple[Group, ...]:
    return (
        Group(
            "Output or uptake out of the notebook",
            (
                Field("reaction.setting", "Output of a setting", "concentrator 0.8 L/min"),
                Field("reaction.run", "or of a run", "C4"),
                Field("reaction.slip.run", "Uptake by the guard bottle of a run", "C4"),
                Field("reaction.slip.titre", "or by a tail bottle: titre", "3.1 mL"),
                Field("reaction.slip.titrant", "Tail bottle: thiosulfate", "0.0510 mol/L"),
                Field("reaction.slip.blank", "Tail bottle: blank", "0.1 mL"),
                Field("reaction.slip.on_time", "Tail bottle: on-time", "10 min"),
            ),
        ),
        Group(
            "How far, end point, timer, tail",
            (
                Field(
                    "reaction.cleave",
                    "How far",
                    kind="choice",
                    choices=(
                        ("", "all that is fast beside the rest"),
                        ("first", "the first bond only"),
                        ("full", "every double and triple bond"),
                    ),
                ),
                Field("reaction.equivalents", "or ozone for each substrate", "1.05", "number"),
                Field(
                    "reaction.end_point",
                    "End point to be watched",
                    kind="choice",
                    choices=choices("blue", "dye", "off-gas", "tail titre"),
                ),
                Field("reaction.start_loss", "On-time lost at each start", "20 s"),
                Field("reaction.timer.on", "Timer: on", "6 min"),
                Field("reaction.timer.off", "Timer: off", "9 min"),
                Field("reaction.tail.volume", "Tail bottle: liquid", "200 mL"),
                Field("reaction.tail.potassium_iodide", "Tail bottle: potassium iodide", "8 g"),
                Field("reaction.heat", "Reaction heat, if known better", "400 kJ/mol ± 35"),
            ),
        ),
    )


def offers() -> dict[str, tuple[str, ...]]:
    """Return the solvents that are known, to be offered."""
    return {"reaction.solvent": tuple(solvents())}


def reaction_form(table: Mapping[str, Any] | None = None, substrates: int = 1) -> Form:
    """Return the form filled from a document, or an empty one."""
    groups = reaction_groups(table, substrates)
    return Form(groups, shown(table or {}, fields_of(groups)), offers=offers())


def typed_reaction(groups: tuple[Group, ...], values: Mapping[str, str]) -> Form:
    """Return the form as it came back, solvents offered."""
    return typed(groups, values, offers())


def reaction_table(form: Form, base: Mapping[str, Any] | None = None) -> Table:
    """Return the document that a form as typed makes of `base`."""
    base = base or {}
    check_feed(form, base)
    table = filled(base, fields_of(form.groups), form.values)
    table.setdefault("reaction", {})
    table.setdefault("substrate", [{}])
    return table


def substrates_in(values: Mapping[str, str]) -> int:
    """Return how many substrates a form as typed speaks of."""
    return max(
        (n for n in range(1, MOST_SUBSTRATES + 1) if f"substrate[{n}].smiles" in values),
        default=1,
    )
