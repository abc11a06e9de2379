"""The job sheet: what it holds, and in which order."""

from fractions import Fraction
from itertools import pairwise

import msgspec
import pytest

from app.edit.bridge import kept_places
from app.edit.start.new_job import begin
from app.file import job_file, samples
from export import cautions
from export.drawing.flatten import Box
from export.drawing.marks import Drawing, Line, Path, Text
from export.paper.flow import SIZE, Flow
from export.paper.furniture import marks_box
from export.plots import Plot
from export.records import Sheet, Stamp
from export.templates import TEMPLATES, saddle_place, sheets
from export.templates.written import job_figures, job_results, job_tables, old_work_told, work_steps
from export.templates.written.job_sheet import SETTINGS, Place, Setting, _set_out
from geometry import go_or_wait
from geometry.findings import Finding
from geometry.go_or_wait.told_once import told_of
from geometry.job import Bridge, Job, Old, OldPin, Pins
from geometry.job.sides import Side
from geometry.layout import Layout, Margin, Margins, Metal, Where
from geometry.old_work.holes.old_holes_told import hole_called, new_called
from geometry.work_out import work_out
from tests.app.desk.conftest import sample
from tests.export.sample_pages import laid, pages_of
from tests.geometry.go_or_wait.test_what_if import long_job


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
    assert rows[3] == ["Slant of the saddle, at the strings", "2.8 mm", "0.3", "bass side farther"]
    assert rows[4][0] == "Saddle’s place, bass end"  # the bass side stands first, whatever the hand
    assert rows[5] == [
        "Saddle’s place, treble end",
        "644.8 mm",
        "0.6",
        "from the nut, along the neck; 1.6 cents at fret 12",
    ]


@pytest.mark.parametrize("name", ["five-pairs", "leaning-neck", "one-slip", "small-askew", "tie-bridge", "turned-left"])
def test_slant_and_nut_make_up_what_parts_the_two_places(name: str) -> None:
    """derived: a place is its distance from the nut and how far the nut lies there, bass less treble"""
    job, layout = laid(name)
    rows = {row[0]: row for row in job_results.results(job, layout)}
    bass, treble = (_in_64ths_or_mm(rows[f"Saddle’s place, {side} end"][1]) for side in ("bass", "treble"))
    _, slant, _, says = rows["Slant of the saddle, at the strings"]
    longer, _, nut = says.partition("; the nut’s ")
    bass_farther = {"bass side farther": 1, "treble side farther": -1, "square to the neck": 0}[longer]
    nuts = _in_64ths_or_mm(nut.split(" side ")[1].removesuffix(" nearer to the bridge")) if nut else 0.0
    own = nuts if nut.startswith("treble") else -nuts
    assert bass - treble == pytest.approx(bass_farther * _in_64ths_or_mm(slant) + own, abs=1e-9)
    assert bool(nut) is (name != "turned-left")  # its nut is out of square by less than a 64th
    below = [line for line, _ in saddle_place.table(job, layout, "end").below]
    assert [line for line in below if "nut’s" in line] == ([f"The nut’s {nut}."] if nut else [])


def _in_64ths_or_mm(length: str) -> float:
    return sum(float(Fraction(part)) for part in length.split()[:-1])


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
    which = "sizes of the plug: old pin holes 1, 2, 3, 4, 5 and 6"
    assert rows["Old holes, to plug"][1:] == ["6", "5.2 mm", "6.0 mm", "1/4 in", which]


def test_inches_are_shown_as_inches(job: Job, layout: Layout) -> None:
    inches = msgspec.structs.replace(job, unit="in")
    assert job_results.results(inches, layout)[0][1] == "25 5/16 in"
    assert job_tables.strings(inches, layout)[0][2:4] == ["0.012 in", "5/64 in"]


def test_a_typed_compensation_stands_as_it_was_typed(job: Job, layout: Layout) -> None:
    assert job.strings is not None
    own = (".081 in", *(None for _ in job.strings.list[1:]))
    typed = msgspec.structs.replace(job, unit="in", strings=msgspec.structs.replace(job.strings, compensation=own))
    assert [row[3] for row in job_tables.strings(typed, layout)][:2] == [".081 in", "3/32 in"]


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


def test_what_fits_two_pages_in_the_roomiest_setting_is_set_so() -> None:
    tried: list[Setting] = []

    def flowed(setting: Setting) -> tuple[Flow, Place]:
        tried.append(setting)
        return Flow(Box(0.0, 0.0, 100.0, 60.0)), (len(tried), 0.0, 1.0, 0.0)

    assert _set_out(flowed)[1][0] == 1
    assert tried == [SETTINGS[0][0]]


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


