"""What is said of new posts, on both sides of each limit (common practice, no source: docs/numbers.md)."""

import msgspec
import pytest

from geometry.hardware.headstock_told import findings
from geometry.job import Hardware, Headstock, Job, OldPost, Point, Tuners
from geometry.layout import XY, HeadstockPlan, Hole, Post, Ray
from tests.geometry.made import six
from tests.in_one import in_one

NOTHING = "The new posts are clear of old holes, edges and slots."
BARE = Post(string="3", side="left", at=(-50.0, 22.0), pm95=(0.1, 0.1), diameter=6.0, bushing=None)
POST = msgspec.structs.replace(BARE, edge=(9.0, 0.1), slot=(9.0, 0.1), wall=(9.0, 0.1), nearest_old="old")
"""A post that is far from all that was read."""
SLOT = ((-20.0, 8.0), (-120.0, 8.0), (-120.0, -4.0), (-20.0, -4.0))


def told(post: Post = POST, tuners: Tuners | None = None, **of_plan: object) -> dict[str, tuple[str, str]]:
    """Grade and text by code."""
    plan = HeadstockPlan(outline=(), slots=(), middle=Ray((0.0, 0.0), (1.0, 0.0)), old_posts=(), old_screws=())
    whole = msgspec.structs.replace(plan, **{"posts": (post,)} | of_plan)
    job = Job(hardware=Hardware(headstock=Headstock(thickness=19.0), tuners=tuners or Tuners(left=(1,), right=())))
    return {one.code: (one.grade, one.text) for one in findings(job, whole)}


def of(**fields: object) -> dict[str, tuple[str, str]]:
    return told(msgspec.structs.replace(POST, **fields))


CLEAR: XY = (9.0, 0.1)


@in_one(
    ("fields", "code", "grade", "says"),
    [
        ({"edge": (4.2, 0.2)}, "posts.clear", "good", NOTHING),
        (
            {"edge": (4.19, 0.2)},
            "post.edge",
            "look",
            "leaves 4.2 ±0.2 mm of wood to the headstock’s edge, too little to be",
        ),
        ({"edge": (4.2, 6.0)}, "post.edge", "look", "too little to be sure of the usual 4.0 mm. Move"),
        (
            {"edge": (3.99, 0.2)},
            "post.edge",
            "look",
            "leaves 4.0 ±0.2 mm of wood to the headstock’s edge, too little to be",
        ),
        ({"edge": (3.94, 0.2)}, "post.edge", "look", "leaves 3.9 ±0.2 mm of wood to the headstock’s edge; 4.0 mm is"),
        ({"edge": (0.01, 0.2)}, "post.edge", "look", "4.0 mm is usual"),
        ({"edge": (0.0, 0.2)}, "post.edge", "stop", "breaks through its edge by 0"),
        ({"edge": (-1.5, 0.2)}, "post.edge", "stop", "breaks through its edge by 1.5 mm"),
        ({"slot": (0.21, 0.2)}, "posts.clear", "good", NOTHING),
        ({"slot": (0.1, 2.0)}, "post.slot", "look", "may run into a slot: 0.1 ±2.0 mm lies between"),
        ({"slot": (0.2, 0.2)}, "post.slot", "look", "may run into a slot"),
        ({"slot": (0.0, 0.2)}, "post.slot", "stop", "The post of string 3 runs into a slot"),
        ({"slot": (-1.2, 0.2)}, "post.slot", "stop", "runs into a slot, by 1.2 ±0.2 mm"),
        ({"turns": 20.4}, "posts.clear", "good", NOTHING),
        ({"turns": 20.6}, "post.turns", "look", "String 3 turns 21° sideways"),
        ({"turns": -20.6}, "post.turns", "look", "String 3 turns 21° sideways"),
        ({"clear": 0.01}, "posts.clear", "good", NOTHING),
        ({"clear": 0.0, "passes": "4"}, "post.in_the_way", "look", "String 3 touches the post of string 4 on its way"),
        ({"clear": 0.0, "passes": "post 5"}, "post.in_the_way", "look", "String 3 touches post 5 on its way"),
        ({"clear": 1.01, "bushing": 8.0}, "posts.clear", "good", NOTHING),
        (
            {"clear": 0.7, "bushing": 8.0, "passes": "4"},
            "posts.over_bushings",
            "look",
            "goes over another string’s bushing and misses its post by 0.7 mm: look whether it touches the bushing.",
        ),
        ({"wall": (1.5, 0.3)}, "posts.clear", "good", NOTHING),
        ({"wall": (1.49, 0.3)}, "post.old_hole", "look", "plug it first, or the drill runs over"),
        ({"wall": (1.8, 1.9)}, "post.old_hole", "look", "may cut into the old hole"),
        ({"wall": (1.9, 1.9)}, "posts.clear", "good", NOTHING),
        ({"wall": (0.3, 0.3)}, "post.old_hole", "look", "may cut into the old hole"),
        ({"wall": (0.31, 0.3)}, "post.old_hole", "look", "leaves"),
        ({"wall": (0.0, 0.3)}, "post.old_hole", "look", "cuts into the old hole “old” by 0"),
        ({"wall": (-2.5, 0.3)}, "post.old_hole", "look", "cuts into the old hole “old” by 2.5 ±0.3 mm: plug it first"),
        ({"wall": (0.0, 0.0)}, "post.old_hole", "look", "cuts into the old hole"),
    ],
)
def test_each_post_on_both_sides_of_its_limits(fields: dict[str, object], code: str, grade: str, says: str) -> None:
    found = of(nearest_old="old", **fields)
    assert list(found) == [code]
    assert found[code][0] == grade
    assert says in found[code][1]


