"""Edits of the placements that a job keeps."""

import math

import pytest
from msgspec.structs import replace

from app.edit.bridge import bridge_entries, held_entries, kept_places
from app.file import job_file
from geometry.job import Bridge, Job, NotAJob, Nut
from geometry.job.placements import MOST_KEPT
from geometry.placed.kept_placements import compare
from geometry.units import mm
from geometry.work_out import work_out
from tests.app.desk.conftest import sample


@pytest.fixture(scope="module")
def job() -> Job:
    return sample("leaning-neck")


@pytest.fixture(scope="module")
def kept(job: Job) -> Job:
    return kept_places.keep(job, work_out(job), "2026-03-14")


def test_what_is_kept_is_named_and_dated(job: Job, kept: Job) -> None:
    assert [(one.name, one.when) for one in kept.kept] == [("Placement 1", "2026-03-14")]
    assert (kept.kept[0].strings, kept.kept[0].bridge) == (job.strings, job.bridge)
    again = kept_places.keep(kept, work_out(kept), "2026-03-15")
    assert [one.name for one in again.kept] == ["Placement 1", "Placement 2"]


def test_a_name_that_is_free_again_is_taken(kept: Job) -> None:
    two = kept_places.keep(kept, work_out(kept), "2026-03-14")
    left = kept_places.drop(two, "Placement 1")
    assert [one.name for one in left.kept] == ["Placement 2"]
    assert [one.name for one in kept_places.keep(left, work_out(left), "").kept] == ["Placement 2", "Placement 3"]


def test_bringing_back_restores_settings_and_leaves_readings(job: Job, kept: Job) -> None:
    changed = bridge_entries.put(bridge_entries.put(kept, "bridge", length=140.0), "saddle", straight=True)
    changed = replace(
        changed,
        strings=None,
        readings=changed.readings[:-1],
        frets=replace(changed.frets, nominal="best"),
        board=replace(changed.board, centre="midpoints", zero_fret=True),
    )
    back = kept_places.bring_back(changed, "Placement 1")
    assert (back.strings, back.saddle, back.bridge, back.frets) == (job.strings, job.saddle, job.bridge, job.frets)
    assert back.board == replace(job.board, zero_fret=True)
    assert back.readings == job.readings[:-1]
    assert back.kept == kept.kept


def test_another_name(kept: Job) -> None:
    named = kept_places.rename(kept, "Placement 1", "  As  it was ")
    assert named.kept[0].name == "As it was"
    assert kept_places.keep(named, work_out(named), "").kept[1].name == "Placement 2"  # for it is the second
    with pytest.raises(NotAJob, match="has no name"):
        kept_places.rename(kept, "Placement 1", " ")


def test_nothing_to_keep_yet() -> None:
    empty = Job()
    assert not kept_places.can_keep(work_out(empty))
    with pytest.raises(NotAJob, match="There is no placement to keep yet"):
        kept_places.keep(empty, work_out(empty), "")


def test_too_many(job: Job, kept: Job) -> None:
    layout = work_out(job)
    full = kept
    for _ in range(MOST_KEPT - 1):
        full = kept_places.keep(full, layout, "")
    with pytest.raises(NotAJob, match="drop one first"):
        kept_places.keep(full, layout, "")


def test_the_file_holds_it_and_the_fingerprint_does_not(job: Job, kept: Job) -> None:
    assert job_file.decode(job_file.encode(kept)) == kept
    assert job_file.fingerprint(kept) == job_file.fingerprint(job)


def test_a_file_without_is_as_it_was(job: Job) -> None:
    assert b'"kept"' not in job_file.encode(job)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        (b'"when": "2026-03-14"', b'"when": "yesterday"', "should be written as in 2026-03-14"),
        (b'"places": {', b'"place": {', "the key “place” in kept, 1st placement is not known"),
        (b'"pm95": [', b'"pm95": [1, ', "a list of 2 values belongs here, but it has 3"),
        (b'"name": "Placement 1"', b'"name": 1', "text belongs here, not the number 1"),
    ],
)
def test_what_is_wrong_in_a_file_is_one_sentence(kept: Job, old: bytes, new: bytes, says: str) -> None:
    data = job_file.encode(kept)
    assert old in data
    with pytest.raises(job_file.JobFileError) as refused:
        job_file.decode(data.replace(old, new, 1), "x.job.json")
    said = str(refused.value)
    assert said.startswith("x.job.json: ")
    assert says in said
    assert "\n" not in said


