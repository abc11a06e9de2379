"""What most jobs leave as it is, on the Strings and Bridge cards, worked by keys as a person works it."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.cards.bridge.kinds.glued_part import OUTLINES
from app.desk.cards.strings.strings_card import StringsCard
from app.desk.frame.desk import Desk
from app.desk.widgets.inputs.choice import Tick
from app.edit.edits import replace
from geometry.job import Bridge, Saddle, Strings
from tests.app.desk.cards.conftest import LendDesk
from tests.app.desk.conftest import choose, field, fill, press, sample


def block(desk: Desk) -> Strings:
    assert desk.document.job.strings is not None
    return desk.document.job.strings


def the_saddle(desk: Desk) -> Saddle:
    assert desk.document.job.saddle is not None
    return desk.document.job.saddle


def the_bridge(desk: Desk) -> Bridge:
    assert desk.document.job.bridge is not None
    return desk.document.job.bridge


def test_the_set_that_was_on_is_chosen_and_taken_back(desk: Desk, strings: StringsCard) -> None:
    choose(strings, "Replaces the set", "the strings above")
    assert block(desk).replaces == block(desk).list
    assert desk.document.stack.undoText() == "replaces the set: the strings above"
    choose(strings, "Replaces the set", "not told")
    assert block(desk).replaces is None


def test_the_nut_is_worked_out_at_a_choice(desk: Desk, strings: StringsCard) -> None:
    choose(strings, "The nut", "moved as the strings want")
    assert block(desk).nut_compensation == "worked out"
    assert desk.document.layout is not None
    assert any(string.nut_compensation for string in desk.document.layout.strings)


def test_a_nut_set_back_keeps_the_unit_it_was_typed_in(desk: Desk, strings: StringsCard) -> None:
    fill(field(strings, "Nut set back by"), "1/64 in")
    assert block(desk).nut_compensation == ("1/64 in",) * len(block(desk).list)
    assert field(strings, "Nut set back by").line.text() == "1/64 in"
    assert field(strings, "Nut set back by").hint.text() == "= 0.40 mm"  # derived: 25.4 / 64 = 0.397
    assert desk.document.layout is not None
    assert desk.document.layout.strings[0].nut_compensation == pytest.approx(25.4 / 64)


def test_a_nut_typed_for_each_string_is_not_lost_by_looking_at_the_choice(lend_desk: LendDesk) -> None:
    job = sample("leaning-neck")
    assert job.strings is not None
    each = (0.1, 0.2, 0.3, 0.4, 0.5, 0.6)
    desk = lend_desk(replace(job, strings=replace(job.strings, nut_compensation=each)))
    desk.cards.open("Strings")
    assert isinstance(desk.card, StringsCard)
    assert field(desk.card, "Nut set back by").line.text() == ""
    box = next(found for found in desk.card.findChildren(QComboBox) if found.accessibleName() == "The nut")
    box.activated.emit(box.currentIndex())  # the same one is chosen again
    assert block(desk).nut_compensation == each


def test_the_finger_lies_behind_the_fret_as_typed(desk: Desk, strings: StringsCard) -> None:
    finger = field(strings, "Finger behind the fret")
    fill(finger, "1/4 in")
    assert block(desk).press_behind == "1/4 in"
    fill(finger, "60")
    assert "The finger behind the fret is 60 mm, but must lie between 0 and 25 mm" in finger.wrong.text()
    assert block(desk).press_behind == "1/4 in"


def test_the_slots_depth_is_typed_and_taken_away(desk: Desk, bridge: BridgeCard) -> None:
    fill(field(bridge, "Slot’s depth"), "3/16 in")
    assert the_saddle(desk).slot_depth == "3/16 in"
    assert desk.document.stack.undoText() == "slot’s depth 3/16 in"
    field(bridge, "Slot’s depth").line.selectAll()
    press(field(bridge, "Slot’s depth").line, Qt.Key.Key_Delete)
    assert the_saddle(desk).slot_depth is None


def test_the_second_row_is_typed(lend_desk: LendDesk) -> None:
    pinned = sample("leaning-neck")
    assert pinned.strings is not None
    pairs = tuple(replace(string, course=1 + at // 2) for at, string in enumerate(pinned.strings.list))
    desk = lend_desk(replace(pinned, strings=replace(pinned.strings, list=pairs)))
    desk.cards.open("Bridge")
    bridge = desk.card
    assert field(bridge, "Second row behind by").isVisibleTo(bridge)
    fill(field(bridge, "Second row behind by"), "9.5")
    assert the_bridge(desk).pins is not None
    assert the_bridge(desk).pins.second_row == 9.5  # type: ignore[union-attr]


ROWS = {
    "Belly or middle stands out by": {"belly", "reversed belly", "stepped wings", "tapered wings"},
    "Length of a wing": {"stepped wings", "tapered wings"},
    "Width at the wings": {"belly", "reversed belly", "stepped wings", "tapered wings", "straight", "pyramid"},
}
"""The rows of a bridge, and the outlines that have a use for them."""


@pytest.mark.parametrize("outline", [outline for outline, _ in OUTLINES if outline != "traced"])
def test_nothing_is_asked_that_the_outline_has_no_use_for(desk: Desk, bridge: BridgeCard, outline: str) -> None:
    desk.document.edit("the outline", replace(desk.document.job, bridge=replace(the_bridge(desk), outline=outline)))
    assert {name for name in ROWS if field(bridge, name).isVisibleTo(bridge)} == {
        name for name, outlines in ROWS.items() if outline in outlines
    }


def test_a_slot_is_measured_where_it_is_cut_and_told_where_it_is_not(bridge: BridgeCard) -> None:
    def shown(name: str) -> bool:
        return field(bridge, name).isVisibleTo(bridge)

    assert [shown("Front to slot, in the middle"), shown("Front to slot, bass")] == [True, False]
    next(tick for tick in bridge.findChildren(Tick) if tick.text() == "The slot is cut").click()
    assert [shown("Front to slot, in the middle"), shown("Front to slot, bass")] == [False, True]
    assert not shown("Second row behind by")


def test_the_wood_left_names_the_hole_it_is_about(bridge: BridgeCard) -> None:
    choose(bridge, "Their row runs", "along the bridge")
    assert "between the slot and the hole of string 6" in bridge.glued.wood.text()
