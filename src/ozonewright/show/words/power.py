"""What the power question says."""

from __future__ import annotations

from collections.abc import Callable

from ozonewright.show.numbers import percent, quantity, significant, with_u
from ozonewright.units import Kind

INSTRUMENTS = {"probe": "the probe", "capacitor": "the sense capacitor"}
BASIS = {"plug": "at the plug", "discharge": "of the discharge"}


def _time(value: float) -> str:
    unit = "µs" if value < 1e-3 else "ms"
    return quantity(value, Kind.TIME, unit, figures=2)


def _instruments(names: tuple[str, ...]) -> str:
    both = " and ".join(INSTRUMENTS[name] for name in names)
    have = "have" if len(names) > 1 else "has"
    return (
        f"{both[0].upper()}{both[1:]} {have} no ± of its own: type it (probes are often within 3 %, "
        "capacitors within 5 or 10 %, each channel of an oscilloscope within 3 %: common practice, no "
        "source). Until then the ± of this power is too small."
    )


def _volts(value: float) -> str:
    return quantity(value, Kind.VOLTAGE, "kV")


def _farads(value: float) -> str:
    return quantity(value, Kind.CAPACITANCE, "pF")


def _watts(value: float) -> str:
    return quantity(value, Kind.POWER, "W")


def _hertz(value: float) -> str:
    return quantity(value, Kind.FREQUENCY, "Hz")


