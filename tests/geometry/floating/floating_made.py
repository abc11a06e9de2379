"""A floating bridge under five strings on a board whose points are known: for tests of what is placed from them."""

from typing import Any

import msgspec

from geometry.job import Floating, Frets, Job, Point, Saddle, Spread, String, Strings, Tail
from geometry.layout import Layout
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, XY, surveyed

SCALE = 640.0
EXTRAS = {"scale.left": SCALE, "scale.right": SCALE}
FEET: dict[str, XY] = {"foot.left": (630.0, 40.0), "foot.right": (632.0, -40.0)}
TAIL: dict[str, XY] = {"tail.left": (740.0, 20.0), "tail.right": (740.0, -16.0)}
SET = tuple(
    String(name=name, pitch=pitch, diameter=diameter)
    for name, pitch, diameter in (
        ("1", "D4", 0.254),
        ("2", "B3", 0.279),
        ("3", "G3", 0.330),
        ("4", "D3", 0.508),
        ("5", "D4", 0.254),
    )
)
TYPED = (2.0, 2.5, 3.5, 3.0, 2.0)


def standing_job(**given: Any) -> Job:
    """A right-handed job; its compensation is typed, so that plane geometry alone places it."""
    job = Job(
        points={name: Point() for name in (*BOARD, *FEET, *TAIL)},
        frets=Frets(count=20),
        strings=Strings(
            list=SET, nut=Spread(spread=26.0), saddle=Spread(spread=42.0), compensation=TYPED, nut_compensation=0.0
        ),
        saddle=Saddle(thickness=4.0),
        floating=Floating(length=80.0, width=10.0, feet=(16.0, 12.0, 14.0)),
        tail=Tail(spread=36.0, under=9.0),
    )
    return msgspec.structs.replace(job, **given)


def laid(job: Job, points: dict[str, XY] | None = None) -> Layout:
    """The job laid out with its points where they are given."""
    return lay_out(job, surveyed(BOARD | FEET | TAIL if points is None else points, EXTRAS))


def told(layout: Layout) -> dict[str, str]:
    """What is found, by its code."""
    return {finding.code: finding.text for finding in layout.findings}
