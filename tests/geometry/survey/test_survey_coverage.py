"""Points' covariances hold what they promise: invented readings, errors drawn from what the readings state.

The full run over whole layouts belongs to the layout's own tests; this one looks at the points alone.
"""

import numpy as np
import pytest

from geometry.survey import Free, adjust, network_of, rows_of
from geometry.survey.result import Array
from geometry.survey.rows.row import Row
from tests.geometry.survey.invented import job_of, taken
from tests.geometry.survey.test_verdicts import OLD, TIED

TRIALS = 400
CHI_SQUARE_2_95 = 5.991
"""The 95 % point of chi-square with 2 degrees of freedom (Abramowitz & Stegun 1964, table 26.8)."""


def drawn(rng: np.random.Generator, rows: list[Row]) -> list[Row]:
    """The rows' values with errors: each extra unknown that is known beforehand drawn once, each row's own besides."""
    common = {row.extras[0][0]: rng.normal(0, row.sigma) for row in rows if not row.id}
    out = []
    for row in rows:
        shared = sum(slope * common.get(name, 0.0) for name, slope in row.extras) if row.id else 0.0
        own = rng.normal(0, row.sigma) if row.id else 0.0
        out.append(Row(row.id, row.form, row.points, row.value + shared + own, row.sigma, row.lean, row.extras))
    return out


def misses(places: dict[str, complex], x: Array, names: tuple[str, ...]) -> Array:
    """How far each point is from its true place (k, 2), the whole figure laid on the true one as well as can be."""
    now, true = x[: 2 * len(names)].view(complex), np.array([places[name] for name in names])
    spin = np.vdot(true - true.mean(), now - now.mean())
    laid = (now - now.mean()) / (spin / abs(spin)) + true.mean()
    return np.asarray((laid - true).view(float).reshape(-1, 2))


@pytest.mark.parametrize("fine", ["rule 0.5", "caliper 0.1"])
def test_ellipses_of_95_percent_hold_the_truth_in_95_percent(fine: str) -> None:
    rng = np.random.default_rng(20)
    rows = rows_of(job_of(taken(OLD, TIED, fine=fine)))
    start = {name: (z.real, z.imag) for name, z in OLD.items()}
    inside, squares, dof = [], [], 0
    for _ in range(TRIALS):
        net = network_of(drawn(rng, rows))
        done = adjust(net, Free(net.points), start)
        off = misses(OLD, done.x, net.points)
        for name, d in zip(net.points, off, strict=True):
            inside.append(float(d @ np.linalg.solve(done.spread(name), d)) < CHI_SQUARE_2_95)
        squares.append(done.squares)
        dof = done.dof
    share = float(np.mean(inside))
    assert 0.93 < share < 0.97
    assert np.mean(squares) == pytest.approx(dof, rel=4 * np.sqrt(2 / dof / TRIALS))
