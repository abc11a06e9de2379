"""The plots: what they draw is what was worked out, and what they say is the same."""

import re
from collections.abc import Callable
from itertools import pairwise

import msgspec
import pytest

from export.drawing.flatten import vertices_of
from export.drawing.marks import XY, Circle, Line, Mark, Path, Text
from export.drawing.typeface import width
from export.machine.letter_outlines import text_outlines
from export.paper.furniture import marks_box
from export.plots import Plot, cents, cents_before_and_after, cents_of_strings, chain_of_doubt, fret_fits
from export.plots.axes import DOT
from export.plots.fret_fits import stands
from geometry.job import Job
from geometry.layout import Layout
from geometry.units import mm
from geometry.work_out import work_out
from tests.app.desk.conftest import sample

CARD, PAPER = (74.0, 40.0), (190.0, 42.0)
"""As narrow and low as a card gets them, at a text scale of 2; and as on A4."""


@pytest.fixture(scope="module", params=["leaning-neck", "turned-left"])
def job(request: pytest.FixtureRequest) -> Job:
    """One in mm for the right hand, one in inches for the left."""
    return sample(request.param)


@pytest.fixture(scope="module")
def layout(job: Job) -> Layout:
    return work_out(job)


def texts(plot: Plot) -> list[Text]:
    return [mark.shape for mark in plot.drawing.marks if isinstance(mark.shape, Text)]


def boxes(plot: Plot) -> list[tuple[float, float, float, float, str]]:
    """The words of a plot, each with its box."""
    found = []
    for one in texts(plot):
        wide = width(one.text, one.height, one.bold)
        x = one.at[0] - {"s": 0.0, "m": 0.5, "e": 1.0}[one.anchor[0]] * wide
        y = one.at[1] - {"b": 0.0, "m": 0.5, "t": 1.0}[one.anchor[1]] * one.height
        found.append((x, y, x + wide, y + one.height, one.text))
    return found


def said(plot: Plot) -> set[str]:
    return {one.text for one in texts(plot)}


def runs(plot: Plot, of: str, purpose: str) -> list[Mark]:
    return [m for m in plot.drawing.marks if m.of == of and m.purpose == purpose and isinstance(m.shape, Path)]


def plain(words: str) -> str:
    """A number as the machine reads it."""
    return words.replace("−", "-")


def all_of(job: Job, layout: Layout) -> dict[str, tuple[Plot | None, XY]]:
    draw: dict[str, tuple[Callable[[XY], Plot | None], XY]] = {
        "cents": (lambda size: cents_of_strings(layout.strings, "1", size), CARD),
        "before and after": (lambda size: cents_before_and_after(layout.strings, size), PAPER),
        "frets": (lambda size: fret_fits(job, layout, size), CARD),
        "chain": (lambda size: chain_of_doubt(job, layout, size), CARD),
    }
    return {name: (make(size), size) for name, (make, size) in draw.items()}


@pytest.mark.parametrize("name", ["cents", "before and after", "frets", "chain"])
def test_everything_lies_within_the_picture(job: Job, layout: Layout, name: str) -> None:
    plot, (wide, high) = all_of(job, layout)[name]
    assert plot is not None
    for x0, y0, x1, y1, words in boxes(plot):
        assert -0.01 <= x0 <= x1 <= wide + 0.01, words
        assert -0.01 <= y0 <= y1 <= high + 0.01, words
    for mark in plot.drawing.marks:
        if isinstance(mark.shape, Text):
            continue
        if isinstance(mark.shape, Circle):
            assert 0 <= mark.shape.centre[0] - mark.shape.radius <= mark.shape.centre[0] + mark.shape.radius <= wide
        else:
            for x, y, *_ in vertices_of(mark.shape):
                assert -0.01 <= x <= wide + 0.01
                assert -0.01 <= y <= high + 0.01


@pytest.mark.parametrize("name", ["cents", "before and after", "frets", "chain"])
def test_no_words_lie_over_each_other(job: Job, layout: Layout, name: str) -> None:
    plot, _ = all_of(job, layout)[name]
    assert plot is not None
    found = boxes(plot)
    for count, (ax0, ay0, ax1, ay1, a) in enumerate(found):
        for bx0, by0, bx1, by1, b in found[:count]:
            assert ax1 <= bx0 or bx1 <= ax0 or ay1 <= by0 or by1 <= ay0, (a, b)


