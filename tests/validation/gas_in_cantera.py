"""The gas of a discharge as a mechanism of Cantera: plug flow, every species followed.

Rate constants are typed again from the sources (cm³, molecules, s); the electrons' work, which no
mechanism file knows, is written as first-order reactions whose constants the power gives.
"""

from __future__ import annotations

import cantera as ct

MOLECULES = 6.02214076e20
"""Of a kilomole, per cubic metre in a cubic centimetre."""
ATOMS = {
    "O": {"O": 1}, "O1D": {"O": 1}, "O2": {"O": 2}, "O3": {"O": 3}, "N2": {"N": 2}, "AR": {"Ar": 1},
    "NO": {"N": 1, "O": 1}, "NO2": {"N": 1, "O": 2}, "NO3": {"N": 1, "O": 3},
    "N2O5": {"N": 2, "O": 5}, "HNO3": {"H": 1, "N": 1, "O": 3}, "H": {"H": 1},
    "OH": {"O": 1, "H": 1}, "HO2": {"H": 1, "O": 2}, "H2O": {"H": 2, "O": 1},
    "H2O2": {"H": 2, "O": 2},
}  # fmt: skip
TWO_BODIES = (
    ("O + O3 => 2 O2", 8.0e-12, 0.0, 2060.0), ("NO + O3 => NO2 + O2", 3.0e-12, 0.0, 1500.0),
    ("NO2 + O3 => NO3 + O2", 1.2e-13, 0.0, 2450.0), ("NO2 + O => NO + O2", 5.3e-12, 0.0, -200.0),
    ("NO3 + NO => 2 NO2", 1.7e-11, 0.0, -125.0), ("NO3 + O => NO2 + O2", 1.3e-11, 0.0, 0.0),
    ("O1D + O2 => O + O2", 3.3e-11, 0.0, -55.0), ("O1D + N2 => O + N2", 2.15e-11, 0.0, -110.0),
    ("O1D + H2O => 2 OH", 1.63e-10, 0.0, -60.0), ("H + O3 => OH + O2", 1.4e-10, 0.0, 470.0),
    ("OH + O3 => HO2 + O2", 1.7e-12, 0.0, 940.0), ("HO2 + O3 => OH + 2 O2", 1.0e-14, 0.0, 490.0),
    ("O + OH => H + O2", 1.8e-11, 0.0, -180.0), ("O + HO2 => OH + O2", 3.0e-11, 0.0, -200.0),
    ("OH + HO2 => H2O + O2", 4.8e-11, 0.0, -250.0),
    ("HO2 + HO2 => H2O2 + O2", 3.0e-13, 0.0, -460.0),
)  # fmt: skip
WITH_M = (
    ("O + O2 + M => O3 + M", 5.6e-34, -2.6, 0.0, {"O2": 6.0 / 5.6}),
    ("H + O2 + M => HO2 + M", 4.4e-32, -1.3, 0.0, {}),
    ("HO2 + HO2 + M => H2O2 + O2 + M", 2.1e-33, 0.0, -920.0, {}),
)
APART = ("O3 + M => O + O2 + M", 2.32e-8 * 5.6 / 6.0, -2.55, 12606.0, {"O2": 6.0 / 5.6})
PAIRS = (
    ("NO3 + NO2 (+M) => N2O5 (+M)", 2.4e-30, -3.0, 1.6e-12, 0.1),
    ("NO + O (+M) => NO2 (+M)", 9.0e-32, -1.5, 3.0e-11, 0.0),
    ("OH + NO2 (+M) => HNO3 (+M)", 1.8e-30, -3.0, 2.8e-11, 0.0),
)
N2O5_BALANCE = (1.72e26, 10840.0)
BROAD = (0.6, 0.0, 1e-9)
"""0.6 to the power 1/(1 + log10²): the panel's fall-off in the words of SRI."""


def _arrhenius(a: float, n: float, b: float, bodies: int) -> ct.ArrheniusRate:
    """Return k = a (T/300)^n exp(-b/T) of cm³ and molecules in kmol and m³."""
    return ct.ArrheniusRate(a * MOLECULES ** (bodies - 1) / 300.0**n, n, b * ct.gas_constant)


