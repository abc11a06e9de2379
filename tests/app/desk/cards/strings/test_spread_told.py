"""What is taken where nothing is typed of a pair, and what the spread's rows are called."""

import pytest
from PySide6.QtWidgets import QLabel

from app.desk.cards.strings.string_sections import pair_as_begun
from geometry.job import Floating, Job
from geometry.units import Unit
from tests.app.desk.cards.conftest import LendDesk
from tests.app.desk.conftest import sample


@pytest.mark.parametrize(
    ("unit", "says"),
    [
        ("mm", "Empty: 2.2 mm at the nut, 3.0 mm at the saddle."),
        ("cm", "Empty: 0.22 cm at the nut, 0.30 cm at the saddle."),
        # derived: 2.2 / 25.4 is 5.5 64ths, 3.0 / 25.4 is 7.6
        ("in", "Empty: about 3/32 in at the nut, about 1/8 in at the saddle."),
    ],
)
def test_what_is_taken_of_a_pair_is_told_as_it_is(unit: Unit, says: str) -> None:
    assert pair_as_begun(Job(unit=unit)).endswith(says)
    assert pair_as_begun(Job(unit=unit, floating=Floating())).endswith(says.replace("saddle", "crown"))


def test_a_crown_is_called_so_in_every_row(lend_desk: LendDesk) -> None:
    desk = lend_desk(sample("floating-five"))
    desk.cards.open("Strings")
    said = {label.text() for label in desk.card.findChildren(QLabel)}
    assert "At the crown, shared out by" in said
    assert not any(text.startswith("At the bridge") for text in said)
