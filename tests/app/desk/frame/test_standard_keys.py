"""Every shortcut there is, and which of the platform's standard keys it is; what has none says so here."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QKeySequence, QShortcut
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit

from app.desk.cards.measure.table.readings_model import READING, VALUE_AT
from app.desk.frame.desk import Desk
from tests.app.desk.cards.measure.test_measure_card import open_line
from tests.app.desk.conftest import press, type_into

Key = QKeySequence.StandardKey
STANDARD: dict[str, tuple[QKeySequence.StandardKey, ...]] = {
    "New job": (Key.New,),
    "Open…": (Key.Open,),
    "Save": (Key.Save,),
    "Save as…": (Key.SaveAs,),
    "Print…": (Key.Print,),
    "Quit": (Key.Quit, Key.Close),
    "Undo": (Key.Undo,),
    "Redo": (Key.Redo,),
    "Zoom in": (Key.ZoomIn,),
    "Zoom out": (Key.ZoomOut,),
    "Worked example": (Key.HelpContents,),
}
BESIDES = {"Quit": {"Ctrl+Q"}, "Redo": {"Ctrl+Y"}, "Zoom in": {"Ctrl+="}}
"""Keys that stand beside a standard one: where a platform has none, and a plus typed without Shift."""
OUR_OWN = {
    "About the job…": "Ctrl+J",
    "Export files": "Ctrl+E",
    "Add a reading…": "Ctrl+R",
    "Strike out or bring back": "Ctrl+K",
    "Move up": "Ctrl+Shift+Up",
    "Move down": "Ctrl+Shift+Down",
    "Remove the readings chosen": "Ctrl+Shift+Backspace",
    "Keep this placement": "Ctrl+Shift+K",
    "How far from here to there?": "Ctrl+D",
    "Whole instrument": "Ctrl+0",
    "Detail alone": "Ctrl+L",
    "Turn by a quarter": "Ctrl+T",
    "From inside (mirrored)": "Ctrl+I",
}
"""What no platform has a standard key for; the cards are at Ctrl and their place."""
MEANINGLESS_HERE = {Key.Italic, Key.Bold, Key.Underline, Key.AddTab, Key.Find, Key.FindNext, Key.Replace}
"""Standard keys of commands that a layout tool does not have: their combinations are free."""


def keys_of(action: QAction) -> set[str]:
    return {key.toString() for key in action.shortcuts()}


def bound(*keys: QKeySequence.StandardKey) -> set[str]:
    return {found.toString() for key in keys for found in QKeySequence.keyBindings(key)}


def test_every_shortcut_is_a_standard_one_or_listed_as_our_own_and_no_two_commands_share_one(desk: Desk) -> None:
    """A command has all of the platform's own keys, and our own take none that it has for something else."""
    for name, standard in STANDARD.items():
        has, wants = keys_of(desk.menu_actions[name]), bound(*standard)
        assert wants <= has, name
        assert has - wants <= BESIDES.get(name, set()), name
        assert has, name
    keys = [key for action in desk.menu_actions.values() for key in keys_of(action)]
    assert len(keys) == len(set(keys))
    meant = [key for key in Key if key not in MEANINGLESS_HERE]
    theirs = {found.toString(): key for key in meant for found in QKeySequence.keyBindings(key)}
    ours = {key: name for name in OUR_OWN for key in keys_of(desk.menu_actions[name])}
    assert {key: theirs[key] for key in ours if key in theirs} == {}
    cards = {name: f"Ctrl+{at}" for at, name in enumerate(desk.header.steps.buttons, start=1)}
    found = {name: keys_of(action) for name, action in desk.menu_actions.items() if action.shortcuts()}
    assert set(found) == {*STANDARD, *OUR_OWN, *cards}
    assert {name: keys for name, keys in found.items() if name not in STANDARD} == {
        name: {key} for name, key in (OUR_OWN | cards).items()
    }
    menus = {action for action in desk.frame.findChildren(QAction) if action.shortcuts()}
    assert menus == {action for action in desk.menu_actions.values() if action.shortcuts()}
    assert desk.frame.findChildren(QShortcut) == []


def test_a_line_keeps_its_own_keys(desk: Desk) -> None:
    """Taking a word out of what is typed takes no reading away."""
    count = len(desk.document.job.readings)
    line = QLineEdit(desk)
    line.show()
    line.setFocus()
    type_into(line, "end pin")
    press(line, Qt.Key.Key_Backspace, Qt.KeyboardModifier.ControlModifier)
    assert line.text() == "end "
    assert len(desk.document.job.readings) == count


def test_readings_are_pasted_by_the_platforms_key(desk: Desk) -> None:
    taken: list[bool] = []
    desk.measure.table.pasted.connect(lambda: taken.append(True))
    one = QKeySequence.keyBindings(Key.Paste)[0]
    QTest.keySequence(desk.measure.table, one)
    assert taken == [True]


def test_select_all_chooses_all_readings(desk: Desk) -> None:
    one = QKeySequence.keyBindings(Key.SelectAll)[0]
    QTest.keySequence(desk.measure.table, one)
    assert len(desk.measure.table.all_chosen) > 10


def test_select_all_in_a_box_that_was_clicked_chooses_its_text(desk: Desk) -> None:
    """A box that is only in hand looks like one that is typed in."""
    table, one = desk.measure.table, QKeySequence.keyBindings(Key.SelectAll)[0]
    box = table.visualRect(table.readings.index(table.readings.line_of(2), VALUE_AT))
    QTest.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=box.center())
    QTest.keySequence(table, one)
    line = open_line(desk.measure)
    assert line.selectedText() == table.readings.rows[2].value
    line.deselect()
    QTest.keySequence(line, one)
    assert line.selectedText() == table.readings.rows[2].value
    assert len(table.all_chosen) == 1


def test_select_all_beside_a_box_that_was_clicked_chooses_all_readings(desk: Desk) -> None:
    table = desk.measure.table
    name = table.visualRect(table.readings.index(table.readings.line_of(2), READING))
    QTest.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=name.center())
    QTest.keySequence(table, QKeySequence.keyBindings(Key.SelectAll)[0])
    assert not table.typing
    assert len(table.all_chosen) == len(desk.document.job.readings)
