"""Blocks of separate saddles that can be made but that hardly one has, for hypothesis."""

from typing import Any

from hypothesis import strategies as st

from geometry.job import NotAJob, Separate, Through
from tests.geometry.any_job.odd_jobs import ends

THROUGH = st.builds(
    lambda diameter, ferrule, **rest: Through(diameter=diameter, ferrule=ferrule and max(ferrule, diameter), **rest),
    behind=ends(0.0, 28.0, 150.0),
    from_=st.sampled_from(["base front", "foremost"]),
    diameter=ends(1.0, 3.5, 12.0),
    ferrule=st.none() | ends(2.0, 8.0, 20.0),
    ferrule_deep=ends(0.5, 4.0),
)


@st.composite
def blocks(draw: Any) -> Separate:
    bases = draw(st.sampled_from(["one", "one a string"]))
    sets = ["square", "saddle line", "most reach"] if bases == "one" else ["square", "along string"]
    length, width = draw(ends(5.0, 44.0, 200.0)), draw(ends(4.0, 78.0, 200.0))
    travel = draw(ends(0.0, 12.0, 60.0))
    foremost = draw(ends(0.0, 8.0, 80.0))
    place = st.tuples(st.floats(0, length), st.floats(-width / 2, width / 2))
    fields: dict[str, Any] = {
        "bases": bases,
        "set": draw(st.sampled_from(sets)),
        "saddles": draw(st.none() | st.integers(1, 24)),
        "length": length,
        "width": width,
        "travel": min(travel, length / 2),
        "foremost": min(foremost, length / 2),
        "thickness": draw(st.none() | ends(0.5, 3.0, 30.0)),
        "screw": draw(ends(0.8, 2.5, 8.0)),
        "through": draw(st.none() | THROUGH),
        "body": draw(st.none() | ends(5.0, 45.0, 120.0)),
        "opening": draw(st.sampled_from([(), ("seam.1", "seam.2", "old.1"), ("old.1", "old.2", "old.3", "old.4")])),
    }
    try:
        return Separate(**fields, screws=tuple(draw(st.lists(place, max_size=4))))
    except NotAJob:  # screw holes that run into each other
        return Separate(**fields)
