"""The written work on a bridge that the strings hold and that stands where it belongs already, within its ±."""

import pytest

from export.templates import TEMPLATES
from export.templates.written import job_results, work_steps
from geometry.job import Job
from geometry.layout import Layout
from tests.geometry.floating.floating_made import TAIL, laid, standing_job
from tests.geometry.floating.test_stands import put
from tests.geometry.made import BOARD


def standing(by: complex, tail_aside: float = 0.0) -> tuple[Job, Layout]:
    """A bridge moved so far from where it belongs, with its tail read so far to the left of where it hangs true."""
    job = standing_job()
    layout = laid(job, BOARD | TAIL | put(by, 0.0))
    assert layout.tail is not None
    aside = tail_aside - (layout.tail.off or 0.0)
    tail = {name: (x, y + aside) for name, (x, y) in TAIL.items()}
    return job, laid(job, BOARD | tail | put(by, 0.0))


def steps(job: Job, layout: Layout) -> str:
    return " ".join(work_steps.steps(job, layout, TEMPLATES))


@pytest.mark.parametrize("by", [0j, 0.2 + 0j])
def test_one_that_stands_in_its_place_is_left_there(by: complex) -> None:
    job, layout = standing(by)
    told = steps(job, layout)
    assert "Leave the bridge where it stands" in told
    for moved in ("Tape the template", "Stand the feet", "Let the strings down", "Take the strings off", "Hang it"):
        assert moved not in told
    assert "Tune: flat at fret 12" in told
    (row,) = [row for row in job_results.results(job, layout) if row[0] == "Where the bridge stands"]
    assert row[-1] == "where it belongs, as well as that is known"


def test_one_that_is_to_be_moved_is_stood_up_by_its_template() -> None:
    job, layout = standing(-3 + 0j)
    told = steps(job, layout)
    assert "Leave the bridge" not in told
    assert "moves when the tail" not in told
    assert "Tape the template" in told
    assert "Where the bridge stands" not in [row[0] for row in job_results.results(job, layout)]


def test_a_tail_that_hangs_off_is_told_to_be_why_it_moves() -> None:
    job, layout = standing(0j, tail_aside=6.0)
    assert "tail.off" in [finding.code for finding in layout.findings]
    told = steps(job, layout)
    assert "The bridge stands in its place, but it moves when the tail is hung anew." in told
    assert "Tape the template" in told
