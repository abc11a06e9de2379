"""Large networks, solved as nearly empty ones: the same answers as by full matrices, also where something is loose."""

import numpy as np
import pytest
from msgspec.structs import replace

from geometry.job import Job
from geometry.survey import survey
from geometry.survey.adjust import adjustment, network, sparse
from geometry.survey.adjust.network import evaluate, network_of, normal, sparse_normal
from geometry.survey.result import Surveyed
from geometry.survey.rows.rows_of_readings import rows_of
from tests.bench.test_survey_speed import network as bench

POINTS = 230
NEAR = 1e-7
"""mm; both ways end within the adjustment's own rest of each other."""


def full(job: Job, monkeypatch: pytest.MonkeyPatch) -> Surveyed:
    """The survey by full matrices, however large it is."""
    with monkeypatch.context() as patched:
        for module in (sparse, network, adjustment):
            patched.setattr(module, "SPARSE", 10**6)
        return survey(job)


def without(job: Job, name: str, keep: int) -> Job:
    """The job with all but so many of the readings to a point left out."""
    own = [reading.id for reading in job.readings if name in reading.of]
    return replace(job, readings=tuple(r for r in job.readings if r.id not in own[keep:]))


@pytest.mark.parametrize("keep", [9, 2, 1, 0])
def test_the_same_as_by_full_matrices(keep: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """With all its readings, with two (either side), with one, and with none: the last point is then loose."""
    whole = bench(POINTS)
    job = without(whole, list(whole.points)[-1], keep)
    one, other = survey(job), full(job, monkeypatch)
    assert len(one.state) > sparse.SPARSE
    assert one.report.verdict == other.report.verdict
    assert one.point_at == other.point_at
    assert {loose.point for loose in one.report.loose} == {loose.point for loose in other.report.loose}
    for name, at in one.point_at.items():
        if name not in one.report.elsewhere:
            assert one.state[at : at + 2] == pytest.approx(other.state[at : at + 2], abs=NEAR), name
    held = [column for at in one.point_at.values() for column in (at, at + 1)]
    assert np.diag(one.cov)[held] == pytest.approx(np.diag(other.cov)[held], rel=1e-6, abs=1e-12)
    assert one.redundancy == pytest.approx(other.redundancy, abs=1e-6)


def test_a_step_by_its_definition() -> None:
    """derived: the same equations, some unknowns held and the diagonal damped, by a full matrix"""
    net = network_of(rows_of(bench(POINTS)))
    assert net.pattern is not None
    x = np.random.default_rng(3).normal(0, 300, net.p)
    g, jac = evaluate(net, x)
    scaled, miss = jac / net.sigma[:, None], (net.value - g) / net.sigma
    thin, pull = sparse_normal(net, net.pattern, scaled, miss)
    matrix, right = normal(net, scaled, miss)
    assert pull == pytest.approx(right)
    fixed = np.array([0, 1, 7])
    matrix[fixed, :] = matrix[:, fixed] = 0
    matrix[fixed, fixed] = 1
    matrix[range(net.p), range(net.p)] *= 1.25
    pull[fixed] = 0
    found = thin.held(fixed).damped(0.25).solve(pull)
    assert found == pytest.approx(np.linalg.solve(matrix, pull), rel=1e-6, abs=1e-9)


def test_the_inverse_by_its_definition() -> None:
    random = np.random.default_rng(1).normal(size=(60, 40))
    matrix = random.T @ random
    assert sparse.inverse(matrix) @ matrix == pytest.approx(np.eye(40), abs=1e-9)
    assert (sparse.inverse(matrix) == sparse.inverse(matrix).T).all()
    with pytest.raises(RuntimeError, match="singular"):
        sparse.inverse(np.zeros((3, 3)))


def test_a_matrix_that_holds_nothing_is_damped_until_it_does() -> None:
    net = network_of(rows_of(bench(POINTS)))
    assert net.pattern is not None
    nothing = sparse.Sparse(net.pattern, np.zeros(len(net.pattern.rows)))
    assert nothing.damped(0.0).solve(np.ones(net.p)) == pytest.approx(np.ones(net.p))
