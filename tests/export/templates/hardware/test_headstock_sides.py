"""A slotted headstock's sheets: strips that fold over its edges, read back from the files; axes on face and back."""

from pathlib import Path

import pytest
from ezdxf.filemanagement import readfile
from msgspec.structs import replace

from app.cli import command_line
from app.file import samples
from export import write_all
from export.drawing.marks import Circle, Line, Text
from export.drawing.marks import Path as Outline
from export.errors import ExportError
from export.records import Figure, Stamp
from export.templates import TEMPLATES
from export.templates.hardware import headstock, headstock_sides
from geometry.job import Hardware, TunerPlate, Tuners
from geometry.layout import HardwarePlan
from geometry.work_out import work_out
from tests.app.desk.conftest import sample
from tests.export import readers
from tests.geometry.hardware.test_head_sides import BENT, ROLLED, SLOT, mirrored
from tests.geometry.hardware.test_headstock_and_posts import OLD, head, laid_out
from tests.geometry.made import BOARD, XY, job, six

JOB = sample("slotted-neck-screw")


def drawn(stamp: Stamp, tuners: Tuners = ROLLED, hand: str = "right", flip: bool = False, **changes: object) -> Figure:
    """The strips of the made-up headstock with a bent edge."""
    whole = head(**{"outline": tuple(BENT), "slots": (tuple(SLOT),), "thickness": 20.0} | changes)
    points: dict[str, XY] = BENT | SLOT | OLD
    points = mirrored(points) if flip else points
    layout = laid_out(tuners, whole, hand, points)
    made = job(BOARD | points, hand, strings=six(2.0, 2.0), hardware=Hardware(headstock=whole, tuners=tuners))
    return headstock_sides.draw(made, layout, stamp)


def holes(figure: Figure, of: str) -> list[Circle]:
    return [m.shape for m in figure.marks if m.of == of and m.purpose == "drill" and isinstance(m.shape, Circle)]


def strip(figure: Figure, side: str) -> Outline:
    (found,) = (m.shape for m in figure.marks if m.of == f"strip {side}" and m.purpose == "cut")
    assert isinstance(found, Outline)
    return found


def test_a_strip_is_as_long_as_its_edge_unfolded_and_as_deep_as_the_headstock(stamp: Stamp) -> None:
    figure = drawn(stamp)
    # derived: 20 mm of shoulder, 40 straight, 7 down in 116; 14 mm on the face and 20 of thickness
    long = 20 + 40 + (116**2 + 7**2) ** 0.5
    corners = strip(figure, "left").vertices
    assert min(x for x, *_ in corners) == pytest.approx(-long, abs=1e-3)
    assert (min(y for _, y, *_ in corners), max(y for _, y, *_ in corners)) == pytest.approx((-14.0, 20.0))


def test_posts_lie_along_the_edge_and_below_the_face(stamp: Stamp) -> None:
    # derived: posts at -45, -80, -115; the edge as above, half of 20 mm deep
    taper = (116**2 + 7**2) ** 0.5 / 116
    left = holes(drawn(stamp), "strip left")
    assert [-hole.centre[0] for hole in left] == pytest.approx([41.0, 60 + 16 * taper, 60 + 51 * taper], abs=1e-3)
    assert [hole.centre[1] for hole in left] == pytest.approx([10.0] * 3)
    typed = holes(drawn(stamp, replace(ROLLED, below=8.0)), "strip left")
    assert [hole.centre[1] for hole in typed] == pytest.approx([8.0] * 3)


def test_the_left_strip_hangs_up_on_the_sheet_and_the_right_one_down(stamp: Stamp) -> None:
    """As the headstock lies, its nut to the right: each strip's face half is toward the middle."""
    figure = drawn(stamp)
    folds = [m.shape for m in figure.marks if m.of == "fold"]
    ys = [fold.a[1] for fold in folds if isinstance(fold, Line)]
    (left,), (right,) = ({hole.centre[1] for hole in holes(figure, f"strip {side}")} for side in ("left", "right"))
    assert (left - ys[0], right - ys[1]) == pytest.approx((10.0, -10.0))


