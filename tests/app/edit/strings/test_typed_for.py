"""A typed compensation belongs to the strings that it was typed for."""

import msgspec
import pytest

from app.edit.strings import string_entries
from app.edit.strings.typed_for import TypedFor, followed, told
from app.file import job_file
from geometry.job import Job, NotAJob
from geometry.job.stringing import WORKED_OUT

LIGHT = string_entries.take_set(Job(), "steel 12-54")
TYPED = string_entries.put(LIGHT, compensation=(None, "2.5 mm", None, None, None, 4.0))
HEAVY = string_entries.take_set(TYPED, "steel 13-58")
OTHERS = "The compensation of strings 2 and 6 was typed for other strings, and is still in force."


def after(*jobs: Job) -> str:
    """What is told once the job has been these, one after the other."""
    typed = TypedFor()
    for job in jobs:
        typed = followed(typed, job)
    return told(typed, jobs[-1])


def test_nothing_is_told_of_what_is_typed_for_the_strings_that_are_on() -> None:
    assert after(LIGHT, TYPED) == ""
    assert string_entries.block(TYPED).typed_for is None


def test_a_job_that_is_opened_again_still_knows_what_was_typed_for_others() -> None:
    opened = job_file.decode(job_file.encode(HEAVY))
    assert after(opened) == OTHERS
    assert job_file.fingerprint(opened) == job_file.fingerprint(without(opened))


def without(job: Job) -> Job:
    assert job.strings is not None
    return msgspec.structs.replace(job, strings=msgspec.structs.replace(job.strings, typed_for=None))


def test_strings_that_compensation_was_not_typed_for_are_refused() -> None:
    block = string_entries.block(HEAVY)
    for fields in ({"typed_for": block.list[:2]}, {"compensation": WORKED_OUT, "typed_for": block.list}):
        with pytest.raises(NotAJob, match="leave out typed_for"):
            msgspec.structs.replace(block, **fields)


def test_another_set_keeps_what_was_typed_and_says_so() -> None:
    assert string_entries.block(HEAVY).compensation == string_entries.block(TYPED).compensation
    assert after(LIGHT, TYPED, HEAVY) == OTHERS
    assert after(LIGHT, TYPED, HEAVY, msgspec.structs.replace(HEAVY, title="later")) == OTHERS


def test_it_is_over_where_the_strings_come_back_or_all_is_worked_out() -> None:
    assert after(TYPED, HEAVY, TYPED) == ""
    anew = string_entries.put(HEAVY, compensation=WORKED_OUT)
    assert after(TYPED, HEAVY, anew) == ""
    assert after(TYPED, HEAVY, anew, HEAVY) == OTHERS
    assert after(TYPED, HEAVY, anew, HEAVY, TYPED) == ""


def test_what_is_typed_anew_is_for_the_strings_that_are_on() -> None:
    anew = string_entries.put_compensation(HEAVY, 1, "2.7")
    told_of_6 = "The compensation of string 6 was typed for other strings, and is still in force."
    assert after(TYPED, HEAVY, anew) == told_of_6


def test_a_list_turned_round_keeps_each_with_its_string() -> None:
    alike = string_entries.put(LIGHT, compensation=(2.0,) * 6)
    assert after(alike, string_entries.turn_round(alike)) == ""


def test_a_set_of_another_number_says_that_typed_ones_went() -> None:
    fewer = string_entries.take_set(TYPED, "ukulele nylon 0.60-0.90")
    assert string_entries.block(fewer).compensation == WORKED_OUT
    assert after(TYPED, fewer) == "The compensation that was typed went with the strings before; Undo brings it back."
    assert after(TYPED, fewer, msgspec.structs.replace(fewer, title="later")) == after(TYPED, fewer)
    aside = string_entries.put(TYPED, compensation=WORKED_OUT)
    assert after(TYPED, aside, string_entries.take_set(aside, "ukulele nylon 0.60-0.90")) == ""
    assert after(LIGHT, string_entries.take_set(LIGHT, "ukulele nylon 0.60-0.90")) == ""
