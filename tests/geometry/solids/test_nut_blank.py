"""The nut as a solid: places, widths and bottoms, and what is said of them."""

import math
from typing import Any

import numpy as np
import pytest
from msgspec.structs import replace

from geometry.findings import Finding
from geometry.job import Action, Board, Frets, Job, NotAJob, Nut, Point, Spread, Strings
from geometry.job.job import Hand
from geometry.layout import Layout, NutBlank
from geometry.solids.nut_blank import low_over_frets
from geometry.strings.usual_sets import SETS
from geometry.units import mm
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, job, scales, surveyed

ACTION = Action(fret1=(0.5, 0.6), fret12=(1.8, 2.4))
WHOLE = Nut(height=8.0, bed=5.5, fret_height=1.0)
ASKEW = BOARD | {"nut.left": (0.8, 22.0), "nut.right": (-0.8, -22.0)}


def strings(**fields: object) -> Strings:
    given: dict[str, object] = {
        "list": SETS["steel 12-54"].strings,
        "nut": Spread(spread=36.0, spacing="gaps"),
        "saddle": Spread(spread=54.0),
        "action": ACTION,
        "compensation": (2.0,) * 6,
        **fields,
    }
    return Strings(**given)  # type: ignore[arg-type]  # a test gives the fields of strings


def laid(nut: Nut, hand: Hand = "right", points: dict[str, tuple[float, float]] = BOARD, **blocks: object) -> Layout:
    given: dict[str, object] = {"strings": strings(), **blocks}
    return lay_out(job(points, hand, nut=nut, **given), surveyed(points, scales(640.0, 640.0)))


def blank(nut: Nut, hand: Hand = "right", points: dict[str, tuple[float, float]] = BOARD, **blocks: object) -> NutBlank:
    found = laid(nut, hand, points, **blocks).nut_blank
    assert found is not None
    return found


def told(nut: Nut, **blocks: Any) -> dict[str, Finding]:
    return {f.code: f for f in laid(nut, **blocks).findings if f.code.startswith("nut.")}


def bottoms(found: NutBlank) -> list[float]:
    return [slot.over_board[0] for slot in found.slots if slot.over_board is not None]


def test_a_nut_is_as_long_as_its_corners_lie_apart_and_turned_as_they_are() -> None:
    found = blank(WHOLE, points=ASKEW)
    assert found.length[0] == pytest.approx(math.hypot(44.0, 1.6))
    # derived: the left corner 1.6 mm nearer to the tail over 44 mm turns it clockwise
    assert found.turn == pytest.approx(-math.atan2(1.6, 44.0), abs=1e-4)


def test_slots_are_as_wide_as_their_strings_and_the_clearance() -> None:
    found = blank(replace(WHOLE, clearance=0.07))
    sizes = [mm(string.diameter) for string in SETS["steel 12-54"].strings if string.diameter is not None]
    assert sizes[0] == pytest.approx(0.3048)  # derived: 0.012 of 25.4
    assert [slot.width for slot in found.slots] == pytest.approx([size + 0.07 for size in sizes])


def test_slots_lie_where_the_strings_leave_the_nut() -> None:
    layout = laid(WHOLE)
    assert layout.nut_blank is not None
    # derived: from the bass corner at y = -22 of a square nut
    assert [slot.along[0] for slot in layout.nut_blank.slots] == pytest.approx(
        [string.nut_xy[1] + 22.0 for string in layout.strings]
    )
    gaps = [
        a.along[0] - b.along[0] - ((a.width or 0) + (b.width or 0)) / 2 + 0.1
        for a, b in zip(layout.nut_blank.slots, layout.nut_blank.slots[1:], strict=False)
    ]
    assert gaps == pytest.approx([gaps[0]] * 5)  # equal gaps


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("points", [BOARD, ASKEW])
def test_margins_in_place_of_a_spread(hand: Hand, points: dict[str, tuple[float, float]]) -> None:
    nut = replace(WHOLE, margins=(3.0, 4.0), spacing="centres")
    found = blank(nut, hand, points, strings=strings(nut=None))
    outer = sorted(slot.along[0] for slot in found.slots)
    # derived: 4 mm from the right end, 3 mm from the left one, whichever of them is bass
    bass, treble = (4.0, 3.0) if hand == "right" else (3.0, 4.0)
    assert outer[0] == pytest.approx(bass, abs=1e-3)
    assert outer[-1] == pytest.approx(found.length[0] - treble, abs=1e-3)
    assert np.diff(outer) == pytest.approx([np.diff(outer)[0]] * 5, abs=1e-3)


