"""What every sheet carries, and that nothing on it lies on anything else."""

import itertools

import msgspec
import pytest

from export.correction import NONE, Correction
from export.drawing.flatten import Box
from export.drawing.marks import Circle, Line, Path, Purpose, Text
from export.drawing.pens import PENS
from export.drawing.room.free_ground import FreeGround
from export.drawing.typeface import text_box, width
from export.paper import wrapping
from export.paper.blocks_around import blocks_around
from export.paper.furniture import correction_words, day, legend, legends_of, marks_box, scale_block, scales
from export.paper.wrapping import wrapped
from export.plan.bridge.old_work_drawn import old_hole
from export.records import Sheet, Stamp, Turn
from export.templates import TEMPLATES, figure_of, sheets
from export.templates.glued.placement import CUT_WINDOWS
from export.templates.registration import SEAM
from geometry.findings import Finding
from geometry.job import Job
from geometry.layout import Hole, Layout
from geometry.units import Unit
from geometry.work_out import work_out
from tests.app.desk.conftest import sample
from tests.export.conftest import OF_OTHER_BRIDGES, suited


def words(sheet: Sheet) -> list[str]:
    return [mark.shape.text for mark in sheet.drawing.marks if isinstance(mark.shape, Text)]


@pytest.mark.parametrize("name", [name for name in TEMPLATES if name not in OF_OTHER_BRIDGES])
@pytest.mark.parametrize("paper", ["A4", "Letter", "A3", "Tabloid", "A5"])
def test_no_words_lie_on_other_words(job: Job, layout: Layout, stamp: Stamp, name: str, paper: str) -> None:
    if (name, paper) == ("check-sheet", "A5"):
        pytest.skip("A5 is too small for the square, and says so")
    for sheet in sheets(*suited(name, job, layout), msgspec.structs.replace(stamp, templates=(name,), paper=paper)):
        boxes = [text_box(m.shape) for m in sheet.drawing.marks if isinstance(m.shape, Text)]
        for one, other in itertools.combinations(boxes, 2):
            assert not one.grown(-0.45).meets(other.grown(-0.45))


@pytest.mark.parametrize("name", ["placement", "full-length", "bridge", "clearing", "plate", "nut-slots"])
@pytest.mark.parametrize("paper", ["A4", "Letter", "A3", "Tabloid"])
def test_every_drawn_sheet_has_scales_both_ways(job: Job, layout: Layout, stamp: Stamp, name: str, paper: str) -> None:
    for sheet in sheets(job, layout, msgspec.structs.replace(stamp, templates=(name,), paper=paper)):
        said = words(sheet)
        for unit in ("mm", "in"):
            assert sum(text.endswith(f" {unit}") and text[:-3].isdigit() for text in said) == 1
            assert said.count(unit) == 1
        assert any("Print at 100 %, no fit to page" in text for text in said)


def test_the_placement_sheet_says_what_it_must(job: Job, layout: Layout, stamp: Stamp) -> None:
    (sheet,) = sheets(job, layout, stamp)
    said = words(sheet)
    for wanted in (
        "TREBLE",
        "BASS",
        "right-handed",
        "to the nut",
        "METAL",
        "saddle 2.8 mm farther",
        "25 Nov 2026 · file 4F2A-91 · sheet 1 of 1 · A4",
        "Print at 100 %, no fit to page · no printer correction",
        "Probe for metal with a magnet before you drill or rout.",
        "Check edge distances before the glue: over 0.8 mm off, lay it again.",
    ):
        assert wanted in said
    assert said.count("seam") == 2


def test_a_left_handed_sheet_turns_the_words_and_moves_no_line(job: Job, layout: Layout, stamp: Stamp) -> None:
    left = msgspec.structs.replace(job, hand="left")
    layout = msgspec.structs.replace(layout, survey=msgspec.structs.replace(layout.survey, suspects=()))
    (one,), (other,) = sheets(job, layout, stamp), sheets(left, layout, stamp)
    assert "left-handed" in words(other)
    bridges = [[m.shape for m in sheet.drawing.marks if m.of == "bridge"] for sheet in (one, other)]
    assert bridges[0] == bridges[1]
    places = [{m.shape.text: m.shape.at[1] for m in s.drawing.marks if isinstance(m.shape, Text)} for s in (one, other)]
    assert places[0]["BASS"] < places[0]["TREBLE"]
    assert places[1]["BASS"] > places[1]["TREBLE"]


