"""Another set on the Strings card: what was typed for the one before is kept, told, and worked out anew at a press."""

from PySide6.QtCore import Qt

from app.desk.cards.strings.strings_card import StringsCard
from app.desk.frame.desk import Desk
from app.edit.strings import string_entries
from geometry.job.stringing import WORKED_OUT
from tests.app.desk.conftest import press


def test_another_set_tells_of_what_was_typed_for_the_one_before(desk: Desk, strings: StringsCard) -> None:
    typed = string_entries.put_compensation(string_entries.typed_compensation(desk.document.job), 1, "2.5")
    desk.document.edit("typing", typed)
    assert not strings.others.isVisible()
    desk.document.edit("taking a set", string_entries.take_set(typed, "steel 13-58"))
    assert strings.others.said.text().startswith("The compensation of string 2 was typed for other strings")
    assert strings.others.anew_button.isVisible()
    press(strings.others.anew_button, Qt.Key.Key_Space)
    assert string_entries.block(desk.document.job).compensation == WORKED_OUT
    assert not strings.others.isVisible()
    assert not strings.others.anew_button.isVisible()
    desk.document.stack.undo()
    desk.document.stack.undo()
    assert not strings.others.isVisible()
