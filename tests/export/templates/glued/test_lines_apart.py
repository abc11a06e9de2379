"""Lines and words that would run into each other on the sheets of a short board with strings in pairs (distances: as
they were looked at on the page; no source).
"""

import math
from functools import partial

import pytest
from shapely import LineString, box

from export.drawing.flatten import Box
from export.drawing.marks import Line, Mark, Path, Text
from export.drawing.room.clear_words import words_clear
from export.drawing.typeface import text_box
from export.hole_table import Bored
from export.paper.furniture import marks_box
from export.records import Figure, Stamp
from export.templates import TEMPLATES
from export.templates.parts import PAST_SLOT
from export.templates.registration import Start, tape_tabs
from geometry.layout import Layout
from geometry.work_out import work_out
from tests.app.desk.conftest import sample


def drawn(name: str, stamp: Stamp, job: str = "five-pairs") -> Figure:
    draw = TEMPLATES[name].draw
    assert draw is not None
    asked = sample(job)
    return draw(asked, work_out(asked), stamp)


def lines(figure: Figure, of: str, purpose: str) -> list[LineString]:
    found = [mark.shape for mark in figure.marks if mark.of.startswith(of) and mark.purpose == purpose]
    return [LineString([shape.a, shape.b]) for shape in found if isinstance(shape, Line)]


@pytest.mark.parametrize("name", ["placement", "full-length"])
def test_a_distance_to_check_runs_clear_of_the_strings(name: str, stamp: Stamp) -> None:
    """Strings in pairs lay within 0.8 mm of it, all along the 25 mm that they are shown before the bridge."""
    figure = drawn(name, stamp)
    measured, strings = lines(figure, "check:", "dimension"), lines(figure, "string:", "lay")
    assert len(measured) == 2
    assert len(strings) == 20
    assert min(one.distance(string) for one in measured for string in strings) > 1.45


def test_where_strings_are_far_it_has_its_usual_place(stamp: Stamp) -> None:
    figure = drawn("placement", stamp, "leaning-neck")
    edges = lines(figure, "edge:", "lay")
    for one in lines(figure, "check:", "dimension"):
        middle = one.interpolate(0.5, normalized=True)
        assert min(edge.distance(middle) for edge in edges) == pytest.approx(6.5, abs=0.05)


def test_both_sides_are_taped_on_a_short_sheet_clear_of_the_arrow_and_the_sides_words(stamp: Stamp) -> None:
    figure = drawn("placement", stamp)
    tabs = [marks_box([mark]) for mark in figure.marks if mark.of == "tape" and isinstance(mark.shape, Path)]
    assert len(tabs) == 2
    assert len({tab.y0 > 0 for tab in tabs}) == 2
    others = [mark for mark in figure.marks if mark.of == "arrow"]
    others += [m for m in figure.marks if isinstance(m.shape, Text) and m.shape.text in ("BASS", "TREBLE")]
    assert len(others) > 4
    for tab in tabs:
        around = box(tab.x0, tab.y0, tab.x1, tab.y1)
        for other in (marks_box([mark]) for mark in others):
            assert around.distance(box(other.x0, other.y0, other.x1, other.y1)) > 1.8


@pytest.mark.parametrize(("front", "long"), [(600.0, 22.0), (515.0, 14.0), (512.0, None)])
def test_the_frames_for_tape_are_narrower_where_there_is_little_room(
    layout: Layout, front: float, long: float | None
) -> None:
    """A start at 400: between the arrow to the nut and the word for the side 14 mm are left at a front of 515 mm; of a
    still shorter sheet one side is taped, in the usual width.
    """
    assert layout.neck is not None
    tabs = tape_tabs(Start("board end", (400.0, 28.0), (400.0, -28.0)), layout.neck, front)
    frames = [marks_box([mark]) for mark in tabs if isinstance(mark.shape, Path)]
    assert [frame.x1 - frame.x0 for frame in frames] == pytest.approx([22.0] if long is None else [long, long])


def test_the_names_of_tie_holes_stay_in_their_two_rows(stamp: Stamp) -> None:
    """No one is moved aside, neither off the middle's line nor off its neighbour, and none stands on another."""
    figure = drawn("tie-block", stamp)

    def names(marks: tuple[Mark, ...]) -> list[Text]:
        return [mark.shape for mark in marks if mark.of == "string" and isinstance(mark.shape, Text)]

    before = names(figure.marks)
    assert names(words_clear(figure.marks)) == before
    assert len(before) == 10
    assert len({text.at[1] for text in before}) == 2
    grounds = [text_box(text) for text in before]
    assert not any(one.meets(other) for at, one in enumerate(grounds) for other in grounds[:at])


@pytest.mark.parametrize("name", ["bridge", "placement"])
def test_within_its_slot_a_stepped_saddle_shows_its_steps_alone(name: str, stamp: Stamp) -> None:
    """The saddle line ran within 0.3 mm of the steps all along; it stands beyond the slot's ends."""
    figure = drawn(name, stamp)
    saddle = work_out(sample("five-pairs")).saddle
    assert saddle is not None
    steps = lines(figure, "saddle", "mark")
    assert len(steps) > 5
    stubs = lines(figure, "saddle", "centre")
    assert [stub.length for stub in stubs] == pytest.approx([PAST_SLOT, PAST_SLOT])
    (ax, ay), (bx, by) = saddle.line
    along = LineString([(ax, ay), (bx, by)])
    assert all(stub.intersection(along.buffer(1e-6)).length < 1e-3 for stub in stubs)
    assert math.dist((ax, ay), (bx, by)) > 60.0


def test_an_even_saddle_line_runs_through_its_slot(stamp: Stamp) -> None:
    (line,) = lines(drawn("bridge", stamp, "leaning-neck"), "saddle", "centre")
    assert line.length == pytest.approx(74.0 + 2 * PAST_SLOT, abs=0.5)  # the job's slot is 74 mm long


@pytest.mark.parametrize("job", ["five-pairs", "bolted-left", "small-four", "tie-bridge"])
def test_each_row_of_holes_and_slot_has_its_number_on_the_drawing(job: str, stamp: Stamp) -> None:
    """The slot's two ends had rows and no numbers; each stands beyond its end and nearer to it than to any hole."""
    figure = drawn("bridge", stamp, job)
    texts = {m.shape.text: m.shape for m in words_clear(figure.marks) if m.of == "number" and isinstance(m.shape, Text)}
    assert sorted(texts, key=int) == [str(number) for number in range(1, len(figure.bored) + 1)]
    for number, one in enumerate(figure.bored, 1):
        off = partial(_off, text_box(texts[str(number)]))
        assert min(figure.bored, key=off) is one


def _off(ground: Box, hole: Bored) -> float:
    """How far a hole's middle lies from the words' ground."""
    x, y = hole.at
    return math.dist((x, y), (min(max(x, ground.x0), ground.x1), min(max(y, ground.y0), ground.y1)))
