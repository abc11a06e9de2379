"""What is said of a floating bridge's feet, of plans made by hand: edge and sound hole at their bounds, the window by
the hand, old marks on either side.
"""

import math

import pytest
from msgspec.structs import replace

from geometry.findings import Finding
from geometry.floating.feet_told import crown_findings, findings
from geometry.job import Floating, Job, Saddle, String, Strings
from geometry.job.job import Hand
from geometry.layout import XY, BridgePlan, FloatingPlan, FootPlan, PlacedPoint

Ring = tuple[XY, ...]
TWO = Strings(list=(String(name="1"), String(name="2")))


def foot(name: str, x: float, y: float, wide: float = 10.0) -> FootPlan:
    """A foot 20 mm long, its front edge's middle at a place."""
    left, right = y + 10.0, y - 10.0
    corners = ((x, left), (x, right), (x + wide, right), (x + wide, left))
    return FootPlan(name=name, corners=corners)  # type: ignore[arg-type]  # a foot's name


FEET = (foot("bass", 660.0, -30.0), foot("treble", 660.0, 30.0))
PLAN = FloatingPlan(
    feet=FEET,
    crown=((665.0, 40.0), (665.0, -40.0)),
    window=(0.62, 0.74),
    turn_pm95=0.44,
    feet_pm95=0.31,
    cents_per_mm={},
)
SQUARE = ((660.0, 40.0), (660.0, -40.0), (670.0, -40.0), (670.0, 40.0))
PLACED = BridgePlan(
    outline=(),
    front_pm95=(0.3, 0.3),
    corners=SQUARE,
    pins=(),
    turn=0.0,
    corners_pm95=((0.1, 0.2), (0.1, 0.45), (0.1, 0.3), (0.1, 0.3)),
)


def points(kind: str, ring: Ring) -> dict[str, PlacedPoint]:
    return {
        f"{kind}.{at}": PlacedPoint(x=x, y=y, sx=0.1, sy=0.1, sxy=0.0, checked=True)
        for at, (x, y) in enumerate(ring, 1)
    }


def told(
    plan: FloatingPlan = PLAN, hand: Hand = "right", strings: Strings = TWO, marks: int = 0, **rings: Ring
) -> dict[str, list[Finding]]:
    standing = Floating(marks=tuple((f"m{at}.1", f"m{at}.2", f"m{at}.3") for at in range(marks)))
    job = Job(hand=hand, strings=strings, floating=None)
    seen = {name: at for kind, ring in rings.items() for name, at in points(kind, ring).items()}
    found = dict[str, list[Finding]]()
    for one in findings(job, standing, PLACED, plan, seen):
        found.setdefault(one.code, []).append(one)
    return found


@pytest.mark.parametrize(("hand", "bass", "treble"), [("right", "0.8", "0.7"), ("left", "0.7", "0.8")])
def test_the_window_at_bass_and_treble(hand: Hand, bass: str, treble: str) -> None:
    """derived: at [left, right] 0.62 and 0.74, rounded up; of the corners the widest across"""
    (found,) = told(hand=hand)["floating.window"]
    assert f"known to ±{bass} mm at bass and ±{treble} mm at treble along the neck and ±0.5 mm across it" in found.text
    assert "turned by ±0.4°, which is ±0.4 mm at its outer feet" in found.text
    assert found.values["bass"] == (0.74 if hand == "right" else 0.62)
    assert (found.values["degrees"], found.values["feet"]) == (0.44, 0.31)


def test_one_string_alone_says_nothing_of_a_turn() -> None:
    (found,) = told(strings=Strings(list=(String(name="1"),)))["floating.window"]
    assert "turned" not in found.text


@pytest.mark.parametrize(("turn", "says"), [(0.049, False), (0.05, True)])
def test_a_turn_that_would_be_told_as_nought_is_not_told(turn: float, says: bool) -> None:
    """derived: tenths of a degree; a bridge that stands square is turned by none"""
    (found,) = told(replace(PLAN, turn_pm95=turn))["floating.window"]
    assert ("turned by ±0.1°" in found.text) == says
    assert ("turned" in found.text) == says


def edge(past: float) -> Ring:
    """A body whose edge the treble foot, which ends at y = 40, stands past by so much."""
    y = 40.0 - past
    return ((500.0, y), (500.0, -200.0), (800.0, -200.0), (800.0, y))


@pytest.mark.parametrize(
    ("past", "grade"), [(0.0, None), (0.125, "look"), (3.0, "look"), (3.125, "stop"), (-5.0, None)]
)
def test_a_foot_past_the_edge(past: float, grade: str | None) -> None:
    found = told(body=edge(past)).get("floating.edge", [])
    assert [one.grade for one in found] == ([] if grade is None else [grade])
    if found:
        assert found[0].text.startswith("The treble foot would stand")
        assert found[0].values["mm"] == pytest.approx(past)


def test_three_points_tell_no_edge_and_four_do() -> None:
    ring = edge(5.0)
    assert "floating.edge" not in told(body=ring[:3])
    assert "floating.edge" in told(body=ring)
    assert "floating.edge" not in told(body=(ring[0], ring[2], ring[1], ring[3]))  # a ring that crosses itself


def test_points_go_by_their_numbers() -> None:
    """derived: by their names body.10 would come before body.2, and the ring cross itself"""
    ring = tuple((660.0 + 200 * math.cos(a), 200 * math.sin(a)) for a in (k * math.pi / 5 for k in range(10)))
    assert "floating.edge" not in told(body=ring)
    small = tuple((660.0 + 35 * math.cos(a), 35 * math.sin(a)) for a in (k * math.pi / 5 for k in range(10)))
    assert len(told(body=small)["floating.edge"]) == 2


