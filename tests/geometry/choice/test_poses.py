"""A bridge in many poses at once, against the layout of a job in which it is moved to one of them."""

import cmath
import math
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from msgspec.structs import replace

from app.file import job_file
from geometry.choice.poses import Base, Poses, find_base, move_all, no_choice
from geometry.choice.poses_tried import all_over, at_one, on_old_holes
from geometry.frame import Points
from geometry.job import Choosing, Job, Moved, SlotFront
from geometry.layout import Hole
from geometry.survey import Surveyed, survey
from geometry.work_out import lay_places

SAMPLES = Path(__file__).parents[3] / "sample_jobs"

NAMES = [path.name for path in sorted(SAMPLES.glob("*.job.json")) if job_file.read(path).held == "glue"]
CLOSE = 1e-3
"""mm: what no hand and no file can tell apart (derived: the parabola leaves under a thousandth)."""


def sample(name: str, seat: str = "square", slot_front: SlotFront | None = None) -> Job:
    job = job_file.read(SAMPLES / name)
    assert job.bridge is not None
    # with a tie block no places are looked for
    return replace(job, bridge=replace(job.bridge, seat=seat, slot_front=slot_front, tie=None))


def test_no_poses_of_a_bridge_with_several_slots_or_a_tie_block() -> None:
    tied = job_file.read(SAMPLES / "five-pairs.job.json")
    split = sample("leaning-neck.job.json")
    assert split.saddle is not None
    split = replace(split, saddle=replace(split.saddle, made="two"))
    for job in (tied, split):
        assert no_choice(job)
        assert find_base(job, survey(job)) is None
    assert no_choice(sample("leaning-neck.job.json")) == ""


@cache
def surveyed_sample(name: str) -> Surveyed:
    """No bridge changes the survey."""
    return survey(sample(name))


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("seat", ["square", "with slot", "old footprint"])
@pytest.mark.parametrize("cut", [None, SlotFront(left=7.0, right=9.5)])
@pytest.mark.parametrize("slot", ["stays", "goes along"])
def test_a_pose_is_where_the_layout_has_the_bridge_moved_there(
    name: str, seat: str, cut: SlotFront | None, slot: str
) -> None:
    job = sample(name, seat, cut)
    surveyed = surveyed_sample(name)
    base = find_base(job, surveyed)
    assert base is not None
    along, across, turn = -2.3, 1.3, 0.7
    goes = np.array([cut is not None or slot == "goes along"])
    poses = Poses(along=np.array([along]), across=np.array([across]), turn=np.radians([turn]), goes=goes)
    moved = move_all(base, poses)
    there = Moved(along=along, across=across, turn=turn, slot=slot)  # type: ignore[arg-type]  # one of two
    assert job.bridge is not None
    layout = lay_places(replace(job, bridge=replace(job.bridge, moved=there)), surveyed).layout
    assert layout.bridge is not None
    assert layout.saddle is not None
    corners = [complex(*at) for at in layout.bridge.corners[:2]]
    assert abs(moved.front[0] - sum(corners) / 2) < CLOSE
    assert abs(moved.tailward[0] - np.exp(1j * layout.bridge.turn)) < CLOSE / 100
    front = [complex(*at) for at in layout.saddle.front]
    assert abs(moved.slot[0] - sum(front) / 2) < CLOSE
    if moved.pins is not None:
        for hole, pin in zip(layout.bridge.pins, moved.pins[0], strict=True):
            assert abs(complex(*hole.at) - pin) < CLOSE
    assert moved.wanted[0] == pytest.approx([x for x, _ in layout.saddle.at_strings], abs=CLOSE)
    assert moved.given[0] - moved.wanted[0] == pytest.approx(layout.saddle.left_over, abs=CLOSE)
    assert layout.margins is not None
    assert moved.margins[0] == pytest.approx([margin.mm for margin in layout.margins.at], abs=CLOSE)


def test_the_grid_spans_the_range_with_its_middle() -> None:
    job = sample(NAMES[0])
    base = find_base(job, survey(job))
    assert base is not None
    poses = all_over(base, Choosing(along=3, across=2, turn=1), (5, 3, 3))
    assert len(poses) == 2 * 5 * 3 * 3
    assert (poses.along.min(), poses.along.max()) == (-3, 3)
    assert (poses.across.min(), poses.across.max()) == (-2, 2)
    assert poses.turn.max() == pytest.approx(math.radians(1))
    assert ((poses.along == 0) & (poses.across == 0) & (poses.turn == 0)).sum() == 2
    assert len(all_over(base, Choosing(along=3, across=0, turn=0), (5, 3, 3))) == 2 * 5


