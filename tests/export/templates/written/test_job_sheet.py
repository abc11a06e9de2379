"""The job sheet and the check sheet."""

import re
from itertools import pairwise
from pathlib import Path as File

import msgspec
import pytest

from app.edit.bridge import kept_places
from app.edit.start.new_job import begin
from app.file import job_file, samples
from export import cautions, write_all
from export.drawing.flatten import Box
from export.drawing.marks import Drawing, Line, Path, Text
from export.drawing.room.clear_words import words_clear
from export.drawing.typeface import width
from export.paper import flow
from export.paper.flow import SIZE, Column, Flow, Item, fitted
from export.paper.furniture import LEADING
from export.plots import Plot
from export.records import Sheet, Stamp
from export.templates import sheets
from export.templates.written import job_figures, job_results, job_tables, work_steps
from export.templates.written.job_sheet import AS_KEPT, SETTINGS, Place, Setting, _results, _room, _set_out
from export.templates.written.readings_listed import readings_table
from export.templates.written.written_pages import written_ground
from geometry.findings import Finding
from geometry.job import Bridge, Job, Pins, Reading
from geometry.job.measured.kinds import PER_DEGREE
from geometry.job.sides import Side
from geometry.layout import Fit, Layout, Margin, Margins, Metal, Where
from geometry.placed.from_nut import from_nut
from geometry.proof import prove
from geometry.work_out import work_out
from tests.app.desk.conftest import sample
from tests.export import readers
from tests.geometry.proof.proof_read import read


def job_sheet(job: Job, layout: Layout, stamp: Stamp) -> tuple[Sheet, ...]:
    return sheets(job, layout, msgspec.structs.replace(stamp, templates=("job-sheet",)))


def words(pages: tuple[Sheet, ...]) -> list[str]:
    return [m.shape.text for page in pages for m in page.drawing.marks if isinstance(m.shape, Text)]


def test_it_holds_what_the_work_needs(job: Job, layout: Layout, stamp: Stamp) -> None:
    pages = job_sheet(job, layout, stamp)
    said = words(pages)
    work = max(at for at, page in enumerate(pages, 1) if job_tables.OFF_BY in words((page,)))
    assert work <= 2  # what the hands need ends with the readings; figures follow
    for heading in (
        "Job sheet",
        "Before you move anything",
        "What was found",
        "Results",
        "Check before the glue",
        "Strings",
        "Plugs and drills",
        "The work, in order",
        "Readings",
    ):
        assert heading in said
    assert f"page 1 of {len(pages)}" in said
    assert "Job 27, bridge reset · file 4F2A-91" in said


def test_look_first_at_what_must_be_mended(job: Job, layout: Layout, stamp: Stamp) -> None:
    said = words(job_sheet(job, layout, stamp))
    assert said.index("Before you move anything") < said.index("Results")
    assert any(text.startswith("Loose braces") for text in said)
    assert any(text.startswith("Neck angle") for text in said)


def test_results_carry_their_uncertainty(job: Job, layout: Layout) -> None:
    rows = job_results.results(job, layout)
    assert rows[0] == ["Scale", "643.0 mm", "0.6", "equal temperament"]
    assert rows[3] == ["Slant of the saddle", "2.8 mm", "0.3", "bass side farther"]
    assert rows[4] == [
        "Saddle’s place, treble end",
        "644.8 mm",
        "0.6",
        "from the nut, along the neck; 1.6 cents at fret 12",
    ]


def test_the_saddles_height_stands_among_the_results(job: Job, layout: Layout) -> None:
    values = {"over_top.bass": 12.5, "over_top_pm95.bass": 0.42, "over_top.treble": 12.0, "over_top_pm95.treble": 0.42}
    values |= {"projection.bass": 3.1, "degrees.bass": 23.4, "degrees_pm95.bass": 3.6}
    found = Finding(grade="good", code="saddle.height", text="The saddle’s height.", values=values)
    rows = job_results.results(job, msgspec.structs.replace(layout, findings=(*layout.findings, found)))
    assert rows[-1:] == [
        ["Saddle over the top, bass ; treble", "12.5 ; 12.0 mm", "0.5", "3.1 mm over the bridge, breaks by 23 ±4°"],
    ]


