"""Heights that stand in for unread ones look like what they are; what was only declared wears no tick."""

import msgspec
import pytest
from PySide6.QtWidgets import QApplication

from app.desk.cards.findings_list import sign_of
from app.desk.cards.strings.strings_card import StringsCard
from app.desk.widgets.signs import Sign
from app.file import job_file
from geometry.findings import Finding
from geometry.job import Job
from tests.app.desk.cards.conftest import LendDesk
from tests.app.desk.conftest import field, fill, sample

replace = msgspec.structs.replace


def unread(*left: str) -> Job:
    """A sample without the heights read on it, but for those at some places."""
    job = sample("leaning-neck")
    return replace(job, readings=tuple(r for r in job.readings if r.kind != "height" or r.at in left))


def test_what_is_assumed_stands_under_the_field_not_in_it(lend_desk: LendDesk) -> None:
    desk = lend_desk(unread())
    before = desk.document.job
    desk.cards.open("Strings")
    QApplication.processEvents()
    for name in ("Fret 1, treble", "Fret 1, bass", "Fret 12, treble", "Fret 12, bass"):
        found = field(desk.card, name)
        assert found.line.text() == ""
        assert found.hint.text().endswith(" mm: usual, not read")
        assert found.hint.isVisible()
        assert not found.hint.font().bold()
        assert "usual, not read" in found.line.accessibleDescription()
    assert desk.document.job == before
    assert b"action" not in job_file.encode(before)


def test_it_goes_where_one_is_typed(lend_desk: LendDesk) -> None:
    desk = lend_desk(unread())
    desk.cards.open("Strings")
    found = field(desk.card, "Fret 12, bass")
    fill(found, "2.2")
    assert found.hint.text() == ""
    assert field(desk.card, "Fret 12, treble").hint.text().endswith("usual, not read")
    desk.document.stack.undo()
    assert found.hint.text().endswith("usual, not read")


def test_what_was_read_is_in_force_and_only_the_rest_is_usual(lend_desk: LendDesk) -> None:
    desk = lend_desk(unread("fret 12"))
    desk.cards.open("Strings")
    assert isinstance(desk.card, StringsCard)
    assert not field(desk.card, "Fret 12, bass").isVisible()
    assert field(desk.card, "Fret 1, bass").hint.text().endswith("usual, not read")
    assert "what was read is in force" in desk.card.heights.read.text()


@pytest.mark.parametrize(
    ("left", "first"), [((), "Fret 1, treble"), (("fret 1",), "Fret 12, treble"), (("fret 12",), "Fret 1, treble")]
)
def test_the_finding_that_asks_for_a_height_goes_to_its_field(
    lend_desk: LendDesk, left: tuple[str, ...], first: str
) -> None:
    """Heights that were read have no field: it goes to the first that is asked for, from far up the card."""
    desk = lend_desk(unread(*left))
    desk.cards.open("Strings")
    assert isinstance(desk.card, StringsCard)
    QApplication.processEvents()
    asked = field(desk.card, first)
    assert asked.visibleRegion().isEmpty()
    lines = (*desk.card.findings.lines, *desk.card.told.lines)
    next(line for line in lines if line.finding.code == "heights.assumed").click()
    for _ in range(4):
        QApplication.processEvents()
    assert desk.card.focusWidget() is asked.line
    for name in (first, first.replace("treble", "bass")):
        beside = field(desk.card, name)
        assert beside.visibleRegion().boundingRect() == beside.rect()


@pytest.mark.parametrize(("grade", "sign"), [("good", Sign.EMPTY), ("look", Sign.LOOK)])
def test_slanted_frets_wear_no_tick(grade: str, sign: Sign) -> None:
    finding = Finding(grade=grade, code="frets.slanted", text="The frets are slanted.")  # type: ignore[arg-type]
    assert sign_of(finding) is sign
