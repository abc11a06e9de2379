"""Old work taken up from what was read, pointed at, typed as a list, put in order, and left out again."""

from pathlib import Path

import pytest
from msgspec.structs import replace

from app.edit import edits
from app.edit.old_work import hole_sizes, old_entries, old_places, old_told, taking_up
from app.edit.old_work.old_kinds import OLD_KINDS, OldKind, new_names, points_of
from app.file import job_file, samples
from geometry.job import Job, NotAJob, Old, OldHole, OldSlot, Reading
from geometry.work_out import work_out


def sample(name: str) -> Job:
    path = samples.find(name)
    assert isinstance(path, Path)
    return job_file.read(path)


NECK = replace(sample("leaning-neck"), old=None)
"""A job with a neck."""


def read(job: Job, *names: str) -> Job:
    """The job with a reading of each of these points."""
    for name in names:
        job = edits.add_reading(job, Reading(id=f"read {name}", kind="at", of=(name,), value=(1.0, 2.0)))
    return job


def taken(*names: str) -> Old:
    made = taking_up.take_up(read(Job(), *names)).old
    assert made is not None
    return made


# taking up


def test_every_family_is_taken_up_by_its_name() -> None:
    found = taken("bare.1", "bare.2", "bare.3", "hole.1", "plate.1", "plate.2", "plate.3", "brace.1.a", "brace.1.b")
    assert found.bare == ("bare.1", "bare.2", "bare.3")
    assert found.plate == ("plate.1", "plate.2", "plate.3")
    assert found.braces["1"].of == ("brace.1.a", "brace.1.b")
    assert found.holes == {"hole.1": OldHole(diameter=hole_sizes.HOLE)}


def test_two_braces_and_an_area_are_told_apart_by_their_numbers() -> None:
    found = taken("brace.2.a", "brace.2.b", "brace.1.b", "brace.1.a", "area.1.c", "area.1.a", "area.1.b")
    assert {name: brace.of for name, brace in found.braces.items()} == {
        "2": ("brace.2.a", "brace.2.b"),
        "1": ("brace.1.a", "brace.1.b"),
    }
    assert found.areas["1"].of == ("area.1.a", "area.1.b", "area.1.c")


def test_half_an_outline_is_no_outline_yet() -> None:
    job = read(Job(), "plate.1", "plate.2", "brace.1.a")
    assert taking_up.take_up(job) == job


def test_what_is_there_stays_when_more_is_taken_up() -> None:
    job = taking_up.take_up(read(Job(), "pin.1", "hole.1"))
    job = old_entries.old_field("hole.1")[1](job, 7.0)
    job = old_entries.row_put(job, 6)
    more = taking_up.take_up(read(job, "pin.6")).old
    assert more is not None
    assert (more.row, more.holes["hole.1"].diameter, list(more.pins)) == (6, 7.0, ["pin.1", "pin.6"])


def test_an_order_of_the_persons_own_is_kept() -> None:
    job = taking_up.take_up(read(Job(), "old.1", "old.2", "old.3"))
    turned = old_entries.put(job, outline=("old.1", "old.3", "old.2"))
    assert taking_up.take_up(read(turned, "old.4")).old == Old(outline=("old.1", "old.3", "old.2", "old.4"))


def test_a_slot_in_use_is_never_taken_for_the_old_one() -> None:
    job = read(Job(), "slot.left", "slot.right")
    assert taking_up.take_up(job) == job


# pointing


@pytest.mark.parametrize("kind", OLD_KINDS)
def test_what_is_pointed_at_lies_where_it_was_seen(kind: OldKind) -> None:
    spots = [(640.0, 30.0), (641.0, -28.0), (660.0, -25.0), (663.0, 32.0)][: OLD_KINDS[kind].usual]
    job = old_places.point_at(NECK, work_out(NECK), kind, spots)
    layout = work_out(job)
    for name, (x, y) in zip(points_of(job, kind), spots, strict=True):
        # derived: readings are rounded to 0.1 mm, so a place is kept to half of that each way
        assert layout.points[name].x == pytest.approx(x, abs=0.08)
        assert layout.points[name].y == pytest.approx(y, abs=0.08)
    pointed = [reading for reading in job.readings if reading.note == edits.POINTED]
    assert {reading.inside for reading in pointed} == {OLD_KINDS[kind].under}