def test_a_stop_finding_says_stop_and_why(job: Job, layout: Layout, stamp: Stamp) -> None:
    why = "A pin hole runs 0.5 mm into the slot. Set the pins farther back."
    stop = Finding(grade="stop", code="bridge.between", text=why)
    stopped = msgspec.structs.replace(layout, findings=(stop,))
    for paper in ("A4", "A5"):
        for sheet in sheets(job, stopped, msgspec.structs.replace(stamp, paper=paper)):
            texts = [mark.shape for mark in sheet.drawing.marks if isinstance(mark.shape, Text)]
            assert max((text.height for text in texts if text.text == "STOP"), default=0.0) >= 6.0, sheet.name
            assert why in " ".join(words(sheet))


LARGE = Finding(grade="look", code="x.far", text="The new place lies 14 mm from the old one.", large=True)


@pytest.mark.parametrize("name", ["placement", "full-length", "bridge", "clearing", "plate", "nut-slots", "job-sheet"])
@pytest.mark.parametrize("paper", ["A4", "A3", "A5"])
def test_what_is_large_stands_on_every_sheet(job: Job, layout: Layout, stamp: Stamp, name: str, paper: str) -> None:
    asked = msgspec.structs.replace(stamp, templates=(name,), paper=paper)
    small = msgspec.structs.replace(LARGE, large=False)
    for finding in (LARGE, small):
        pages = sheets(job, msgspec.structs.replace(layout, findings=(finding,)), asked)
        said = [LARGE.text in " ".join(words(page)) for page in (pages[:1] if name == "job-sheet" else pages)]
        assert all(said) if finding.large or name == "job-sheet" else not any(said)


@pytest.mark.parametrize("upright", [False, True])
def test_the_scales_are_true(upright: bool) -> None:
    block = scale_block(100, 4, upright)
    longest = block.height if upright else block.width
    assert longest > 101.6
    ends = [m.shape.at for m in block.marks if isinstance(m.shape, Text) and m.shape.text in ("0", "100", "100 mm")]
    axis = 1 if upright else 0
    assert max(at[axis] for at in ends) - min(at[axis] for at in ends) == pytest.approx(100.0)


@pytest.mark.parametrize(
    ("unit", "says"), [("mm", "100 ± 0.2 mm"), ("cm", "100 ± 0.2 mm"), ("in", "4 in within half a 64th")]
)
def test_the_scale_along_the_strings_must_read_so_in_the_jobs_unit(unit: Unit, says: str) -> None:
    """derived: 0.2 mm are 0.2 / 25.4 = 0.0079 in, and half a 64th is 1 / 128 = 0.0078 in"""
    block = scale_block(100, 4, upright=True, trusted=True, unit=unit)
    (told,) = [m.shape.text for m in block.marks if isinstance(m.shape, Text) and "rule" in m.shape.text]
    assert told == f"lay a rule on it: {says}, or do not use this sheet"


@pytest.mark.parametrize("turn", ["portrait", "landscape"])
def test_windows_to_cut_out_are_named_where_they_are(job: Job, layout: Layout, stamp: Stamp, turn: Turn) -> None:
    """From the nut the first sheets show the board alone, which hides the seam."""
    small = msgspec.structs.replace(stamp, paper="A5", turn=turn, templates=("full-length",))
    told = []
    for page in sheets(job, layout, small):
        windows = any(m.of == SEAM and m.purpose == "cut" for m in page.drawing.marks)
        told.append(windows)
        assert (CUT_WINDOWS in " ".join(words(page))) == windows
    assert set(told) == {True, False}


@pytest.mark.parametrize("sheet", ["placement", "bridge-place"])
def test_a_seam_that_has_no_window_is_not_cut_out(stamp: Stamp, sheet: str) -> None:
    found = sample("floating-five" if sheet == "bridge-place" else "redrilled-left")
    assert CUT_WINDOWS in figure_of(TEMPLATES[sheet], found, work_out(found), stamp).notes
    (page, *_) = sheets(found, work_out(found), msgspec.structs.replace(stamp, templates=(sheet,)))
    assert not [mark for mark in page.drawing.marks if mark.of == SEAM]
    assert CUT_WINDOWS not in " ".join(words(page))


