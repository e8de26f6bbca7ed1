"""Random calculations: agreement with the `uncertainties` package, limits, budgets, shapes."""

from math import isfinite, sqrt

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.special import stdtrit
from uncertainties import correlated_values, covariance_matrix, ufloat, umath

from ozonewright.uncertain import (
    Measured,
    coverage_factor,
    from_tolerance,
    monte_carlo,
    propagate,
    repeats,
)
from ozonewright.units import Kind

PLAIN = Kind.DIMENSIONLESS
NAMES = ("a", "b", "c")
# Slopes across ±u differ from derivatives by (u/x)²: with 1e-6 that is far below the tolerance,
# and rounding (1e-16 over 1e-6) is as well.
RELATIVE = 1e-6

UNARY = {
    "exp": (np.exp, umath.exp),
    "sin": (np.sin, umath.sin),
    "sqrt": (np.sqrt, umath.sqrt),
    "log": (np.log, umath.log),
    "square": (lambda x: x * x, lambda x: x * x),
}
BINARY = {
    "+": lambda x, y: x + y,
    "-": lambda x, y: x - y,
    "*": lambda x, y: x * y,
    "/": lambda x, y: x / y,
}

expressions = st.recursive(
    st.one_of(st.sampled_from(NAMES), st.floats(0.5, 3.0)),
    lambda inner: st.one_of(
        st.tuples(st.sampled_from(list(UNARY)), inner),
        st.tuples(st.sampled_from(list(BINARY)), inner, inner),
    ),
    max_leaves=8,
)
values = st.floats(0.5, 2.0)
spreads = st.floats(0.1, 1.0)
coefficients = st.lists(st.floats(-1.0, 1.0), min_size=9, max_size=9)


def evaluate(expression, known, side):
    """Work out a random expression with numpy (side 0) or with `uncertainties` (side 1)."""
    if isinstance(expression, str):
        return known[expression]
    if isinstance(expression, float):
        # A plain float over zero raises where numpy and the inputs give infinity.
        return expression if side else np.float64(expression)
    operator, *arguments = expression
    worked = [evaluate(argument, known, side) for argument in arguments]
    return BINARY[operator](*worked) if len(worked) == 2 else UNARY[operator][side](*worked)


def magnitudes(expression, known):
    """Return the sizes that occur on the way: what loses digits is left out of the comparison."""
    if isinstance(expression, str | float):
        return [abs(evaluate(expression, known, 0))]
    inner = [size for argument in expression[1:] for size in magnitudes(argument, known)]
    with np.errstate(all="ignore"):
        return [
            *inner,
            abs(float(evaluate(expression, {k: np.float64(v) for k, v in known.items()}, 0))),
        ]


def steady(expression, nominal):
    """Leave out what is singular or loses digits on the way."""
    with np.errstate(all="ignore"):
        sizes = magnitudes(expression, nominal)
    return all(isfinite(size) and 1e-2 < size < 1e2 for size in sizes)


@settings(max_examples=300, deadline=None)
@given(expressions, st.tuples(values, values, values), st.tuples(spreads, spreads, spreads))
def test_any_expression_agrees_with_the_uncertainties_package(expression, at, spread):
    nominal = dict(zip(NAMES, at, strict=True))
    assume(steady(expression, nominal))
    u = {name: RELATIVE * part for name, part in zip(NAMES, spread, strict=True)}
    got = propagate(
        lambda **known: evaluate(expression, known, 0),
        {name: Measured(nominal[name], u[name], name, PLAIN) for name in NAMES},
    )
    theirs = {name: ufloat(nominal[name], u[name]) for name in NAMES}
    # A constant expression is uncertain there as well.
    expected = evaluate(expression, theirs, 1) + 0.0 * theirs["a"]
    assert got.value == pytest.approx(expected.nominal_value, rel=1e-12)
    if got.method == "Monte Carlo":
        # A summit or a hollow: there is no slope, and their u is (nearly) zero.
        assert expected.std_dev < 1e-3 * RELATIVE
        return
    assert got.u == pytest.approx(expected.std_dev, rel=1e-5, abs=1e-14)
    slopes = {share.input: share.sensitivity for share in got.budget}
    for name, variable in theirs.items():
        slope = expected.derivatives.get(variable, 0.0)
        assert slopes.get(name, 0.0) == pytest.approx(slope, rel=1e-5, abs=1e-6)


@settings(max_examples=150, deadline=None)
@given(st.tuples(expressions, expressions), st.tuples(values, values, values), coefficients)
def test_stated_correlations_agree_with_correlated_values(pair, at, mixing):
    nominal = dict(zip(NAMES, at, strict=True))
    assume(all(steady(expression, nominal) for expression in pair))
    mix = np.array(mixing).reshape(3, 3) + 0.1 * np.eye(3)
    covariance = RELATIVE**2 * (mix @ mix.T)
    u = np.sqrt(np.diag(covariance))
    assume((u > 0.01 * RELATIVE).all())
    tied = covariance / np.outer(u, u)
    got = propagate(
        lambda **known: {str(i): evaluate(one, known, 0) for i, one in enumerate(pair)},
        {name: Measured(nominal[name], u[i], name, PLAIN) for i, name in enumerate(NAMES)},
        correlation={
            (NAMES[i], NAMES[j]): float(np.clip(tied[i, j], -1.0, 1.0))
            for i, j in ((0, 1), (0, 2), (1, 2))
        },
    )
    theirs = dict(zip(NAMES, correlated_values(at, covariance), strict=True))
    outputs = [evaluate(expression, theirs, 1) + 0.0 * theirs["a"] for expression in pair]
    expected = np.array(covariance_matrix(outputs))
    scale = RELATIVE**2 * (1.0 + np.abs(expected / RELATIVE**2).max())
    for i in range(2):
        for j in range(2):
            found = got.covariance(str(i), str(j))
            assert found == pytest.approx(expected[i, j], abs=2e-5 * scale)
        shares = got[str(i)].budget
        if shares:
            assert sum(share.share_percent for share in shares) == pytest.approx(100.0)


