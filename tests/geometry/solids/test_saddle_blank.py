"""The saddle as a solid, against vectors: a plane for the frets, another for the top, a circle for the crown."""

import math
from typing import Any

import numpy as np
import pytest
from msgspec.structs import replace

from geometry.job import Action, Board, Job, Pins, Saddle, Strings
from geometry.job.job import Hand
from geometry.layout import Layout, SaddleBlank
from geometry.solids.saddle_blank import _bridge_at, _Line, pressed
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, bridge, job, scales, six, surveyed

HALF = 28.0
"""Half the outer strings' spread at the saddle, mm (as `six` has it)."""


def laid(heights: dict[str, float], *, hand: Hand = "right", **blocks: Any) -> Layout:
    given: dict[str, object] = {
        "bridge": bridge(thickness=9.0),
        "strings": six(bass=2.0, treble=2.0),
        "saddle": Saddle(slot_depth=5.0, straight=True),
        **blocks,
    }
    extras = {f"height.{name}": value for name, value in heights.items()}
    return lay_out(job(BOARD, hand, **given), surveyed(BOARD, scales(640.0, 640.0) | extras))


def blank(heights: dict[str, float], *, hand: Hand = "right", **blocks: Any) -> SaddleBlank:
    found = laid(heights, hand=hand, **blocks).saddle_blank
    assert found is not None
    return found


def both(left: float, right: float) -> dict[str, float]:
    return {"bridge.left": left, "bridge.right": right}


def test_a_flat_saddle_between_two_heights() -> None:
    found = blank(both(12.0, 13.0))
    # derived: six strings at equal centres, the first (treble) on the left
    assert [string.over_top[0] for string in found.strings] == pytest.approx([12.0, 12.2, 12.4, 12.6, 12.8, 13.0])
    assert [string.over_bridge[0] for string in found.strings if string.over_bridge] == pytest.approx(
        [3.0, 3.2, 3.4, 3.6, 3.8, 4.0]
    )
    assert [string.whole[0] for string in found.strings if string.whole] == pytest.approx(
        [8.0, 8.2, 8.4, 8.6, 8.8, 9.0]
    )
    assert (found.radius, found.floor) == (None, "slot")


def test_the_heights_of_a_crowned_saddle_on_a_tilted_top_by_vectors() -> None:
    """derived: a circle of 305 mm through both outer strings' undersides in the plane across the neck, the top a line
    1.2 mm lower at the right, the bridge 9.5 mm thick at the left and 8.7 at the right.
    """
    found = blank(both(12.4, 13.1), board=Board(radius=305.0), bridge=bridge(thickness=(9.5, 8.7)))
    top_left, top_right = np.array([HALF, 0.6]), np.array([-HALF, -0.6])
    normal = np.array([0.0, 1.0])
    left, right = top_left + 12.4 * normal, top_right + 13.1 * normal
    middle, half = (left + right) / 2, HALF
    for place, string in zip(np.linspace(HALF, -HALF, 6), found.strings, strict=True):
        share = (HALF - place) / (2 * HALF)
        chord = left + share * (right - left)
        centre = middle - np.array([0.0, math.sqrt(305.0**2 - half**2)])
        crown = math.sqrt(305.0**2 - (place - centre[0]) ** 2) + centre[1] - middle[1]
        top = top_left + share * (top_right - top_left)
        over = chord[1] + crown - top[1]
        thick = 9.5 + share * (8.7 - 9.5)
        assert string.over_top[0] == pytest.approx(over, abs=1e-6)
        assert string.over_bridge is not None
        assert string.over_bridge[0] == pytest.approx(over - thick, abs=1e-6)


def test_with_the_bridge_off_the_frets_plane_and_the_action_make_the_heights() -> None:
    """derived: in the plane of a string, fret tops on the x axis; a line 0.5 over fret 1 and 2.0 over fret 12 meets the
    saddle's place 3.69 over it, and the straightedge there lies 8.5 and 8.1 over the top.
    """
    action = Action(fret1=(0.5, 0.5), fret12=(2.0, 2.0))
    strings = replace(six(bass=2.0, treble=2.0), action=action)
    found = blank({"saddle.left": 8.5, "saddle.right": 8.1}, strings=strings)
    first, twelfth = 640 * (1 - 2 ** (-1 / 12)), 320.0
    start, far = np.array([first, 0.5]), np.array([twelfth, 2.0])
    way = far - start
    over_frets = start[1] + way[1] * (640.0 - start[0]) / way[0]
    assert found.strings[0].over_top[0] == pytest.approx(8.5 + over_frets, abs=0.01)
    assert found.strings[5].over_top[0] == pytest.approx(8.1 + over_frets, abs=0.01)


