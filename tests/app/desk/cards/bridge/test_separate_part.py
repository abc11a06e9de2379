"""The Bridge card of saddles on a screwed base: its rows, what is typed in them, its drawing."""

import pytest
from PySide6.QtWidgets import QStyle, QStyleOptionComboBox
from pytestqt.qtbot import QtBot

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.cards.bridge.kinds.separate_part import SeparatePart
from app.desk.frame.desk import Desk
from app.desk.widgets.inputs.choice import Choice
from tests.app.desk.cards.conftest import LendDesk
from tests.app.desk.conftest import OpenDesk, field, fill
from tests.app.desk.conftest import sample as any_sample
from tests.geometry.separate.slanted_sample import sample


@pytest.fixture
def separate(lend_desk: LendDesk) -> Desk:
    return lend_desk(any_sample("slanted-separate"), "Bridge")


def part(desk: Desk) -> SeparatePart:
    assert isinstance(desk.card, BridgeCard)
    assert isinstance(desk.card.part, SeparatePart)
    return desk.card.part


def test_only_the_rows_of_this_kind_are_shown(separate: Desk) -> None:
    assert part(separate).isVisible()
    assert isinstance(separate.card, BridgeCard)
    assert not separate.card.glued.isVisible()
    assert part(separate).reach.text().startswith("String 1: 3.2 mm ahead")


def test_a_travel_that_is_typed_is_followed(separate: Desk, qtbot: QtBot) -> None:
    fill(field(part(separate), "A saddle travels by"), "3")
    block = separate.document.job.separate
    assert block is not None
    assert block.travel == 3.0
    qtbot.waitUntil(lambda: "cannot reach" in part(separate).reach.text() or "may not" in part(separate).reach.text())


def test_screw_holes_are_typed_by_their_side(separate: Desk) -> None:
    fill(field(part(separate), "Places"), "5 x 20 bass")
    block = separate.document.job.separate
    assert block is not None
    assert block.screws == ((5.0, -20.0),)


def test_a_finding_leads_to_its_field(separate: Desk) -> None:
    assert separate.card is not None
    for where in ("separate.travel", "separate.screws", "separate.body", "separate.saddles", "separate.opening"):
        assert separate.card.go_to(f"field:{where}"), where
    assert separate.card.go_to("field:proof")
    assert part(separate).stage.is_open


def test_a_screw_hole_that_runs_into_an_old_one_is_told_on_the_card(lend_desk: LendDesk) -> None:
    """The triangle behind the step comes of it, and it stands on no other card."""
    desk = lend_desk(any_sample("slanted-separate"))
    desk.cards.open("Bridge")
    assert isinstance(desk.card, BridgeCard)
    told = {line.finding.code for line in desk.card.findings.lines if line.isVisible()}
    assert "separate.into_old" in told


def test_the_detail_shows_windows_and_holes(separate: Desk) -> None:
    drawing = separate.board.detail.drawing
    assert drawing is not None
    kinds = {mark.of.partition(":")[0] for mark in drawing.marks}
    assert {"base", "saddle", "screw", "through", "opening"} <= kinds
    assert not {"slot", "pin", "bridge"} & kinds


def test_of_what_is_too_long_for_its_line_the_beginning_is_seen(open_desk: OpenDesk) -> None:
    line = field(part(open_desk(any_sample("slanted-separate"), "Bridge")), "Places").line
    assert line.fontMetrics().horizontalAdvance(line.text()) > line.width()
    assert line.cursorPosition() == 0


def test_how_it_is_held_is_said_whole_in_large_words(open_desk: OpenDesk) -> None:
    desk = open_desk(sample())
    desk.preferences.set_text(2.0)
    desk.frame.resize(1366, 768)
    desk.cards.open("Bridge")
    box = desk.card.focusWidget()
    assert isinstance(box, Choice)
    option = QStyleOptionComboBox()
    box.initStyleOption(option)
    edit = QStyle.SubControl.SC_ComboBoxEditField
    room = box.style().subControlRect(QStyle.ComplexControl.CC_ComboBox, option, edit, box).width()
    assert all(box.fontMetrics().horizontalAdvance(box.itemText(at)) <= room for at in range(box.count()))
    desk.preferences.set_text(1.0)


def test_what_counts_is_told_in_the_jobs_unit(lend_desk: LendDesk) -> None:
    desk = lend_desk(any_sample("turned-left"))
    desk.cards.open("Bridge")
    weight = field(desk.card, "Points for each 1/32 in of uneven margins")
    assert weight.line.text() == "0.8"  # derived: 1 for each mm, of which 1/32 in has 0.79
    fill(weight, "1.5")
    assert desk.document.job.choice.weights.margins == pytest.approx(1.5 * 32 / 25.4)
    assert weight.line.text() == "1.5"
    assert (
        field(desk.card, "Points for each 1/8 in² of scar").line.text() == "0.8"
    )  # derived: 0.81, an eighth of 645.16 mm²
    assert field(desk.card, "Range along").line.text() == "1/8"
