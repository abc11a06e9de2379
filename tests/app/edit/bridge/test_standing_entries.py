"""What the Bridge card puts back of a bridge that stands on the top, and of a tail."""

import pytest
from msgspec.structs import replace

from app.edit import edits
from app.edit.bridge import held_entries, kept_places, standing_entries
from app.edit.strings import string_entries
from app.file import job_file, samples
from geometry.job import Bridge, Floating, Job, NotAJob, Pins, Point, Strings, Tail
from geometry.job.stringing import String
from geometry.work_out import work_out


def board() -> Job:
    names = ("nut.left", "nut.right", "end.left", "end.right")
    return Job(points={name: Point() for name in names}, floating=Floating(length=100))


def test_feet_are_begun_with_a_usual_length_and_taken_away() -> None:
    """common practice, no source: a fifth of the bridge's length"""
    two = standing_entries.put_count(board(), 2)
    assert two.floating == Floating(length=100, feet=(20.0, 20.0))
    assert standing_entries.count(standing_entries.put_count(two, 0)) == 0
    assert standing_entries.put_count(two, 2) is two


def test_the_right_foot_is_the_last_one() -> None:
    three = standing_entries.put_count(board(), 3)
    get, put = standing_entries.foot(-1)
    changed = put(three, "15 mm")
    assert changed.floating is not None
    assert changed.floating.feet == (20.0, 20.0, "15 mm")
    assert get(changed) == "15 mm"


def test_a_foot_that_is_not_there_is_none() -> None:
    get, put = standing_entries.foot(1)
    assert get(board()) is None
    assert put(board(), 10) == board()


def test_two_heights_that_are_alike_are_one() -> None:
    left, right = standing_entries.height(0), standing_entries.height(1)
    one = left[1](board(), 16)
    assert one.floating is not None
    assert list(one.floating.heights) == [16, None]
    both = right[1](one, 16)
    assert both.floating == Floating(length=100, height=16)


def test_its_feet_are_asked_for_once() -> None:
    job = standing_entries.ask_feet(board())
    assert standing_entries.feet_asked(job)
    asked = [(r.kind, r.of, r.side) for r in job.readings]
    assert asked == [
        ("along", ("foot.left",), None),
        ("off", ("foot.left",), "left"),
        ("along", ("foot.right",), None),
        ("off", ("foot.right",), "right"),
    ]
    assert standing_entries.ask_feet(job) == job


def test_the_tail_is_asked_for_inside_the_edges() -> None:
    job = standing_entries.ask_tail(board())
    assert standing_entries.tail_asked(job)
    assert [r.side for r in job.readings if r.kind == "off"] == ["right", "left"]


def test_strings_run_on_but_where_pins_hold_them() -> None:
    assert standing_entries.runs_on(board())
    assert standing_entries.runs_on(replace(board(), floating=None, bridge=Bridge()))
    assert not standing_entries.runs_on(replace(board(), floating=None, bridge=Bridge(pins=Pins())))


def test_a_tail_is_begun_and_taken_away() -> None:
    job = standing_entries.put_has_tail(board(), True)
    assert job.tail == Tail()
    get, put = standing_entries.tail("under")
    assert get(put(job, 9.0)) == 9.0
    assert standing_entries.put_has_tail(job, False).tail is None


def test_another_way_to_be_held_keeps_the_tail() -> None:
    job = standing_entries.put_has_tail(board(), True)
    glued = held_entries.hold(job, "glue")
    assert glued.held == "glue"
    assert glued.tail == Tail()


def test_points_round_a_mark_stay_when_their_readings_go() -> None:
    path = samples.find("floating-five")
    assert path is not None
    job = job_file.read(path)
    for reading in job.readings:
        if reading.of == ("mark.1",):
            job = edits.remove(job, reading.id)
    assert "mark.1" in job.points


def test_what_is_heard_where_it_stands_needs_its_feet() -> None:
    strings = Strings(list=(String(name="1"),))
    job = replace(board(), strings=strings)
    with pytest.raises(NotAJob, match="The bridge as it stands today is not measured yet"):
        string_entries.add_heard(job, "1", "12", "3", "open", "today")
    heard = string_entries.add_heard(standing_entries.ask_feet(job), "1", "12", "3", "open", "today")
    assert heard.strings is not None
    assert [one.trial for one in heard.strings.heard] == ["today"]
    assert string_entries.heard(heard.strings.heard[0]).endswith("on the bridge as it stands today")


