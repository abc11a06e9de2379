"""Edits: a new job for each, and what no job can hold is refused in one sentence."""

import pytest

from app.edit import edits
from geometry.job import Job, NotAJob, Old, Point, Reading
from geometry.units import NotALength, Unit

NUT = Reading(id="r1", kind="distance", of=("nut.left", "nut.right"), value=43.0)
HOLE = Reading(id="r2", kind="rims", of=("nut.left", "pin.1"))
LINE = Reading(id="r3", kind="inline", of=("seam.1",), from_=("nut.left", "end.left"))


@pytest.fixture
def job() -> Job:
    made = Job()
    for reading in (NUT, HOLE, LINE):
        made = edits.add_reading(made, reading)
    return made


def test_a_value_is_kept_as_typed(job: Job) -> None:
    assert edits.find(edits.set_value(job, "r1", "1 11/16 in"), "r1").value == "1 11/16 in"
    assert edits.find(edits.set_value(job, "r1", "43,2"), "r1").value == "43,2 mm"


def test_an_emptied_value_is_still_to_be_measured(job: Job) -> None:
    assert edits.find(edits.set_value(job, "r1", "  "), "r1").value is None


def test_a_hole_takes_two_values(job: Job) -> None:
    assert edits.find(edits.set_value(job, "r2", "12.5 ; 17.5"), "r2").value == (12.5, 17.5)


def test_one_value_too_few_is_said(job: Job) -> None:
    with pytest.raises(NotAJob, match=r"takes two values, like 12.5 ; 17.5 \(near rim ; far rim\)"):
        edits.set_value(job, "r2", "12.5")
    inches = edits.replace(job, unit="in")
    with pytest.raises(NotAJob, match=r"takes two values, like 1/2 ; 11/16 \(near rim ; far rim\)"):
        edits.set_value(inches, "r2", "1/2")


def test_a_condition_takes_an_answer_in_place_of_a_value(job: Job) -> None:
    # a length alone is half an answer: on which side of the straightedge the point lies is not said
    with pytest.raises(NotAJob, match="“3” does not say to which side"):
        edits.set_value(job, "r3", "3")
    off = edits.find(edits.set_value(job, "r3", "3 bass"), "r3")
    assert (off.kind, off.side, off.value) == ("off", "right", 3.0)


def test_a_height_no_string_has_is_refused_where_it_is_typed() -> None:
    job = Job(readings=(Reading(id="h", kind="height", at="fret 12", on="left"),))
    with pytest.raises(NotAJob, match=r"The string over fret 12 is 2 in, but must lie between 0 and 15/32 in"):
        edits.set_value(job, "h", "2 in")


def test_what_is_no_length_is_refused(job: Job) -> None:
    with pytest.raises(NotALength, match="“abc” is not a length"):
        edits.set_value(job, "r1", "abc")


@pytest.mark.parametrize(
    ("unit", "like"),
    [
        ("mm", "643.5, 64,4 cm or 25 11/32 in"),
        ("cm", "64,4, 643.5 mm or 25 11/32 in"),
        ("in", "25 11/32, 643.5 mm or 64,4 cm"),
    ],
)
def test_how_to_write_a_length_begins_with_the_jobs_unit(job: Job, unit: Unit, like: str) -> None:
    with pytest.raises(NotALength, match=f"write it like {like}$"):
        edits.set_value(edits.replace(job, unit=unit), "r1", "abc")


def test_striking_out_and_bringing_back_change_nothing_else(job: Job) -> None:
    struck = edits.strike(job, "r1")
    assert edits.find(struck, "r1").struck
    assert edits.bring_back(struck, "r1") == job


def test_removing_a_reading_takes_points_along_that_nothing_names(job: Job) -> None:
    removed = edits.remove(job, "r3")
    assert "seam.1" not in removed.points
    assert "nut.left" in removed.points


def test_a_point_of_the_old_work_stays_when_its_reading_goes(job: Job) -> None:
    old = edits.replace(job, old=Old(outline=("seam.1",)))
    assert "seam.1" in edits.remove(old, "r3").points


def test_a_new_reading_gets_a_free_id_and_its_points(job: Job) -> None:
    added = edits.add(job, "distance", ("nut.left", "end.right"), after="r1")
    assert [r.id for r in added.readings] == ["r1", "r4", "r2", "r3"]
    assert "end.right" in added.points


def test_fineness_is_an_instrument_or_a_length(job: Job) -> None:
    assert edits.find(edits.set_fineness(job, "r1", "caliper 0.1"), "r1").with_ == "caliper 0.1"
    typed = edits.find(edits.set_fineness(job, "r1", "± 1/64 in"), "r1")
    assert (typed.with_, typed.within) == (None, "1/64 in")


@pytest.mark.parametrize(
    ("readings", "expected"),
    [
        ((), "near"),
        ((Reading(id="a", kind="at", of=("p",), value=(1.0, 2.0)),), "placed"),
        ((Reading(id="a", kind="at", of=("p",), value=(1.0, 2.0), struck=True),), "near"),
        ((Reading(id="a", kind="distance", of=("p", "q"), value=5.0),), "measured"),
        ((Reading(id="a", kind="distance", of=("p", "q")),), "near"),
    ],
    ids=["no reading", "placed", "struck out", "measured", "still to be measured"],
)
def test_what_dragging_a_point_does(readings: tuple[Reading, ...], expected: str) -> None:
    job = Job(points={"p": Point(), "q": Point()}, readings=readings)
    assert edits.how_movable(job, "p") == expected


def test_moving_a_placed_point_edits_its_reading() -> None:
    job = edits.add_reading(Job(), Reading(id="a", kind="at", of=("p",), value=(10.0, -2.0)))
    assert edits.find(edits.move_placed(job, "p", (0.5, 0.25)), "a").value == (10.5, -1.75)


def test_a_step_is_turned() -> None:
    assert edits.turned((1.0, 0.0), 0.5 * 3.141592653589793) == pytest.approx((0.0, 1.0))


def test_another_unit_changes_no_value(job: Job) -> None:
    assert edits.set_unit(job, "in").readings == job.readings


def test_a_placed_point_is_moved_by_the_reading_that_was_taken() -> None:
    empty = Reading(id="p1", kind="at", of=("body.1",), value=None)
    taken = Reading(id="p2", kind="at", of=("body.1",), value=(10.0, 20.0), within=1.0)
    job = Job(points={"body.1": Point()}, readings=(empty, taken))
    assert edits.find(edits.move_placed(job, "body.1", (1.0, 2.0)), "p2").value == (11.0, 22.0)
