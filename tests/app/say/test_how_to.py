"""How to take each reading, in words that say bass and treble by the hand."""

from typing import Literal, get_args

import msgspec
import pytest

from app.edit import list_answers
from app.edit.measure import new_reading
from app.say import how_to
from app.say.reading_strokes import Says, Value
from geometry import words
from geometry.job import Job, NotAJob, Reading
from geometry.job.measured.kinds import SHAPES, Kind
from geometry.job.sides import Side
from geometry.units import Unit
from tests.in_one import in_one

KINDS: tuple[Kind, ...] = get_args(Kind)
POINTS = ("nut.left", "end.left", "seam.1", "old.1")


def reading(kind: Kind) -> Reading:
    shape = SHAPES[kind]
    count = shape.of + shape.laid_from
    more: dict[str, object] = {"side": "right"} if shape.side else {}
    if kind == "fret":
        more = {"fret": 12, "on": "right"}
    if kind == "height":
        more = {"at": "fret 12", "on": "left"}
    return new_reading.make(kind, POINTS[:count], **more)


@in_one("kind", KINDS)
def test_every_kind_says_what_the_hand_does(kind: Kind) -> None:
    said = how_to.take(reading(kind), "right", "mm")
    assert said.endswith(".")
    assert len(said) < 180
    assert "left" not in said.replace("Leave", "")


def test_sides_follow_the_hand() -> None:
    off = msgspec.structs.replace(reading("off"), value=3.0)
    assert "On the bass side of the treble edge" in how_to.take(off, "right", "mm")
    assert "On the treble side of the bass edge" in how_to.take(off, "left", "mm")


@in_one("kind", KINDS)
def test_every_kind_can_be_asked_for(kind: Kind) -> None:
    asked = how_to.TAKING[kind]
    assert len(asked.points) == SHAPES[kind].of + SHAPES[kind].laid_from
    job, name = new_reading.add(Job(), reading(kind), None)
    assert job.readings[0].id == name == "r1"


def test_a_gap_is_asked_from_the_right_to_the_left() -> None:
    made = new_reading.make("across", ("nut.left", "end.left", "seam.1", "old.1"))
    assert made.of == ("old.1", "seam.1")  # the point farther left first, as the kind has it


def test_points_to_choose_from_begin_with_the_jobs_own() -> None:
    job, _ = new_reading.add(Job(), reading("distance"), None)
    assert new_reading.names(job)[:3] == ["nut.left", "end.left", "nut.right"]


def test_the_side_of_a_line_is_told_whichever_way_the_line_is_given() -> None:
    down = Reading(id="r", kind="off", of=("seam.1",), from_=("nut.right", "end.right"), side="left", value=3.0)
    up = msgspec.structs.replace(down, from_=("end.right", "nut.right"))  # left of it is now the other side
    assert how_to.take(down, "right", "mm").startswith("On the treble side of the bass edge: lay ")
    assert how_to.take(up, "right", "mm").startswith("On the bass side of the bass edge: lay ")


@pytest.mark.parametrize(("unit", "off"), [("mm", "0.8 mm bass"), ("cm", "0.08 cm bass"), ("in", "1/32 in bass")])
def test_what_may_be_typed_is_in_the_unit_of_the_job(unit: Unit, off: str) -> None:
    """The example is about as large in each: 1/32 in are 0.79 mm."""
    assert how_to.take(reading("inline"), "right", unit).endswith(f"{off}.")


@pytest.mark.parametrize(("ends", "side"), [(("nut.left", "end.left"), "left"), (("end.left", "nut.left"), "right")])
def test_while_nothing_is_read_off_an_edge_it_is_said_how_to_tell_the_other_side(
    ends: tuple[str, str], side: Side
) -> None:
    """Left-handed: the left is the bass. What is typed so puts the point there, whichever way the line is given."""
    asked = Reading(id="r", kind="off", of=("metal.1",), from_=ends, side=side)
    said = how_to.take(asked, "left", "in")
    assert said.startswith("On the bass side of the bass edge: lay ")
    assert "square to it. If it lies on the treble side, type “1 3/8 treble”." in said
    read = list_answers.in_line_or_off(asked, "1 3/8 treble", Job(hand="left", unit="in"))
    assert words.beside(read.side or "left", *ends, "left") == "on the treble side of the bass edge"


def test_where_the_side_is_open_it_comes_first_and_no_length_stands_for_one() -> None:
    """derived: nothing but the side parts a screw under the bridge from one beside it."""
    job, asked = (
        Job(hand="left", unit="in"),
        Reading(id="r", kind="off", of=("metal.1",), from_=("nut.left", "end.left")),
    )
    assert how_to.take(asked, "left", "in").startswith("Type the side too, “1 3/8 bass” or “1 3/8 treble”: lay ")
    with pytest.raises(NotAJob, match="on which side of the bass edge; add bass or treble, like 3 41/64 treble"):
        list_answers.in_line_or_off(asked, "3 41/64", job)
    read = list_answers.in_line_or_off(asked, "3 41/64 treble", job)
    assert (read.side, words.value_and_side(read, "in", "left")) == ("right", "3 41/64 treble")
    again = list_answers.in_line_or_off(read, "3 5/8", job)  # a side that was said once stays
    assert words.value_and_side(again, "in", "left") == "3 5/8 treble"