def test_tables_are_set_small_rather_than_left_out_and_cost_no_scale(stamp: Stamp) -> None:
    """On this paper the three tables of the sample find room beside scales of 50 mm and more only when set small."""
    found = sample("slanted-separate")
    asked = msgspec.structs.replace(stamp, paper="Letter", turn="landscape", templates=("saddle-bases",))
    (page,) = sheets(found, work_out(found), asked)
    assert len([mark for mark in page.drawing.marks if mark.of == "table"]) == 3
    assert "30" not in words(page)
    assert "150 mm" in words(page)


def test_the_legend_names_holes_that_nobody_read_where_there_are_any() -> None:
    for assumed in (True, False):
        hole = Hole(name="pin.2", at=(0.0, 0.0), diameter=5.0, assumed=assumed)
        marks = tuple(old_hole(hole, "old pin:pin.2"))
        texts = [m.shape.text for m in legends_of(marks)[0].marks if isinstance(m.shape, Text)]
        assert texts == ["as it was before", *(["old hole, assumed: not read"] if assumed else [])]


def test_a_key_stands_apart_from_the_holes_of_the_work(stamp: Stamp) -> None:
    """In this job an old hole lies behind the bridge, where the second sheet has room for its key."""
    job = sample("bolted-left")
    stamp = msgspec.structs.replace(stamp, paper="Letter", turn="landscape")
    for sheet in sheets(job, work_out(job), stamp):
        marks = sheet.drawing.marks
        says = {pen.says for pen in PENS.values()}
        key = marks_box([m for m in marks if m.of == "legend" or (isinstance(m.shape, Text) and m.shape.text in says)])
        holes = [marks_box([m]) for m in marks if isinstance(m.shape, Circle) and m.of not in ("legend", "measure")]
        assert not any(key.grown(5.0).meets(hole) for hole in holes)


def test_the_legend_names_what_is_used() -> None:
    texts = [m.shape.text for m in legend(("cut", "before")).marks if isinstance(m.shape, Text)]
    assert texts == ["cut along its middle", "as it was before"]


def test_metal_in_the_key_is_not_taken_for_what_is_hidden() -> None:
    """Both are dashed: metal has its solid square and its circle there, as on the work."""
    names: tuple[Purpose, ...] = ("metal", "hidden")
    metal, hidden = ([m for m in legend((name,)).marks if m.of == "legend"] for name in names)
    assert [(type(m.shape), m.filled) for m in metal] == [(Circle, False), (Path, True)]
    assert [(type(m.shape), m.filled) for m in hidden] == [(Line, False)]


def test_lines_are_broken_to_fit() -> None:
    lines = wrapped("Probe for metal with a magnet before you drill or rout.", 2.1, 40.0)
    assert len(lines) > 1
    assert all(width(line, 2.1) <= 40.0 for line in lines)
    assert " ".join(lines) == "Probe for metal with a magnet before you drill or rout."


def test_a_length_stays_with_its_fraction_its_sign_and_its_unit() -> None:
    said = "Tape only sheets of file 4F2A-91; the framed crosses are then 32 5/16 ± 1/32 in apart; a bow of 2 mm moves "
    said += "it by 0.02 mm, 3.9 cents, and pulls with 17.3 ±1.8 N."
    for room in range(30, 90):
        lines = wrapped(said, 2.1, float(room))
        assert " ".join(lines) == said
        for whole in ("32 5/16 ± 1/32 in", "2 mm", "0.02 mm,", "3.9 cents,", "17.3 ±1.8 N."):
            assert any(whole in line for line in lines), (room, lines)


