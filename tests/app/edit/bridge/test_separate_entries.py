"""What is typed of saddles on a screwed base: screw holes by bass and treble, how it is set, an opening's points."""

import pytest
from msgspec.structs import replace

from app.edit.bridge import held_entries, kept_places
from app.edit.bridge import separate_entries as entries
from app.file import job_file, samples
from geometry.job import Job, NotAJob, Separate, Sheets
from geometry.units import NotALength
from geometry.work_out import work_out
from tests.geometry.separate.slanted_sample import sample, with_block


def test_screw_holes_are_shown_as_they_are_typed() -> None:
    job = sample()
    assert entries.screws(job) == "4.5 x 33 treble; 4.5 x 33 bass; 37 x 33 treble; 37 x 33 bass"
    assert entries.put_screws(job, entries.screws(job)) == job


def test_a_job_turned_left_handed_moves_no_hole() -> None:
    job = replace(sample(), hand="left")
    assert entries.screws(job).startswith("4.5 x 33 bass; 4.5 x 33 treble")
    assert entries.put_screws(job, entries.screws(job)) == job


def test_what_was_typed_is_kept() -> None:
    job = entries.put_screws(replace(sample(), unit="in"), "3/16 x 1 1/4 treble; 1 in x 0; 10 mm × 8 mm bass")
    assert job.separate is not None
    assert job.separate.screws == (("3/16 in", "1 1/4 in"), ("1 in", "0 in"), ("10 mm", "-8 mm"))
    assert entries.screws(job) == "3/16 x 1 1/4 treble; 1 x 0; 10 mm x 8 mm bass"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("4.5", "is not the place of a screw hole"),
        ("4.5 x", "is not the place of a screw hole"),
        ("4.5 x 33", "does not say to which side of the middle"),
        ("4.5 x many bass", "is not a length"),
        ("999 x 1 bass", "Screw hole 1 behind the base’s front"),
    ],
)
def test_what_is_no_place_is_refused(text: str, says: str) -> None:
    with pytest.raises((NotAJob, NotALength), match=says):
        entries.put_screws(sample(), text)


def test_a_way_to_be_set_chooses_the_bases_that_have_it() -> None:
    job = entries.put_how_set(sample(), "along string")
    assert (entries.bases(job), entries.how_set(job)) == ("one a string", "along string")
    job = entries.put_bases(job, "one")
    assert (entries.bases(job), entries.how_set(job)) == ("one", "square")


def test_through_holes_begin_when_one_of_their_sizes_is_typed() -> None:
    job = with_block(through=None)
    assert not entries.has_through(job)
    get, put = entries.through("ferrule")
    assert get(job) == 8.0
    assert entries.has_through(put(job, 9))
    assert not entries.has_through(entries.put_has_through(put(job, 9), False))


def test_an_openings_points_go_by_number() -> None:
    job = sample()
    assert entries.opening(job) == "1 2 3 4"
    assert entries.put_opening(job, "1 2 3") == with_block(opening=("opening.1", "opening.2", "opening.3"))
    with pytest.raises(NotAJob, match="There is no point"):
        entries.put_opening(job, "9")


def test_how_many_saddles_is_a_whole_number() -> None:
    assert entries.saddles(entries.put_saddles(sample(), 7.0)) == 7
    assert entries.put_saddles(sample(), None).separate == replace(sample().separate, saddles=None)  # type: ignore[type-var]  # it has one
    with pytest.raises(NotAJob, match="type a whole number"):
        entries.put_saddles(sample(), 5.5)


def test_what_is_left_is_told_string_by_string() -> None:
    job = with_block(set="square", travel=3)
    lines = entries.reach(job, work_out(job)).splitlines()
    assert len(lines) == 7
    assert any(line.endswith("cannot reach.") for line in lines)
    assert lines[-1].startswith("A travel of")
    assert entries.reach(job, None) == ""


def test_another_way_to_be_held_begins_with_usual_sizes() -> None:
    job = held_entries.hold(Job(), "screws")
    assert job.separate == Separate()
    assert job.sheets.templates == ("saddle-bases",)
    assert held_entries.hold(job, "glue") == Job()


def test_templates_that_were_chosen_stay() -> None:
    job = Job(sheets=Sheets(templates=("job-sheet",)))
    assert held_entries.hold(job, "screws").sheets == job.sheets


def test_a_placement_of_a_glued_bridge_takes_the_base_away_when_it_comes_back() -> None:
    path = samples.find("leaning-neck")
    assert path is not None
    glued = job_file.read(path)
    kept = kept_places.keep(glued, work_out(glued), "2025-03-01")
    other = held_entries.hold(kept, "screws")
    assert kept_places.can_keep(work_out(other))
    assert kept_places.keep(other, work_out(other), "2025-03-01").kept[1].separate == other.separate
    back = kept_places.bring_back(other, kept.kept[0].name)
    assert (back.bridge, back.separate) == (glued.bridge, None)