def test_a_job_without_a_bridge_has_no_poses() -> None:
    job = replace(sample(NAMES[0]), bridge=None)
    assert find_base(job, survey(job)) is None


@pytest.mark.parametrize("unread", [("fret",), ("fret", "distance", "along", "off", "rims", "across", "inline")])
def test_a_job_whose_saddle_has_no_place_yet_has_no_poses(unread: tuple[str, ...]) -> None:
    """Without the frets there is a board and no saddle; without the distances too there is nothing."""
    job = sample(NAMES[0])
    left = tuple(reading for reading in job.readings if reading.kind not in unread)
    job = replace(job, readings=left, frets=replace(job.frets, scale=None))
    assert lay_places(job, survey(job)).layout.saddle is None
    assert find_base(job, survey(job)) is None


def laid_on(name: str, strings: int = 6) -> tuple[Base, Points]:
    """The base of a job with so many strings, and its pin holes where the strings want the bridge."""
    job = sample(name)
    assert job.strings is not None
    job = replace(job, strings=replace(job.strings, list=job.strings.list[:strings]))
    base = find_base(job, survey(job))
    assert base is not None
    pins = move_all(base, at_one(0.0)).pins
    assert pins is not None
    return base, pins[0]


def old_holes(*at: complex) -> list[Hole]:
    return [Hole(name=f"pin.{number}", at=(z.real, z.imag), diameter=5.0) for number, z in enumerate(at, 1)]


@pytest.mark.parametrize(("along", "across", "found"), [(2.0, 1.0, True), (1.99, 1.0, False), (2.0, 0.99, False)])
@pytest.mark.parametrize("turn", [0.0, 1.0])
def test_an_old_hole_is_met_within_the_range_and_at_its_very_end(
    along: float, across: float, found: bool, turn: float
) -> None:
    """derived: the old hole lies 2 mm behind the new one and 1 mm beside it, and one hole tells no turn."""
    base, new = laid_on("leaning-neck.job.json")
    old = old_holes(complex(new[2]) + complex(2.0 - 1e-9, -1.0 + 1e-9))
    poses = on_old_holes(base, Choosing(along=along, across=across, turn=turn), old)
    assert bool(len(poses.along)) == found
    assert not on_old_holes(base, Choosing(), [replace(old[0], assumed=True)]).along.size
    if found:
        assert poses.along == pytest.approx(2.0)
        assert poses.across == pytest.approx(-1.0)
        assert not poses.turn.any()


@pytest.mark.parametrize(("most", "turned"), [(2.01, True), (1.99, False)])
@pytest.mark.parametrize("order", [1, -1])
def test_two_old_holes_tell_the_turn_of_the_old_row(most: float, turned: bool, order: int) -> None:
    """derived: the row's outer holes, one of them turned about the other by 2 degrees; whichever is named first"""
    base, new = laid_on("leaning-neck.job.json")
    first, last = complex(new[0]), complex(new[-1])
    old = old_holes(*(first, first + (last - first) * cmath.rect(1.0, math.radians(2.0)))[::order])
    poses = on_old_holes(base, Choosing(along=20, across=15, turn=most), old)
    there = poses.turn[poses.turn != 0]
    assert there == pytest.approx(math.radians(2.0))
    assert bool(len(there)) == turned


@pytest.mark.parametrize(("strings", "holes"), [(6, 1), (1, 1), (1, 2)])
def test_one_hole_old_or_new_tells_no_turn_and_each_pair_is_tried_once(strings: int, holes: int) -> None:
    """derived: the hole at the outer string laid on each old one, with the slot and without; the next is 11 mm off"""
    base, new = laid_on("leaning-neck.job.json", strings)
    assert not base.slot_is_cut
    poses = on_old_holes(base, Choosing(along=4, across=4.5, turn=5), old_holes(*(new[0] + 3.0, new[0] + 4j)[:holes]))
    assert len(poses) == 2 * holes
    assert not poses.turn.any()