@pytest.mark.parametrize(("side", "named", "down"), [("left", "bass", False), ("right", "treble", True)])
def test_the_little_picture_shows_the_side(side: Side, named: str, down: bool) -> None:
    """The left is above, as on the plan; left-handed, that is the bass."""
    shown = how_to.picture(
        Reading(id="r", kind="off", of=("metal.1",), from_=("nut.left", "end.left"), side=side), "left"
    )
    (arrow,) = [one for one in shown if isinstance(one, Value)]
    (says,) = [one for one in shown if isinstance(one, Says)]
    assert (arrow.b[1] > arrow.a[1], says.text) == (down, named)


def test_where_the_side_is_open_the_little_picture_shows_both() -> None:
    shown = how_to.picture(Reading(id="r", kind="off", of=("metal.1",), from_=("nut.left", "end.left")), "right")
    assert len([one for one in shown if isinstance(one, Value)]) == 2
    assert [one.text for one in shown if isinstance(one, Says)] == ["treble", "bass"]


def laid(fret: int, on: Side, laying: str | None = "frets right") -> Reading:
    return msgspec.structs.replace(reading("fret"), fret=fret, on=on, laid=laying)


@pytest.mark.parametrize(
    ("then", "stays"),
    [
        (laid(12, "right"), True),
        (laid(1, "left", "frets left"), False),
        (laid(12, "right", None), False),
        (laid(12, "right", "another laying"), False),
        (msgspec.structs.replace(laid(12, "right"), struck=True), False),
        (reading("height"), False),
        (None, False),
    ],
)
def test_the_rule_stays_where_it_lies_only_while_a_fret_of_the_same_laying_follows(
    then: Reading | None, stays: bool
) -> None:
    assert how_to.take(laid(9, "right"), "right", "mm", then).endswith(how_to.NEXT_FRET) == stays


def test_a_fret_that_was_laid_alone_leaves_no_rule_lying() -> None:
    assert how_to.NEXT_FRET not in how_to.take(laid(9, "right", None), "right", "mm", laid(12, "right", None))


def test_metal_is_read_at_its_middle_and_what_has_corners_is_told_of() -> None:
    edge = ("nut.left", "end.left")
    metal = Reading(id="r", kind="off", of=("metal.1",), from_=edge, side="right", value=20.0)
    assert words.reading(metal, "left") == "Metal 1, its middle, off bass edge"
    assert how_to.take(metal, "left", "in").endswith(how_to.OF_METAL)
    assert "corner to corner" in how_to.OF_METAL
    seam = Reading(id="r", kind="off", of=("seam.1",), from_=edge, side="right", value=20.0)
    assert words.reading(seam, "left") == "Seam 1, off bass edge"
    assert how_to.OF_METAL not in how_to.take(seam, "left", "in")


@pytest.mark.parametrize(
    ("inside", "first"),
    [(False, "Trace “old 1” and the others onto"), (True, "Hold squared paper inside, mark “old 1” ")],
)
def test_of_a_place_off_a_sheet_it_is_said_first_what_to_do(inside: bool, first: str) -> None:
    asked = Reading(id="r", kind="at", of=("old.1",), inside=inside)
    said = how_to.take(asked, "left", "in")
    assert said.startswith(first.replace("old 1", words.called("old.1", "left")))
    assert ("type its x ; y." in said, said.endswith(how_to.INSIDE)) == (True, inside)


@pytest.mark.parametrize(
    ("kind", "of", "says"),
    [
        ("along", ("foot.left",), ["of the outer foot the outer corner on the edge toward the nut"]),
        ("distance", ("foot.left", "foot.right"), ["of the outer foot the outer corner on the edge toward the nut"]),
        (
            "distance",
            ("foot.left", "tail.left"),
            ["corner on the edge toward the nut", "where the outer string leaves"],
        ),
        ("distance", ("nut.left", "tail.middle"), ["midway between where the outer strings leave"]),
        ("distance", ("post.1", "post.5"), ["halfway between its near and its far rim"]),
        ("rims", ("nut.left", "post.5"), []),
        ("rims", ("post.1", "post.5"), ["halfway between its near and its far rim"]),
        ("distance", ("nut.left", "end.right"), []),
    ],
)
def test_where_a_corner_a_tail_or_a_holes_middle_is_read_is_said_once(
    kind: Kind, of: tuple[str, ...], says: list[str]
) -> None:
    edge = ("nut.left", "end.left") if kind == "along" else ()
    read = Reading(id="r", kind=kind, of=of, from_=edge)
    assert len(words.where_read(read)) == len(says)
    told = how_to.take(read, "left", "in")
    assert [told.count(part) for part in says] == [1] * len(says)
    assert ("front corner, " in told) == any(name.startswith("foot.") for name in of)