def test_the_strip_is_snipped_where_the_edge_bends_and_its_corners_are_named(stamp: Stamp) -> None:
    figure = drawn(stamp)
    ticks = {m.of: m.shape for m in figure.marks if m.of.startswith("corner:")}
    assert set(ticks) == {"corner:bent.2", "corner:bent.3", "corner:bent.7"}
    tick = ticks["corner:bent.3"]
    assert isinstance(tick, Line)
    assert (tick.a[0], tick.a[1], tick.b[0], tick.b[1]) == pytest.approx((-60.0, 0.0, -60.0, -14.0), abs=1e-3)
    words = [m.shape.text for m in figure.marks if isinstance(m.shape, Text)]
    assert {"“bent.1”", "“bent.4”", "TREBLE · on the face", "BASS · down the edge", "nut"} <= {*words}


def test_what_names_a_strip_stands_in_its_widest_stretch_without_holes(stamp: Stamp) -> None:
    """derived: from 8 mm, as wide as it is, beyond the third old hole, at 60 and 61 of the taper, to the strip's end at
    60 and 116 of it; nearer to the nut 33 mm are left before the first
    """
    taper = (116**2 + 7**2) ** 0.5 / 116
    words = {m.shape.text: m.shape for m in drawn(stamp).marks if isinstance(m.shape, Text)}
    assert -words["TREBLE · down the edge"].at[0] == pytest.approx(
        (60 + 61 * taper + 8 + 60 + 116 * taper) / 2, abs=1e-2
    )


def test_a_mirrored_job_mirrors(stamp: Stamp) -> None:
    one, other = drawn(stamp), drawn(stamp, hand="left", flip=True)
    for side, opposite in (("left", "right"), ("right", "left")):
        there = [hole.centre[0] for hole in holes(other, f"strip {opposite}")]
        assert [hole.centre[0] for hole in holes(one, f"strip {side}")] == pytest.approx(there, abs=1e-3)
    assert [row[0] for row in one.tables[0].rows[:3]] == ["treble post 1", "treble post 2", "treble post 3"]
    assert [row[0] for row in other.tables[0].rows[3:]] == ["treble post 1", "treble post 2", "treble post 3"]


def test_bushings_are_marked_and_plate_screws_drilled(stamp: Stamp) -> None:
    plated = replace(ROLLED, bushing=9.0, plate=TunerPlate(screws=((-6.0, 4.0),)))
    figure = drawn(stamp, plated)
    marked = [m.shape.radius for m in figure.marks if m.purpose == "mark" and isinstance(m.shape, Circle)]
    assert marked == [4.5] * 6
    assert holes(figure, "screw")[0].centre == pytest.approx((-35.0, 14.0), abs=1e-3)
    assert figure.tables[0].rows[3][:4] == ("plate screw", "35.00", "14.00", "1.50")


def test_the_table_says_what_a_rule_reads(stamp: Stamp) -> None:
    """derived: 1/4 in is 6.35 mm"""
    table = drawn(stamp).tables[0]
    assert table.rows[0] == ("treble post 1", "41.00", "10.00", "6.35", "6.4 mm", "1/4 in", "into the slot")
    assert table.below[0][0] == "Along the edge, treble from “bent.1” and bass from “bent.8”; below the face."


def test_notes_say_how_it_is_bored(stamp: Stamp) -> None:
    notes = " ".join(drawn(stamp).notes)
    assert "Middles 10.00 mm below the face, half the headstock’s thickness. Drill 6.4 mm or 1/4 in" in notes
    assert "put scrap wood into the slots where the bit breaks through. Places are good to ±0." in notes
    assert "half the headstock’s thickness" not in " ".join(drawn(stamp, replace(ROLLED, below=8.0)).notes)


