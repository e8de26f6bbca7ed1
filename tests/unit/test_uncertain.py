"""What goes in, what comes out, and what is refused."""

from dataclasses import FrozenInstanceError, replace
from math import inf, isinf, nan, sqrt

import numpy as np
import pytest
from scipy.special import stdtrit
from scipy.stats import arcsine, norm, t, triang

from ozonewright.errors import (
    AppError,
    Inconsistent,
    InputError,
    MissingValue,
    NotApplicable,
    OutOfBounds,
)
from ozonewright.uncertain import (
    HALF_WIDTHS,
    Estimate,
    Measured,
    Propagated,
    coverage_factor,
    from_tolerance,
    monte_carlo,
    propagate,
    repeats,
)
from ozonewright.units import Kind

PLAIN = Kind.DIMENSIONLESS


def measured(name, value, u, **rest):
    return Measured(value, u, name, PLAIN, **rest)


def product(a, b):
    return a * b


# Inputs


@pytest.mark.parametrize(
    ("rest", "error"),
    [
        ({"value": nan}, OutOfBounds),
        ({"value": inf}, OutOfBounds),
        ({"u": -1e-9}, OutOfBounds),
        ({"u": inf}, OutOfBounds),
        ({"u": nan}, OutOfBounds),
        ({"dof": 0.5}, OutOfBounds),
        ({"dof": nan}, OutOfBounds),
        ({"name": ""}, MissingValue),
        ({"shape": "round"}, InputError),
    ],
)
def test_what_no_reading_can_be_is_refused(rest, error):
    given = {"value": 1.0, "u": 0.1, "name": "titre", "kind": PLAIN}
    with pytest.raises(error) as caught:
        Measured(**(given | rest))
    assert caught.value.fix


def test_an_input_is_frozen():
    with pytest.raises(FrozenInstanceError):
        measured("a", 1.0, 0.1).value = 2.0


@pytest.mark.parametrize(
    ("shape", "root"), [("rectangular", 3.0), ("triangular", 6.0), ("arcsine", 2.0)]
)
def test_a_tolerance_becomes_one_standard_uncertainty(shape, root):
    got = from_tolerance(5.0, 0.03, shape, "burette", Kind.VOLUME, dof=8, basis="class B")
    assert got.u == pytest.approx(0.03 / sqrt(root), rel=1e-15)
    assert (got.shape, got.dof, got.basis, got.kind) == (shape, 8, "class B", Kind.VOLUME)


@pytest.mark.parametrize("shape", ["normal", "round"])
def test_a_tolerance_needs_a_shape_with_limits(shape):
    with pytest.raises(InputError, match="shape with limits"):
        from_tolerance(5.0, 0.03, shape, "burette", PLAIN)


def test_a_negative_tolerance_is_refused():
    with pytest.raises(OutOfBounds):
        from_tolerance(5.0, -0.03, "triangular", "burette", PLAIN)


def test_repeats_give_the_mean_and_its_type_a_uncertainty():
    # By hand: deviations -0.02, 0, 0.02; s = 0.02; u = 0.02 / √3.
    got = repeats([18.44, 18.46, 18.48], "titre", Kind.VOLUME)
    assert got.value == pytest.approx(18.46, rel=1e-15)
    assert got.u == pytest.approx(0.02 / sqrt(3.0), rel=1e-12)
    assert (got.dof, got.basis) == (2, "repeats")


def test_equal_repeats_far_from_zero_have_no_rounding_spread():
    assert repeats([0.1] * 3, "titre", PLAIN).u == pytest.approx(0.0, abs=1e-16)


@pytest.mark.parametrize(("values", "what"), [([18.4], "no spread"), ([], "no value at all")])
def test_one_value_has_no_spread(values, what):
    with pytest.raises(MissingValue, match=what) as caught:
        repeats(values, "titre 1", Kind.VOLUME)
    assert caught.value.where == "titre 1"


# Coverage factor


