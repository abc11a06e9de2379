"""What is said of a cutter before files are written."""

import msgspec

from export.machine.machine_file import MachineSettings
from export.records import Stamp
from export.templates.placement import draw
from export.tool_findings import job_tool_findings, tool_findings
from geometry.job import Job
from geometry.layout import Layout


def test_a_kerf_that_fits_says_nothing(job: Job, layout: Layout, stamp: Stamp) -> None:
    assert tool_findings(draw(job, layout, stamp), MachineSettings(kerf=0.2)) == ()
    assert tool_findings(draw(job, layout, stamp), MachineSettings()) == ()


def test_a_kerf_wider_than_the_slot_stops(job: Job, layout: Layout, stamp: Stamp) -> None:
    (stop,) = tool_findings(draw(job, layout, stamp), MachineSettings(kerf=3.5))
    assert (stop.grade, stop.code, stop.where) == ("stop", "kerf.too_large", "field:sheets.kerf")
    assert stop.text.endswith("which is 3.00 mm wide; look at its decimal point.")


def test_what_is_not_written_is_not_looked_at(job: Job, layout: Layout, stamp: Stamp) -> None:
    machine = MachineSettings(cutter=3.175, purposes=frozenset(("drill",)))
    assert tool_findings(draw(job, layout, stamp), machine) == ()


def with_cutter(job: Job, cutter: str | None) -> Job:
    return msgspec.structs.replace(job, sheets=msgspec.structs.replace(job.sheets, cutter=cutter))


def test_over_all_templates_each_thing_is_said_once(job: Job, layout: Layout, stamp: Stamp) -> None:
    asked = msgspec.structs.replace(stamp, templates=("placement", "bridge", "job-sheet"))
    found = job_tool_findings(with_cutter(job, "1/16 in"), layout, asked)
    assert [f.text.partition(" stay")[0] for f in found] == ["4 corners of the notch", "4 corners of the slot"]
    assert job_tool_findings(with_cutter(job, None), layout, asked) == ()


def test_a_template_that_cannot_be_drawn_has_no_findings(job: Job, layout: Layout, stamp: Stamp) -> None:
    short = msgspec.structs.replace(layout, bridge=None)
    assert job_tool_findings(with_cutter(job, "2 mm"), short, stamp) == ()


def test_corners_that_stay_round(job: Job, layout: Layout, stamp: Stamp) -> None:
    found = {
        finding.text.split(" stay")[0]: finding
        for finding in tool_findings(draw(job, layout, stamp), MachineSettings(cutter=2.0))
    }
    assert set(found) == {"4 corners of the notch", "4 corners of the slot"}
    assert found["4 corners of the slot"].grade == "look"
    assert found["4 corners of the slot"].values == {"corners": 4.0, "radius_mm": 1.0}


def test_a_cutter_wider_than_the_slot_stops(job: Job, layout: Layout, stamp: Stamp) -> None:
    (stop,) = [f for f in tool_findings(draw(job, layout, stamp), MachineSettings(cutter=3.175)) if f.grade == "stop"]
    assert stop.code == "cutter.too_large"
    assert stop.text == (
        "The cutter of 3.175 mm is too large for the slot, which is 3.00 mm wide; choose a smaller one."
    )