@pytest.mark.parametrize(("pm95", "said"), [(3.0, "±3°"), (3.01, "±4°")])
def test_the_angles_plus_minus_is_rounded_up(job: Job, layout: Layout, pm95: float, said: str) -> None:
    values = {"over_top.bass": 12.5, "over_top_pm95.bass": 0.42, "degrees.bass": 23.4, "degrees_pm95.bass": pm95}
    found = Finding(grade="good", code="saddle.height", text="The saddle’s height.", values=values)
    (row,) = job_results.results(job, msgspec.structs.replace(layout, findings=(found,)))[-1:]
    assert row[3] == f"breaks by 23 {said}"


def test_checks_have_a_box_and_a_line(job: Job, layout: Layout) -> None:
    rows = job_tables.checks(job, layout, proved=False)
    assert rows[0] == ["board end, treble edge", "bridge front, treble edge", "186.0 mm", "0.4", "[]", ""]
    assert len(rows) == 4


def test_drills_for_the_holes(job: Job, layout: Layout) -> None:
    """derived: pins of 5.0 less 15/20 are 4.25, under it 4.2 mm or #19 (4.22 mm); old holes of 5.2 are drilled out to
    6 mm or 1/4 in, the next usual plugs.
    """
    rows = {row[0]: row for row in job_tables.holes(job, layout)}
    assert rows["Pin holes, to ream"][1:5] == ["6", "5.0 mm", "4.2 mm", "#19 (4.22 mm)"]
    which = "old pin holes 1, 2, 3, 4, 5 and 6"
    assert rows["Old holes, to plug"][1:] == ["6", "5.2 mm", "6.0 mm", "1/4 in", which]


def test_readings_say_what_was_struck_and_what_is_suspect(job: Job, layout: Layout) -> None:
    readings = (*job.readings[:2], msgspec.structs.replace(job.readings[2], struck=True, why="slipped"))
    rows = job_tables.readings(msgspec.structs.replace(job, readings=readings), layout)
    assert rows[0] == ["r1", "Nut, edge to edge", "43.2", "0.05"]
    assert rows[1][2:] == ["643.2", "−3.10 !"]
    assert rows[2][3] == "struck"


def test_a_question_that_was_answered_says_yes(job: Job, layout: Layout) -> None:
    """In line, the same, square have no value; one still asked is not answered, and a length not read stays empty."""
    line = Reading(id="r1", kind="inline", of=("seam.1",), from_=("nut.left", "end.left"))
    asked = msgspec.structs.replace(line, id="r2", asked=True)
    struck = msgspec.structs.replace(asked, id="r3", struck=True)
    unread = msgspec.structs.replace(job.readings[0], id="r4", value=None)
    rows = job_tables.readings(msgspec.structs.replace(job, readings=(line, asked, struck, unread)), layout)
    assert [row[2] for row in rows] == ["yes", "not answered", "", ""]


def test_inches_are_shown_as_inches(job: Job, layout: Layout) -> None:
    inches = msgspec.structs.replace(job, unit="in")
    assert job_results.results(inches, layout)[0][1] == "25 5/16 in"
    assert job_tables.strings(inches, layout)[0][2:4] == ["0.012 in", "5/64 in"]


def test_a_typed_compensation_stands_as_it_was_typed(job: Job, layout: Layout) -> None:
    assert job.strings is not None
    own = (".081 in", *(None for _ in job.strings.list[1:]))
    typed = msgspec.structs.replace(job, unit="in", strings=msgspec.structs.replace(job.strings, compensation=own))
    assert [row[3] for row in job_tables.strings(typed, layout)][:2] == [".081 in", "3/32 in"]


