"""The headstock's sheets from its face and its back, and the jig, read back from the files."""

import math
from itertools import pairwise
from pathlib import Path as File

import pytest
from ezdxf.filemanagement import readfile
from msgspec.structs import replace
from shapely.geometry import LinearRing, box

from app.cli import command_line
from app.file import job_file, samples
from export.drawing.marks import Circle, Line, Path, Text
from export.drawing.typeface import text_box
from export.errors import ExportError
from export.hole_table import file_lines
from export.records import Figure, Stamp
from export.templates.hardware import headstock, headstock_sides
from geometry.layout import HardwarePlan, Layout
from geometry.work_out import work_out
from tests.export.plan.test_headstock_drawn import made


@pytest.fixture
def drawn(stamp: Stamp) -> tuple[Layout, Figure]:
    job, layout = made()
    return layout, headstock.draw_face(job, layout, stamp)


def posts(figure: Figure) -> list[Circle]:
    found = [m.shape for m in figure.marks if m.of.startswith("post:") and m.purpose == "drill"]
    return [shape for shape in found if isinstance(shape, Circle)]


def test_the_face_has_every_post_where_it_is_placed(drawn: tuple[Layout, Figure]) -> None:
    layout, figure = drawn
    assert layout.hardware.headstock is not None
    assert [post.centre for post in posts(figure)] == [post.at for post in layout.hardware.headstock.posts]
    assert {round(post.radius, 4) for post in posts(figure)} == {3.175}  # a post hole of 1/4 in: common practice
    assert not figure.mirror


def test_the_back_is_mirrored_and_says_so(stamp: Stamp) -> None:
    job, layout = made()
    face, back = headstock.draw_face(job, layout, stamp), headstock.draw_back(job, layout, stamp)
    assert back.mirror
    assert posts(back) == posts(face)


@pytest.mark.parametrize("name", ["redrilled-left", "slotted-neck-screw"])
def test_a_hole_has_the_number_in_the_notes_that_is_printed_by_it(name: str, stamp: Stamp) -> None:
    path = samples.find(name)
    assert path is not None
    job = job_file.read(path)
    layout = work_out(job)
    draws = (headstock.draw_face, headstock.draw_back) if not job.hardware.slotted else (headstock_sides.draw,)
    for figure in [draw(job, layout, stamp) for draw in (*draws, headstock.draw_jig)]:
        lines = file_lines(figure.bored, (0.0, 0.0), mirror=False)
        printed = {mark.shape.text for mark in figure.marks if isinstance(mark.shape, Text)}
        told = [line.split(" ", 1) for line in lines[1:] if " post:" in line]
        assert len(told) == len(layout.hardware.headstock.posts if layout.hardware.headstock is not None else ())
        by_place = {hole.at: hole.number for hole in figure.bored if hole.name.endswith("post")}
        assert [number for number, _ in told] == list(by_place.values())
        assert set(by_place.values()) <= printed
        for at, number in by_place.items():
            texts = [m.shape for m in figure.marks if isinstance(m.shape, Text) and m.shape.text == number]
            nearest = min(by_place, key=lambda other: min(math.dist(other, text.at) for text in texts))
            assert at == nearest


def test_what_a_jigs_width_is_of_is_told(stamp: Stamp) -> None:
    """The strips are as exact as the print; how sure a post's place is belongs to the headstock."""
    job, layout = made()
    jig, face = headstock.draw_jig(job, layout, stamp), headstock.draw_face(job, layout, stamp)
    assert "The strips are as exact as the print; on the headstock the posts’ places are good to ±" in jig.notes[-1]
    assert any("Places are good to ±" in note for note in face.notes)
    assert not any("Places are good to" in note for note in jig.notes)


