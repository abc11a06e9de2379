"""What is to be looked at again: the words name those readings that the links beside them act on, in every state."""

from collections.abc import Iterator
from functools import cache

import pytest

from app.edit import edits
from app.file import job_file, samples
from app.say.look_again import LookAgain, look_again
from geometry import units, words
from geometry.job import Job
from geometry.layout import Layout, accused_in_order
from geometry.work_out import work_out
from tests.long_list import DIAGONAL, LAST, long_list

SAMPLES = [path.name.removesuffix(".job.json") for path in samples.paths()]
SLIP = 25.4 / 4
"""A quarter of an inch too much, mm: the slip of one who reads a rule (common practice, no source)."""


@cache
def sample(name: str) -> Job:
    path = samples.find(name)
    assert path is not None
    return job_file.read(path)


def states(job: Job) -> Iterator[Job]:
    """The job as it is and with a slip in one of three readings; each with all taken, and with one or two left out."""
    checked = {fit.id for fit in work_out(job).readings if fit.checked}
    lengths = [
        r for r in job.readings if len(r.parts) == 1 and r.id in checked and r.kind in ("distance", "along", "off")
    ]
    slips = [lengths[at * (len(lengths) - 1) // 2] for at in range(3)]
    slipped = [
        edits.set_value(job, r.id, f"{units.mm(r.parts[0]) + SLIP:.2f} mm {words.side_read(r, job.hand)}".strip())
        for r in slips
    ]
    for made in (job, *slipped):
        yield made
        for left_out in ([lengths[-1].id], [lengths[len(lengths) // 2].id, lengths[-2].id]):
            empty = made
            for name in left_out:
                empty = edits.set_value(empty, name, "")
            yield empty


def names_as_linked(job: Job, layout: Layout, again: LookAgain) -> None:
    """No reading is named that the links leave out, and each of theirs is named."""
    said = f"{again.head} {again.body}"
    named = {r.id for r in job.readings if words.reading_called(job, r) in said}
    named |= {r.id for r in job.readings if again.head == f"Look again: {words.reading_headed(job, r)}"}
    assert again.readings == accused_in_order(layout.survey)
    if again.readings:
        assert named <= set(again.readings)
        told_as_one = layout.survey.layings or said.startswith("Look again Fret 12 to the board’s end reads")
        assert told_as_one or named == set(again.readings)


@pytest.mark.parametrize("name", SAMPLES)
def test_the_words_name_the_readings_that_the_links_act_on(name: str) -> None:
    accused = 0
    for job in states(sample(name)):
        layout = work_out(job)
        again = look_again(job, layout)
        names_as_linked(job, layout, again)
        accused += bool(again.readings)
    assert accused  # a quarter of an inch is seen in some


def test_what_is_wrong_comes_before_what_waits_for_the_reading_in_hand() -> None:
    """The diagonal reads 1/8 in too much, and two distances alone leave the last pin hole on either side."""
    job = long_list(**{DIAGONAL: "17 19/32", LAST: ""})
    layout = work_out(job)
    again = look_again(job, layout)
    assert layout.survey.verdict == "either side"
    assert (again.head, again.readings) == ("Look again: nut bass to board end treble", (DIAGONAL,))
    assert again.body.startswith("Reads 1/8 in more than the others allow")
    assert "either side" not in again.body
    besides = next(finding for finding in layout.findings if finding.code == "point.either_side")
    assert (besides.where, besides.text.startswith("Old pin hole 6 may lie on either side")) == ("point:pin.6", True)
    names_as_linked(job, layout, again)


def test_what_only_waits_is_said_once_nothing_is_wrong_and_all_is_taken() -> None:
    job = long_list(**{LAST: ""})
    assert look_again(job, work_out(job)) == LookAgain()
    struck = edits.strike(job, LAST)
    again = look_again(struck, work_out(struck))
    assert (again.head, again.readings) == ("Not settled yet", ())
    assert again.body.startswith("Old pin hole 6 may lie on either side")


def test_of_two_readings_called_alike_the_heading_says_which() -> None:
    """derived: of the nut’s width read three times, 1 23/32 in twice, the one an eighth longer is named."""
    job = long_list()
    names = []
    for text in ("1 27/32", "1 23/32"):
        job = edits.add(job, "distance", ("nut.left", "nut.right"))
        names.append(job.readings[-1].id)
        job = edits.set_value(job, names[-1], text)
    again = look_again(job, work_out(job))
    assert again.readings == (names[0],)
    assert again.head == "Look again: nut, edge to edge, second time"
