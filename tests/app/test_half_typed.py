"""Whatever stands half-typed in one reading, the layout can be worked out and drawn: nothing fails while one types."""

import warnings

import pytest

from app.edit import edits
from app.file import job_file, samples
from export.plan import PlanView, compose
from geometry import words
from geometry.job import NotAJob
from geometry.units import NotALength
from geometry.work_out import work_out


@pytest.mark.parametrize("name", ["leaning-neck", "turned-left", "small-four"])
@pytest.mark.parametrize("empty", [False, True], ids=["all others measured", "all after it empty"])
def test_a_beginning_of_every_value_can_be_worked_out(name: str, empty: bool) -> None:
    path = samples.find(name)
    assert path is not None
    whole = job_file.read(path)
    job = edits.replace(whole, readings=tuple(edits.replace(r, value=None) for r in whole.readings)) if empty else whole
    tried = 0
    for place, reading in enumerate(whole.readings):
        text = words.value(reading, job.unit)
        half = text[: 1 + place % max(len(text) - 1, 1)]  # of the one value one sign, of the next two, and so on
        try:
            typed = edits.set_value(job, reading.id, half)
        except (NotAJob, NotALength):
            typed = job
        if typed is not job:
            tried += 1
            with warnings.catch_warnings():
                warnings.simplefilter("ignore")  # numbers may be senseless, but nothing may fail
                compose(typed, work_out(typed), PlanView(reading=reading.id))
        if empty and text:
            job = edits.set_value(job, reading.id, text)
    assert tried > len(whole.readings) / 3