SENTENCES: dict[str, Callable[..., str]] = {
    "power-sum-plug": lambda energy, time, power: (
        f"plug: {quantity(energy, Kind.ENERGY, 'Wh')} ÷ {quantity(time, Kind.TIME, 'h')} = {_watts(power)}"
    ),
    "power-sum-loop": lambda energy, frequency, power: (
        f"discharge: {quantity(energy, Kind.ENERGY, 'mJ')} for each cycle × {_hertz(frequency)} ÷ 1000 = "
        f"{_watts(power)}"
    ),
    "power-sum-peak": lambda rms, peak: (
        f"peak: {_volts(rms)} rms × √2 = {_volts(peak)}, if it is a sine"
    ),
    "power-sum-manley": lambda frequency, dielectric, gap, gap_voltage, peak, power: (
        f"discharge: 4 × {_hertz(frequency)} × {_farads(dielectric)} × {_volts(gap_voltage)} × "
        f"({_volts(peak)} − (1 + {_farads(gap)} ÷ {_farads(dielectric)}) × {_volts(gap_voltage)}) = "
        f"{_watts(power)} (pF kV² Hz = µW)"
    ),
    "power-sum-supply": lambda discharge, plug, share: (
        f"supply: {_watts(discharge)} ÷ {_watts(plug)} = {percent(share, 3)}"
    ),
    "power-sum-yield": lambda basis, rate, power, found, limit: (
        f"yield {BASIS[basis]}: {quantity(rate, Kind.MASS_RATE, 'g/h')} ÷ {_watts(power)} × 1000 = "
        f"{quantity(found, Kind.YIELD, 'g/kWh', figures=3)}; ÷ {quantity(limit, Kind.YIELD, 'g/kWh')} = "
        f"{percent(found / limit, 2)} of what the energy of the bonds allows"
    ),
    "power-above-plug": lambda share: (
        f"The gas can't get {percent(share, 3)} of what the plug gives: the ratio of the probe, the "
        "capacitor, peak against peak-to-peak, or the meter is wrong."
    ),
    "power-near-plug": lambda share: (
        f"The gas would get {percent(share, 3)} of what the plug gives; supplies lose a good part. Look at "
        "the ratio of the probe and at the capacitor."
    ),
    "power-beyond-limit": lambda basis, share: (
        f"The yield {BASIS[basis]} is {percent(share, 3)} of what the energy of the bonds allows: power or "
        "output is wrong."
    ),
    "power-high-yield": lambda basis, reached, best: (
        f"The yield {BASIS[basis]} is {quantity(reached, Kind.YIELD, 'g/kWh', figures=3)}; the best published "
        f"for oxygen is near {quantity(best, Kind.YIELD, 'g/kWh', figures=2)} (from memory). Look at power "
        "and output."
    ),
    "power-nothing-sure": lambda: (
        "The ± of these readings reach down to no power at all: they do not determine it. The largest "
        "share of the doubt is the reading to improve."
    ),
    "power-not-determined": lambda: (
        "What the gas gets is not determined, and that is the truth without a recorded loop: nothing at the "
        "plug tells it. Yields at the plug compare your own runs and pay the bill; published yields are "
        "mostly those of the discharge and stand higher."
    ),
    "power-meter": lambda: (
        "The meter at the plug has no ± of its own, only its last digit. With the bent current of such "
        "supplies plug meters err by some per cent (common practice, no source): type the ± of its papers."
    ),
    "power-standby-unknown": lambda: (
        "Fans, pump and an idle supply count at the plug too. Read the meter once with all running but the "
        "discharge, and type it as standby."
    ),
    "power-standby": lambda share: (
        f"{percent(share)} of the plug power runs without the discharge (fans, pump, idle supply); it counts "
        "in the yield at the plug."
    ),
    "power-manley": lambda: (
        "Manley's equation holds for one gap that burns all over, with one voltage while it burns. "
        "Capacitances that were worked out from dimensions, and a gap voltage from a table, can be off by "
        "much more than their ±."
    ),
    "power-rms": lambda: (
        "The peak is taken as that of a sine of this rms. A burning tube bends the voltage of a soft "
        "supply, and many meters do not read rms at its frequency: a peak from an oscilloscope is better."
    ),
    "power-near-ignition": lambda over: (
        f"The peak is only {significant(over, 3)} times the ignition voltage: the power is the difference of "
        "two near numbers, and hangs on both."
    ),
    "power-reading": lambda: (
        "The discharge power is taken as it was stated; how it was found is not known here."
    ),
    "power-instruments": _instruments,
    "power-charge-exact": lambda: (
        "The record holds charge: what the sense capacitor or integrator is off by is not in this ±."
    ),
    "power-phase": lambda share, time: (
        f"One degree of phase between the channels ({_time(time)}) moves this power by {percent(share)}: "
        "probe and lead must be equally fast. A blank tells it: the same leads just below ignition."
    ),
    "power-blank": lambda angle, u, power: (
        f"Below ignition the channels are {with_u(angle, u)} degrees apart (leads, and what leaks and warms "
        f"without discharge): {_watts(power)} were taken off."
    ),
    "power-blank-frequency": lambda blank, loop: (
        f"The blank is at {_hertz(blank)}, the loop at {_hertz(loop)}: a delay of leads is another angle there."
    ),
    "power-inverted": lambda: (
        "One channel was upside down; it was turned. (Charge and voltage of a capacitor rise together.)"
    ),
    "power-large-sense": lambda share: (
        f"The sense capacitor takes {percent(share)} of the voltage: a larger one disturbs the tube less. "
        "Its voltage was taken off that of the probe."
    ),
    "power-gaps": lambda left_out, cycles: (
        f"{left_out} cycles with gaps were left out; {cycles} are used."
    ),
    "power-few-cycles": lambda cycles: (
        f"{'One cycle has' if cycles == 1 else 'Two cycles have hardly any'}"
        f"{' no' if cycles == 1 else ''} scatter of {'its' if cycles == 1 else 'their'} own: record five or "
        "more."
    ),
    "power-few-samples": lambda samples: (
        f"About {samples:.0f} samples in a cycle: the corners of the loop are cut. A hundred or more are "
        "better."
    ),
    "power-coarse": lambda channel, steps: (
        f"Channel {channel} uses only about {steps:.0f} steps: choose a range that it fills."
    ),
    "power-drifts": lambda share: (
        f"A cycle leaves {percent(share)} of its charge over: offset, or a slow start. Let it settle."
    ),
    "power-uneven": lambda share: (
        f"The cycles differ in length by {percent(share)}: the supply pulses, or the middle of the wave is "
        "noisy. The power is the mean over all of them, pauses among them: record several bursts."
    ),
    "power-modulated": lambda share: (
        f"The energy differs by {percent(share)} from cycle to cycle: the supply is not smoothed, or the "
        "discharge flickers. Record over whole waves of the mains (20 ms at 50 Hz), else the power is that "
        "of a crest or of a trough."
    ),
    "power-short-record": lambda span: (
        f"The record spans {_time(span)}. A supply that is not smoothed is strong and weak a hundred times a "
        "second (120 at 60 Hz): see with 20 ms whether yours is one."
    ),
    "power-no-parallelogram": lambda: (
        "The loop has no two kinds of side: nothing burns, or the voltage is far from its usual form. The "
        "area holds, capacitances and gap voltage are not determined."
    ),
    "power-rounded": lambda share: (
        f"The sides are not straight: two lines miss by {percent(share)} of the charge. The gap burns in "
        "parts; capacitances and gap voltage are means. The area holds."
    ),
    "power-unlike-manley": lambda ratio: (
        f"Manley's equation with the loop's own numbers gives {percent(ratio, 3)} of the area: the loop is "
        "no parallelogram. The area counts."
    ),
    "power-read-plug": lambda: (
        "Read the meter at the plug, warm and running: watts, or kWh and the hours they took (better)."
    ),
    "power-state-output": lambda: (
        "State the output, or the notebook and setting it stands in: then a kilowatt-hour has its grams."
    ),
    "power-stay-at-plug": lambda: (
        "Stay with the plug unless a person with high-voltage practice, a probe rated for your supply and "
        "an earthed return are at hand: then record five cycles or more of voltage and charge."
    ),
    "power-keep": lambda power, u: (
        "Keep it with the runs it was measured at: under [electrical], "
        f'discharge_power = "{quantity(power, Kind.POWER, "W", u)}".'
    ),
}
