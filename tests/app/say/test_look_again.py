"""What is said of the reading to take next: never without a reason."""

import msgspec
import pytest

import geometry.advice
from app.edit import edits
from app.file import job_file, samples
from app.say import look_again
from geometry.advice import advise
from geometry.advice.next_reading import Advice, Advised
from geometry.job import Reading
from geometry.work_out import work_out
from tests.geometry.any_job import test_any_name as any_name
from tests.geometry.any_job.test_any_name import renamed
from tests.short_list import short_list

READING = Reading(id="r19", kind="distance", of=("nut.left", "nut.right"))


def test_each_reading_that_is_proposed_comes_with_a_reason() -> None:
    """In 64ths the saddle's ± becomes a tenth narrower, and still reads ±1/32."""
    job = short_list()
    layout = work_out(job)
    for one in advise(job, layout).advice:
        assert ": " in look_again.next_reading(job, one, layout)


def test_less_than_the_unit_shows_is_told_as_a_part() -> None:
    """0.75 mm and 0.675 mm are both within 1/32 in; derived: 0.075 of 0.75 is 10 %."""
    advice = Advice(reading=READING, side="left", saddle_before=0.75, saddle_after=0.675)
    said = look_again.next_reading(short_list(), advice)
    assert said == "Nut, edge to edge, once more: the saddle’s ±1/32 at bass becomes 10 % narrower."


def test_a_reading_that_bares_others_names_them() -> None:
    advice = Advice(reading=READING, shows=("r1", "r3"))
    said = look_again.next_reading(short_list(), advice)
    expected = "it would show a slip in “nut, edge to edge” and “nut to board end, bass edge”."
    assert said == f"Nut, edge to edge, once more: {expected}"


def test_missing_heights_are_named_where_no_place_is_worth_another_reading(monkeypatch: pytest.MonkeyPatch) -> None:
    path = samples.find("leaning-neck")
    assert path is not None
    job = job_file.read(path)
    assert job.strings is not None
    bare = msgspec.structs.replace(
        job,
        readings=tuple(r for r in job.readings if r.kind != "height"),
        strings=msgspec.structs.replace(job.strings, action=None, height=None),
    )
    monkeypatch.setattr(geometry.advice, "advise", lambda *_: Advised(enough="Enough."))
    assert look_again.measure_next(job, work_out(job)) == ("Enough.", None, "")
    assert look_again.measure_next(bare, work_out(bare)) == (look_again.HEIGHTS, None, "")


def test_how_far_a_reading_is_out_is_kept_in_few_words_while_a_point_is_loose() -> None:
    path = samples.find("one-slip")
    assert path is not None
    job = edits.add(job_file.read(path), "distance", ("nut.left", "hole.9"), value=640.0)
    layout = work_out(job)
    assert layout.survey.verdict == "loose"
    again = look_again.look_again(job, layout)
    assert again.head == "Look again: old footprint 2, off bass edge"
    assert again.in_few_words == "Reads 3.2 mm more than the others allow."
    assert "is not fixed by the readings yet." not in again.body  # what is loose comes after what is wrong


def test_a_name_does_not_end_the_few_words_that_it_stands_in() -> None:
    job = renamed(any_name.either_side(), {}, {"QXQ": "is. And: to; be"})
    few = look_again.look_again(job, work_out(job)).in_few_words
    assert few == "“is. And: to; be” may lie on either side."
