"""The readings of which each one, left out, leaves nothing beyond belief: against fitting anew without each of them."""

import numpy as np
import pytest

from geometry.job import Job
from geometry.survey.adjust.adjustment import NO_CONTROL, Adjusted, come_to_rest, describe
from geometry.survey.adjust.network import network_of
from geometry.survey.judge.checked import Flags
from geometry.survey.judge.suspects import AS_SAID, MOST, _explaining, beyond_belief
from geometry.survey.judge.without_accused import FAR
from geometry.survey.result import Array
from geometry.survey.rows.row import BELIEVABLE
from geometry.survey.rows.rows_of_readings import rows_of
from geometry.survey.surveying import _solution
from tests.campaign.invented.cases import CASES
from tests.campaign.invented.trials import trial_of

BY_NAME = {case.name: case for case in CASES}


def standardized(done: Adjusted) -> tuple[Array, Flags]:
    """How far out each reading is, in its own standard deviations, and which of them anything checks."""
    fitted, r = done.net.fitted, done.redundancy
    sure = (r > 10 * NO_CONTROL)[:fitted]
    v = np.abs(done.residual / done.net.sigma)[:fitted]
    return np.where(sure, v / np.sqrt(np.where(sure, r[:fitted], 1.0)), 0.0), sure


def fitted_anew(job: Job, done: Adjusted) -> tuple[set[str], set[str]]:
    """By fitting without each reading that is out beyond belief: the ids of those that then leave nothing such, and of
    all that were tried; one that holds an unknown by itself cannot be left out, and where the fit without it lies
    farther off than `FAR` the two ways need not agree: it bends on the way.
    """
    w, sure = standardized(done)
    most = beyond_belief(int(sure.sum()), AS_SAID + max(done.dof - 1, 0))
    found, tried = set[str](), set[str]()
    for row in np.argsort(-w)[:MOST].tolist():
        name = done.net.rows[row].id
        if w[row] <= BELIEVABLE:
            continue
        net = network_of([one for one in rows_of(job) if one.id != name])
        if (net.points, net.extras) != (done.net.points, done.net.extras):
            continue
        at_rest = come_to_rest(net, done.x).x
        if np.abs(at_rest - done.x).max() > FAR:
            continue
        tried.add(name)
        again = describe(net, at_rest, done.datum)
        if (standardized(again)[0] <= most).all():
            found.add(name)
    return found, tried


@pytest.mark.parametrize("case", ["misread", "misread fret", "swapped", "sloppy"])
@pytest.mark.parametrize("index", range(5))
def test_what_explains_all_is_found_as_by_fitting_anew(case: str, index: int) -> None:
    job = trial_of(BY_NAME[case], 31, index).job
    done = _solution(job, network_of(rows_of(job))).done
    names = {done.net.rows[row].id for row in _explaining(done)}
    found, tried = fitted_anew(job, done)
    assert names & tried == found


def test_where_nothing_is_out_nothing_explains_it() -> None:
    job = trial_of(BY_NAME["as given"], 31, 0).job
    done = _solution(job, network_of(rows_of(job))).done
    assert standardized(done)[0].max() <= BELIEVABLE
    assert not _explaining(done)