def test_outer_strings_stand_as_the_saddles_height_says() -> None:
    layout = laid(both(12.0, 13.0), board=Board(radius=305.0))
    told = next(finding.values for finding in layout.findings if finding.code == "saddle.height")
    assert layout.saddle_blank is not None
    first, last = layout.saddle_blank.strings[0], layout.saddle_blank.strings[5]
    assert first.over_bridge == pytest.approx((told["projection.treble"], told["projection_pm95.treble"]))
    assert last.over_bridge == pytest.approx((told["projection.bass"], told["projection_pm95.bass"]))
    assert first.degrees == pytest.approx((told["degrees.treble"], told["degrees_pm95.treble"]))
    for side, wood in zip(("treble", "bass"), layout.saddle_blank.wood, strict=True):
        assert wood == pytest.approx((told[f"wood.{side}"], told[f"wood_pm95.{side}"]))


def test_heights_that_were_read_are_surer_between_both_than_at_one() -> None:
    found = blank(both(12.0, 12.0))
    # derived: 1.96 x 0.1 at an end; at a fifth from it √(0.8² + 0.2²) of that
    assert found.strings[0].over_top[1] == pytest.approx(0.196, abs=0.001)
    assert found.strings[1].over_top[1] == pytest.approx(0.196 * math.hypot(0.8, 0.2), abs=0.001)


def test_what_nobody_read_is_wrong_on_both_sides_alike() -> None:
    action = {"saddle.left": 8.5, "saddle.right": 8.5}
    found = blank(action)
    ends, inside = found.strings[0].over_top[1], found.strings[2].over_top[1]
    assert inside == pytest.approx(ends, rel=0.01)
    assert ends > 2.0


def test_the_break_angle_of_each_string_by_its_own_hole() -> None:
    """derived: the row of holes square to a bridge whose slot leans, so that each string has its own way to its hole;
    arctan of the height over that way.
    """
    layout = laid(
        both(12.0, 12.6),
        strings=six(bass=5.0, treble=1.0),
        saddle=Saddle(slot_depth=5.0),
        bridge=bridge(thickness=9.0, pins=Pins(row="bridge", behind_slot=7.0)),
    )
    assert layout.saddle_blank is not None
    assert layout.bridge is not None
    for string, plan, pin in zip(layout.saddle_blank.strings, layout.strings, layout.bridge.pins, strict=True):
        assert string.over_bridge is not None
        assert string.degrees is not None
        behind = math.dist(plan.break_point, pin.at)
        assert string.degrees[0] == pytest.approx(math.degrees(math.atan(string.over_bridge[0] / behind)))
    degrees = [string.degrees[0] for string in layout.saddle_blank.strings if string.degrees]
    assert len({round(one, 1) for one in degrees}) == 6


def test_how_hard_a_string_presses() -> None:
    # derived: forces of 75 N along two directions a right angle apart have a sum of 75 √2 N
    assert pressed(75.0, math.pi / 2) == pytest.approx(75 * math.sqrt(2))
    # derived: by adding both pulls as vectors, 25 degrees down behind the saddle
    turn = math.radians(25)
    pulls = 75 * np.array([-1.0, 0.0]) + 75 * np.array([math.cos(turn), -math.sin(turn)])
    assert pressed(75.0, turn) == pytest.approx(float(np.hypot(*pulls)))
    assert pressed(75.0, 0.0) == 0.0


def test_places_along_the_slot_are_those_of_the_strings() -> None:
    found = blank(both(12.0, 12.0))
    # derived: a slot 56 + 20 long, the bass string 10 from its end, strings 11.2 apart
    assert [string.along for string in found.strings] == pytest.approx([66.0 - 11.2 * i for i in range(6)], abs=0.01)


def test_the_other_hand_counts_from_the_other_end() -> None:
    right, left = blank(both(12.0, 13.0)), blank(both(13.0, 12.0), hand="left")
    for one, other in zip(right.strings, left.strings, strict=True):
        assert (other.along, *other.over_top) == pytest.approx((one.along, *one.over_top))
    assert [high for _, high in left.profile] == pytest.approx([high for _, high in right.profile][::-1])


