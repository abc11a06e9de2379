"""The pages that words are written on: of a roll, or of paper that is long, as high as a page is for its width."""

import pytest
from msgspec.structs import replace

from export.templates.written.written_pages import _paper
from tests.export.held_drawn.drawn_sums import STAMP


@pytest.mark.parametrize(
    ("name", "width", "height"),
    [
        ("A4", 210.0, 297.0),
        ("Letter", 215.9, 279.4),
        ("300x400", 300.0, 400.0),
        # 1.42 times the width (common practice, no source: a little more than the root of 2)
        ("Legal", 215.9, 306.578),
        ("200x340", 200.0, 284.0),
        ("roll 610", 610.0, 866.2),
    ],
)
def test_a_page_is_no_higher_than_it_is_usual(name: str, width: float, height: float) -> None:
    found = _paper(replace(STAMP, paper=name))
    assert [found.width, found.height] == pytest.approx([width, height])
    assert not found.roll