def test_the_margins_asked_for_are_those_the_layout_tells() -> None:
    layout = laid(replace(WHOLE, margins=(3.0, 4.0)), strings=strings(nut=None))
    assert layout.margins is not None
    at = {margin.side: margin.mm for margin in layout.margins.at if margin.place == "nut"}
    assert at == {"left": pytest.approx(3.0, abs=1e-3), "right": pytest.approx(4.0, abs=1e-3)}


def test_a_bottom_by_vectors_in_the_strings_own_plane() -> None:
    """derived: fret tops on the x axis; from the saddle's place, where the action puts the string, a straight line
    through a point 0.35 over fret 1 meets the nut's front at the slot's bottom.
    """
    found = blank(replace(WHOLE, over_fret1=(0.35, 0.35)))
    layout = laid(WHOLE)
    for slot, string, over_1, over_12 in zip(
        found.slots, layout.strings, np.linspace(0.5, 0.6, 6), np.linspace(1.8, 2.4, 6), strict=True
    ):
        long = string.nominal
        first, twelfth = long * (1 - 2 ** (-1 / 12)), long / 2
        up = np.array([first, over_1])
        way = np.array([twelfth, over_12]) - up
        saddle = up + way * (long - up[0]) / way[0]
        through = np.array([first, 0.35])
        back = through - saddle
        bottom = saddle + back * (0.0 - saddle[0]) / back[0]
        assert slot.over_board is not None
        assert slot.over_board[0] == pytest.approx(1.0 + bottom[1], abs=2e-4)


def test_the_closed_form_is_a_straight_line() -> None:
    low = float(low_over_frets(np.array(0.4), np.array(4.0), np.array(0.1)))
    assert low + 0.1 * (4.0 - low) == pytest.approx(0.4)


def test_what_is_not_wanted_otherwise_stays_as_it_is() -> None:
    as_now, wanted = blank(WHOLE), blank(replace(WHOLE, over_fret1=(0.5, 0.6)))
    assert bottoms(wanted) == pytest.approx(bottoms(as_now), abs=1e-9)
    one_side = blank(replace(WHOLE, over_fret1=(None, 0.6)))
    assert bottoms(one_side) == pytest.approx(bottoms(as_now), abs=1e-9)


def test_a_wish_is_surer_than_a_reading() -> None:
    as_now, wanted = blank(WHOLE).slots[0].over_board, blank(replace(WHOLE, over_fret1=(0.5, 0.6))).slots[0].over_board
    assert as_now is not None
    assert wanted is not None
    # derived: 0.05 of the frets' height, and t/(1-t) = 0.0594 of what is not known at the saddle (0.113 and 0.213)
    sd = math.hypot(0.05, 0.0594 * 0.113, 0.0594 * 0.213)
    assert wanted[1] == pytest.approx(1.96 * sd, rel=0.02)
    assert as_now[1] > 1.5 * wanted[1]


def test_a_nut_set_back_carries_the_line_on() -> None:
    moved = strings(nut_compensation=(1.0,) * 6)
    found, plain = (blank(replace(WHOLE, over_fret1=(0.4, 0.4)), strings=one) for one in (moved, strings()))
    assert [slot.behind for slot in found.slots] == [1.0] * 6
    # derived: a millimetre farther down a line that falls by about 4 in 640 to the nut
    for back, front in zip(found.slots, plain.slots, strict=True):
        assert back.over_board is not None
        assert front.over_board is not None
        assert -0.01 < back.over_board[0] - front.over_board[0] < -0.003