def test_a_trial_saddle_is_read_to_its_crest() -> None:
    read = Reading(id="r", kind="distance", of=("nut.left", "trial.1.right"))
    assert how_to.take(read, "left", "in").endswith(how_to.ON_TRIAL)
    other = Reading(id="r", kind="distance", of=("nut.left", "end.right"))
    assert how_to.ON_TRIAL not in how_to.take(other, "left", "in")


@pytest.mark.parametrize("fret", ["fret 1", "fret 12"])
def test_a_height_over_a_fret_is_read_from_its_top(fret: Literal["fret 1", "fret 12"]) -> None:
    said = how_to.take(Reading(id="r", kind="height", at=fret, on="left"), "right", "mm")
    assert said == (
        f"Read from the top of {fret}, not from the wood, up to the underside of the open string, on the treble side."
    )


@pytest.mark.parametrize("ends", [("nut.left", "nut.right"), ("nut.right", "nut.left")])
def test_off_the_nut_a_point_lies_toward_the_headstock_or_the_body(ends: tuple[str, str]) -> None:
    """A post is asked for, told and typed so, whichever way the line is given; typed so it lies there."""
    job = Job(hand="left", unit="in")
    asked = Reading(id="r", kind="off", of=("post.1",), from_=ends)
    assert how_to.take(asked, "left", "in").startswith("Type the side too, “1 3/8 headstock” or “1 3/8 body”: lay ")
    with pytest.raises(NotAJob, match="on which side of the nut; add headstock or body, like 2 body"):
        list_answers.in_line_or_off(asked, "2", job)
    read = list_answers.in_line_or_off(asked, "2 headstock", job)
    toward: Side = "right" if ends[0] == "nut.left" else "left"
    assert read.side == toward
    assert words.value_and_side(read, "in", "left") == "2 headstock"
    assert list_answers.in_line_or_off(asked, "2 b", job).side == words.other_side(toward)
    assert how_to.take(read, "left", "in").startswith("On the headstock side of the nut: lay ")
    open_still = msgspec.structs.replace(read, value=None)
    assert "If it lies on the body side, type “1 3/8 body”. " in how_to.take(open_still, "left", "in")
    assert "headstock" in [one.text for one in how_to.picture(read, "left") if isinstance(one, Says)]


def test_what_lies_off_the_nut_is_answered_toward_the_headstock_too() -> None:
    asked = Reading(id="r", kind="inline", of=("screw.1",), from_=("nut.left", "nut.right"), asked=True)
    assert how_to.take(asked, "left", "mm").endswith("and to which side: 0.8 mm headstock.")
    assert list_answers.takes("inline", "mm", how_to.one_side(asked)) == "yes, or 0.8 headstock"
    read = list_answers.in_line_or_off(asked, "0.8 headstock", Job(hand="left"))
    assert (read.kind, read.side) == ("off", "right")


@pytest.mark.parametrize(
    ("with_", "starts"),
    [
        ("rule 1/64", "Lay the rule from"),
        ("tape 1/32", "Lay the tape from"),
        ("caliper 0.05", "Open the caliper from"),
        (None, "Lay the rule or open the caliper from"),
    ],
)
def test_a_distance_is_read_with_what_it_says(with_: str | None, starts: str) -> None:
    read = Reading(id="r", kind="distance", of=("nut.left", "nut.right"), with_=with_)
    assert how_to.take(read, "left", "in").startswith(starts)


def test_of_the_first_old_post_hole_it_is_said_who_numbers_them() -> None:
    told = [how_to.take(Reading(id="r", kind="rims", of=("nut.left", f"post.{n}")), "left", "in") for n in (1, 2)]
    assert [text.endswith(how_to.NUMBER_1) for text in told] == [True, False]


@pytest.mark.parametrize(
    ("with_", "starts"),
    [
        ("caliper 0.1", "Open the caliper from"),
        ("caliper 0.05", "Open the caliper from"),
        ("rule 0.5", "Lay the rule from"),
        (None, "Lay the rule or open the caliper from"),
    ],
)
def test_a_hole_is_read_with_what_stands_in_its_row(with_: str | None, starts: str) -> None:
    rims = Reading(id="r", kind="rims", of=("nut.left", "pin.1"), with_=with_)
    said = how_to.take(rims, "right", "mm")
    assert said.startswith(f"{starts} “nut, treble” to the hole “old pin hole 1”. Read its near rim and its far rim, ")


def test_a_row_of_the_headstocks_outline_says_how_its_corners_are_counted() -> None:
    corner = Reading(id="r", kind="distance", of=("nut.left", "head.3"), with_="rule 0.5")
    assert how_to.take(corner, "right", "mm").endswith(
        "The headstock’s corners go in order round it; which is number 1 is yours to say: keep to it."
    )
    other = Reading(id="r", kind="distance", of=("nut.left", "headslot.1.1"), with_="rule 0.5")
    assert "corners go in order" not in how_to.take(other, "right", "mm")
