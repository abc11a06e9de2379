"""What is told of invented instruments, read as hands read them: finely, coarsely, with a reading misread, with two
exchanged, with a nut out of place and with slanted frets, by each of the measuring lists.
"""

import pytest

from geometry.survey.adjust.network import network_of
from geometry.survey.rows.rows_of_readings import rows_of
from geometry.survey.rows.which_side import turns
from geometry.survey.start.rough_places import provisional_places, search_input
from geometry.work_out import work_out
from tests.campaign.invented.cases import CASES
from tests.campaign.invented.trials import trial_of
from tests.pinned import changes, kept
from tests.pinned import told as told_of
from tests.pinned.test_changes import NEAR
from tests.pinned.test_starts import lines, rough, rounded

SEED, TRIALS = 28, 3
"""A trial for each of the three measuring lists."""
EACH = [(case.name, index) for case in CASES for index in range(TRIALS)]
BY_NAME = {case.name: case for case in CASES}


@pytest.mark.parametrize(("case", "index"), EACH)
def test_an_invented_instrument(case: str, index: int) -> None:
    job = trial_of(BY_NAME[case], SEED, index).job
    layout = work_out(job)
    told = {f"told {at}": sentence for at, sentence in enumerate(changes.sentences(job, layout), 1)}
    sums = {block: list(numbers) for block, numbers in changes.sums(layout).items()}
    assert kept.differences_of("invented", f"{case}, {index}", told | sums, NEAR) == []
    # what would change a verdict, which reading is worth most, and by which distances the place is proved
    advised = told_of.verdicts_of(job, layout) | told_of.advice_of(job, layout)
    if index == 1:
        advised |= told_of.proof_of(job, layout)
    assert kept.differences_of("invented, advised", f"{case}, {index}", advised, 1e-5) == []


@pytest.mark.parametrize("case", ["as given", "sloppy", "misread", "swapped"])
def test_where_the_search_starts(case: str) -> None:
    """Where the points lie usually is known of the lists' points, and of no sample's."""
    job = trial_of(BY_NAME[case], SEED, 2).job
    net = network_of(rows_of(job))
    what = search_input(net.rows, net.points, turns(job, net.points, net.rows), rough(job, False), rough(job, True))
    found = rounded(lines(provisional_places(what)))
    assert kept.differences_of("starts/invented", case, found, 1e-4) == []