def test_how_far_a_reading_is_off_is_told_finer_than_a_rule_reads(job: Job, layout: Layout) -> None:
    """derived: 0.05 mm is 0.0020 in and 3.10 mm 0.1220 in; a 64th is 0.0156 in, and would show nought for the first"""
    rows = job_tables.readings(msgspec.structs.replace(job, unit="in"), layout)
    assert [row[3] for row in rows[:2]] == ["0.002", "−0.122 !"]


def test_a_stop_is_said_first_and_bold(job: Job, layout: Layout, stamp: Stamp) -> None:
    stop = Finding(grade="stop", code="x", text="Metal lies under the slot.")
    stopped = msgspec.structs.replace(layout, findings=(*layout.findings, stop))
    marks = [
        m.shape for page in job_sheet(job, stopped, stamp) for m in page.drawing.marks if isinstance(m.shape, Text)
    ]
    (said,) = [text for text in marks if text.text == "STOP. Metal lies under the slot."]
    assert said.bold
    look = next(text for text in marks if text.text.endswith("is 3.1 mm out."))
    assert said.at[1] > look.at[1]


@pytest.mark.parametrize(
    ("typed", "shown"), [("40 ; -457", "40 ; −457"), ("-24.5 ; -.5", "−24.5 ; −.5"), ("25-11/32", "25-11/32")]
)
def test_a_typed_minus_sign_is_as_wide_as_those_of_worked_out_numbers(typed: str, shown: str) -> None:
    assert job_tables.MINUS.sub("−", typed) == shown


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


@pytest.mark.parametrize(
    ("lines", "room", "wanted"),
    [
        ([1, 1, 1, 1, 1, 1], 6, [6]),
        ([1, 1, 1, 1, 1, 1, 1], 6, [4, 3]),  # not a lone one
        ([2, 2, 2, 1], 6, [4, 3]),
        ([3, 2, 2, 2, 2], 9, [7, 4]),
        ([4, 2, 2], 7, [4, 4]),
        ([4, 2], 5, [4, 2]),  # there is no better way
    ],
)
def test_three_lines_of_a_list_at_least_run_over(lines: list[int], room: int, wanted: list[int]) -> None:
    """`lines` of each paragraph on pages that have room for so many lines, and how many stand on each page.
    derived: a line is 2.2 x LEADING high, and 1 mm stands over each paragraph, of which the room here has one a line
    """
    flow = Flow(Box(0.0, 0.0, 60.0, room * (SIZE * LEADING + 1.0)))
    flow.listed("", [Item(" ".join(["nevertheless, as was read above"] * count)) for count in lines])
    texts = [[mark.shape for mark in page if isinstance(mark.shape, Text)] for page in flow.pages]
    assert [len(page) for page in texts] == wanted
    assert flow.lists_parted == len(wanted) - 1


@pytest.mark.parametrize(("left", "pages"), [(5, 1), (4, 2)])
def test_a_lists_heading_goes_with_its_first_three_lines(left: int, pages: int) -> None:
    """Of five lines in three paragraphs the first two and none of the last may stand alone, so all five go together."""
    flow = Flow(Box(0.0, 0.0, 60.0, 100.0))
    head = flow.row + 5.5
    flow.y = head + left * SIZE * LEADING + 3.0 + 0.01
    flow.listed("Steps", [Item(" ".join(["nevertheless, as was read above"] * count)) for count in (1, 1, 3)])
    assert len(flow.pages) == pages
    assert len(flow.pages[-1]) == 1 + 5 + 3, "the heading, the lines and the boxes stand together"


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


@pytest.mark.parametrize("count", [1, 2, 47, 200])
def test_readings_run_down_the_left_half_of_a_page_and_then_the_right(job: Job, layout: Layout, count: int) -> None:
    many = tuple(msgspec.structs.replace(job.readings[0], id=f"q{n}") for n in range(count))
    flow = Flow(Box(0.0, 0.0, 180.0, 120.0), 4.5)
    readings_table(flow, job_tables.readings(msgspec.structs.replace(job, readings=many), layout))
    seen = [
        (page, mark.shape.at[0] > 90.0, -mark.shape.at[1], mark.shape.text)
        for page, marks in enumerate(flow.pages)
        for mark in marks
        if isinstance(mark.shape, Text) and mark.shape.text.startswith("q")
    ]
    assert [text for *_, text in sorted(seen)] == [reading.id for reading in many]
    assert all(-at >= 0.0 for _, _, at, _ in seen)


