"""How much of the ozone the bottles of a rig take up."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ozonewright.bench.course import slip_stated
from ozonewright.bench.flasked import simulated
from ozonewright.bench.load import Source
from ozonewright.bench.ozone_rate import ozone_rate
from ozonewright.bench.reaction import loaded
from ozonewright.bench.rig import load_rig
from ozonewright.documents.typed import Typed, typed
from ozonewright.errors import AppError, Faults, InputError, MissingValue
from ozonewright.notebook import Notebook
from ozonewright.physics.assay.plan import caught_share
from ozonewright.questions.absorber import Absorber, SimulatedRun, absorber
from ozonewright.questions.gas_line import gas_line
from ozonewright.questions.reaction.dose import dose
from ozonewright.questions.reaction.given import Supply
from ozonewright.records.absorber import Asked
from ozonewright.records.rig import Rig
from ozonewright.uncertain import Measured, propagate
from ozonewright.units import Kind

FIELDS: dict[str, tuple[Kind, ...]] = {
    "output": (Kind.MASS_RATE, Kind.AMOUNT_RATE),
    "flow": (Kind.NORMAL_FLOW, Kind.VOLUME_FLOW),
    "bubble": (Kind.LENGTH,),
    "guard_share": (Kind.SHARE,),
    "slip": (Kind.SHARE,),
    "tail_titre": (Kind.VOLUME,),
    "titrant": (Kind.CONCENTRATION,),
    "blank": (Kind.VOLUME,),
    "on_time": (Kind.TIME,),
}
"""What may be typed, and what kind of quantity it is."""
TITRE = ("tail_titre", "titrant", "on_time")
"""What the titre of a tail bottle needs."""
SIMULATED = ("output", "flow", "bubble", "slip", "tail_titre", "titrant", "blank", "on_time")
"""What a simulated run takes of what may be typed."""
EXAMPLES = {"tail_titre": "1.02 mL", "titrant": "0.0510 mol/L", "on_time": "4 min"}


def uptake(source: Source, texts: Mapping[str, str | None]) -> Absorber:
    """Return how much of the ozone the bottles of a rig take up; all faults at once."""
    rig = load_rig(source)
    found, faults = _read(texts)
    if "output" not in found and not texts.get("output"):
        faults.append(MissingValue("this is needed", where="output", fix='Write it as "0.6 g/h".'))
    faults += _gaps(texts)
    if faults:
        raise Faults(faults)
    ozone = ozone_rate(found["output"])
    return absorber(rig, _asked(rig, ozone, found))


def run(
    source: Source, reaction: Source, texts: Mapping[str, str | None], notebook: Notebook | None
) -> SimulatedRun:
    """Return a reaction in the flask of a rig, minute by minute; what is typed goes first."""
    rig = load_rig(source)
    found, faults = _read({name: texts.get(name) for name in SIMULATED})
    faults += _gaps({name: text for name, text in texts.items() if name != "guard_share"})
    if faults:
        raise Faults(faults)
    record, structures, supply, taken, feed = loaded(reaction, notebook)
    rate = ozone_rate(found["output"]) if "output" in found else supply.rate
    if rate is None:
        raise MissingValue(
            "this is needed", where="output",
            fix='Type --output "0.6 g/h", or state it in the reaction.',
        )  # fmt: skip
    flow = found["flow"].measured("flow") if "flow" in found else feed.flow or _flow_of_line(rig)
    bubble = found["bubble"].measured("bubble") if "bubble" in found else None
    slip = _slip(rate, found) or slip_stated(dose(record, structures, Supply(rate), taken, feed))
    return simulated(rig, record, structures, Asked(rate, flow, True, bubble, slip_share=slip))


def _read(texts: Mapping[str, str | None]) -> tuple[dict[str, Typed], list[AppError]]:
    found: dict[str, Typed] = {}
    faults: list[AppError] = []
    for name, kinds in FIELDS.items():
        if text := texts.get(name):
            bound = {"least": 0.0} if name in ("tail_titre", "blank") else {"above": 0.0}
            try:
                found[name] = typed(text, kinds, **bound)  # type: ignore[arg-type]
            except AppError as error:
                faults.append(error.at(name))
    return found, faults


def _gaps(texts: Mapping[str, str | None]) -> Iterator[AppError]:
    ways = [name for name in ("guard_share", "slip", "tail_titre") if texts.get(name)]
    if len(ways) > 1:
        yield InputError(
            "the slip is stated in two ways", where=ways[1], got=str(texts[ways[1]]),
            fix="Give the guard share, the slip or the tail titre, not several.",
        )  # fmt: skip
    if any(texts.get(name) for name in (*TITRE, "blank")):
        for name in TITRE:
            if not texts.get(name):
                yield MissingValue(
                    "the titre of a tail bottle needs this", where=name,
                    fix=f'Write it as "{EXAMPLES[name]}".',
                )  # fmt: skip


def _asked(rig: Rig, ozone: Measured, found: Mapping[str, Typed]) -> Asked:
    def measured(name: str, words: str) -> Measured | None:
        return found[name].measured(words) if name in found else None

    stated = "flow" in found
    return Asked(
        output=ozone,
        flow=found["flow"].measured("flow") if stated else _flow_of_line(rig),
        flow_stated=stated,
        bubble=measured("bubble", "bubble"),
        guard_share=measured("guard_share", "guard share"),
        slip_share=_slip(ozone, found),
    )  # fmt: skip


def _flow_of_line(rig: Rig) -> Measured:
    flow = gas_line(rig).flow
    if not flow:
        raise MissingValue(
            "the gas line gives no flow", where="flow",
            fix='State the flow: --flow "0.8 NL/min"; the gas-line command tells why.',
        )  # fmt: skip
    return Measured(flow, 0.0, "flow", Kind.NORMAL_FLOW, basis="gas line")


def _slip(ozone: Measured, found: Mapping[str, Typed]) -> Measured | None:
    if "tail_titre" in found:
        return _slip_of_titre(ozone, found)
    return found["slip"].measured("slip") if "slip" in found else None


def _slip_of_titre(ozone: Measured, found: Mapping[str, Typed]) -> Measured:
    """Return the ozone found in a tail bottle over the ozone sent in."""
    names = {name: found[name].measured(name.replace("_", " ")) for name in TITRE}
    names["output"] = ozone
    names["blank"] = (
        found["blank"].measured("blank")
        if "blank" in found
        else Measured(0.0, 0.0, "blank", Kind.VOLUME)
    )

    slip = propagate(caught_share, names)
    if slip.value <= 0.0:
        raise InputError(
            "the tail bottle's titre is not above its blank", where="tail_titre",
            got=found["tail_titre"].text, fix="State the slip as a share with its uncertainty.",
        )  # fmt: skip
    return Measured(slip.value, slip.u, "tail titre over output", Kind.SHARE, basis="tail titre")
