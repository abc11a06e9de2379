"""Tables of the written pages: what is carried over to the next page, and what is set smaller."""

import msgspec
import pytest

from export.drawing.flatten import Box
from export.drawing.marks import Line, Path, Text
from export.drawing.typeface import width
from export.paper import flow
from export.paper.flow import SIZE, Column, Flow, fitted
from export.records import Stamp
from export.templates import sheets
from export.templates.written import job_results
from export.templates.written.job_sheet import _results
from export.templates.written.written_pages import written_ground
from geometry.job import Job
from geometry.layout import Layout
from geometry.work_out import work_out
from tests.app.desk.conftest import sample


def test_a_long_table_runs_over_with_its_heading() -> None:
    flow = Flow(Box(0.0, 0.0, 100.0, 60.0))
    flow.table([Column("no", 20), Column("what", 80)], [[str(n), "x"] for n in range(20)])
    assert len(flow.pages) == 2
    for page in flow.pages:
        assert "what" in [m.shape.text for m in page if isinstance(m.shape, Text)]


def test_no_mere_row_or_two_of_a_table_are_carried_over() -> None:
    """derived: 57 mm hold a heading of 5.5 and ten rows of 5; of 11 rows three go over, of 14 the four that must."""
    for count, wanted in ((10, [10]), (11, [8, 3]), (12, [9, 3]), (14, [10, 4])):
        flow = Flow(Box(0, 0, 100, 57), row=5.0)
        flow.table([Column("a", 50)], [[f"row {i}"] for i in range(count)])
        texts = [[m.shape.text for m in page if isinstance(m.shape, Text)] for page in flow.pages]
        assert [sum(text.startswith("row") for text in page) for page in texts] == wanted


def test_a_heading_is_not_left_alone() -> None:
    flow = Flow(Box(0.0, 0.0, 100.0, 60.0))
    flow.y = 15.0
    flow.heading("Strings")
    assert len(flow.pages) == 2


@pytest.mark.parametrize(("more", "together"), [(0.01, True), (-0.01, False)])
def test_a_short_table_moves_whole_to_the_page_that_has_room_for_it(
    job: Job, layout: Layout, more: float, together: bool
) -> None:
    # derived: a heading is 4.5 + 3.5 + 2.0 high, the table's own 4.5 − 0.9 + 1.4, and each row 4.5
    rows = job_results.results(job, layout)
    flow = Flow(Box(0.0, 0.0, 180.0, 250.0), 4.5)
    flow.y = 10.0 + 5.0 + 4.5 * len(rows) + more
    _results(flow, [("Results", job_results.RESULTS, rows)], whole=True)
    first = [m.shape.text for m in flow.pages[0] if isinstance(m.shape, Text)]
    assert ("Results" in first, rows[-1][0] in first) == (together, together)


def test_what_is_too_wide_is_shortened_visibly() -> None:
    assert fitted("bridge front, bass corner", Column("", 20)).endswith("…")


def laid_in(column: Column, cell: str) -> list[Text]:
    """A table's only cell as it is set."""
    flow = Flow(Box(0.0, 0.0, 100.0, 100.0))
    flow.table([column], [[cell]])
    return [mark.shape for mark in flow.pages[0] if isinstance(mark.shape, Text)]


def test_a_cell_is_set_smaller_then_in_lines_and_no_number_is_cut() -> None:
    room = width("old pin holes", SIZE)
    (whole,) = laid_in(Column("", room + 2.0), "old pin holes")
    (small,) = laid_in(Column("", 0.9 * room + 2.0), "old pin holes")
    lines = laid_in(Column("", 0.7 * room + 2.0), "old pin holes")
    assert whole.height == SIZE
    assert small.height == pytest.approx(0.9 * SIZE)
    assert [line.text for line in lines] == ["old pin", "holes"]
    assert lines[0].at[1] > lines[1].at[1]
    (torn,) = laid_in(Column("", 0.7 * width("10.0 mm", SIZE) + 2.0), "10.0 mm")
    assert torn.text == "10.0 mm"
    assert torn.height == pytest.approx(0.7 * SIZE)


