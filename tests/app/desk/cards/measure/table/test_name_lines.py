"""Names of readings are whole at every text size: where one line has no room for them, the row has more."""

import pytest
from PySide6.QtGui import QFontMetricsF

from app.desk.cards.measure.table.measure_table import ReadingTable
from app.desk.cards.measure.table.name_lines import NameLine, name_lines
from app.desk.cards.measure.table.readings_model import READING
from app.desk.document.preferences import TEXT_SIZES
from app.desk.widgets.look import LABEL, LIGHT, TEXT, Look
from tests.app.desk.conftest import OpenDesk, sample

LOOK = Look(LIGHT)


def wide(name: str, how: str = "") -> int:
    """What a name takes, and how it is taken behind it."""
    letters, small = QFontMetricsF(LOOK.font(TEXT)), QFontMetricsF(LOOK.font(LABEL))
    return int(letters.horizontalAdvance(name) + (small.horizontalAdvance(how) + 6 if how else 0)) + 1


def test_what_has_room_stands_on_one_line() -> None:
    room = wide("Seam 1", "along bass edge")
    assert name_lines(LOOK, "Seam 1", "along bass edge", room) == (NameLine("Seam 1", "along bass edge"),)


def test_how_it_is_taken_goes_under_the_name_first() -> None:
    room = wide("Seam 1", "along bass edge") - 2
    assert name_lines(LOOK, "Seam 1", "along bass edge", room) == (NameLine("Seam 1"), NameLine("", "along bass edge"))


def test_a_long_name_goes_on_below_and_nothing_of_it_is_lost() -> None:
    name = "Nut treble to board end bass"
    lines = name_lines(LOOK, name, "", wide(name) - 2)
    assert [line.name for line in lines] == ["Nut treble to board end", "bass"]


def whole(table: ReadingTable) -> bool:
    """Whether each line of each name has the room that it needs, and each row that of its lines."""
    cells, look = table.cells, table.cells.look
    letters, small = QFontMetricsF(look.font(TEXT)), QFontMetricsF(look.font(LABEL))
    for at in range(len(table.readings.lines)):
        row = table.readings.row_at(at)
        if row is None:
            continue
        room = table.columnWidth(READING) - 16 - cells.over(row)
        lines = cells.lines_of(row)
        if table.rowHeight(at) < len(lines) * letters.height():
            return False
        if any(max(letters.horizontalAdvance(one.name), small.horizontalAdvance(one.how)) > room + 1 for one in lines):
            return False
    return True


def test_a_number_keeps_with_its_word_while_both_have_room() -> None:
    assert name_lines(LOOK, "Old pin hole 1", "", wide("Old pin hole")) == (NameLine("Old pin"), NameLine("hole 1"))
    assert name_lines(LOOK, "hole 1", "", wide("hole")) == (NameLine("hole"), NameLine("1"))


def test_no_name_in_the_table_is_cut(open_desk: OpenDesk, subtests: pytest.Subtests) -> None:
    desk = open_desk(sample("bolted-left"))
    for size in TEXT_SIZES:
        desk.preferences.set_text(size)
        for name in ("bolted-left", "turned-left", "slotted-neck-screw"):
            desk.document.start(sample(name))
            with subtests.test(name, size=size):
                assert whole(desk.measure.table)


def test_the_first_line_shown_is_whole_at_the_end_of_the_list_too(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("bolted-left"))
    desk.preferences.set_text(2.0)
    table = desk.measure.table
    for value in range(table.verticalScrollBar().maximum() + 1):
        table.verticalScrollBar().setValue(value)
        assert table.rowViewportPosition(table.rowAt(0)) == 0
