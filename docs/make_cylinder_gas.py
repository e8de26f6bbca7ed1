"""Writes the table of real-gas factors of cylinder gas from CoolProp (a development dependency).

python docs/make_cylinder_gas.py          writes src/ozonewright/references/cylinder_gas.csv
python docs/make_cylinder_gas.py --check  says whether it is what CoolProp gives, exit 1 if not
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import CoolProp
from CoolProp.CoolProp import PropsSI

from ozonewright.units import Kind
from ozonewright.units.table import to_si

TABLE = Path(__file__).parents[1] / "src" / "ozonewright" / "references" / "cylinder_gas.csv"
EQUATIONS = {
    "oxygen": ("Oxygen", "equation of state of Schmidt and Wagner 1985"),
    "nitrogen": ("Nitrogen", "equation of state of Span and others 2000"),
    "air": ("Air", "equation of state of Lemmon and others 2000"),
}
CELSIUS = range(-50, 101, 10)
BAR = range(0, 321, 20)
HEAD = (
    "gas,temperature,pressure,factor,u,source,locator,evidence,note",
    "-,degC,bar,1,1,-,-,-,-",
)


def factor(fluid: str, celsius: float, bar: float) -> float:
    """Return p V/(n R T); a gas without pressure is ideal."""
    if bar == 0.0:
        return 1.0
    temperature = to_si(celsius, Kind.TEMPERATURE, "°C")
    return float(PropsSI("Z", "T", temperature, "P", to_si(bar, Kind.PRESSURE, "bar"), fluid))


def lines() -> Iterator[str]:
    """Yield the lines of the table."""
    yield from HEAD
    major = CoolProp.__version__.split(".")[0]
    for gas, (fluid, equation) in EQUATIONS.items():
        for celsius in CELSIUS:
            for bar in BAR:
                value = factor(fluid, celsius, bar)
                yield (
                    f"{gas},{celsius},{bar},{value:.6f},unstated,bell_2014,"
                    f"CoolProp {major}: {equation},library,"
                )


def main() -> int:
    """Write the table, or check it."""
    text = "\n".join(lines()) + "\n"
    if "--check" not in sys.argv:
        TABLE.write_text(text, encoding="utf-8")
        return 0
    fresh = TABLE.read_text(encoding="utf-8") == text
    print("fresh" if fresh else "stale: run python docs/make_cylinder_gas.py")
    return 0 if fresh else 1


if __name__ == "__main__":
    sys.exit(main())
