"""What the Strings card puts back of the board's face and the nut."""

import pytest
from msgspec.structs import replace

from app.edit.strings import solid_entries
from geometry.job import Arch, Board, Job, NotAJob, Nut

EMPTY = Job()


def test_a_nut_is_begun_and_taken_away() -> None:
    asked = solid_entries.ask(EMPTY, True)
    assert asked.nut == Nut()
    assert solid_entries.asked(asked)
    assert solid_entries.ask(asked, False).nut is None


def test_a_field_of_the_nut_begins_it() -> None:
    get, put = solid_entries.nut("thickness")
    assert get(EMPTY) == 5.0
    assert put(EMPTY, "1/4 in").nut == Nut(thickness="1/4 in")


def test_a_bed_alike_on_both_sides_is_one_length() -> None:
    (_, left), (get_right, right) = solid_entries.bed(0), solid_entries.bed(1)
    one = left(EMPTY, 5.0)
    assert one.nut is not None
    assert one.nut.bed == (5.0, None)
    both = right(one, 5.0)
    assert both.nut is not None
    assert both.nut.bed == 5.0
    assert get_right(both) == 5.0


def test_the_first_margin_goes_for_both_and_one_that_is_taken_away_takes_both() -> None:
    (get_left, left), (_, right) = solid_entries.margin(0), solid_entries.margin(1)
    one = left(EMPTY, 3.0)
    assert one.nut is not None
    assert one.nut.margins == (3.0, 3.0)
    other = right(one, 3.5)
    assert other.nut is not None
    assert other.nut.margins == (3.0, 3.5)
    assert get_left(right(other, None)) is None


def test_the_height_over_fret_1_on_one_side() -> None:
    get, put = solid_entries.over_fret1(1)
    asked = put(EMPTY, 0.4)
    assert asked.nut is not None
    assert asked.nut.over_fret1 == (None, 0.4)
    assert get(asked) == 0.4


def test_the_radius_of_a_compound_board() -> None:
    (_, near), (get_far, far) = solid_entries.radius(0), solid_entries.radius(1)
    one = near(EMPTY, 250.0)
    assert one.board.radius == 250.0
    both = far(one, "16 in")
    assert both.board.radius == (250.0, "16 in")
    assert far(both, None).board.radius == 250.0
    assert near(both, None).board.radius is None
    assert get_far(one) is None
    with pytest.raises(NotAJob, match="at the nut first"):
        far(EMPTY, 400.0)


@pytest.mark.parametrize(
    ("unit", "typed", "arch"),
    [
        ("mm", "0.9 over 40", Arch(chord=40.0, rise=0.9)),
        ("mm", "0,9 over 40 within 0.05", Arch(chord=40.0, rise="0,9 mm", within=0.05)),
        ("in", "1/32 over 2", Arch(chord="2 in", rise="1/32 in")),
    ],
)
def test_an_arch_as_it_is_typed_and_shown(unit: str, typed: str, arch: Arch) -> None:
    get, put = solid_entries.arch(0)
    job = put(replace(EMPTY, unit=unit), typed)
    assert job.board.arch == (arch,)
    assert get(job) == typed
    assert put(job, "").board.arch == ()


def test_a_second_arch_needs_a_first() -> None:
    _, put = solid_entries.arch(1)
    with pytest.raises(NotAJob, match="near the nut first"):
        put(EMPTY, "0.5 over 40")
    first = replace(EMPTY, board=Board(arch=(Arch(chord=40.0, rise=0.9),)))
    assert put(first, "0.5 over 40").board.arch == (Arch(chord=40.0, rise=0.9), Arch(chord=40.0, rise=0.5))


@pytest.mark.parametrize("typed", ["0.9", "over 40", "0.9 over", "nine over 40", "0.9 over 40 over 3"])
def test_what_is_no_arch_is_said_in_a_sentence(typed: str) -> None:
    _, put = solid_entries.arch(0)
    with pytest.raises(NotAJob, match=r"write it like|is not a length"):
        put(EMPTY, typed)
