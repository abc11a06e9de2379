"""Cents over the frets: what stays out of tune at each fret, a line for each string, before and after.

**Before** is with no compensation, dashed; **after** is on the saddle as it will be, full. Within the two thin lines at
±2 cents nothing can be claimed: ten players fretting the same note differ by 2 cents, one standard deviation (Mottola,
measurements of fretting by ten players).
"""

import math
from collections.abc import Sequence
from functools import lru_cache

from export.drawing.flatten import polyline
from export.drawing.marks import XY, Drawing, Mark, Purpose, Tone
from export.drawing.transform import Transform
from export.plots.axes import (
    ABOVE,
    GAP,
    LETTERS,
    Axes,
    Plot,
    Ticks,
    apart,
    axes_within,
    figure,
    frame,
    line,
    round_levels,
    text,
)
from geometry.layout import StringPlan
from geometry.units import in_decimals

FLOOR = 2.0
"""Cents."""
FRETS = (0, 3, 5, 7, 9, 12, 15, 17, 19, 22, 24)
"""Where the frets' axis has words: at the frets that have dots on most boards (common practice, no source)."""
LEFT, RIGHT = 8.0, 6.0
"""Room for the words beside the axes, mm."""
BETWEEN = 1.0
"""Between two names, mm."""
BEYOND = 1.5
"""How many times the worst that stays is shown: what was before may run out of the picture."""
Line = tuple[Purpose, Tone, float]
FULL: Line = ("mark", "worked out", 1.7)
THIN: Line = ("dimension", "quiet", 1.0)
DASHED: Line = ("hidden", "before", 1.2)


def known(strings: Sequence[StringPlan]) -> tuple[StringPlan, ...]:
    """The strings of which cents are known."""
    return tuple(s for s in strings if s.cents and all(map(math.isfinite, s.cents.values())))


def cents_of_strings(strings: Sequence[StringPlan], chosen: str, size: XY) -> Plot | None:
    """All strings as they will be, and the chosen one heavy, with how it would be without compensation."""
    shown = known(strings)
    if not shown:
        return None
    worst = BEYOND * max(abs(cents) for one in shown for cents in one.cents.values())
    axes, marks = _ground(shown, size, -worst, worst)
    for one in shown:
        marks += _run(axes, one.cents, THIN, one.name) if one.name != chosen else []
    for one in shown:
        if one.name == chosen:
            marks += _run(axes, one.cents_before, DASHED, one.name)
            marks += _run(axes, one.cents, FULL, one.name)
    marks += _names(axes, shown, chosen)
    return Plot(drawing=Drawing(title="Cents at each fret", marks=tuple(marks)), size=size, says=_says(shown))


def cents_before_and_after(strings: Sequence[StringPlan], size: XY) -> Plot | None:
    """Two pictures side by side, with no compensation and with it, each on the scale of cents that shows it best."""
    shown = known(strings)
    if not shown or not all(one.cents_before for one in shown):
        return None
    wide = (size[0] - 6.0) / 2
    marks: list[Mark] = []
    for title, move, cents, style in (
        ("with no compensation", 0.0, {one.name: one.cents_before for one in shown}, DASHED),
        ("as placed", wide + 6.0, {one.name: one.cents for one in shown}, FULL),
    ):
        values = [value for run in cents.values() for value in run.values()]
        axes, ground = _ground(shown, (wide, size[1]), min(values), max(values))
        for one in shown:
            ground += _run(axes, cents[one.name], (style[0], style[1], 0.8), one.name)
        ground.append(text((axes.ground.x1, axes.ground.y1 + ABOVE), title, "eb", bold=True))
        ground += _names(axes, shown, "", cents)
        moved = Transform(shift=(move, 0.0))
        marks += moved.marks(tuple(ground))
    return Plot(drawing=Drawing(title="Cents at each fret", marks=tuple(marks)), size=size, says=_says(shown))


