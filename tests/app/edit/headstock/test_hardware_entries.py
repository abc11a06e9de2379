"""What the Headstock card puts into the job, without a window."""

import pytest
from msgspec.structs import replace

from app.edit import edits
from app.edit.headstock import hardware_entries, tuner_entries
from app.edit.measure import new_reading
from app.edit.old_work import head_points, hole_sizes, old_places, taking_up
from app.edit.start.new_job import begin
from geometry import words
from geometry.job import Hardware, Headstock, Job, NotAJob, OldPost, Tuners
from geometry.job.job import Hand
from geometry.job.sides import SIDES, Side
from geometry.work_out import work_out
from tests.app.desk.conftest import sample
from tests.in_one import in_one

JOB = sample("redrilled-left")
SLOTTED = sample("slotted-neck-screw")


def test_slots_are_taken_up_one_by_one() -> None:
    bare = replace(SLOTTED, hardware=Hardware())
    head = hardware_entries.take_up(bare).hardware.headstock
    assert head is not None
    assert SLOTTED.hardware.headstock is not None
    assert head.slots == SLOTTED.hardware.headstock.slots
    assert all(hole.diameter == hole_sizes.POST for hole in head.posts.values())


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
    get, put = head_points.hole_field(name, "depth")
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


# read, pointed at, typed as a list


def neck() -> Job:
    """A board in inches, left-handed, and nothing of its headstock."""
    of_head = ("head.", "headslot.", "post.", "screw.")
    readings = tuple(r for r in JOB.readings if not any(name.startswith(of_head) for name in (*r.of, *r.from_)))
    points = {name: point for name, point in JOB.points.items() if not name.startswith(of_head)}
    return replace(JOB, hardware=Hardware(), readings=readings, points=points, unit="in")


def test_every_post_hole_of_two_rows_is_offered_as_one_goes_on() -> None:
    """Six strings: six holes; when one is read, the next are offered still."""
    job = neck()
    offered = [name for name in new_reading.names(job) if name.startswith("post.")]
    assert offered == [f"post.{number}" for number in range(1, 7)]
    read = edits.add(job, "rims", ("nut.left", "post.1"), value=("58 mm", "66 mm"))
    assert [name for name in new_reading.names(read) if name.startswith("post.")] == offered
    for number in range(2, 7):
        read = edits.add(read, "rims", ("nut.left", f"post.{number}"), value=("58 mm", "66 mm"))
    assert "post.7" in new_reading.names(read)


def test_readings_of_all_post_holes_are_asked_for_and_taken_up_as_they_are_typed() -> None:
    """The rims tell each diameter, in inches as they were read: 2 23/32 less 2 5/16 are 13/32."""
    job, first = old_places.ask_readings(neck(), "posts")
    asked = [r for r in job.readings if not r.taken and r.of[-1].startswith("post.")]
    assert {r.of for r in asked} == {
        (f"nut.{side}", f"post.{number}") for side in ("left", "right") for number in range(1, 7)
    }
    assert {r.kind for r in asked} == {"rims"}
    assert asked[0].id == first
    made = taking_up.taken_up_when_read(job, edits.set_value(job, first, "2 5/16 ; 2 23/32"), first)
    head = made.hardware.headstock
    assert head is not None
    assert {name: hole.diameter for name, hole in head.posts.items()} == {"post.1": "13/32 in"}


def test_a_hole_without_rims_is_begun_as_usual_in_the_jobs_unit_until_they_are_read() -> None:
    """derived: 8 mm are 0.315 in, 20/64."""
    job = edits.add(neck(), "distance", ("nut.left", "post.1"), value="2 1/2 in")
    made = hardware_entries.take_up(job)
    assert made.hardware.headstock is not None
    assert made.hardware.headstock.posts["post.1"].diameter == "5/16 in"
    assert head_points.is_usual(made, "post.1")
    rims = edits.add(made, "rims", ("nut.right", "post.1"))
    name = rims.readings[-1].id
    read = taking_up.taken_up_when_read(rims, edits.set_value(rims, name, "2 5/16 ; 2 23/32"), name)
    assert head_points.hole_field("post.1")[0](read) == "13/32 in"
    assert not head_points.is_usual(read, "post.1")


