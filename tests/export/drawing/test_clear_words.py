"""Words that lie on a line or on other words are moved a little, and no others."""

import math

import msgspec
import pytest

from export.drawing.clear_words import REACH, words_clear
from export.drawing.marks import Circle, Line, Mark, Purpose, Text
from export.drawing.typeface import text_box
from export.records import Stamp
from export.templates import TEMPLATES, figure_of
from geometry.job import Job
from geometry.layout import Layout
from geometry.work_out import work_out
from tests.app.desk.conftest import sample

WORD = Mark(shape=Text((0.0, 0.0), "damaged", 2.2, 0.0, "sm"), purpose="note", of="area:1")


def line(ax: float, ay: float, bx: float, by: float, purpose: Purpose = "hidden") -> Mark:
    return Mark(shape=Line((ax, ay), (bx, by)), purpose=purpose)


def place(marks: tuple[Mark, ...]) -> tuple[float, float]:
    """Where the first mark's words stand."""
    (text,) = (mark.shape for mark in marks[:1] if isinstance(mark.shape, Text))
    return text.at


def test_words_that_nothing_touches_stay() -> None:
    marks = (WORD, line(-5.0, 2.0, 20.0, 2.0), line(-1.0, -9.0, -1.0, 9.0))
    assert words_clear(marks) == marks


@pytest.mark.parametrize("angle", [0.0, 0.4, math.pi / 2, -2.0])
def test_words_move_off_a_line_square_to_it(angle: float) -> None:
    """Derived: a line along the words' middle is left by half their height, so they move across it and not along."""
    word = msgspec.structs.replace(WORD, shape=Text((0.0, 0.0), "damaged", 2.2, angle, "sm"))
    cos, sin = math.cos(angle), math.sin(angle)
    along = line(-20.0 * cos, -20.0 * sin, 40.0 * cos, 40.0 * sin)
    x, y = place(words_clear((word, along)))
    assert x * cos + y * sin == pytest.approx(0.0, abs=1e-9)
    assert 1.1 < abs(y * cos - x * sin) < 4.0


def test_words_move_off_a_circle_and_off_other_words() -> None:
    moved = words_clear((WORD, Mark(shape=Circle((4.0, 0.0), 2.0), purpose="before")))
    assert place(moved) != (0.0, 0.0)
    other = msgspec.structs.replace(WORD, shape=Text((3.0, 0.5), "brace 1", 2.2, 0.0, "sm"))
    first, second = (text_box(m.shape) for m in words_clear((WORD, other)) if isinstance(m.shape, Text))
    assert not first.meets(second)


def test_words_without_a_clear_place_near_stay() -> None:
    """A grid closer than the words are high, wider than they may move."""
    far = REACH + 40.0
    grid = [line(-far, float(y), far, float(y)) for y in range(-round(far), round(far))]
    assert place(words_clear((WORD, *grid))) == (0.0, 0.0)


@pytest.mark.parametrize(("purpose", "of"), [("dimension", "x"), ("note", "arrow"), ("note", "waste")])
def test_numbers_of_dimensions_and_words_within_a_frame_stay(purpose: Purpose, of: str) -> None:
    mark = msgspec.structs.replace(WORD, purpose=purpose, of=of)
    assert place(words_clear((mark, line(-5.0, 0.0, 20.0, 0.0)))) == (0.0, 0.0)


@pytest.mark.parametrize(
    ("name", "template"),
    [
        ("bolted-left", "plate"),
        ("bolted-left", "placement"),
        ("redrilled-left", "headstock-back"),
        ("slanted-separate", "saddle-bases"),
        ("slanted-separate", "nut-slots"),
        ("small-askew", "full-length"),
        ("floating-five", "tailpiece"),
    ],
)
def test_no_note_of_a_sample_lies_on_a_line(name: str, template: str, stamp: Stamp) -> None:
    """What is moved once is not moved again: nothing touches it any more."""
    job = sample(name)
    marks = figure_of(TEMPLATES[template], job, work_out(job), stamp).marks
    assert words_clear(marks) == marks


def test_the_numbers_of_headstock_posts_stand_toward_the_middle(job: Job, layout: Layout, stamp: Stamp) -> None:
    head = layout.hardware.headstock
    assert head is not None
    marks = figure_of(TEMPLATES["headstock"], job, layout, stamp).marks
    for number, post in enumerate(head.posts, 1):
        (text,) = (m.shape for m in marks if m.of == f"post:{number}" and isinstance(m.shape, Text))
        assert (text.at[1] < post.at[1]) == (post.side == "left")