def _says(shown: Sequence[StringPlan]) -> str:
    """The worst note of each string before and after."""
    parts = []
    for one in shown:
        fret = max(one.cents, key=lambda at: abs(one.cents[at]))
        before = max((abs(c) for c in one.cents_before.values()), default=None)
        was = "" if before is None else f", {before:.1f} with no compensation"
        parts.append(f"string {one.name} {in_decimals(one.cents[fret], sign=True)} cents at fret {fret}{was}")
    return f"Farthest out of tune: {'; '.join(parts)}."


def _ground(shown: Sequence[StringPlan], size: XY, low: float, high: float) -> tuple[Axes, list[Mark]]:
    levels = round_levels(min(low, -FLOOR), max(high, FLOOR))
    axes, marks = _axes_drawn(size, levels, max(fret for one in shown for fret in one.cents))
    return axes, list(marks)


@lru_cache(maxsize=8)
def _axes_drawn(size: XY, levels: tuple[float, ...], last: int) -> tuple[Axes, tuple[Mark, ...]]:
    """The axes with their ticks; the same for as long as a typed value moves the lines within them."""
    axes = axes_within(size, LEFT, RIGHT, (0.0, float(last)), (levels[0], levels[-1]))
    frets = tuple(float(fret) for fret in FRETS if fret <= last)
    words = tuple("open" if fret == 0 else f"{fret:.0f}" for fret in frets)
    cents = tuple(figure(at, levels[1] - levels[0], sign=True) for at in levels)
    marks = frame(axes, Ticks(frets, words), Ticks(levels, cents), ("fret", "cents"), (-FLOOR, FLOOR))
    for edge in (-FLOOR, FLOOR):
        (x0, y), (x1, _) = axes.at(0, edge), axes.at(last, edge)
        marks += _dotted((x0, y), x1)
    return axes, tuple(marks)


def _dotted(start: XY, stop: float) -> list[Mark]:
    """A row of short strokes, unlike any line of a string."""
    x, y = start
    return [line((x + at, y), (x + at + 0.5, y)) for at in _every(1.6, stop - x - 0.5)]


def _every(step: float, room: float) -> list[float]:
    return [step * count for count in range(int(room / step) + 1)]


def _run(axes: Axes, cents: dict[int, float], style: Line, name: str) -> list[Mark]:
    purpose, tone, weight = style
    values = [(float(fret), value) for fret, value in sorted(cents.items()) if fret <= axes.x[1]]
    return [
        Mark(shape=polyline(run), purpose=purpose, tone=tone, weight=weight, of=f"string:{name}")
        for run in axes.runs(values)
    ]


def _names(
    axes: Axes, shown: Sequence[StringPlan], chosen: str, cents: dict[str, dict[int, float]] | None = None
) -> list[Mark]:
    """The strings' names at the right ends of their lines, those of one course once, pushed apart where they would lie
    over each other.
    """
    values = cents or {one.name: one.cents for one in shown}
    courses: dict[int, list[StringPlan]] = {}
    for one in shown:
        courses.setdefault(one.course, []).append(one)
    ends = [_end(axes, [values[one.name] for one in mine]) for mine in courses.values()]
    places = apart(ends, LETTERS + BETWEEN, axes.ground.y0, axes.ground.y1)
    return [
        _name((axes.ground.x1 + GAP, place), mine, chosen) for mine, place in zip(courses.values(), places, strict=True)
    ]


def _end(axes: Axes, runs: Sequence[dict[int, float]]) -> float:
    """How high the lines of one course end, in the middle between them, mm."""
    return sum(axes.at(max(run), run[max(run)])[1] for run in runs) / len(runs)


def _name(at: XY, course: Sequence[StringPlan], chosen: str) -> Mark:
    """The name of a course's chosen string; else its number where it has several, or that of its one string."""
    own = next((one for one in course if one.name == chosen), None)
    if own is not None:
        return text(at, own.name[:3], "sm", bold=True, tone="worked out", of=f"string:{own.name}")
    first = course[0]
    words = first.name[:3] if len(course) == 1 else str(first.course)
    return text(at, words, "sm", tone="quiet", of=f"string:{first.name}")