@pytest.mark.parametrize("fits", range(len(SETTINGS[1]) + 1))
def test_the_roomiest_setting_that_ends_on_two_pages_is_taken(fits: int) -> None:
    """No setting with whole tables ends on two pages, and of the tighter ones those from the `fits`th on; where none
    does, the roomiest of the tighter ones is taken, with whole tables.
    """

    def flowed(setting: Setting) -> tuple[Flow, Place]:
        flow, at = Flow(Box(0.0, 0.0, 100.0, 60.0)), SETTINGS[1].index(setting) if setting in SETTINGS[1] else -1
        flow.pages = [[]] * (2 if at >= fits else 3)
        return flow, (at, 0.0, 1.0, 0.0)

    none = -1  # whole tables need no more pages, here
    assert _set_out(flowed)[1][0] == (fits if fits < len(SETTINGS[1]) else none)


def test_the_settings_grow_ever_tighter() -> None:
    """In rows and in the picture; first with whole tables, then without, where they begin no tighter than allowed."""
    for settings, whole in zip(SETTINGS, (True, False), strict=True):
        assert [one[2] for one in settings] == [whole] * len(settings)
        assert all(a[0] > b[0] and a[1] > b[1] for a, b in pairwise(settings))
    assert SETTINGS[0][-1][0] > SETTINGS[1][-1][0] >= 3.5
    assert SETTINGS[0][-1][1] >= SETTINGS[1][-1][1] >= 24.0


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


@pytest.mark.parametrize("template", ["job-sheet", "before-and-after"])
@pytest.mark.parametrize("name", ["floating-five", "slotted-neck-screw", "slanted-separate", "leaning-neck"])
def test_nothing_is_cut_off_on_small_paper(name: str, template: str, stamp: Stamp) -> None:
    found = sample(name)
    if template == "before-and-after" and found.separate is not None:
        pytest.skip("for a bridge that is glued")
    pages = sheets(found, work_out(found), msgspec.structs.replace(stamp, paper="A5", templates=(template,)))
    for page in pages:
        assert not [m.shape.text for m in page.drawing.marks if isinstance(m.shape, Text) and "…" in m.shape.text]


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


def test_the_steps_name_no_holes_that_are_not_there(job: Job, layout: Layout) -> None:
    assert layout.bridge is not None
    assert any("slot ends, pin holes." in step for step in work_steps.steps(job, layout))
    tied = msgspec.structs.replace(layout, bridge=msgspec.structs.replace(layout.bridge, pins=()))
    steps = [step.replace("old pin holes", "") for step in work_steps.steps(job, tied)]
    assert not any("pin holes" in step or "ream" in step for step in steps)
    blocked = (Metal(name="metal.1", at=(646.0, 30.0), keep_out=40.0),)
    without = msgspec.structs.replace(layout, old=msgspec.structs.replace(layout.old, metal=blocked))
    assert not any("dowels" in step for step in work_steps.steps(job, without))


def test_boxes_and_lines_are_drawn(job: Job, layout: Layout, stamp: Stamp) -> None:
    marks = [m for page in job_sheet(job, layout, stamp) for m in page.drawing.marks]
    boxes = [m for m in marks if isinstance(m.shape, Path) and m.purpose == "dimension" and len(m.shape.vertices) == 4]
    assert len(boxes) >= 4 + len(cautions.BEFORE) + len(work_steps.steps(job, layout))
    assert [m for m in marks if isinstance(m.shape, Line) and m.purpose == "dimension"]