@pytest.mark.parametrize("coverage", [0.5, 0.6827, 0.95, 0.9545, 0.99, 0.999])
@pytest.mark.parametrize("dof", [1, 2, 3, 4, 7, 16, 50, 101, 999, 1000, 1001, 1e5, 1e9])
def test_the_coverage_factor_is_the_quantile_of_student_t(coverage, dof):
    expected = stdtrit(dof, (1.0 + coverage) / 2.0)
    assert coverage_factor(coverage, dof) == pytest.approx(expected, rel=1e-10)


@pytest.mark.parametrize(
    ("coverage", "dof", "printed"),
    # JCGM 100:2008, table G.2, as printed.
    [
        (0.95, 1, 12.71),
        (0.95, 5, 2.57),
        (0.95, 20, 2.09),
        (0.99, 16, 2.92),
        (0.9545, 10, 2.28),
        (0.6827, 2, 1.32),
        (0.9973, 3, 9.22),
        (0.95, inf, 1.960),
    ],
)
def test_the_coverage_factor_is_that_of_the_guide(coverage, dof, printed):
    assert coverage_factor(coverage, dof) == pytest.approx(printed, abs=0.0051)


def test_degrees_of_freedom_are_cut_but_not_by_rounding():
    assert coverage_factor(0.95, 4.9) == coverage_factor(0.95, 4)
    assert coverage_factor(0.95, 4.0 - 1e-12) == coverage_factor(0.95, 4)


@pytest.mark.parametrize(("coverage", "dof"), [(0.0, 5), (1.0, 5), (nan, 5), (0.95, 0.9)])
def test_a_coverage_factor_that_means_nothing_is_refused(coverage, dof):
    with pytest.raises(OutOfBounds):
        coverage_factor(coverage, dof)


# First order


def test_a_product_by_hand():
    # u² = (3 × 0.1)² + (2 × 0.1)² = 0.13
    got = propagate(product, {"a": measured("a", 2.0, 0.1), "b": measured("b", 3.0, 0.1)})
    assert isinstance(got, Estimate)
    assert got.value == 6.0
    assert got.u == pytest.approx(sqrt(0.13), rel=1e-12)
    assert got.method == "first order"
    assert isinf(got.dof)
    assert got.k == pytest.approx(1.959964, abs=1e-6)
    assert got.interval == pytest.approx((6.0 - 1.959964 * got.u, 6.0 + 1.959964 * got.u))
    assert [share.input for share in got.budget] == ["a", "b"]
    assert got.budget[0].share_percent == pytest.approx(100.0 * 9.0 / 13.0)
    assert got.budget[0].sensitivity == pytest.approx(3.0)
    assert got.shift == 0.0


def test_one_name_is_one_input():
    shared = measured("balance", 5.0, 0.2)
    assert propagate(lambda gross, tare: gross - tare, {"gross": shared, "tare": shared}).u == 0.0
    both = propagate(lambda a, b: a + b, {"a": shared, "b": shared})
    assert both.u == pytest.approx(0.4)
    assert len(both.budget) == 1


@pytest.mark.parametrize("change", [{"value": 5.1}, {"u": 0.3}, {"dof": 4}, {"kind": Kind.MASS}])
def test_one_name_with_two_readings_is_refused(change):
    first = measured("balance", 5.0, 0.2)
    with pytest.raises(Inconsistent, match="two different readings"):
        propagate(product, {"a": first, "b": replace(first, **change)})


def test_an_exact_input_has_no_share():
    got = propagate(product, {"a": measured("a", 2.0, 0.1), "b": measured("molar mass", 3.0, 0.0)})
    assert [share.input for share in got.budget] == ["a"]
    assert got.budget[0].share_percent == pytest.approx(100.0)


def test_exact_inputs_give_an_exact_result():
    got = propagate(product, {"a": measured("a", 2.0, 0.0), "b": measured("b", 3.0, 0.0)})
    assert (got.value, got.u, got.interval, got.budget) == (6.0, 0.0, (6.0, 6.0), ())
    assert propagate(lambda: 7.0, {}).value == 7.0


