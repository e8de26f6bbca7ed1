"""Worlds for the benchmark of drift: made here by simple sums, apart from the program's own model.

Written and committed before the thresholds of the question were touched. Effect sizes are multiples
of the noise of a usual run; shapes and sizes come from other distributions than the program's
priors: uniform where those are log-normal, square roots and ramps beside exponentials.

A world answers what the burette would have read for any run; it knows nothing of the program.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np

MG = 1e-6 / 47.997e-3
"""One milligram of ozone, in mol."""


@dataclass(frozen=True)
class Ask:
    """One run as it is set up."""

    seconds: float
    start: str | None = "cold"
    discharge: bool = True
    iodide: float = 1.0
    acid: float = 1.0
    flow: float = 1.0
    guard: bool = False


@dataclass
class World:
    """What is true, and what was asked so far."""

    cause: str
    size: float
    """Multiple of the noise of the usual run."""
    rate: float
    """mg/s"""
    noise: float
    """Relative reading noise."""
    scatter: float
    """Relative run-to-run scatter."""
    rest: float
    """Seconds between runs."""
    starts: list[Ask]
    values: dict[str, float] = field(default_factory=dict)
    stated: float = 1.0
    """Stated uncertainty over the true one."""
    shuffled: bool = False
    """The order that is told is not the true one."""
    done: int = 0
    warmth: float = 0.0
    wrong_run: int = -1

    def read(self, ask: Ask, stream: np.random.Generator) -> tuple[float, float]:
        """Return what all bottles and the guard bottle alone read, in mg."""
        ozone, guard = self._ozone(ask)
        shake = 1.0 + self.scatter * stream.standard_normal()
        if self.cause == "scatter":
            shake *= 1.0 + self.values["scatter"] * stream.standard_normal()
        if self.done == self.wrong_run:
            shake *= 1.0 + self.values["misread"]
        ozone, guard = ozone * shake, guard * shake
        surplus = self.values.get("blank", 0.0) + self.values.get("aerial", 0.0) * ask.seconds
        if ask.guard:
            guard += surplus * self.values.get("in_guard", 0.5)
        self.done += 1
        # Reading: 0.05 mL of 0.1 mol/L is 0.12 mg, and a share of what is read.
        total = ozone + surplus
        sigma = (0.12**2 + (self.noise * total) ** 2) ** 0.5
        return (
            total + guard * ask.guard + sigma * stream.standard_normal(),
            guard + 0.12 * stream.standard_normal(),
        )

    @property
    def shift(self) -> float:
        """Return how far the cause moves the usual run, as a share of it; without noise."""
        times = sorted(ask.seconds for ask in self.starts)
        usual = times[(len(times) - 1) // 2]
        if self.cause in ("misread", "scatter"):
            return abs(self.values[self.cause])
        if "creep" in self.values:
            return abs(self.values["creep"]) * (len(times) - 1)
        if "power" in self.values:
            far = max(times[-1] / usual, usual / times[0])
            return float(abs(far ** self.values["power"] - 1.0))
        return max(self._moved(time) for time in times if time >= usual)

    def _moved(self, usual: float) -> float:
        bare = replace(self, values={"slip_usual": 0.0}, cause="steady", done=0, warmth=0.0)
        full = replace(self, done=0, warmth=0.0)
        ask = Ask(usual)
        without = bare._ozone(ask)[0]
        surplus = self.values.get("blank", 0.0) + self.values.get("aerial", 0.0) * usual
        with_it = full._ozone(ask)[0] / (
            1.0 - self.values["slip_usual"] * ("slip" not in self.values)
        )
        return abs(with_it + surplus - without) / without

    def u(self, total: float) -> float:
        """Return the uncertainty that the person states."""
        return self.stated * (0.12**2 + (self.noise * total) ** 2) ** 0.5

    def _ozone(self, ask: Ask) -> tuple[float, float]:
        v, t = self.values, ask.seconds
        if not ask.discharge:
            self._rest(0.0)
            return 0.0, 0.0
        rate = self.rate * ask.flow ** v.get("flow_power", 0.3)
        rate *= 1.0 + v.get("creep", 0.0) * self.done
        made = rate * t
        if "excess" in v:
            cold = self._coldness(ask)
            made += rate * v["excess"] * cold * self._warming(t)
            self._rest(t)
        if "power" in v:
            made = rate * v["middle"] * (t / v["middle"]) ** (1.0 + v["power"])
        switched = ask.start == "diverted"
        made += rate * v.get("late", 0.0)
        if not switched:
            made += rate * (v.get("stored", 0.0) - v.get("lag", 0.0)) / ask.flow
        made = max(made, 0.0)
        slip = v.get("slip", v.get("slip_usual", 0.0))
        caught = made * (1.0 - slip)
        guard = made * slip * (1.0 - slip) if ask.guard else 0.0
        if "capacity" in v:
            caught = min(caught, v["capacity"] * ask.iodide)
        if "loss" in v:
            k = v["loss"] * ask.flow / ask.iodide
            caught *= (1.0 - np.exp(-k * t)) / (k * t)
        if "acid" in v:
            limit = v["acid"] * ask.acid
            caught = min(caught, limit + 0.1 * max(caught - limit, 0.0))
        return caught, guard

    def _warming(self, t: float) -> float:
        """Return the seconds of excess: an exponential, or a straight ramp of the same area."""
        tau = self.values["tau"]
        if self.values.get("ramp"):
            end = 2.0 * tau
            return t - t**2 / (2.0 * end) if t < end else end / 2.0
        return float(tau * (1.0 - np.exp(-t / tau)))

    def _coldness(self, ask: Ask) -> float:
        if ask.start in ("warm", "diverted"):
            return 0.0
        return 1.0 - self.warmth if self.cause == "carried-warming" else 1.0

    def _rest(self, t: float) -> None:
        v = self.values
        if "excess" not in v:
            return
        warm = 1.0 - (1.0 - self.warmth) * np.exp(-t / v["tau"])
        self.warmth = float(warm * np.exp(-self.rest / v.get("cool", 300.0)))


def _sizes(
    cause: str, effect: float, rate: float, ask: float, stream: np.random.Generator
) -> dict[str, float]:
    """Return the values that move the usual run (`ask` seconds) by `effect` of itself."""
    usual = rate * ask
    up = stream.uniform(0.7, 1.3) * effect
    tau = stream.uniform(0.35, 1.1) * ask
    ramp = float(stream.random() < 0.3)
    weight = tau * (1.0 - np.exp(-ask / tau)) / ask
    sign = -1.0 if stream.random() < 0.15 else 1.0
    excess = max(sign * up / weight, -0.8)
    return {
        "steady": dict[str, float],
        "blank-surplus": lambda: {"blank": up * usual, "in_guard": stream.uniform(0.0, 1.0)},
        "aerial-oxidation": lambda: {"aerial": up * rate, "in_guard": stream.uniform(0.5, 1.0)},
        "timing-surplus": lambda: {"late": up * ask},
        "stored-gas": lambda: {"stored": up * ask},
        "hold-up": lambda: {"lag": min(up, 0.35) * ask},
        "cold-start": lambda: {"excess": excess, "tau": tau, "ramp": ramp},
        "carried-warming": lambda: {
            "excess": excess,
            "tau": tau,
            "ramp": ramp,
            "cool": tau * stream.uniform(1.0, 2.5),
        },
        "iodide-spent": lambda: {"capacity": max(1.0 - up, 0.3) * usual},
        "iodine-loss": lambda: {"loss": 2.0 * up / ask},
        "iodate-left": lambda: {"acid": max(1.0 - up, 0.3) * usual},
        "slip": lambda: {"slip": min(up, 0.4)},
        "flow-creep": lambda: {"creep": stream.choice([-1.0, 1.0]) * up / 2.0},
        "misread": lambda: {"misread": stream.choice([-1.0, 1.0]) * up},
        "scatter": lambda: {"scatter": up},
    }[cause]()  # type: ignore[no-any-return]


CAUSES = (
    "steady", "blank-surplus", "aerial-oxidation", "timing-surplus", "stored-gas", "hold-up",
    "cold-start", "carried-warming", "iodide-spent", "iodine-loss", "iodate-left", "slip",
    "flow-creep", "misread", "scatter",
)  # fmt: skip
OUTSIDE = ("power-law", "two-at-once", "wrong-order", "u-three-times-too-small")
EFFECTS = (1.0, 3.0, 10.0)
"""Multiples of the noise of a usual run."""


def world(cause: str, size: float, seed: int) -> World:
    """Return a world; `cause` may be one of `OUTSIDE`."""
    kind = CAUSES.index(cause) if cause in CAUSES else 100 + OUTSIDE.index(cause)
    stream = np.random.default_rng([seed, kind, int(size)])
    rate = stream.uniform(4.0, 20.0) / 60.0
    noise, scatter = stream.uniform(0.004, 0.01), stream.uniform(0.003, 0.009)
    count = int(stream.integers(3, 6))
    shortest = stream.uniform(90.0, 180.0)
    times = [shortest * factor for factor in (1.0, 2.0, 4.0, 3.0, 1.0)[:count]]
    if stream.random() < 0.4:
        stream.shuffle(times)
    usual = sorted(times)[(count - 1) // 2]
    whole = float(np.hypot(noise, scatter))
    true = cause
    if cause == "two-at-once":
        true = "cold-start"
    elif cause in ("wrong-order", "u-three-times-too-small"):
        inside = [name for name in CAUSES if name not in ("slip", "aerial-oxidation", "misread")]
        true = inside[int(stream.integers(len(inside)))]
    values = {} if cause == "power-law" else _sizes(true, size * whole, rate, usual, stream)
    if cause == "power-law":
        values = {"power": stream.choice([-1.0, 1.0]) * size * whole, "middle": usual}
    if cause == "two-at-once":
        values |= _sizes("blank-surplus", size * whole, rate, usual, stream)
    values["slip_usual"] = stream.uniform(0.0, 0.03)
    made = World(
        cause=true,
        size=size,
        rate=rate,
        noise=noise,
        scatter=scatter,
        rest=stream.uniform(120.0, 1200.0),
        starts=[Ask(time) for time in times],
        values=values,
        stated=1.0 / 3.0 if cause == "u-three-times-too-small" else 1.0,
        shuffled=cause == "wrong-order",
    )
    if true == "misread":
        made.wrong_run = int(stream.integers(count))
    return made
