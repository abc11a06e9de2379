"""The bridge's outline in the window: the families, and one that is read from a file, with what is asked and said."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.cards.bridge.kinds.glued_part import OUTLINES
from app.desk.frame.desk import Desk
from geometry.job import Bridge
from geometry.units import Unit
from tests.app.desk.conftest import choose, field, fill

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="100mm" viewBox="0 0 200 100">'
SHAPE = '<path d="M0 0L150 0L150 30L75 40L0 30Z"/></svg>'


class Hand:
    """What the person answers: which file, in what unit."""

    def __init__(self, path: Path | None, unit: Unit | None = None) -> None:
        self.path, self.answer = path, unit
        self.asked: list[str] = []

    def file(self, _beside: Path | None) -> Path | None:
        return self.path

    def unit(self, why: str) -> Unit | None:
        self.asked.append(why)
        return self.answer


def the_bridge(desk: Desk) -> Bridge:
    assert desk.document.job.bridge is not None
    return desk.document.job.bridge


def read(card: BridgeCard, tmp_path: Path, text: str, unit: Unit | None = None) -> Hand:
    path = tmp_path / "bridge.svg"
    path.write_text(text, encoding="utf-8")
    hand = Hand(path, unit)
    card.glued.traced.questions = hand  # type: ignore[assignment]  # it answers in the person's place
    QTest.mouseClick(card.glued.traced.read, Qt.MouseButton.LeftButton)
    return hand


@pytest.mark.parametrize(("name", "says"), OUTLINES)
def test_every_outline_can_be_chosen_and_is_drawn(desk: Desk, bridge: BridgeCard, name: str, says: str) -> None:
    choose(bridge, "Outline", says)
    assert the_bridge(desk).outline == name
    assert desk.document.layout is not None
    assert desk.document.layout.bridge is not None


def test_until_a_file_is_read_nothing_is_said_of_it(bridge: BridgeCard, tmp_path: Path) -> None:
    outcome = bridge.glued.traced.outcome
    assert not outcome.isVisibleTo(bridge.glued.traced)
    read(bridge, tmp_path, HEAD + SHAPE)
    assert outcome.isVisibleTo(bridge.glued.traced)


def test_an_outline_is_read_from_a_file_and_undone(desk: Desk, bridge: BridgeCard, tmp_path: Path) -> None:
    before = desk.document.job
    read(bridge, tmp_path, HEAD + SHAPE)
    found = the_bridge(desk)
    assert (found.outline, found.length, found.width) == ("traced", 150.0, 40.0)
    assert "150 by 40 mm" in bridge.glued.traced.outcome.text()
    assert field(bridge, "Length, wing to wing").line.text() == "150"
    desk.document.stack.undo()
    assert desk.document.job == before


def test_it_is_turned_front_to_back(desk: Desk, bridge: BridgeCard, tmp_path: Path) -> None:
    assert not bridge.glued.traced.turn.isVisibleTo(bridge)
    read(bridge, tmp_path, HEAD + SHAPE)
    assert (40.0, 0.0) in the_bridge(desk).traced
    QTest.mouseClick(bridge.glued.traced.turn, Qt.MouseButton.LeftButton)
    assert (0.0, 0.0) in [(abs(back), abs(left)) for back, left in the_bridge(desk).traced]


def test_a_file_without_a_unit_is_asked_for_it(desk: Desk, bridge: BridgeCard, tmp_path: Path) -> None:
    plain = HEAD.replace('width="200mm" height="100mm" ', "") + SHAPE
    hand = read(bridge, tmp_path, plain, "mm")
    assert hand.asked == ["bridge.svg does not say what unit it is in"]
    assert the_bridge(desk).length == 150.0
    before = desk.document.job
    read(bridge, tmp_path, plain, None)  # the person gives up
    assert desk.document.job == before


@pytest.mark.parametrize(
    ("shape", "says"),
    [
        ('<path d="M0 0L150 40L150 0L0 40Z"/></svg>', "crosses itself"),
        ('<path d="M0 0L150 40"/></svg>', "no line that closes"),
        ('<rect width="15" height="3"/></svg>', "The bridge’s length is 15 mm"),
    ],
)
def test_what_is_no_outline_is_said_and_changes_nothing(
    desk: Desk, bridge: BridgeCard, tmp_path: Path, shape: str, says: str
) -> None:
    before = desk.document.job
    read(bridge, tmp_path, HEAD + shape)
    assert says in bridge.glued.traced.outcome.text()
    assert desk.document.job == before


def test_a_length_that_the_traced_outline_has_not_is_refused_in_its_field(
    desk: Desk, bridge: BridgeCard, tmp_path: Path
) -> None:
    read(bridge, tmp_path, HEAD + SHAPE)
    fill(field(bridge, "Length, wing to wing"), "152")
    assert the_bridge(desk).length == 150.0
    assert "traced outline" in field(bridge, "Length, wing to wing").wrong.text()


def test_another_outline_and_the_traced_one_again(desk: Desk, bridge: BridgeCard, tmp_path: Path) -> None:
    read(bridge, tmp_path, HEAD + SHAPE)
    choose(bridge, "Outline", "straight")
    fill(field(bridge, "Length, wing to wing"), "160")
    assert the_bridge(desk).length == 160
    choose(bridge, "Outline", "traced")
    assert the_bridge(desk).length == 150.0
