"""Templates of a floating bridge and of a tail, read back from PDF, DXF and SVG by software that did not write them."""

import datetime
import math
from pathlib import Path as File

import msgspec
import pytest
from msgspec.structs import replace
from shapely.geometry import LineString, Point, Polygon

from app.file import job_file, samples
from export import cautions, write_all
from export.drawing.marks import XY, Circle, Line, Text
from export.drawing.marks import Path as Outline
from export.drawing.typeface import shown, text_box, text_corners
from export.errors import ExportError
from export.machine.machine_file import MachineSettings, machine_drawing
from export.records import Figure, Stamp
from export.templates import SAME_PAGE, TEMPLATES, asked_for, figure_of, sheets
from export.templates.standing.crown import break_place
from export.templates.to_be_read_first import warnings_of
from export.templates.written import job_results, job_tables, work_steps
from geometry.job import Bridge, Job, Saddle
from geometry.layout import Layout, Ray
from geometry.work_out import work_out
from tests.export import readers

NEAR = 0.001
NAMES = ("bridge-place", "crown", "tailpiece")
ALSO = ("placement", "full-length")
STAMP = Stamp(date=datetime.date(2026, 1, 2), fingerprint="0000-00")


@pytest.fixture(scope="module")
def job() -> Job:
    path = samples.find("floating-five")
    assert path is not None
    return job_file.read(path)


@pytest.fixture(scope="module")
def layout(job: Job) -> Layout:
    return work_out(job)


def figure(name: str, job: Job, layout: Layout) -> Figure:
    draw = TEMPLATES[name].draw
    assert draw is not None
    return draw(job, layout, STAMP)


def wanted(name: str, layout: Layout) -> list[XY]:
    """The places that a template must show."""
    assert layout.floating is not None
    assert layout.saddle is not None
    assert layout.tail is not None
    if name == "crown":
        return list(layout.saddle.slot)
    if name == "tailpiece":
        return [(hole.at[0] + hole.diameter / 2, hole.at[1]) for hole in layout.tail.screws]
    return [corner for foot in layout.floating.feet for corner in foot.corners]


def stamped(name: str) -> Stamp:
    return msgspec.structs.replace(STAMP, templates=(name,))


@pytest.mark.parametrize("name", [*NAMES, *ALSO])
def test_a_pdf_has_every_place(name: str, job: Job, layout: Layout, tmp_path: File) -> None:
    (file,) = write_all(job, layout, stamped(name), tmp_path, ("pdf",))
    found = 0
    for number, page in enumerate(sheets(job, layout, stamped(name)), 1):
        assert page.transform is not None
        points = [at for item in readers.pdf_items(file) if item.where == str(number) for at in item.points]
        found += sum(readers.nearest(points, page.transform.xy(at)) < NEAR for at in wanted(name, layout))
    assert found >= len(wanted(name, layout))


@pytest.mark.parametrize("kind", ["dxf", "svg"])
@pytest.mark.parametrize("name", NAMES)
def test_a_machines_file_has_every_place(name: str, kind: str, job: Job, layout: Layout, tmp_path: File) -> None:
    (file,) = write_all(job, layout, stamped(name), tmp_path, (kind,))
    drawn = machine_drawing(figure(name, job, layout), layout, MachineSettings(), job.title, warnings_of(job, layout))
    points = readers.all_points(readers.dxf_items(file) if kind == "dxf" else readers.svg_items(file))
    places = [drawn.transform.xy(at) for at in wanted(name, layout)]
    assert max(readers.nearest(points, at) for at in places) < NEAR


@pytest.mark.parametrize("name", NAMES)
def test_a_moved_foot_would_be_seen(name: str, job: Job, layout: Layout, tmp_path: File) -> None:
    (file,) = write_all(job, layout, stamped(name), tmp_path, ("pdf",))
    (page, *_) = sheets(job, layout, stamped(name))
    assert page.transform is not None
    points = readers.all_points(readers.pdf_items(file))
    off = [page.transform.xy((x + 0.7, y + 0.3)) for x, y in wanted(name, layout)]
    assert max(readers.nearest(points, at) for at in off) > 0.2


