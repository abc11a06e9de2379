"""What stands beside the bases' sheet where no proof has a place: the plain distances to the screw holes."""

from msgspec.structs import replace

from export.templates.separate.saddle_bases_told import before_drilling
from geometry.job import Job
from geometry.layout import Check, Layout
from tests.geometry.separate.slanted_sample import plan_of, sample

AT = (0.0, 0.0)


def check(code: str, distance: float) -> Check:
    return Check(code=code, from_="Board end", to="screw 1", from_xy=AT, to_xy=AT, distance=distance, pm95=0.24)


def tables(*checks: Check) -> list[tuple[str, ...]]:
    layout, _ = plan_of(sample())
    bare = Job(points=sample().points, hand="right")  # nothing to place a proof by
    seen: Layout = replace(layout, checks=checks)
    return [row for table in before_drilling(bare, seen) for row in table.rows]


def test_the_distances_to_screws_and_no_others() -> None:
    """derived: halves are rounded away from nought: 161.25 to 161.3"""
    found = tables(check("end.screw.bass", 161.25), check("end.base.bass", 150.0))
    assert found == [("Board end to screw 1", "161.3 ±0.3", "______")]


def test_no_screws_no_table() -> None:
    assert tables(check("end.base.bass", 150.0)) == tables() == []
