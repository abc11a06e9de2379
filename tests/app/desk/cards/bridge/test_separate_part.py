"""The Bridge card of saddles on a screwed base: its rows, what is typed in them, its drawing."""

import pytest
from pytestqt.qtbot import QtBot

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.cards.bridge.kinds.separate_part import SeparatePart
from app.desk.frame.desk import Desk
from tests.app.desk.conftest import OpenDesk, field, fill
from tests.geometry.separate.slanted_sample import sample


@pytest.fixture
def separate(open_desk: OpenDesk) -> Desk:
    desk = open_desk(sample())
    desk.cards.open("Bridge")
    return desk


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
    assert part(separate).proof.button.isChecked()


def test_the_detail_shows_windows_and_holes(separate: Desk) -> None:
    drawing = separate.board.detail.drawing
    assert drawing is not None
    kinds = {mark.of.partition(":")[0] for mark in drawing.marks}
    assert {"base", "saddle", "screw", "through", "opening"} <= kinds
    assert not {"slot", "pin", "bridge"} & kinds