def test_the_profile_goes_through_every_strings_height_and_on_to_both_ends() -> None:
    found = blank(both(12.0, 13.0), board=Board(radius=305.0))
    at = dict(found.profile)
    places = [found.length - string.along for string in found.strings]
    for place, string in zip(places, found.strings, strict=True):
        near = min(at, key=lambda x: abs(x - place))
        assert near == pytest.approx(place, abs=1e-9)
        assert string.whole is not None
        assert at[near] == pytest.approx(string.whole[0])
    assert (found.profile[0][0], found.profile[-1][0]) == (0.0, found.length)


@pytest.mark.parametrize(
    ("blocks", "floor"),
    [
        ({"saddle": Saddle()}, "bridge"),
        ({"bridge": bridge(thickness=(9.0, None)), "board": Board(radius=305.0)}, "top"),
        ({"bridge": None, "board": Board(radius=305.0)}, "top"),
    ],
)
def test_less_is_known_and_less_is_told(blocks: dict[str, Any], floor: str) -> None:
    found = blank(both(12.0, 12.0), **blocks)
    assert found.floor == floor
    assert all(string.whole is None for string in found.strings[1:])


def test_a_height_on_one_side_alone_makes_no_blank() -> None:
    assert laid({"bridge.left": 12.0}, board=Board(radius=305.0)).saddle_blank is None
    assert laid({}, board=Board(radius=305.0)).saddle_blank is None


def test_one_string_alone() -> None:
    one: Strings = replace(six(bass=2.0, treble=2.0), list=six(2.0, 2.0).list[:1], compensation=(2.0,))
    found = blank(both(12.0, 12.6), strings=one, board=Board(radius=305.0))
    assert found.strings[0].over_top[0] == pytest.approx(12.3)


def codes(heights: dict[str, float], **blocks: Any) -> list[tuple[str, str]]:
    found = laid(heights, **blocks).findings
    wanted = ("saddle.high", "saddle.leaning", "saddle.low", "saddle.steep", "saddle.shallow", "saddle.none")
    return [(finding.code, finding.text) for finding in found if finding.code in wanted]


def test_an_inner_string_that_stands_too_high_is_told_where_no_outer_one_is() -> None:
    # derived: 7.6 over the bridge at the outer strings and 1.9 of crown (28²/2/210) is 9.5; 12 of slot holds it
    deep = {"saddle": Saddle(slot_depth=7.0), "bridge": bridge(thickness=10.0, pins=None)}
    told = codes(both(17.6, 17.6), board=Board(radius=210.0), **deep)
    assert [code for code, _ in told] == ["saddle.high"]
    assert "over the bridge under string" in told[0][1]
    assert "saddle.high" not in [code for code, _ in codes(both(17.6, 17.6), **deep)]


def test_what_is_told_of_an_outer_string_is_not_told_again() -> None:
    told = codes(both(19.0, 19.0), board=Board(radius=210.0), bridge=bridge(thickness=10.0, pins=None))
    assert [code for code, _ in told].count("saddle.high") == 1
    assert "at both sides" in next(text for code, text in told if code == "saddle.high")


def test_the_crown_is_told_with_its_plus_minus() -> None:
    layout = laid(both(12.0, 12.0), board=Board(radius=305.0))
    (told,) = [finding for finding in layout.findings if finding.code == "saddle.crown"]
    # derived: 305 - √(305² - 28²) = 1.29
    assert told.values["crown"] == pytest.approx(305 - math.sqrt(305**2 - 28**2))
    assert "by a radius of 305 mm: in its middle it stands 1.3 ±0.1 mm" in told.text


def test_a_plain_job_is_worked_out_without_them() -> None:
    plain: Job = job(BOARD, bridge=bridge(), strings=six(bass=4.0, treble=2.0))
    assert lay_out(plain, surveyed(BOARD, scales(640.0, 640.0))).saddle_blank is None


@pytest.mark.parametrize(
    ("bridge", "told"),
    [((8.0, 9.0), [8.0, 8.5, 9.0]), ((8.0, None), [8.0, None, None]), ((None, 9.0), [None, None, 9.0])],
)
def test_a_bridge_known_at_one_side_says_nothing_of_the_others(
    bridge: tuple[float | None, float | None], told: list[float | None]
) -> None:
    line = _Line(at=(0.0, 60.0), over_top=(0.0, 0.0), own=(0.0, 0.0), shared=(0.0, 0.0), bridge=bridge)
    assert _bridge_at(line, np.array([0.0, 30.0, 60.0])) == told
