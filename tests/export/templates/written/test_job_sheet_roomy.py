"""A job sheet is no more crowded than its pages ask for (counts and heights: as they were looked at; no source)."""

import msgspec
import pytest

from app.file import samples
from export.drawing.marks import Text
from export.paper.flow import SMALL
from export.paper.furniture import marks_box
from export.records import Sheet, Stamp
from export.templates.written.written_pages import written_ground
from tests.export.sample_pages import pages_of


def pages(stamp: Stamp, sample: str, paper: str) -> tuple[Sheet, ...]:
    return pages_of(sample, msgspec.structs.replace(stamp, paper=paper, templates=("job-sheet",)))


def texts(page: Sheet) -> list[Text]:
    return [mark.shape for mark in page.drawing.marks if isinstance(mark.shape, Text)]


@pytest.mark.parametrize(("sample", "paper"), [("turned-left", "Letter"), ("turned-left-old-slot", "A4")])
def test_readings_that_run_over_to_a_third_page_are_not_set_small(stamp: Stamp, sample: str, paper: str) -> None:
    """They were 1.7 mm high, and half of the third page was left empty."""
    made = pages(stamp, sample, paper)
    assert len(made) == 3
    heights = {text.height for page in made for text in texts(page) if text.text == "String over fret 12, bass"}
    assert heights == {SMALL}


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_readings_are_set_near_where_figures_would_else_need_another_page(stamp: Stamp, paper: str) -> None:
    """Of 99 readings the figures have room below at 3.8 mm from row to row at most (tried)."""
    made = pages(stamp, "small-askew", paper)
    assert len(made) == 3
    assert "Figures" in [text.text for text in texts(made[2])]
    assert "Off by" in " ".join(text.text for text in texts(made[2]))


@pytest.mark.parametrize(("sample", "paper"), [("turned-left", "A4"), ("turned-left-old-slot", "A4")])
def test_figures_fill_the_page_they_end(stamp: Stamp, sample: str, paper: str) -> None:
    last = pages(stamp, sample, paper)[-1]
    ground = written_ground(msgspec.structs.replace(stamp, paper=paper))
    above_the_foot = [mark for mark in last.drawing.marks if marks_box([mark]).y0 > ground.y0]
    assert marks_box(above_the_foot).y0 - ground.y0 < 12.0


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("sample", [path.name.removesuffix(".job.json") for path in samples.paths()])
def test_wherever_the_small_plan_says_which_side_is_bass_it_says_which_is_treble(
    stamp: Stamp, sample: str, paper: str
) -> None:
    """At the nut, and at the bridge; the columns of the tables below have no such heads."""
    page = pages(stamp, sample, paper)[0]
    middle = page.paper.height / 2
    said = [text.text for text in texts(page) if text.at[1] > middle]
    assert said.count("bass") == said.count("treble") >= 1


def test_on_narrow_paper_readings_stand_near_enough_to_spare_a_page(stamp: Stamp) -> None:
    """Six pages at the usual 4 mm from row to row (tried)."""
    assert len(pages(stamp, "turned-left-old-slot", "A5")) == 5


@pytest.mark.parametrize(("sample", "paper"), [("turned-left", "A4"), ("turned-left-old-slot", "Letter")])
def test_no_short_table_is_parted_where_that_spares_no_page(stamp: Stamp, sample: str, paper: str) -> None:
    """A table that runs over to another page repeats its heads there."""
    made = pages(stamp, sample, paper)
    assert len(made) == 3
    heads = [text.text for page in made for text in texts(page)]
    assert heads.count("distance") == 2
    assert heads.count("compensation") == 1
    assert heads.count("measured") == 2
    assert heads.count("±") == 3