@pytest.mark.parametrize(("askew", "code"), [(None, "posts.clear"), (1.0, "posts.clear"), (1.01, "posts.askew")])
def test_how_far_out_of_square_posts_may_stand(askew: float | None, code: str) -> None:
    assert list(told(askew=askew)) == [code]


@pytest.mark.parametrize(
    ("roller", "code"), [(11.9, "posts.clear"), (12.0, "posts.clear"), (12.1, "headstock.slot_narrow")]
)
def test_a_roller_wants_its_slot(roller: float, code: str) -> None:
    """derived: the slot is 12.0 mm wide and 100 long"""
    tuners = Tuners(left=(1,), right=(), roller=roller)
    found = told(tuners=tuners, slots=(SLOT,))
    assert list(found) == [code]
    narrow = told(msgspec.structs.replace(POST, slot=(-0.5, 0.1)), tuners)["post.slot"][1]
    assert narrow == "The post of string 3 does not fit its slot, by 0.5 ±0.1 mm. Move the posts along."
    if code == "headstock.slot_narrow":
        assert found[code][1].startswith("Slot 1 of the headstock is 12.0 mm wide, but a roller of 12.1 mm")


def test_a_roller_that_is_taken_out_is_told() -> None:
    """A slotted headstock stays slotted: what the posts then do is said, with the mend."""
    slotted = Headstock(slots=(("a", "b", "c"),))
    rolled, without = Tuners(left=(1,), right=(), roller=10.0), Tuners(left=(1,), right=())

    def of(head: Headstock, tuners: Tuners) -> dict[str, str]:
        plan = HeadstockPlan(outline=(), slots=(), middle=Ray((0.0, 0.0), (1.0, 0.0)), old_posts=(), old_screws=())
        job = Job(points=dict.fromkeys("abc", Point()), hardware=Hardware(headstock=head, tuners=tuners))
        return {one.code: one.text for one in findings(job, msgspec.structs.replace(plan, posts=(POST,)))}

    assert "headstock.no_roller" not in of(slotted, rolled)
    assert "headstock.no_roller" not in of(Headstock(), without)
    text = of(slotted, without)["headstock.no_roller"]
    assert text.startswith("The headstock has slots, and the new tuners have no roller: their posts are drilled from")
    assert text.endswith("take the slots out.")
    deep = of(Headstock(), msgspec.structs.replace(without, below=9.0))["headstock.no_roller"]
    assert deep.startswith("The posts’ depth below the face is given")


@pytest.mark.parametrize(
    ("fields", "of_what"),
    [
        ({"edge": (9.0, 0.1)}, "edges"),
        ({"slot": (9.0, 0.1)}, "slots"),
        ({"again": "post.1"}, "old holes"),
        ({"wall": (9.0, 0.1), "slot": (9.0, 0.1)}, "old holes and slots"),
    ],
)
def test_posts_are_clear_of_what_was_read_only(fields: dict[str, object], of_what: str) -> None:
    found = told(msgspec.structs.replace(BARE, **fields))
    assert found == {"posts.clear": ("good", f"The new posts are clear of {of_what}.")}
    assert told(BARE) == {}


@pytest.mark.parametrize(("left", "right", "says"), [(4, 3, "7 posts for 6"), (2, 2, "4 posts for 6"), (3, 3, None)])
def test_as_many_posts_as_strings(left: int, right: int, says: str | None) -> None:
    plan = HeadstockPlan(outline=(), slots=(), middle=Ray((0.0, 0.0), (1.0, 0.0)), old_posts=(), old_screws=())
    both = (POST, msgspec.structs.replace(POST, side="right"))
    tuners = Tuners(left=(left,), right=(right,))
    made = Job(strings=six(2.0, 2.0), hardware=Hardware(headstock=Headstock(), tuners=tuners))
    found = {one.code: one for one in findings(made, msgspec.structs.replace(plan, posts=both))}
    assert ("posts.count" in found) == (says is not None)
    if says is not None:
        assert found["posts.count"].grade == "look"
        assert found["posts.count"].text == f"{says} strings: say how many stand on each side."


