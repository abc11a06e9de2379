"""What is said of a cutter before files are written."""

from export.machine import Making
from export.records import Stamp
from export.templates.placement import draw
from export.tool_findings import tool_findings
from geometry.job import Job
from geometry.layout import Layout


def test_without_a_cutter_nothing_is_said(job: Job, layout: Layout, stamp: Stamp) -> None:
    assert tool_findings(draw(job, layout, stamp), Making(kerf=0.2)) == ()


def test_corners_that_stay_round(job: Job, layout: Layout, stamp: Stamp) -> None:
    found = {
        finding.text.split(" stay")[0]: finding
        for finding in tool_findings(draw(job, layout, stamp), Making(cutter=2.0))
    }
    assert set(found) == {"4 corners of the notch", "4 corners of the slot"}
    assert found["4 corners of the slot"].grade == "look"
    assert found["4 corners of the slot"].values == {"corners": 4.0, "radius_mm": 1.0}


def test_a_cutter_wider_than_the_slot_stops(job: Job, layout: Layout, stamp: Stamp) -> None:
    (stop,) = [f for f in tool_findings(draw(job, layout, stamp), Making(cutter=3.175)) if f.grade == "stop"]
    assert stop.code == "cutter.too_large"
    assert stop.text == (
        "The cutter of 3.175 mm is too large for the slot, which is 3.00 mm wide; choose a smaller one."
    )
