"""A number of frets of which the last would lie past the board's end is remarked on where it is typed."""

from app.desk.cards.strings.strings_card import StringsCard
from app.say.figures import progress
from tests.app.desk.cards.conftest import LendDesk
from tests.app.desk.conftest import field, fill, sample


def test_a_count_past_the_boards_end_is_said_under_it(lend_desk: LendDesk) -> None:
    desk = lend_desk(sample("leaning-neck"), "Strings")
    card = desk.card
    assert isinstance(card, StringsCard)
    count, past = field(card, "Number of frets"), card.frets.past
    assert past.isHidden()
    fill(count, "24")
    assert past.isVisibleTo(card)
    assert past.text().startswith("20 lie on the board; the last would lie ")
    assert past.text().endswith(" mm past its end.")
    layout = desk.document.layout
    assert layout is not None
    (found,) = [one for one in layout.findings if one.code == "frets.counted_past_end"]
    assert any(line.finding == found and line.isVisibleTo(card) for line in card.findings.lines)
    assert progress.steps(desk.document.job, layout)["Strings"] == "look again"
    fill(count, "20")
    assert past.isHidden()
