"""The least-squares core alone: NIST's certified regressions, and lines with errors in both coordinates."""

import json
from collections.abc import Callable
from itertools import pairwise
from typing import Any

import numpy as np
import pytest

from geometry.survey.adjust.datum import Free, moved_to_datum
from geometry.survey.adjust.least_squares import Normal, settle
from geometry.survey.adjust.network import network_of
from geometry.survey.result import Array
from geometry.survey.rows.row import Row
from tests.published.survey_cases import DATA

NIST = {case["id"]: case for case in json.loads((DATA / "nist_regression.json").read_text())["cases"]}
Model = Callable[[Array, Array], Array]


def misra1a(b: Array, x: Array) -> Array:
    return np.asarray(b[0] * (1 - np.exp(-b[1] * x)))


def rat42(b: Array, x: Array) -> Array:
    return np.asarray(b[0] / (1 + np.exp(b[1] - b[2] * x)))


def thurber(b: Array, x: Array) -> Array:
    return np.asarray(np.polyval(b[3::-1], x) / np.polyval([*b[:3:-1], 1.0], x))


def slopes(f: Callable[[Array], Array], b: Array) -> Array:
    """Slopes of f at b by differences in the complex plane, exact to rounding."""
    steps = 1e-30 * np.eye(len(b))
    return np.stack([np.imag(f(b + 1j * step)) / 1e-30 for step in steps], axis=1)


def normal_of(f: Callable[[Array], Array], y: Array, weight: Array) -> Callable[[Array], Normal]:
    def normal(b: Array) -> Normal:
        miss = y - f(b)
        jac = slopes(f, b)
        return Normal(float(weight @ miss**2), jac.T @ (weight[:, None] * jac), jac.T @ (weight * miss))

    return normal


@pytest.mark.parametrize("start", [0, 1])
@pytest.mark.parametrize(("key", "model"), [("Misra1a", misra1a), ("Rat42", rat42), ("Thurber", thurber)])
def test_nist_certified_values(key: str, model: Model, start: int) -> None:
    """NIST/ITL Statistical Reference Datasets, nonlinear regression."""
    case: dict[str, Any] = NIST[key]
    y, x = np.array(case["data"]).T
    given = np.array(case["parameters"])
    normal = normal_of(lambda b: model(b, x), y, np.ones(len(y)))
    done = settle(normal, given[:, start])
    there = normal(done.x)
    assert isinstance(there.matrix, np.ndarray)
    sd = np.sqrt(np.diagonal(np.linalg.inv(there.matrix)) * there.squares / (len(y) - len(given)))
    assert done.resting
    assert there.squares == pytest.approx(case["squares"], rel=1e-9)
    assert done.x == pytest.approx(given[:, 2], rel=1e-6)
    assert sd == pytest.approx(given[:, 3], rel=1e-5)


X = np.array([0.0, 0.9, 1.8, 2.6, 3.3, 4.4, 5.2, 6.1, 6.5, 7.4])
Y = np.array([5.9, 5.4, 4.4, 4.6, 3.5, 3.7, 2.8, 2.8, 2.4, 1.5])
"""K. Pearson, Phil. Mag. 2, 559 (1901)."""


def line_fit(weight_x: Array, weight_y: Array) -> tuple[Array, Array, float]:
    """Intercept and slope of the line when both coordinates are read: every point's true x is an unknown too."""

    def f(b: Array) -> Array:
        return np.concatenate([b[2:], b[0] + b[1] * b[2:]])

    normal = normal_of(f, np.concatenate([X, Y]), np.concatenate([weight_x, weight_y]))
    done = settle(normal, np.concatenate([[5.0, -0.5], X]), rest=1e-20)
    there = normal(done.x)
    assert isinstance(there.matrix, np.ndarray)
    return done.x[:2], np.asarray(np.linalg.inv(there.matrix)[:2, :2]), there.squares


def test_a_line_with_equal_errors_in_both_coordinates() -> None:
    """Pearson's line: intercept 5.784, slope −0.54556, sum of squared distances 0.61857."""
    line, _, squares = line_fit(np.ones(10), np.ones(10))
    assert line == pytest.approx((5.784043775, -0.5455611975), abs=1e-9)
    assert squares == pytest.approx(0.6185727594, rel=1e-9)


def test_a_line_with_errors_of_their_own_in_every_coordinate() -> None:
    """D. York, Can. J. Phys. 44, 1079 (1966); standard errors: York et al., Am. J. Phys. 72, 367 (2004), table II."""
    weight_x = np.array([1000, 1000, 500, 800, 200, 80, 60, 20, 1.8, 1])
    weight_y = np.array([1, 1.8, 4, 8, 20, 20, 70, 70, 100, 500])
    line, cov, squares = line_fit(weight_x, weight_y)
    assert line == pytest.approx((5.47991022403, -0.48053340745), abs=1e-9)
    assert squares / 8 == pytest.approx(1.483294149, rel=1e-8)
    assert np.sqrt(np.diagonal(cov)) == pytest.approx((0.294970735, 0.057985009), rel=1e-7)


def test_a_line_with_rounded_deviations() -> None:
    """The values of the scipy.odr test suite (test_pearson); its covariance is a priori."""
    sigma_x = np.array([0.03, 0.03, 0.04, 0.035, 0.07, 0.11, 0.13, 0.22, 0.74, 1.0])
    sigma_y = np.array([1.0, 0.74, 0.5, 0.35, 0.22, 0.22, 0.12, 0.12, 0.1, 0.04])
    line, cov, _ = line_fit(sigma_x**-2, sigma_y**-2)
    assert line == pytest.approx((5.476740029923167, -0.4796082367610305), abs=3e-6)  # theirs stops early
    assert cov[0] == pytest.approx((0.0854275622946333, -0.0161807025443155), rel=3e-6)


def test_a_template_laid_on_six_measured_points() -> None:
    """A rigid fit without a scale; constructed: rotation −0.6914385 degrees, sum of squares 0.44396422, closed form."""
    source = [(0.0, 0.0), (0.0, -156.0), (28.0, -156.0), (28.0, 0.0), (14.0, -27.0), (14.0, -129.0)]
    target = [(612.0, 78.5), (610.4, -77.5), (638.1, -77.7), (640.3, 77.8), (625.6, 50.9), (624.5, -50.5)]
    names = tuple("abcdef")
    net = network_of([Row(a, "distance", (a, b), 1.0, 1.0) for a, b in pairwise(names)])
    laid = moved_to_datum(net, np.array(source).ravel(), Free(names), dict(zip(names, target, strict=True))).reshape(
        -1, 2
    )
    turn = np.degrees(np.arctan2(*(laid[3] - laid[0])[::-1]))
    assert turn == pytest.approx(-0.6914385, abs=1e-6)
    assert laid[0] == pytest.approx((612.09229, 78.41327), abs=1e-5)
    assert ((laid - np.array(target)) ** 2).sum() == pytest.approx(0.44396422, abs=1e-7)
