"""What is drawn of jobs in which several things are changed at once, as sums: each is quickly drawn, and they were
chosen among thousands for the code that each goes through and none before it.

A name tells what is drawn, and of which job, as `faulty_jobs` call it: a page's name, or `parts`, all that is drawn in
no time.
"""

from functools import lru_cache
from pathlib import Path

import msgspec

from geometry.job import Job, NotAJob
from geometry.layout import Layout
from geometry.work_out import work_out
from tests.export.held_drawn.drawn_sums import ALL, LONG, TAPED_ON, _drawn
from tests.geometry.held.changed_sums import REFUSED
from tests.geometry.held.sums import Sums, whole
from tests.geometry.held_faulty.faulty_jobs import faulty

FILE = Path(__file__).with_name("drawn.txt")
PARTS = "parts"
OF = " of "


@lru_cache(maxsize=1)
def _laid_out(name: str) -> tuple[Job, Layout]:
    job = faulty(name)
    return job, work_out(job)


def sums_of(name: str) -> Sums:
    """The sums of what is drawn, by its name."""
    what, _, of = name.partition(OF)
    try:
        job, layout = _laid_out(of)
    except (msgspec.ValidationError, NotAJob):
        return REFUSED
    if what != PARTS:
        return _drawn(job, layout, ALL[what])
    drawings = {one: _drawn(job, layout, ALL[one]) for one in ALL if one not in (*TAPED_ON, *LONG)}
    return {template: whole(found) for template, found in drawings.items() if found}