def test_the_chosen_string_is_full_after_and_dashed_before(layout: Layout) -> None:
    plot = cents_of_strings(layout.strings, "3", CARD)
    assert plot is not None
    assert runs(plot, "string:3", "mark")
    assert runs(plot, "string:3", "hidden")
    assert not runs(plot, "string:4", "hidden")
    assert runs(plot, "string:4", "dimension")


def test_a_line_of_cents_ends_where_its_last_fret_says() -> None:
    """Read off the picture by two of its ticks, the last fret's cents are those that were worked out."""
    layout = work_out(sample("leaning-neck"))
    plot = cents_of_strings(layout.strings, "6", CARD)
    assert plot is not None
    ticks = {one.text: one.at[1] for one in texts(plot) if one.anchor == "em"}
    low, high = ticks["−5"], ticks["+5"]
    string = next(s for s in layout.strings if s.name == "6")
    (run,) = runs(plot, "string:6", "mark")
    assert isinstance(run.shape, Path)
    y = run.shape.vertices[-1][1]
    assert -5 + 10 * (y - low) / (high - low) == pytest.approx(string.cents[max(string.cents)], abs=1e-6)


def test_cents_are_said_for_each_string(layout: Layout) -> None:
    plot = cents_of_strings(layout.strings, "1", CARD)
    assert plot is not None
    assert plot.says.count(" cents at fret ") == len(layout.strings)
    string = layout.strings[0]
    worst = max(string.cents.values(), key=abs)
    assert f"string {string.name} {worst:+.1f} cents".replace("-", "−") in plot.says


def test_strings_of_unknown_make_have_no_picture(layout: Layout) -> None:
    bare = tuple(msgspec.structs.replace(string, cents={}) for string in layout.strings)
    assert cents_of_strings(bare, "1", CARD) is None
    assert cents_before_and_after(bare, PAPER) is None


def test_each_fret_reading_stands_where_the_fit_says(job: Job, layout: Layout) -> None:
    plot = fret_fits(job, layout, CARD)
    assert plot is not None
    ticks = {one.text: one.at[1] for one in texts(plot) if one.anchor == "em"}
    top = next(words for words in ticks if words.startswith("+"))
    per = (ticks[top] - next(at for words, at in ticks.items() if float(plain(words)) == 0)) / float(top)
    unit = 25.4 / 64 if job.unit == "in" else 1.0
    middle = {
        mark.of: mark.shape.centre[1] if isinstance(mark.shape, Circle) else mark.shape.vertices[0][1] + DOT
        for mark in plot.drawing.marks
        if mark.of.startswith("reading:") and isinstance(mark.shape, (Circle, Path))
    }
    zero = next(at for words, at in ticks.items() if float(plain(words)) == 0)
    shown = stands(job, layout)
    assert len(middle) == len(shown) == sum(r.kind == "fret" and r.taken for r in job.readings)
    for one in shown:
        assert (middle[f"reading:{one.id}"] - zero) / per * unit == pytest.approx(one.off, abs=1e-6)


def test_bass_is_a_solid_circle_and_treble_a_hollow_square(job: Job, layout: Layout) -> None:
    plot = fret_fits(job, layout, CARD)
    assert plot is not None
    for one in stands(job, layout):
        (mark,) = [m for m in plot.drawing.marks if m.of == f"reading:{one.id}"]
        assert (isinstance(mark.shape, Circle), mark.filled) == ((True, True) if one.side == "bass" else (False, False))
    assert {"bass", "treble"} <= said(plot)


def test_a_misread_fret_is_ringed_and_said() -> None:
    right = sample("tie-bridge")
    misread = tuple(
        msgspec.structs.replace(r, value=mm(r.parts[0]) + 4.0) if r.id == "r18" else r for r in right.readings
    )
    job = msgspec.structs.replace(right, readings=misread)
    layout = work_out(job)
    plot, clean = fret_fits(job, layout, CARD), fret_fits(right, work_out(right), CARD)
    assert plot is not None
    assert clean is not None
    assert [m for m in plot.drawing.marks if m.tone == "look"]
    assert not [m for m in clean.drawing.marks if m.tone == "look"]
    assert re.search(r"farthest from the fit is fret 9, \w+: .* not go with the others", plot.says)
    assert "not go with" not in clean.says


def test_one_fret_shows_nothing() -> None:
    job = sample("leaning-neck")
    few = tuple(r for r in job.readings if r.kind != "fret" or (r.fret == 12 and r.on == "left"))
    less = msgspec.structs.replace(job, readings=few)
    assert fret_fits(less, work_out(less), CARD) is None


