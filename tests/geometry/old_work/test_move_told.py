"""What the move does, line by line: each number is the layout's own, and each line has its place."""

import re
from pathlib import Path

import pytest
from msgspec.structs import replace

from app.file import job_file
from geometry.job import Old
from geometry.layout import Amount, FrontMoves
from geometry.old_work.holes.plugs_told import plug_size, plugged
from geometry.old_work.move_told import TITLES, Line, area, tells, told
from geometry.work_out import work_out
from tests.geometry.made import XY
from tests.geometry.old_work.everything import OLD, PLACES, laid, made

SAMPLES = Path(__file__).parents[3] / "sample_jobs"


def lines(part: str, **how: object) -> list[Line]:
    return [line for line in told(made(**how), laid(**how)) if line.part == part]  # type: ignore[arg-type]  # as given on


def test_the_parts_come_in_the_order_of_the_work() -> None:
    parts = [line.part for line in told(made(), laid())]
    assert list(dict.fromkeys(parts)) == list(TITLES)


def moves(**how: object) -> FrontMoves:
    found = laid(**how).consequences  # type: ignore[arg-type]  # as given on
    assert found is not None
    assert found.moves is not None
    return found.moves


def test_the_move_is_of_the_front_edge_at_both_old_corners() -> None:
    layout = laid()
    assert layout.bridge is not None
    # derived: how far each of the old front's corners in PLACES lies before the line through the new front's, square to
    # that; the middle moves by the mean of how far they lie to the left of its middle, the other way. Each corner is
    # known to 0.1 mm, so one coordinate to ±0.196 and the mean of two to ±0.139
    fl, fr, *_ = (complex(*at) for at in layout.bridge.corners)
    left = (fl - fr) / abs(fl - fr)
    own = {name: (complex(*PLACES[name]) - (fl + fr) / 2) / left for name in ("old.1", "old.2")}
    found, (at_left, at_right) = moves(), sorted(own.values(), key=lambda at: -at.real)
    assert found.left.value == pytest.approx(at_left.imag, abs=1e-6)
    assert found.right.value == pytest.approx(at_right.imag, abs=1e-6)
    assert found.across.value == pytest.approx(-(at_left.real + at_right.real) / 2, abs=1e-6)
    assert min(found.left.pm95, found.right.pm95) >= 0.19
    assert found.across.pm95 >= 0.13


def test_each_end_of_the_front_edge_tells_how_far_it_moves_and_which_way() -> None:
    (line,) = lines("move")
    found = moves()
    bass, treble, middle = (f"{abs(one.value):.1f} ±[0-9.]+ mm" for one in (found.right, found.left, found.across))
    says = f"The front edge moves {bass} at bass and {treble} at treble toward the tail, and {middle} toward the treble"
    assert re.fullmatch(rf"{says}\.", line.text)


def test_more_points_on_the_back_edge_or_a_belly_move_nothing() -> None:
    """derived: the front edge stays where it is"""
    more: dict[str, XY] = {f"more.{k}": (652.0 - k / 7, -75.0 + 149.0 * k / 7) for k in range(1, 7)}
    outline = ("old.1", "old.2", "old.3", *more, "old.4")
    belly: dict[str, XY] = {"belly": (668.0, 0.0)}
    bellied = replace(OLD, outline=("old.1", "old.2", "old.3", "belly", "old.4"))
    plain = moves()
    for places, old in ((PLACES | more, replace(OLD, outline=outline)), (PLACES | belly, bellied)):
        other = moves(places=places, old=old)
        for part in ("left", "right", "across"):
            assert getattr(other, part).value == getattr(plain, part).value
            assert getattr(other, part).pm95 == pytest.approx(getattr(plain, part).pm95)


def test_a_left_handed_job_tells_the_same_with_its_own_sides() -> None:
    swap = {"bass": "treble", "treble": "bass"}
    left = [line.text.lower() for line in lines("looks", hand="left")]
    assert [re.sub("bass|treble", lambda m: swap[m.group()], text) for text in left] == [
        line.text.lower() for line in lines("looks")
    ]


def test_each_side_of_the_scar_and_its_area_are_told() -> None:
    layout = laid()
    assert layout.consequences is not None
    scar = lines("scar")
    (side,) = layout.consequences.scar_sides
    assert f"in front of the new bridge, by {side.widest.value:.1f} ±" in scar[0].text
    assert scar[0].at == side.at
    assert layout.consequences.scar_area is not None
    assert f"{layout.consequences.scar_area.value:.0f} ±" in scar[1].text


def test_a_cut_hole_tells_by_how_much_with_its_pm() -> None:
    layout = laid()
    assert layout.consequences is not None
    first, line = layout.consequences.holes[0], lines("holes")[0]
    assert f"cuts it by {-first.walls[0].mm:.1f} ±" in line.text
    assert (line.grade, line.at, line.where) == ("look", PLACES["pin.1"], "point:pin.1")


def test_an_assumed_hole_says_so() -> None:
    assert [line.text.partition(":")[0] for line in lines("holes")[1:5]] == [
        f"Old pin hole {number} (assumed)" for number in (2, 3, 4, 5)
    ]


def test_plugs_of_one_size_stand_in_one_line() -> None:
    (line,) = lines("plugs")
    assert line.text.startswith("7 plugs of 6 mm, the grain along the top’s")
    assert "old pin holes 1 and 6 with 4 assumed between them and the old hole “screw”" in line.text


