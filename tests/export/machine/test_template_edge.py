"""A placement template as a part that a machine makes: its edge, its pilot holes, and in which order it is cut."""

from pathlib import Path as File

import msgspec
import pytest
from shapely import Point, Polygon

from export import write_all
from export.drawing.flatten import box, path_points, shape_points, union
from export.drawing.marks import Circle, Mark, Path, Text
from export.drawing.typeface import text_box
from export.errors import ExportError
from export.machine.layers import ORDER, layer_of
from export.machine.machine_file import MachineSettings, machine_drawing, made_as
from export.machine.template_edge import _engraved
from export.records import Figure, Stamp
from export.templates import TEMPLATES
from geometry.job import Job
from geometry.layout import Layout
from tests.export import readers

both = pytest.mark.parametrize("name", ["placement", "full-length"])


def drawn(name: str, job: Job, layout: Layout, stamp: Stamp) -> Figure:
    draw = TEMPLATES[name].draw
    assert draw is not None
    return draw(job, layout, stamp)


def edge_of(figure: Figure) -> Polygon:
    (edge,) = [m.shape for m in figure.marks if m.of == "template"]
    assert isinstance(edge, Path)
    assert edge.closed
    return Polygon(path_points(edge, 0.01))


@both
@pytest.mark.parametrize("margin", [3.0, 8.0, 20.0])
def test_all_lines_and_words_lie_within_the_edge_at_its_margin(
    job: Job, layout: Layout, stamp: Stamp, name: str, margin: float
) -> None:
    figure = made_as(drawn(name, job, layout, stamp), MachineSettings(edge=margin))
    edge = edge_of(figure)
    assert edge.is_valid
    boxes = [
        text_box(m.shape) if isinstance(m.shape, Text) else box(m.shape) for m in figure.marks if m.of != "template"
    ]
    around = union(boxes)
    x0, y0, x1, y1 = edge.bounds
    assert (y0, x1, y1) == pytest.approx((around.y0 - margin, around.x1 + margin, around.y1 + margin))
    assert x0 < around.x0
    lines = [point for m in figure.marks if m.of != "template" for point in shape_points(m.shape)]
    wide = edge.buffer(0.001)
    assert all(wide.contains(Point(at)) for at in lines)


def test_the_edge_is_open_at_the_notch(job: Job, layout: Layout, stamp: Stamp) -> None:
    """Slid from the tail against the board's end, the template must meet nothing but that end."""
    edge = edge_of(made_as(drawn("placement", job, layout, stamp), MachineSettings()))
    assert layout.neck is not None
    assert layout.neck.end is not None
    (lx, ly), (rx, ry) = layout.neck.end
    ring = list(edge.exterior.coords)
    assert (lx, ly) in ring
    assert (rx, ry) in ring
    assert edge.bounds[0] == pytest.approx(450.6 - 16.0, abs=0.1)  # as far back as the notch reaches, and no farther
    board = Polygon([(lx, ly - 0.1), (rx, ry + 0.1), (rx - 100.0, ry + 2.0), (lx - 100.0, ly - 2.0)])
    assert edge.intersection(board).area < 1.0


def test_on_fret_12_the_edge_is_closed_all_round(job: Job, layout: Layout, stamp: Stamp) -> None:
    rounded = msgspec.structs.replace(job, board=msgspec.structs.replace(job.board, end="rounded"))
    edge = edge_of(made_as(drawn("placement", rounded, layout, stamp), MachineSettings()))
    assert len(edge.exterior.coords) == 5
    assert layout.frets is not None
    assert edge.contains(Point(layout.frets.lines[12].left))


@both
def test_without_an_edge_the_file_is_for_the_instrument_itself(
    job: Job, layout: Layout, stamp: Stamp, name: str
) -> None:
    figure = drawn(name, job, layout, stamp)
    made = made_as(figure, MachineSettings(edge=None, pin_holes="finished"))
    assert [m for m in made.marks if m.purpose in ("drill", "route")] == [
        m for m in figure.marks if m.purpose in ("drill", "route")
    ]
    assert not [m for m in made.marks if m.of == "template"]