def test_sides_without_a_place_are_said_and_those_without_posts_are_not() -> None:
    missing = told(tuners=Tuners(left=(1,), right=(2,)))
    assert list(missing) == ["posts.unplaced"]
    assert missing["posts.unplaced"][1].startswith("The bass side’s posts have no place")
    assert "posts.unplaced" not in told()


def test_posts_without_a_string_go_by_their_number() -> None:
    assert of(string="", edge=(-1.0, 0.1))["post.edge"][1].startswith("Post 1 lies outside the headstock")


def test_a_headstock_that_is_not_begun_or_has_no_place() -> None:
    begun = Job(hardware=Hardware(headstock=Headstock(), tuners=Tuners()))
    assert [one.code for one in findings(begun, None)] == ["headstock.missing"]
    assert findings(Job(), None) == ()
    assert [one.where for one in findings(Job(hardware=Hardware(tuners=Tuners())), None)] == [
        "field:hardware.headstock"
    ]
    plan = HeadstockPlan(outline=(), slots=(), middle=Ray((0.0, 0.0), (1.0, 0.0)), old_posts=(), old_screws=())
    assert findings(Job(hardware=Hardware(headstock=Headstock())), plan) == ()


@in_one(
    ("x", "wide", "worn", "wall", "says"),
    [
        # derived: a post's hole of 6.35 mm; on one place with a hole of 5/16 in it is worn, 0.6 mm beside its middle it
        # lies within that (half of 7.94 - 6.35 is 0.79), and 0.9 mm beside it on it; 3 mm beside, only in its side
        (
            0.2,
            7.94,
            False,
            -6.35,
            "lies on the old hole “old”, which is worn for it (7.9 mm wide, for 6.4 mm): plug it or bush it ",
        ),
        (0.2, 6.35, True, -6.15, "lies on the old hole “old”, which is worn: plug it "),
        (
            0.59,
            7.94,
            False,
            -6.35,
            "lies on the old hole “old”, which is worn for it (7.9 mm wide, for 6.4 mm): plug it or bush it ",
        ),
        (0.6, 7.94, False, -6.35, "lies within the old hole “old”, 0.6 mm beside its middle: plug it "),
        (0.9, 7.94, False, -6.24, "lies on the old hole “old”, 0.9 mm beside its middle: plug it "),
        (0.5, 6.35, False, -5.85, "lies on the old hole “old”, 0.5 mm beside its middle: plug it "),
        (1.58, 6.35, False, -4.77, "lies on the old hole “old”, 1.6 mm beside its middle: plug it "),
        (1.6, 6.35, False, -4.75, "cuts into the old hole “old” by 4.8 ±0.3 mm: plug it "),
        (3.0, 7.94, False, -4.14, "cuts into the old hole “old” by 4.1 ±0.3 mm: plug it "),
    ],
)
def test_a_post_on_an_old_hole(x: float, wide: float, worn: bool, wall: float, says: str) -> None:
    post = msgspec.structs.replace(POST, diameter=6.35, wall=(wall, 0.3))
    old = Hole(name="old", at=(post.at[0] + x, post.at[1]), diameter=wide)
    plan = HeadstockPlan(outline=(), slots=(), middle=Ray((0.0, 0.0), (1.0, 0.0)), old_posts=(old,), old_screws=())
    head = Headstock(posts={"old": OldPost(diameter=wide, worn=worn)})
    tuners = Tuners(left=(1,), right=(), post=6.35)
    job = Job(points={"old": Point()}, hardware=Hardware(headstock=head, tuners=tuners))
    (found,) = findings(job, msgspec.structs.replace(plan, posts=(post,)))
    assert found.text == f"The post of string 3 {says}first, then drill."


def test_strings_over_bushings_are_told_in_one() -> None:
    """derived: 0.4 and 0.7 mm lie within the 1 mm between a post of 6 mm and its bushing of 8"""
    post = msgspec.structs.replace(POST, bushing=8.0, passes="1")
    clear = {"3": 0.7, "2": 0.4, "1": 1.1}
    row = tuple(msgspec.structs.replace(post, string=name, clear=off) for name, off in clear.items())
    text = told(posts=row)["posts.over_bushings"][1]
    assert text.startswith(
        "Strings 3 and 2 go over another string’s bushing and miss its post, the nearest by 0.4 mm: look"
    )
