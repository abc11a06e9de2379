"""The list of plugs and drills for headstock, markers and other holes."""

from pathlib import Path

import pytest
from msgspec.structs import replace

from app.file import job_file
from export import plugs_and_drills
from export.templates.written import job_tables
from geometry.job import OldPost, OtherHole, TunerPlate
from geometry.work_out import work_out
from tests.export.plan.test_headstock_drawn import made

SLOTTED = Path("sample_jobs/slotted-neck-screw.job.json")


def test_plugs_come_before_the_holes_that_wait_for_them() -> None:
    """derived: old holes of 8.0 mm are drilled out to the next usual plug over 8.2: 10 mm or 3/8 in (9.525 mm)."""
    job, layout = made()
    rows = job_tables.holes(job, layout)
    names = [row[0] for row in rows]
    assert names.index("Headstock, to plug") < names.index("Bushings") < names.index("Tuner posts")
    assert rows[names.index("Headstock, to plug")] == [
        "Headstock, to plug",
        "4",
        "8.0 mm",
        "10.0 mm",
        "3/8 in (9.52 mm)",
        "sizes of the plug: old posts 1, 3, 4 and 6, before posts 1, 3, 6 and 4",
    ]


def test_old_holes_told_alike_take_one_plug() -> None:
    """derived: 7.600 and 7.738 mm are 19.15 and 19.50 64ths, and are both told as 19/64; with 0.2 mm round it the wider
    is wider than a plug of 5/16 in (7.9375 mm), the narrower is not
    """
    job, layout = made()
    found = layout.hardware.headstock
    assert found is not None
    wide = dict(zip((plug.hole for plug in found.plugs), (7.6, 7.738, 7.6, 7.738), strict=True))
    olds = tuple(replace(plug, diameter=wide[plug.hole], before=()) for plug in found.plugs)
    hardware = replace(layout.hardware, headstock=replace(found, plugs=olds))
    rows = plugs_and_drills.plugs(replace(job, unit="in"), replace(layout, hardware=hardware))
    assert [row[:5] for row in rows] == [["Headstock, to plug", "4", "19/64 in", "8.0 mm", "3/8 in (9.52 mm)"]]


def test_an_old_holes_depth_is_said_where_it_was_typed() -> None:
    job, layout = made()
    assert job.hardware.headstock is not None
    posts = job.hardware.headstock.posts | {"post.1": OldPost(diameter=8.0, depth=12.0)}
    deep = replace(job, hardware=replace(job.hardware, headstock=replace(job.hardware.headstock, posts=posts)))
    says = [row[5] for row in plugs_and_drills.plugs(deep, layout)]
    assert says == [
        "sizes of the plug: old post 1, 12.0 mm deep, before post 1",
        "sizes of the plug: old posts 3, 4 and 6, before posts 3, 6 and 4",
    ]


def test_every_new_hole_is_in_the_list() -> None:
    """derived: six posts of 1/4 in and their bushings, a screw a plate, one dot in the edge, two in the face, a jack's
    hole. Drills: 1/4 in is 6.35 mm; 1.5 mm lies nearest to #53 (0.0595 in, from memory, ASME B94.11M-1993).
    """
    job, layout = made()
    rows = {row[0]: row for row in plugs_and_drills.drills(job, layout)}
    assert {name: row[1] for name, row in rows.items()} == {
        "Bushings": "6",
        "Tuner posts": "6",
        "Tuner plates’ screws": "2",
        "Other hole": "1",
        "Side markers": "1",
        "Face markers": "2",
    }
    assert rows["Tuner posts"][3:5] == ["6.4 mm", "1/4 in (6.35 mm)"]
    assert rows["Tuner plates’ screws"][3:5] == ["1.5 mm", "#53 (1.51 mm)"]
    assert rows["Other hole"][5] == "right through: jack"


def test_a_hole_that_is_plugged_says_its_grain_and_that_something_stays_within_reach() -> None:
    job, layout = made()
    heel = OtherHole(where="heel", diameter=6.5, plug=10.0, grain="end", reach=True)
    held = replace(job, hardware=replace(job.hardware, holes=(heel,)))
    assert plugs_and_drills.plugs(held, layout)[-1] == [
        "Other hole, to plug",
        "1",
        "6.5 mm",
        "10.0 mm",
        "3/8 in (9.52 mm)",  # derived: 10 mm is 6.3 sixteenths of an inch
        "sizes of the plug: end grain, stay within reach: heel",
    ]
    assert not any(row[0] == "Other hole" for row in plugs_and_drills.drills(held, layout))


@pytest.mark.parametrize(
    ("diameter", "metric"),
    [
        (2.5, 3.0),
        (2.9, 3.0),
        (4.0, 6.0),
        (8.7, 10.0),
    ],  # derived: the next half mm for a dowel; else the next usual plug
)
def test_narrow_holes_take_a_dowel(diameter: float, metric: float) -> None:
    assert plugs_and_drills.plug_sizes(diameter)[0].diameter == metric


def test_the_work_goes_from_plugs_to_posts_to_markers() -> None:
    job, layout = made()
    said = plugs_and_drills.steps(job, layout)
    starts = ("Plug the headstock", "Lay the headstock", "Plug and drill the other", "Guard the top", "Prick the face")
    assert all(step.startswith(start) for step, start in zip(said, starts, strict=True))
    assert "scrap clamped behind" in said[1]


def test_a_slotted_headstock_is_plugged_and_drilled_from_its_sides() -> None:
    """derived: 19 mm thick, so 9.5 mm deep"""
    job = job_file.read(SLOTTED)
    layout = work_out(job)
    assert plugs_and_drills.plugs(job, layout)[0][0] == "In the sides, to plug"
    rows = {row[0]: row for row in plugs_and_drills.drills(job, layout)}
    assert rows["Tuner posts"][5].startswith("in the sides, 9.5 mm below the face, ±0.")
    first, second = plugs_and_drills.steps(job, layout)[:2]
    assert first.startswith("Plug the old holes in the headstock’s sides, with scrap in the slots.")
    assert second.startswith("Fold the strips over the headstock’s sides")
    assert "with scrap in each slot" in second


def test_bushings_and_plate_screws_of_a_slotted_headstock_go_into_its_sides() -> None:
    job = job_file.read(SLOTTED)
    assert job.hardware.tuners is not None
    plated = replace(job.hardware.tuners, bushing=8.0, plate=TunerPlate(screws=((-6.0, 4.0), (76.0, 4.0))))
    made_so = replace(job, hardware=replace(job.hardware, tuners=plated))
    rows = {row[0]: row for row in plugs_and_drills.drills(made_so, work_out(made_so))}
    assert rows["Bushings"][5] == "6.0 mm deep from the side"
    assert rows["Tuner plates’ screws"][1] == "4"  # derived: two plates of two screws
    assert plugs_and_drills.steps(made_so, work_out(made_so))[1].endswith("; the plates’ screws last.")


def test_a_job_without_hardware_has_none_of_it() -> None:
    job, layout = made()
    bare = replace(layout, hardware=replace(layout.hardware, headstock=None, side=(), face=()))
    without = replace(job, hardware=replace(job.hardware, holes=()))
    assert plugs_and_drills.plugs(without, bare) == []
    assert plugs_and_drills.drills(without, bare) == []
    assert plugs_and_drills.steps(without, bare) == ()