@pytest.mark.parametrize("room", [48.0, 66.0, 92.0, 185.0])
def test_no_word_is_left_over_on_a_line_of_its_own(room: float) -> None:
    """Up to 40 like words: in no more lines than at their longest, the last a quarter full or 24 mm long at least."""
    for count in range(1, 40):
        said = " ".join(["saddle"] * count)
        lines = wrapped(said, 2.1, room)
        in_a_line = max(k for k in range(1, count + 1) if width(" ".join(["saddle"] * k), 2.1) <= room)
        assert len(lines) == -(-count // in_a_line)
        assert " ".join(lines) == said
        assert len(lines) == 1 or width(lines[-1], 2.1) >= min(0.25 * room, 24.0)


def test_the_foot_of_a_sheet_keeps_its_name_its_count_and_its_paper_together() -> None:
    said = "Tie bridge come loose · 29 Nov 2026 · file 4410-DF · sheet A1, 1 of 2 · Letter"
    for room in range(40, 100):
        lines = wrapped(said, 2.1, float(room))
        assert not any(line.startswith("·") for line in lines)
        assert any("sheet A1, 1 of 2" in line for line in lines)


def test_a_word_wider_than_its_room_is_broken() -> None:
    lines = wrapped("Donaudampfschifffahrtsgesellschaft", 3.0, 20.0)
    assert "".join(lines) == "Donaudampfschifffahrtsgesellschaft"
    assert all(width(line, 3.0) <= 20.0 for line in lines)


def test_dates_and_corrections_in_words(stamp: Stamp) -> None:
    assert day(stamp.date) == "25 Nov 2026"
    assert correction_words("", NONE) == "no printer correction"
    said = correction_words("Laser", Correction(1.0044, 0.9972))
    assert said == "printer “Laser”: short side × 1.0044, long side × 0.9972"


def test_a_roll_is_not_cut_too_short_for_what_stands_beside_a_narrow_figure(
    job: Job, layout: Layout, stamp: Stamp
) -> None:
    (sheet,) = sheets(job, layout, msgspec.structs.replace(stamp, templates=("nut-slots",), paper="roll 610"))
    assert 150.0 <= min(sheet.paper.width, sheet.paper.height) < 610.0


def test_a_word_without_end_is_broken_where_the_room_ends() -> None:
    lines = wrapped("x" * 3000, 3.1, 95.0)
    full = max(count for count in range(200) if width("x" * count, 3.1) <= 95.0)
    assert {len(line) for line in lines[:-1]} == {full}
    assert "".join(lines) == "x" * 3000


def test_a_word_without_end_is_not_weighed_whole_for_each_line(monkeypatch: pytest.MonkeyPatch) -> None:
    weighed: list[int] = []

    def counting(text: str, height: float, bold: bool = False) -> float:
        weighed.append(len(text))
        return width(text, height, bold)

    monkeypatch.setattr(wrapping, "width", counting)
    lines = wrapped("x" * 50_000, 3.1, 95.0)
    assert "".join(lines) == "x" * 50_000
    assert sum(weighed) < 5_000 * len(lines)


@pytest.mark.parametrize(("high", "read"), [(62.0, 50), (45.0, 30)])
def test_a_short_scale_stands_only_where_no_longer_one_finds_room(high: float, read: int) -> None:
    """At the right, where it is wished, only a short one fits; at the left there is room `high`, mm."""
    free = FreeGround(Box(0.0, 0.0, 200.0, 100.0), 1.0)
    free.occupy(Box(0.0, high, 60.0, 100.0))
    free.occupy(Box(60.0, 0.0, 160.0, 100.0))
    free.occupy(Box(160.0, 45.0, 200.0, 100.0))
    placed = blocks_around(free, [(scales(upright=True, trusted=False), (1.0, 0.5))])
    assert placed is not None
    said = [mark.shape.text for mark in placed.marks() if isinstance(mark.shape, Text)]
    assert str(read) in said  # its end has its number
    assert ("30" in said) == (read == 30)


def test_a_long_scale_a_little_farther_off_is_taken_for_a_short_one() -> None:
    """At the right, where it is wished, one of 50 mm fits; one of 150 mm a third of the sheet to the left."""
    free = FreeGround(Box(0.0, 0.0, 260.0, 200.0), 1.0)
    free.occupy(Box(170.0, 0.0, 260.0, 70.0))
    free.occupy(Box(170.0, 140.0, 260.0, 200.0))
    placed = blocks_around(free, [(scales(upright=True, trusted=False), (1.0, 0.5))])
    assert placed is not None
    assert "150" in [mark.shape.text for mark in placed.marks() if isinstance(mark.shape, Text)]
