"""Worked examples that the guides print. No expected value comes from this program.

"From memory" marks a figure whose printed page was not at hand when it was typed.
"""

from dataclasses import replace
from math import inf, log, sqrt

import pytest

from ozonewright.questions.agreement import guides
from ozonewright.uncertain import coverage_factor, monte_carlo, propagate

MILLION = 1_000_000


# QUAM 2012 (Eurachem/CITAC), examples A1 to A3. The guide rounds on the way; the unrounded figures
# are those the GTC package prints for the same inputs (its documentation, CITAC_A1 to CITAC_A3).


def test_quam_a1_cadmium_standard():
    got = propagate(guides.cadmium_standard, guides.cadmium_standard_inputs())
    assert got.value == pytest.approx(1002.70, abs=0.005)  # printed: 1002.7 mg/L
    assert got.u == pytest.approx(0.8352, abs=0.0005)  # printed after rounding: 0.9
    assert got.method == "first order"
    volume = sqrt(sum(guides.cadmium_standard_inputs()[key].u ** 2 for key in
                      ("volume", "repeatability", "expansion")))  # fmt: skip
    assert volume == pytest.approx(0.07, abs=0.005)  # printed: 0.07 mL


def test_quam_a2_sodium_hydroxide():
    got = propagate(guides.sodium_hydroxide, guides.sodium_hydroxide_inputs())
    assert got.value == pytest.approx(0.102136159706, abs=1e-9)  # printed: 0.10214 mol/L
    assert got.u == pytest.approx(0.000100500722, rel=1e-6)  # printed: 0.00010
    parts = {share.input: got.u * sqrt(share.share_percent / 100.0) for share in got.budget}
    assert parts["titre"] == pytest.approx(6.71088e-5, rel=1e-5)
    assert parts["repeatability"] == pytest.approx(5.10681e-5, rel=1e-5)
    assert parts["gross"] == pytest.approx(2.27501e-5, rel=1e-5)
    assert parts["carbon"] == pytest.approx(1.84798e-6, rel=1e-4)


def test_quam_a3_hydrochloric_acid():
    got = propagate(guides.hydrochloric_acid, guides.hydrochloric_acid_inputs())
    assert got.value == pytest.approx(0.10139, abs=5e-6)  # printed: 0.10139 mol/L
    assert got.u == pytest.approx(0.0001843, abs=1e-7)  # printed: 0.00018
    parts = {share.input: got.u * sqrt(share.share_percent / 100.0) for share in got.budget}
    assert parts["repeatability"] == pytest.approx(1.01387e-4, rel=1e-5)
    assert parts["acid titre"] == pytest.approx(8.33938e-5, rel=1e-5)
    assert parts["titre expansion"] == pytest.approx(5.01198e-5, rel=1e-5)


# JCGM 100:2008 (GUM)


def test_gum_h1_end_gauge_first_order():
    # First order alone is what H.1.6 prints; the calculation itself asks for more (below).
    inputs = guides.end_gauge_inputs()
    got = propagate(guides.end_gauge, inputs, coverage=0.99)
    assert got.value == pytest.approx(50_000_838.0, abs=0.5)
    assert got.dof == pytest.approx(16.7, abs=0.1)  # printed: 16.7, cut to 16
    k = coverage_factor(0.99, got.dof)
    assert k == pytest.approx(2.92, abs=0.005)
    u = sqrt(sum((share.sensitivity * by_name(inputs)[share.input].u) ** 2 for share in got.budget))
    assert u == pytest.approx(32.0, abs=0.5)
    assert k * u == pytest.approx(93.0, abs=0.6)  # printed: 93; unrounded 92.5
    parts = {share.input: abs(share.sensitivity) * by_name(inputs)[share.input].u
             for share in got.budget}  # fmt: skip
    assert parts["standard"] == pytest.approx(25.0, abs=0.05)
    assert parts["expansion difference"] == pytest.approx(2.9, abs=0.05)
    assert parts["temperature difference"] == pytest.approx(16.6, abs=0.05)


def test_gum_h1_end_gauge_needs_second_order():
    assert propagate(guides.end_gauge, guides.end_gauge_inputs()).method == "Monte Carlo"
    # H.1.7 adds the terms of second order to variances taken as known, so draws are normal.
    known = {key: replace(one, dof=inf) for key, one in guides.end_gauge_inputs().items()}
    got = monte_carlo(guides.end_gauge, known, draws=MILLION)
    assert got.u == pytest.approx(34.0, abs=0.5)