def test_a_point_that_is_there_may_be_pointed_at_by_itself() -> None:
    job = old_places.point_at(NECK, work_out(NECK), "bare", ["old.1", "old.2", (660.0, 0.0)])
    assert points_of(job, "bare") == ("old.1", "old.2", "bare.1")
    assert len(job.readings) == len(NECK.readings) + 2


def test_a_point_that_was_only_pointed_at_is_dragged() -> None:
    job = old_places.point_at(NECK, work_out(NECK), "metal", [(640.0, 30.0)])
    assert edits.how_movable(job, "metal.1") == "pointed"
    moved = old_places.moved(job, work_out(job), "metal.1", (650.0, -40.0))
    there = work_out(moved).points["metal.1"]
    assert there.x == pytest.approx(650.0, abs=0.08)
    assert there.y == pytest.approx(-40.0, abs=0.08)
    assert len(moved.readings) == len(job.readings)


def test_too_few_corners_and_no_neck_are_refused_in_a_sentence() -> None:
    with pytest.raises(NotAJob, match="at least 3 points are needed, but there are 2"):
        old_places.point_at(NECK, work_out(NECK), "plate", [(640.0, 1.0), (650.0, 2.0)])
    with pytest.raises(NotAJob, match="read the board’s corners first"):
        old_places.point_at(Job(), work_out(Job()), "metal", [(640.0, 1.0)])
    with pytest.raises(NotAJob, match="2 points are enough, but there are 3"):
        old_places.point_at(NECK, work_out(NECK), "slot", [(640.0, 1.0), (650.0, 2.0), (660.0, 3.0)])


def test_holes_pointed_at_come_to_those_that_are_there() -> None:
    job = old_places.point_at(NECK, work_out(NECK), "holes", [(700.0, 3.0)])
    job = old_places.point_at(job, work_out(job), "holes", [(710.0, 4.0)])
    assert points_of(job, "holes") == ("hole.1", "hole.2")


# lists


def test_a_list_along_and_off_places_its_points() -> None:
    job = old_places.typed_list(NECK, "metal", "1 ; 612.5 ; 35 bass\nmetal 2 ; 613 ; 0", "bass edge", inside=False)
    assert job.old is not None
    assert list(job.old.metal) == ["metal.1", "metal.2"]
    along, off, _, zero = job.readings[-4:]
    assert (along.kind, along.value, along.from_) == ("along", 612.5, ("nut.right", "end.right"))
    assert (off.kind, off.value, off.side, zero.value) == ("off", 35.0, "right", 0.0)


def test_a_sheet_read_inside_has_its_ties_and_its_brace() -> None:
    text = "pin.1\t10\t20\npin.6\t12.5\t75\na\t-40\t0\nb\t90\t110"
    job = old_places.typed_list(NECK, "brace", text, "sheet", inside=True)
    assert job.old is not None
    assert job.old.braces["1"].of == ("brace.1.a", "brace.1.b")
    assert [reading.of[0] for reading in job.readings if reading.inside] == ["pin.1", "pin.6", "brace.1.a", "brace.1.b"]
    again = old_places.typed_list(job, "brace", "a;1;2\nb;3;4", "sheet", inside=True)
    assert again.old is not None
    assert list(again.old.braces) == ["1", "2"]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "There is no line yet"),
        ("1 ; 612", "Line 1 has not three parts"),
        ("1 ; 612 ; 35", "Line 1: “35” does not say to which side"),
        ("1 ; 612 ; 35 bass\n2 ; wide ; 3 bass", "Line 2: "),
        ("1 ; 612 ; 35 bass\n2 ; 613 ; 3 bass", "at least 3 points are needed, but there are 2"),
        ("a.b.c.d ; 1 ; 2 bass", "is no name for"),
    ],
)
def test_a_list_that_cannot_be_is_refused_with_its_line(text: str, says: str) -> None:
    with pytest.raises(NotAJob, match=says):
        old_places.typed_list(NECK, "plate", text, "bass edge", inside=False)