@pytest.mark.parametrize(("thick", "high"), [(3.0, 1.8), (6.0, 2.4)])
def test_the_sides_letters_fit_into_the_crowns_strip(thick: float, high: float, job: Job) -> None:
    """derived: six tenths of its thickness, 2.4 mm at most"""
    thin = replace(job, saddle=replace(job.saddle or Saddle(), thickness=thick))
    marks = figure("crown", thin, work_out(thin)).marks
    letters = [m.shape for m in marks if m.of == "crown" and isinstance(m.shape, Text) and m.shape.text in "BT"]
    assert [text.height for text in letters] == pytest.approx([high, high])


@pytest.mark.parametrize("name", NAMES)
def test_it_says_its_sides_the_nut_and_the_cautions(name: str, job: Job, layout: Layout, tmp_path: File) -> None:
    (file,) = write_all(job, layout, stamped(name), tmp_path, ("pdf",))
    said = " ".join(readers.pdf_words(file).split())
    for word in ("BASS", "TREBLE", "to the nut", "lay a rule on it: 150"):
        assert word in said
    for caution in cautions.of_template(name, "strings"):
        assert " ".join(shown(caution).split()) in said


def test_the_bridges_place_says_its_window_and_its_plus_or_minus(job: Job, layout: Layout, tmp_path: File) -> None:
    (file,) = write_all(job, layout, stamped("bridge-place"), tmp_path, ("pdf",))
    said = " ".join(readers.pdf_words(file).split())
    assert "slide ±" in said
    assert "It may be turned by ±" in said
    assert "for 1 mm" in said
    assert "board end to bridge front" in said


def test_a_stop_stands_on_it(job: Job, tmp_path: File) -> None:
    assert job.floating is not None
    long = msgspec.structs.replace(job, floating=msgspec.structs.replace(job.floating, length=290))
    (file,) = write_all(long, work_out(long), stamped("bridge-place"), tmp_path, ("pdf",))
    assert "STOP" in readers.pdf_words(file)


def test_the_window_stands_as_far_before_and_behind_as_it_is_wide(job: Job, layout: Layout) -> None:
    assert layout.floating is not None
    assert layout.bridge is not None
    lines = [
        mark.shape
        for mark in figure("bridge-place", job, layout).marks
        if mark.of == "bridge" and mark.purpose == "lay" and isinstance(mark.shape, Line)
    ]
    front_left, front_right, back_right, back_left = layout.bridge.corners
    left, right = layout.floating.window
    starts = [(front_left[0] - left, front_left[1]), (back_left[0] + left, back_left[1])]
    starts += [(front_right[0] - right, front_right[1]), (back_right[0] + right, back_right[1])]
    assert len(lines) == 4
    for line, at in zip(sorted(lines, key=lambda line: line.a), sorted(starts), strict=True):
        assert line.a == pytest.approx(at)


def test_every_string_breaks_on_the_crown_where_its_peak_is(job: Job, layout: Layout) -> None:
    """derived: a share of the crown's thickness behind its front edge; at the string's own place across"""
    assert layout.saddle is not None
    marks = figure("crown", job, layout).marks
    for string in layout.strings:
        along, back = break_place(string, layout.saddle)
        assert back == pytest.approx(4.0 * string.peak, abs=1e-9)
        assert 0 < along < 60.0
        (ridge,) = [
            mark.shape
            for mark in marks
            if mark.of == f"string:{string.name}" and mark.purpose == "mark" and isinstance(mark.shape, Line)
        ]
        middle = (ridge.a[0] + ridge.b[0]) / 2, (ridge.a[1] + ridge.b[1]) / 2
        assert middle[1] == pytest.approx(string.break_point[1], abs=0.02)
        # the peak lies in the crown, where the string asks for it if it can
        assert abs(middle[0] - string.break_point[0]) < 0.02


def test_the_tails_strings_end_about_its_true_middle(job: Job, layout: Layout) -> None:
    assert layout.tail is not None
    marks = figure("tailpiece", job, layout).marks
    ends = [mark.shape.b for mark in marks if mark.of.startswith("string:") and isinstance(mark.shape, Line)]
    high, low = max(y for _, y in ends), min(y for _, y in ends)
    assert (high + low) / 2 == pytest.approx(layout.tail.middle[1], abs=1e-9)
    assert high - low == pytest.approx(36.0, abs=1e-9)
    today = [mark.shape for mark in marks if mark.of == "tail today" and isinstance(mark.shape, Circle)]
    assert [circle.centre for circle in today] == [string.at for string in layout.tail.strings]