def test_jcgm_101_end_gauge_by_monte_carlo():
    # JCGM 101, 9.5.4, from memory: u = 36 nm, 99 % from 745 to 932 nm beyond 50 mm. Two inputs are
    # drawn there with inexactly known limits (a curvilinear trapezoid), here as rectangles: that
    # takes 0.3 nm off u. Ends of a 99 % interval of 10⁶ draws scatter by 0.3 nm.
    got = monte_carlo(guides.end_gauge, guides.end_gauge_inputs(), draws=MILLION, coverage=0.99)
    assert got.mean - 50e6 == pytest.approx(838.0, abs=0.5)
    assert got.u == pytest.approx(36.0, abs=1.0)
    assert [end - 50e6 for end in got.interval] == pytest.approx([745.0, 932.0], abs=3.0)


def test_gum_h2_impedance():
    inputs = guides.impedance_inputs()
    got = propagate(guides.impedance, inputs, correlation=guides.impedance_correlation())
    # Tables H.2 and H.4 as printed; half a unit of the last figure.
    assert inputs["voltage"].value == pytest.approx(4.9990, abs=0.00005)
    assert inputs["voltage"].u == pytest.approx(0.0032, abs=0.00005)
    assert inputs["current"].value == pytest.approx(19.6610e-3, abs=0.00005e-3)
    assert inputs["current"].u == pytest.approx(0.0095e-3, abs=0.00005e-3)
    assert inputs["phase"].value == pytest.approx(1.04446, abs=0.000005)
    assert inputs["phase"].u == pytest.approx(0.00075, abs=0.000005)
    r = guides.impedance_correlation()
    assert r[frozenset(("voltage", "current"))] == pytest.approx(-0.36, abs=0.005)
    assert r[frozenset(("voltage", "phase"))] == pytest.approx(0.86, abs=0.005)
    assert r[frozenset(("current", "phase"))] == pytest.approx(-0.65, abs=0.005)
    assert got["resistance"].value == pytest.approx(127.732, abs=0.0005)
    assert got["reactance"].value == pytest.approx(219.847, abs=0.0005)
    assert got["impedance"].value == pytest.approx(254.260, abs=0.0005)
    # The guide prints 0.071, 0.295 and 0.236; the second is cut, not rounded (0.2956).
    assert got["resistance"].u == pytest.approx(0.071, abs=0.0005)
    assert got["reactance"].u == pytest.approx(0.295, abs=0.001)
    assert got["impedance"].u == pytest.approx(0.236, abs=0.0005)
    assert got.correlation("resistance", "reactance") == pytest.approx(-0.588, abs=0.0005)
    assert got.correlation("resistance", "impedance") == pytest.approx(-0.485, abs=0.0005)
    assert got.correlation("reactance", "impedance") == pytest.approx(0.993, abs=0.0006)


def test_gum_h2_as_three_columns_of_repeats():
    # H.2.4, approach 2: the same from R, X, Z worked out reading by reading; n - 1 = 4.
    got = propagate(
        guides.impedance, guides.impedance_inputs(), correlation=guides.impedance_correlation()
    )
    assert [one.dof for one in got.values()] == pytest.approx([4.0, 4.0, 4.0])
    for one in got.values():
        assert sum(share.share_percent for share in one.budget) == pytest.approx(100.0)
    assert min(share.share_percent for share in got["resistance"].budget) < 0.0


# JCGM 101:2008. Draws of 10⁶ place the end of a 95 % interval to about 0.003 u.


@pytest.mark.parametrize(
    ("shape", "last", "u", "end", "first_order"),
    [
        ("normal", 1.0, 2.00, 3.92, 3.92),  # table 2
        ("rectangular", 1.0, 2.00, 3.88, 3.92),  # table 3
        ("rectangular", 10.0, 10.1, 17.0, 19.9),  # table 5, from memory, as check case Q-07
    ],
)
def test_jcgm_101_sums(shape, last, u, end, first_order):
    inputs = guides.sum_of_four_inputs(shape, last)
    drawn = monte_carlo(guides.sum_of_four, inputs, draws=MILLION)
    digits = 0.01 if last == 1.0 else 0.05
    assert drawn.mean == pytest.approx(0.0, abs=4 * u / sqrt(MILLION))
    assert drawn.u == pytest.approx(u, abs=digits)
    assert drawn.interval == pytest.approx((-end, end), abs=2 * digits)
    got = propagate(guides.sum_of_four, inputs)
    assert got.interval == pytest.approx((-first_order, first_order), abs=digits)
    assert got.method == "first order"