def test_a_tighter_row_is_taken_where_it_saves_a_sheet() -> None:
    """The roomiest leaves the figures 50 mm on its fifth page, the tightest on its fourth: there it is a sheet less."""

    def flowed(setting: Setting) -> tuple[Flow, Place]:
        flow, tightest = Flow(Box(0.0, 0.0, 100.0, 60.0)), setting[0] == SETTINGS[1][-1][0]
        flow.pages = [[]] * (4 if tightest else 5)
        flow.y = 55.0
        return flow, (int(tightest), 0.0, 1.0, 0.0)

    assert _set_out(flowed, 50.0)[1][0] == 1


def test_what_asks_for_nothing_stands_beside_a_dash_and_not_beside_a_box(
    job: Job, layout: Layout, stamp: Stamp
) -> None:
    """In the line of the words, left of them: a box is an outline 3.0 mm high, a dash filled, 0.3 mm."""
    said = {"strings.wound": "How it stretches is estimated.", "board.unlooked": "Lay a straightedge along."}
    found = tuple(Finding(grade="look", code=code, text=text) for code, text in said.items())
    page = job_sheet(job, msgspec.structs.replace(layout, findings=found), stamp)[0].drawing.marks
    for code, (filled, high) in {"strings.wound": (True, 0.3), "board.unlooked": (False, 3.0)}.items():
        (words,) = [m.shape for m in page if isinstance(m.shape, Text) and m.shape.text == said[code]]
        signs = [(m, marks_box([m])) for m in page if isinstance(m.shape, Path)]
        (beside,) = [
            (m.filled, round(box.height, 2))
            for m, box in signs
            if box.x1 < words.at[0] and box.width < 4.0 and box.y0 < words.at[1] + 1.1 < box.y1
        ]
        assert beside == (filled, high)


def test_the_settings_grow_ever_tighter() -> None:
    """In rows and in the picture; first with whole tables, then without, where they begin no tighter than allowed."""
    for settings, whole in zip(SETTINGS, (True, False), strict=True):
        assert [one[2] for one in settings] == [whole] * len(settings)
        assert all(a[0] > b[0] and a[1] > b[1] for a, b in pairwise(settings))
    assert SETTINGS[0][-1][0] > SETTINGS[1][-1][0] >= 3.5
    assert SETTINGS[0][-1][1] >= SETTINGS[1][-1][1] >= 24.0


@pytest.mark.parametrize("template", ["job-sheet", "before-and-after"])
@pytest.mark.parametrize("name", ["floating-five", "slotted-neck-screw", "slanted-separate", "leaning-neck"])
def test_nothing_is_cut_off_on_small_paper(name: str, template: str, stamp: Stamp) -> None:
    found = sample(name)
    if template == "before-and-after" and found.separate is not None:
        pytest.skip("for a bridge that is glued")
    pages = sheets(found, work_out(found), msgspec.structs.replace(stamp, paper="A5", templates=(template,)))
    for page in pages:
        assert not [m.shape.text for m in page.drawing.marks if isinstance(m.shape, Text) and "…" in m.shape.text]


def test_the_steps_name_no_holes_that_are_not_there(job: Job, layout: Layout) -> None:
    assert layout.bridge is not None
    assert any("slot ends, pin holes." in step for step in work_steps.steps(job, layout, TEMPLATES))
    tied = msgspec.structs.replace(layout, bridge=msgspec.structs.replace(layout.bridge, pins=()))
    steps = [step.replace("old pin holes", "") for step in work_steps.steps(job, tied, TEMPLATES)]
    assert not any("pin holes" in step or "ream" in step for step in steps)
    blocked = (Metal(name="metal.1", at=(646.0, 30.0), keep_out=40.0),)
    without = msgspec.structs.replace(layout, old=msgspec.structs.replace(layout.old, metal=blocked))
    assert not any("dowels" in step for step in work_steps.steps(job, without, TEMPLATES))


