"""Where the strings lie side by side, at the nut and at the saddle."""

from itertools import pairwise

import pytest

from geometry.findings import Finding
from geometry.job import NotAJob, Spread, String, Strings
from geometry.neck.string_paths import PAIR_AT_NUT, in_pairs, side_by_side
from geometry.strings.usual_sets import SETS
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, job, scales, surveyed

THIN_AND_THICK = Strings(
    list=(String(name="1", diameter=0.4), String(name="2", diameter=0.8), String(name="3", diameter=1.6))
)
TWELVE = Strings(list=SETS["steel twelve 10-46"].strings)


def places(strings: Strings, spread: float, spacing: str) -> list[float]:
    given = Spread(spread=spread, spacing=spacing)  # type: ignore[arg-type]  # a spacing
    return [float(y) for y in side_by_side(strings, given, PAIR_AT_NUT)]


def told(strings: Strings, nut: float, saddle: float) -> dict[str, Finding]:
    made = job(strings=Strings(list=strings.list, nut=Spread(spread=nut), saddle=Spread(spread=saddle)))
    return {f.code: f for f in lay_out(made, surveyed(BOARD, scales(640.0, 640.0))).findings}


def test_equal_centres_are_spaced_alike() -> None:
    assert places(THIN_AND_THICK, 20.0, "centres") == pytest.approx([-10.0, 0.0, 10.0])


def test_equal_gaps_leave_alike_room_between_the_strings() -> None:
    # derived: 20 less half of 0.4, the whole of 0.8 and half of 1.6 leaves 2 gaps of 9.1; centres 9.7 and 10.3 apart
    found = places(THIN_AND_THICK, 20.0, "gaps")
    assert [b - a for a, b in pairwise(found)] == pytest.approx([9.7, 10.3])
    assert (found[0], found[-1]) == pytest.approx((-10.0, 10.0))
    # derived: of unknown size the third counts as 0: 19 is left for 2 gaps; centres 9.5 + 0.6 and 9.5 + 0.4 apart
    unknown = Strings(list=(*THIN_AND_THICK.list[:2], String(name="3")))
    assert places(unknown, 20.0, "gaps") == pytest.approx([-10.0, 0.1, 10.0])


def test_one_string_lies_in_the_middle() -> None:
    assert places(Strings(list=(String(name="1"),)), 20.0, "gaps") == [0.0]


def test_pairs_lie_close_and_evenly() -> None:
    # derived: 6 pairs of 2.2 in 46 leave 5 gaps of 6.56
    found = places(TWELVE, 46.0, "centres")
    steps = [b - a for a, b in pairwise(found)]
    assert steps[0::2] == pytest.approx([2.2] * 6)
    assert steps[1::2] == pytest.approx([6.56] * 5)


def test_pairs_with_equal_gaps_have_alike_room_within_and_between() -> None:
    found = places(TWELVE, 46.0, "gaps")
    sizes = [float(str(string.diameter).split()[0]) * 25.4 for string in TWELVE.list]
    rooms = [b - a - (d + e) / 2 for a, b, d, e in zip(found, found[1:], sizes, sizes[1:], strict=False)]
    assert rooms[0::2] == pytest.approx([rooms[0]] * 6)
    assert rooms[1::2] == pytest.approx([rooms[1]] * 5)
    within = [b - a for a, b in zip(found[0::2], found[1::2], strict=True)]
    assert sum(within) / 6 == pytest.approx(2.2)  # centre to centre, on the mean of all pairs
    assert found[-1] - found[0] == pytest.approx(46.0)


def test_strings_of_one_course_alone_lie_as_far_apart_as_they_are_told() -> None:
    both = Strings(list=(String(name="1", course=1), String(name="2", course=1)))
    assert in_pairs(both) == [False]
    assert places(both, 10.0, "centres") == [-5.0, 5.0]


@pytest.mark.parametrize(("hand", "sign"), [("right", 1), ("left", -1)])
def test_the_first_string_lies_on_the_treble_side(hand: str, sign: int) -> None:
    strings = Strings(
        list=THIN_AND_THICK.list, nut=Spread(spread=30.0), saddle=Spread(spread=40.0), compensation=(2.0,) * 3
    )
    layout = lay_out(job(BOARD, hand, strings=strings), surveyed(BOARD, scales(640.0, 640.0)))
    assert layout.strings[0].nut_xy[1] == pytest.approx(15.0 * sign)
    assert layout.strings[0].break_point[1] == pytest.approx(20.0 * sign)


def test_no_spread_at_the_nut_leaves_a_usual_margin() -> None:
    # common practice, no source: 3.5 mm from either edge; derived: 44 − 7
    strings = Strings(list=THIN_AND_THICK.list, saddle=Spread(spread=40.0))
    layout = lay_out(job(strings=strings), surveyed(BOARD, scales(640.0, 640.0)))
    assert layout.strings[0].nut_xy[1] - layout.strings[-1].nut_xy[1] == pytest.approx(37.0)