def test_an_output_that_ignores_its_inputs_is_exact():
    got = propagate(lambda a: {"a": a, "two": 2.0}, {"a": measured("a", 1.0, 0.1)})
    assert isinstance(got, Propagated)
    assert got["two"].u == 0.0
    assert got.covariance("a", "two") == 0.0
    with pytest.raises(NotApplicable, match="no correlation"):
        got.correlation("a", "two")
    with pytest.raises(NotApplicable, match="no correlation"):
        got.correlation("two", "a")


def test_outputs_of_one_call_share_their_inputs():
    # sum and difference of equal, independent inputs: covariance u² - u² = 0; with a alone: u².
    got = propagate(
        lambda a, b: {"sum": a + b, "difference": a - b, "a": a},
        {"a": measured("a", 2.0, 0.1), "b": measured("b", 3.0, 0.1)},
    )
    assert list(got) == ["sum", "difference", "a"]
    assert len(got) == 3
    assert got.covariance("sum", "difference") == pytest.approx(0.0, abs=1e-15)
    assert got.correlation("sum", "a") == pytest.approx(sqrt(0.5))
    assert got.covariance("sum", "sum") == pytest.approx(got["sum"].u ** 2)


def test_welch_and_satterthwaite_by_hand():
    # (1 + 4)² / (1/4 + 16/9) = 12.33 (JCGM 100, G.2b)
    got = propagate(
        lambda a, b: a + b, {"a": measured("a", 0.0, 1.0, dof=4), "b": measured("b", 0, 2, dof=9)}
    )
    assert got.dof == pytest.approx(25.0 / (1.0 / 4.0 + 16.0 / 9.0))
    assert got.k == coverage_factor(0.95, 12)


def test_a_shared_input_is_one_contribution_to_the_degrees_of_freedom():
    shared = measured("titrant", 1.0, 0.1, dof=5)
    assert propagate(lambda a, b: a + b, {"a": shared, "b": shared}).dof == pytest.approx(5.0)


def test_tied_inputs_are_one_contribution_to_the_degrees_of_freedom():
    tied = {"a": measured("a", 1.0, 0.1, dof=4), "b": measured("b", 1.0, 0.2, dof=7)}
    got = propagate(lambda a, b: a + b, tied, correlation={("a", "b"): 0.3})
    assert got.dof == pytest.approx(4.0)


# Stated correlation


def test_full_correlation_cancels_or_adds_up():
    pair = {"a": measured("a", 1.0, 0.1), "b": measured("b", 1.0, 0.1)}
    for r, expected in ((1.0, 0.0), (-1.0, 0.2)):
        got = propagate(lambda a, b: a - b, pair, correlation={frozenset(("a", "b")): r})
        assert got.u == pytest.approx(expected, abs=1e-9)


def test_shares_may_be_negative_and_still_sum_to_100():
    pair = {"a": measured("a", 1.0, 0.1), "b": measured("b", 1.0, 0.3)}
    # u² = 0.01 + 0.09 - 2 × 0.9 × 0.03 = 0.046; share of a: (0.01 - 0.027) / 0.046
    got = propagate(lambda a, b: a - b, pair, correlation={("a", "b"): 0.9})
    shares = {share.input: share.share_percent for share in got.budget}
    assert shares["a"] == pytest.approx(-1.7 / 0.046)
    assert sum(shares.values()) == pytest.approx(100.0)


@pytest.mark.parametrize(
    ("correlation", "error"),
    [
        ({("a", "titre"): 0.5}, InputError),
        ({("a", "a"): 0.5}, InputError),
        ({("a", "b"): 1.1}, OutOfBounds),
        ({("a", "b"): nan}, OutOfBounds),
        ({("a", "b"): 0.5, ("b", "a"): 0.4}, Inconsistent),
        ({("a", "b"): 0.9, ("b", "c"): 0.9, ("a", "c"): -0.9}, Inconsistent),
    ],
)
def test_correlations_that_cannot_hold_are_refused(correlation, error):
    three = {key: measured(key, 1.0, 0.1) for key in "abc"}
    with pytest.raises(error):
        propagate(lambda a, b, c: a + b + c, three, correlation=correlation)