def test_what_was_left_out_stays_out_when_it_is_read_once_more() -> None:
    job, first = old_places.ask_readings(neck(), "posts")
    made = taking_up.taken_up_when_read(job, edits.set_value(job, first, "2 5/16 ; 2 23/32"), first)
    gone = hardware_entries.leave_out(made)
    again = taking_up.taken_up_when_read(gone, edits.set_value(gone, first, "2 5/16 ; 2 11/16"), first)
    assert again.hardware.headstock is None


def test_an_outline_grows_as_it_is_read_and_takes_back_none_that_was_left_out() -> None:
    job, _ = old_places.ask_readings(neck(), "outline")
    for reading in [r for r in job.readings if r.of[-1:] and r.of[-1].startswith("head.")]:
        job = taking_up.taken_up_when_read(job, edits.set_value(job, reading.id, "3"), reading.id)
    get, put = hardware_entries.ring_field("outline", "head")
    assert get(job) == "1 2 3 4"
    fewer = put(job, "1 2 4")
    assert hardware_entries.take_up(fewer) == fewer


@pytest.mark.parametrize("at", [(-60.0, 20.0), (-48.0, -31.0)])
def test_a_hole_pointed_at_on_the_headstock_lies_where_it_was_seen_and_moves(at: tuple[float, float]) -> None:
    job = neck()
    made = old_places.point_at(job, work_out(job), "posts", [at])
    place = work_out(made).points["post.1"]
    assert (place.x, place.y) == pytest.approx(at, abs=0.2)
    assert {words.side_read(r, "left") for r in made.readings[-2:]} == {"", "headstock"}
    moved = old_places.moved(made, work_out(made), "post.1", (-70.0, 10.0))
    place = work_out(moved).points["post.1"]
    assert (place.x, place.y) == pytest.approx((-70.0, 10.0), abs=0.2)
    with pytest.raises(NotAJob, match="behind the nut is not on the headstock"):
        old_places.point_at(job, work_out(job), "posts", [(60.0, 20.0)])


def test_a_list_is_typed_from_both_corners_of_the_nut() -> None:
    made = old_places.typed_list(neck(), "posts", "1 ; 2 1/2 ; 3\n2 ; 3 ; 2 1/2", "nut", inside=False)
    assert [(r.kind, r.of, r.value) for r in made.readings[-4:]] == [
        ("distance", ("nut.left", "post.1"), "2 1/2 in"),
        ("distance", ("nut.right", "post.1"), "3 in"),
        ("distance", ("nut.left", "post.2"), "3 in"),
        ("distance", ("nut.right", "post.2"), "2 1/2 in"),
    ]
    assert made.hardware.headstock is not None
    assert list(made.hardware.headstock.posts) == ["post.1", "post.2"]
    place = work_out(made).points["post.1"]
    assert place.x < 0, "on the headstock, not on the board"


@in_one(
    ("strings", "old", "hand", "left", "right"),
    [
        (8, {}, "right", (4,), (4,)),
        (5, {}, "right", (2,), (3,)),  # sighted down the neck a right-handed one's bass side is the right one
        (5, {}, "left", (3,), (2,)),
        (8, {"left": 5, "right": 3}, "right", (5,), (3,)),
        (6, {"left": 6}, "right", (6,), ()),
        (8, {"left": 3, "right": 3}, "right", (4,), (4,)),
    ],
)
def test_tuners_begin_with_as_many_posts_as_are_asked_for(
    strings: int, old: dict[Side, int], hand: Hand, left: tuple[int, ...], right: tuple[int, ...]
) -> None:
    """As many a side as old holes were read there, if these are as many as the strings; else the strings shared out, an
    odd one on the bass side. derived: a hole is nearer to its own side's corner of the nut
    """
    job, number = begin(strings=strings, hand=hand, measuring="neck and bridge"), 0
    names = {}
    for side, many in old.items():
        for _ in range(many):
            number += 1
            names[f"post.{number}"] = OldPost(diameter=8.0)
            for corner in SIDES:
                far = 50.0 if corner == side else 65.0
                value = (far - 4.0, far + 4.0)
                job = edits.add(job, "rims", (f"nut.{corner}", f"post.{number}"), value=value)
    if names:
        job = hardware_entries.put(job, headstock=Headstock(posts=names))
    begun = tuner_entries.begun(job)
    assert (begun.left, begun.right) == (left, right)
    typed = tuner_entries.tuner_field("spacing")[1](job, 25.0).hardware.tuners
    assert typed is not None
    assert (typed.left, typed.right, typed.spacing) == (left, right, 25.0)
