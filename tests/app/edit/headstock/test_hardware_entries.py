"""What the Headstock card puts into the job, without a window."""

import pytest
from msgspec.structs import replace

from app.edit import edits
from app.edit.headstock import hardware_entries, tuner_entries
from geometry import words
from geometry.job import Hardware, Job, NotAJob, Tuners
from geometry.work_out import work_out
from tests.app.desk.conftest import sample

JOB = sample("redrilled-left")
SLOTTED = sample("slotted-neck-screw")


def test_slots_are_taken_up_one_by_one() -> None:
    bare = replace(SLOTTED, hardware=Hardware())
    head = hardware_entries.take_up(bare).hardware.headstock
    assert head is not None
    assert SLOTTED.hardware.headstock is not None
    assert head.slots == SLOTTED.hardware.headstock.slots
    assert all(hole.diameter == hardware_entries.POST for hole in head.posts.values())


def test_a_job_without_such_points_stays_as_it_is() -> None:
    job = sample("leaning-neck")
    assert hardware_entries.take_up(job) is job


def test_what_is_there_stays_when_points_are_taken_up_again() -> None:
    assert hardware_entries.take_up(JOB) == JOB


def test_points_are_shown_by_number_and_typed_by_number_or_name() -> None:
    get, put = hardware_entries.ring_field("outline", "head")
    assert get(JOB) == "1 2 3 4 5 6"
    made = put(JOB, "1, 2 nut.left 4")
    assert made.hardware.headstock is not None
    assert made.hardware.headstock.outline == ("head.1", "head.2", "nut.left", "head.4")
    assert get(made) == "1 2 nut.left 4"


def test_a_slot_comes_and_goes() -> None:
    get, put = hardware_entries.slot_field(1)
    assert get(SLOTTED) == "1 2 3 4"
    gone = put(SLOTTED, "")
    assert gone.hardware.headstock is not None
    assert len(gone.hardware.headstock.slots) == 1
    with pytest.raises(NotAJob, match="three points or more"):
        put(SLOTTED, "1 2")


def test_the_middle_between_the_edges_needs_two_points_on_each() -> None:
    _, middle = hardware_entries.head_field("middle")
    with pytest.raises(NotAJob, match="halve its edges"):
        middle(JOB, "edges")
    edged = hardware_entries.edge_field(1)[1](hardware_entries.edge_field(0)[1](JOB, "2 3"), "5 4")
    made = middle(edged, "edges").hardware.headstock
    assert made is not None
    assert made.middle == "edges"


def test_a_plate_begins_with_its_first_size() -> None:
    bare = replace(JOB, hardware=replace(JOB.hardware, tuners=Tuners()))
    get, put = tuner_entries.plate_field("wide")
    assert get(bare) is None
    made = put(bare, 16)
    assert made.hardware.tuners is not None
    assert made.hardware.tuners.plate is not None
    assert made.hardware.tuners.plate.wide == 16


def test_every_way_of_fitting_is_said_with_what_it_comes_to() -> None:
    layout = work_out(JOB)
    said = dict(tuner_entries.fittings_said(JOB, layout))
    assert list(said) == ["first post", "middle post", "most old holes", "least wood"]
    for keep, text in said.items():
        other = work_out(tuner_entries.tuner_field("keep")[1](JOB, keep)).hardware.headstock
        assert other is not None
        assert text.startswith(f"{sum(bool(post.again) for post in other.posts)} old holes used again, ")
        assert f" {len(other.plugs)} plugs," in text
    assert tuner_entries.fittings_said(sample("leaning-neck"), None) == ()


def test_points_that_only_the_hardware_names_stay_when_their_reading_goes() -> None:
    made = JOB
    for reading in JOB.readings:
        if "screw.1" in (*reading.of, *reading.from_):
            made = edits.remove(made, reading.id)
    assert "screw.1" in made.points


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("head.1", "headstock 1"),
        ("post.3", "old post hole 3"),
        ("screw.2", "old screw hole 2"),
        ("headslot.1.2", "headstock slot 1 corner 2"),
    ],
)
def test_its_points_have_words_without_quotes(name: str, said: str) -> None:
    assert words.called(name, "right") == said
    assert not words.is_own(name)


def holes_of(job: Job) -> int:
    return len(job.hardware.holes)


def test_holes_come_and_go() -> None:
    two = hardware_entries.add_hole(hardware_entries.add_hole(JOB))
    assert holes_of(two) == 2
    named = hardware_entries.other_field(1, "where")[1](two, "heel")
    assert hardware_entries.remove_hole(named, 0).hardware.holes[0].where == "heel"
    with pytest.raises(NotAJob, match="does not say where"):
        hardware_entries.other_field(0, "where")[1](two, " ")
    with pytest.raises(NotAJob, match="There is no point"):
        hardware_entries.point_field(0)[1](two, "9")


def test_a_plates_screws_come_and_go_one_by_one() -> None:
    bare = replace(JOB, hardware=replace(JOB.hardware, tuners=None))
    assert tuner_entries.screws_of(bare) == 0
    along, across = (tuner_entries.screw_field(0, axis) for axis in (0, 1))
    begun = along[1](bare, "1/4 in")
    assert tuner_entries.screws_of(begun) == 1
    put = across[1](begun, 4.0)
    assert (along[0](put), across[0](put)) == ("1/4 in", 4.0)
    second = tuner_entries.screw_field(1, 0)[1](put, 76.0)
    assert second.hardware.tuners is not None
    assert second.hardware.tuners.plate is not None
    assert second.hardware.tuners.plate.screws == (("1/4 in", 4.0), (76.0, 0.0))
    one = along[1](second, None)
    assert (tuner_entries.screws_of(one), along[0](one)) == (1, 76.0)
    assert tuner_entries.screw_field(3, 0)[0](one) is None
    with pytest.raises(NotAJob, match="first how far along"):
        tuner_entries.screw_field(1, 1)[1](one, 4.0)
    with pytest.raises(NotAJob, match="screw’s place along"):
        along[1](one, 301.0)


@pytest.mark.parametrize("name", ["post.2", "screw.1"])
def test_how_deep_an_old_hole_is_can_be_typed(name: str) -> None:
    get, put = hardware_entries.hole_field(name, "depth")
    assert get(JOB) == {"post.2": None, "screw.1": 9}[name]  # as the sample has it
    assert get(put(JOB, 14.0)) == 14.0
    assert get(put(JOB, None)) is None
    gone = hardware_entries.leave_out(JOB)
    assert put(gone, 12.0) == gone


def test_the_headstock_goes_with_its_tuners_and_its_points_stay() -> None:
    gone = hardware_entries.leave_out(JOB)
    assert (gone.hardware.headstock, gone.hardware.tuners) == (None, None)
    assert (gone.points, gone.readings, gone.hardware.markers) == (JOB.points, JOB.readings, JOB.hardware.markers)
    assert hardware_entries.take_up(gone).hardware.headstock is not None