def _species() -> list[ct.Species]:
    found = []
    for name, atoms in ATOMS.items():
        one = ct.Species(name, atoms)
        one.thermo = ct.ConstantCp(200.0, 3000.0, ct.one_atm, (300.0, 0.0, 0.0, 3e4))
        found.append(one)
    return found


def _chemistry() -> list[ct.Reaction]:
    found = [
        ct.Reaction(equation=text, rate=_arrhenius(a, n, b, 2)) for text, a, n, b in TWO_BODIES
    ]
    for text, a, n, b, efficient in WITH_M:
        third = ct.ThirdBody(efficiencies=efficient)
        found.append(ct.Reaction(equation=text, rate=_arrhenius(a, n, b, 3), third_body=third))
    text, a, n, b, efficient = APART
    third = ct.ThirdBody(efficiencies=efficient)
    found.append(ct.Reaction(equation=text, rate=_arrhenius(a, n, b, 2), third_body=third))
    for text, low, of_low, high, of_high in PAIRS:
        rate = ct.SriRate(_arrhenius(low, of_low, 0.0, 3), _arrhenius(high, of_high, 0.0, 2), BROAD)
        found.append(ct.Reaction(equation=text, rate=rate, third_body=ct.ThirdBody()))
    _, low, of_low, high, of_high = PAIRS[0]
    back, activation = N2O5_BALANCE
    rate = ct.SriRate(
        _arrhenius(low * back, of_low, activation, 2),
        _arrhenius(high * back, of_high, activation, 1),
        BROAD,
    )
    return [*found, ct.Reaction(equation="N2O5 (+M) => NO3 + NO2 (+M)", rate=rate,
                                third_body=ct.ThirdBody())]  # fmt: skip


def mechanism(struck: float, loss: float, share: float, nox: float) -> ct.Solution:
    """Return the gas; `struck` is how often power breaks an oxygen if all is oxygen. [1/s]"""

    def first(text: str, k: float, orders: dict[str, float] | None = None) -> ct.Reaction:
        made = ct.Reaction(equation=text, rate=ct.ArrheniusRate(k, 0.0, 0.0))
        if orders:
            made.orders = orders
        return made

    power = [
        first("O2 => O + O1D", 0.5 * struck),
        first("O3 => 1.5 O2", struck * loss),
        first("N2 + O2 => N2 + 2 O", 0.5 * struck * share, {"O2": 0.0}),
        first("N2 + O2 => 2 NO", 0.5 * struck * nox, {"N2": 1.0, "O2": 0.0}),
        first("H2O => OH + H", struck),
    ]
    return ct.Solution(thermo="ideal-gas", kinetics="gas", species=_species(),
                       reactions=[*_chemistry(), *power])  # fmt: skip


def flowed(
    *, power: float, flow: float, oxygen: float, nitrogen: float, water: float, temperature: float,
    pressure: float, volume: float, efficiency: float, loss: float, share: float, nox: float,
) -> dict[str, float]:  # fmt: skip
    """Return what leaves the gap of each species, for each mole of dry feed."""
    density = pressure / (8.314462618 * temperature)
    struck = 2.0 * efficiency * power / 498.4e3 / (volume * density)
    gas = mechanism(struck, loss, share, nox)
    argon = max(1.0 - oxygen - nitrogen, 0.0)
    gas.TPX = temperature, pressure, {"O2": oxygen, "N2": nitrogen, "AR": argon, "H2O": water}
    reactor = ct.FlowReactor(gas, clone=False)
    reactor.energy_enabled = False
    reactor.area = 1.0
    mass_flow = flow * (1.0 + water) * gas.mean_molecular_weight * 1e-3
    reactor.mass_flow_rate = mass_flow
    net = ct.ReactorNet([reactor])
    net.rtol, net.atol = 1e-7, 1e-16
    net.advance(volume)
    per_feed = mass_flow / (gas.mean_molecular_weight * 1e-3) / flow
    return {name: float(gas[name].X[0]) * per_feed for name in ATOMS}
