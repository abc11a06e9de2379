"""How far it may be slid, what that does, and how thick a crown must be: each by another way."""

import math

import numpy as np
import pytest
from msgspec.structs import replace
from scipy.optimize import linprog

from app.file import job_file, samples
from geometry.floating.sliding import told_at
from geometry.job import Action, Saddle, String
from geometry.layout import TWO_SIDED_95
from geometry.work_out import work_out
from tests.geometry.floating.floating_made import SET, TYPED, laid, standing_job, told


def test_a_slide_costs_what_a_limp_string_says_nearly() -> None:
    """derived: open L + d, fretted L less fret 12, + d, and 1200 log2 of the ratio; low on the frets a string is hardly
    stretched by fretting it, and this and its stiff ends come to less than three hundredths of that (tried).
    """
    strings = standing_job().strings
    assert strings is not None
    flat = Action(fret1=(0.0, 0.0), fret12=(0.0, 0.0))
    layout = laid(standing_job(strings=replace(strings, action=flat)))
    assert layout.floating is not None
    for string in layout.strings:
        fretted = string.length - string.nominal / 2
        one, other = (1200 * math.log2((string.length + d) / (fretted + d)) for d in (0.5, -0.5))
        assert layout.floating.cents_per_mm[string.name] == pytest.approx(one - other, rel=0.03)


def test_a_slide_is_what_other_compensation_would_do() -> None:
    """The same equation by another way: every string half a mm longer, and half a mm shorter."""
    layout = laid(standing_job())
    assert layout.floating is not None
    strings = standing_job().strings
    assert strings is not None
    longer, shorter = (
        laid(standing_job(strings=replace(strings, compensation=tuple(past + by for past in TYPED))))
        for by in (0.5, -0.5)
    )
    for one, other in zip(longer.strings, shorter.strings, strict=True):
        assert layout.floating.cents_per_mm[one.name] == pytest.approx(one.cents[12] - other.cents[12], abs=2e-4)


def test_a_string_of_unknown_make_slides_as_a_limp_one() -> None:
    strings = standing_job().strings
    assert strings is not None
    bare = replace(strings, list=(String(name="1"), *SET[1:]))
    layout = laid(standing_job(strings=bare))
    assert layout.floating is not None
    nominal = layout.strings[0].nominal
    assert layout.floating.cents_per_mm["1"] == pytest.approx(-1200 / math.log(2) / nominal, rel=1e-9)


def test_the_turn_at_the_feet_is_that_of_its_angle() -> None:
    """derived: half the length times the angle's tangent"""
    layout = laid(standing_job())
    assert layout.floating is not None
    plan = layout.floating
    assert plan.feet_pm95 == pytest.approx(40.0 * math.tan(math.radians(plan.turn_pm95)), rel=1e-9)


def test_the_window_follows_from_both_scales() -> None:
    """derived: scales known to 0.1 mm each, independently, and typed compensation: an end at y = ±40 on a line through
    the outer strings at ±21 moves by (0.5 ± 40/42) of each; the nut's own 0.1 mm adds to it, so it is no less.
    """
    layout = laid(standing_job())
    assert layout.floating is not None
    shares = 0.5 + 40 / 42, 0.5 - 40 / 42
    assert min(layout.floating.window) > TWO_SIDED_95 * 0.1 * math.hypot(*shares) * 0.999


@pytest.mark.parametrize("straight", [False, True])
def test_the_crown_that_carries_all_is_the_thinnest(straight: bool) -> None:
    """The same by linear programming: the narrowest strip round the wanted places, square to the neck or leaning."""
    layout = laid(standing_job(saddle=Saddle(thickness=0.6, straight=straight)))
    assert layout.floating is not None
    x, y = np.array([string.break_point for string in layout.strings]).T
    ones = np.ones_like(x)
    lean = 0 * y if straight else y
    above = np.column_stack((-ones, -lean, -0.5 * ones))
    below = np.column_stack((ones, lean, -0.5 * ones))
    found = linprog([0, 0, 1], A_ub=np.vstack((above, below)), b_ub=np.concatenate((-x, x)), bounds=[(None, None)] * 3)
    assert found.x is not None
    least = float(found.x[2])
    assert layout.floating.thicker is not None
    # 0.05 mm either way may stay, and it is looked for in tenths
    assert least - 0.1 <= layout.floating.thicker <= least + 0.1001
    found_by = [text for text in told(layout).values() if " carry all" in text or "cannot carry every" in text]
    assert len(found_by) == 1
    assert "would" in found_by[0]


def test_a_crown_that_is_thick_enough_says_nothing() -> None:
    layout = laid(standing_job())
    assert layout.floating is not None
    assert layout.floating.thicker is None
    assert "floating.thin" not in told(layout)


def test_a_string_from_fret_5_is_told_at_its_own_octave_and_a_drone_not_at_all() -> None:
    """derived: fret 17 halves what is left from fret 5; the known make differs by its stiffness alone"""
    path = samples.find("floating-five")
    assert path is not None
    job = job_file.read(path)
    assert job.strings is not None
    *others, fifth = job.strings.list
    assert fifth.first == 5
    limp = work_out(replace(job, strings=replace(job.strings, list=(*others, replace(fifth, diameter=None)))))
    known, drone = (
        work_out(replace(job, strings=replace(job.strings, list=(*others, replace(fifth, fretted=fretted)))))
        for fretted in (True, False)
    )
    assert limp.floating is not None
    assert known.floating is not None
    assert drone.floating is not None
    length = limp.strings[-1].nominal
    assert limp.floating.cents_per_mm[fifth.name] == pytest.approx(-1200 / math.log(2) / length, rel=1e-9)
    assert known.floating.cents_per_mm[fifth.name] == pytest.approx(-1200 / math.log(2) / length, rel=0.05)
    assert fifth.name not in drone.floating.cents_per_mm
    assert told_at(job, known.floating) == "each string’s octave"
    assert told_at(job, drone.floating) == "fret 12"


@pytest.mark.parametrize(("count", "told"), [(11, 0), (12, 5), (13, 5)])
def test_a_slide_is_told_where_the_board_has_a_fret_12(count: int, told: int) -> None:
    job = standing_job()
    layout = laid(replace(job, frets=replace(job.frets, count=count)))
    assert layout.floating is not None
    assert len(layout.floating.cents_per_mm) == (told and len(layout.strings))
