"""So many trials of each case, judged, by one process or by two. In a module of its own, for a process that is started
afresh finds nothing in the one that is run.
"""

from concurrent.futures import ProcessPoolExecutor
from functools import partial
from multiprocessing import get_context

from tests.campaign.invented.cases import Case
from tests.campaign.invented.trials import trial_of
from tests.campaign.judging import Record, judge

MOST_PROCESSES = 2


def judged_one(case: Case, seed: int, index: int) -> Record:
    """One trial of a case, judged."""
    return judge(trial_of(case, seed, index), mirror=case.mirrored)


def campaign(cases: list[Case], seed: int, count: int, jobs: int = 1) -> dict[str, list[Record]]:
    """So many trials of each case, judged; the same seed gives the same records, with one process or with two."""
    if jobs <= 1:
        return {case.name: [judged_one(case, seed, index) for index in range(count)] for case in cases}
    with ProcessPoolExecutor(min(jobs, MOST_PROCESSES), get_context("spawn")) as pool:
        return {
            case.name: list(pool.map(partial(judged_one, case, seed), range(count), chunksize=25)) for case in cases
        }
