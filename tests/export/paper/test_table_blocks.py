"""Tables as blocks beside a drawing."""

from itertools import pairwise

import pytest

from export.drawing.marks import Line, Text
from export.drawing.typeface import text_box
from export.hole_table import Table
from export.paper.table_blocks import SHARES, SMALL_WORDS, Letters, table_blocks, table_in_short


@pytest.mark.parametrize("letters", SHARES)
def test_the_line_under_a_title_is_as_long_as_the_title_and_as_the_rows(letters: Letters) -> None:
    narrow = Table(title="Pin holes, to ream, mm", rows=(("1", "206.84"),), sides="se")
    wide = Table(title="Sizes", rows=(("slot to the neck’s centre line", "87.5°, bass end to the tail"),), sides="ss")
    for table in (narrow, wide):
        for block in table_blocks(table, letters):
            title, *cells = (text_box(mark.shape) for mark in block.marks if isinstance(mark.shape, Text))
            (line,) = (mark.shape for mark in block.marks if isinstance(mark.shape, Line))
            assert line.b[0] == pytest.approx(max(one.x1 for one in (title, *cells)))


@pytest.mark.parametrize(("letters", "share"), [("roomy", 1.16), ("usual", 1.0), ("small", 0.84)])
def test_all_choices_of_a_table_are_in_the_same_letters(letters: Letters, share: float) -> None:
    table = Table(
        title="Pin holes, mm", head=("", "X", "Y"), rows=(("1", "2.5", "3.5"), ("2", "2.6", "4.5")), sides="see"
    )
    choices = [*table_blocks(table, letters)]
    heights = {mark.shape.height for block in choices for mark in block.marks if isinstance(mark.shape, Text)}
    assert sorted(heights) == pytest.approx([share * SMALL_WORDS, share * 2.6])  # rows, title
    assert len({block.width for block in choices}) > 1, "and there is something to choose"


def test_beside_small_tables_what_is_told_of_another_is_never_larger() -> None:
    table = Table(title="Cuts, mm", below=(("Slot: wait.", True),))
    told = {
        mark.shape.height
        for one in table_in_short(table, "A1", "small")
        for mark in one.marks
        if isinstance(mark.shape, Text)
    }
    assert [*told] == [pytest.approx(0.84 * SMALL_WORDS)]


@pytest.mark.parametrize("letters", SHARES)
def test_halves_beside_each_other_stand_farther_apart_than_columns(letters: Letters) -> None:
    """Else the number of the second half's place reads as one more figure of the first's."""
    rows = tuple((str(n), "206.84", "−17.16") for n in range(1, 7))
    choices = [*table_blocks(Table(title="Pin holes, mm", head=("", "X", "Y"), rows=rows, sides="see"), letters)]
    folded = [
        block for block in choices if sum(m.shape.text == "X" for m in block.marks if isinstance(m.shape, Text)) == 2
    ]
    assert folded
    for block in folded:
        cells = [text_box(mark.shape) for mark in block.marks if isinstance(mark.shape, Text)]
        level = min(cell.y0 for cell in cells)
        last = sorted((cell for cell in cells if cell.y0 == pytest.approx(level, abs=0.5)), key=lambda cell: cell.x0)
        gaps = [b.x0 - a.x1 for a, b in pairwise(last)]
        assert len(gaps) == 5
        assert gaps[2] > max(gaps[:2] + gaps[3:]) + 2.0
