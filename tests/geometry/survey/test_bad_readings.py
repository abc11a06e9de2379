"""Readings that cannot be: one clear sentence names the reading and the mend."""

import pytest

from geometry.job import Job, NotAJob, Point, Reading
from geometry.survey import survey
from tests.in_one import in_one


@in_one(
    ("fields", "sentence"),
    [
        (
            {"kind": "distance", "of": ("a", "b"), "value": 0.0},
            "Reading “r1”: a distance of 0 puts two points in the same place; read it again",
        ),
        (
            {"kind": "off", "of": ("a",), "from_": ("b", "b"), "side": "left", "value": 3.0},
            "Reading “r1” goes from “b” to the same point; name two different points",
        ),
        (
            {"kind": "distance", "of": ("a", "b"), "value": 10.0, "sigma": 0.0},
            "Reading “r1”, “sigma”, is 0 mm, but must lie between 0.001 and 50 mm",
        ),
        (
            {"kind": "distance", "of": ("a", "b"), "value": -4.0},
            "Reading “r1”, the value, is -4 mm, but must lie between 0 and 5000 mm",
        ),
        (
            {"kind": "off", "of": ("a",), "from_": ("b", "c"), "value": 3.0},
            "Reading “r1” does not say on which side of the straightedge the point lies; add left or right",
        ),
        (
            {"kind": "same", "of": ("a", "b", "b", "a")},
            "Reading “r1” sets “a” to “b” against itself; name two other points",
        ),
        (
            {"kind": "square", "of": ("a", "b", "a", "b")},
            "Reading “r1” sets “a” to “b” against itself; name two other points",
        ),
        (
            {"kind": "meets", "of": ("c", "d"), "from_": ("d", "c"), "value": 3.0},
            "Reading “r1” sets “c” to “d” against itself; name two other points",
        ),
        (
            {"kind": "same", "of": ("a", "b", "c", "c")},
            "Reading “r1” goes from “c” to the same point; name two different points",
        ),
        (
            {"kind": "off", "of": ("b",), "from_": ("b", "c"), "side": "left", "value": 3.0},
            "Reading “r1” reads “b” from itself; name another point",
        ),
        (
            {"kind": "distance", "of": ("a", "b"), "value": 3.0, "with_": "laser"},
            "Reading “r1” was read with “laser”, which is not known",
        ),
    ],
)
def test_a_reading_that_cannot_be_is_refused(fields: dict[str, object], sentence: str) -> None:
    with pytest.raises(NotAJob) as refused:
        Reading(id="r1", **fields)  # type: ignore[arg-type]
    assert str(refused.value).startswith(sentence)


def distance(key: str, a: str, b: str, value: float) -> Reading:
    return Reading(id=key, kind="distance", of=(a, b), value=value)


ODD: dict[str, tuple[Reading, ...]] = {
    "one point and itself in line": (Reading(id="i", kind="inline", of=("a",), from_=("b", "c")),),
    "a crossing alone": (Reading(id="m", kind="meets", of=("c", "d"), from_=("a", "b"), value=50.0),),
    "one place off a sheet": (Reading(id="s", kind="at", of=("a",), value=(1.0, 2.0)),),
    "two places off a sheet that coincide": (
        Reading(id="s", kind="at", of=("a",), value=(1.0, 2.0)),
        Reading(id="t", kind="at", of=("b",), value=(1.0, 2.0)),
    ),
    "two figures apart": (distance("1", "a", "b", 100.0), distance("2", "c", "d", 100.0)),
    "two points one place": (
        distance("1", "a", "b", 100.0),
        distance("2", "a", "c", 0.001),
        distance("3", "b", "c", 100.0),
    ),
    "a square without lengths": (Reading(id="q", kind="square", of=("a", "b", "c", "d")),),
    "same with nothing to compare": (Reading(id="q", kind="same", of=("a", "b", "c", "d")),),
    "heights alone": (Reading(id="h", kind="height", at="fret 12", on="left", value=2.0),),
    "the same distance read very differently": (distance("1", "a", "b", 100.0), distance("2", "a", "b", 400.0)),
    "off by more than its distance": (
        distance("1", "a", "b", 300.0),
        distance("2", "a", "c", 20.0),
        Reading(id="3", kind="off", of=("c",), from_=("a", "b"), side="left", value=40.0),
    ),
}


@in_one("readings", ODD.values())
def test_whatever_was_read_the_survey_answers(readings: tuple[Reading, ...]) -> None:
    names = dict.fromkeys(name for reading in readings for name in (*reading.of, *reading.from_))
    solved = survey(Job(points=dict.fromkeys(names, Point()), readings=readings))
    assert solved.report.why.whole
    assert len(solved.fits) == sum(2 if reading.kind == "at" else 1 for reading in readings)
    assert set(solved.point_at) | set(solved.rough) == set(names)


def test_two_readings_of_one_length_that_differ_wildly_are_a_group() -> None:
    solved = survey(Job(points={"a": Point(), "b": Point()}, readings=ODD["the same distance read very differently"]))
    assert (solved.report.verdict, solved.report.groups) == ("one of these", (("1", "2"),))


@pytest.mark.parametrize(
    ("out", "said"), [(0.70, ("one of these", (), (("1", "2"),))), (0.85, ("misread", ("2",), ()))]
)
def test_of_two_readings_that_explain_alike_neither_is_named_alone(out: float, said: tuple[object, ...]) -> None:
    """A length read three times, to 0.1, 0.1 and 0.3 mm, the second out. Derived: by weights of 9, 9 and 1 the second
    is out by out × √(10/19) / 0.1 of its own standard deviations, the first by 0.9 times that; their squares differ by
    10 out² / 0.1², which is 6 where it is out by 0.775. Left out, either leaves two that agree.
    """
    fine = ((400.0, 0.1), (400.0 + out, 0.1), (400.0, 0.3))
    readings = tuple(
        Reading(id=str(i), kind="distance", of=("a", "b"), value=v, sigma=s) for i, (v, s) in enumerate(fine, 1)
    )
    report = survey(Job(points={"a": Point(), "b": Point()}, readings=readings)).report
    assert (report.verdict, report.suspects, report.groups) == said