def test_jcgm_101_mass_calibration():
    # Table 6, from memory: first order 0.0539 mg, with second order 0.0750 mg, Monte Carlo
    # 1.2341 and 0.0754 mg, shortest interval from 1.0834 to 1.3825 mg (ours is symmetric, and
    # both scatter by some 0.001).
    got = propagate(guides.mass_deviation, guides.mass_deviation_inputs(), draws=MILLION)
    assert got.method == "Monte Carlo"
    assert got.value == pytest.approx(1.2340, abs=0.00005)
    assert got.value + got.shift == pytest.approx(1.2341, abs=0.0005)
    assert got.u == pytest.approx(0.0754, abs=0.0003)
    assert got.interval == pytest.approx((1.0834, 1.3825), abs=0.002)
    # First order sees no density at all: sqrt(0.050² + 0.020²).
    slopes = {share.input: share.sensitivity for share in got.budget}
    assert slopes["air"] == slopes["weight"] == slopes["reference weight"] == 0.0
    assert sqrt((slopes["reference"] * 0.050) ** 2 + (slopes["added"] * 0.020) ** 2) == (
        pytest.approx(0.0539, abs=0.00005)
    )


@pytest.mark.parametrize(
    ("x1", "r", "mean", "u"),
    [
        # Tables 7 and 8, in 1e-6, from memory; all follow from the moments of a normal as well:
        # mean x1² + 2 u², variance 4 x1² u² + 4 u⁴ (1 + r²).
        (0.000, 0.0, 50, 50),
        (0.010, 0.0, 150, 112),
        (0.050, 0.0, 2550, 502),
        (0.000, 0.9, 50, 67),
        (0.010, 0.9, 150, 121),
        (0.050, 0.9, 2550, 505),
    ],
)
def test_jcgm_101_comparison_loss(x1, r, mean, u):
    inputs = guides.comparison_loss_inputs(x1)
    got = propagate(guides.comparison_loss, inputs, correlation={("x1", "x2"): r}, draws=MILLION)
    assert got.method == "Monte Carlo"
    assert 1e6 * got.value == pytest.approx(1e6 * x1**2)
    # Half a unit as printed, and three standard errors of 10⁶ draws.
    assert 1e6 * (got.value + got.shift) == pytest.approx(mean, abs=0.5 + 3 * u / 1000)
    assert 1e6 * got.u == pytest.approx(u, abs=0.5 + 3 * u / 1000)


def test_jcgm_101_comparison_loss_at_zero_is_exponential():
    # x1 = x2 = 0, r = 0: the sum of two squares is exponential with mean 2 u².
    got = propagate(guides.comparison_loss, guides.comparison_loss_inputs(0.0), draws=MILLION)
    ends = tuple(-50e-6 * log(1.0 - p) for p in (0.025, 0.975))
    assert got.interval == pytest.approx(ends, rel=0.02)


# Check case Q-10


def test_quam_a2_temperature_of_the_titrant():
    # QUAM A2.4: ±3 °C on 19 mL; 0.012 mL over 1.96 is the 0.006 mL of the inputs.
    half_width = 19.0 * guides.EXPANSION_OF_WATER * 3.0
    assert half_width / 1.96 == pytest.approx(
        guides.sodium_hydroxide_inputs()["titre_expansion"].u, abs=0.0005
    )


# Yardsticks that must be able to say no


def test_the_impedance_yardstick_sees_a_lost_correlation():
    got = propagate(guides.impedance, guides.impedance_inputs())
    assert got["resistance"].u != pytest.approx(0.071, abs=0.0005)
    assert got.correlation("reactance", "impedance") != pytest.approx(0.993, abs=0.0006)


def test_the_titration_yardstick_sees_a_wrong_shape():
    inputs = guides.sodium_hydroxide_inputs()
    inputs["titre"] = replace(inputs["titre"], u=0.03 / sqrt(3.0))
    assert propagate(guides.sodium_hydroxide, inputs).u != pytest.approx(0.0001005007, rel=1e-3)


def test_the_sum_yardstick_sees_a_normal_drawn_for_a_rectangle():
    drawn = monte_carlo(guides.sum_of_four, guides.sum_of_four_inputs("normal"), draws=MILLION)
    assert drawn.interval != pytest.approx((-3.88, 3.88), abs=0.02)


def by_name(inputs):
    return {one.name: one for one in inputs.values()}