def test_correlation_with_an_exact_input_is_nothing():
    pair = {"a": measured("a", 1.0, 0.1), "b": measured("b", 1.0, 0.0)}
    assert propagate(product, pair, correlation={("a", "b"): 0.5}).u == pytest.approx(0.1)


# Where first order ends


def test_curvature_calls_monte_carlo():
    # x² of a standard normal is χ² of one degree of freedom: mean 1, variance 2.
    got = propagate(lambda x: x**2, {"x": measured("x", 0.0, 1.0)})
    assert got.method == "Monte Carlo"
    assert got.value == 0.0
    assert got.shift == pytest.approx(1.0, abs=0.02)
    assert got.u == pytest.approx(sqrt(2.0), rel=0.02)
    # Quantiles of χ²₁ at 2.5 % and 97.5 %.
    assert got.interval == pytest.approx((0.000982, 5.0239), rel=0.05)
    assert got.k == pytest.approx((got.interval[1] - got.interval[0]) / (2.0 * got.u))
    assert sum(share.share_percent for share in got.budget) == pytest.approx(100.0)


def test_a_slope_that_changes_with_the_step_calls_monte_carlo():
    # x³ has no second difference at zero; its variance is 15 u⁶.
    got = propagate(lambda x: x**3, {"x": measured("x", 0.0, 1.0)})
    assert got.method == "Monte Carlo"
    assert got.u == pytest.approx(sqrt(15.0), rel=0.05)


def test_a_product_of_two_zeros_calls_monte_carlo():
    # Only the mixed second difference sees it; u = 1 × 2.
    got = propagate(product, {"a": measured("a", 0.0, 1.0), "b": measured("b", 0.0, 2.0)})
    assert got.method == "Monte Carlo"
    assert got.u == pytest.approx(2.0, rel=0.02)
    assert [share.share_percent for share in got.budget] == pytest.approx([50.0, 50.0])


@pytest.mark.parametrize(("relative", "method"), [(0.02, "first order"), (0.04, "Monte Carlo")])
def test_a_quotient_is_straight_while_its_divisor_is_well_known(relative, method):
    # 1/x bends both ends of the interval by about k² (u/x)², that is 3.84 (u/x) of u.
    got = propagate(lambda x: 1.0 / x, {"x": measured("flow", 5.0, 5.0 * relative)})
    assert got.method == method


def test_the_interval_of_a_quotient_is_that_of_its_divisor():
    got = propagate(lambda x: 1.0 / x, {"x": measured("flow", 5.0, 0.5)}, draws=400_000)
    ends = (1.0 / (5.0 + 1.959964 * 0.5), 1.0 / (5.0 - 1.959964 * 0.5))
    assert got.interval == pytest.approx(ends, rel=0.005)


def test_rounding_is_not_curvature():
    got = propagate(lambda x: 1e9 + x, {"x": measured("x", 0.0, 1e-6)})
    assert got.method == "first order"


def test_one_curved_output_leaves_the_others_at_first_order():
    got = propagate(
        lambda x, y: {"square": x**2, "line": x, "plane": x + y, "two": 2.0},
        {"x": measured("x", 0.0, 1.0), "y": measured("y", 0.0, 1.0)},
    )
    assert [got[name].method for name in got] == ["Monte Carlo", *3 * ["first order"]]
    # Odd and even powers of a symmetric input are uncorrelated; x and x + y are not.
    assert got.correlation("square", "line") == pytest.approx(0.0, abs=0.02)
    assert got.correlation("line", "plane") == pytest.approx(sqrt(0.5), abs=0.01)
    assert got.covariance("square", "square") == pytest.approx(got["square"].u ** 2)
    assert got.covariance("square", "two") == 0.0


