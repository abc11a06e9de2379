"""Paper sizes and names."""

import pytest

from export.correction import NONE, Correction
from export.errors import ExportError, PaperTooSmall
from export.paper_sizes import PAPERS, paper_named
from export.records import printable_area


@pytest.mark.parametrize(
    ("name", "width", "height"),
    [("A0", 841, 1189), ("A1", 594, 841), ("A2", 420, 594), ("A3", 297, 420), ("A4", 210, 297), ("A5", 148, 210)],
)
def test_iso_sizes(name: str, width: float, height: float) -> None:
    """ISO 216:2007."""
    assert (PAPERS[name].width, PAPERS[name].height) == (width, height)


@pytest.mark.parametrize(
    ("name", "width", "height"),
    [("Letter", 8.5, 11), ("Tabloid", 11, 17), ("ANSI C", 17, 22), ("ANSI D", 22, 34), ("ANSI E", 34, 44)],
)
def test_us_sizes(name: str, width: float, height: float) -> None:
    """ASME Y14.1-2020, sheets A to E, in inches."""
    assert (PAPERS[name].width / 25.4, PAPERS[name].height / 25.4) == pytest.approx((width, height))


def test_names_are_not_fussy_about_capitals() -> None:
    assert paper_named(" letter ") is PAPERS["Letter"]


def test_a_size_of_ones_own() -> None:
    assert paper_named("450 x 320").width == 320
    assert paper_named("13x19 in").height == pytest.approx(19 * 25.4)


def test_a_roll() -> None:
    roll = paper_named("roll 24 in")
    assert roll.roll
    assert roll.width == pytest.approx(609.6)


@pytest.mark.parametrize("name", ["foolscap", "A4x", "", "4 x 6"])
def test_what_is_no_paper_is_refused(name: str) -> None:
    with pytest.raises(ExportError, match="paper"):
        paper_named(name)


def test_paper_smaller_than_its_margins() -> None:
    with pytest.raises(PaperTooSmall, match="no room between margins of 40 mm"):
        printable_area(paper_named("100x150"), 40.0, NONE)


def test_a_stretched_page_keeps_to_its_margins() -> None:
    """derived: with a factor of 1.01 the ground of A4 is (210 - 16) / 1.01 wide."""
    ground = printable_area(PAPERS["A4"], 8.0, Correction(short=1.01))
    assert ground.width == pytest.approx(194 / 1.01)
    assert ground.height == pytest.approx(281)
