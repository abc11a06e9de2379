"""What is far from where the old bridge was is said in bold on the Bridge card, before what else is to be looked at."""

from msgspec.structs import replace

from app.desk.cards.bridge.bridge_card import BridgeCard
from app.desk.cards.table_of_cards import card_with
from tests.app.desk.conftest import OpenDesk, sample


def test_a_bridge_far_from_the_old_one_is_bold_and_first(open_desk: OpenDesk) -> None:
    job = sample("tie-bridge")
    readings = tuple(replace(r, fret=(r.fret or 0) + 1) if r.kind == "fret" else r for r in job.readings)
    desk = open_desk(replace(job, readings=readings))
    desk.cards.open("Bridge")
    assert isinstance(desk.card, BridgeCard)
    shown = [line for line in desk.card.findings.lines if line.isVisible()]
    large = [line for line in shown if line.finding.large]
    assert [line.finding.code for line in large] == ["bridge.far"]
    looks = [line.finding for line in shown if line.finding.grade == "look"]
    assert looks[0].large
    small = next(line for line in shown if not line.finding.large)
    assert small.words_font.weight() < large[0].words_font.weight()


def test_what_is_found_of_the_old_footprint_has_its_place_on_the_card() -> None:
    assert card_with("old") == "Old work"
