"""Blocks of separate saddles that are refused, each with a sentence that says what, where and the mend."""

from typing import Any

import pytest
from msgspec.structs import replace

from app.file import job_file
from geometry.job import Bridge, Job, NotAJob, Point, Separate, Through
from geometry.units import Length
from tests.geometry.separate.slanted_sample import sample
from tests.in_one import in_one


@in_one(
    ("fields", "says"),
    [
        ({"travel": 61}, "The saddles’ travel is 61 mm, but must lie between 0 and 60 mm"),
        ({"travel": "1"}, "“1” has no unit"),
        ({"saddles": 0}, "There are 0 saddles, but must be 1 to 24"),
        ({"set": "along string"}, "one base can be set “square”, “saddle line”, “most reach”"),
        ({"bases": "one a string", "set": "most reach"}, "one base a string can be set “square”, “along string”"),
        ({"foremost": 30, "travel": 20}, "The rearmost break point would lie 50 mm behind the base’s front"),
        ({"screws": ((50, 0),)}, "Screw hole 1 behind the base’s front is 50 mm"),
        ({"screws": ((5, 0), (5, 41))}, "Screw hole 2 across from the base’s middle is 41 mm"),
        ({"screws": ((5, 0), (6, 1))}, "Screw holes 1 and 2 of the base lie 1.414 mm apart"),
        ({"screws": tuple((0.0, float(k)) for k in range(-12, 13))}, "The base has 25 screw holes"),
        (
            {"through": Through(ferrule_deep=40), "body": 40},
            "The ferrules’ holes of 40 mm",
        ),
        ({"opening": ("a", "b")}, "An opening needs three points or more round it, but has 2"),
        ({"opening": ("a", "b", "a")}, "Round the opening, the point “a” stands twice"),
    ],
)
def test_what_no_base_can_be_is_refused(fields: dict[str, Any], says: str) -> None:
    with pytest.raises(NotAJob, match=says.replace("(", r"\(")):
        Separate(**fields)


@pytest.mark.parametrize(("foremost", "travel", "length"), [(5.2, 8.4, 13.6), ("0.1 in", "0.2 in", "0.3 in")])
def test_a_travel_that_ends_with_the_base_is_right(foremost: Length, travel: Length, length: Length) -> None:
    """Derived: both together are the length, though not as binary fractions."""
    assert Separate(foremost=foremost, travel=travel, length=length, screws=()).length == length


def test_a_ferrule_is_no_narrower_than_its_hole() -> None:
    with pytest.raises(NotAJob, match="narrower than the through holes"):
        Through(diameter=5, ferrule=4)


def test_an_opening_stands_on_points_that_there_are() -> None:
    points = {name: Point() for name in ("a", "b")}
    with pytest.raises(NotAJob, match="The opening near the base names the point “c”"):
        Job(points=points, separate=Separate(opening=("a", "b", "c")))


def test_a_job_has_one_bridge() -> None:
    with pytest.raises(NotAJob, match="this one has the blocks bridge and separate"):
        Job(bridge=Bridge(), separate=Separate())


def test_a_job_comes_back_as_it_was() -> None:
    job = sample()
    for block in (job.separate, Separate(), Separate(bases="one a string", set="along string", travel="1/2 in")):
        made = replace(job, separate=block)
        data = job_file.encode(made)
        assert job_file.decode(data) == made
        assert job_file.encode(job_file.decode(data)) == data


def test_a_misspelt_key_is_named() -> None:
    data = job_file.encode(sample()).replace(b'"foremost"', b'"formost"')
    with pytest.raises(job_file.JobFileError, match="the key “formost” in separate is not known"):
        job_file.decode(data)