@settings(max_examples=150, deadline=None)
@given(
    expressions,
    st.tuples(values, values, values),
    st.tuples(spreads, spreads, spreads),
    st.floats(0.001, 0.15),
)
def test_budgets_sum_to_100_and_the_interval_is_ordered(expression, at, spread, relative):
    nominal = dict(zip(NAMES, at, strict=True))
    assume(steady(expression, nominal))
    inputs = {
        name: from_tolerance(nominal[name], relative * part, "rectangular", name, PLAIN)
        for name, part in zip(NAMES, spread, strict=True)
    }
    with np.errstate(all="ignore"):
        corners = monte_carlo(
            lambda a, b, c: np.nan_to_num(
                evaluate(expression, {"a": a, "b": b, "c": c}, 0) + 0.0 * a, nan=1e300
            ),
            inputs,
            draws=2000,
        )
    assume(np.abs(corners.draws).max() < 1e3)
    got = propagate(lambda **known: evaluate(expression, known, 0), inputs, draws=4000)
    assert got.interval[0] <= got.interval[1]
    if got.budget:
        assert sum(share.share_percent for share in got.budget) == pytest.approx(100.0)
        assert all(share.share_percent >= 0.0 for share in got.budget)
        sizes = [share.share_percent for share in got.budget]
        assert sizes == sorted(sizes, reverse=True)


@settings(max_examples=100, deadline=None)
@given(st.lists(st.floats(-3.0, 3.0), min_size=1, max_size=5), st.floats(0.01, 10.0))
def test_a_linear_sum_is_exact_by_first_order_and_by_draws(factors, u):
    # u² = Σ c² u², whatever the step; Monte Carlo agrees to its own noise.
    inputs = {f"x{i}": Measured(1.0, u, f"x{i}", PLAIN) for i in range(len(factors))}

    def total(**known):
        return sum(c * known[f"x{i}"] for i, c in enumerate(factors))

    expected = u * sqrt(sum(c * c for c in factors))
    got = propagate(total, inputs)
    assert got.method == "first order"
    assert got.u == pytest.approx(expected, rel=1e-9, abs=1e-12)
    drawn = monte_carlo(total, inputs, draws=20_000)
    assert drawn.u == pytest.approx(expected, rel=0.03, abs=1e-12)


@settings(max_examples=60, deadline=None)
@given(values, st.floats(0.001, 0.02), st.floats(-3.0, 3.0).filter(lambda p: abs(p) > 0.1))
def test_first_order_agrees_with_monte_carlo_where_it_says_it_holds(x, relative, power):
    inputs = {"x": Measured(x, relative * x, "x", PLAIN)}
    got = propagate(lambda x: x**power, inputs)
    assume(got.method == "first order")
    drawn = monte_carlo(lambda x: x**power, inputs, draws=100_000)
    # The stated tolerance, a tenth of u, and the noise of a quantile (about 0.01 u here).
    assert np.abs(np.subtract(got.interval, drawn.interval)).max() < 0.15 * got.u


@settings(max_examples=60, deadline=None)
@given(values, st.floats(1e-6, 0.3))
def test_u_goes_to_zero_with_the_uncertainty_of_the_input(x, relative):
    def reciprocal(x):
        return 1.0 / x

    small = propagate(reciprocal, {"x": Measured(x, 1e-3 * relative * x, "x", PLAIN)}).u
    smaller = propagate(reciprocal, {"x": Measured(x, 1e-4 * relative * x, "x", PLAIN)}).u
    assert smaller == pytest.approx(small / 10.0, rel=1e-4)
    assert propagate(reciprocal, {"x": Measured(x, 0.0, "x", PLAIN)}).u == 0.0


@settings(max_examples=200, deadline=None)
@given(st.floats(0.05, 0.999), st.one_of(st.integers(1, 5000), st.floats(1.0, 1e7)))
def test_the_coverage_factor_is_the_quantile_of_student_t(coverage, dof):
    expected = stdtrit(np.floor(dof * (1.0 + 1e-9)), (1.0 + coverage) / 2.0)
    assert coverage_factor(coverage, float(dof)) == pytest.approx(expected, rel=1e-10)


@settings(deadline=None)
@given(st.lists(st.floats(0.0, 50.0), min_size=2, max_size=12))
def test_repeats_agree_with_numpy(readings):
    got = repeats(readings, "titre", Kind.VOLUME)
    assert got.value == pytest.approx(np.mean(readings), abs=1e-12)
    assert got.u == pytest.approx(np.std(readings, ddof=1) / sqrt(len(readings)), abs=1e-12)
    assert got.dof == len(readings) - 1
