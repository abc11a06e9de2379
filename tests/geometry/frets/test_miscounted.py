"""A miscounted fret stops the work; a fret that is merely read badly does not."""

import pytest

from geometry.findings import Finding
from geometry.job import Frets, Job, Point, Reading
from geometry.job.neck.fretting import Spacing
from geometry.spacing import fraction
from geometry.work_out import work_out

CORNERS = {"nut.left": (0, 22), "nut.right": (0, -22), "end.left": (440, 28), "end.right": (440, -28)}  # invented


def job(changes: dict[str, tuple[int, float]], spacing: Spacing = "equal", scale: float = 640.0) -> Job:
    """Frets 1 to 12 read on both sides of an invented neck; `changes` gives a reading another fret, or adds to it."""
    readings = [
        Reading(id=f"d{a}{b}", kind="distance", of=(a, b), value=((x - u) ** 2 + (y - v) ** 2) ** 0.5)
        for a, (x, y) in CORNERS.items()
        for b, (u, v) in CORNERS.items()
        if a < b
    ]
    for side in ("left", "right"):
        for fret in (1, 3, 5, 7, 9, 12):
            said, more = changes.get(f"{side}{fret}", (fret, 0.0))
            value = round(scale * float(fraction(spacing, fret)), 1) + more
            readings.append(Reading(id=f"{side}{fret}", kind="fret", fret=said, on=side, value=value, laid=side))
    return Job(points={name: Point() for name in CORNERS}, readings=tuple(readings), frets=Frets(spacing=spacing))


def stops(of: Job) -> list[Finding]:
    return [finding for finding in work_out(of).findings if finding.code == "fret.miscounted"]


@pytest.mark.parametrize("spacing", ["equal", "eighteen"])
def test_fret_12_said_to_be_13(spacing: Spacing) -> None:
    (found,) = stops(job({"right12": (13, 0.0)}, spacing))
    assert found.grade == "stop"
    assert found.values == {"fret": 13.0, "fits": 12.0}
    assert found.where == "reading:right12"
    assert found.text.startswith("“nut to fret 13, bass string”: by the other readings this value is that of fret 12")


def test_both_sides_miscounted() -> None:
    assert {found.where for found in stops(job({"left12": (13, 0.0), "right12": (13, 0.0)}))} == {
        "reading:left12",
        "reading:right12",
    }


def test_fret_5_said_to_be_4() -> None:
    (found,) = stops(job({"left5": (4, 0.0)}))
    assert found.values == {"fret": 4.0, "fits": 5.0}


def test_a_slip_of_the_rule_is_no_miscount() -> None:
    assert stops(job({"right7": (7, 3.0)})) == []


def test_good_readings_are_left_alone() -> None:
    assert stops(job({})) == []


def test_all_frets_but_the_first_counted_one_too_high() -> None:
    """Fret 2 read for 3, 4 for 5, and so on, on both sides: the saddle would stand 34 mm wrong."""
    wrong = {
        f"{side}{fret}": (fret, round(640.0 * float(fraction("equal", fret - 1) - fraction("equal", fret)), 1))
        for side in ("left", "right")
        for fret in (3, 5, 7, 9, 12)
    }
    (found,) = (one for one in work_out(job(wrong)).findings if one.code == "frets.miscounted")
    assert (found.grade, found.values) == ("stop", {"from": 3.0, "by": 1.0})
    assert "The frets from 3 on (bass and treble) read as if each was counted one too high" in found.text


def test_every_fret_counted_one_too_high_asks_to_count_again() -> None:
    """Fret 1 read for 2, 2 for 3, and so on, on both sides: derived, 640 mm from the nut on would be 678 mm."""
    counted = {f"{side}{fret}": (fret + 1, 0.0) for side in ("left", "right") for fret in (1, 3, 5, 7, 9, 12)}
    told = [
        one for one in work_out(job(counted)).findings if one.grade == "stop" and "count the frets again" in one.text
    ]
    assert {one.code for one in told} == {"frets.miscounted", "nut.miscounted"}


def test_a_nut_that_was_moved_is_not_taken_for_a_miscount() -> None:
    moved = {f"{side}{fret}": (fret, -1.5) for side in ("left", "right") for fret in (1, 3, 5, 7, 9, 12)}
    codes = {one.code for one in work_out(job(moved)).findings}
    assert "nut.moved" in codes
    assert not {"frets.miscounted", "fret.miscounted", "nut.miscounted"} & codes


@pytest.mark.parametrize(("by", "said"), [(2, "two too high"), (1, "one too high"), (-1, "one too low")])
def test_by_how_many_all_frets_from_one_on_are_miscounted_is_said(by: int, said: str) -> None:
    """The fret that each reading names less so many is the one it was read at (derived)."""
    wrong = {
        f"{side}{fret}": (fret, round(640.0 * float(fraction("equal", fret - by) - fraction("equal", fret)), 1))
        for side in ("left", "right")
        for fret in (5, 7, 9, 12)
    }
    (found,) = (one for one in work_out(job(wrong)).findings if one.code == "frets.miscounted")
    assert found.values == {"from": 5.0, "by": float(by)}
    assert f"as if each was counted {said}" in found.text
