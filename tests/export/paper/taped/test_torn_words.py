"""No word of a figure is lost where a seam runs through it, and what is moved stands within the seams."""

from collections import Counter
from pathlib import Path

import msgspec
import pytest

from app.file import job_file
from export.drawing.flatten import Box
from export.drawing.marks import Line, Mark, Text
from export.paper.furniture import marks_box, words
from export.paper.taped.tile_grid import OVERLAP, Grid
from export.paper.taped.torn_words import made_whole, torn
from export.records import Sheet, Stamp, Turn
from export.templates import TEMPLATES, all_sheets, figure_of
from geometry.work_out import work_out

TORN = (
    ("turned-left-old-slot", "full-length", "A4", "landscape"),
    ("one-slip", "plate", "A5", "portrait"),
    ("slotted-neck-screw", "plate", "A5", "portrait"),
    ("leaning-neck", "full-length", "A5", "landscape"),
    ("turned-left", "placement", "A5", "landscape"),
    ("tie-bridge", "full-length", "A5", "portrait"),
)
"""Where a seam runs through words, such as the distances to check and SEEN FROM INSIDE (tried on all samples)."""


def said(marks: tuple[Mark, ...]) -> Counter[str]:
    return Counter(mark.shape.text for mark in marks if isinstance(mark.shape, Text))


def laid(sample: str, template: str, paper: str, turn: Turn, stamp: Stamp) -> tuple[Counter[str], tuple[Sheet, ...]]:
    """What a figure says, and its sheets."""
    job = job_file.read(Path("sample_jobs") / f"{sample}.job.json")
    layout = work_out(job)
    stamp = msgspec.structs.replace(stamp, templates=(template,), paper=paper, turn=turn)
    return said(figure_of(TEMPLATES[template], job, layout, stamp).marks), all_sheets(job, layout, stamp)


@pytest.mark.parametrize(("sample", "template", "paper", "turn"), TORN)
def test_every_word_of_a_figure_stands_on_a_sheet(
    sample: str, template: str, paper: str, turn: Turn, stamp: Stamp
) -> None:
    wanted, sheets = laid(sample, template, paper, turn, stamp)
    assert len(sheets) > 1
    assert not wanted - sum((said(sheet.drawing.marks) for sheet in sheets), Counter())


def test_a_frame_to_tape_over_has_its_word(stamp: Stamp) -> None:
    """On A5 the middle of this job's lower frame lies on a seam."""
    _, sheets = laid("bolted-left", "full-length", "A5", "portrait", stamp)
    for sheet in sheets:
        tape = [mark.shape for mark in sheet.drawing.marks if mark.of == "tape"]
        assert sum(isinstance(shape, Text) for shape in tape) == sum(not isinstance(shape, Text) for shape in tape)


GRID = Grid(x=0.0, y=0.0, width=100.0, height=80.0, columns=2, rows=1, cells=((0, 0), (1, 0)), crossed=0, torn=1)
"""Two windows beside each other: 0 to 100 and 86 to 186 mm."""


def test_words_across_a_seam_go_to_the_sheet_that_holds_most_of_them() -> None:
    """derived: 38 mm of it in the first window, 17 mm in the second."""
    word = words((62.0, 40.0), "n" * 20, 2.5)
    assert marks_box([word]).x1 == pytest.approx(103.4, abs=0.1)
    assert torn([word], GRID, (), ()) == {(0, 0): [0]}
    assert torn([word], GRID, (), ("n" * 20,)) == {}


def test_words_go_where_what_they_belong_to_stands() -> None:
    """derived: the second window holds the most of the words, the first all of their arrow."""
    word = msgspec.structs.replace(words((85.6, 40.0), "to the nut", 3.0), of="arrow")
    line = Mark(shape=Line((60.0, 40.0), (84.0, 40.0)), purpose="note", of="arrow")
    assert torn([word], GRID, (), ()) == {(1, 0): [0]}
    assert torn([line, word], GRID, (), ()) == {(0, 0): [1]}


def test_moved_words_stand_within_the_seams_off_the_work_and_off_all_that_is_drawn() -> None:
    window, keep = Box(0.0, 0.0, 100.0, 80.0), Box(0.0, 0.0, 100.0, 30.0)
    lines = [Mark(shape=Line((0.0, y), (100.0, y)), purpose="lay") for y in (35.0, 41.0, 45.0)]
    (moved,) = made_whole([words((80.0, 40.0), "to the nut", 3.0)], window, lines, [keep])
    ground = marks_box([moved])
    assert window.grown(-OVERLAP / 2).holds(ground)
    assert not ground.meets(keep)
    assert all(not ground.y0 < y < ground.y1 for y in (35.0, 41.0, 45.0))


def test_upright_words_without_room_are_set_level() -> None:
    """derived: within the seams 21 mm are left upward."""
    tall = words((50.0, 5.0), "SEEN FROM INSIDE", 3.0, angle=1.5707963267948966)
    (moved,) = made_whole([tall], Box(0.0, 0.0, 100.0, 35.0), [], [])
    assert isinstance(moved.shape, Text)
    assert moved.shape.angle == 0.0


def test_no_words_on_a_window_too_small_for_any() -> None:
    assert made_whole([words((5.0, 5.0), "to the nut", 3.0)], Box(0.0, 0.0, 12.0, 12.0), [], []) == []
