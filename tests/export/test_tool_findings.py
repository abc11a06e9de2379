"""What is said of a cutter before files are written."""

import re

import msgspec
import pytest

from export.machine.machine_file import MachineSettings, machine_drawing
from export.machine.tools import hole_called
from export.records import Stamp
from export.templates import TEMPLATES, figure_of
from export.templates.glued.bridge import draw
from export.tool_findings import job_tool_findings, tool_findings
from geometry.job import Job
from geometry.layout import Layout
from geometry.work_out import work_out
from tests.app.desk.conftest import sample


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
    assert [f.text.partition(" stay")[0] for f in found] == ["4 corners of the slot"]
    assert job_tool_findings(with_cutter(job, None), layout, asked) == ()


def test_a_template_that_cannot_be_drawn_has_no_findings(job: Job, layout: Layout, stamp: Stamp) -> None:
    short = msgspec.structs.replace(layout, bridge=None)
    assert job_tool_findings(with_cutter(job, "2 mm"), short, stamp) == ()


def test_corners_that_stay_round(job: Job, layout: Layout, stamp: Stamp) -> None:
    found = {
        finding.text.split(" stay")[0]: finding
        for finding in tool_findings(draw(job, layout, stamp), MachineSettings(cutter=2.0))
    }
    assert set(found) == {"4 corners of the slot"}
    assert found["4 corners of the slot"].grade == "look"
    assert found["4 corners of the slot"].values == {"corners": 4.0, "radius_mm": 1.0}


def test_a_cutter_wider_than_the_slot_leaves_only_the_slot_out(job: Job, layout: Layout, stamp: Stamp) -> None:
    """The slot of the bridge here is 3.00 mm wide; 3.175 mm is 1/8 in. The outline is still cut."""
    (found,) = tool_findings(draw(job, layout, stamp), MachineSettings(cutter=3.175))
    assert (found.grade, found.code, found.where) == ("look", "cutter.too_large", "field:sheets.cutter")
    assert found.text == (
        "Left out of DXF and SVG: the slot, 3.00 mm wide, where the cutter of 3.175 mm does not fit. "
        "Name a smaller one for slots."
    )


def test_a_cutter_of_its_own_for_the_slot(job: Job, layout: Layout, stamp: Stamp) -> None:
    machine = MachineSettings(cutter=3.175, cutters={"slot": 2.0})
    (found,) = tool_findings(draw(job, layout, stamp), machine)
    assert (found.code, found.where) == ("cutter.round_corners", "field:sheets.cutters.slot")
    assert found.values == {"corners": 4.0, "radius_mm": 1.0}


def test_pilot_holes_larger_than_their_holes_stop(job: Job, layout: Layout, stamp: Stamp) -> None:
    """The pin holes here are 5 mm wide."""
    placement = TEMPLATES["placement"].draw
    assert placement is not None
    (stop,) = tool_findings(placement(job, layout, stamp), MachineSettings(pilot=6.0))
    assert (stop.grade, stop.where) == ("stop", "field:sheets.pilot")
    assert stop.text == (
        "The pilot holes of 6 mm are larger than the hole of pin 1, which is 5 mm; choose smaller ones."
    )
    assert tool_findings(placement(job, layout, stamp), MachineSettings(pilot=5.0)) == ()


def test_a_cutter_for_work_that_is_not_there(job: Job, layout: Layout, stamp: Stamp) -> None:
    sheets = msgspec.structs.replace(job.sheets, cutters={"slot": "2 mm"})
    asked = msgspec.structs.replace(job, sheets=sheets)
    strip = msgspec.structs.replace(stamp, templates=("nut-slots",))
    (found,) = job_tool_findings(asked, layout, strip)
    assert found.text == (
        "A cutter is named for slots, but no chosen template has any; choose one that has, or empty it."
    )
    both = msgspec.structs.replace(stamp, templates=("nut-slots", "bridge"))
    assert "cutter.no_such_work" not in [f.code for f in job_tool_findings(asked, layout, both)]


@pytest.mark.parametrize(
    ("of", "one", "several"),
    [
        ("pin:1", "the hole of pin 1", "the pin holes"),
        ("pilot hole:1", "pilot hole 1", "the pilot holes"),
        ("screw:2", "the hole of screw 2", "the screw holes"),  # a base's
        ("screw 1", "the hole of screw 1", "the screw holes"),  # a tailpiece's
        ("screw", "the hole of screw", "the screw holes"),  # a tuner plate's
        ("through:6", "the hole of string 6", "the holes through the body"),
        ("strip left", "a post’s hole", "the posts’ holes"),
        ("face marker:4", "the hole of face marker 4", "the markers’ holes"),
        ("tie:1a", "tie hole 1a", "the tie holes"),
        ("something new", "a hole", "the holes"),
    ],
)
def test_holes_are_called_by_words(of: str, one: str, several: str) -> None:
    assert hole_called(of) == (one, several)


@pytest.mark.parametrize(
    ("name", "template"),
    [
        ("slanted-separate", "saddle-bases"),
        ("slanted-separate", "saddle-bases-back"),
        ("floating-five", "tailpiece"),
        ("redrilled-left", "headstock"),
        ("five-pairs", "tie-block"),
    ],
)
def test_holes_of_one_kind_that_a_cutter_does_not_fit_are_told_once(name: str, template: str, stamp: Stamp) -> None:
    job = sample(name)
    figure = figure_of(TEMPLATES[template], job, work_out(job), stamp)
    machine = MachineSettings(cutters={"holes": 20.0}, edge=None)  # wider than any hole there
    said = [found.text for found in tool_findings(figure, machine)]
    assert said
    assert len(said) == len(set(said))
    assert all(re.match(r"Left out of DXF and SVG: the [a-z’ ]*holes[a-z ]*, ", text) for text in said), said


def test_a_templates_pilot_holes_are_not_taken_for_the_pins(job: Job, layout: Layout, stamp: Stamp) -> None:
    """Pilot holes are 1 mm wide until others are asked for; the cutter is wider."""
    figure = figure_of(TEMPLATES["placement"], job, layout, stamp)
    (found,) = tool_findings(figure, MachineSettings(cutters={"holes": 1.5}))
    assert found.text.startswith("Left out of DXF and SVG: the pilot holes, 1.00 mm wide, where the cutter of 1.5 mm")


def test_a_file_is_offset_for_no_operation_that_is_left_out(job: Job, layout: Layout, stamp: Stamp) -> None:
    figure = figure_of(TEMPLATES["bridge"], job, layout, stamp)
    said = machine_drawing(figure, layout, MachineSettings(cutter=3.175), "").says
    assert "Edges are offset for a cutter of 3.175 mm (outlines): set no further offset." in said
    assert "Left out: the slot, 3.00 mm wide, where the cutter of 3.175 mm does not fit." in said