def test_rows_of_several_lines_are_carried_over_whole() -> None:
    """derived: rows of two lines are 4.5 and 1.75 x 0.84 x 2.2 = 3.23 mm high, of which twelve stand on 100 mm below
    the heading's 5 mm and not twenty.
    """
    flow = Flow(Box(0.0, 0.0, 100.0, 100.0))
    flow.table([Column("", 0.7 * width("old pin holes", SIZE) + 2.0)], [["old pin holes"]] * 20)
    texts = [[mark.shape for mark in page if isinstance(mark.shape, Text)] for page in flow.pages]
    assert [len(page) for page in texts] == [2 * 12, 2 * 8]
    assert all(text.at[1] > 0.0 for page in texts for text in page)


def test_a_name_without_end_is_shortened_without_weighing_it_sign_by_sign(monkeypatch: pytest.MonkeyPatch) -> None:
    weighed: list[str] = []

    def counting(text: str, height: float, bold: bool = False) -> float:
        weighed.append(text)
        return width(text, height, bold)

    monkeypatch.setattr(flow, "width", counting)
    full = max(count for count in range(60) if width("x" * count + "…", SIZE) <= 18.0)
    assert fitted("x" * 5000, Column("", 20)) == "x" * full + "…"
    assert len(weighed) < 20


def test_what_is_a_little_too_wide_is_set_smaller() -> None:
    flow = Flow(Box(0.0, 0.0, 100.0, 60.0))
    flow.table([Column("what", 33)], [["bridge front, bass corner"]])
    (text,) = [m.shape for m in flow.pages[0] if isinstance(m.shape, Text) and m.shape.text.startswith("bridge")]
    assert text.text == "bridge front, bass corner"
    assert 0.84 * 2.2 <= text.height < 2.2


@pytest.mark.parametrize("paper", ["A4", "Letter", "A5"])
def test_every_table_ends_where_the_page_does(stamp: Stamp, paper: str) -> None:
    """As the line over the page's foot does; derived: two tables beside each other leave 4 mm between them."""
    job = sample("leaning-neck")
    layout = work_out(job)
    for template in ("job-sheet", "before-and-after"):
        for page in sheets(job, layout, msgspec.structs.replace(stamp, paper=paper, templates=(template,))):
            ground = written_ground(msgspec.structs.replace(stamp, paper=paper))
            middle = (ground.x0 + ground.x1) / 2
            rules = [mark.shape for mark in page.drawing.marks if mark.weight == 0.72 and isinstance(mark.shape, Line)]
            ends = {round(rule.b[0], 3) for rule in rules if rule.a[0] in (ground.x0, middle + 2.0)}
            assert ends <= {round(end, 3) for end in (ground.x1, middle - 2.0)}


@pytest.mark.parametrize("pitch", [3.2, 3.6, 4.5])
def test_words_and_boxes_stand_off_the_lines_of_their_row(pitch: float) -> None:
    """derived: tails reach 0.24 em under the line; of a row 3.2 mm high a box 1.2 mm either way leaves 0.4 mm free."""
    page = Flow(Box(0.0, 0.0, 100.0, 100.0), pitch)
    page.table((Column("to", 50.0), Column("", 10.0)), [["by fret 12, gauge", "[]"]])
    marks = page.pages[0]
    upper, lower = (mark.shape.a[1] for mark in marks if isinstance(mark.shape, Line))
    (word,) = (mark.shape for mark in marks if isinstance(mark.shape, Text) and "gauge" in mark.shape.text)
    tail = word.at[1] - 0.36 * word.height
    assert tail - lower >= 0.25
    assert upper - word.at[1] - word.height >= 0.4
    (ring,) = (mark.shape for mark in marks if isinstance(mark.shape, Path))
    heights = [y for _, y, _ in ring.vertices]
    assert min(heights) - lower == pytest.approx(upper - max(heights))
    assert min(heights) - lower >= 0.4