@pytest.mark.parametrize(("shared", "says"), [(0.5, "50 %"), (0.004, "1 %"), (1.0, "100 %")])
def test_a_foot_over_the_sound_hole(shared: float, says: str) -> None:
    """derived: a hole that covers so much of the bass foot, which is 10 mm from front to back"""
    x = 660.0 + 10.0 * shared
    hole = ((600.0, -20.0), (600.0, -60.0), (x, -60.0), (x, -20.0))
    (found,) = told(soundhole=hole)["floating.hole"]
    assert found.grade == "stop"
    assert found.text.startswith(f"The bass foot would stand over the sound hole, with {says} of it.")
    assert found.values["part"] == pytest.approx(shared)


def test_a_hole_that_is_not_under_a_foot_or_not_known() -> None:
    beside = ((600.0, -20.0), (600.0, -60.0), (660.0, -60.0), (660.0, -20.0))
    assert "floating.hole" not in told(soundhole=beside)
    over = ((600.0, -10.0), (600.0, -50.0), (720.0, -30.0))
    assert "floating.hole" in told(soundhole=over)
    assert "floating.hole" not in told(soundhole=over[:2])


def mark(x: float, y: float) -> Ring:
    return ((x - 2.0, y + 2.0), (x - 2.0, y - 2.0), (x + 2.0, y - 2.0), (x + 2.0, y + 2.0))


def test_old_marks_and_the_feet_nearest_to_them() -> None:
    """derived: the feet's middles lie at 665; the marks at 663 and 666.5"""
    plan = replace(PLAN, marks=(mark(663.0, 28.0), mark(666.5, -31.0)))
    (found,) = told(plan, marks=2)["floating.marks"]
    assert "2.0 mm behind the treble mark and 1.5 mm before the bass mark" in found.text
    assert found.values == pytest.approx({"move.1": 2.0, "move.2": -1.5})
    (other,) = told(plan, "left", marks=2)["floating.marks"]
    assert "2.0 mm behind the bass mark and 1.5 mm before the treble mark" in other.text


def test_a_bridge_that_stands_all_along_goes_by_its_middle_there() -> None:
    """derived: turned by 4 mm over 80, its middle lies at 665 + 30 × 4 / 80 = 666.5 where y is 30"""
    corners = ((662.0, 40.0), (658.0, -40.0), (668.0, -40.0), (672.0, 40.0))
    whole = replace(PLAN, feet=(FootPlan(name="whole", corners=corners),), marks=(mark(664.0, 30.0),))
    (found,) = told(whole, marks=1)["floating.marks"]
    assert found.values == pytest.approx({"move.1": 2.5})


def long_mark(bass: float, treble: float) -> Ring:
    """A mark 10 mm wide under a whole bridge, its front edge so far from the nut at either end; treble on the left."""
    return ((treble, 38.0), (bass, -38.0), (bass + 10.0, -38.0), (treble + 10.0, 38.0))


@pytest.mark.parametrize(
    ("bass", "treble", "says"),
    [
        (657.0, 659.0, "3.0 mm behind the old mark at bass and 1.0 mm behind it at treble."),
        (656.0, 659.0, "4.0 mm behind the old mark at bass and 1.0 mm behind it at treble."),
        (661.0, 660.0, "1.0 mm before the old mark at bass and on it at treble."),
        (658.0, 658.02, "2.0 mm behind the old mark."),
    ],
)
def test_one_mark_is_told_by_its_ends_where_they_differ(bass: float, treble: float, says: str) -> None:
    """derived: the bridge's middle lies at 665 all along, the mark's 5 mm behind its front edge"""
    whole = replace(PLAN, feet=(FootPlan(name="whole", corners=SQUARE),), marks=(long_mark(bass, treble),))
    (found,) = told(whole, marks=1)["floating.marks"]
    assert found.text.startswith(f"The feet come to stand {says} What they do not cover of it")


def test_a_corner_that_moves_moves_its_own_end() -> None:
    """derived: one of the two corners at bass, so the middle between them goes by half as much"""
    ring = long_mark(657.0, 659.0)
    moved = (ring[0], (ring[1][0] - 2.0, ring[1][1]), *ring[2:])
    whole = replace(PLAN, feet=(FootPlan(name="whole", corners=SQUARE),))
    (then,), (now,) = (told(replace(whole, marks=(one,)), marks=1)["floating.marks"] for one in (ring, moved))
    assert now.values["move.1.bass"] - then.values["move.1.bass"] == pytest.approx(1.0)
    assert now.values["move.1.treble"] == pytest.approx(then.values["move.1.treble"])


@pytest.mark.parametrize(
    ("marks", "placed", "says"), [(1, 1, None), (2, 1, "1 of the old foot marks is"), (3, 1, "2 of")]
)
def test_marks_that_wait(marks: int, placed: int, says: str | None) -> None:
    found = told(replace(PLAN, marks=(mark(663.0, 28.0),) * placed), marks=marks).get("floating.marks_wait", [])
    assert [one.text.startswith(says or "") for one in found] == ([] if says is None else [True])
    assert "floating.marks" not in told(marks=marks)


@pytest.mark.parametrize(("thicker", "more"), [(None, None), (6.5, 2.5)])
def test_how_thick_a_crown_would_do(thicker: float | None, more: float | None) -> None:
    found = list(crown_findings(Job(saddle=Saddle(thickness=4.0)), replace(PLAN, thicker=thicker)))
    assert [one.values for one in found] == ([] if more is None else [{"thickness": thicker, "more": more}])
