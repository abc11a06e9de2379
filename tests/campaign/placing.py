"""What is placed of a job, without what is to be said of it: all that a stated ± is tried by, and quicker to have.

What is to be said is worked out of some of them all the same, so that a sentence that cannot be made of an odd bridge
is met.
"""

import zlib

import msgspec

from app.desk.document.working_out import WorkingOut
from geometry.job import Job
from geometry.layout import Layout

ONE_AFTER_ANOTHER = WorkingOut()
"""One survey serves, whatever bridge is placed by it."""
JUDGED = 10
"""One job in so many is judged as well: always the same ones, by what they hold."""


def places_of(job: Job) -> Layout:
    """The places of a job's layout."""
    laid = ONE_AFTER_ANOTHER.lay_places(job)
    return laid.judged() if is_judged(job) else laid.layout


def is_judged(job: Job) -> bool:
    """Whether what is to be said of a job is worked out too."""
    return zlib.crc32(msgspec.json.encode(job)) % JUDGED == 0