def test_the_tails_table_says_how_sure_its_angles_and_its_pull_are(job: Job, layout: Layout) -> None:
    """derived: 9 mm under and 56 to 60 behind, the first read to 0.5 mm: 1.96 * 0.5 * cos²(8.5°) / 60 to 56 is 0.92° to
    0.98°, rounded up
    """
    (table,) = (table for table in figure("tailpiece", job, layout).tables if table.title.startswith("Over the crown"))
    assert {row[2].partition(" ±")[2] for row in table.rows} == {"1.0°"}
    assert layout.tail is not None
    pulls = f"{abs(layout.tail.push or 0.0):.1f} ±{layout.tail.push_pm95:.1f} N."
    assert [words for words, _ in table.below if "pulls" in words] == [
        f"As it hangs today it pulls the bridge to the treble by {pulls}"
    ]


def test_a_tail_that_hangs_true_is_not_said_to_pull(job: Job, layout: Layout) -> None:
    assert layout.tail is not None
    true = msgspec.structs.replace(layout.tail, off=0.1, off_pm95=0.4, push=0.5, push_pm95=1.8)
    tables = figure("tailpiece", job, msgspec.structs.replace(layout, tail=true)).tables
    assert not any("pulls" in words for table in tables for words, _ in table.below)


def test_old_foot_marks_are_drawn_as_they_were(job: Job, layout: Layout) -> None:
    assert [mark.purpose for mark in figure("bridge-place", job, layout).marks if mark.of == "mark"] == ["before"]


@pytest.mark.parametrize(("name", "says"), [("bridge-place", "held by the strings"), ("crown", "held by the strings")])
def test_other_bridges_have_none(name: str, says: str, job: Job) -> None:
    glued = msgspec.structs.replace(job, floating=None, bridge=Bridge())
    with pytest.raises(ExportError, match=says):
        figure(name, glued, work_out(glued))


@pytest.mark.parametrize("name", ["bridge", "clearing", "plate"])
def test_a_floating_bridge_has_none_of_a_glued_ones(name: str, job: Job, layout: Layout) -> None:
    with pytest.raises(ExportError, match="held by the strings"):
        figure(name, job, layout)


@pytest.mark.parametrize("name", NAMES)
def test_what_is_lacking_is_said_in_a_sentence(name: str, job: Job) -> None:
    bare = msgspec.structs.replace(job, readings=())
    with pytest.raises(ExportError, match=r"^The "):
        figure(name, bare, work_out(bare))


def test_the_steps_of_the_work_carry_their_cautions(job: Job, layout: Layout) -> None:
    steps = " ".join(work_steps.steps(job, layout, TEMPLATES))
    for text in (cautions.SLACK, cautions.DRILLED.text, cautions.TENSION.text, cautions.DUST.text):
        assert steps.count(text) == 1  # in full where it is first met
    assert "Metal, chips, a firm hold and dust: as above." in steps  # the strap pin's, after the tail's


def test_a_bridge_that_is_off_is_stood_up_and_one_that_stands_is_slid(job: Job, layout: Layout) -> None:
    """By the strings' heights this one stands; once a new one's feet are read it stands again."""
    assert layout.floating is not None
    feet = layout.floating.today
    assert feet is not None
    nowhere = replace(layout, floating=replace(layout.floating, today=None))
    off, stands = replace(job, bridge_off=True), "Let the strings down until the bridge can just be slid."
    for one, there, slid in ((job, layout, True), (job, nowhere, True), (off, nowhere, False), (off, layout, True)):
        steps = " ".join(work_steps.steps(one, there, TEMPLATES))
        assert (stands in steps) == slid
        assert ("Take the strings off and hold the tailpiece" in steps) == slid
        assert ("hold the bridge while you put the strings on" in steps) != slid


@pytest.mark.parametrize("name", ["placement", "bridge-place"])
def test_the_place_is_at_hand_under_either_of_its_names(name: str, job: Job, layout: Layout) -> None:
    first, *_ = work_steps.steps(job, layout, (name, "tailpiece", "crown"))
    assert "Needed below" not in first
    first, *_ = work_steps.steps(job, layout, ("tailpiece", "crown"))
    assert "not printed with this sheet: “Bridge’s place”." in first