def test_the_picture_keeps_within_the_page(job: Job, layout: Layout, stamp: Stamp) -> None:
    page = job_sheet(job, layout, stamp)[0]
    (body,) = [m.shape for m in page.drawing.marks if m.of == "body" and isinstance(m.shape, Path)]
    assert all(8.0 < x < 202.0 for x, _, _ in body.vertices)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_check_squares_are_true(job: Job, layout: Layout, stamp: Stamp, tmp_path: File, paper: str) -> None:
    asked = msgspec.structs.replace(stamp, templates=("check-sheet",), paper=paper)
    (file,) = write_all(job, layout, asked, tmp_path, ("pdf",))
    squares = [item.points for item in readers.pdf_items(file) if item.closed and len(item.points) >= 4]
    sides = sorted(points[1][0] - points[0][0] for points in squares)
    heights = sorted(points[2][1] - points[1][1] for points in squares)
    assert sides == pytest.approx([152.4, 180.0], abs=0.001)
    assert heights == pytest.approx([152.4, 180.0], abs=0.001)
    said = readers.pdf_words(file)
    assert "corner to corner 254.6 mm" in said  # derived: 180 √2
    assert "corner to corner 8.49 in" in said  # derived: 6 √2


def test_margins_stand_among_the_checks_and_the_bridges_place_among_the_results(job: Job, layout: Layout) -> None:
    assert layout.bridge is not None
    sides: tuple[tuple[Side, float], ...] = (("left", 3.0), ("right", 3.5))
    places: tuple[Where, ...] = ("nut", "fret 12", "board end")
    margins = tuple(
        Margin(place=place, side=side, mm=mm, pm95=0.21, string_xy=(0.0, 0.0), edge_xy=(0.0, 0.0))
        for place in places
        for side, mm in sides
    )
    known = msgspec.structs.replace(
        layout,
        margins=Margins(left=(3.0,), right=(3.5,), at=margins),
        bridge=msgspec.structs.replace(
            layout.bridge, corners_pm95=((0.8, 0.1), (0.7, 0.2)), pins_pm95=((1.0, 0.3),) * len(layout.bridge.pins)
        ),
    )
    rows = job_results.results(job, known)
    by_hand = {job.bass_or_treble(side): mm for side, mm in (("left", "3.0"), ("right", "3.5"))}
    both = f"{by_hand['bass']} ; {by_hand['treble']} mm"
    # the ± is rounded up: never better than it is
    assert job_tables.checks(job, known, proved=False)[-3:] == [
        ["outer strings, bass ; treble", f"board’s edge at {place}", both, "0.3", "[]", ""]
        for place in ("the nut", "fret 12", "the board end")
    ]
    assert [
        "The bridge’s place, corners",
        "",
        "0.8",
        "along the neck, by the sheet on the board; ±0.2 mm across it",
    ] in rows
    assert (
        next(row for row in job_tables.holes(job, known) if row[0].startswith("Pin"))[-1]
        == "placed to ±1.0 along, ±0.3 across"
    )


def test_what_no_reading_checks_across_the_neck_says_so(job: Job, layout: Layout) -> None:
    assert layout.bridge is not None
    sides: tuple[Side, Side] = ("left", "right")
    margins = tuple(
        Margin(place="nut", side=side, mm=3.0, pm95=0.2, string_xy=(0.0, 0.0), edge_xy=(0.0, 0.0), checked=False)
        for side in sides
    )
    bridge = msgspec.structs.replace(layout.bridge, corners_pm95=((0.8, 0.1),), across_checked=False)
    known = msgspec.structs.replace(layout, margins=Margins(left=(3.0,), right=(3.0,), at=margins), bridge=bridge)
    assert job_tables.checks(job, known, proved=False)[-1][1] == "board’s edge at the nut, not checked"
    place = next(row for row in job_results.results(job, known) if row[0].startswith("The bridge’s place"))
    assert place[-1] == "along the neck, by the sheet on the board; ±0.1 mm across it, not checked"


def test_margins_are_not_told_twice(job: Job, layout: Layout) -> None:
    extra = msgspec.structs.replace(layout.checks[0], code="margin.nut.bass")
    rows = job_tables.checks(job, msgspec.structs.replace(layout, checks=(*layout.checks, extra)), proved=False)
    assert len(rows) == len(layout.checks)


