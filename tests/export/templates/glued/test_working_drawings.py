"""Bridge and plate as working drawings: what their tables say against what is drawn in the same file, read back."""

import math
import re
from pathlib import Path as File

import msgspec
import pytest
from shapely import Point as Place
from shapely import Polygon, box

from app.file import job_file, samples
from export import write_all
from export.drawing.marks import Circle, Path, Text
from export.drawing.typeface import text_box
from export.hole_table import Bored, Table, file_lines
from export.paper.furniture import marks_box
from export.records import Figure, Stamp, Turn
from export.templates import TEMPLATES, sheets
from export.templates.glued.bridge_sizes import slot_lean, table, with_belly
from export.templates.numbered_holes import numbers, slot_depth
from export.templates.turning_holes import BESIDE, turning_holes
from geometry.job import Job, Saddle
from geometry.layout import XY, Layout
from geometry.work_out import work_out
from tests.export import readers

ROW = re.compile(r"^(\d+) (.+?): X (-?[\d.]+) Y (-?[\d.]+), ([\d.]+)(?: wide|, drill (\S+ mm) or (.+?)), (.+)\.$")
GLUED = [path for path in samples.paths() if job_file.read(path).held == "glue"]
"""The sample jobs whose bridge is drilled and routed."""
HALF = 0.005 + 1e-6
"""Half of the last decimal that a table gives, mm."""


def with_sheets(job: Job, **given: object) -> Job:
    return msgspec.structs.replace(job, sheets=msgspec.structs.replace(job.sheets, **given))


def written(job: Job, layout: Layout, stamp: Stamp, folder: File, name: str, kind: str) -> File:
    (file,) = write_all(job, layout, msgspec.structs.replace(stamp, templates=(name,)), folder, (kind,))
    return file


def dxf_rows(file: File) -> list[tuple[str, XY, float]]:
    """The table in a DXF by GDAL: name, X and Y from the datum, size, all in mm."""
    found = [match for text in readers.dxf_texts(file) if (match := ROW.match(text))]
    return [(match[2], (float(match[3]), float(match[4])), float(match[5])) for match in found]


def dxf_datum(file: File) -> XY:
    (note,) = [text for text in readers.dxf_texts(file) if text.startswith("Units mm. Datum: ")]
    x, y = re.findall(r"[XY] (-?[\d.]+)", note.removesuffix("."))
    return float(x), float(y)


PIN_DRILL = 4.2
"""derived: pins of 5 mm taper 1 in 20 through 15 mm, to 4.25 mm; the next metric drill below that."""
BOARD_END = (451.0, 0.0)
"""derived: midway between the conftest's corners of the board's end, at 451.4 and 450.6, which lie as far to either
side but for 0.05 mm.
"""


def dxf_holes(file: File) -> list[tuple[XY, float]]:
    """The circles on DRILL: their middles and diameters, mm."""
    return [
        ((float(codes[10]), float(codes[20])), 2 * float(codes[40]))
        for kind, codes in readers.dxf_entities(file)
        if kind == "CIRCLE" and codes[8] == "DRILL"
    ]


@pytest.mark.parametrize("turning", [False, True])
@pytest.mark.parametrize("datum", ["own", "board end", "saddle centre", "lower left"])
@pytest.mark.parametrize(
    ("name", "count"), [("bridge", 8), ("plate", 6), ("clearing", 6), ("placement", 6), ("full-length", 6)]
)
def test_the_dxf_lists_each_hole_where_it_is_drilled(
    job: Job, layout: Layout, stamp: Stamp, tmp_path: File, name: str, count: int, datum: str, turning: bool
) -> None:
    """Six pin holes and the bridge's two dowels; all circles on DRILL and no more, each as wide as its drill. With no
    edge round them templates are for a machine that works on the instrument, and drills what they show.
    """
    asked = with_sheets(job, datum=datum, turning=turning, edge=None)
    file = written(asked, layout, stamp, tmp_path, name, "dxf")
    at = dxf_datum(file)
    listed = [
        (xy, PIN_DRILL if what.startswith("pin ") else size)
        for what, xy, size in dxf_rows(file)
        if not what.startswith("slot")
    ]
    drilled = dxf_holes(file)
    assert len(listed) == len(drilled) == count + (2 * turning if name in ("bridge", "plate") else 0)
    for (x, y), size in listed:
        near, wide = min(drilled, key=lambda hole: math.dist(hole[0], (at[0] + x, at[1] + y)))
        assert near == pytest.approx((at[0] + x, at[1] + y), abs=HALF)
        assert wide == pytest.approx(size, abs=HALF)


