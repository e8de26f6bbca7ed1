"""The answer of a simulated run: end, marks, cost of being late, signs."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ozonewright.physics.liquid.batch import Array
from ozonewright.questions.absorber.draws import DRAWS, Drawn
from ozonewright.questions.absorber.leaving import not_known
from ozonewright.questions.absorber.moments import at_times, first_rise
from ozonewright.questions.absorber.run_result import RunPoint, SimulatedRun
from ozonewright.questions.absorber.signs import RISE, signs
from ozonewright.questions.absorber.simulate import DONE, MINUTE, Simulated, simulate
from ozonewright.records.absorber import Asked
from ozonewright.records.flask import Flasked
from ozonewright.records.rig import Rig
from ozonewright.references.ozone_solubility import solubility_band
from ozonewright.references.ozone_solvents import ozone_with
from ozonewright.results import Note
from ozonewright.uncertain import Estimate, Measured
from ozonewright.units import Kind

CLEAR = 0.01
"""Of the dissolved ozone, left after the purge."""
TOO_LONG = 10.0
"""Minutes over which the cost of being late is told."""
MUCH_DRIED = 0.1
"""Share of the liquid whose loss is told as a doubt."""
MUCH_GONE = 0.01
"""Share of substrate or product that the gas carries off, told as a doubt."""
SOURCES = (
    "hairer_1996", "hoigne_1983", "decoursey_1974", "sander_2023", "brown_2024", "reisz_2018",
    "schwarzenbach_2003", "joback_1987", "chemicals_library",
)  # fmt: skip
METHODS = (
    "bubbles in plug flow through mixed liquid, the enhancement at the sparger",
    "chains of attacks of second order, each stage spoilt by what should stay",
    "gas leaves in balance with what is dissolved and with the solvent, as far as the films let it",
    "Rodas4, every draw with its own step, relative error 1e-4 a step",
    "Monte Carlo",
)


def simulated_run(
    rig: Rig, asked: Asked, reaction: Flasked, *, draws: int = DRAWS, seed: int = 0
) -> SimulatedRun:
    """Return a reaction minute by minute, as sure as its inputs are."""
    found = simulate(rig, asked, reaction, Drawn(draws, seed))
    books, drawn = found.books, found.drawn
    ends = first_rise(found.times, books.done, DONE)
    done = np.isfinite(ends)
    finished = bool(done[0])
    at_end = np.where(done, ends, found.times[-1])
    stop = found.stop
    look = float(np.quantile(at_end, 0.025)) if finished else None
    product = books.product.mean(axis=1)
    shown = drawn.estimate if finished else _nothing
    off_gas = found.off_gas()
    rows = tuple(signs(found, at_end, reaction.trap)) if finished else ()
    half = at_times(found.times, off_gas, 0.5 * at_end)
    behind = off_gas[-1]
    return SimulatedRun(
        label=reaction.label,
        rig=rig.label,
        draws=draws,
        on_time=shown(at_end),
        unfinished=float(np.mean(~done)),
        uptake=shown(_uptake(found, at_end)),
        modelled=found.drawn.estimate(found.modelled),
        correction=None if found.contact is None else found.drawn.estimate(found.contact),
        product=shown(at_times(found.times, books.product, at_end)),
        spoilt=shown(at_times(found.times, books.spoilt, at_end)),
        look_from=look,
        stop_by=float(found.times[stop]) if finished else None,
        best_product=float(product[stop]) if finished else None,
        late=shown(_late(found)),
        off_gas_before=shown(half),
        off_gas_after=shown(behind),
        dissolved=shown(books.dissolved[stop]),
        purge=shown(_purge(found)) if finished else None,
        raw_off=shown(at_times(found.times, books.raw_off, at_end)),
        made_off=shown(at_times(found.times, books.made_off, at_end)),
        solvent=shown((1.0 - books.volume[stop]) * found.liquid),
        solvent_share=shown(1.0 - books.volume[stop]),
        to_solvent=shown(books.to_solvent[stop] / books.fed[stop]),
        ozone_balance=books.ozone_imbalance,
        carbon_balance=books.carbon_imbalance,
        signs=rows,
        points=tuple(_points(found, off_gas)),
        unknowns=tuple(not_known(reaction)),
        notes=tuple(_notes(found, reaction, finished, half, behind)),
        sources=SOURCES,
        methods=METHODS,
    )


def uptake_of(run: SimulatedRun, name: str) -> Measured | None:
    """Return the uptake as an input of a plan; None where the run is not done."""
    found = run.uptake
    if not isinstance(found, Estimate):
        return None
    return Measured(found.value, found.u, f"uptake of {name} by the model", Kind.SHARE,
                    basis="model")  # fmt: skip


def _nothing(values: Array) -> None:
    return None


def _uptake(found: Simulated, when: Array) -> Array:
    books = found.books
    return at_times(found.times, books.taken, when) / at_times(found.times, books.fed, when)


def _late(found: Simulated) -> Array:
    """Return what a minute too long costs: the mean of the ten minutes after most product."""
    product = found.books.product
    best = found.times[np.argmax(product, axis=0)]
    lost = product.max(axis=0) - at_times(found.times, product, best + TOO_LONG * MINUTE)
    return np.asarray(lost / TOO_LONG)


def _purge(found: Simulated) -> Array:
    gone = 1.0 - found.purged / np.maximum(found.purged[0], 1e-12)
    times = first_rise(found.purge_times, gone, 1.0 - CLEAR)
    return np.where(np.isfinite(times), times, found.purge_times[-1])


def _points(found: Simulated, off_gas: Array) -> Iterator[RunPoint]:
    books = found.books
    bands = {
        name: np.quantile(values, (0.5, 0.025, 0.975), axis=1)
        for name, values in (
            ("converted", books.converted), ("product", books.product), ("off_gas", off_gas),
        )
    }  # fmt: skip
    spoilt, dissolved = (np.median(v, axis=1) for v in (books.spoilt, books.dissolved))
    for place, time in enumerate(found.times):
        middle, low, high = (
            {name: float(band[row][place]) for name, band in bands.items()} for row in range(3)
        )
        yield RunPoint(
            time=float(time),
            **middle,
            **{f"{name}_low": value for name, value in low.items()},
            **{f"{name}_high": value for name, value in high.items()},
            spoilt=float(spoilt[place]),
            dissolved=float(dissolved[place]),
        )


def _notes(
    found: Simulated, reaction: Flasked, finished: bool, half: Array, behind: Array
) -> Iterator[Note]:
    if not finished:
        yield Note("absorber-run-not-done", "wrong", {"time": float(found.times[-1])})
    before, after = float(half[0]), float(behind[0])
    rise = after / max(before, 1e-12)
    if finished and rise >= RISE:
        yield Note(
            "absorber-off-gas-tells", "advice",
            {"half": before, "end": after},
        )  # fmt: skip
    elif finished:
        yield Note(
            "absorber-off-gas-silent", "doubt",
            {"half": before, "end": after},
        )  # fmt: skip
    if reaction.solvent != "water":
        yield Note(
            "absorber-run-solubility", "doubt",
            {"liquid": reaction.solvent, "known": solubility_band(reaction.solvent).known},
        )  # fmt: skip
    yield from _solvent(found, reaction)
    if reaction.mixed:
        yield Note("absorber-run-mixed", "doubt", {"liquid": reaction.solvent})
    yield from _gone(found, reaction)


def _solvent(found: Simulated, reaction: Flasked) -> Iterator[Note]:
    known, name = ozone_with(reaction.solvent), reaction.solvent
    if known is None:
        yield Note("absorber-run-solvent-unknown", "doubt",
                   {"liquid": name, "reacts": found.bottle.liquid.reacts})  # fmt: skip
    else:
        yield Note("absorber-run-solvent-takes", "advice",
                   {"liquid": name, "evidence": known.evidence})  # fmt: skip
    dried = 1.0 - float(found.books.volume[found.stop, 0])
    if dried >= MUCH_DRIED:
        yield Note("absorber-run-dries", "doubt", {"liquid": name, "share": dried})


def _gone(found: Simulated, reaction: Flasked) -> Iterator[Note]:
    books, stop = found.books, found.stop
    for one in reaction.reactants:
        if one.substrate is None or one.product is None:
            yield Note("absorber-run-strips-unknown", "doubt", {"name": one.name})
    if any(
        each is not None and each.estimated
        for one in reaction.reactants
        for each in (one.substrate, one.product)
    ):
        yield Note("absorber-run-strips-estimated", "advice")
    for which, off in (("substrate", books.raw_off), ("product", books.made_off)):
        high = float(np.quantile(off[stop], 0.975))
        if high >= MUCH_GONE:
            yield Note("absorber-run-strips", "doubt",
                       {"which": which, "share": float(off[stop, 0]), "high": high})  # fmt: skip