def test_over_the_nuts_bottom_the_board_and_its_crown_are_added() -> None:
    flat = blank(WHOLE)
    found = blank(replace(WHOLE, bed=(5.0, 6.0)), board=Board(radius=250.0))
    for slot, level in zip(found.slots, flat.slots, strict=True):
        assert slot.over_board is not None
        assert slot.over_bed is not None
        assert level.over_bed is not None
        place = slot.along[0]  # from the bass end, the right one
        # derived: 6 at the right end and 5 at the left one, a circle of 250 mm over a chord of 44
        bed = 6.0 - place / 44.0
        crown = math.sqrt(250.0**2 - (place - 22.0) ** 2) - math.sqrt(250.0**2 - 22.0**2)
        assert slot.over_bed[0] == pytest.approx(slot.over_board[0] + bed + crown, abs=1e-6)
        assert slot.deep is not None
        assert slot.deep[0] == pytest.approx(8.0 - slot.over_bed[0])
        assert level.over_bed[0] == pytest.approx(slot.over_board[0] + 5.5)


def test_a_bed_known_on_one_side_goes_for_both() -> None:
    one, other = blank(replace(WHOLE, bed=(None, 5.5))), blank(WHOLE)
    assert [slot.over_bed for slot in one.slots] == [slot.over_bed for slot in other.slots]


def test_behind_a_zero_fret_slots_only_guide() -> None:
    found = blank(replace(WHOLE, below_fret=0.4), board=Board(zero_fret=True))
    assert bottoms(found) == pytest.approx([0.6] * 6)  # derived: a millimetre of fret less 0.4
    assert found.zero_fret
    asked = told(replace(WHOLE, over_fret1=(0.4, 0.4)), board=Board(zero_fret=True))
    assert asked["nut.over_fret1"].grade == "look"
    assert "they only guide" in asked["nut.slots"].text


def test_without_the_frets_height_bottoms_wait_and_places_do_not() -> None:
    found = blank(Nut())
    assert all(slot.over_board is None for slot in found.slots)
    assert all(slot.width is not None for slot in found.slots)
    waits = told(Nut())["nut.waits"]
    assert waits.where == "field:nut.fret_height"
    assert "nut.slots" not in told(Nut())
    assert told(replace(WHOLE, bed=None))["nut.waits"].where == "field:nut.bed"


def test_a_good_nut_is_told_in_one_sentence() -> None:
    found = told(WHOLE)
    assert set(found) == {"nut.slots"}
    assert found["nut.slots"].grade == "good"


@pytest.mark.parametrize(
    ("nut", "code", "grade", "says"),
    [
        (replace(WHOLE, bed=0.0), "nut.through", "look", "of the nut stays at its back"),
        (replace(WHOLE, bed=0.0, back_angle=30.0), "nut.through", "stop", "would go through the nut’s bottom"),
        (replace(WHOLE, height=6.0), "nut.low", "stop", "too low for string"),
        (replace(WHOLE, height=7.1), "nut.low", "look", "less than half its string"),
        (replace(WHOLE, over_fret1=(0.05, 0.05)), "nut.sunk", "look", "under the fret tops"),
    ],
)
def test_a_blank_that_does_not_fit_its_slots(nut: Nut, code: str, grade: str, says: str) -> None:
    found = told(nut)[code]
    assert found.grade == grade
    assert says in found.text


def test_slots_at_the_very_end_and_next_to_each_other() -> None:
    # derived: 44 - 39.9 leaves 2.05 a side, less half of 1.37 + 0.1 is 1.31
    assert told(WHOLE, strings=strings(nut=Spread(spread=39.9)))["nut.edge"].grade == "look"
    near = told(WHOLE, strings=strings(nut=Spread(spread=9.0)))
    assert near["nut.wall"].grade == "look"


def test_what_is_told_elsewhere_is_not_told_twice() -> None:
    beyond = {f.code for f in laid(WHOLE, strings=strings(nut=Spread(spread=43.0))).findings}
    assert "margin.small" in beyond
    assert "nut.edge" not in beyond
    touching = {f.code for f in laid(WHOLE, strings=strings(nut=Spread(spread=6.0))).findings}
    assert "strings.close_at_nut" in touching
    assert "nut.wall" not in touching


def test_margins_that_leave_no_room_stop_the_work() -> None:
    found = told(replace(WHOLE, margins=(21.0, 21.0)), strings=strings(nut=None))
    assert found["nut.margins"].grade == "stop"