def test_two_repeats_have_an_interval_but_no_standard_deviation_of_draws():
    got = propagate(lambda x: {"square": x**2, "x": x}, {"x": measured("x", 0.0, 0.02, dof=1)})
    square = got["square"]
    assert square.method == "Monte Carlo"
    # Second order for a normal input, √2 u²: a t of one degree of freedom has no moments.
    assert square.u == pytest.approx(sqrt(2.0) * 0.02**2, rel=1e-9)
    assert square.shift == 0.0
    assert square.interval[1] == pytest.approx((0.02 * t.ppf(0.9875, 1)) ** 2, rel=0.1)
    assert got.covariance("x", "x") == pytest.approx(got["x"].u ** 2)


def test_an_interval_without_any_moment_has_no_finite_factor():
    # x³ - u² x has neither slope nor curvature across ±u.
    got = propagate(lambda x: x**3 - x, {"x": measured("x", 0.0, 1.0, dof=2)})
    assert got.u == 0.0
    assert isinf(got.k)
    assert got.budget == ()


# No finite value


def test_no_value_at_the_inputs_given():
    with np.errstate(all="raise"), pytest.raises(NotApplicable, match="at the inputs given"):
        propagate(lambda a, b: a / b, {"a": measured("a", 1, 0.1), "b": measured("b", 0.0, 0.0)})


def test_no_value_within_the_uncertainty_names_the_input():
    with pytest.raises(NotApplicable) as caught:
        propagate(
            lambda a, b: {"root": a * np.sqrt(b)},
            {"a": measured("mass", 1.0, 0.1), "b": measured("blank titre", 0.1, 0.2)},
        )
    assert caught.value.where == "blank titre"
    assert caught.value.got == "blank titre = -0.1"
    assert "of root" in caught.value.what


def test_too_few_digits_are_told_as_the_cause():
    flow = from_tolerance(1.0, 1.0, "rectangular", "flow", PLAIN, basis="from digits")
    with pytest.raises(NotApplicable) as caught:
        propagate(lambda a, b: a / b, {"a": measured("a", 1, 0.1), "b": flow})
    assert caught.value.got == "flow = 0"
    assert "1.0 in place of 1" in caught.value.fix


def test_a_pair_of_inputs_without_a_value_is_named():
    with pytest.raises(NotApplicable) as caught:
        propagate(
            lambda a, b: np.sqrt(2.5 - np.abs(a + b)),
            {"a": measured("a", 0.0, 1.2), "b": from_tolerance(0, 2.4, "rectangular", "b", PLAIN)},
        )
    assert caught.value.where == "a and b"


def test_a_bounded_input_is_never_taken_beyond_its_limits():
    half = from_tolerance(1.0, 1.0, "rectangular", "x", PLAIN)
    assert propagate(lambda x: np.sqrt(x), {"x": half}).interval[0] > 0.0


def test_draws_without_a_value_name_the_worst_input():
    with pytest.raises(NotApplicable) as caught:
        monte_carlo(
            lambda a, b: {"root": a * np.sqrt(b)},
            {"a": measured("mass", 1.0, 0.1), "b": measured("blank titre", 0.5, 0.2)},
        )
    assert caught.value.where == "blank titre"
    assert "of root" in caught.value.what


def test_exact_inputs_without_a_value_end_in_a_clear_error():
    zero = {"a": measured("a", 0.0, 0.0)}
    with pytest.raises(NotApplicable, match="draws"):
        monte_carlo(lambda a: 1.0 / a, zero)
    with pytest.raises(NotApplicable, match="at the inputs given"):
        propagate(lambda a: 1.0 / a, zero)


# Monte Carlo

QUANTILES = {
    "rectangular": lambda p: sqrt(3.0) * (2.0 * p - 1.0),
    "triangular": lambda p: sqrt(6.0) * triang.ppf(p, 0.5, loc=-1.0, scale=2.0),
    "arcsine": lambda p: sqrt(2.0) * (2.0 * arcsine.ppf(p) - 1.0),
    "normal": norm.ppf,
}


