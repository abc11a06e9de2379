"""The Bridge card of a bridge that stands on the top: its rows, its words, its tail."""

from pathlib import Path

from msgspec.structs import replace
from PySide6.QtWidgets import QLabel, QWidget

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.cards.bridge.kinds.floating_part import FloatingPart
from app.desk.cards.strings.strings_card import StringsCard
from app.desk.frame.desk import Desk
from app.desk.widgets.inputs.choice import Tick
from app.say.figures import key_figures, progress
from geometry.job import Tail
from geometry.saddle.string_plan_findings import missing
from tests.app.desk.cards.conftest import LendDesk
from tests.app.desk.conftest import choose, field, fill, sample
from tests.app.test_own_words import belongs_to_others


def opened(lend_desk: LendDesk) -> tuple[Desk, BridgeCard, FloatingPart]:
    desk = lend_desk(sample("floating-five"), "Bridge")
    assert isinstance(desk.card, BridgeCard)
    assert isinstance(desk.card.part, FloatingPart)
    return desk, desk.card, desk.card.part


def shown(card: QWidget) -> list[str]:
    """Every word that stands on the card."""
    return [label.text() for label in card.findChildren(QLabel) if label.isVisibleTo(card)]


def test_no_row_of_another_kind_is_shown(lend_desk: LendDesk) -> None:
    _, card, part = opened(lend_desk)
    assert part.isVisibleTo(card)
    assert not card.glued.isVisibleTo(card)
    wrong = [(words, text) for text in shown(card) if (words := belongs_to_others(text))]
    assert not wrong


def test_a_length_is_typed_and_the_feet_follow(lend_desk: LendDesk) -> None:
    desk, card, _ = opened(lend_desk)
    fill(field(card, "Length, foot end to foot end"), "70")
    job = desk.document.job
    assert job.floating is not None
    assert job.floating.length == 70.0


def test_only_the_feet_that_it_has_are_asked_for(lend_desk: LendDesk) -> None:
    desk, card, part = opened(lend_desk)
    assert [foot.isVisibleTo(card) for foot in part.feet] == [True, True, True]
    choose(card, "It stands on", "two feet")
    assert [foot.isVisibleTo(card) for foot in part.feet] == [True, False, True]
    choose(card, "It stands on", "one piece, all along")
    assert [foot.isVisibleTo(card) for foot in part.feet] == [False, False, False]
    assert desk.document.job.floating is not None
    assert desk.document.job.floating.feet == ()


def test_its_feet_are_asked_for_on_the_measure_card(lend_desk: LendDesk) -> None:
    job = sample("floating-five")
    points = {name: point for name, point in job.points.items() if not name.startswith("foot.")}
    readings = tuple(r for r in job.readings if set(r.of) <= set(points))
    desk = lend_desk(replace(job, points=points, readings=readings))
    desk.cards.open("Bridge")
    assert isinstance(desk.card, BridgeCard)
    part = desk.card.part
    assert isinstance(part, FloatingPart)
    before = len(desk.document.job.readings)
    part.ask.click()
    assert len(desk.document.job.readings) == before + 4
    assert not part.ask.isEnabled()


def test_the_tail_is_ticked_and_its_rows_follow(lend_desk: LendDesk) -> None:
    desk, card, _ = opened(lend_desk)
    assert card.tail.rows.parent.isVisibleTo(card)
    fill(field(card, "The strings end lower by"), "1")
    assert desk.document.layout is not None
    assert any(finding.code == "tail.shallow" for finding in desk.document.layout.findings)
    desk.go_to("field:tail.under")
    assert card.tail.isVisibleTo(card)


def test_a_bridge_with_pin_holes_has_no_tail_to_ask_for(lend_desk: LendDesk) -> None:
    desk = lend_desk(sample("leaning-neck"), "Bridge")
    assert isinstance(desk.card, BridgeCard)
    assert not desk.card.tail.isVisibleTo(desk.card)


def test_a_tied_one_may_have_one(lend_desk: LendDesk) -> None:
    desk = lend_desk(sample("tie-bridge"), "Bridge")
    assert isinstance(desk.card, BridgeCard)
    assert desk.card.tail.isVisibleTo(desk.card)
    assert not desk.card.tail.rows.parent.isVisibleTo(desk.card)


