"""Cases about the titration, from standard and titres to ozone, and about iodine in the bottle."""

from __future__ import annotations

from ozonewright.physics.assay.iodometry import (
    iodide_ratio,
    ozone_from_thiosulfate,
    thiosulfate_from_standard,
    thiosulfate_used,
)
from ozonewright.physics.chemistry.iodine import (
    free_iodine,
    iodine_carried_off,
    triiodide_constant,
)
from ozonewright.questions.agreement.reading import Binding, Found, Inputs, si
from ozonewright.references.constants import (
    M_K2CR2O7,
    M_KI,
    M_KIO3,
    M_O3,
    THIOSULFATE_PER_DICHROMATE,
    THIOSULFATE_PER_IODATE,
)
from ozonewright.units import Kind, parse, size


def _thiosulfate(inputs: Inputs, titre: str) -> float:
    return float(
        thiosulfate_used(
            concentration=si(inputs, "titrant", Kind.CONCENTRATION),
            titre=parse(titre, Kind.VOLUME),
            blank=si(inputs, "blank", Kind.VOLUME),
            taken=1.0,
            warmth=0.0,
        )
    )


def _ozone(inputs: Inputs) -> dict[str, Found]:
    used = [_thiosulfate(inputs, titre) for titre in inputs["titres"]]
    ozone = float(ozone_from_thiosulfate(thiosulfate=sum(used)))
    return {
        "ozone": Found(ozone * M_O3, Kind.MASS),
        "ozone_amount": Found(ozone, Kind.AMOUNT),
        "guard_share": Found(used[-1] / sum(used), Kind.SHARE),
    }


def _standardised(
    inputs: Inputs, molar_mass: float, equivalents: float, *, portion: bool
) -> dict[str, Found]:
    strength = thiosulfate_from_standard(
        mass=si(inputs, "mass", Kind.MASS),
        purity=1.0,
        molar_mass=molar_mass,
        equivalents=equivalents,
        flask=si(inputs, "flask", Kind.VOLUME) if portion else 1.0,
        aliquot=si(inputs, "aliquot", Kind.VOLUME) if portion else 1.0,
        titre=si(inputs, "titre", Kind.VOLUME),
    )
    return {"titrant": Found(float(strength), Kind.CONCENTRATION)}


def _from_iodate(inputs: Inputs) -> dict[str, Found]:
    return _standardised(inputs, M_KIO3, THIOSULFATE_PER_IODATE, portion=True)


def _from_dichromate(inputs: Inputs) -> dict[str, Found]:
    """Standardise on a portion weighed and titrated whole."""
    return _standardised(inputs, M_K2CR2O7, THIOSULFATE_PER_DICHROMATE, portion=False)


def _rate(inputs: Inputs) -> dict[str, Found]:
    rate = si(inputs, "ozone", Kind.MASS) / si(inputs, "on_time", Kind.TIME)
    return {
        "mass_rate": Found(rate, Kind.MASS_RATE),
        "mass_rate_per_minute": Found(rate, Kind.MASS_RATE),
        "amount_rate": Found(rate / M_O3, Kind.AMOUNT_RATE),
    }


def _iodide(inputs: Inputs) -> dict[str, Found]:
    strength = si(inputs, "potassium_iodide", Kind.MASS_CONCENTRATION) / M_KI
    return {
        "concentration": Found(strength, Kind.CONCENTRATION),
        "amount": Found(strength * si(inputs, "volume", Kind.VOLUME), Kind.AMOUNT),
    }


def _iodide_ratio(inputs: Inputs) -> dict[str, Found]:
    used = _thiosulfate(inputs, inputs["titre"])
    ratio = iodide_ratio(
        iodide=si(inputs, "potassium_iodide", Kind.MASS) / M_KI,
        ozone=ozone_from_thiosulfate(thiosulfate=used),
    )
    return {"ratio": Found(float(ratio), Kind.DIMENSIONLESS)}


def _free_iodine(inputs: Inputs) -> dict[str, Found]:
    iodine = si(inputs, "iodine", Kind.CONCENTRATION)
    share = free_iodine(
        iodine=iodine,
        iodide=si(inputs, "iodide", Kind.CONCENTRATION),
        constant=float(inputs["constant"]),
    )
    return {
        "free": Found(float(share) * iodine, Kind.CONCENTRATION),
        "share": Found(float(share), Kind.SHARE),
    }


def _triiodide_constant(inputs: Inputs) -> dict[str, Found]:
    constant = triiodide_constant(temperature=si(inputs, "temperature", Kind.TEMPERATURE))
    return {"constant": Found(float(constant), Kind.DIMENSIONLESS)}


def _iodine_loss(inputs: Inputs) -> dict[str, Found]:
    rate = iodine_carried_off(
        free_share=si(inputs, "free_share", Kind.SHARE),
        gas_flow=si(inputs, "flow", Kind.VOLUME_FLOW),
        volume=si(inputs, "volume", Kind.VOLUME),
        temperature=si(inputs, "temperature", Kind.TEMPERATURE),
    )
    return {"loss_per_minute": Found(float(rate) * size(Kind.TIME, "min"), Kind.SHARE)}


BINDINGS: dict[str, Binding] = {
    "iodometry.free_iodine": _free_iodine,
    "iodometry.iodide": _iodide,
    "iodometry.iodide_ratio": _iodide_ratio,
    "iodometry.iodine_loss": _iodine_loss,
    "iodometry.ozone_from_titres": _ozone,
    "iodometry.rate": _rate,
    "iodometry.titrant_from_dichromate": _from_dichromate,
    "iodometry.titrant_from_iodate": _from_iodate,
    "iodometry.triiodide_constant": _triiodide_constant,
}
