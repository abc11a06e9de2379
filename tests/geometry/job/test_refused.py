"""What no job can hold, and the one sentence that says so: what, where, the mend."""

import re
from collections.abc import Callable
from contextlib import nullcontext

import msgspec
import pytest

from geometry.job import (
    Bridge,
    Floating,
    Frets,
    Job,
    NotAJob,
    Point,
    Reading,
    Separate,
    SideHint,
    String,
    Strings,
    Tuners,
)
from geometry.job.sheets import Sheets
from geometry.job.stringing import Heard
from tests.in_one import in_one

PAIR = (String(name="1"), String(name="2"))


def reading(**what: object) -> Reading:
    return Reading(**{"id": "r1", "kind": "distance", "of": ("a", "b")} | what)  # type: ignore[arg-type]  # what a file may hold


REFUSED: dict[str, Callable[[], object]] = {
    "A reading has no id; give it one, such as “r1”": lambda: reading(id=""),
    "Reading “r1” (distance) needs 2 points, but has 1; name another": lambda: reading(of=("a",)),
    "Reading “r1” (off) needs 1 point, but has 2; take out what is too many": lambda: reading(
        kind="off", from_=("c", "d"), side="left"
    ),
    "Reading “r1” (off), “from”, needs 2 points, but has 0; name another": lambda: reading(
        kind="off", of=("a",), side="left"
    ),
    "Reading “r1” goes from “a” to the same point; name two different points": lambda: reading(of=("a", "a")),
    "Reading “r1” (distance) takes no side; leave it out": lambda: reading(side="left"),
    "Reading “r1” (distance) takes one value, but has two values; mend its value": lambda: reading(value=(1.0, 2.0)),
    "Reading “r1” (rims) takes two values, but has one value; mend its value": lambda: reading(kind="rims", value=5.0),
    "Reading “r1” (distance) is no question, so it is not “asked”; leave its value empty": lambda: reading(asked=True),
    "Reading “r1” (distance) takes neither “fret” nor “at” nor “on”; leave them out": lambda: reading(fret=3),
    "Reading “r1” names fret 37; frets count from 1 to 36": lambda: reading(kind="fret", of=(), fret=37, on="left"),
    "Reading “r1” says more than once how finely it was read; keep one of with, within, sigma": (
        lambda: reading(with_="rule 0.5", sigma=0.2)
    ),
    "Reading “r1” sets “a” to “b” against itself; name two other points": (
        lambda: reading(kind="same", of=("a", "b", "b", "a"))
    ),
    "Reading “r1” reads “a” from itself; name another point": (
        lambda: reading(kind="off", of=("a",), from_=("a", "b"), side="left")
    ),
    "The side hint of point “a” needs a line through two other points, not through “a” and “b”": (
        lambda: Job(points={"a": Point(side=(SideHint(of=("a", "b"), is_="left"),)), "b": Point()})
    ),
    "The side hint of point “a” needs a line through two other points, not through “b” and “b”": (
        lambda: Job(points={"a": Point(side=(SideHint(of=("b", "b"), is_="left"),)), "b": Point()})
    ),
    "The files for machines name no purpose; name one at least, or leave “purposes” out": lambda: Sheets(purposes=()),
    "The compensation has 3 numbers for 2 strings; give one a string": (
        lambda: Strings(list=PAIR, compensation=(1.0, 2.0, 3.0))
    ),
    "The nut compensation has 1 numbers for 2 strings; give one a string": (
        lambda: Strings(list=PAIR, nut_compensation=(1.0,))
    ),
    "What was heard names the string “3”, which is not in the list; mend the name": (
        lambda: Strings(list=PAIR, heard=(Heard(string="3", cents=1.0, trial="1"),))
    ),
    # derived: 7/8 + 1/2 = 1 3/8 in
    "The floating bridge’s feet are 1 3/8 in long together, which leaves nothing between them on a bridge 1 1/4 in "
    "long; look at the feet and at its length": lambda: Floating(length="1 1/4 in", feet=("7/8 in", "1/2 in")),
    # derived: 0.5 + 0.3 = 0.8, which is no 64th
    "The rearmost break point would lie 0.8 in behind the base’s front, but the base is 3/4 in long; look at the "
    "travel, the foremost place and the length": lambda: Separate(length="3/4 in", travel="1/2 in", foremost="0.3 in"),
    "The posts stand 3/8 in apart, but their holes are 3/8 in wide and would run into each other; look at both": (
        lambda: Tuners(spacing="3/8 in", post="3/8 in")
    ),
    "A tuner plate has no post; give it one at least, or leave it out": lambda: Tuners(left=(3, 0)),
    "The number of frets is 0, but must lie between 1 and 36; mend the number": lambda: Frets(count=0),
    "A traced outline needs 3 to 2000 points, but has 2; trace it again": (
        lambda: Bridge(outline="traced", traced=((0.0, 76.0), (0.0, -76.0)))
    ),
    "The traced outline crosses itself; give its points in their order round the bridge": (
        lambda: Bridge(outline="traced", traced=((0.0, 76.0), (26.0, -76.0), (0.0, -76.0), (26.0, 76.0)))
    ),
}


