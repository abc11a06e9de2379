"""Sentences of the layout in the person's words."""

from pathlib import Path

from app.file import job_file
from export.spoken import sentence, spoken
from geometry.job import Job
from geometry.work_out import work_out

SAMPLES = Path(__file__).parents[2] / "sample_jobs"


def sample(name: str) -> Job:
    return job_file.read(SAMPLES / f"{name}.job.json")


def test_readings_are_called_by_what_they_measure() -> None:
    job = sample("leaning-neck")
    assert sentence(job, "One of the readings r1 and r2 is out, r10 is not.").startswith(
        "One of the readings “nut, edge to edge” and “board end, edge to edge” is out, “"
    )


def test_what_a_reading_is_stands_once() -> None:
    job = sample("leaning-neck")
    assert sentence(job, "Readings r1 (nut left to nut right) and r2.") == (
        "Readings “nut, edge to edge” and “board end, edge to edge”."
    )
    assert (
        sentence(job, "Reading r1, nut left to nut right: reads 3 mm more.") == "“nut, edge to edge”: reads 3 mm more."
    )


def test_points_are_called_by_bass_and_treble_as_the_hand_has_it() -> None:
    """Left is on the left as one sights down the neck from the headstock: treble on a right-handed instrument."""
    right = sample("leaning-neck")
    assert right.hand == "right"
    assert sentence(right, "Nut left is loose. old.1 too, and board end right.") == (
        "Nut treble is loose. Old footprint 1 too, and board end bass."
    )
    left = sample("turned-left")
    assert sentence(left, "Measure to nut left.") == "Measure to nut bass."


def test_words_that_only_look_like_names_stay() -> None:
    job = sample("leaning-neck")
    assert sentence(job, "old.19 and nut.left.2 are no points; a rule is.") == (
        "old.19 and nut.left.2 are no points; a rule is."
    )


def test_a_sentence_in_words_stays_as_it_is() -> None:
    job = sample("one-slip")
    once = spoken(job, work_out(job))
    assert spoken(job, once) == once
    assert "r37" not in once.survey.why
    assert not any("old." in finding.text for finding in once.findings)
