"""What is worked out of faulty jobs, held against what it was when that was last looked at.

As with all that is held, the figures are the program's own: they show that something has changed. After a change that
is meant, `python -m tests.geometry.held_faulty` keeps them anew and tells what moved; each must be meant.
"""

import pytest

from geometry.job import Job
from geometry.survey import survey
from tests.geometry.held.changed_jobs import plain
from tests.geometry.held.keeping import different, kept
from tests.geometry.held_faulty.faulty_jobs import FILE, faulty, sums_of


@pytest.mark.parametrize("name", kept(FILE))
def test_a_faulty_job(name: str) -> None:
    assert different(sums_of(name), kept(FILE)[name]) == {}


def values(job: Job) -> dict[str, object]:
    return {reading.id: reading.value for reading in job.readings}


def test_a_name_tells_the_job() -> None:
    """The same job with a third of its readings left out, or one more of them slipped."""
    whole, thinned = faulty("misread 7"), faulty("misread 7, thinned")
    assert values(thinned).items() < values(whole).items()
    slipped = values(faulty("misread 7, another 7.5"))
    (one,) = (name for name, value in values(whole).items() if slipped[name] != value)
    assert slipped[one] == pytest.approx(float(str(values(whole)[one]).removesuffix(" mm")) + 7.5)


def test_changes_are_put_in_together() -> None:
    job = faulty('one-slip: hand = "left" & unit = "in"')
    assert (job.hand, job.unit) == ("left", "in")
    wide = faulty("fullest: bridge.length × 1.1").bridge
    assert wide is not None
    assert wide.length == pytest.approx(1.1 * plain("fullest")["bridge"]["length"])


def test_what_would_be_without_the_accused_is_held() -> None:
    name = "misread fret 2"
    assert survey(faulty(name)).alternatives
    assert sums_of(name)["otherwise"] > 0