# readings still to be taken


def test_readings_are_asked_for_and_taken_up_as_they_are_read() -> None:
    job, first = old_places.ask_readings(NECK, "footprint")
    new = [reading for reading in job.readings if reading.id not in {one.id for one in NECK.readings}]
    assert (len(new), new[0].id) == (8, first)
    assert all(reading.value is None for reading in new)
    assert job.old is None


def test_what_lies_inside_is_asked_for_with_two_holes_that_tie_it() -> None:
    job, _ = old_places.ask_readings(sample("leaning-neck"), "brace")
    asked = [reading.of[0] for reading in job.readings if reading.inside]
    assert asked == ["pin.1", "pin.6", "brace.1.a", "brace.1.b"]
    more, _ = old_places.ask_readings(job, "plate")
    assert [reading.of[0] for reading in more.readings if reading.inside][4:] == new_names(job, "plate", 4)


def test_an_old_slot_that_is_asked_for_is_the_old_one_at_once() -> None:
    job, _ = old_places.ask_readings(NECK, "slot")
    assert job.old == Old(slot=OldSlot(of=("slot.left", "slot.right")))


def test_old_work_that_is_asked_for_is_put_on_no_side_until_one_is_said() -> None:
    job, _ = old_places.ask_readings(NECK, "metal")
    assert [(r.kind, r.side) for r in job.readings[-2:]] == [("along", None), ("off", None)]
    with pytest.raises(NotAJob, match="add bass or treble"):
        edits.set_value(job, job.readings[-1].id, "35")
    read = edits.set_value(job, job.readings[-1].id, "35 treble").readings[-1]
    assert (read.value, job.bass_or_treble(read.side or "")) == (35.0, "treble")


# leaving out, and where it was read


def test_leaving_out_takes_the_readings_with_it() -> None:
    job = sample("bolted-left")
    made = old_entries.leave_out(job, "brace", "1")
    assert made.old is not None
    assert list(made.old.braces) == ["2"]
    assert "brace.1.a" not in made.points
    assert len(made.readings) == len(job.readings) - 2
    assert old_entries.leave_out(made, "pins").old is not None


def test_everything_left_out_leaves_no_old_block() -> None:
    job = sample("small-askew")
    for kind in OLD_KINDS:
        for _ in range(2):
            job = old_entries.leave_out(job, kind)
    assert job.old is None


def test_said_inside_once_holds_for_all_that_lies_under_the_top() -> None:
    outside = tuple(replace(reading, inside=False) for reading in sample("bolted-left").readings)
    job = old_entries.said_inside(replace(sample("bolted-left"), readings=outside))
    said = {reading.of[0] for reading in job.readings if reading.inside}
    assert job.old is not None
    assert said == set(job.old.inside)
    assert old_entries.said_inside(job) == job


def test_the_row_counts_whole_holes() -> None:
    job = sample("bolted-left")
    assert old_entries.row_of(old_entries.row_put(job, 12)) == 12
    assert old_entries.row_of(old_entries.row_put(job, None)) is None
    with pytest.raises(NotAJob, match="no number of holes"):
        old_entries.row_put(job, 5.5)
    with pytest.raises(NotAJob, match="must have 2 to 24"):
        old_entries.row_put(job, 1)


def test_what_is_known_is_told_in_a_line() -> None:
    job = sample("bolted-left")
    layout = work_out(job)
    assert old_told.known(job, "pins", layout) == "2 holes read, 4 assumed between them"
    assert old_told.known(job, "brace", layout) == "2 braces"
    unread = old_entries.take(replace(job, points=job.points | read(Job(), "hole.9").points), "holes", ("hole.9",))
    assert old_told.missing(unread, work_out(unread), "holes") == "Not placed yet: old hole 9."


