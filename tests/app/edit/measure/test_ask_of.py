"""What a list lacks is put into it as the longer one has it."""

import msgspec

from app.edit import edits
from app.edit.measure import new_reading
from geometry.layout import Layout
from geometry.work_out import work_out
from tests.short_list import short_list

ENDS = ("fret12.left", "fret12.right")


def unlooked(layout: Layout) -> list[str]:
    return [finding.where for finding in layout.findings if finding.code == "board.unlooked"]


def test_the_short_list_gets_the_questions_on_fret_12_and_no_more() -> None:
    before = short_list()
    job, first = new_reading.ask_of(before, ENDS)
    new = job.readings[len(before.readings) :]
    assert [(one.kind, one.of, one.from_[0], one.asked) for one in new] == [
        ("inline", ("fret12.left",), "nut.left", True),
        ("inline", ("fret12.right",), "nut.right", True),
    ]
    assert first == new[0].id


def test_what_is_read_once_more_stands_behind_what_was_read_of_it_before() -> None:
    job = short_list()
    first, last = job.readings[0], job.readings[-1]
    job, name = new_reading.add(job, msgspec.structs.replace(first, value=None), after=last.id)
    assert [one.id for one in job.readings[:2]] == [first.id, name]
    job, again = new_reading.add(job, msgspec.structs.replace(first, value=None), after=None)
    assert [one.id for one in job.readings[:3]] == [first.id, name, again]


def test_nothing_is_asked_twice() -> None:
    once, first = new_reading.ask_of(short_list(), ENDS)
    assert new_reading.ask_of(once, ENDS) == (once, first)


def test_what_is_asked_settles_whether_the_edges_are_straight() -> None:
    job = short_list()
    assert unlooked(work_out(job)) == ["add:fret12.left+fret12.right"]
    job, _ = new_reading.ask_of(job, ENDS)
    assert unlooked(work_out(job)) == [f"reading:{job.readings[18].id}"]
    bass, treble = job.readings[18:]
    job = edits.set_value(job, bass.id, "yes")
    (said,) = [finding for finding in work_out(job).findings if finding.code == "board.unlooked"]
    assert said.where == f"reading:{treble.id}"
    assert said.text.startswith("Only the bass edge was looked along; nobody has checked whether the treble edge is")
    layout = work_out(edits.set_value(job, treble.id, "yes"))
    assert unlooked(layout) == []
    assert "board.straight" in {finding.code for finding in layout.findings}
