"""What the room question says."""

from __future__ import annotations

from collections.abc import Callable

from ozonewright.show.numbers import percent, quantity, significant
from ozonewright.units import Kind


def _ppm(fraction: float, figures: int = 2) -> str:
    return quantity(fraction, Kind.MOLE_FRACTION, "ppm", figures=figures)


def _rate(value: float, figures: int = 3) -> str:
    return quantity(value, Kind.RATE, "1/h", figures=figures)


def _minutes(seconds: float) -> str:
    return quantity(seconds, Kind.TIME, "min", figures=3)


def _vol(fraction: float) -> str:
    return quantity(fraction, Kind.MOLE_FRACTION, "vol%", figures=3)


def _flow(value: float) -> str:
    return quantity(value, Kind.VOLUME_FLOW, "L/min", figures=3)


SENTENCES: dict[str, Callable[..., str]] = {
    "room-grave": lambda grave: (
        f"At {_ppm(grave, 1)} and above, ozone is immediately dangerous to life or health; here it gets there, or nothing takes it away: nobody stays in this room."
    ),
    "room-limit-unknown": lambda: (
        'No limit is stated, so nothing here is called safe. Write limit = "0.1 ppm", or a jurisdiction of the table.'
    ),
    "room-limit-own": lambda limit: (
        f"{limit} is your own limit, not one of a jurisdiction; it is taken as never to be passed."
    ),
    "room-limit-table": lambda name, value, basis, dated, evidence, note: (
        f"{name}: {_ppm(value)}, {basis} (state of {dated}; {evidence}; {note}). Look up the edition in force."
    ),
    "room-mean": lambda mean, time: (
        f"The mean over {_minutes(time)} from the beginning is {_ppm(mean)}; the times above hold for the moment, which is stricter than this limit asks."
    ),
    "room-air-changes-unknown": lambda: (
        "Air changes not stated: none are counted. Half an air change per hour is usual with doors and windows shut (common practice, no source)."
    ),
    "room-removal-published": lambda value, u: (
        f"Loss on surfaces not stated: {quantity(value, Kind.RATE, '1/h', u)} (mean and spread) of 43 furnished homes stands in its place; a bare workshop takes less away."
    ),
    "room-temperature-assumed": lambda temperature: (
        f"Temperature not stated: ppm are of air at {quantity(temperature, Kind.TEMPERATURE, '°C', figures=2)}."
    ),
    "room-mixed": lambda: (
        "This is the mean of a well-mixed room. Beside a leak, and down-wind of it, there is many times as much at once."
    ),
    "room-odour": lambda low, high: (
        f"The nose is no safeguard: people begin to smell ozone between {_ppm(low, 1)} and {_ppm(high, 1)}, and stop within minutes."
    ),
    "room-sum-loss": lambda fresh, removal, loss: (
        f"Loss: air changes {_rate(fresh)} + surfaces and decay {_rate(removal)} = {_rate(loss)}."
    ),
    "room-sum-steady": lambda release, volume, loss, steady, fraction: (
        f"In the end: {quantity(release, Kind.MASS_RATE, 'mg/h')} ÷ ({quantity(volume, Kind.VOLUME, 'm3')} × {_rate(loss)}) = {quantity(steady, Kind.MASS_CONCENTRATION, 'mg/m3')}, which is {_ppm(fraction, 3)}."
    ),
    "room-sum-puff": lambda mass, volume, peak: (
        f"At once: {quantity(mass, Kind.MASS, 'mg')} ÷ {quantity(volume, Kind.VOLUME, 'm3')} is {_ppm(peak, 3)}."
    ),
    "room-sum-time": lambda minutes: (
        f"Time to the limit: −ln(1 − limit ÷ end) ÷ loss = {significant(minutes, 3)} min."
    ),
    "room-next-limit": lambda: (
        "Choose the limit that holds where you work, and write it into the room."
    ),
    "room-next-catch": lambda: (
        "Catch the ozone before it reaches the room: tail bottle, then destruct or outdoors, every joint tested; fresh air comes second."
    ),
    "room-next-air": lambda needed, high, fan: (
        f"By fresh air alone it would take {_rate(needed, 2)} ({quantity(fan, Kind.VOLUME_FLOW, 'm3/h', figures=2)}); with what is uncertain up to {_rate(high, 2)}. A fan moves about half its free rating through holes (common practice, no source)."
    ),
    "room-next-detector": lambda share: (
        f"{percent(share)} of the rooms that these figures allow pass the limit: put a detector where you breathe."
    ),
    "room-next-measure": lambda: (
        "Measure this room: let a little ozone in, stop, and read a detector every minute; the fall gives its losses."
    ),
    "room-oxygen-no-air": lambda: "Neither air changes nor a fan are stated: none are counted.",
    "room-oxygen-near": lambda: (
        "This is the mean. Beside the leak or the vent there is far more, and cold oxygen lies low."
    ),
    "room-oxygen-service": lambda: (
        "Parts for oxygen: free of oil and grease, rated for it, valves opened slowly, cylinder upright and chained; no oxygen joint inside a box with high voltage."
    ),
    "room-oxygen-clothes": lambda: (
        "Clothes and hair hold oxygen: after a leak stay a quarter of an hour in fresh air, away from any flame (common practice, no source)."
    ),
    "room-oxygen-vent": lambda needed: (
        f"Vent it outdoors, or move {quantity(needed, Kind.VOLUME_FLOW, 'L/min', figures=2)} of fresh air: fan first, airflow proven, then oxygen. A fan moves about half its free rating through holes (common practice, no source)."
    ),
    "room-oxygen-fan": lambda time: (
        f"If the fan fails, it is enriched after {_minutes(time)}: the fan must switch the oxygen and the high voltage."
    ),
    "room-oxygen-sum-steady": lambda flow, fresh, share, air, steady: (
        f"In the end: {_vol(air)} + ({_vol(share)} − {_vol(air)}) × {_flow(flow)} ÷ ({_flow(flow)} + {_flow(fresh)}) = {_vol(steady)}."
    ),
    "room-oxygen-sum-needed": lambda flow, share, limit, air, needed: (
        f"Fresh air for {_vol(limit)}: {_flow(flow)} × ({_vol(share)} − {_vol(limit)}) ÷ ({_vol(limit)} − {_vol(air)}) = {_flow(needed)}."
    ),
    "room-oxygen-sum-time": lambda minutes, volume: (
        f"Time: the rise follows 1 − exp(−all gas × time ÷ {quantity(volume, Kind.VOLUME, 'm3', figures=3)}), and reaches the limit after {significant(minutes, 2)} min."
    ),
    "room-detector-undetermined": lambda: (
        "These readings do not tell the loss of the room from the release: they fit many pairs of the two."
    ),
    "room-detector-no-air": lambda: (
        "Air changes not stated: removal on surfaces can't be told from fresh air; both are in the loss."
    ),
    "room-detector-unmarked": lambda: (
        'No beginning or end of the ozone is logged: one release all the time is taken. Log "discharge on" and "discharge off" of the room.'
    ),
    "room-detector-place": lambda: (
        "It is the air at the detector; a detector beside the leak tells the leak, not the room."
    ),
    "room-detector-next": lambda: (
        "Read the detector every minute for half an hour after the ozone is off: the fall tells the loss alone."
    ),
}
