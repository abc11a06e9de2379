"""What is cut off a taped sheet carries no words, and its foot stands clear of the knife (distances: as they were
looked at on the page; no source).
"""

from itertools import permutations
from pathlib import Path

import msgspec
import pytest

from app.file import job_file
from export.drawing.flatten import box
from export.drawing.marks import Line, Text
from export.drawing.typeface import text_box
from export.paper.furniture import in_lines
from export.paper.taped.sides_and_key import SIDES
from export.records import Sheet, Stamp, Turn
from export.templates import all_sheets
from geometry.work_out import work_out


def pages(stamp: Stamp, sample: str, paper: str, turn: Turn, template: str = "placement") -> tuple[Sheet, ...]:
    job = job_file.read(Path("sample_jobs") / f"{sample}.job.json")
    asked = msgspec.structs.replace(stamp, paper=paper, turn=turn, templates=(template,))
    return all_sheets(job, work_out(job), asked)


def cut_at(page: Sheet) -> float:
    """Where a sheet is cut at its left, paper mm."""
    lines = [mark.shape for mark in page.drawing.marks if mark.of == "cut here" and isinstance(mark.shape, Line)]
    (at,) = {line.a[0] for line in lines if line.a[0] == line.b[0]}
    return at


def texts(page: Sheet) -> list[Text]:
    return [mark.shape for mark in page.drawing.marks if isinstance(mark.shape, Text)]


CUT_AT_THE_LEFT = (
    ("small-askew", "Letter"),
    ("turned-left-old-slot", "A4"),
    ("turned-left-old-slot", "Letter"),
    ("turned-left", "Letter"),
)
"""Placements on A1 and A2, where a table once lay across the cut."""


@pytest.mark.parametrize(("sample", "paper"), CUT_AT_THE_LEFT)
def test_no_word_stands_where_the_sheet_is_cut_off(stamp: Stamp, sample: str, paper: str) -> None:
    first, second = pages(stamp, sample, paper, "portrait")[:2]
    assert second.name == "placement A2"
    at = cut_at(second)
    assert at > second.margin
    assert min(text_box(text).x0 for text in texts(second)) > at
    assert min(text_box(text).x0 for text in texts(first)) == pytest.approx(first.margin, abs=1.0)


@pytest.mark.parametrize(("sample", "paper"), CUT_AT_THE_LEFT)
def test_of_sheets_side_by_side_the_first_tells_how_far_the_framed_crosses_are(
    stamp: Stamp, sample: str, paper: str
) -> None:
    """The second has no more words than stand clear of its cut without another line."""
    told = [" ".join(text.text for text in texts(page)) for page in pages(stamp, sample, paper, "portrait")[:2]]
    assert ["framed crosses are" in one for one in told] == [True, False]
    assert "lay it on A1 so that their halves meet." in told[1]


def test_every_sheet_below_another_tells_it_too(stamp: Stamp) -> None:
    """For each covers the foot of the one above."""
    below = pages(stamp, "small-askew", "A4", "portrait", "full-length")
    assert [page.name for page in below] == ["full-length A1", "full-length B1", "full-length C1"]
    for page in below:
        assert "framed crosses are" in " ".join(text.text for text in texts(page))


def test_no_line_ends_in_a_dot_between_two_things() -> None:
    said = [line for line, _, _ in in_lines("Whose it is · of which day", 2.1, 18.0)]
    assert " ".join(said) == "Whose it is of which day"
    assert len(said) > 1


LEVEL = (
    ("leaning-neck", "Letter"),
    ("one-slip", "A4"),
    ("slotted-neck-screw", "Letter"),
)
"""Whose first sheet had one of the words moved off what it would have met, and the other not."""


@pytest.mark.parametrize(("sample", "paper"), LEVEL)
def test_the_words_of_both_sides_are_level(stamp: Stamp, sample: str, paper: str) -> None:
    first = pages(stamp, sample, paper, "portrait", "full-length")[0]
    places = {text.text: text.at for text in texts(first) if text.text in SIDES}
    assert places["BASS"][1] == pytest.approx(places["TREBLE"][1], abs=1.0)
    assert abs(places["BASS"][0] - places["TREBLE"][0]) > 100.0


@pytest.mark.parametrize("sample", ["redrilled-left", "turned-left"])
def test_no_stroke_of_a_cut_runs_through_a_cross(stamp: Stamp, sample: str) -> None:
    """On the last sheet a cross stands aside, and the joining sheet's name beside it."""
    last = pages(stamp, sample, "A4", "landscape", "full-length")[-1]
    lines = {of: [mark.shape for mark in last.drawing.marks if mark.of == of] for of in ("cut here", "cross")}
    strokes, arms = ([box(shape) for shape in lines[of] if isinstance(shape, Line)] for of in ("cut here", "cross"))
    assert strokes
    assert arms
    assert not [1 for stroke in strokes for arm in arms if stroke.meets(arm.grown(0.5))]


@pytest.mark.parametrize(("sample", "paper"), [("small-askew", "Letter"), ("turned-left", "A4")])
def test_no_row_of_a_table_seems_to_run_on_into_the_table_beside_it(stamp: Stamp, sample: str, paper: str) -> None:
    """Lines to write on ended 2.4 mm before the numbers of the next table."""
    last = pages(stamp, sample, paper, "portrait", "full-length")[-1]
    rules = [box(mark.shape) for mark in last.drawing.marks if mark.of == "table" and isinstance(mark.shape, Line)]
    assert len(rules) == 3
    # derived: a table reaches down to the next one under it
    ends = [max((b.y0 for b in rules if b.y0 < a.y0 and b.x0 < a.x1 and a.x0 < b.x1), default=0.0) for a in rules]
    for (a, low), (b, lowest) in permutations(zip(rules, ends, strict=True), 2):
        assert b.x0 - a.x1 > 5.0 or b.x0 < a.x1 or b.y0 < low or a.y0 < lowest
