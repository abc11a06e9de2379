"""Whether the stated ± holds: invented instruments, readings drawn from their stated errors, and the truth beside."""

import numpy as np
import pytest

from geometry.job import Job, Point, Reading
from geometry.job.sides import Side
from geometry.layout import Layout
from geometry.survey import survey
from geometry.survey.rows.one_scale import TWO_IN_ONE
from geometry.work_out import lay_places
from tests.campaign.invented.laying import shown
from tests.geometry.made import bridge, job, scales, six, surveyed

XY = tuple[float, float]
INSTRUMENTS = 500
SIDES: tuple[Side, Side] = ("left", "right")


LEANING = 0.5
"""One standard deviation of the outer scales' difference, mm, on boards that lean too little to be told (invented)."""


def invented(random: np.random.Generator, apart: float = TWO_IN_ONE) -> tuple[dict[str, XY], dict[str, float]]:
    """The true corners of a board that is nowhere square, and the true scales along its outer strings, which differ by
    `apart` (one standard deviation, mm).
    """
    nut, end, length = random.uniform(20, 24), random.uniform(26, 30), random.uniform(420, 470)
    askew = random.normal(0, 0.4, 4)
    points = {
        "nut.left": (askew[0], nut),
        "nut.right": (-askew[0], -nut),
        "end.left": (length + askew[1], end + askew[2]),
        "end.right": (length - askew[1], -end + askew[3]),
    }
    scale = random.uniform(620, 660)
    return points, scales(scale, scale + random.normal(0, apart))


def read(random: np.random.Generator, points: dict[str, XY], true: dict[str, float]) -> tuple[Reading, ...]:
    """The sides and diagonals of the board, and six frets on either side, each with its stated error."""
    names = list(points)
    pairs = [(a, b) for i, a in enumerate(names) for b in names[i + 1 :]]
    found = []
    for a, b in pairs:
        length = float(np.hypot(*(np.array(points[a]) - points[b])))
        found.append(
            Reading(id=f"{a}-{b}", kind="distance", of=(a, b), value=length + random.normal(0, 0.25), sigma=0.25)
        )
    for side in SIDES:
        for fret in (1, 3, 5, 7, 9, 12):
            value = true[f"scale.{side}"] * (1 - 2 ** (-fret / 12)) + random.normal(0, 0.2)
            found.append(Reading(id=f"{side}{fret}", kind="fret", fret=fret, on=side, value=value, sigma=0.2))
    return tuple(found)


def blank(points: dict[str, XY]) -> Job:
    """A job of these points whose start places are given, so that only the adjustment is tried."""
    bare = job(points, strings=six(bass=4.3, treble=1.0), bridge=bridge())
    near = {name: Point(near=(round(x), round(y))) for name, (x, y) in points.items()}
    return Job(points=near, strings=bare.strings, bridge=bare.bridge)


def figures(layout: Layout) -> dict[str, tuple[float, float]]:
    """Each placed thing that is tried: its value and its ±; of what a sheet puts there, from where the sheet begins."""
    assert layout.saddle is not None
    assert layout.neck is not None
    assert layout.bridge is not None
    nut = [layout.strings[0].nut_xy[0], layout.strings[-1].nut_xy[0]]
    found = {
        f"saddle {side}": (at[0] - nut[i], layout.saddle.pm95[i])
        for i, (side, at) in enumerate(zip(SIDES, layout.saddle.at_strings, strict=True))
    }
    found["slant"] = (layout.saddle.slant, layout.saddle.slant_pm95)
    front, *at_strings = shown(layout, layout.bridge.corners[0], *layout.saddle.at_strings)
    found["bridge front left"] = (front.real, layout.bridge.front_pm95[0])
    found |= {
        f"saddle {side} by the sheet": (at.real, layout.saddle.by_sheet.pm95[i])
        for i, (side, at) in enumerate(zip(SIDES, at_strings, strict=True))
    }
    found |= {c.code: (c.distance, c.pm95) for c in layout.checks if not c.code.startswith("margin.")}
    assert layout.margins is not None
    found |= {f"margin {m.place} {m.side}": (m.mm, m.pm95) for m in layout.margins.at}  # they may lie beyond the edge
    corner, pin = shown(layout, layout.bridge.corners[2], layout.bridge.pins[0].at)
    for what, at, pms in (("corner", corner, layout.bridge.corners_pm95[2]), ("pin", pin, layout.bridge.pins_pm95[0])):
        found |= {f"{what} along": (at.real, pms[0]), f"{what} across": (at.imag, pms[1])}
    return found


@pytest.fixture(scope="module")
def shares() -> dict[str, float]:
    return held_by(INSTRUMENTS, TWO_IN_ONE)


def held_by(instruments: int, apart: float) -> dict[str, float]:
    """In what share of the instruments each stated ± holds the truth."""
    random = np.random.default_rng(20261125)
    held: dict[str, int] = {}
    for _ in range(instruments):
        points, true = invented(random, apart)
        bare = blank(points)
        truth = figures(lay_places(bare, surveyed(points, true, sd=1e-6)).layout)
        full = Job(points=bare.points, strings=bare.strings, bridge=bare.bridge, readings=read(random, points, true))
        for name, (value, pm95) in figures(lay_places(full, survey(full)).layout).items():
            held[name] = held.get(name, 0) + (abs(value - truth[name][0]) <= pm95)
    return {name: count / instruments for name, count in held.items()}


@pytest.mark.parametrize(
    "what",
    [
        "saddle left",
        "saddle right",
        "slant",
        "bridge front left",
        "fret12.bridge.bass",
        "nut.corner.bass",
        "margin nut left",
        "margin fret 12 right",
        "margin board end left",
        "saddle left by the sheet",
        "saddle right by the sheet",
        "corner along",
        "pin along",
        "pin across",
    ],
)
def test_the_stated_interval_holds_the_truth_in_95_of_100(shares: dict[str, float], what: str) -> None:
    # 95 % by definition; 500 trials leave a standard deviation of 1.0 %, and the aim is 93 to 97
    assert 0.93 <= shares[what] <= 0.97


def test_boards_that_lean_too_little_to_be_told_are_held_as_well_as_the_guide_says() -> None:
    # derived: the guide says 83 and 92 of 100; 250 trials leave a standard deviation of 2.4 and 1.7 %
    found = held_by(250, LEANING)
    assert 0.78 <= found["slant"] <= 0.93
    assert min(found["saddle left"], found["saddle right"]) >= 0.88
