"""Words that lie on a line or on other words are moved a little, and no others."""

import datetime
import math

import msgspec
import pytest

from export.drawing.marks import Circle, Line, Mark, Purpose, Text
from export.drawing.room.clear_words import IN_KEY, REACH, words_clear
from export.drawing.typeface import text_box
from export.records import Stamp
from export.templates import TEMPLATES, figure_of, parts
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


@pytest.mark.parametrize(("off", "stay"), [(0.2, False), (0.3, True)])
def test_words_close_beside_a_line_move_off_it(off: float, stay: bool) -> None:
    """The dots of a dashed line read as points of a number. Derived: the line stands so far off the last sign."""
    beside = text_box(WORD.shape).x1 + off  # type: ignore[arg-type]
    moved = words_clear((WORD, line(beside, -9.0, beside, 9.0, "before")))
    assert (place(moved) == (0.0, 0.0)) is stay


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


def rim(mark: Mark, hole: Mark) -> float:
    """How far words stand off a hole's rim, mm."""
    assert isinstance(mark.shape, Text)
    assert isinstance(hole.shape, Circle)
    ground, (x, y) = text_box(mark.shape), hole.shape.centre
    beside = (max(ground.x0 - x, x - ground.x1, 0.0), max(ground.y0 - y, y - ground.y1, 0.0))
    return abs(math.hypot(*beside) - hole.shape.radius)


@pytest.mark.parametrize(("apart", "stay"), [(1.0, True), (0.5, False)])
@pytest.mark.parametrize("angle", [0.0, math.pi / 2, -2.0])
def test_words_do_not_run_on_into_others_on_their_line(apart: float, *, stay: bool, angle: float) -> None:
    """“5” and “assumed” are two things, and no “5 assumed”: moved, 1.4 mm lie between, or they stand on two lines."""
    number = Text((0.0, 0.0), "5", 2.1, angle, "em")
    at = (apart * math.cos(angle), apart * math.sin(angle))
    word = Text(at, "assumed", 2.1, angle, "sm")
    marks = (Mark(shape=number, purpose="dimension"), Mark(shape=word, purpose="note"))
    moved = words_clear(marks)[1].shape
    assert isinstance(moved, Text)
    across = (moved.at[1] - at[1]) * math.cos(angle) - (moved.at[0] - at[0]) * math.sin(angle)
    along = moved.at[0] * math.cos(angle) + moved.at[1] * math.sin(angle)
    assert (moved == word) is stay
    assert stay or along >= 1.4 or abs(across) > 2.1


def test_the_number_of_a_hole_stays_nearer_to_it_than_to_its_neighbour() -> None:
    """Screw holes 3.5 mm apart, and lines beside the middle one as far as 1.2 mm either way: derived, the nearest
    clear place lies past these, 2.8 mm off, beside a neighbour.
    """
    number = Mark(shape=Text((2.6, 0.0), "15", 2.1, 0.0, "sm"), purpose="note", of="number")
    holes = [Mark(shape=Circle((0.0, y), 1.25), purpose="drill", of=f"screw:{y:g}") for y in (0.0, 3.5, -3.5)]
    moved = words_clear((number, *(line(1.8, y, 20.0, y) for y in (-1.2, 0.0, 1.2)), *holes))
    assert place(moved) != (2.6, 0.0)
    own, *others = (rim(moved[0], hole) for hole in holes)
    assert own < min(others)
    assert own <= 4.0


@pytest.mark.parametrize("hole", [(8.0, 8.0), (8.0, -8.0)])
def test_words_that_name_no_hole_move_beside_none(hole: tuple[float, float]) -> None:
    """Derived: a word moves left of a line along it or right of it; with a hole on one side only the other is free."""
    drilled = Mark(shape=Circle(hole, 1.25), purpose="drill", of="screw 1")
    moved = words_clear((msgspec.structs.replace(WORD, of=""), line(-20.0, 0.1, 40.0, 0.1), drilled))
    assert place(moved) != (0.0, 0.0)
    assert rim(moved[0], drilled) >= 4.0


def test_words_without_a_clear_place_near_stay() -> None:
    """A grid closer than the words are high, wider than they may move."""
    far = REACH + 40.0
    grid = [line(-far, float(y), far, float(y)) for y in range(-round(far), round(far))]
    assert place(words_clear((WORD, *grid))) == (0.0, 0.0)


def test_words_that_the_key_says_too_are_left_out_there() -> None:
    far = REACH + 40.0
    grid = [line(-far, float(y), far, float(y)) for y in range(-round(far), round(far))]
    word = msgspec.structs.replace(WORD, of=IN_KEY)
    assert words_clear((word, *grid)) == tuple(grid)
    assert words_clear((word, line(-20.0, 9.0, 40.0, 9.0)))[0] == word


def test_holes_that_are_assumed_are_named_near_them_or_in_the_key_alone() -> None:
    """The middle ones of this sample's old holes lie among new ones: between the lines is no room for the word."""
    job = sample("leaning-neck")
    layout = work_out(job)
    marks = figure_of(TEMPLATES["placement"], job, layout, Stamp(date=datetime.date(2026, 1, 2), fingerprint="")).marks
    assert any(hole.assumed for hole in layout.old.pins)
    assert not [mark for mark in marks if isinstance(mark.shape, Text) and mark.shape.text == "assumed"]
    alone = msgspec.structs.replace(layout, saddle=None, bridge=None)
    (word,) = [
        mark
        for mark in words_clear(parts.old_work(alone))
        if isinstance(mark.shape, Text) and mark.shape.text == "assumed"
    ]
    holes = [Mark(shape=Circle(h.at, h.diameter / 2), purpose="before") for h in layout.old.pins if h.assumed]
    assert min(rim(word, hole) for hole in holes) <= 4.0  # derived: no farther than words that are a hole's own


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