def test_the_dxf_lists_the_slots_two_ends(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    """On ROUTE lies one outline, 76 by 3; its short sides' middles are what is listed."""
    file = written(job, layout, stamp, tmp_path, "bridge", "dxf")
    (ring,) = [item.points for item in readers.dxf_items(file) if item.where == "ROUTE"]
    sides = list(zip(ring, [*ring[1:], ring[0]], strict=True))
    middles = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in sides if math.dist(a, b) < 4.0]
    at = dxf_datum(file)
    listed = [((at[0] + x, at[1] + y), size) for what, (x, y), size in dxf_rows(file) if what.startswith("slot")]
    assert len(listed) == 2
    for place, size in listed:
        assert readers.nearest(middles, place) < 0.008
        assert size == 3.0


def test_the_rows_name_drill_and_depth(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    """derived: pins of 5.0 less 15/20 are 4.25: 4.2 mm or #19 (0.166 in); dowels of 2.5 are 2.5 mm or #40 (0.098 in).

    The conftest's bridge begins at 637.4, -76, its first pin is at 653, 26.5.
    """
    said = readers.dxf_texts(written(job, layout, stamp, tmp_path, "bridge", "dxf"))
    assert "1 pin 1, ream: X 15.60 Y 102.50, 5.00, drill 4.2 mm or #19, through." in said
    assert any(
        text.startswith("7 slot mid, treble: ") and text.endswith(", 3.00 wide, by your saddle.") for text in said
    )
    assert any(text.startswith("9 dowel, treble: ") and "2.50, drill 2.5 mm or #40, through." in text for text in said)


def test_a_known_depth_stands_in_the_table(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    deep = msgspec.structs.replace(job, saddle=Saddle(slot_length=76.0, slot_depth="1/4 in"))
    said = readers.dxf_texts(written(deep, layout, stamp, tmp_path, "bridge", "dxf"))
    assert sum(text.endswith("3.00 wide, 6.35 mm deep.") for text in said) == 2
    assert slot_depth(job) is None


def test_files_that_do_not_drill_have_no_table(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    file = written(with_sheets(job, purposes=("cut",)), layout, stamp, tmp_path, "bridge", "dxf")
    assert not dxf_rows(file)


def test_machines_are_told_minus_as_they_know_it() -> None:
    lines = file_lines([Bored(name="x", at=(1.0, 2.0), diameter=3.0)], (2.0, 0.0), mirror=True)
    assert lines[1].startswith("1 x: X -1.00 Y -2.00, 3.00 wide")


def pdf_circles(file: File, diameter: float) -> list[XY]:
    """The middles of the circles of that diameter, by pdfium."""
    found = []
    for item in readers.pdf_items(file):
        if len(item.points) < 5:
            continue
        ring = item.points[:-1] if math.dist(item.points[0], item.points[-1]) < 1e-3 else item.points
        middle = (sum(x for x, _ in ring) / len(ring), sum(y for _, y in ring) / len(ring))
        if all(abs(math.dist(middle, at) - diameter / 2) < 0.003 for at in ring):
            found.append(middle)
    return found


def pdf_datum(file: File) -> XY:
    """The middle of the slanting cross, whose lines are 6 mm long."""
    lines = [item.points for item in readers.pdf_items(file) if len(item.points) == 2]
    slanting = [(a, b) for a, b in lines if abs(math.dist(a, b) - 6.0) < 0.01 and abs(abs(a[0] - b[0]) - 4.243) < 0.01]
    (a, b), other = slanting  # of two, or this fails
    assert (a[0] + b[0], a[1] + b[1]) == pytest.approx((other[0][0] + other[1][0], other[0][1] + other[1][1]), abs=1e-3)
    return (a[0] + b[0]) / 2, (a[1] + b[1]) / 2


@pytest.mark.parametrize(("unit", "mm", "near"), [("mm", 1.0, 0.005), ("in", 25.4, 0.0127), ("cm", 10.0, 0.005)])
@pytest.mark.parametrize(("hand", "up"), [("right", "TREBLE"), ("left", "BASS")])
@pytest.mark.parametrize("name", ["bridge", "plate", "clearing", "placement"])
def test_the_sheet_lists_each_pin_hole_where_it_is_drawn(
    job: Job,
    layout: Layout,
    stamp: Stamp,
    tmp_path: File,
    name: str,
    hand: str,
    up: str,
    unit: str,
    mm: float,
    near: float,
) -> None:
    """On a sheet that lies as the strings run: X to the right, Y up. `near` is half the table's last decimal in mm."""
    asked = msgspec.structs.replace(job, hand=hand, unit=unit)
    wide = msgspec.structs.replace(stamp, paper="A3", turn="landscape")
    file = written(asked, layout, wide, tmp_path, name, "pdf")
    said = readers.pdf_words(file)
    pin = r"\d\s+pin " if name == "bridge" else ""
    rows = re.findall(rf"^{pin}(\d)(?:, ream)?\s+(−?\d+\.\d\d+)\s+(−?\d+\.\d\d+)", said, re.MULTILINE)
    own, board_end = name != "placement", "the board end on the neck centre line"
    at = pdf_datum(file) if own else on_the_sheet(asked, layout, wide, name, BOARD_END)
    drawn = [(x - at[0], y - at[1]) for x, y in pdf_circles(file, 5.0)]
    assert len(rows) == 6
    assert len(drawn) >= 6
    for _, x, y in rows:
        place = (float(x.replace("−", "-")) * mm, float(y.replace("−", "-")) * mm)
        assert readers.nearest(drawn, place) < near * 1.5 + 0.003
    mirrored = {"TREBLE": "BASS", "BASS": "TREBLE"}[up] if name == "plate" else up
    assert f"X to the tail, Y to {mirrored}, from {'the cross' if own else board_end}" in " ".join(said.split())


def on_the_sheet(job: Job, layout: Layout, stamp: Stamp, name: str, at: XY) -> XY:
    """Where a place on the instrument lies on a template's only sheet."""
    (page,) = sheets(job, layout, msgspec.structs.replace(stamp, templates=(name,)))
    assert page.transform is not None
    return page.transform.xy(at)


@pytest.mark.parametrize("name", ["placement", "full-length", "clearing"])
@pytest.mark.parametrize("kind", ["dxf", "svg"])
def test_pin_holes_are_listed_in_either_file(
    job: Job, layout: Layout, stamp: Stamp, tmp_path: File, name: str, kind: str
) -> None:
    text = written(job, layout, stamp, tmp_path, name, kind).read_text()
    rows = re.findall(r"pin (\d), ream: X [\d.-]+ Y [\d.-]+, 5\.00, drill 4\.2 mm or #19, through\.", text)
    assert sorted(set(rows)) == ["1", "2", "3", "4", "5", "6"]  # an SVG holds its notes as what it tells and as words


def test_a_bridge_laid_in_a_window_has_no_pin_holes_there_to_list(job: Job, layout: Layout, stamp: Stamp) -> None:
    assert drawn(job, layout, stamp, "placement").bored
    assert not drawn(with_sheets(job, window=True), layout, stamp, "placement").bored


def test_what_finds_no_room_beside_the_work_stands_on_another_sheet(job: Job, layout: Layout, stamp: Stamp) -> None:
    """Such paper is too small for all tables beside the bridge, and has room beside the board."""
    small = msgspec.structs.replace(stamp, paper="155x215 mm", turn="portrait", templates=("placement",))
    pages = sheets(job, layout, small)
    assert len(pages) > 1
    said = [" ".join(m.shape.text for m in page.drawing.marks if isinstance(m.shape, Text)) for page in pages]
    told = re.findall(
        r"(The saddle’s place|Read before the glue|Pin holes, to ream): on sheet (\w\d)\.", " ".join(said)
    )
    assert told
    for title, name in told:
        (other,) = [text for page, text in zip(pages, said, strict=True) if page.name.endswith(f" {name}")]
        assert f"{title}, mm" in other


def test_the_table_would_show_a_hole_that_moved(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    """The comparison can fail: 0.02 mm are seen."""
    file = written(job, layout, stamp, tmp_path, "bridge", "dxf")
    at = dxf_datum(file)
    (x, y) = dxf_rows(file)[0][1]
    holes = [hole for hole, _ in dxf_holes(file)]
    assert readers.nearest(holes, (at[0] + x + 0.02, at[1] + y)) > HALF


def drawn(job: Job, layout: Layout, stamp: Stamp, name: str) -> Figure:
    draw = TEMPLATES[name].draw
    assert draw is not None
    return draw(job, layout, stamp)


def said(sizes: Table) -> dict[str, str]:
    return {what: number for what, number in sizes.rows}


def test_the_ledge_is_told_as_the_jobs_rule_shows_it(job: Job, layout: Layout, stamp: Stamp) -> None:
    """derived: 0.8 mm are 2.02 64ths of an inch."""
    for unit, says in (("mm", "0.8 mm"), ("cm", "0.08 cm"), ("in", "1/32 in")):
        notes = drawn(msgspec.structs.replace(job, unit=unit), layout, stamp, "clearing").notes
        assert any(f"stands {says} outside it" in note for note in notes)


def test_the_bridge_lists_its_sizes(job: Job, layout: Layout, stamp: Stamp) -> None:
    """The conftest's: 152 by 26; slot from (644.8, 27.5) to
    (647.6, -27.5): atan(2.8 / 55) = 2.9°; pins 53 apart in five steps and 2.8 along: hypot(53, 2.8) = 53.07.
    """
    assert layout.bridge is not None
    rows = said(table(job, layout, layout.bridge))
    assert rows["length"] == "152.0"
    assert rows["width at the wings"] == "26.0"
    assert rows["width with the belly"] == f"{with_belly(layout.bridge):.1f}"
    assert rows["slot, length by width"] == "76.0 by 3.0"
    assert rows["slot, depth"] == "by your saddle"
    assert rows["slot to the neck’s centre line"] == "87.1°, bass end to the tail"
    assert rows["pin holes, 5.0"] == "drill 4.2 mm or #19, then ream"
    assert rows["pin to pin, middle to middle"] == "10.6"
    assert rows["outer pins, middle to middle"] == "53.1"
    (figure_table, *_) = drawn(job, layout, stamp, "bridge").tables
    assert said(figure_table) == rows
    in_inches = said(table(msgspec.structs.replace(job, unit="in"), layout, layout.bridge))
    assert in_inches["pin holes, 0.197"] == "drill #19 or 4.2 mm, then ream", "as its table of holes has them"


def test_what_is_made_in_64ths_is_told_in_64ths_in_both_tables() -> None:
    """The sample's pin holes were typed 13/64, its saddle 1/8."""
    path = samples.find("turned-left")
    assert path is not None
    job = job_file.read(path)
    layout = work_out(job)
    assert layout.bridge is not None
    rows = said(table(job, layout, layout.bridge))
    assert "pin holes, 13/64" in rows
    assert rows["slot, length by width"].endswith(" by 1/8")


def test_with_the_belly_is_the_outlines_whole_depth(layout: Layout) -> None:
    """derived: the arcs meet on the straight lines from 62 mm beside the middle, at the back, to 9 mm behind it there,
    so that the middle one, with a tangent parallel to the back, peaks 9 mm behind it.
    """
    assert layout.bridge is not None
    assert with_belly(layout.bridge) == pytest.approx(26.0 + 9.0, abs=0.02)
    straight = msgspec.structs.replace(layout.bridge, outline=tuple((*at, 0.0) for at in layout.bridge.corners))
    assert with_belly(straight) == pytest.approx(26.0)


def test_a_known_depth_and_a_square_slot_are_said(job: Job, layout: Layout) -> None:
    assert layout.bridge is not None
    assert layout.saddle is not None
    square = ((643.0, 38.0), (643.0, -38.0), (646.0, -38.0), (646.0, 38.0))
    level = msgspec.structs.replace(layout, saddle=msgspec.structs.replace(layout.saddle, slot=square))
    deep = msgspec.structs.replace(job, saddle=Saddle(slot_depth=5.5))
    rows = said(table(deep, level, layout.bridge))
    assert rows["slot, depth"] == "5.5"
    assert rows["slot to the neck’s centre line"] == "90.0°"


def test_the_side_to_the_tail_follows_the_hand(job: Job, layout: Layout) -> None:
    assert layout.bridge is not None
    left = msgspec.structs.replace(job, hand="left")
    assert said(table(left, layout, layout.bridge))["slot to the neck’s centre line"] == "87.1°, treble end to the tail"
    assert slot_lean((0.0, 10.0), (1.0, -10.0)) == pytest.approx(-2.8624, abs=1e-4)  # derived: atan(1/20)


def test_the_bridge_is_seen_from_outside(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    said = readers.pdf_words(written(job, layout, stamp, tmp_path, "bridge", "pdf"))
    assert "OUTSIDE" in said
    assert "seen from above" in said


def test_without_pins_nothing_is_reamed(job: Job, layout: Layout, stamp: Stamp) -> None:
    assert layout.bridge is not None
    tied = msgspec.structs.replace(layout, bridge=msgspec.structs.replace(layout.bridge, pins=()))
    figure = drawn(job, tied, stamp, "bridge")
    assert not any("ream" in note for note in figure.notes)
    assert not any("ream" in cell for each in figure.tables for row in each.rows for cell in row)
    assert any("ream" in note for note in drawn(job, layout, stamp, "bridge").notes)


def test_the_placement_sheet_says_the_saddles_place_and_what_must_wait(
    job: Job, layout: Layout, stamp: Stamp, tmp_path: File
) -> None:
    """The conftest's: from the board's end to the bridge 186.0 and 186.8; at the saddle ±0.7 bass, ±0.6 treble."""
    said = readers.pdf_words(written(job, layout, stamp, tmp_path, "placement", "pdf"))
    assert re.search(r"board end to bridge front\s+186\.8 ±0\.4\s+186\.0 ±0\.4", said)
    assert re.search(r"nut to saddle, along neck\s+647\.6 ±0\.7\s+644\.8 ±0\.6", said)
    assert "Glue: go, bass ±0.7 mm." in said
    assert "Slot: go, bass string ±0.7 mm (1.9 cents)." in said
    assert "drill undersize, then ream" in said


def test_tables_stay_on_one_sheet_where_there_is_room(job: Job, layout: Layout, stamp: Stamp) -> None:
    for name in ("placement", "bridge", "plate"):
        (page,) = sheets(job, layout, msgspec.structs.replace(stamp, templates=(name,)))
        assert len([m for m in page.drawing.marks if m.of == "table"]) == len(drawn(job, layout, stamp, name).tables)


def turning(job: Job, layout: Layout, stamp: Stamp, name: str) -> list[Circle]:
    figure = drawn(job, layout, stamp, name)
    return [m.shape for m in figure.marks if m.of == "turning" and m.purpose == "drill" and isinstance(m.shape, Circle)]


@pytest.mark.parametrize("name", ["bridge", "plate"])
def test_holes_to_turn_on_stand_outside_and_only_when_asked_for(
    job: Job, layout: Layout, stamp: Stamp, name: str
) -> None:
    assert not turning(job, layout, stamp, name)
    asked = with_sheets(job, turning=True)
    holes = turning(asked, layout, stamp, name)
    assert len(holes) == 2
    (ring,) = [
        m.shape
        for m in drawn(asked, layout, stamp, name).marks
        if m.of == name and isinstance(m.shape, Path) and m.purpose in ("cut", "mark")
    ]
    part = Polygon([vertex[:2] for vertex in ring.vertices])
    for hole in holes:
        assert part.distance(Place(hole.centre)) == pytest.approx(BESIDE, abs=1e-6)
    assert holes[0].centre[0] == pytest.approx(holes[1].centre[0])


@pytest.mark.parametrize("turn", [0.0, 0.03, -0.2])
def test_turned_over_a_part_lies_on_the_same_pins(turn: float) -> None:
    """Mirrored over the holes' line, and end for end over the line between them, the box round the part is itself."""
    cos, sin = math.cos(turn), math.sin(turn)
    own = [(0.0, 70.0), (0.0, -80.0), (26.0, -80.0), (38.0, 0.0), (26.0, 70.0)]
    left, right = turning_holes([(x * cos - y * sin, x * sin + y * cos) for x, y in own], turn)
    back = [(x * cos + y * sin, y * cos - x * sin) for x, y in (left.at, right.at)]
    assert back[0] == pytest.approx((19.0, 70.0 + BESIDE))
    assert back[1] == pytest.approx((19.0, -80.0 - BESIDE))


def test_numbers_lie_on_no_hole_where_strings_are_in_pairs() -> None:
    """Twelve holes in two rows 8 mm apart, 3 mm beside each other in a pair: common practice, no source."""
    rows = [
        Bored(name=str(i), at=(650.0 + 8.0 * (i % 2), 30.0 - 5.5 * i), diameter=5.0, drill=("4.2 mm", "#19"))
        for i in range(12)
    ]
    texts = [mark.shape for mark in numbers(rows) if isinstance(mark.shape, Text)]
    assert [text.text for text in texts] == [str(k) for k in range(1, 13)]
    for text in texts:
        ground = box(*text_box(text))
        assert all(ground.distance(Place(one.at)) > one.diameter / 2 for one in rows)


def test_a_tight_row_of_holes_moves_a_number_between_the_arms_of_its_cross() -> None:
    one = Bored(name="a", at=(650.0, 0.0), diameter=5.0, drill=("4.2 mm", "#19"))
    behind = Bored(name="b", at=(658.0, 0.0), diameter=5.0, drill=("4.2 mm", "#19"))
    alone, beside = (numbers(rows)[0].shape for rows in ((one,), (one, behind)))
    assert isinstance(alone, Text)
    assert isinstance(beside, Text)
    assert (alone.anchor, beside.anchor) == ("sm", "sb")


@pytest.mark.parametrize("turn", ["portrait", "landscape"])
@pytest.mark.parametrize("sample", GLUED, ids=lambda path: path.name)
def test_numbers_of_holes_and_sizes_never_overlap(sample: File, stamp: Stamp, turn: Turn) -> None:
    job = job_file.read(sample)
    turned = msgspec.structs.replace(stamp, templates=("bridge",), turn=turn)
    (sheet,) = sheets(job, work_out(job), turned)
    numbers = [marks_box([m]) for m in sheet.drawing.marks if m.of == "number"]
    sizes = [marks_box([m]) for m in sheet.drawing.marks if isinstance(m.shape, Text) and m.purpose == "dimension"]
    assert numbers
    assert not [number for number in numbers for size in sizes if number.meets(size)]


def test_a_bridge_that_leaves_its_blocks_no_room_has_the_key_all_the_same(stamp: Stamp) -> None:
    """The tied bridge is 188 mm long: on upright A4 its sheet is laid as taped ones are, one of one."""
    job = job_file.read(next(path for path in samples.paths() if path.name.startswith("tie-bridge")))
    turned = msgspec.structs.replace(stamp, templates=("bridge",), turn="portrait")
    (sheet,) = sheets(job, work_out(job), turned)
    assert "cut along its middle" in [m.shape.text for m in sheet.drawing.marks if isinstance(m.shape, Text)]
