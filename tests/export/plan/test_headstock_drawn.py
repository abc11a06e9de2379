"""The headstock, markers and other holes on the plan, on made-up points whose places are known."""

import math

import pytest

from app.desk.plan.looking.where_to_look import spot_of
from export.drawing.marks import Circle, Mark, Path
from export.plan.headstock_drawn import place_of_headstock, rest
from export.plan.plan_view import PlanView
from geometry.job import FaceMarkers, Hardware, Job, Markers, OtherHole, SideMarkers, TunerPlate, Tuners
from geometry.layout import Layout
from geometry.work_out import lay_out
from tests.geometry.hardware.test_headstock_and_posts import OLD, OUTLINE, head
from tests.geometry.made import BOARD, XY, job, scales, six, surveyed

NEAR = PlanView(scale=1.0)
PLATE = TunerPlate(screws=((-6.0, -5.0),))
MARKED = Markers(side=SideMarkers(frets=(5,), twice=()), face=FaceMarkers(frets=(12,)))


def made(mirror: bool = False) -> tuple[Job, Layout]:
    sign = -1.0 if mirror else 1.0
    swap = {"left": "right", "right": "left"}
    points: dict[str, XY] = {}
    for name, (x, y) in (BOARD | OUTLINE | OLD | {"hole.1": (300.0, 5.0)}).items():
        first, _, side = name.partition(".")
        points[f"{first}.{swap.get(side, side)}" if mirror and side in swap else name] = (x, sign * y)
    hardware = Hardware(
        headstock=head(),
        tuners=Tuners(keep="middle post", plate=PLATE, bushing=9.0),
        markers=MARKED,
        holes=(OtherHole(where="jack", point="hole.1", diameter=12.0),),
    )
    whole = job(points, "left" if mirror else "right", strings=six(2.0, 2.0), hardware=hardware)
    return whole, lay_out(whole, surveyed(points, scales(640.0, 640.0), sd=0.05))


def circles(marks: list[Mark], of: str) -> list[Circle]:
    return [mark.shape for mark in marks if mark.of == of and isinstance(mark.shape, Circle)]


def test_old_posts_are_former_lines_and_new_ones_are_drilled() -> None:
    marks, labels = rest(*made(), NEAR)
    assert {m.purpose for m in marks if m.of == "point:post.2" and isinstance(m.shape, Circle)} == {"before"}
    # derived: the middle old post of three, 40 apart from x = -45, is at -85
    posts = circles(marks, "post:2")
    assert [c.radius for c in posts] == [pytest.approx(3.175), 4.5]  # 1/4 in
    assert posts[0].centre == posts[1].centre == pytest.approx((-85.0, 22.0), abs=1e-6)
    assert [label.words for label in labels] == ["1", "2", "3", "6", "5", "4"]


def test_plugs_are_hatched_where_one_looks_closely_only() -> None:
    job_, layout = made()
    hatched = [m for m in rest(job_, layout, NEAR)[0] if m.of == "point:post.1" and m.purpose == "dimension"]
    assert len(hatched) > 5
    far = PlanView(scale=0.2)
    assert not [m for m in rest(job_, layout, far)[0] if m.of == "point:post.1" and m.purpose == "dimension"]
    assert not rest(job_, layout, far)[1]


def test_its_middle_line_runs_away_from_the_nut() -> None:
    middle = next(m.shape for m in rest(*made(), NEAR)[0] if m.purpose == "centre" and m.of == "headstock")
    assert middle.b[0] < -175.0  # type: ignore[union-attr]  # a line; the headstock ends at -175


def test_markers_and_other_holes_are_where_they_are() -> None:
    marks, _ = rest(*made(), NEAR)
    # derived: midway between frets 11 and 12 of a scale of 640 along the edges, which spread by 6 mm in 440
    middle = 640.0 * (1 - (2 ** (-11 / 12) + 2 ** (-1)) / 2) * math.cos(math.atan(6 / 440))
    faces = circles(marks, "markers")
    assert [c.centre[0] for c in faces] == pytest.approx([middle, middle], abs=0.01)
    edge = next(m.shape for m in marks if m.of == "markers" and isinstance(m.shape, Path))
    ys = [y for _, y, *_ in edge.vertices]
    # derived: 3 mm deep from the bass edge, which a right-handed board has at -y
    assert max(ys) - min(ys) == pytest.approx(3.0, abs=0.1)
    assert min(ys) < -22.0
    assert [c.radius for c in circles(marks, "other hole:1")] == [6.0]


def test_a_mirrored_job_mirrors() -> None:
    straight, turned = rest(*made(), NEAR)[0], rest(*made(mirror=True), NEAR)[0]

    def drilled(marks: list[Mark], sign: float) -> set[tuple[float, float, float]]:
        found = [m.shape for m in marks if m.purpose == "drill" and isinstance(m.shape, Circle)]
        return {(round(c.centre[0], 3), round(sign * c.centre[1], 3), c.radius) for c in found}

    assert drilled(straight, 1.0) == drilled(turned, -1.0)
    assert len(drilled(straight, 1.0)) == 11  # derived: six posts, two plates' screws, two dots, one hole


def test_findings_lead_to_their_place() -> None:
    _, layout = made()
    assert spot_of("post:2", layout, lambda _: None) == pytest.approx((-85.0, 22.0), abs=1e-6)
    box = place_of_headstock(layout)
    assert box is not None
    # derived: from the outline's end to the nut
    assert box[:3:2] == pytest.approx((-175.0, 0.0), abs=1e-6)
    assert spot_of("headstock", layout, lambda _: None) == pytest.approx((-87.5, 0.0), abs=1e-3)
    assert spot_of("post:9", layout, lambda _: None) != spot_of("headstock", layout, lambda _: None)