@pytest.mark.parametrize(("diameter", "radii"), [(2.0, [1.0]), (2.2, [1.0, 1.1])])
def test_a_hole_as_large_as_its_pilot_is_not_marked_round_it(diameter: float, radii: list[float]) -> None:
    made = _engraved([Mark(shape=Circle((5.0, 5.0), diameter / 2), purpose="drill", of="pin:1")], 2.0)
    assert [mark.shape.radius for mark in made if isinstance(mark.shape, Circle)] == radii
    assert [mark.purpose for mark in made] == ["drill", "mark"][: len(radii)]


def test_pilot_holes_larger_than_their_holes_are_refused(job: Job, layout: Layout, stamp: Stamp) -> None:
    with pytest.raises(ExportError, match=r"pilot holes of 5\.1 mm are larger than the hole of pin 1, which is 5 mm"):
        machine_drawing(drawn("placement", job, layout, stamp), layout, MachineSettings(pilot=5.1), "")


@both
def test_a_window_is_offset_inward_and_the_edge_outward(job: Job, layout: Layout, stamp: Stamp, name: str) -> None:
    """A kerf of 0.2: the beam's middle runs 0.1 mm within the window and 0.1 mm outside the edge."""
    wanted = msgspec.structs.replace(job, sheets=msgspec.structs.replace(job.sheets, window=True))
    figure = drawn(name, wanted, layout, stamp)
    plain, burnt = (machine_drawing(figure, layout, MachineSettings(kerf=kerf), "") for kerf in (0.0, 0.2))
    for of, by in (("bridge", -0.1), ("template", 0.1)):
        rings = []
        for cut in (plain, burnt):
            (shape,) = [m.shape for m in cut.marks if m.of == of]
            assert isinstance(shape, Path)
            rings.append(Polygon([cut.transform.back(at) for at in path_points(shape, 0.001)]))
        before, after = rings
        assert after.symmetric_difference(before.buffer(by, quad_segs=64)).area < 0.1
        assert (after.area > before.area) == (by > 0)


@pytest.mark.parametrize("name", ["placement", "full-length", "bridge", "clearing", "plate", "nut-slots"])
def test_marks_stand_in_the_order_of_work(job: Job, layout: Layout, stamp: Stamp, name: str) -> None:
    cut = machine_drawing(drawn(name, job, layout, stamp), layout, MachineSettings(), "")
    layers = [layer_of(mark, cut.kept) for mark in cut.marks]
    ranks = [ORDER.index(layer) for layer in layers]
    assert ranks == sorted(ranks)
    if name != "plate":  # whose outline is a proposal, to mark
        assert layers[-1] == "CUT_OUTSIDE"


def test_no_words_for_paper_and_no_waste_in_the_file(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    (file,) = write_all(job, layout, stamp, tmp_path, ("dxf",))
    texts = readers.dxf_texts(file)
    assert not {"tape", "cut out", "cut this notch out: sits", "against the board end"} & set(texts)
    assert "Then cut DRILL, CUT_INSIDE, CUT_OUTSIDE: in this order." in texts


def test_a_window_takes_its_holes_with_it(job: Job, layout: Layout, stamp: Stamp) -> None:
    wanted = msgspec.structs.replace(job, sheets=msgspec.structs.replace(job.sheets, window=True))
    made = made_as(drawn("placement", wanted, layout, stamp), MachineSettings())
    assert layout.bridge is not None
    window = Polygon(path_points(Path(layout.bridge.outline, closed=True), 0.01))
    rounds = [m.shape for m in made.marks if isinstance(m.shape, Circle) and m.purpose in ("cut", "drill", "mark")]
    assert rounds
    assert not [shape for shape in rounds if window.contains(Point(shape.centre))]
