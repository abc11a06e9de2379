"""What the job sheet says of the old work: holes of one fate together, and plugs by size."""

from msgspec.structs import replace

from export.drawing.marks import Text
from export.drills import plug
from export.records import Stamp
from export.templates import TEMPLATES
from export.templates.written import job_sheet, work_steps
from export.templates.written.old_work_told import paragraphs, plug_rows, plugs_said, to_plug
from geometry.job import OldHole, Reading
from tests.geometry.old_work.everything import OLD, laid, made

FROM = {"r1": "nut.left", "r2": "nut.right", "r4": "end.left"}
READ = tuple(Reading(id=name, kind="distance", of=(at, "pin.1"), value=600.0) for name, at in FROM.items())
WIDER = replace(OLD, holes={"screw": OldHole(diameter=9.0)})


def test_each_part_is_told_once_with_holes_of_one_fate_together() -> None:
    move, scar, finish, holes, under, *looks = paragraphs(made(), laid())
    assert move.startswith("The move: The front edge moves ")
    assert scar.startswith("What shows: ")
    assert finish.startswith("Finish: ")
    assert len(looks) < 2
    assert "Cut by new holes or the slot: old pin holes 1 and 6 with 4 assumed between them, by " in holes
    assert "Not covered: the old hole “screw”." in holes
    assert under.startswith("Under the top: ")


def test_plugs_are_grouped_by_size() -> None:
    rows = plug_rows(made(old=WIDER), laid(old=WIDER))
    # derived: a hole of 5.2 mm is drilled out for the next usual plug, 6 mm; one of 9 mm for 10 mm
    assert [row[:4] for row in rows] == [
        ["Old holes, to plug", "6", "5.2 mm", "6.0 mm"],
        ["Old holes, to plug", "1", "9.0 mm", "10.0 mm"],
    ]
    assert rows[0][5] == "sizes of the plug: old pin holes 1 and 6 with 4 assumed between them"


def test_a_hole_is_plugged_by_its_size_to_a_hundredth() -> None:
    """derived: a plug of 8 mm leaves a hole of 7.8 mm a tenth all round, and one of 7.83 mm less"""
    hardly = replace(OLD, holes={"screw": OldHole(diameter=7.83)})
    row = plug_rows(made(old=hardly), laid(old=hardly))[-1]
    assert (row[3], plug(7.8)[0].name) == ("10.0 mm", "8.0 mm")


def test_a_hole_that_a_new_pin_hole_takes_away_needs_no_plug() -> None:
    layout = laid()
    assert layout.consequences is not None
    first, *others = layout.consequences.holes
    used = replace(layout.consequences, holes=(replace(first, used_by="pin:6"), *others))
    assert "pin.1" not in [hole.name for hole in to_plug(replace(layout, consequences=used))]
    assert "pin.1" in [hole.name for hole in to_plug(layout)]


def test_the_steps_say_what_to_plug() -> None:
    said = "old pin holes 1 and 6 with 4 assumed between them and the old hole “screw”"
    assert plugs_said(made(), laid()) == said
    (step,) = [text for text in work_steps.steps(made(), laid(), TEMPLATES) if "clean the footprint" in text]
    assert f"plug {said}" in step


def test_the_sheet_tells_the_story_and_not_twice(stamp: Stamp) -> None:
    pages = job_sheet.pages(made(), laid(), stamp)
    said = " ".join(mark.shape.text for page in pages for mark in page.drawing.marks if isinstance(mark.shape, Text))
    assert "What the move does" in said
    assert "Old holes, to plug" in said
    assert "The old footprint shows:" not in said  # it is told with its ± below


def test_the_readings_that_nothing_checks_are_named_or_numbered_as_in_the_list() -> None:
    """As on the screen: two by their names, and more by their numbers, for a paragraph holds no more names."""
    layout = laid()
    assert layout.consequences is not None
    job, said = replace(made(), readings=READ), []
    for unseen in ({}, {"point:pin.1": ("r1",)}, {"point:pin.1": ("r1", "r2"), "point:pin.6": ("r2", "r4")}):
        known = replace(layout, consequences=replace(layout.consequences, unseen=unseen))
        said.append(next(one for one in paragraphs(job, known) if one.startswith("Old holes")))
    assert "Nothing checks" not in said[0]
    assert "would not show" not in said[0]
    assert said[1].endswith(" A slip in “nut, treble to old pin hole 1” would not show: read it once more.")
    assert said[2].endswith(" Nothing checks readings r1, r2 and r4, listed below.")
