"""What is said while one types: what was understood, why an entry cannot be, and what the keys do; and when it ends."""

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtWidgets import QAbstractButton, QComboBox, QLabel, QLineEdit, QWidget

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.cards.strings.strings_card import StringsCard
from app.desk.cards.strings.strings_model import DIAMETER, MAKE, NAME
from app.desk.frame.desk import Desk
from app.desk.widgets.inputs.fields import TypedLine, in_mm
from app.desk.widgets.look import DARK
from app.edit import edits
from app.edit.edits import replace
from geometry.job import Strings
from tests.app.desk.cards.test_typing import ENTER, ESCAPE, open_line, type_in_table, type_on_plan
from tests.app.desk.conftest import field, fill, make_whole, press, type_into


def the_strings(desk: Desk) -> Strings:
    assert desk.document.job.strings is not None
    return desk.document.job.strings


def on_plan(desk: Desk) -> TypedLine:
    line = desk.board.value_line.line
    assert line is not None
    return line


def note(desk: Desk) -> QLabel:
    """What is said under the line on the plan."""
    found = desk.board.value_line.note
    assert found is not None
    return found


# when a wrong entry ends


def test_a_wrong_entry_in_a_field_ends_with_its_job(desk: Desk, bridge: BridgeCard) -> None:
    """Even where the other job has the same value."""
    width = field(bridge, "Width at the wings")
    in_force = width.line.text()
    fill(width, "260")
    desk.document.start(replace(desk.document.job, title="another"))
    desk.cards.open("Bridge")
    assert width.line.text() == in_force
    assert not width.wrong.isVisible()


def test_a_wrong_reading_ends_when_its_value_comes_from_elsewhere(desk: Desk) -> None:
    card = desk.measure
    card.table.go(0)
    type_in_table(card.table, "9x", ENTER)
    desk.document.edit("pasting", edits.set_value(desk.document.job, desk.document.job.readings[0].id, "44.8"))
    assert card.table.readings.rows[0].value == "44.8"
    assert not card.wrong.isVisibleTo(card)


def test_a_wrong_string_ends_with_its_string(strings: StringsCard) -> None:
    strings.table.go(5, DIAMETER)
    type_in_table(strings.table, "0,x", ENTER)
    strings.remove_button.click()
    strings.add_button.click()
    assert not strings.table.refused
    assert not strings.wrong.isVisible()


def test_a_wrong_string_is_told_of_wherever_one_is(strings: StringsCard) -> None:
    strings.table.go(1, DIAMETER)
    type_in_table(strings.table, "0,x", ENTER)
    strings.table.go(3, 0)
    assert strings.wrong.text().startswith("String 2, its diameter: “0,x” ends in a unit")


def test_a_wrong_entry_on_the_plan_stays_there_with_its_sentence(desk: Desk) -> None:
    desk.measure.table.go_to("r3")
    type_on_plan(desk, "r3", "4x", ENTER)
    assert on_plan(desk).text() == "4x"
    assert note(desk).isVisible()
    assert note(desk).text().startswith("“4x” ends in a unit that is not known here")


def test_a_wrong_entry_is_mended_on_the_plan_wherever_it_was_typed(desk: Desk) -> None:
    table = desk.measure.table
    table.go_to("r3")
    type_in_table(table, "4x", ENTER)
    table.go_to("r3")
    desk.board.value_line.type_here(desk.board.plan, "r3")
    assert on_plan(desk).text() == "4x"
    assert note(desk).text().startswith("“4x” ends in a unit that is not known here")
    on_plan(desk).selectAll()
    type_into(on_plan(desk), "450")
    press(on_plan(desk), ENTER)
    assert table.readings.refused == {}
    assert edits.find(desk.document.job, "r3").value == 450.0


def test_nothing_is_called_wrong_while_it_is_only_half_typed(desk: Desk) -> None:
    card = desk.measure
    desk.board.value_line.type_here(desk.board.plan, "r1")
    type_into(on_plan(desk), "4")
    assert not card.wrong.isVisibleTo(card)


def test_escape_in_the_material_box_takes_the_choice_back(desk: Desk, strings: StringsCard) -> None:
    before = desk.document.job
    strings.table.go(0, MAKE)
    press(strings.table, ENTER)
    box = next(box for box in strings.table.findChildren(QComboBox) if box.isVisible())
    press(box, Qt.Key.Key_Down)
    assert desk.document.job != before
    press(box, ESCAPE)
    assert desk.document.job == before


def test_a_string_is_renamed_under_the_name_that_it_had(desk: Desk, strings: StringsCard) -> None:
    strings.table.go(1, NAME)
    type_in_table(strings.table, "abc", ENTER)
    assert the_strings(desk).list[1].name == "abc"
    assert desk.document.stack.undoText() == "string 2 name abc"


# what was understood


def test_the_two_values_of_a_pair_are_understood() -> None:
    assert in_mm(("1/2 in", 3.0), "mm") == "= 12.70 ; 3 mm"  # derived: 25.4 / 2 = 12.7
    assert in_mm((12.5, 3.0), "in") == ""