@pytest.mark.parametrize(
    ("tuners", "changes", "says"),
    [
        (Tuners(keep="first post"), {}, "need a slotted headstock"),
        (ROLLED, {"thickness": None}, "need to know how deep the posts lie"),
        (ROLLED, {"outline": ()}, "need its treble edge"),
        (ROLLED, {"edges": (("bent.2", "bent.3"), ())}, "The treble post 2 lies past the ends of the headstock’s edge"),
        (replace(ROLLED, left=(), right=()), {}, "need new tuners"),
    ],
)
def test_what_is_missing_is_said(stamp: Stamp, tuners: Tuners, changes: dict[str, object], says: str) -> None:
    with pytest.raises(ExportError, match=says):
        drawn(stamp, tuners, **changes)  # type: ignore[arg-type]  # fields of the headstock


def test_without_a_headstock_there_is_no_sheet(stamp: Stamp) -> None:
    with pytest.raises(ExportError, match="need new tuners"):
        headstock_sides.draw(JOB, replace(work_out(JOB), hardware=HardwarePlan()), stamp)


def test_it_is_among_the_templates() -> None:
    assert TEMPLATES["headstock-sides"].draw is headstock_sides.draw


# read back


def test_holes_come_back_out_of_the_file_for_a_machine(tmp_path: Path) -> None:
    """Read by ezdxf: as far apart as along the edge in the layout, and as wide as they are drilled."""
    argv = ["export", str(samples.find("slotted-neck-screw")), "--to", str(tmp_path), "--template", "headstock-sides"]
    assert command_line.run([*argv, "--only", "dxf"]) == 0
    file = readfile(tmp_path / "headstock-sides.dxf").modelspace()
    found = [entity.dxf for entity in file.query("CIRCLE") if entity.dxf.layer == "DRILL"]
    head_plan = work_out(JOB).hardware.headstock
    assert head_plan is not None
    wanted = [bore.along[0] for side in head_plan.sides for bore in side.bores if bore]
    assert len(found) == len(wanted) == 6
    assert {round(hole.radius, 3) for hole in found} == {3.175}
    for row in (slice(0, 3), slice(3, 6)):
        places, along = [hole.center.x for hole in found[row]], wanted[row]
        assert [places[0] - x for x in places] == pytest.approx([x - along[0] for x in along], abs=1e-3)
    said = [entity.dxf.text for entity in file.query("TEXT")]
    assert any("1 treble post: X" in text and "drill 6.4 mm or 1/4 in, into the slot" in text for text in said)


def test_the_page_says_bass_treble_and_the_cautions(stamp: Stamp, tmp_path: Path) -> None:
    stamped = replace(stamp, templates=("headstock-sides",))
    (file,) = write_all(JOB, work_out(JOB), stamped, tmp_path, ("pdf",))
    said = " ".join(item.where for item in readers.pdf_phrases(file))
    for words in ("TREBLE · on the face", "BASS · down the edge", "Probe for metal with a magnet", "headstock 6"):
        assert words in said


# the face and the back


@pytest.mark.parametrize("back", [False, True])
def test_nothing_is_drilled_in_the_face(stamp: Stamp, back: bool) -> None:
    layout = work_out(JOB)
    figure = (headstock.draw_back if back else headstock.draw_face)(JOB, layout, stamp)
    assert not [m for m in figure.marks if m.purpose == "drill" or isinstance(m.shape, Circle)]
    assert figure.bored == ()
    assert "Nothing is drilled in the face" in " ".join(figure.notes)
    found = layout.hardware.headstock
    assert found is not None
    axes = {m.of: m.shape for m in figure.marks if isinstance(m.shape, Line) and m.of.startswith(("post:", "old:"))}
    assert axes["post:1"] == Line(*found.sides[0].bores[0].axis)  # type: ignore[union-attr]  # its edge is known
    assert len(axes) == 12  # derived: six new posts and six old ones


def test_a_jig_for_the_sides_has_its_holes_as_far_apart_as_along_the_edge(stamp: Stamp) -> None:
    layout = work_out(JOB)
    found = layout.hardware.headstock
    assert found is not None
    along = [bore.along[0] for bore in found.bores if bore]
    at = [one.at[0] for one in headstock.draw_jig(JOB, layout, stamp).bored]
    assert [at[0] - at[2], at[3] - at[5]] == pytest.approx([along[2] - along[0], along[5] - along[3]], abs=1e-9)