# read with the job's own tools, in its unit


SIXTY_FOURTHS = replace(
    NECK, unit="in", readings=tuple(replace(r, with_=r.with_ and "rule 1/64") for r in NECK.readings)
)


@pytest.mark.parametrize("kind", ["metal", "plate", "slot"])
def test_what_is_still_to_be_read_is_read_with_the_rule_of_the_job(kind: OldKind) -> None:
    asked = old_places.ask_readings(SIXTY_FOURTHS, kind)[0].readings[len(NECK.readings) :]
    assert {reading.with_ for reading in asked} == {"rule 1/64"}


def test_a_typed_list_is_read_with_the_rule_of_the_job() -> None:
    made = old_places.typed_list(SIXTY_FOURTHS, "metal", "1 ; 24 1/8 ; 1 3/8 bass", "bass edge", inside=False)
    assert {reading.with_ for reading in made.readings[len(NECK.readings) :]} == {"rule 1/64"}


def rims(job: Job, text: str) -> Job:
    """The job after the rims of its pin hole were typed."""
    return taking_up.taken_up_when_read(job, edits.set_value(job, "rims", text), "rims")


@pytest.fixture
def unread() -> Job:
    return edits.add_reading(SIXTY_FOURTHS, Reading(id="rims", kind="rims", of=("nut.left", "pin.9")))


def wide(job: Job, name: str = "pin.9") -> object:
    """The diameter of an old pin hole, as the job has it."""
    return old_entries.old_of(job).pins[name].diameter


def test_a_hole_is_as_wide_as_its_rims_say(unread: Job) -> None:
    """derived: 24 3/16 − 24 = 3/16"""
    job = rims(unread, "24 ; 24 3/16")
    assert wide(job) == "3/16 in"
    assert wide(rims(job, "24 ; 24 13/64")) == "13/64 in"
    assert wide(rims(replace(unread, unit="mm"), "612 ; 616.8")) == 4.8


def test_a_hole_whose_rims_were_read_several_times_is_as_wide_as_their_mean(unread: Job) -> None:
    """derived: (12 + 13 + 13)/3 = 12.67 sixty-fourths, of which a rule shows 13; (4.8 + 5.0)/2 = 4.9 mm"""
    job = rims(unread, "24 ; 24 3/16")
    for again, typed in (("second", "25 ; 25 13/64"), ("third", "23 ; 23 13/64")):
        job = edits.add_reading(job, Reading(id=again, kind="rims", of=("nut.right", "pin.9")))
        job = taking_up.taken_up_when_read(job, edits.set_value(job, again, typed), again)
    assert wide(job) == "13/64 in"
    job = rims(replace(unread, unit="mm"), "612 ; 616.8")
    job = edits.add_reading(job, Reading(id="second", kind="rims", of=("nut.right", "pin.9")))
    assert wide(taking_up.taken_up_when_read(job, edits.set_value(job, "second", "620 ; 625"), "second")) == 4.9


def test_what_was_typed_for_a_hole_stays(unread: Job) -> None:
    job = old_entries.old_field("pin.9")[1](rims(unread, "24 ; 24 3/16"), "7/32 in")
    assert wide(rims(job, "24 ; 24 13/64")) == "7/32 in"


def test_a_hole_that_nobody_read_is_as_wide_as_the_job_s_rule_shows() -> None:
    """derived: 5 mm is 12.6, 4 mm 10.1, 6 mm 15.1, 3 mm 7.6 and 8 mm 20.2 sixty-fourths of an inch"""
    old = taking_up.take_up(read(Job(unit="in"), "pin.1", "hole.1", "metal.1", "brace.1.a", "brace.1.b")).old
    assert old is not None
    assert old.pins["pin.1"].diameter == "13/64 in"
    assert old.holes["hole.1"].diameter == "5/32 in"
    assert old.metal["metal.1"].keep_out == "15/64 in"
    assert old.braces["1"].width == "5/16 in"