def test_a_plates_screws_are_drilled_into_the_back_alone(stamp: Stamp) -> None:
    """From the face they are seen as hidden, no file for a machine lists them there, and both sheets tell their drill:
    1.5 mm, of which the nearest in inches below is #53 (1.511 mm is #53; published sizes).
    """
    job, layout = made()
    face, back = headstock.draw_face(job, layout, stamp), headstock.draw_back(job, layout, stamp)
    assert {mark.purpose for mark in face.marks if mark.of == "screw"} == {"hidden"}
    assert {mark.purpose for mark in back.marks if mark.of == "screw"} == {"drill"}
    assert "plate screw" not in {hole.name for hole in face.bored}
    assert "plate screw" in {hole.name for hole in back.bored}
    for figure in (face, back):
        assert figure.notes[-1] == "Plates’ screws last, into the back and by the plates: 1.5 mm or #53."


def test_what_is_seen_from_a_side_is_continuous_there_and_hidden_from_the_other(stamp: Stamp) -> None:
    """The plates are screwed on the back, the bushings sit in the face (ISO 128-2:2020: hidden outlines are dashed)."""
    job, layout = made()
    face, back = headstock.draw_face(job, layout, stamp), headstock.draw_back(job, layout, stamp)

    def purposes(figure: Figure) -> tuple[set[str], set[str]]:
        plates: set[str] = {mark.purpose for mark in figure.marks if mark.of == "tuner plate"}
        return plates, {m.purpose for m in figure.marks if isinstance(m.shape, Circle) and m.shape.radius == 4.5}

    assert purposes(face) == ({"hidden"}, {"mark"})
    assert purposes(back) == ({"lay"}, {"hidden"})


def test_the_posts_names_stand_off_the_plates_lines_in_rows(stamp: Stamp) -> None:
    """Six posts on two plates whose inner edges run where the names would stand."""
    path = samples.find("redrilled-left")
    assert path is not None
    job = job_file.read(path)
    layout = work_out(job)
    assert layout.hardware.headstock is not None
    posts = {f"post:{number}": post for number, post in enumerate(layout.hardware.headstock.posts, 1)}
    figure = headstock.draw_back(job, layout, stamp)
    names = [(posts[m.of], m.shape) for m in figure.marks if m.of in posts and isinstance(m.shape, Text)]
    plates = [LinearRing(ring) for ring in layout.hardware.headstock.plates]
    assert len(names) == 6
    for _, name in names:
        around = text_box(name)
        low = name.at[1] - (name.height if name.anchor == "mt" else 0.0)  # figures reach to the line and no farther
        assert all(ring.distance(box(around.x0, low, around.x1, low + name.height)) > 0.5 for ring in plates)
    for side in ("left", "right"):
        off = [abs(name.at[1] - post.at[1]) for post, name in names if post.side == side]
        assert off == pytest.approx([off[0]] * 3)


def test_without_plates_no_screws_are_told(stamp: Stamp) -> None:
    job, layout = made()
    assert job.hardware.tuners is not None
    bare = replace(job, hardware=replace(job.hardware, tuners=replace(job.hardware.tuners, plate=None)))
    figure = headstock.draw_back(bare, layout, stamp)
    assert not [mark for mark in figure.marks if mark.of == "screw"]
    assert not [note for note in figure.notes if "screws" in note]


def test_a_jigs_holes_stand_as_far_apart_as_the_posts(stamp: Stamp) -> None:
    job, layout = made()
    strips = [bored.at for bored in headstock.draw_jig(job, layout, stamp).bored]
    # derived: two plates of three, 70 mm over the outer posts (common practice, no source)
    gaps = [math.dist(one, other) for one, other in pairwise(strips)]
    assert [gaps[at] for at in (0, 1, 3, 4)] == pytest.approx([35.0] * 4, abs=1e-6)


def test_a_jigs_strip_is_30_mm_wide_and_reaches_15_mm_past_its_outer_holes(stamp: Stamp) -> None:
    """Common practice, no source."""
    job, layout = made()
    marks = [m for m in headstock.draw_jig(job, layout, stamp).marks if m.of == "strip left"]
    holes = sorted(m.shape.centre[0] for m in marks if isinstance(m.shape, Circle))
    (ring,) = (m.shape.vertices for m in marks if m.purpose == "cut" and isinstance(m.shape, Path))
    x, y = ([vertex[axis] for vertex in ring] for axis in (0, 1))
    assert (min(x), max(x)) == pytest.approx((holes[0] - 15.0, holes[-1] + 15.0))
    assert max(y) - min(y) == pytest.approx(30.0)