def test_boxes_and_lines_are_drawn(job: Job, layout: Layout, stamp: Stamp) -> None:
    marks = [m for page in job_sheet(job, layout, stamp) for m in page.drawing.marks]
    boxes = [m for m in marks if isinstance(m.shape, Path) and m.purpose == "dimension" and len(m.shape.vertices) == 4]
    assert len(boxes) >= 4 + len(cautions.BEFORE) + len(work_steps.steps(job, layout, TEMPLATES))
    assert [m for m in marks if isinstance(m.shape, Line) and m.purpose == "dimension"]


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
        == "placed to ±1.0 mm along, ±0.3 mm across"
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
    steps = work_steps.steps(job, layout, TEMPLATES)
    assert (
        "Drill the pin holes undersize, never to their full size (for 5.0 mm: 4.2 mm or #19), and ream each until its "
        "pin seats. Metal, chips and dust: as above."
    ) in steps
    in_inches = work_steps.steps(msgspec.structs.replace(job, unit="in"), layout, TEMPLATES)
    assert any("(for 13/64 in: #19 or 4.2 mm)" in step for step in in_inches)
    (off,) = [step for step in steps if step.startswith("Take the old bridge off")]
    assert "plug old pin holes 1, 2, 3, 4, 5 and 6." in off
    bare = msgspec.structs.replace(layout, old=msgspec.structs.replace(layout.old, pins=()))
    (off,) = [step for step in work_steps.steps(job, bare, TEMPLATES) if step.startswith("Take the old bridge off")]
    assert "plug" not in off


def test_a_known_small_end_gives_the_drill(job: Job, layout: Layout) -> None:
    """derived: under 4.7 mm lie 4.6 mm and #13 (0.185 in, 4.699 mm; from memory, ASME B94.11M-1993)."""
    known = msgspec.structs.replace(job, bridge=Bridge(pins=Pins(small_end=4.7)))
    rows = {row[0]: row for row in job_tables.holes(known, layout)}
    assert rows["Pin holes, to ream"][3:5] == ["4.6 mm", "#13 (4.70 mm)"]


def test_it_says_what_may_be_done_now(job: Job, layout: Layout, stamp: Stamp) -> None:
    """The conftest's bridge front and saddle are both known to ±0.7 mm."""
    said = words(job_sheet(job, layout, stamp))
    glue = "Glue the bridge: its place at bass is known to ±0.7 mm."
    now = next(at for at, line in enumerate(said) if glue in line)
    assert said.index("Go or wait") < now < said.index("Before you move anything") < said.index("Readings")


@pytest.mark.parametrize(
    ("name", "says"),
    [("leaning-neck", "go go wait wait wait"), ("turned-left-old-slot", "wait stop wait stop")],
)
def test_go_or_wait_is_a_line_for_each_operation(stamp: Stamp, name: str, says: str) -> None:
    """Behind its word at the margin: go; wait for what is not known well enough; stop (derived from
    the steps told).
    """
    job = sample(name)
    layout = work_out(job)
    steps = told_of(job, layout).steps
    texts = [mark.shape for mark in job_sheet(job, layout, stamp)[0].drawing.marks if isinstance(mark.shape, Text)]
    (left, top), (_, low) = (
        next(text.at for text in texts if text.text == head) for head in ("Go or wait", "Before you move anything")
    )
    own = [text for text in texts if low < text.at[1] < top]
    at_margin = [text for text in own if text.at[0] == pytest.approx(left)]
    assert [text.text for text in at_margin] == says.split()
    for step, word in zip(steps, at_margin, strict=True):
        (first,) = (text for text in own if text is not word and text.at[1] == word.at[1])
        assert go_or_wait.told(job, step, steps).startswith(first.text.rstrip())


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("sample", [job_file.name_of(path) for path in samples.paths()])
def test_no_sample_runs_over_by_a_few_lines(sample: str, stamp: Stamp, paper: str) -> None:
    """Two pages, or a third with a table of its own, and a fourth where a hundred readings fill that one; the table of
    strings is not torn into a mere row or two.
    """
    job, layout = laid(sample)
    pages = pages_of(sample, msgspec.structs.replace(stamp, paper=paper, templates=("job-sheet",)))
    most = 4 if len(job.readings) > 80 else 3
    assert len(pages) == 2 or (len(pages) <= most and len(words(pages[2:])) > 60)
    found_by = {string.compensation_from for string in layout.strings}
    rows = [sum(text.startswith(tuple(found_by)) for text in words((page,))) for page in pages]
    assert sum(rows) == len(layout.strings)
    assert not {1, 2} & set(rows)


def leaning() -> tuple[Job, Layout]:
    path = samples.find("leaning-neck")
    assert path is not None
    found = job_file.read(path)
    return found, work_out(found)


def test_figures_that_have_a_page_of_their_own_fill_it(stamp: Stamp) -> None:
    """All but a third of it (what is beautiful; no source)."""
    last = job_sheet(*leaning(), stamp)[-1]
    assert "Figures" in words((last,))
    heights = [mark.shape.at[1] for mark in last.drawing.marks if isinstance(mark.shape, Text)]
    foot = min(heights)
    assert min(y for y in heights if y > foot + 5) - foot < (max(heights) - foot) / 3


