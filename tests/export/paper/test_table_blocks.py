"""Tables as blocks beside a drawing."""

import pytest

from export.drawing.marks import Line, Text
from export.drawing.typeface import text_box
from export.hole_table import Table
from export.paper.table_blocks import table_blocks


@pytest.mark.parametrize("tight", [False, True])
def test_the_line_under_a_title_is_as_long_as_the_title_and_as_the_rows(tight: bool) -> None:
    narrow = Table(title="Pin holes, to ream, mm", rows=(("1", "206.84"),), sides="se")
    wide = Table(title="Sizes", rows=(("slot to the neck’s centre line", "87.5°, bass end to the tail"),), sides="ss")
    for table in (narrow, wide):
        for block in table_blocks(table, tight=tight):
            title, *cells = (text_box(mark.shape) for mark in block.marks if isinstance(mark.shape, Text))
            (line,) = (mark.shape for mark in block.marks if isinstance(mark.shape, Line))
            assert line.b[0] == pytest.approx(max(one.x1 for one in (title, *cells)))