def test_a_jigs_distances_are_drawn_from_hole_to_hole(stamp: Stamp) -> None:
    """An arrow's tip at each end, below the hole's middle, and the number under it."""
    job, layout = made()
    marks = [m for m in headstock.draw_jig(job, layout, stamp).marks if m.of == "strip left"]
    holes = sorted(m.shape.centre[0] for m in marks if isinstance(m.shape, Circle))
    heads = [m.shape.vertices[0] for m in marks if m.purpose == "dimension" and isinstance(m.shape, Path)]
    assert sorted(x for x, _, _ in heads) == pytest.approx([holes[0], holes[1], holes[1], holes[2]])
    assert len({round(y, 6) for _, y, _ in heads}) == 1
    said = [m.shape.text for m in marks if m.purpose == "dimension" and isinstance(m.shape, Text)]
    assert said == ["35.0", "35.0"]


def test_a_jigs_centre_line_leaves_the_holes_to_their_crosses(stamp: Stamp) -> None:
    job, layout = made()
    marks = [m for m in headstock.draw_jig(job, layout, stamp).marks if m.of == "strip left"]
    holes = [m.shape for m in marks if isinstance(m.shape, Circle)]
    level = [m.shape for m in marks if m.purpose == "centre" and m.weight == 1.0 and isinstance(m.shape, Line)]
    assert len(level) == len(holes) + 1
    for line in level:
        assert all(x < line.a[0] or x > line.b[0] for x in (hole.centre[0] for hole in holes))


def test_without_new_posts_there_is_no_sheet(stamp: Stamp) -> None:
    job, layout = made()
    with pytest.raises(ExportError, match="need new tuners"):
        headstock.draw_face(job, replace(layout, hardware=HardwarePlan()), stamp)


def circles(path: File) -> list[tuple[float, float, float]]:
    """All but the bushings' of 8.7 mm, which are marked on the face and hidden at the back."""
    found = readfile(path).modelspace().query("CIRCLE")
    bushings = [c for c in found if round(c.dxf.radius, 3) == 4.35 and c.dxf.layer in ("MARK", "HIDDEN")]
    assert len(bushings) == 6
    return [(c.dxf.center.x, c.dxf.center.y, c.dxf.radius) for c in found if c not in bushings]


def without_screws(found: list[tuple[float, float, float]]) -> list[tuple[float, float, float]]:
    """All but the plates' screws of 1.6 mm and their pilot holes, which the back alone has."""
    screws = {(x, y) for x, y, radius in found if round(radius, 3) == 0.8}
    assert len(screws) == 4
    return [circle for circle in found if circle[:2] not in screws]


def test_face_and_back_mirror_each_other_in_the_files(tmp_path: File) -> None:
    argv = ["export", str(samples.find("redrilled-left")), "--to", str(tmp_path)]
    assert command_line.run([*argv, "--template", "headstock", "--template", "headstock-back"]) == 0
    face, back = (without_screws(circles(tmp_path / f"{name}.dxf")) for name in ("headstock", "headstock-back"))

    def gaps(found: list[tuple[float, float, float]]) -> list[tuple[float, float]]:
        """From hole to hole, and how much farther up: mirrored, one of the two changes its sign."""
        first = found[0]
        return [(round(x - first[0], 3), round(y - first[1], 3)) for x, y, _ in found]

    assert len(face) == len(back) >= 12  # six posts at least, and six old holes
    one, other = gaps(face), gaps(back)
    across = [(-x, y) for x, y in other]
    up = [(x, -y) for x, y in other]
    assert one in (across, up)
    assert one != other
    new = sorted(radius for *_, radius in face)
    assert [round(radius, 3) for radius in new].count(3.175) == 6
