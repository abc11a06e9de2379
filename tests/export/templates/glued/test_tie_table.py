"""The table of tie holes: where each goes in and comes out, to the bass from the bridge's middle, in the job's unit."""

import pytest
from msgspec.structs import replace

from export.templates.glued.tie_block import across_front, table
from geometry.job import Job
from geometry.job.job import Hand
from geometry.layout import TieHole, TiePlan
from geometry.units import Unit

HOLES = (
    TieHole(string="1", front=(660.0, 32.0), back=(669.0, 30.0), up=4.5, across=30.0, diameter=1.8),
    TieHole(string="1", front=(660.0, 28.0), back=(669.0, 26.0), up=3.0, across=26.0, diameter=1.8, leaves=False),
    TieHole(string="2", front=(660.0, -10.0), back=(669.0, -9.5), up=4.5, across=-9.5, diameter=1.6),
)
PLAN = TiePlan(
    corners=((660.0, 40.0), (660.0, -40.0), (669.0, -40.0), (669.0, 40.0)),
    front_x=12.0,
    back_x=21.0,
    left=40.0,
    right=-40.0,
    height=8.5,
    holes=HOLES,
)


def test_where_a_hole_goes_in() -> None:
    """derived: as far to the left of where it comes out as its two ends lie apart along the block's back"""
    assert [across_front(PLAN, hole) for hole in HOLES] == pytest.approx([32.0, 28.0, -10.0])
    turned = replace(PLAN, corners=((660.0, 40.0), (676.0, -40.0), (685.0, -40.0), (669.0, 40.0)))
    # derived: along a back that leans by 16 in 80 the way from (669, 30) to (660, 32) is (9 × 0.2 + 2) / √(1 + 0.2²)
    assert across_front(turned, HOLES[0]) == pytest.approx(30.0 + (9 * 0.2 + 2) / (1 + 0.2**2) ** 0.5)


@pytest.mark.parametrize(
    ("hand", "across"),
    [
        ("right", [("−32.00", "−30.00"), ("−28.00", "−26.00"), ("10.00", "9.50")]),
        ("left", [("32.00", "30.00"), ("28.00", "26.00"), ("−10.00", "−9.50")]),
    ],
)
def test_its_rows(hand: Hand, across: list[tuple[str, str]]) -> None:
    """derived: the bass of a right-handed job lies right, which is −"""
    found = table(Job(hand=hand), PLAN)
    assert [row[2:4] for row in found.rows] == across
    assert [row[:2] for row in found.rows] == [("1", "string 1"), ("2", "string 1, second"), ("3", "string 2")]
    assert [row[4] for row in found.rows] == ["4.50", "3.00", "4.50"]
    assert found.below[0][0] == "X behind the bridge’s front: 12.00 at the block’s face, 21.00 at its back."


@pytest.mark.parametrize(("unit", "first"), [("mm", True), ("in", False)])
def test_the_drill_of_the_jobs_own_unit_comes_first(unit: Unit, first: bool) -> None:
    drills = table(Job(unit=unit), PLAN).rows[0][5:]
    assert ("mm" in drills[0]) is first
    assert ("mm" in drills[1]) is not first
