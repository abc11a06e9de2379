"""A trial saddle's ends are asked for, and what is read of them places it."""

from msgspec.structs import replace

from app.edit.strings.trial_entries import ask_trial
from app.file import job_file, samples
from geometry.job import Job
from geometry.survey import survey
from geometry.work_out import work_out

ENDS = {"left": (640.0, 30.0), "right": (646.0, -31.0)}
"""Where a trial saddle was laid, mm (derived: any places near where the saddle is expected)."""


def sample() -> Job:
    path = samples.find("leaning-neck")
    assert path is not None
    return job_file.read(path)


def test_what_is_read_of_its_ends_places_it() -> None:
    """derived: distances by Pythagoras from where the nut's corners were found"""
    job = sample()
    layout = work_out(job)
    made, first = ask_trial(job, layout, "1")
    asked = made.readings[len(job.readings) :]
    assert [r.of for r in asked] == [
        (f"nut.{corner}", f"trial.1.{end}") for end in ("left", "right") for corner in ("left", "right")
    ]
    assert first == asked[0].id
    assert not any(r.taken for r in asked)
    found = survey(job)
    nut = {side: complex(*found.state[c : c + 2]) for side in ENDS for c in (found.point_at[f"nut.{side}"],)}
    read = {r.id: abs(nut[r.of[0].split(".")[1]] - complex(*ENDS[r.of[1].split(".")[2]])) for r in asked}
    placed = survey(replace(made, readings=tuple(replace(r, value=read.get(r.id, r.value)) for r in made.readings)))
    for end, at in ENDS.items():
        column = placed.point_at[f"trial.1.{end}"]
        assert abs(complex(*placed.state[column : column + 2]) - complex(*at)) < 0.05


def test_nothing_is_asked_twice_and_what_waits_comes_first() -> None:
    job = sample()
    layout = work_out(job)
    made, first = ask_trial(job, layout, "1")
    assert ask_trial(made, layout, "1") == (made, first)
    taken = replace(made, readings=tuple(replace(r, value=640.0) if r.id == first else r for r in made.readings))
    again, waits = ask_trial(taken, layout, "1")
    assert again == taken
    assert waits == made.readings[len(job.readings) + 1].id