def test_a_placement_with_a_spread_brings_it_back_over_margins(kept: Job) -> None:
    assert kept.strings is not None
    margins = replace(kept, strings=replace(kept.strings, nut=None), nut=Nut(margins=(3.0, 3.0), height=8.0))
    back = kept_places.bring_back(margins, kept.kept[0].name)
    assert back.nut == Nut(height=8.0)
    assert back.strings == kept.strings


@pytest.fixture(scope="module")
def screwed() -> Job:
    return sample("slanted-separate")


def test_saddles_of_their_own_are_kept_and_brought_back(screwed: Job) -> None:
    layout = work_out(screwed)
    assert layout.separate is not None
    made = kept_places.keep(screwed, layout, "2026-03-14")
    (kept,) = made.kept
    assert kept.separate == screwed.separate
    assert kept.places.corners == tuple((round(x, 4), round(y, 4)) for x, y in layout.separate.corners)
    for at, hole in zip(kept.places.pins, layout.separate.through, strict=True):
        assert at == pytest.approx(hole.at, abs=1e-4)
    glued = held_entries.hold(made, "glue")
    assert glued.separate is None
    assert kept_places.bring_back(glued, kept.name).separate == screwed.separate
    assert job_file.decode(job_file.encode(made)) == made


def test_a_base_kept_beside_one_that_is_set_a_millimetre_nearer(screwed: Job) -> None:
    """derived: a foremost place 1 mm farther behind the base's front moves a square base 1 mm to the nut."""
    assert screwed.separate is not None
    made = kept_places.keep(screwed, work_out(screwed), "2026-03-14")
    separate = replace(screwed.separate, foremost=mm(screwed.separate.foremost) + 1.0)
    found = compare(replace(made, separate=separate), work_out(replace(made, separate=separate)), made.kept[0])
    assert found is not None
    moved = {one.code: one for one in found.differences}
    turn = work_out(screwed).separate.bases[0].turn  # type: ignore[union-attr]  # it has one
    assert moved["corner.front.left"].along == pytest.approx(-math.cos(turn), abs=1e-3)
    assert moved["corner.front.left"].name.startswith("Base, front ")
    assert not [code for code in moved if code.startswith("slot.")]
    assert moved["saddle.left"].along == pytest.approx(0.0, abs=1e-3)


def test_marks_and_an_opening_round_points_that_are_gone_are_left_out() -> None:
    floating = sample("floating-five")
    made = kept_places.keep(floating, work_out(floating), "")
    assert made.floating is not None
    bare = replace(
        made,
        points={name: point for name, point in made.points.items() if not name.startswith("mark.")},
        readings=tuple(one for one in made.readings if not any(name.startswith("mark.") for name in one.of)),
        floating=replace(made.floating, marks=()),
    )
    back = kept_places.bring_back(bare, "Placement 1").floating
    assert back is not None
    assert (back.marks, back.feet) == ((), made.floating.feet)


def test_a_kept_placement_has_one_bridge() -> None:
    floating = sample("floating-five")
    (kept,) = kept_places.keep(floating, work_out(floating), "").kept
    with pytest.raises(NotAJob, match="more than one bridge; a job has one"):
        replace(kept, bridge=Bridge())


def test_whether_the_present_placement_is_kept(job: Job, kept: Job) -> None:
    assert not kept_places.is_kept(job)
    assert kept_places.is_kept(kept)
    shorter = bridge_entries.put(kept, "bridge", length=140.0)
    assert not kept_places.is_kept(shorter)
    assert kept_places.is_kept(kept_places.keep(shorter, work_out(shorter), ""))
