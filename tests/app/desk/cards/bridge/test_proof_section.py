"""The proof on the Bridge card, typed as a person types it."""

import datetime

import pytest
from PySide6.QtWidgets import QLabel

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.cards.bridge.proof_section import ProofSection
from app.desk.cards.findings_list import sign_of
from app.desk.frame.desk import Desk
from app.desk.widgets.signs import Sign
from geometry import proof
from geometry.job import Job
from geometry.job.measured.proof import Stage
from geometry.proof import proof_at_stage
from tests.app.desk.cards.conftest import LendDesk
from tests.app.desk.conftest import OpenDesk, fill, sample


def unfolded(card: BridgeCard, stage: Stage) -> ProofSection:
    section = next(one for one in card.glued.proofs if one.stage == stage)
    section.head.click()
    return section


def type_all(desk: Desk, section: ProofSection) -> None:
    """Each distance as it should be, all but the last, which is 0.1 mm off: no rule reads all to the tenth."""
    wanted = {row.reading.id: row.wanted for row in found(desk, section.stage).rows}
    for name in list(section.rows)[:-1]:
        fill(section.rows[name].field, f"{wanted[name]:.1f}")
    type_last(desk, section, 0.1)


def type_last(desk: Desk, section: ProofSection, off: float) -> None:
    """The last distance, which is off by so much, mm."""
    name = list(section.rows)[-1]
    wanted = next(row.wanted for row in found(desk, section.stage).rows if row.reading.id == name)
    fill(section.rows[name].field, f"{wanted + off:.1f}")


def found(desk: Desk, stage: Stage) -> proof.Proved:
    proved = proof.prove(desk.document.job, stage)
    assert proved is not None
    return proved


def told(section: ProofSection) -> str:
    return section.whole.lines[0].finding.text


def test_folded_it_works_nothing_out(open_desk: OpenDesk) -> None:
    bridge = open_desk(sample("leaning-neck"), "Bridge").card
    assert isinstance(bridge, BridgeCard)
    assert all(not section.inside.isVisible() and not section.rows for section in bridge.glued.proofs)


def test_what_was_surveyed_once_serves_the_next_key(bridge: BridgeCard, monkeypatch: pytest.MonkeyPatch) -> None:
    def anew(_job: Job) -> None:
        raise AssertionError("nothing has changed that the survey stands on")

    section = unfolded(bridge, "clamped")
    monkeypatch.setattr(proof_at_stage, "survey", anew)
    section.refresh()
    assert 4 <= len(section.rows) <= 6


def test_every_distance_is_good_or_not_at_once(desk: Desk, bridge: BridgeCard) -> None:
    section = unfolded(bridge, "clamped")
    assert 4 <= len(section.rows) <= 6
    name, row = next(iter(section.rows.items()))
    wanted = next(one.wanted for one in found(desk, "clamped").rows if one.reading.id == name)
    fill(row.field, f"{wanted + 6:.1f}")
    assert section.rows[name].good.text().startswith("not good: 6.0 mm more")
    fill(row.field, f"{wanted:.1f}")
    assert section.rows[name].good.text() == "good"
    assert told(section) == "Before the glue. Read 2 more distances, and they say where the bridge is."


def test_what_waits_for_readings_wears_no_tick_and_together_they_say_what_they_show(
    desk: Desk, bridge: BridgeCard, subtests: pytest.Subtests
) -> None:
    section = unfolded(bridge, "clamped")
    with subtests.test("nothing read"):
        assert told(section) == "Before the glue. Read 3 distances, and they say where the bridge is."
        assert sign_of(section.whole.lines[0].finding) is Sign.UNDER_WAY
    type_all(desk, section)
    with subtests.test("right"):
        assert sign_of(section.whole.lines[0].finding) is Sign.DONE
        assert told(section).startswith("Before the glue. Good: the bridge is where it belongs.")
        assert "String 6: " in section.strings.text()
    type_last(desk, section, 0.0)
    with subtests.test("copied from what they should be"):
        assert told(section).startswith("Before the glue. Each distance is typed just as it is shown here;")
        assert sign_of(section.whole.lines[0].finding) is Sign.LOOK
    type_last(desk, section, 9.0)
    with subtests.test("one is misread"):
        assert "was misread; it reads 9." in told(section)
        last = list(section.rows.values())[-1]
        assert last.good.text().endswith("likeliest misread")


def test_as_built_is_dated_and_kept_and_undone(desk: Desk, bridge: BridgeCard) -> None:
    section = unfolded(bridge, "built")
    type_all(desk, section)
    (record,) = desk.document.job.proof
    assert (record.stage, record.when) == ("built", datetime.date.today().isoformat())
    assert section.strings.text().startswith(f"Read on {record.when}.")
    for _ in section.rows:
        desk.document.stack.undo()
    assert desk.document.job.proof == ()


def test_an_emptied_field_is_not_read_any_more(desk: Desk, bridge: BridgeCard) -> None:
    section = unfolded(bridge, "clamped")
    row = next(iter(section.rows.values()))
    fill(row.field, "74")
    assert len(desk.document.job.proof[0].readings) == 1
    fill(row.field, "")
    assert desk.document.job.proof == ()


def test_what_is_no_length_is_said_and_not_taken(desk: Desk, bridge: BridgeCard) -> None:
    section = unfolded(bridge, "clamped")
    row = next(iter(section.rows.values()))
    fill(row.field, "74 furlongs")
    assert "unit" in row.field.wrong.text()
    assert desk.document.job.proof == ()


@pytest.mark.parametrize("name", ["turned-left", "small-four"])
def test_it_opens_on_other_jobs(lend_desk: LendDesk, name: str) -> None:
    desk = lend_desk(sample(name), "Bridge")
    assert isinstance(desk.card, BridgeCard)
    assert desk.card.go_to("field:proof")
    assert desk.card.glued.proofs[0].rows


def test_what_it_should_read_stands_whole_beside_the_field_and_its_ends_over_it(open_desk: OpenDesk) -> None:
    """A figure that is parted, 8 at a line's end and 29/64 on the next, is misread."""
    desk = open_desk(sample("turned-left"))
    desk.preferences.set_text(2.0)
    desk.cards.open("Bridge")
    assert isinstance(desk.card, BridgeCard)
    section = unfolded(desk.card, "clamped")
    for proved in found(desk, "clamped").rows:
        row, band = section.rows[proved.reading.id], proof.band_words(desk.document.job, proved)
        assert row.field.name.text() == band
        assert " " not in QLabel.text(row.field.name)
        assert row.ends.text().casefold() == " to ".join(proof.ends_called(proved.reading, "left"))
        assert row.field.line.accessibleName() == f"{row.ends.text()}: {band}"
