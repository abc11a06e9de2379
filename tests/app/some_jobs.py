"""Jobs of all sorts, for hypothesis: odd names, lengths typed in every way, blocks begun or not."""

from typing import Any

from hypothesis import strategies as st

from geometry.job import (
    Bridge,
    Frets,
    Job,
    Old,
    OldMetal,
    Pins,
    Point,
    Reading,
    Saddle,
    SideHint,
    Spread,
    String,
    Strings,
)
from geometry.units import Length

TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=20)
NAMES = st.sampled_from(["nut.left", "nut.right", "end.left", "old.1", "seam.1", "mål 3", "点", "a b"])
LENGTHS: st.SearchStrategy[Length] = st.one_of(
    st.floats(20, 100, allow_nan=False),
    st.integers(20, 100).map(float),
    st.sampled_from(["1 11/16 in", "2 in", "1 63/64 in", "43,2 mm", "6.4 cm", "1¾ in", "25.4 mm", '2 1/8"']),
)


def _reading(number: int, draw: Any) -> Reading:
    a, b, c = draw(st.lists(NAMES, min_size=3, max_size=3, unique=True))
    how = draw(st.sampled_from([{}, {"with_": "rule 1/64"}, {"within": 0.5}, {"sigma": "0.3 mm"}]))
    rest = {"id": f"r{number}", "note": draw(TEXTS), "struck": draw(st.booleans()), **how}
    value = draw(st.none() | LENGTHS)
    match draw(st.sampled_from(["distance", "off", "fret", "at", "inline"])):
        case "distance":
            return Reading(kind="distance", of=("seam.1", "old.1"), value=value, **rest)
        case "off":
            return Reading(kind="off", of=(a,), from_=(b, c), side="left", value=value, **rest)
        case "fret":
            return Reading(kind="fret", fret=12, on="left", value=value, laid=draw(TEXTS), **rest)
        case "at":
            return Reading(kind="at", of=(a,), value=(draw(LENGTHS), -4.5), **rest)
        case _:
            return Reading(kind="inline", of=(a,), from_=(b, c), **rest)


@st.composite
def jobs(draw: Any) -> Job:
    """Any job that the records allow, as far as these pieces reach."""
    points = dict.fromkeys(["nut.left", "nut.right", "end.left", "old.1", "seam.1", "mål 3", "点", "a b"], Point())
    points["seam.1"] = Point(near=(520.0, "-4 mm"), side=(SideHint(of=("nut.left", "end.left"), is_="right"),))
    strings = tuple(
        String(name=str(n), diameter=draw(st.none() | st.sampled_from([0.3, "0.012 in"]))) for n in range(6)
    )
    return Job(
        title=draw(TEXTS),
        note=draw(TEXTS),
        unit=draw(st.sampled_from(["mm", "cm", "in"])),
        hand=draw(st.sampled_from(["left", "right"])),
        points=points,
        readings=tuple(_reading(number, draw) for number in range(draw(st.integers(0, 6)))),
        frets=Frets(count=draw(st.integers(1, 36)), scale=draw(st.none() | st.sampled_from([643.5, "25 11/32 in"]))),
        strings=draw(
            st.none()
            | st.builds(
                Strings,
                list=st.just(strings),
                nut=st.none() | st.builds(Spread, spread=LENGTHS, spacing=st.sampled_from(["gaps", "centres"])),
                weights=st.none() | st.dictionaries(st.integers(1, 24), st.floats(0, 9), max_size=3),
                compensation=st.sampled_from(["worked out", (1.5, 2.0, "1/16 in", 2.5, 3.0, 3.5)]),
            )
        ),
        saddle=draw(st.none() | st.builds(Saddle, peak_at=st.floats(0, 1), straight=st.booleans())),
        bridge=draw(st.none() | st.builds(Bridge, pins=st.none() | st.just(Pins()))),
        old=draw(st.none() | st.just(Old(outline=("old.1",), metal={"seam.1": OldMetal(keep_out="1/4 in")}))),
    )