def test_the_steps_drill_undersize_and_name_what_is_plugged(job: Job, layout: Layout) -> None:
    """derived: as the drills of the table above."""
    steps = work_steps.steps(job, layout)
    assert (
        "Drill the pin holes undersize, never to their full size (for 5.0 mm: 4.2 mm or #19), and ream each until its "
        "pin seats. Metal, chips and dust: as above."
    ) in steps
    in_inches = work_steps.steps(msgspec.structs.replace(job, unit="in"), layout)
    assert any("(for 13/64 in: #19 or 4.2 mm)" in step for step in in_inches)
    (off,) = [step for step in steps if step.startswith("Take the old bridge off")]
    assert "plug old pin holes 1, 2, 3, 4, 5 and 6." in off
    bare = msgspec.structs.replace(layout, old=msgspec.structs.replace(layout.old, pins=()))
    (off,) = [step for step in work_steps.steps(job, bare) if step.startswith("Take the old bridge off")]
    assert "plug" not in off


def test_a_known_small_end_gives_the_drill(job: Job, layout: Layout) -> None:
    """derived: under 4.7 mm lie 4.6 mm and #13 (0.185 in, 4.699 mm; from memory, ASME B94.11M)."""
    known = msgspec.structs.replace(job, bridge=Bridge(pins=Pins(small_end=4.7)))
    rows = {row[0]: row for row in job_tables.holes(known, layout)}
    assert rows["Pin holes, to ream"][3:5] == ["4.6 mm", "#13 (4.70 mm)"]


def test_it_says_what_may_be_done_now(job: Job, layout: Layout, stamp: Stamp) -> None:
    """The conftest's bridge front and saddle are both known to ±0.7 mm."""
    said = words(job_sheet(job, layout, stamp))
    glue = "Glue the bridge: bass ±0.7 mm; the slot is cut later and takes up ±2.0 mm."
    now = next(at for at, line in enumerate(said) if glue in line)
    assert said.index("Go or wait") < now < said.index("Before you move anything") < said.index("Readings")


def test_the_saddles_place_counts_from_the_nuts_front(layout: Layout) -> None:
    """derived: a nut whose left corner stands 1 mm to the tail of the right one stands 0.917 mm (18 + 21.6 of 43.2) to
    the tail at the left outer string, and 0.083 mm at the right: 644.8 - 0.917, 647.6 - 0.083.
    """
    assert layout.neck is not None
    (_, left), right = layout.neck.nut
    slanted = msgspec.structs.replace(layout.neck, nut=((1.0, left), right))
    places = from_nut(msgspec.structs.replace(layout, neck=slanted))
    assert places == pytest.approx((643.883, 647.517), abs=1e-3)
    assert from_nut(msgspec.structs.replace(layout, neck=None)) is None


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("sample", samples.paths(), ids=lambda path: path.name)
def test_no_sample_runs_over_by_a_few_lines(sample: File, stamp: Stamp, paper: str) -> None:
    """Two pages, or a third with a table of its own, and a fourth where a hundred readings fill that one; the table of
    strings is not torn into a mere row or two.
    """
    job = job_file.read(sample)
    layout = work_out(job)
    pages = job_sheet(job, layout, msgspec.structs.replace(stamp, paper=paper))
    most = 4 if len(job.readings) > 80 else 3
    assert len(pages) == 2 or (len(pages) <= most and len(words(pages[2:])) > 60)
    found_by = {string.compensation_from for string in layout.strings}
    rows = [sum(text.startswith(tuple(found_by)) for text in words((page,))) for page in pages]
    assert sum(rows) == len(layout.strings)
    assert not {1, 2} & set(rows)


