"""The board's face and the new nut on the Strings card: folded until used, live, and found by what is said of them."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox

from app.desk.cards.strings.nut_part import BoardFace, NutPart
from app.desk.cards.strings.strings_card import StringsCard
from app.desk.frame.desk import Desk
from app.desk.widgets.inputs.fields import Field
from geometry.job import Nut
from tests.app.desk.conftest import OpenDesk, field, fill, press, sample


def parts(card: StringsCard) -> tuple[BoardFace, NutPart]:
    face, nut = card.solids
    assert isinstance(face, BoardFace)
    assert isinstance(nut, NutPart)
    return face, nut


def test_they_are_folded_and_their_rows_not_made_until_they_are_used(open_desk: OpenDesk) -> None:
    strings = open_desk(sample("leaning-neck"), "Strings").card
    assert isinstance(strings, StringsCard)
    for part in parts(strings):
        assert not part.is_open
        assert not part.is_filled
        assert not part.findChildren(Field)
    assert [part.under.text() for part in strings.solids] == ["Flat, or not told.", "None is to be made."]


def test_a_nut_by_keys(desk: Desk, strings: StringsCard) -> None:
    _, nut = parts(strings)
    press(nut.head, Qt.Key.Key_Space)
    assert nut.is_open
    tick = next(box for box in nut.findChildren(QCheckBox) if box.text() == "A nut is to be made")
    press(tick, Qt.Key.Key_Space)
    assert desk.document.job.nut == Nut()
    assert nut.under.text() == "To be made; its slots’ bottoms wait."
    fill(field(nut, "Frets’ height"), "1.0")
    assert nut.under.text().startswith("Bottoms over the board: 1.")
    fill(field(nut, "Wanted over fret 1, treble"), "0.35")
    assert desk.document.job.nut is not None
    assert desk.document.job.nut.over_fret1 == (0.35, None)
    assert desk.document.stack.undoText() == "wanted over fret 1, treble 0.35"


def test_margins_beside_a_spread_are_said_in_a_sentence_and_not_taken(desk: Desk, strings: StringsCard) -> None:
    _, nut = parts(strings)
    nut.set_open(True)
    asked = field(nut, "Margin, treble")
    fill(asked, "3.2")
    assert "keep one of them" in asked.wrong.text()
    assert desk.document.job.nut is None


def test_a_radius_crowns_the_saddle(desk: Desk, strings: StringsCard) -> None:
    face, _ = parts(strings)
    face.set_open(True)
    fill(field(face, "Radius, at the nut"), "305")
    assert desk.document.job.board.radius == 305.0
    assert face.under.text().startswith("305 mm at the saddle: its crown stands 1.")


def test_an_arch_is_typed_in_words(desk: Desk, strings: StringsCard) -> None:
    face, _ = parts(strings)
    face.set_open(True)
    fill(field(face, "Rise over a chord, near the nut"), "0.7 over 40")
    (arch,) = desk.document.job.board.arch
    assert (arch.rise, arch.chord) == (0.7, 40.0)
    fill(field(face, "Rise over a chord, near the nut"), "seven")
    assert "write it like 0.9 over 40" in field(face, "Rise over a chord, near the nut").wrong.text()


def test_a_finding_unfolds_the_part_that_it_is_about(desk: Desk, strings: StringsCard) -> None:
    face, nut = parts(strings)
    desk.go_to("field:nut.fret_height")
    assert nut.is_open
    assert field(nut, "Frets’ height").line.hasFocus()
    desk.go_to("field:board.radius")
    assert face.is_open
    assert field(face, "Radius, at the nut").line.hasFocus()