def test_a_kept_placement_brings_its_bridge_and_tail_back() -> None:
    path = samples.find("floating-five")
    assert path is not None
    job = job_file.read(path)
    kept = kept_places.keep(job, work_out(job), "2026-03-14")
    glued = replace(held_entries.hold(kept, "glue"), bridge=Bridge(), tail=None)
    back = kept_places.bring_back(glued, "Placement 1")
    assert (back.bridge, back.floating, back.tail) == (None, job.floating, job.tail)


def test_a_glued_one_that_was_kept_takes_the_floating_ones_place() -> None:
    path = samples.find("leaning-neck")
    assert path is not None
    job = job_file.read(path)
    kept = kept_places.keep(job, work_out(job), "2026-03-14")
    standing = held_entries.hold(kept, "strings")
    assert kept_places.bring_back(standing, "Placement 1").bridge == job.bridge


@pytest.mark.parametrize(("hand", "across"), [("right", 5.0), ("left", -5.0)])
def test_the_tails_screw_holes_are_typed_as_a_bases_are(hand: str, across: float) -> None:
    """The treble of a right-handed instrument is its left, +y."""
    job = replace(board(), hand=hand)
    put = standing_entries.put_screws(job, "14 x 5 treble; 14 × 5 bass; 20 x 0")
    assert put.tail is not None
    assert put.tail.screws == ((14.0, across), (14.0, -across), (20.0, 0.0))
    assert standing_entries.screws(put) == "14 x 5 treble; 14 x 5 bass; 20 x 0"
    assert standing_entries.put_screws(put, standing_entries.screws(put)) == put
    assert standing_entries.put_screws(put, "").tail == Tail()


def test_the_tails_screw_holes_in_inches_are_kept_as_typed() -> None:
    put = standing_entries.put_screws(replace(board(), unit="in"), "1/2 x 1/4 treble")
    assert put.tail is not None
    assert put.tail.screws[0] == ("1/2 in", "1/4 in")


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("14 x 5", "which side"),
        ("14", "not the place"),
        ("14 x 5 bass; 14 x 300 bass", "Screw hole 2 of the tailpiece, beside its middle, is -300 mm"),
        ("14 x -5 bass", "has a minus and a side"),  # it would come to lie on the treble side without a word
        ("14 x -1/4 in treble", "has a minus and a side"),
    ],
)
def test_what_is_no_screw_hole_is_said(text: str, says: str) -> None:
    with pytest.raises(NotAJob, match=says):
        standing_entries.put_screws(board(), text)


def with_points(*names: str) -> Job:
    job = board()
    return replace(job, points=job.points | {name: Point() for name in names})


def test_foot_marks_are_typed_by_the_points_round_them() -> None:
    job = with_points(*(f"mark.{number}" for number in range(1, 8)), "seam.1")
    put = standing_entries.put_marks(job, "1 2, 3; 4 5 6 7 seam.1;")
    assert put.floating is not None
    assert put.floating.marks == (
        ("mark.1", "mark.2", "mark.3"),
        ("mark.4", "mark.5", "mark.6", "mark.7", "seam.1"),
    )
    assert standing_entries.marks(put) == "1 2 3; 4 5 6 7 seam.1"
    assert standing_entries.put_marks(put, "").floating == board().floating
    with pytest.raises(NotAJob, match="no point foot mark 9"):
        standing_entries.put_marks(job, "1 2 9")
    with pytest.raises(NotAJob, match="Foot mark 1 needs 3 points that differ, and names 2"):
        standing_entries.put_marks(job, "1 2")


def test_points_that_are_measured_make_a_mark_and_four_are_asked_for_where_there_are_none() -> None:
    job = with_points("mark.2", "mark.10", "mark.1")
    one = standing_entries.another_mark(job)
    assert one.floating is not None
    assert one.floating.marks == (("mark.1", "mark.2", "mark.10"),)
    assert one.readings == ()
    two = standing_entries.another_mark(one)
    assert two.floating is not None
    assert two.floating.marks[1] == ("mark.3", "mark.4", "mark.5", "mark.6")
    assert [(r.kind, r.of[0], r.value) for r in two.readings[:2]] == [
        ("along", "mark.3", None),
        ("off", "mark.3", None),
    ]
    assert len(two.readings) == 8
    # a reading to a mark's point may be taken out: the mark keeps its point
    left = edits.remove(two, two.readings[0].id)
    assert "mark.3" in left.points
