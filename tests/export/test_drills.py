"""Drill sizes."""

import itertools

import pytest

from export.drills import either, for_pin, inch_drills, nearest_inch, nearest_metric, plug, under
from geometry.old_work.holes.plugs import CUTTERS
from tests.in_one import in_one

SIZES = {drill.name: drill.diameter / 25.4 for drill in inch_drills()}


@in_one(
    ("name", "inches"),
    [
        ("#80", 0.0135),
        ("#76", 0.02),
        ("#73", 0.024),
        ("#70", 0.028),
        ("#67", 0.032),
        ("#65", 0.035),
        ("#63", 0.037),
        ("#60", 0.04),
        ("#59", 0.041),
        ("#57", 0.043),
        ("#56", 0.0465),
        ("#55", 0.052),
        ("#54", 0.055),
        ("#53", 0.0595),
        ("1/64 in", 0.015625),
        ("3/64 in", 0.046875),
        ("1/16 in", 0.0625),
    ],
)
def test_small_sizes(name: str, inches: float) -> None:
    """'Metric, inch & fractional inch: drills', public-domain compilation v.2 (2007); those under #60 are not listed
    here, for no bridge needs them.
    """
    if name.startswith("#") and int(name[1:]) > 60:
        assert name not in SIZES
    else:
        assert SIZES[name] == pytest.approx(inches)


@in_one(
    ("name", "inches"),
    [
        ("#52", 0.0635),
        ("#43", 0.089),
        ("#40", 0.098),
        ("#30", 0.1285),
        ("#29", 0.136),
        ("#21", 0.159),
        ("#18", 0.1695),
        ("#10", 0.1935),
        ("#7", 0.201),
        ("#1", 0.228),
        ("A", 0.234),
        ("F", 0.257),
        ("Z", 0.413),
    ],
)
def test_larger_sizes(name: str, inches: float) -> None:
    """ASME B94.11M-1993, from memory (A and Z read in tables after it)."""
    assert SIZES[name] == pytest.approx(inches)


def test_the_letter_e_is_a_quarter_inch() -> None:
    """ASME B94.11M: E is 0.250 in; the fraction's name is preferred."""
    assert nearest_inch(6.35).name == "1/4 in"


def test_sizes_grow_without_a_gap() -> None:
    sizes = [drill.diameter for drill in inch_drills()]
    assert sizes == sorted(sizes)
    assert max(b - a for a, b in itertools.pairwise(sizes)) < 0.42  # a 64th is 0.397 mm


def test_a_pin_hole_of_five() -> None:
    """derived: #9 is 0.196 in = 4.978 mm, nearer to 5 than #8 (5.055 mm)."""
    assert nearest_inch(5.0).name == "#9"
    assert nearest_metric(5.04).name == "5.0 mm"


def test_an_old_hole_is_drilled_out_to_a_usual_plugs_size() -> None:
    """Common practice, no source: plug cutters of 6 mm and 1/4 in (6.35 mm) are the first above 5.2 mm, and clean its
    wall by 0.2; above 6.2 mm it is 8 mm and, for 6.35 is too near, 5/16 in.
    """
    for diameter, names in ((5.2, ("6.0 mm", "1/4 in")), (6.2, ("8.0 mm", "5/16 in"))):
        assert tuple(drill.name for drill in plug(diameter)) == names


def test_a_plugs_size_is_one_that_drills_come_in() -> None:
    """Every usual plug is a drill of the table, or a whole number of mm."""
    sizes = [round(drill.diameter, 4) for drill in inch_drills()]
    assert all(round(size, 4) in sizes for size in CUTTERS["in"] if size <= 12.7)
    assert all(size == int(size) for size in CUTTERS["mm"])


def test_a_hole_too_wide_for_a_plug_is_drilled_out_to_the_next_size() -> None:
    """derived: above 25.2 mm the next half is 25.5 mm, the next 32nd 1 in = 25.4 mm."""
    assert tuple(drill.name for drill in plug(25.2)) == ("25.5 mm", "1 in")


@pytest.mark.parametrize(
    ("small_end", "metric", "inch"),
    [(4.5, "4.4 mm", "#16"), (4.51, "4.5 mm", "#16"), (4.39, "4.3 mm", "11/64 in"), (4.4, "4.3 mm", "#17")],
)
def test_a_pin_hole_is_drilled_below_the_pins_small_end(small_end: float, metric: str, inch: str) -> None:
    """From memory, ASME B94.11M: #17 is 0.1730 in (4.394 mm), #16 0.1770 in (4.496 mm); 11/64 in are 4.366 mm."""
    assert [drill.name for drill in for_pin(5.2, small_end)] == [metric, inch]


def test_an_unknown_small_end_is_taken_from_the_usual_taper() -> None:
    """derived: 5.2 less 15 / 20 is 4.45: under it 4.4 mm and #17 (4.394 mm); 4.496, the next, is over it."""
    assert [drill.name for drill in for_pin(5.2, None)] == ["4.4 mm", "#17"]


def test_no_drill_is_below_the_smallest() -> None:
    assert [drill.name for drill in under(0.2)] == ["0.5 mm", "1/64 in"]


def test_a_sentence_names_the_jobs_own_drill_first() -> None:
    names = ("4.4 mm", "#17")
    assert [either(names, unit) for unit in ("mm", "cm", "in")] == ["4.4 mm or #17"] * 2 + ["#17 or 4.4 mm"]