@pytest.mark.parametrize(("left", "page"), [(56.01, 0), (55.99, 1)])
def test_the_picture_goes_to_a_new_page_where_it_does_not_fit(left: float, page: int) -> None:
    """derived: 100 by 50 mm is drawn 52 mm high, 2 mm under what stands above and 2 mm above what follows"""
    flow = Flow(Box(10.0, 10.0, 210.0, 290.0))
    flow.y = flow.ground.y0 + left
    found, low, scale, for_words = _room(flow, Box(0.0, 0.0, 100.0, 50.0), 52.0)
    top = flow.ground.y1 if page else flow.ground.y0 + left
    assert found == page
    assert (low, scale, for_words) == pytest.approx((top - 2.0 - 52.0, 1.04, 0.0))
    assert flow.y == pytest.approx(low - 2.0)
    assert flow.y >= flow.ground.y0 - 1e-9


def test_a_wide_picture_keeps_8_mm_on_both_sides() -> None:
    flow = Flow(Box(10.0, 10.0, 210.0, 290.0))
    assert _room(flow, Box(0.0, 0.0, 400.0, 50.0), 52.0)[2] == pytest.approx((200.0 - 16.0) / 400.0)


def leaning() -> tuple[Job, Layout]:
    path = samples.find("leaning-neck")
    assert path is not None
    found = job_file.read(path)
    return found, work_out(found)


def test_the_band_of_a_distance_of_the_proof_is_called_good_within(stamp: Stamp) -> None:
    job, layout = leaning()
    rows = job_tables.proof_rows(job, prove(job, "clamped"))
    assert rows
    assert all(row[3].startswith("±") for row in rows)
    said = words(job_sheet(job, layout, stamp))
    assert said.index("Check before the glue") < said.index("good within") < said.index("Strings beside the board")


def test_figures_that_have_a_page_of_their_own_fill_it(stamp: Stamp) -> None:
    """All but a third of it (what is beautiful; no source)."""
    last = job_sheet(*leaning(), stamp)[-1]
    assert "Figures" in words((last,))
    heights = [mark.shape.at[1] for mark in last.drawing.marks if isinstance(mark.shape, Text)]
    foot = min(heights)
    assert min(y for y in heights if y > foot + 5) - foot < (max(heights) - foot) / 3


@pytest.mark.parametrize(("name", "paper"), [("turned-left", "A4"), ("tie-bridge", "A4"), ("leaning-neck", "Letter")])
def test_no_word_of_the_small_plan_lies_on_a_line(name: str, paper: str, stamp: Stamp) -> None:
    """Only the plan's marks stand for something."""
    job = sample(name)
    (first, *_) = job_sheet(job, work_out(job), msgspec.structs.replace(stamp, paper=paper))
    plan = tuple(mark for mark in first.drawing.marks if mark.of)
    assert any(isinstance(mark.shape, Text) and mark.shape.text == "saddle" for mark in plan)
    assert words_clear(plan) == plan


def test_whether_a_distance_is_too_long_or_too_short_is_not_cut_off(job: Job) -> None:
    """derived: the widest that an inch job says: three figures, a fraction of 64ths, and how far off it is"""
    measured = job_tables.PROOF[-1]
    for said in ("24 57/64 not good: 15/64 in less", "633.75 not good: 12.5 mm more"):
        assert fitted(said, measured) == said
    assert sum(column.width for column in job_tables.PROOF) <= sum(column.width for column in job_tables.CHECKS)
    bands = [row for row in job_tables.proof_rows(job, prove(job, "clamped")) if row]
    assert all(fitted(cell, at) == cell for row in bands for cell, at in zip(row, job_tables.PROOF, strict=True))


@pytest.mark.parametrize(("off", "says"), [(0j, "Good: the bridge is where it belongs."), (3j, "Not good: likeliest")])
def test_it_repeats_where_the_proof_has_the_bridge(off: complex, says: str, stamp: Stamp) -> None:
    job = read(sample("leaning-neck"), off)
    said = " ".join(words(job_sheet(job, work_out(job), stamp)))
    assert f"Read before the glue, 2026-11-28. {says}" in said
    assert re.search(
        r"The bridge stands \d\.\d ±\d\.\d mm too (far from|near to) the nut, \d\.\d ±\d\.\d mm to the", said
    )