def test_pin_holes_are_told_together_by_their_numbers() -> None:
    assert plugged(made(), ("pin.1", "pin.2", "pin.6")) == ["old pin holes 1, 2 and 6"]
    assert plugged(made(), ("pin.3", "pin.x")) == ["old pin hole 3", "old pin hole “x”"]


def test_assumed_holes_stand_between_those_that_are_told_with_them_or_go_by_their_own_numbers() -> None:
    """Of a row read at 1 and 6 (derived: nothing stands between one hole and itself)."""
    every = ("pin.1", "pin.1+1", "pin.1+2", "pin.1+3", "pin.1+4", "pin.6")
    assert plugged(made(), every) == ["old pin holes 1 and 6 with 4 assumed between them"]
    assert plugged(made(), every[1:]) == ["old pin hole 6", "old pin holes 2, 3, 4 and 5 (assumed)"]
    assert plugged(made(), every[:2]) == ["old pin hole 1", "old pin hole 2 (assumed)"]
    assert plugged(made(), every[1:3]) == ["old pin holes 2 and 3 (assumed)"]
    some = ("pin.1", "pin.1+3", "pin.6")
    assert plugged(made(), some) == ["old pin holes 1 and 6", "old pin hole 4 (assumed)"]


def test_the_least_gap_to_each_thing_under_the_top() -> None:
    layout = laid()
    assert layout.consequences is not None
    found = [line.text for line in lines("under")]
    to_brace = [gap for gap in layout.consequences.gaps if gap.old == "brace:x" and gap.new != "slot"]
    least = min(to_brace, key=lambda gap: gap.mm - gap.pm95)
    assert any("clears brace x by" in text and f"{least.mm:.1f} ±" in text for text in found)
    assert not any("slot lies" in text and "plate" in text for text in found)


def test_what_stops_is_never_only_told_here() -> None:
    assert all(not tells(finding) for finding in laid().findings if finding.grade == "stop")


def test_without_a_bridge_or_old_work_there_is_nothing_to_tell() -> None:
    bare = {name: at for name, at in PLACES.items() if name.startswith(("nut", "end", "fret"))}
    assert told(made(bare, Old()), laid(bare, Old())) == ()


@pytest.mark.parametrize(
    ("unit", "said"),
    [("mm", "1290 ±65 mm²"), ("cm", "12.90 ±0.65 cm²"), ("in", "2.00 ±0.11 in²")],
)
def test_areas_in_the_jobs_unit_with_the_pm_rounded_up(unit: str, said: str) -> None:
    # derived: one square inch is 25.4² = 645.16 mm²; 1290.32 mm² are 2 of them, 64.6 are 0.1001
    assert area(Amount(value=1290.32, pm95=64.6), unit) == said  # type: ignore[arg-type]  # one of the units


def test_plugs_are_called_as_their_cutters_are() -> None:
    assert (plug_size(8.0, "mm"), plug_size(9.525, "in")) == ("8 mm", "3/8 in")


def test_a_damaged_area_is_told_as_such() -> None:
    assert any("The area" not in line.text or "discoloured" in line.text for line in lines("scar"))
    assert OLD.areas["stain"].what == "discoloured"


def test_what_was_read_once_says_that_nothing_checks_it() -> None:
    """Of this sample the holes, the metal and what lies inside were read once; of the other its metal twice."""
    jobs = (job_file.read(SAMPLES / f"{name}.job.json") for name in ("bolted-left", "one-slip"))
    once, twice = ((job, work_out(job)) for job in jobs)
    lines = [line for line in told(*once) if line.part == "holes"]
    read = [line for line in lines if "assumed" not in line.text]
    assert len(read) == 3
    unseen = re.compile(r"; (a slip in “.+” would not show: read (it|them) once more|nothing checks where it lies)\.$")
    assert all(unseen.search(line.text) for line in read)
    (first, *_) = [line for line in read if line.where == "point:pin.1"]
    said = "; a slip in “old pin hole 1, along bass edge” would not show: read it once more."
    assert first.text.endswith(said)  # its row holds it across
    assert not any(unseen.search(line.text) for line in lines if line not in read)
    under = [line.text for line in told(*once) if line.part == "under"]
    lies = "Nothing checks where brace 1, brace 2, the plate’s edge, metal 1 and metal 2 lie."
    assert [text for text in under if "othing checks" in text] == under[-1:] == [lies]
    (metal, *_) = [line for line in told(*twice) if line.where == "metal:metal.1"]
    assert metal.text.endswith("mm.")


def test_a_hole_that_hangs_on_another_points_reading_says_so() -> None:
    """A hole that was read from metal, by both rims, lies no more surely than the metal does."""
    job = job_file.read(SAMPLES / "bolted-left.job.json")
    layout = work_out(job)
    assert layout.consequences is not None
    metal = next(one.id for one in job.readings if one.of == ("metal.1",) and one.kind == "along")
    found = replace(layout.consequences, unseen={"point:pin.1": (metal,)})
    said = [one.text for one in told(job, replace(layout, consequences=found)) if "pin hole 1:" in one.text]
    reading = "“metal 1, its middle, along bass edge”"
    ends = f"; its place was read from metal 1: a slip in {reading} would not show: read it once more."
    assert [text.endswith(ends) for text in said] == [True]