def test_margins_leave_no_room_on_a_nut_out_of_square_either() -> None:
    # derived: 30 and 30 are more than the whole nut, however it is turned; 5 mm out of 44 is 6.5 degrees
    askew = BOARD | {"nut.left": (2.5, 22.0), "nut.right": (-2.5, -22.0)}
    layout = laid(replace(WHOLE, margins=(30.0, 30.0)), points=askew, strings=strings(nut=None))
    found = {finding.code: finding for finding in layout.findings}
    assert found["nut.margins"].grade == "stop"
    assert found["strings.close_at_nut"].text.endswith("Make the margins at the nut smaller.")
    assert found["strings.close_at_nut"].where == "field:nut.margins"


def test_margins_beside_which_the_least_spread_fits_do_not_stop() -> None:
    # derived: of 44, 19.4 and 19.5 leave 5.1, and 5 is the least
    assert "nut.margins" not in told(replace(WHOLE, margins=(19.4, 19.5)), strings=strings(nut=None))


def test_a_wall_and_an_end_between_margins_are_mended_by_the_margins() -> None:
    wall = told(replace(WHOLE, margins=(18.2, 18.2), clearance=0.9), strings=strings(nut=None))["nut.wall"]
    assert (wall.where, wall.text.split(": ")[1]) == ("field:nut.margins", "make the margins at the nut smaller.")
    # derived: 2.1 less half of 1.37 + 0.1 is 1.36
    edge = told(replace(WHOLE, margins=(2.1, 2.1)), strings=strings(nut=None))["nut.edge"]
    assert edge.text.endswith("make the margins at the nut larger.")


def test_a_spread_and_margins_are_refused_together() -> None:
    with pytest.raises(NotAJob, match=r"have a spread \(strings.nut\) and margins \(nut.margins\); keep one of them"):
        Job(points={"nut.left": Point()}, strings=strings(), nut=Nut(margins=(3.0, 3.0)))


@pytest.mark.parametrize(
    ("fields", "match"),
    [
        ({"thickness": 0.5}, "The nut’s thickness is 0.5 mm, but must lie between 1 and 20 mm"),
        ({"height": 80.0}, "The nut’s height"),
        ({"bed": (5.0, 50.0)}, "The board’s face over the nut’s bottom"),
        ({"fret_height": 10.0}, "The frets’ height"),
        ({"over_fret1": (0.4, 9.0)}, "The height wanted over fret 1, right,"),
        ({"margins": (3.0, 50.0)}, "The margin at the nut, right,"),
        ({"clearance": 3.0}, "The slots’ clearance"),
        ({"back_angle": 80.0}, "The slots’ angle to the headstock"),
        ({"below_fret": 9.0}, "The slots under the zero fret’s top"),
    ],
)
def test_what_no_nut_can_be_is_refused(fields: dict[str, object], match: str) -> None:
    with pytest.raises(NotAJob, match=match):
        Nut(**fields)  # type: ignore[arg-type]  # a test gives the fields of a nut


def test_the_mirror_image_with_margins() -> None:
    nut = replace(WHOLE, margins=(3.0, 4.0), bed=(5.0, 5.5), over_fret1=(0.4, 0.5))
    right = blank(nut, strings=strings(nut=None))
    turned = replace(nut, margins=(4.0, 3.0), bed=(5.5, 5.0), over_fret1=(0.5, 0.4))
    action = Action(fret1=ACTION.fret1[::-1], fret12=ACTION.fret12[::-1])
    left = blank(turned, "left", strings=strings(nut=None, action=action))
    for a, b in zip(right.slots, left.slots, strict=True):
        assert a.along == pytest.approx(b.along)
        assert a.over_bed == pytest.approx(b.over_bed)


def test_frets_by_the_rule_of_eighteen() -> None:
    # derived: fret 1 stands an eighteenth of the scale from the nut, and twice fret 12 is 0.9926 of it
    found = blank(replace(WHOLE, over_fret1=(0.4, 0.4)), frets=Frets(spacing="eighteen"))
    assert len(bottoms(found)) == 6
    assert all(math.isfinite(bottom) for bottom in bottoms(found))
