"""Floating bridges and tails of every sort that a job can hold, for hypothesis; and their mirror images."""

from typing import Any

from hypothesis import strategies as st
from msgspec.structs import replace

from geometry.job import Floating, Tail
from geometry.units import mm
from tests.geometry.any_job.odd_jobs import ends

MORE_PLACES: dict[str, tuple[float, float]] = {
    "foot.left": (634.0, 40.0),
    "foot.right": (637.0, -41.0),
    "tail.left": (742.0, 22.0),
    "tail.right": (741.0, -16.0),
    "body.1": (500.0, 130.0),
    "body.2": (760.0, 60.0),
    "body.3": (765.0, -50.0),
    "body.4": (500.0, -130.0),
    "soundhole.1": (520.0, 30.0),
    "soundhole.2": (600.0, 30.0),
    "soundhole.3": (600.0, -30.0),
    "mark.1": (640.0, 40.0),
    "mark.2": (640.0, 25.0),
    "mark.3": (650.0, 25.0),
}


@st.composite
def floatings(draw: Any) -> Floating:
    length = draw(ends(20.0, 80.0, 300.0))
    share = draw(st.sampled_from([(), (0.2, 0.2), (0.3, 0.1), (0.2, 0.15, 0.25)]))
    side = st.none() | ends(2.0, 16.0, 60.0)
    width = draw(ends(2.0, 10.0, 60.0))
    return Floating(
        length=length,
        width=width,
        feet=tuple(max(part * length, 1.0) for part in share),
        front_to_crown=draw(st.none() | st.sampled_from((0.0, width / 4, width))),
        height=draw(st.none() | ends(2.0, 16.0, 60.0) | st.tuples(side, side)),
        notched=draw(st.booleans()),
        marks=draw(st.sampled_from([(), (("mark.1", "mark.2", "mark.3"),)])),
    )


TAILS = st.builds(
    Tail,
    behind=st.none() | ends(5.0, 90.0, 500.0),
    spread=st.none() | ends(5.0, 36.0, 200.0),
    under=st.none() | ends(0.0, 9.0, 80.0),
    screws=st.just(()) | st.just(((14.0, 3.0), (14.0, -5.0))),
    pin=st.booleans(),
)


def mirrored_floating(floating: Floating | None) -> Floating | None:
    """Its feet and heights the other way round, the points of its marks on the other side."""
    if floating is None:
        return None
    left, right = floating.heights
    height = left if left == right else (right, left)
    return replace(floating, feet=floating.feet[::-1], height=height)


def mirrored_tail(tail: Tail | None) -> Tail | None:
    """Its screw holes on the other side."""
    return None if tail is None else replace(tail, screws=tuple((x, -mm(y)) for x, y in tail.screws))