def test_the_job_sheet_lists_the_tails_holes(job: Job, layout: Layout) -> None:
    names = [row[0] for row in job_tables.holes(job, layout)]
    assert names == ["Tail, screw 1", "Strap pin"]


def test_the_same_page_is_written_once(job: Job, layout: Layout, tmp_path: File) -> None:
    both = msgspec.structs.replace(STAMP, templates=("placement", "bridge-place", "full-length"))
    told: list[str] = []
    files = write_all(job, layout, both, tmp_path, ("pdf", "dxf"), left_out=told.append)
    assert {file.stem for file in files} == {"bridge-place", "full-length"}
    assert told == [SAME_PAGE]
    assert [file.stem for file in write_all(job, layout, stamped("placement"), tmp_path, ("pdf",))] == ["placement"]
    glued = msgspec.structs.replace(job, floating=None, bridge=Bridge())
    assert [one.name for one in asked_for(glued, both)] == list(both.templates)


def test_each_hole_of_a_tail_has_its_number_nearest_to_it(job: Job) -> None:
    """Two rows of six, 7 mm apart (no source: as close as small screws stand)."""
    screws = tuple((8.0 + 7.0 * row, 7.0 * at - 17.5) for row in range(2) for at in range(6))
    assert job.tail is not None
    many = msgspec.structs.replace(job, tail=msgspec.structs.replace(job.tail, screws=screws))
    layout = work_out(many)
    assert layout.tail is not None
    drawn = figure_of(TEMPLATES["tailpiece"], many, layout, STAMP)
    numbers = [mark.shape for mark in drawn.marks if mark.of == "number" and isinstance(mark.shape, Text)]
    assert [int(text.text) for text in numbers] == list(range(1, 13))
    for text, own in zip(numbers, layout.tail.screws, strict=True):
        assert drawn.bored[int(text.text) - 1].name == own.name
        ground = text_box(text)
        middle = ((ground.x0 + ground.x1) / 2, (ground.y0 + ground.y1) / 2)
        assert min(layout.tail.screws, key=lambda hole: math.dist(hole.at, middle)) == own


def test_a_strap_pin_is_bored_into_the_end_and_not_from_above(job: Job, layout: Layout, tmp_path: File) -> None:
    """derived: the tailpiece of this job has one screw, so the layer to drill holds one hole"""
    assert layout.tail is not None
    assert layout.tail.pin is not None
    x, y = layout.tail.pin.at
    (mark,) = [mark for mark in figure("tailpiece", job, layout).marks if mark.of == "strap pin"]
    assert (mark.purpose, mark.shape) == ("mark", Line((x - 2.0, y), (x + 8.0, y)))
    (file,) = write_all(job, layout, stamped("tailpiece"), tmp_path, ("dxf",))
    assert len([item for item in readers.dxf_items(file) if item.where == "DRILL"]) == 1
    (row,) = [row for row in job_tables.holes(job, layout) if row[0] == "Strap pin"]
    assert row[-1] == "into the body’s end"
    for bridge in ({}, {"floating": None, "bridge": Bridge()}):
        other = msgspec.structs.replace(job, **bridge)
        (step,) = [step for step in work_steps.steps(other, work_out(other), TEMPLATES) if "strap pin" in step]
        assert "square to the end" in step


def test_results_tell_window_and_tail(job: Job, layout: Layout) -> None:
    names = [row[0] for row in job_results.results(job, layout)]
    window = ("Feet, bass end", "Feet, treble end", "It may be turned by")
    for name in (*window, "Tail’s middle belongs", "The tail hangs off by"):
        assert name in names


def test_inches_are_told_in_inches(job: Job) -> None:
    inches = msgspec.structs.replace(job, unit="in")
    layout = work_out(inches)
    words = [mark.shape.text for mark in figure("bridge-place", inches, layout).marks if isinstance(mark.shape, Text)]
    assert any(word.startswith("slide ±") and word.endswith(" in") for word in words)