def test_the_measure_card_says_what_it_understood(desk: Desk) -> None:
    card = desk.measure
    card.table.go(0)
    assert card.panel.understood.text() == ""
    type_into(card.table, "1")
    type_into(open_line(card.table), " 3/4 in")
    assert card.panel.understood.text() == "= 44.45 mm"  # derived: 7/4 × 25.4 = 44.45


def test_half_of_the_last_place_counts_up() -> None:
    assert in_mm("1/8 in", "in") == "= 3.18 mm"  # derived: 25.4 / 8 = 3.175
    assert in_mm(("1/8 in", 3.0), "in") == "= 3.18 ; 3 mm"


def test_fractions_are_told_in_as_many_decimals_as_each_other() -> None:
    """derived: 27 1/64 in is 686.1969 mm, 27 9/64 in 689.3719; of millimetres as many as were typed"""
    assert in_mm("27 1/64 in", "in") == "= 686.20 mm"
    assert in_mm("27 9/64 in", "in") == "= 689.37 mm"
    assert in_mm("68.6 cm", "in") == "= 686 mm"


def test_the_line_on_the_plan_says_what_it_understood(desk: Desk) -> None:
    desk.board.value_line.type_here(desk.board.plan, "r1")
    assert not note(desk).isVisible()
    on_plan(desk).selectAll()
    type_into(on_plan(desk), "1 3/4 in")
    assert note(desk).text() == "= 44.45 mm"
    assert note(desk).isVisible()
    assert "= 44.45 mm" in on_plan(desk).accessibleDescription()


@pytest.mark.parametrize(
    ("typed", "said"),
    [("13", "= 0.013 in, 0.33 mm"), ("0.013 in", "= 0.33 mm"), ("0.33", "")],  # derived: 0.013 × 25.4 = 0.3302
)
def test_the_strings_table_says_what_it_understood(strings: StringsCard, typed: str, said: str) -> None:
    strings.table.go(0, DIAMETER)
    type_into(strings.table, typed[0])
    type_into(open_line(strings.table), typed[1:])
    assert strings.hint.text() == said


# steps


def test_what_is_heard_steps(strings: StringsCard) -> None:
    fret = strings.by_ear.fret
    assert fret.text() == "12"
    press(fret, Qt.Key.Key_Down)
    assert fret.text() == "11"
    press(fret, ESCAPE)
    assert fret.text() == "12"


def test_page_up_takes_ten_steps_in_the_strings_table(desk: Desk, strings: StringsCard) -> None:
    strings.table.go(0, DIAMETER)
    strings.table.edit(strings.table.currentIndex())
    press(open_line(strings.table), Qt.Key.Key_PageUp)
    assert the_strings(desk).list[0].diameter == "0.022 in"  # derived: 0.012 in and ten thousandths


def test_figures_typed_anew_have_their_own_fineness(bridge: BridgeCard) -> None:
    width = field(bridge, "Width at the wings")
    fill(width, "1 3/32 in", enter=False)
    press(width.line, Qt.Key.Key_Up)
    width.line.selectAll()
    type_into(width.line, "43.2")
    press(width.line, Qt.Key.Key_Up)
    assert width.line.text() == "43.3"


# what is said to those who listen


def idle_words(card: QWidget) -> list[str]:
    """Names of controls whose description only says the name again, or nothing."""
    kinds = (QLineEdit, QComboBox, QAbstractButton)
    return [
        widget.accessibleName()
        for kind in kinds
        for widget in card.findChildren(kind)
        if not widget.objectName().startswith("qt_") and widget.accessibleDescription() in ("", widget.accessibleName())
    ]


def test_no_description_is_only_the_name_again(desk: Desk, subtests: pytest.Subtests) -> None:
    desk.measure.add()
    for name in ("Start", "Measure", "Old work", "Strings", "Bridge", "Sheets"):
        desk.cards.open(name)
        make_whole(desk.card)
        with subtests.test(name):
            assert idle_words(desk.card) == []


def test_a_field_keeps_its_description_beside_what_it_understood(bridge: BridgeCard) -> None:
    depth = field(bridge, "Slot’s depth")
    says = depth.line.accessibleDescription()
    assert says.startswith("From the bridge’s top. Empty: not told.")
    fill(depth, "3/16 in", enter=False)
    assert depth.line.accessibleDescription() == f"= 4.76 mm {says}"  # derived: 3/16 × 25.4 = 4.7625


def test_editors_in_the_tables_say_what_their_keys_do(strings: StringsCard) -> None:
    strings.table.go(0, MAKE)
    press(strings.table, ENTER)
    box = next(box for box in strings.table.findChildren(QComboBox) if box.isVisible())
    assert "Escape" in box.accessibleDescription()


def test_an_open_picture_of_a_new_reading_goes_dark_with_the_desk(desk: Desk) -> None:
    card = desk.measure
    card.add()
    desk.preferences.set_theme("dark")
    assert card.adding is not None
    assert card.adding.picture.look.palette == DARK


def test_the_line_on_the_plan_never_lies_under_the_detail(desk: Desk) -> None:
    desk.measure.table.go_to("r3")
    desk.board.value_line.type_here(desk.board.plan, "r3")
    line, detail = on_plan(desk), desk.board.detail
    over = QRect(detail.mapToGlobal(QPoint(0, 0)), detail.size())
    assert not over.intersects(QRect(line.mapToGlobal(QPoint(0, 0)), line.size()))