def test_strings_that_lie_on_each_other_stop_the_work() -> None:
    found = told(TWELVE, nut=12.0, saddle=56.0)
    assert found["strings.close_at_nut"].grade == "stop"
    assert "lie on each other" in found["strings.close_at_nut"].text
    assert "strings.close_at_saddle" not in found


def test_strings_that_nearly_touch_are_named() -> None:
    # derived: 3 strings in 5 are 2.5 apart, less half of 0.8 and half of 1.6 leaves 1.3; 4 are 1.667 apart, less 1.6
    # leaves 0.07 between the thick ones
    assert "strings.close_at_nut" not in told(THIN_AND_THICK, nut=5.0, saddle=56.0)
    near = told(Strings(list=(*THIN_AND_THICK.list, String(name="4", diameter=1.6))), nut=5.0, saddle=56.0)
    assert near["strings.close_at_nut"].text.startswith("At the nut strings 3 and 4 have only 0.1 mm between them")
    assert near["strings.close_at_nut"].grade == "look"


def pairs_of(nut: Spread, saddle: Spread) -> tuple[list[float], list[float]]:
    """How far the two strings of each pair lie apart at the nut and at the saddle, mm."""
    made = job(strings=Strings(list=TWELVE.list, nut=nut, saddle=saddle, compensation=(3.0,) * 12))
    strings = lay_out(made, surveyed(BOARD, scales(640.0, 640.0))).strings
    at_nut, at_saddle = [s.nut_xy[1] for s in strings], [s.break_point[1] for s in strings]
    return tuple([abs(b - a) for a, b in zip(ys[0::2], ys[1::2], strict=True)] for ys in (at_nut, at_saddle))  # type: ignore[return-value]  # two lists


def test_pairs_lie_wider_at_the_saddle_than_at_the_nut() -> None:
    # 2.2 mm at the nut and 3 at the saddle (common practice, no source)
    at_nut, at_saddle = pairs_of(Spread(spread=40.0), Spread(spread=58.0))
    assert at_nut == pytest.approx([2.2] * 6)
    assert at_saddle == pytest.approx([3.0] * 6)


def test_how_far_pairs_lie_apart_is_the_jobs_to_say() -> None:
    at_nut, at_saddle = pairs_of(Spread(spread=40.0, pair=1.8), Spread(spread=58.0, pair="1/8 in"))
    assert at_nut == pytest.approx([1.8] * 6)
    assert at_saddle == pytest.approx([3.175] * 6)


def test_pairs_that_leave_the_courses_no_room_are_told_of() -> None:
    wide = Spread(spread=36.0, pair=7.0)
    made = job(strings=Strings(list=TWELVE.list, nut=wide, saddle=Spread(spread=58.0), compensation=(3.0,) * 12))
    found = {f.code: f for f in lay_out(made, surveyed(BOARD, scales(640.0, 640.0))).findings}
    assert found["strings.close_at_nut"].grade == "stop"
    assert "how far the two strings of a pair lie apart" in found["strings.close_at_nut"].text


@pytest.mark.parametrize("pair", [0.2, 15.0])
def test_pairs_no_instrument_has_are_refused(pair: float) -> None:
    with pytest.raises(NotAJob, match="The two strings of a pair"):
        Spread(spread=58.0, pair=pair)


@pytest.mark.parametrize(
    ("outer", "found"),
    [
        ((0, 3), [-15.0, -5.0, 5.0, 15.0]),
        ((1, 3), [-30.0, -15.0, 0.0, 15.0]),  # the first lies on as those between do
        ((0, 2), [-15.0, 0.0, 15.0, 30.0]),
        ((1, 2), [-45.0, -15.0, 15.0, 45.0]),
        ((2, 2), [-15.0, -5.0, 5.0, 15.0]),  # one alone has no spread: then it is that of all
    ],
)
def test_the_spread_is_that_of_the_outer_two(outer: tuple[int, int], found: list[float]) -> None:
    """derived: equal centres, 30 mm from the one of them to the other, their middle at 0"""
    four = Strings(list=tuple(String(name=name) for name in "1234"))
    assert side_by_side(four, Spread(spread=30.0), PAIR_AT_NUT, outer).tolist() == pytest.approx(found)


def test_the_spread_of_the_outer_two_with_gaps_and_pairs() -> None:
    """derived: sides of 1 mm strings are a millimetre nearer than centres; a pair of 3 mm leaves one gap of 27"""
    sizes = Strings(list=tuple(String(name=name, diameter=1.0) for name in "1234"))
    by_gaps = side_by_side(sizes, Spread(spread=30.0, spacing="gaps"), PAIR_AT_NUT, (1, 3)).tolist()
    assert by_gaps == pytest.approx([-30.0, -15.0, 0.0, 15.0])
    courses = (("1", None), ("2", 2), ("3", 2), ("4", 3))
    paired = Strings(list=tuple(String(name=name, course=course) for name, course in courses))
    found = side_by_side(paired, Spread(spread=30.0, pair=3.0), PAIR_AT_NUT, (1, 3)).tolist()
    assert found == pytest.approx([-42.0, -15.0, -12.0, 15.0])