@in_one("sentence", REFUSED)
def test_a_sentence_says_why(sentence: str) -> None:
    with pytest.raises(NotAJob) as refused:
        REFUSED[sentence]()
    assert str(refused.value) == sentence


@pytest.mark.parametrize("kind", ["fret", "height"])
def test_what_stands_for_points_must_not_be_left_out(kind: str) -> None:
    with pytest.raises(NotAJob, match=r"^Reading “r1” "):
        reading(kind=kind, of=(), value=5.0)


@pytest.mark.parametrize(("fret", "refused"), [(0, True), (1, False), (36, False), (37, True)])
def test_frets_count_from_one(fret: int, refused: bool) -> None:
    with pytest.raises(NotAJob, match="frets count from 1 to 36") if refused else nullcontext():
        reading(kind="fret", of=(), fret=fret, on="left", value=30.0)


@pytest.mark.parametrize(("long", "refused"), [(151.79, True), (151.81, False), (152.19, False), (152.21, True)])
def test_a_traced_outline_is_as_long_as_the_bridge_to_a_tenth(long: float, refused: bool) -> None:
    """derived: half of 0.2 mm more or less at each wing is 0.1 mm."""
    corners = ((0.0, long / 2), (0.0, -long / 2), (26.0, -long / 2), (26.0, long / 2))
    with pytest.raises(NotAJob, match="wing to wing") if refused else nullcontext():
        Bridge(outline="traced", traced=corners)


@in_one(
    ("one", "other", "least", "most"),
    # no fretted instrument's is less or more (common practice, no source)
    [
        ("nut.left", "nut.right", 15.0, 130.0),
        ("end.right", "end.left", 20.0, 160.0),
        *((f"nut.{a}", f"end.{b}", 100.0, 1000.0) for a in ("left", "right") for b in ("left", "right")),
        *((f"fret12.{b}", f"nut.{a}", 80.0, 700.0) for a in ("left", "right") for b in ("left", "right")),
    ],
)
def test_widths_and_lengths_of_the_board(one: str, other: str, least: float, most: float) -> None:
    for value, refused in ((0.99 * least, True), (least, False), (most, False), (1.01 * most, True)):
        what = f"no instrument’s is under {least:g} or over {most:g} mm"
        with pytest.raises(NotAJob, match=what) if refused else nullcontext():
            Job(points={one: Point(), other: Point()}, readings=(reading(of=(one, other), value=value),))


@pytest.mark.parametrize(
    ("value", "says"),
    # 1200 mm: common practice, no source; derived: 1200 / 25.4 = 47.244 in
    [
        (1200.0, ""),
        (1201.0, "over 1200 mm off it"),
        ("47.2 in", ""),
        ("75 in", "over 47 15/64 in off it. Look at the unit"),
    ],
)
def test_a_point_far_off_the_boards_edge(value: float | str, says: str) -> None:
    names = ("nut.left", "end.left", "seam.1", "old.1")
    far = reading(kind="off", of=("seam.1",), from_=names[:2], side="left", value=value)
    points = {name: Point() for name in names}
    with pytest.raises(NotAJob, match=re.escape(says)) if says else nullcontext():
        Job(points=points, readings=(far,))
    Job(points=points, readings=(msgspec.structs.replace(far, struck=True),))
    Job(points=points, readings=(msgspec.structs.replace(far, from_=("old.1", "nut.left")),))


@pytest.mark.parametrize(
    ("value", "says"),
    [
        # derived: 15 / 25.4 = 0.5906 and 130 / 25.4 = 5.1181, rounded inward to thousandths
        ("1/2 in", "edge to edge, is 1/2 in; no instrument’s is under 19/32 or over 5 7/64 in. Look at"),
        ("1 cm", "edge to edge, is 1 cm; no instrument’s is under 1.5 or over 13 cm. Look at"),
    ],
)
def test_limits_are_told_in_the_unit_that_was_typed(value: str, says: str) -> None:
    with pytest.raises(NotAJob, match=re.escape(says)):
        Job(
            points={"nut.left": Point(), "nut.right": Point()},
            readings=(reading(of=("nut.left", "nut.right"), value=value),),
        )


def test_a_reading_that_is_struck_or_of_another_kind_may_be_anything() -> None:
    points = {"nut.left": Point(), "nut.right": Point(), "end.left": Point()}
    struck = reading(of=("nut.left", "nut.right"), value=5.0, struck=True)
    off = reading(kind="off", of=("nut.left",), from_=("nut.right", "end.left"), side="left", value=5.0, id="r2")
    assert Job(points=points, readings=(struck, off)).readings == (struck, off)
