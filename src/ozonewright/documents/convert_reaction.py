"""From the reaction document to its numeric twin; names the origin of every number."""

from __future__ import annotations

from ozonewright.documents.convert import gas_record, named
from ozonewright.documents.reaction import (
    ReactionDocument,
    ReactionSection,
    SlipSection,
    SubstrateSection,
    TailSection,
)
from ozonewright.records import reaction as records
from ozonewright.uncertain import Measured
from ozonewright.units import Kind


def reaction_record(document: ReactionDocument) -> records.Reaction:
    """Return the numeric twin of a reaction document."""
    reaction = document.reaction
    return records.Reaction(
        label=reaction.label,
        rig=reaction.rig,
        room=reaction.room,
        substrates=tuple(
            _substrate(one, number) for number, one in enumerate(document.substrate, start=1)
        ),
        solvent=tuple((reaction.solvent or {}).items()),
        volume=named(reaction.volume, "volume"),
        temperature=named(reaction.temperature, "bath temperature"),
        work_up=reaction.work_up,
        quenches=tuple(records.Quench(one.reagent, one.equivalents) for one in reaction.quench),
        cleave=reaction.cleave,
        equivalents=_equivalents(reaction),
        output=named(reaction.output, "output"),
        setting=reaction.setting,
        run=reaction.run,
        uptake=named(reaction.uptake, "uptake"),
        slip=_slip(reaction.slip),
        start_loss=named(reaction.start_loss, "start loss"),
        timer_on=named(reaction.timer.on, "timer on") if reaction.timer else None,
        timer_off=named(reaction.timer.off, "timer off") if reaction.timer else None,
        end_point=reaction.end_point,
        heat=named(reaction.heat, "reaction heat"),
        gas=gas_record(document.gas),
        tail=_tail(reaction.tail),
    )


def _substrate(one: SubstrateSection, number: int) -> records.Substrate:
    return records.Substrate(
        smiles=one.smiles,
        name=one.name,
        amount=named(one.amount, f"substrate {number}"),
        mass=named(one.mass, f"mass of substrate {number}"),
        purity=named(one.purity, f"purity of substrate {number}"),
        boiling_point=named(one.boiling_point, f"boiling point of substrate {number}"),
        vapour_pressure=named(one.vapour_pressure, f"vapour pressure of substrate {number}"),
        product_boiling_point=named(
            one.product_boiling_point, f"boiling point of the product of substrate {number}"
        ),
    )


def _equivalents(reaction: ReactionSection) -> Measured | None:
    if reaction.equivalents is None:
        return None
    return Measured(reaction.equivalents, 0.0, "equivalents", Kind.DIMENSIONLESS, basis="exact")


def _slip(slip: SlipSection | None) -> records.Slip | None:
    if slip is None:
        return None
    return records.Slip(
        run=slip.run,
        titre=named(slip.titre, "tail titre"),
        titrant=named(slip.titrant, "tail titrant"),
        blank=named(slip.blank, "tail blank"),
        on_time=named(slip.on_time, "on-time of the tail titre"),
    )


def _tail(tail: TailSection) -> records.Tail:
    salt = tail.potassium_iodide
    strong = salt is not None and salt.kind is Kind.MASS_CONCENTRATION
    return records.Tail(
        volume=named(tail.volume, "tail volume"),
        iodide_mass=None if strong else named(salt, "tail iodide"),
        iodide_concentration=named(salt, "tail iodide") if strong else None,
    )