def test_the_bars_are_as_long_as_the_doubt(job: Job, layout: Layout) -> None:
    """The strings' bars are to the frets' as the saddle's ± to that of the frets alone, on each side its own."""
    plot = chain_of_doubt(job, layout, CARD)
    assert plot is not None
    assert layout.saddle is not None
    _, frets, strings = layout.saddle.chain
    for solid, side in ((True, "bass"), (False, "treble")):
        at = 0 if job.bass_or_treble("left") == side else 1
        long = []
        for source in ("frets", "strings"):
            (bar,) = [m for m in plot.drawing.marks if m.of == f"chain:{source}" and m.filled == solid]
            assert isinstance(bar.shape, Path)
            xs = [x for x, _, _ in bar.shape.vertices]
            long.append(max(xs) - min(xs))
        assert long[1] / long[0] == pytest.approx(strings.pm95[at] / frets.pm95[at], rel=1e-6)


def test_the_key_shows_bars_as_they_are(job: Job, layout: Layout) -> None:
    """Filled at bass, hollow at treble, both with corners; left of its own words."""
    plot = chain_of_doubt(job, layout, CARD)
    assert plot is not None
    keys = [m for m in plot.drawing.marks if isinstance(m.shape, Path) and not m.of]
    assert sorted(len(m.shape.vertices) for m in keys if isinstance(m.shape, Path)) == [4, 4]
    bass, treble = sorted(keys, key=lambda m: m.shape.vertices[0][0])  # type: ignore[union-attr]
    assert [bass.filled, treble.filled] == [True, False]
    assert not [m for m in plot.drawing.marks if isinstance(m.shape, Circle)]


def test_the_chain_is_said_with_its_shares() -> None:
    job = sample("leaning-neck")
    plot = chain_of_doubt(job, work_out(job), CARD)
    assert plot is not None
    assert "with the strings ±2.2, 93 %" in plot.says
    assert plot.says.startswith(
        "The saddle’s ± in mm, and the share that each adds. At bass by the board alone ±0.2, 0 %;"
    )
    assert "±2.2, 93 %" in said(plot)


def test_without_a_saddle_there_is_no_chain(job: Job) -> None:
    bare = msgspec.structs.replace(job, strings=None)
    assert chain_of_doubt(bare, work_out(bare), CARD) is None


def test_the_strings_of_a_pair_have_one_name_and_names_stand_apart() -> None:
    """derived: capitals of 2.2 mm, and 1 mm between them, where ten names would touch"""
    job = sample("five-pairs")
    plot = cents_of_strings(work_out(job).strings, "1b", CARD)
    assert plot is not None
    names = [one for one in texts(plot) if one.anchor == "sm"]
    assert sorted(one.text for one in names) == ["1b", "2", "3", "4", "5"]
    assert [one.text for one in names if one.bold] == ["1b"]
    high = sorted(one.at[1] for one in names)
    assert min(b - a for a, b in pairwise(high)) >= 3.2 - 1e-9


def test_no_letter_of_a_plot_reaches_below_the_paper(job: Job, layout: Layout) -> None:
    """A comma hangs below its line, by what its outline says."""
    for plot in (chain_of_doubt(job, layout, CARD), cents_of_strings(layout.strings, "1", CARD)):
        assert plot is not None
        ink = marks_box([Mark(shape=path, purpose="note") for one in texts(plot) for path in text_outlines(one)])
        assert ink.y0 >= 0


@pytest.mark.parametrize("levels", [(-4.0, -2.0, 0.0, 2.0, 4.0), (-5.0, 0.0, 5.0)])
def test_what_no_ear_can_tell_is_dotted_where_a_tick_stands_there_too(levels: tuple[float, ...]) -> None:
    """Between −2 and +2 cents: no full line is drawn over the dots."""
    axes, marks = cents._axes_drawn((90.0, 42.0), levels, 19)
    lines = [mark.shape for mark in marks if isinstance(mark.shape, Line)]
    for edge in (-cents.FLOOR, cents.FLOOR):
        high = axes.at(0.0, edge)[1]
        runs = [one.b[0] - one.a[0] for one in lines if one.a[1] == one.b[1] == pytest.approx(high)]
        assert len(runs) > 10
        assert runs == pytest.approx([0.5] * len(runs))
