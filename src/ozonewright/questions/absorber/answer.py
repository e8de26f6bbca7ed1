"""How much of the ozone the bottles take up."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ozonewright.errors import Inconsistent
from ozonewright.physics.gas.composition import ozone_concentration
from ozonewright.physics.liquid.bubble import gas_hold_up_nicklin_1962, superficial
from ozonewright.physics.liquid.in_a_row import guard_share, in_series
from ozonewright.physics.liquid.swarm import enhancement_at, filling_time, hatta_of
from ozonewright.questions.absorber.beside import beside
from ozonewright.questions.absorber.checks import check_bubbles, check_gas
from ozonewright.questions.absorber.course import Worn, worn
from ozonewright.questions.absorber.draws import Array, Drawn
from ozonewright.questions.absorber.measured import correction
from ozonewright.questions.absorber.model import Stream, section_of, stream
from ozonewright.questions.absorber.passing import Passed, Train, as_array, pass_through
from ozonewright.questions.absorber.remarks import notes, unknowns, working
from ozonewright.questions.absorber.result import Absorber, BottleRow
from ozonewright.questions.absorber.train import train
from ozonewright.questions.absorber.what_if import curves, what_if
from ozonewright.records.absorber import Asked
from ozonewright.records.rig import Rig
from ozonewright.references.constants import M_O3, NORMAL_PRESSURE

METHODS = (
    "bubbles in plug flow through mixed liquid, two films in series",
    "bubble of an opening: the larger of Tate's and Davidson and Schueler's",
    "rise: the slower of a ball (Ferguson and Church) and a wave (Mendelson); with gas: Nicklin",
    "transfer in the liquid: Higbie above 2.5 mm, Froessling below 0.5 mm, weighted between",
    "transfer in the gas: Newman, 1 to 2.7 times",
    "reaction: DeCoursey's enhancement with the Hatta number",
    "salt: Sechenov's law as Kosak-Channing and Helz",
    "Monte Carlo with 400 draws",
)
SOURCES = (
    "sander_2023", "kosak_channing_1983", "johnson_1996", "wilke_1955", "tate_1864",
    "davidson_1960", "mendelson_1967", "ferguson_2004", "nicklin_1962", "higbie_1935",
    "froessling_1938", "newman_1931", "decoursey_1974", "brown_2024",
)  # fmt: skip


def absorber(rig: Rig, asked: Asked) -> Absorber:
    """Return how much of the ozone the bottles take up, and what would change it.

    Raises
    ------
    Faults
        No bottle, or one without volume, depth or liquid.
    OutOfBounds, Inconsistent
        Frozen liquid, a bubble larger than its bottle, more ozone than gas.
    NotApplicable
        A measurement that no transfer of this train can explain.
    """
    bottles = train(rig)
    if asked.guard_share is not None and len(bottles) < 2:
        raise Inconsistent(
            "a guard share needs a second bottle", where="guard_share",
            got=f"{len(bottles)} bottle", fix="Add the guard bottle to the rig.",
        )  # fmt: skip
    ambient = rig.ambient.pressure
    whole = Train(bottles, asked, ambient.value if ambient else NORMAL_PRESSURE, Drawn())
    gas = stream(asked, whole.drawn)
    check_gas(gas)
    plain = whole.columns(gas)
    check_bubbles(bottles, plain)
    modelled = pass_through(plain, gas)
    factor = correction(asked, whole.drawn, lambda by: [
        one.left for one in pass_through([replace(c, correction=by) for c in plain], gas)
    ])  # fmt: skip
    passed = modelled if factor is None else pass_through(
        [replace(c, correction=factor) for c in plain], gas
    )  # fmt: skip
    return _answer(rig, whole, gas, modelled, passed, factor)


def _answer(
    rig: Rig, whole: Train, gas: Stream, modelled: list[Passed], passed: list[Passed],
    factor: Array | None,
) -> Absorber:  # fmt: skip
    drawn, asked = whole.drawn, whole.asked
    lefts = [one.left for one in passed]
    left = in_series(lefts=lefts)
    course = worn(whole, gas, [one.column for one in passed])
    rows = tuple(_rows(whole, gas, passed, course))
    first = rows[0]
    by = None
    if factor is not None:
        by = "guard share" if asked.guard_share is not None else "ozone behind the bottles"
    centre = 1.0 if factor is None else float(factor[0])
    changes = tuple(what_if(whole, centre))
    found = Absorber(
        label=rig.label,
        efficiency=drawn.estimate(as_array(1.0 - left)),
        slip=drawn.estimate(as_array(gas.ozone * left * M_O3)),
        modelled=drawn.estimate(as_array(1.0 - in_series(lefts=[one.left for one in modelled]))),
        measured_by=by,
        correction=None if factor is None else drawn.estimate(factor),
        guard_share=drawn.estimate(as_array(guard_share(lefts=lefts))) if len(lefts) > 1 else None,
        dissolved=first.dissolved,
        bubble=first.bubble,
        kl=first.kl,
        hatta=first.hatta,
        output=drawn.estimate(as_array(gas.ozone * M_O3)),
        flow=drawn.estimate(drawn.of(asked.flow)),
        concentration=drawn.estimate(
            as_array(ozone_concentration(mole_fraction=gas.ozone / gas.gas))
        ),
        bottles=rows,
        breaks=course.breaks,
        course=course.rows,
        curves=tuple(curves(whole, centre)),
        what_if=changes,
        unknowns=tuple(unknowns(rig, whole.bottles)),
        sources=SOURCES,
        methods=METHODS,
    )
    return replace(
        found,
        working=tuple(working(whole.bottles, passed, found)),
        notes=tuple(notes(whole.bottles, asked, found)),
    )


def _rows(whole: Train, gas: Stream, passed: list[Passed], course: Worn) -> Iterator[BottleRow]:
    drawn, ozone = whole.drawn, gas.ozone
    for bottle, one, lasts in zip(whole.bottles, passed, course.lasts, strict=True):
        made = one.column
        taken = 1.0 - one.left
        ozone = ozone * one.left
        reacts = bottle.holds != "nothing"
        full = one.dissolved if reacts else made.partition * one.before
        through = superficial(flow=made.flow, section=section_of(bottle))
        yield BottleRow(
            name=bottle.name,
            liquid=bottle.liquid.name,
            holds=bottle.holds,
            efficiency=drawn.estimate(as_array(taken)),
            slip=drawn.estimate(as_array(ozone * M_O3)),
            dissolved=drawn.estimate(as_array(full * M_O3)),
            off_gas=drawn.estimate(as_array(ozone_concentration(mole_fraction=ozone / gas.gas))),
            partition=drawn.estimate(as_array(made.partition)),
            bubble=drawn.estimate(as_array(made.bubble)),
            rise=drawn.estimate(as_array(made.rise)),
            contact=drawn.estimate(as_array(made.depth / made.rise)),
            hold_up=drawn.estimate(
                as_array(gas_hold_up_nicklin_1962(superficial=through, rise=made.rise - through))
            ),
            kl=drawn.estimate(as_array(made.kl)),
            **beside(bottle, made, through),
            hatta=drawn.estimate(as_array(hatta_of(column=made) + 0.0 * made.kl)),
            enhancement=drawn.estimate(as_array(enhancement_at(column=made, gas=one.before))),
            lasts=lasts,
            fills=None if reacts else drawn.estimate(
                as_array(filling_time(column=made, gas=one.before))
            ),
        )  # fmt: skip