def test_the_ear_is_told_that_the_bridge_is_its_own_trial(lend_desk: LendDesk) -> None:
    desk, _, _ = opened(lend_desk)
    desk.cards.open("Strings")
    assert isinstance(desk.card, StringsCard)
    said = " ".join(label.text() for label in desk.card.findChildren(QLabel))
    assert "The bridge is its own trial" in said
    assert "Set a trial saddle" not in said


def test_the_strip_tells_the_tail_and_no_scar(lend_desk: LendDesk) -> None:
    desk, _, _ = opened(lend_desk)
    found = {figure.title: figure for figure in key_figures.key_figures(desk.document.job, desk.document.layout)}
    assert found["Tail off"].mark == "look"
    assert found["Go or wait"].value.startswith("Crown: wait")
    assert "Fret 12 to crown front, bass edge" in found
    assert "Scar" not in found


def test_its_step_is_to_be_looked_at_while_the_tail_is_off(lend_desk: LendDesk) -> None:
    desk, _, _ = opened(lend_desk)
    steps = progress.steps(desk.document.job, desk.document.layout)
    assert steps["Bridge"] == "look again"
    assert steps["Sheets"] == "estimated or unchecked"  # the crown waits
    assert desk.document.job.tail != Tail()


def test_screws_of_the_tail_and_marks_of_old_feet_are_typed(lend_desk: LendDesk) -> None:
    desk, card, part = opened(lend_desk)
    assert field(card, "Screw holes").line.text() == "14 x 0"
    fill(field(card, "Screw holes"), "14 x 6 treble; 14 x 6 bass")
    assert desk.document.job.tail is not None
    assert desk.document.job.tail.screws == ((14.0, 6.0), (14.0, -6.0))
    fill(field(card, "Their pilot hole"), "3")
    assert desk.document.job.tail.screw == 3.0
    assert field(card, "Points round each").line.text() == "1 2 3 4"
    fill(field(card, "Points round each"), "")
    assert part.mark.text() == "Make a mark of 4 points"
    part.mark.click()
    assert desk.document.job.floating is not None
    assert desk.document.job.floating.marks == (("mark.1", "mark.2", "mark.3", "mark.4"),)
    assert part.mark.text() == "Measure a mark"
    assert card.go_to("field:floating.marks")
    assert card.go_to("field:tail.screws")


def test_it_is_not_offered_to_be_moved_by_hand(lend_desk: LendDesk) -> None:
    """It stands where the strings want it; and the guide promises the button for a glued bridge alone."""
    _, card, _ = opened(lend_desk)
    card.placements.fold.setChecked(True)
    assert not card.placements.move_button.isVisibleTo(card)
    guide = (Path(__file__).resolve().parents[5] / "docs" / "bridge.md").read_text(encoding="utf-8")
    (promise,) = (part for part in guide.split(". ") if "**Move the bridge by hand**" in part)
    assert "Of a glued bridge" in promise


def test_an_old_bridge_that_is_off_is_told_here(lend_desk: LendDesk) -> None:
    desk, card, _ = opened(lend_desk)
    off = next(tick for tick in card.findChildren(Tick) if tick.text() == "The old bridge is off")
    assert off.isVisibleTo(card)
    assert not off.isChecked()
    off.click()
    assert desk.document.job.is_bridge_off


def test_what_leads_to_the_measure_card_names_the_readings(lend_desk: LendDesk) -> None:
    _, card, part = opened(lend_desk)
    for ask in (part.ask, card.tail.ask):
        assert ask.text() == "Its readings are on the Measure card"


def test_the_spread_that_is_lacking_goes_by_the_fields_name() -> None:
    """The Strings card calls it “At the crown” here."""
    job = sample("floating-five")
    assert job.strings is not None
    bare = replace(job, strings=replace(job.strings, saddle=None))
    assert missing(bare).text.startswith("The strings’ spread at the crown is not given")
    assert missing(replace(bare, floating=None)).text.startswith("The strings’ spread at the saddle is not given")
