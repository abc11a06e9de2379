"""`offsquare choose` says first what must be known before a place is chosen."""

from app.cli import chosen_page
from app.file import job_file, samples
from geometry.job import Job


def sample(name: str) -> Job:
    path = samples.find(name)
    assert path is not None
    return job_file.read(path)


def test_readings_that_do_not_agree_are_named_before_the_places() -> None:
    first = chosen_page.page(sample("one-slip")).splitlines()[0]
    assert "old footprint 2, off bass edge" in first
    assert "does not agree with the others" in first


def test_a_stop_stands_before_the_places() -> None:
    said = chosen_page.page(sample("turned-left-old-slot"))
    assert said.startswith("STOP: The slot leans the wrong way")
    assert said.index("STOP") < said.index("cents bass")


def test_a_job_in_which_nothing_is_wrong_begins_with_the_places() -> None:
    assert chosen_page.page(sample("leaning-neck")).startswith("True to the strings")
