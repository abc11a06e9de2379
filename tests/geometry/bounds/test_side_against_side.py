"""The bounds of the heights, each tried on both sides. All figures: common practice, no source."""

import pytest
from msgspec.structs import replace

from geometry.job import Action, Job
from geometry.work_out import work_out
from tests.geometry.bounds.right_jobs import changed, grade, invented, sample


def acting(fret1: float, treble: float, bass: float) -> Job:
    """The sample, right-handed, with these heights typed and none read; both sides alike over fret 1."""
    bare = replace(sample(), readings=tuple(r for r in sample().readings if r.kind != "height"))
    return changed(bare, strings={"action": Action(fret1=(fret1, fret1), fret12=(treble, bass))})


@pytest.mark.parametrize(("higher", "expected"), [(-0.42, "look"), (-0.38, ""), (1.28, ""), (1.32, "look")])
def test_strings_much_higher_on_one_side(higher: float, expected: str) -> None:
    assert grade(acting(0.5, 2.2, 2.2 + higher), "heights.uneven") == expected


@pytest.mark.parametrize(("higher", "side"), [(-0.6, "treble"), (1.4, "bass")])
def test_the_higher_side_is_named(higher: float, side: str) -> None:
    (found,) = (one for one in work_out(acting(0.5, 2.2, 2.2 + higher)).findings if one.code == "heights.uneven")
    assert f"higher over fret 12 at the {side} than" in found.text


@pytest.mark.parametrize(("count", "expected"), [(1, ""), (2, "look")])
def test_one_string_alone_has_no_other_side(count: int, expected: str) -> None:
    job = acting(0.5, 2.2, 4.4)
    assert job.strings is not None
    few = changed(job, strings={"list": job.strings.list[:count], "compensation": (2.0,) * count})
    assert grade(few, "heights.uneven") == expected


def test_nothing_is_said_of_heights_that_are_assumed() -> None:
    bare = replace(sample(), readings=tuple(r for r in sample().readings if r.kind != "height"))
    lacking = changed(bare, strings={"action": Action(fret1=(0.5, None), fret12=(1.5, 3.5))})
    assert grade(lacking, "heights.uneven") == ""


@pytest.mark.parametrize(("nut", "expected"), [(1.18, ""), (1.22, "look")])
def test_a_nut_that_is_high(nut: float, expected: str) -> None:
    """Derived: a straight string that is `nut` over the frets at the nut and 2.4 mm over fret 12 (half the scale) is
    nut + (2.4 − nut) × 2 × 0.0561 over fret 1."""
    assert grade(acting(nut + (2.4 - nut) * 2 * (1 - 2 ** (-1 / 12)), 2.4, 2.4), "heights.nut") == expected


@pytest.mark.parametrize("place", ["board end", "bridge"])
@pytest.mark.parametrize(("more", "expected"), [(2.95, ""), (3.05, "look")])
def test_heights_over_the_top_that_differ(place: str, more: float, expected: str) -> None:
    job = sample()
    level = {"board end": 9.0, "bridge": 14.0}
    readings = tuple(
        replace(r, value=level[r.at] + (more if r.on == "left" and r.at == place else 0.0))
        if r.kind == "height" and r.at in level
        else r
        for r in job.readings
    )
    assert grade(replace(job, readings=readings), "top.unlike") == expected


def tall(bass: float) -> str:
    """Steel on a scale of 646 mm, taken as 650: 1.8 and 2.4 mm over fret 12, in the middle 2.1."""
    return grade(acting(0.5, bass - 0.6, bass), "heights.tall")


@pytest.mark.parametrize(("bass", "expected"), [(2.4, ""), (3.26, ""), (3.31, "look"), (4.9, "look")])
def test_strings_as_high_as_if_read_from_the_wood(bass: float, expected: str) -> None:
    """Derived: 2.1 + 0.9 in the middle is 3.3 at the bass, where the treble is 0.6 lower."""
    assert tall(bass) == expected


def test_what_can_hardly_be_played_is_a_stop_and_no_more() -> None:
    job = acting(0.5, 4.6, 5.2)
    assert (grade(job, "heights.high"), grade(job, "heights.tall")) == ("stop", "")


def test_heights_that_are_assumed_are_not_called_tall() -> None:
    bare = replace(sample(), readings=tuple(r for r in sample().readings if r.kind != "height"))
    lacking = changed(bare, strings={"action": Action(fret1=(0.5, None), fret12=(4.0, 4.5))})
    assert grade(lacking, "heights.tall") == ""


def test_what_is_usual_is_not_known_of_a_set_of_two_materials() -> None:
    job = acting(0.5, 2.9, 3.5)
    assert job.strings is not None
    assert grade(job, "heights.tall") == "look"
    mixed = (*job.strings.list[:5], replace(job.strings.list[5], material="nylon"))
    assert grade(changed(job, strings={"list": mixed}), "heights.tall") == ""


@pytest.mark.parametrize(("bass", "expected"), [(2.9, ""), (3.29, ""), (3.31, "look")])
def test_a_short_scale_is_held_to_no_lower_strings(bass: float, expected: str) -> None:
    """The invented instrument's scale is under 650 mm: what is asked about is the same there."""
    bare = replace(invented(), readings=tuple(r for r in invented().readings if r.kind != "height"))
    heights = (bass - 0.6, bass) if bare.bass == "right" else (bass, bass - 0.6)
    assert (
        grade(changed(bare, strings={"action": Action(fret1=(0.5, 0.5), fret12=heights)}), "heights.tall") == expected
    )