def test_what_stands_under_plots_keeps_off_them() -> None:
    """Derived: the line of their titles and 2 mm, their height, and 4 mm below."""
    flow = Flow(Box(0.0, 0.0, 180.0, 250.0))
    plot = Plot(drawing=Drawing(title="", marks=()), size=(80.0, 40.0), says="")
    job_figures._side_by_side(flow, [("One", plot), ("Two", plot)], 90.0, 40.0)
    assert flow.y == pytest.approx(250.0 - (SIZE + 2.0) - (40.0 + 4.0))


def test_a_placement_that_was_brought_back_takes_no_room(stamp: Stamp) -> None:
    job = sample("leaning-neck")
    kept = kept_places.keep(job, work_out(job), "2026-11-29")
    pages = job_sheet(kept, work_out(kept), stamp)
    said = [m.shape.text for page in pages for m in page.drawing.marks if isinstance(m.shape, Text)]
    assert not any(text.startswith("Beside the placement") for text in said)
    assert kept.bridge is not None
    wider = msgspec.structs.replace(kept, bridge=msgspec.structs.replace(kept.bridge, length=140.0))
    pages = job_sheet(wider, work_out(wider), stamp)
    said = [m.shape.text for page in pages for m in page.drawing.marks if isinstance(m.shape, Text)]
    assert "Beside the placement “Placement 1”, kept 2026-11-29. Lengths in mm" in said
    assert "the same" in said


@pytest.mark.parametrize(
    ("strings_on", "begins"), [(True, "Take the old bridge off, clean the footprint"), (False, "Clean the footprint")]
)
@pytest.mark.parametrize("measuring", ["bridge only", "neck and bridge"])
def test_a_bridge_that_is_off_is_not_to_be_taken_off(
    layout: Layout, measuring: str, strings_on: bool, begins: str
) -> None:
    job = begin(measuring=measuring, strings_on=strings_on)
    (step,) = [step for step in work_steps.steps(job, layout, TEMPLATES) if "lean the footprint" in step]
    assert step.startswith(begins)
    assert ("Slacken all strings first" in step) == strings_on


@pytest.mark.parametrize(("told", "off"), [(None, True), (True, True), (False, False)])
def test_what_is_told_of_the_bridge_outranks_what_the_readings_say(told: bool | None, off: bool) -> None:
    """The list for a bridge that is off reads a straightedge over the top at the saddle's place."""
    job = begin(measuring="neck and bridge", strings_on=False)
    assert msgspec.structs.replace(job, bridge_off=told).is_bridge_off == off


def test_what_is_on_no_placement_template_says_on_which_it_is(job: Job, layout: Layout) -> None:
    """The dowels and the line that the finish is cleared to; the templates are called so in the list of templates."""
    titles = {template.title for template in TEMPLATES.values()}
    steps = " ".join(work_steps.steps(job, layout, TEMPLATES))
    assert "within the line on “Finish clearing”" in steps
    assert "drill for the dowels by the template “Bridge”" in steps
    (dowel,) = [row for row in job_tables.holes(job, layout) if row[0] == "Locating dowels"]
    assert dowel[-1] == "on template “Bridge”"
    assert {"Finish clearing", "Bridge"} <= titles


def test_the_least_wood_beside_old_holes_says_between_which_two_it_is() -> None:
    """Old pin holes 1 and 6 were read of a row of 6: the four between are taken as evenly spaced."""
    job = long_job()
    pins = {"pin.1": OldPin(diameter="3/16 in"), "pin.6": OldPin(diameter="3/16 in")}
    job = msgspec.structs.replace(job, old=Old(pins=pins, row=6))
    layout = work_out(job)
    assert layout.consequences is not None
    free = [hole for hole in layout.consequences.holes if not hole.cut_by and not hole.used_by]
    hole = min(free, key=lambda one: one.walls[0].mm - one.walls[0].pm95)
    said = next(text for text in old_work_told.paragraphs(job, layout) if text.startswith("Old holes: "))
    assert "to another" not in said
    assert f"Least wood, between {hole_called(job, hole.hole)} and {new_called(hole.walls[0].new)}: " in said
    assert "4 holes between those that were read are taken as evenly spaced." in said


def test_the_columns_beside_a_kept_placement_are_told_apart() -> None:
    heads = [column.heading for column in job_tables.KEPT]
    assert heads == ["", "kept", "now", "difference"]
