"""The reading in hand is seen whole and called by its whole name, however large the text and low the window (sizes of
windows: common practice, no source).
"""

import pytest
from PySide6.QtWidgets import QApplication

from app.desk.cards.measure.reading_on_plan import ReadingOnPlan
from app.desk.cards.measure.table.measure_table import ReadingTable
from app.desk.frame.desk import Desk
from tests.app.desk.conftest import OpenDesk, sample


def low(open_desk: OpenDesk, name: str, text: float, wide: int = 1366, high: int = 740) -> Desk:
    """A job in a low window, with text so large."""
    desk = open_desk(sample(name))
    desk.frame.resize(wide, high)
    desk.preferences.set_text(text)
    settle()
    return desk


def settle() -> None:
    for _ in range(4):
        QApplication.processEvents()


def in_sight(table: ReadingTable) -> bool:
    """Whether the line in hand is painted whole, under whole lines: what is left under the last one is blank."""
    box = table.visualRect(table.currentIndex())
    return table.rowViewportPosition(table.rowAt(0)) == 0 <= box.top() and box.bottom() < table.viewport().height()


@pytest.mark.parametrize("text", [1.0, 1.3, 1.5, 1.75, 2.0])
def test_the_last_reading_is_seen_whole(open_desk: OpenDesk, subtests: pytest.Subtests, text: float) -> None:
    desk = low(open_desk, "turned-left", text)
    table = desk.measure.table
    for high in (740, 745, 751, 760):
        desk.frame.resize(1366, high)
        table.go(0)
        settle()
        table.go(len(table.readings.rows) - 1)
        settle()
        with subtests.test(high=high):
            assert desk.frame.height() == high
            assert in_sight(table)


@pytest.mark.parametrize(("wide", "high"), [(1366, 740), (1280, 772)])
def test_an_entry_that_cannot_be_is_seen_beside_what_is_said_of_it(open_desk: OpenDesk, wide: int, high: int) -> None:
    desk = low(open_desk, "turned-left", 2.0, wide, high)
    measure = desk.measure
    seam = next(reading.id for reading in desk.document.job.readings if reading.of == ("seam.1",))
    measure.table.go_to(seam)
    measure.typing.settle(seam, "12 xx")
    settle()
    assert measure.wrong.isVisible()
    assert in_sight(measure.table)
    assert desk.frame.height() == high


@pytest.mark.parametrize(("wide", "high", "text"), [(1366, 740, 1.0), (1280, 772, 1.0), (1280, 772, 2.0)])
def test_the_reading_in_hand_is_called_by_its_whole_name(
    open_desk: OpenDesk, subtests: pytest.Subtests, wide: int, high: int, text: float
) -> None:
    desk = low(open_desk, "slotted-neck-screw", text, wide, high)
    panel = desk.measure.panel
    for name in ("slotted-neck-screw", "small-askew"):
        desk.document.start(sample(name))
        settle()
        with subtests.test(name):
            for reading in (
                "Board over the top, treble, at the board’s end",
                "Nut, treble to headstock slot 1 corner 4",
            ):
                panel._call(reading)
                letters = panel.called.fontMetrics()
                assert panel.called.text() == reading
                assert letters.horizontalAdvance(reading) <= panel.called.width()
            panel._call("Nut, edge to edge")
            assert panel.called.property("role") == "value"


def test_what_is_not_settled_is_not_said_again_as_what_to_measure_next(open_desk: OpenDesk) -> None:
    desk = low(open_desk, "turned-left", 1.0)
    measure = desk.measure
    off = next(
        r.id for r in desk.document.job.readings if r.of == ("seam.1",) and r.kind == "off" and r.side == "right"
    )
    measure.typing.settle(off, "12 11/64 in")
    on_plan = next(child for child in measure.children() if isinstance(child, ReadingOnPlan))
    on_plan._advise()
    settle()
    assert measure.notes.look_again.head.text() == "Not settled yet"
    assert not measure.notes.next.isVisible()