@pytest.mark.parametrize("shape", HALF_WIDTHS)
@pytest.mark.parametrize("tied", [False, True])
def test_draws_have_the_stated_shape(shape, tied):
    inputs = {key: measured(key, 10.0, 2.0, shape=shape) for key in "xy"}
    correlation = {("x", "y"): 0.8} if tied else None
    got = monte_carlo(
        lambda x, y: {"x": x, "y": y}, inputs, draws=100_000, seed=7, correlation=correlation
    )
    probability = np.array([0.01, 0.1, 0.3, 0.5, 0.8, 0.99])
    for samples in got.values():
        # Four standard errors of a quantile in the thinnest place asked.
        assert np.quantile(samples.draws, probability) == pytest.approx(
            10.0 + 2.0 * QUANTILES[shape](probability), abs=0.12
        )
        assert samples.u == pytest.approx(2.0, rel=0.02)
    # The copula brings bounded shapes a little nearer to zero than stated.
    drawn = np.corrcoef(got["x"].draws, got["y"].draws)[0, 1]
    assert drawn == pytest.approx(0.8 if tied else 0.0, abs=0.05 if shape == "arcsine" else 0.03)


@pytest.mark.parametrize("tied", [False, True])
def test_few_degrees_of_freedom_are_drawn_as_student_t(tied):
    inputs = {
        key: measured(key, 0.0, 1.0, dof=dof) for key, dof in {"x": 4, "y": 4, "z": 9}.items()
    }
    correlation = {("x", "y"): 0.6, ("y", "z"): 0.2} if tied else None
    got = monte_carlo(
        lambda x, y, z: {"x": x, "y": y, "z": z}, inputs, seed=3, correlation=correlation
    )
    for name, dof in {"x": 4, "y": 4, "z": 9}.items():
        assert got[name].interval == pytest.approx(t.interval(0.95, dof), rel=0.03)


def test_a_mean_of_readings_taken_together_follows_a_multivariate_t():
    # One χ² for both: the sum of two wholly correlated means is again a t of the same dof.
    pair = {key: measured(key, 0.0, 1.0, dof=3) for key in "xy"}
    got = monte_carlo(lambda x, y: x + y, pair, correlation={("x", "y"): 1.0}, seed=5)
    assert got.interval == pytest.approx(tuple(2 * end for end in t.interval(0.95, 3)), rel=0.03)


def test_same_seed_same_draws_and_a_shared_name_shares_them():
    inputs = {"a": measured("titrant", 1.0, 0.1), "b": measured("b", 2.0, 0.1)}
    first = monte_carlo(product, inputs, draws=50_000, seed=1)
    assert (first.draws == monte_carlo(product, inputs, draws=50_000, seed=1).draws).all()
    assert (first.draws != monte_carlo(product, inputs, draws=50_000, seed=2).draws).any()
    alone = monte_carlo(lambda x: x, {"x": inputs["a"]}, draws=50_000, seed=1)
    again = monte_carlo(lambda y, x: x, {"y": inputs["b"], "x": inputs["a"]}, draws=50_000, seed=1)
    assert (alone.draws == again.draws).all()


def test_a_function_called_draw_by_draw_may_take_few():
    got = monte_carlo(
        np.vectorize(lambda a, b: a + b, otypes=[float]),
        {"a": measured("a", 1.0, 0.1), "b": measured("b", 2.0, 0.1)},
        draws=400,
    )
    assert len(got.draws) == 400
    with pytest.raises(OutOfBounds, match="too few draws") as caught:
        monte_carlo(product, {"a": measured("a", 1, 1), "b": measured("b", 1, 1)}, draws=100)
    assert "200" in caught.value.fix


def test_every_refusal_is_ours():
    assert issubclass(NotApplicable, AppError)
