"""Where a string that begins at a fret lies among the others there, and what it must not cross."""

import pytest
from msgspec.structs import replace

from geometry.findings import Finding
from geometry.layout import Layout
from geometry.units import mm
from geometry.work_out import work_out
from tests.geometry.any_job.mirror_image import mirrored
from tests.geometry.strings.test_strings_from_a_fret import FIVE, fifth, job_with, moved


def test_the_others_are_laid_as_if_it_were_not_there() -> None:
    with_it, without = work_out(job_with(FIVE)), work_out(job_with(FIVE[:4]))
    assert with_it.frets is not None
    assert without.frets is not None
    assert with_it.frets.nominal.right == pytest.approx(without.frets.nominal.right, abs=0.05)
    for one, other in zip(with_it.strings[:4], without.strings, strict=True):
        assert one.nut_xy == pytest.approx(other.nut_xy, abs=1e-9)


def across_at_start(layout: Layout) -> tuple[float, float]:
    """From where string 5 starts to string 4, and to the bass edge of the board, along the fret, mm."""
    assert layout.frets is not None
    x, y = fifth(layout).nut_xy
    (ax, ay), (bx, by) = layout.strings[3].nut_xy, layout.strings[3].break_point
    return abs(y - (ay + (by - ay) * (x - ax) / (bx - ax))), abs(y - layout.frets.lines[5].right[1])


def test_it_lies_as_the_others_do_where_nothing_is_said() -> None:
    # derived: equal centres at nut and saddle are equal centres everywhere
    layout = work_out(job_with(FIVE))
    x = fifth(layout).nut_xy[0]
    ys = [
        a[1] + (b[1] - a[1]) * (x - a[0]) / (b[0] - a[0])
        for a, b in ((s.nut_xy, s.break_point) for s in layout.strings[:4])
    ]
    assert across_at_start(layout)[0] == pytest.approx(abs(ys[0] - ys[1]), abs=0.01)


@pytest.mark.parametrize(("fields", "index"), [({"from_neighbour": 8.0}, 0), ({"from_edge": "1/8 in"}, 1)])
def test_it_starts_where_it_is_said_to(fields: dict[str, object], index: int) -> None:
    layout = work_out(job_with(moved(**fields)))
    (value,) = fields.values()
    assert across_at_start(layout)[index] == pytest.approx(mm(value), abs=0.01)  # type: ignore[arg-type]  # a length


def test_mirrored_it_starts_at_the_mirrored_place() -> None:
    job = job_with(moved(from_edge=2.5))
    one, other = fifth(work_out(job)), fifth(work_out(mirrored(job)))
    assert (other.nut_xy[0], -other.nut_xy[1]) == pytest.approx(one.nut_xy, abs=1e-6)


def test_a_short_first_string_lies_beyond_the_treble() -> None:
    job = job_with((replace(FIVE[4], name="0", from_edge=3.0), *FIVE[:4]))
    layout = work_out(job)
    assert layout.frets is not None
    assert layout.strings[0].nut_xy[1] == pytest.approx(layout.frets.lines[5].left[1] - 3.0, abs=0.01)


@pytest.mark.parametrize(
    ("size", "grade", "said"),
    [
        ("0.010 in", "look", "have only 0.1 mm between them"),
        ("0.018 in", "stop", "lie on each other"),
        (None, "look", "have only 0.2 mm between them"),  # of unknown size it counts as a line
    ],
)
def test_touching_its_neighbour_is_told(size: str | None, grade: str, said: str) -> None:
    # derived: half a mm less half of 0.024 in and half of its own thickness
    layout = work_out(job_with(moved(from_neighbour=0.5, diameter=size)))
    found = {f.code: f for f in layout.findings}["strings.close_at_start"]
    assert (found.grade, found.where) == (grade, "string:5")
    assert found.text == (
        f"Where string 5 starts, at fret 5, strings 4 and 5 {said}. Start it farther from its neighbour."
    )


def starts_told(**fields: object) -> dict[str, Finding]:
    found = work_out(job_with(moved(**fields))).findings
    return {f.code: f for f in found if f.where == "string:5" or f.code == "margin.small"}


def test_a_start_on_the_wrong_side_of_others_stops_for_it_crosses_them() -> None:
    # derived: with 28 mm between four strings at the nut of a board 43 and more wide, 25 from the bass edge lies beyond
    # strings 4 and 3 and not beyond 2
    found = starts_told(from_edge=25.0)
    assert set(found) == {"strings.crosses"}
    assert found["strings.crosses"].grade == "stop"
    assert found["strings.crosses"].text == (
        "String 5 starts at fret 5 on the wrong side of strings 3 and 4, and crosses them on its way to the bridge. "
        "Look at how far from the board’s edge it is said to start."
    )


def test_a_start_off_the_board_stops_and_no_width_is_doubted() -> None:
    layout = work_out(job_with(moved(from_neighbour=30.0)))
    found = starts_told(from_neighbour=30.0)
    assert set(found) == {"strings.starts_off"}
    off = found["strings.starts_off"]
    assert layout.frets is not None
    # derived: the board's own half width at that fret, of which the start lies more than that off the middle
    assert off.values["mm"] == pytest.approx(layout.frets.lines[5].right[1] - fifth(layout).nut_xy[1], abs=0.01)
    assert off.grade == "stop"
    assert off.text.startswith("Where string 5 starts, at fret 5, it would lie ")
    assert off.text.endswith(" mm beyond the board’s edge. Look at how far from its neighbour it is said to start.")


def test_the_mirror_image_and_a_first_string_cross_as_well() -> None:
    crossing = job_with((replace(FIVE[4], name="0", from_edge=25.0), *FIVE[:4]))
    for job in (crossing, mirrored(crossing)):
        (found,) = (f for f in work_out(job).findings if f.code == "strings.crosses")
        assert "on the wrong side of strings 1 and 2, " in found.text


def test_two_strings_that_start_at_one_fret_cross_once() -> None:
    sixth = replace(FIVE[4], name="6", from_edge=18.0)
    job = job_with((*FIVE[:4], replace(FIVE[4], from_edge=6.0), sixth))
    found = [f for f in work_out(job).findings if f.code == "strings.crosses"]
    assert [f.where for f in found] == ["string:6"]
    assert "on the wrong side of strings 4 and 5, " in found[0].text
