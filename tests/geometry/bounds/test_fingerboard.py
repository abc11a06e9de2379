"""The bounds of the board, each tried on both sides. All figures: common practice, no source."""

import math

import pytest
from msgspec.structs import replace

from geometry.bounds.fingerboard import board_findings, fret_findings
from geometry.findings import is_unsure
from geometry.job import Heard
from geometry.layout import Neck, Ray
from geometry.neck.find_neck import findings as neck_findings
from geometry.work_out import work_out
from tests.geometry.bounds.right_jobs import changed, grade, sample


def board(nut: float, end: float) -> Neck:
    neck = work_out(sample()).neck
    assert neck is not None
    assert neck.end is not None
    corners = (((0.0, nut / 2), (0.0, -nut / 2)), ((450.0, end / 2), (450.0, -end / 2)))
    return replace(neck, nut=corners[0], end=corners[1])


@pytest.mark.parametrize(("wider", "expected"), [(-0.6, 1), (-0.4, 0), (24.9, 0), (25.1, 1)])
def test_how_a_board_widens(wider: float, expected: int) -> None:
    found = board_findings(sample(), board(43.0, 43.0 + wider))
    assert [finding.code for finding in found] == ["board.widens"] * expected


@pytest.mark.parametrize(
    ("degrees", "slanted", "side"),
    [(4.9, False, None), (5.1, False, "bass"), (-5.1, False, "treble"), (-4.9, False, None), (8.0, True, None)],
)
def test_an_end_far_from_square_is_looked_at(degrees: float, slanted: bool, side: str | None) -> None:
    """A right hand's bass is on the right; slanted frets have slanted ends. derived: 50 mm x tan of the angle."""
    by = 50.0 * math.tan(math.radians(degrees))
    askew = replace(board(43.0, 50.0), end=((450.0 - by / 2, 25.0), (450.0 + by / 2, -25.0)))
    job = replace(sample(), hand="right", frets=replace(sample().frets, slanted=slanted))
    found = board_findings(job, askew)
    assert [finding.code for finding in found] == ["board.askew"] * (side is not None)
    if side is not None:
        assert f"{abs(degrees):.1f}° out of square, {abs(by):.1f} mm farther at the {side} corner" in found[0].text


def test_a_board_without_an_end_says_nothing() -> None:
    assert board_findings(sample(), replace(board(43.0, 20.0), end=None)) == ()


@pytest.mark.parametrize(("count", "expected"), [(3, "look"), (11, "look"), (12, ""), (27, ""), (28, "look")])
def test_fewer_frets_than_were_read(count: int, expected: str) -> None:
    """Fret 12 was read in the sample."""
    assert grade(changed(sample(), frets={"count": count}), "frets.count") == expected


@pytest.mark.parametrize(("fret", "expected"), [(20, ""), (21, "look")])
def test_what_was_heard_beyond_the_last_fret_is_left_out(fret: int, expected: str) -> None:
    heard = (Heard(string="1", cents=2.0, trial="1", fret=fret),)
    assert grade(changed(sample(), frets={"count": 20}, strings={"heard": heard}), "frets.heard") == expected


@pytest.mark.parametrize(("count", "expected"), [(13, ["frets.count"]), (14, [])])
def test_a_count_below_a_fret_that_was_read(count: int, expected: list[str]) -> None:
    """Fret 14, read from a board long enough for it: a count that an instrument may have, and yet too small."""
    read = next(r for r in sample().readings if r.kind == "fret" and r.fret == 12)
    job = replace(sample(), readings=tuple(replace(r, fret=14) if r is read else r for r in sample().readings))
    layout = work_out(sample())
    assert layout.neck is not None
    assert layout.frets is not None
    neck = replace(layout.neck, end=None)
    found = fret_findings(changed(job, frets={"count": count}), neck, layout.frets)
    assert [finding.code for finding in found] == expected
    for finding in found:
        assert finding.text.startswith("Fret 14 was read, “nut to fret 14, ")
        assert "and the job says 13 frets" in finding.text


def test_few_frets_where_none_was_read() -> None:
    job = replace(sample(), readings=tuple(r for r in sample().readings if r.kind != "fret"))
    layout = work_out(sample())
    assert layout.neck is not None
    assert layout.frets is not None
    for count, expected in ((11, ["frets.count"]), (12, [])):
        found = fret_findings(changed(job, frets={"count": count}), layout.neck, layout.frets)
        assert [finding.code for finding in found] == expected


@pytest.mark.parametrize("aslant", [0.0, 3.0, -3.0])
@pytest.mark.parametrize(("past", "expected"), [(4.9, "frets.count_usual"), (5.1, "frets.past_end")])
def test_a_fret_past_the_end(past: float, expected: str, aslant: float) -> None:
    """In the middle, whatever the end is cut aslant; where the read ones lie on the board, those counted are told."""
    layout = work_out(sample())
    assert layout.neck is not None
    assert layout.frets is not None
    twelfth = next(line for line in layout.frets.lines if line.fret == 12)
    x = (twelfth.left[0] + twelfth.right[0]) / 2 - past
    neck = replace(layout.neck, end=((x + aslant, 26.0), (x - aslant, -26.0)))
    assert [finding.code for finding in fret_findings(sample(), neck, layout.frets)] == [expected]


@pytest.mark.parametrize("aslant", [0.0, 3.0, -3.0])
@pytest.mark.parametrize(("past", "told"), [(4.9, False), (5.1, True)])
@pytest.mark.parametrize(
    ("count", "code", "begins"),
    [
        (
            19,
            "frets.counted_past_end",
            "The number of frets is 19, and the last would lie 5.1 mm past the board’s end;",
        ),
        (20, "frets.count_usual", "20 frets are assumed, and the last would lie 5.1 mm past the board’s end;"),
    ],
)
def test_a_count_that_goes_past_the_end(
    count: int, code: str, begins: str, past: float, told: bool, aslant: float
) -> None:
    """Past both corners, however the end is cut: a board may carry its last frets on one side alone. Twenty are as good
    as never typed, so that nothing is called wrong.
    """
    job = changed(sample(), frets={"count": count})
    layout = work_out(job)
    assert layout.neck is not None
    assert layout.frets is not None
    last = layout.frets.lines[-1]
    left, right = last.left[0] - past - max(aslant, 0.0), last.right[0] - past + min(aslant, 0.0)
    neck = replace(layout.neck, end=((left, 26.0), (right, -26.0)))
    found = fret_findings(job, neck, layout.frets)
    assert [finding.code for finding in found] == [code] * told
    for finding in found:
        assert finding.grade == "look"
        assert is_unsure(finding) == (count == 20)
        assert finding.where == "field:frets.count"
        assert finding.text.startswith(begins)
        assert f"; {count - 1} lie on the board:" in finding.text


@pytest.mark.parametrize(("degrees", "expected"), [(2.9, "good"), (-2.9, "good"), (3.1, "look"), (90.0, "look")])
def test_a_seam_that_is_turned_too_far(degrees: float, expected: str) -> None:
    turned = math.radians(degrees)
    seam = Ray(at=(500.0, 0.0), direction=(math.cos(turned), math.sin(turned)))
    (found,) = neck_findings(changed(sample()), replace(board(43.0, 56.0), seam=seam), {})
    assert (found.code, found.grade) == ("seam.cant", expected)