def test_it_repeats_what_was_read_as_built_too(stamp: Stamp) -> None:
    job = sample("leaning-neck")
    both = (*read(job).proof, *read(job, stage="built").proof)
    job = msgspec.structs.replace(job, proof=both)
    said = " ".join(words(job_sheet(job, work_out(job), stamp)))
    assert "Read before the glue, 2026-11-28. Good" in said
    assert "Read as built, 2026-11-28. Good" in said


def test_where_too_few_distances_are_read_it_says_nothing_of_the_place(stamp: Stamp) -> None:
    job = read(sample("leaning-neck"))
    (proof,) = job.proof
    job = msgspec.structs.replace(job, proof=(msgspec.structs.replace(proof, readings=proof.readings[:2]),))
    assert "Read before the glue" not in " ".join(words(job_sheet(job, work_out(job), stamp)))


@pytest.mark.parametrize(("residual", "says"), [(0.5, "1.0°"), (-0.5, "−1.0°"), (0.0, "0.0°")])
def test_an_angle_says_which_way_it_is_off(residual: float, says: str) -> None:
    """derived: twice so many degrees as the residual, each as many mm as a degree counts"""
    reading = Reading(id="a", kind="angle", of=("a", "b"), from_=("c", "d"), value=90.0)
    fit = Fit(
        id="a",
        value=0.0,
        adjusted=0.0,
        residual=residual * 2 * PER_DEGREE,
        sigma=0.2,
        redundancy=0.5,
        w=1.0,
        believable=0.7,
    )
    assert job_tables._off(Job(), reading, {"a": fit}, set()) == says
    assert job_tables._off(Job(), reading, {"a": fit}, {"a"}) == f"{says} !"
    assert job_tables._off(Job(), reading, {"a": msgspec.structs.replace(fit, w=None)}, set()) == "–"
    assert job_tables._off(Job(), reading, {}, set()) == ""


def test_what_stands_under_plots_keeps_off_them() -> None:
    """Derived: the line of their titles and 2 mm, their height, and 4 mm below."""
    flow = Flow(Box(0.0, 0.0, 180.0, 250.0))
    plot = Plot(drawing=Drawing(title="", marks=()), size=(80.0, 40.0), says="")
    job_figures._side_by_side(flow, [("One", plot), ("Two", plot)], 90.0, 40.0)
    assert flow.y == pytest.approx(250.0 - (SIZE + 2.0) - (40.0 + 4.0))


def test_a_placement_that_was_brought_back_takes_one_line(stamp: Stamp) -> None:
    job = sample("leaning-neck")
    kept = kept_places.keep(job, work_out(job), "2026-11-29")
    pages = job_sheet(kept, work_out(kept), stamp)
    said = [m.shape.text for page in pages for m in page.drawing.marks if isinstance(m.shape, Text)]
    assert AS_KEPT in said
    assert "the same" not in said
    assert kept.bridge is not None
    wider = msgspec.structs.replace(kept, bridge=msgspec.structs.replace(kept.bridge, length=140.0))
    pages = job_sheet(wider, work_out(wider), stamp)
    said = [m.shape.text for page in pages for m in page.drawing.marks if isinstance(m.shape, Text)]
    assert AS_KEPT not in said
    assert "the same" in said


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


@pytest.mark.parametrize(
    ("strings_on", "begins"), [(True, "Take the old bridge off, clean the footprint"), (False, "Clean the footprint")]
)
def test_a_bridge_that_is_off_is_not_to_be_taken_off(layout: Layout, strings_on: bool, begins: str) -> None:
    """The list for a bridge that is off reads a straightedge over the top at the saddle's place."""
    job = begin(measuring="neck and bridge", strings_on=strings_on)
    (step,) = [step for step in work_steps.steps(job, layout) if "lean the footprint" in step]
    assert step.startswith(begins)
    assert ("Slacken all strings first" in step) == strings_on
