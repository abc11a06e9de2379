"""Parts that are cut out and stuck on keep their sides: B and T stand inside their outlines, at their own ends."""

import pytest
from shapely import LineString, Polygon
from shapely import box as shapely_box

from export.drawing.flatten import path_points
from export.drawing.marks import Line, Path, Text
from export.drawing.typeface import text_box
from export.records import Figure, Stamp
from export.templates import TEMPLATES, figure_of
from geometry.job import Job
from geometry.layout import Layout
from geometry.work_out import work_out
from tests.app.desk.conftest import sample


def letters(figure: Figure, of: str) -> list[str]:
    """B and T that stand wholly inside an outline to cut out, in the order of y, the left last."""
    (outline,) = (m.shape for m in figure.marks if m.of == of and m.purpose == "cut" and isinstance(m.shape, Path))
    ring = Polygon(path_points(outline, 0.01))
    texts = [m.shape for m in figure.marks if isinstance(m.shape, Text) and m.shape.text in ("B", "T")]
    held = [text for text in texts if ring.contains(shapely_box(*text_box(text)))]
    return [text.text for text in sorted(held, key=lambda text: (round(text.at[1]), text.at[0]))]


@pytest.mark.parametrize(
    ("name", "template", "of", "order"),
    [
        ("floating-five", "crown", "crown", ["B", "T"]),  # right-handed, from above: the treble is to the left, +y
        ("floating-five", "crown", "crown profile", ["T", "B"]),  # from the nut: the left is at the left end
        ("five-pairs", "tie-block", "tie block", ["B", "T"]),  # from behind: the left, its treble, is to the right
    ],
)
def test_of_a_sample(name: str, template: str, of: str, order: list[str], stamp: Stamp) -> None:
    job = sample(name)
    assert sorted(letters(figure_of(TEMPLATES[template], job, work_out(job), stamp), of)) == ["B", "T"]
    assert letters(figure_of(TEMPLATES[template], job, work_out(job), stamp), of) == order


@pytest.mark.parametrize(("template", "of"), [("nut-blank", "nut strip"), ("saddle-blank", "saddle front")])
def test_of_a_blank(job: Job, layout: Layout, stamp: Stamp, template: str, of: str) -> None:
    assert sorted(letters(figure_of(TEMPLATES[template], job, layout, stamp), of)) == ["B", "T"]


@pytest.mark.parametrize("name", ["leaning-neck", "turned-left", "five-pairs", "small-four"])
def test_the_nut_strip_keeps_an_arrow_to_the_tail(name: str, stamp: Stamp) -> None:
    """Nut and tail could be taken for each other on a strip that is cut out: x runs to the tail."""
    job = sample(name)
    figure = figure_of(TEMPLATES["nut-slots"], job, work_out(job), stamp)
    (outline,) = (m.shape for m in figure.marks if m.purpose == "cut" and isinstance(m.shape, Path))
    ring = Polygon(path_points(outline, 0.01))
    (tail,) = (m.shape for m in figure.marks if isinstance(m.shape, Text) and m.shape.text == "tail")
    assert ring.contains(shapely_box(*text_box(tail)))
    shaft = next(m.shape for m in figure.marks if m.of == "strip" and isinstance(m.shape, Line) and not m.filled)
    assert ring.contains(LineString([shaft.a, shaft.b]))
    assert shaft.a[0] < shaft.b[0] < tail.at[0]
    assert shaft.a[1] == pytest.approx(tail.at[1])