def test_windows_over_a_seam_keep_off_the_bridge_and_its_strings(job: Job, layout: Layout) -> None:
    """Derived: the strings are shown from 25 mm before the bridge's front, of today or to be; a window of 9 mm round,
    and 6 mm between.
    """
    assert layout.neck is not None
    assert layout.floating is not None
    seamed = replace(layout, neck=replace(layout.neck, seam=Ray(at=(400.0, 1.0), direction=(1.0, 0.0))))
    windows = [
        mark.shape
        for mark in figure("bridge-place", job, seamed).marks
        if mark.of == "seam" and isinstance(mark.shape, Circle)
    ]
    assert windows
    marks = [x for ring in layout.floating.marks for x, _ in ring]
    assert layout.bridge is not None
    front = min(*(x for x, _ in layout.bridge.corners), *marks) - max(layout.floating.window)
    assert max(one.centre[0] + one.radius for one in windows) <= front - 25.0 - 6.0 + 1e-6


@pytest.mark.parametrize("name", ["bridge-place", "full-length"])
def test_a_distances_tip_ends_on_a_line_where_no_foot_is(name: str, job: Job, layout: Layout) -> None:
    """Between the feet nothing is drawn of the bridge's front: an extension line stands at the tip there."""
    assert layout.floating is not None
    feet = [Polygon(foot.corners) for foot in layout.floating.feet]
    of_check = [mark for mark in figure(name, job, layout).marks if mark.of.startswith("check:")]
    tips = [mark.shape.vertices[0][:2] for mark in of_check if isinstance(mark.shape, Outline)]
    front = [tip for tip in tips if tip[0] > min(x for x, _ in layout.floating.feet[0].corners) - 5.0]
    lines = [LineString([m.shape.a, m.shape.b]) for m in of_check if m.weight < 1.0 and isinstance(m.shape, Line)]
    assert len(front) == len(lines) == 2
    for tip in front:
        assert min(foot.distance(Point(tip)) for foot in feet) > 1.0
        assert min(line.distance(Point(tip)) for line in lines) < NEAR


def test_a_distances_tip_on_a_foot_needs_no_more_line(job: Job, layout: Layout) -> None:
    """A foot as wide as the bridge stands behind both tips, 6.5 mm in from the edges."""
    assert layout.floating is not None
    assert layout.bridge is not None
    wide = [replace(layout.floating.feet[0], corners=layout.bridge.corners)]
    marks = figure("bridge-place", job, replace(layout, floating=replace(layout.floating, feet=tuple(wide)))).marks
    assert not [m for m in marks if m.of.startswith("check:") and m.weight < 1.0]


@pytest.mark.parametrize("name", ["bridge-place", "full-length"])
@pytest.mark.parametrize("aside", [0.0, 4.0, 8.0, -8.0])
def test_no_distance_to_check_lies_in_a_window(name: str, aside: float, job: Job, layout: Layout) -> None:
    """Cutting the window out would take of the number, which tells whether the sheet lies right."""
    assert layout.neck is not None
    seamed = replace(layout, neck=replace(layout.neck, seam=Ray(at=(400.0, aside), direction=(1.0, 0.0))))
    marks = figure(name, job, seamed).marks
    windows = [
        Point(mark.shape.centre).buffer(mark.shape.radius)
        for mark in marks
        if mark.of == "seam" and isinstance(mark.shape, Circle)
    ]
    told = [mark.shape for mark in marks if mark.of.startswith("check:") and isinstance(mark.shape, Text)]
    assert windows
    assert len(told) == 2
    for text in told:
        assert min(Polygon(text_corners(text)).distance(window) for window in windows) > 0.7, text.text
    by_the_usual = Polygon(text_corners(replace(told[0], at=windows[0].centroid.coords[0])))
    assert by_the_usual.distance(windows[0]) == 0.0  # words in a window would be seen


def test_a_crowns_front_and_the_line_that_strings_break_on_have_a_name_each(job: Job, layout: Layout) -> None:
    """A rule is laid to the front; the line lies as far behind it as the crown peaks."""
    from app.say.figures.key_figures import key_figures

    stops = {check.to for check in layout.checks if ".slot." in check.code}
    assert stops == {"crown front, bass edge", "crown front, treble edge"}
    assert [cell.title for cell in key_figures(job, layout)][:2] == [
        "Fret 12 to crown front, bass edge",
        "Fret 12 to crown front, treble edge",
    ]
    rows = [row[0] for row in figure("bridge-place", job, layout).tables[0].rows]
    assert rows == ["board end to crown front", "board end to bridge front", "nut to crown line, along neck"]
    assert "Crown line, bass end" in [row[0] for row in job_results.results(job, layout)]
