"""What is drawn before there is a neck."""

from app.edit.start import first_questions
from app.say.plan.rough_layout import with_rough_places
from geometry.job import Job, Point
from geometry.work_out import work_out


def test_a_new_job_is_sketched_with_all_its_points_and_nothing_measured() -> None:
    job = first_questions.begin(hand="right", string_set="steel 12-54", measuring="bridge only")
    drawn = with_rough_places(job, work_out(job))
    assert drawn.neck is not None
    assert drawn.frets is not None
    assert set(drawn.rough) == set(job.points)
    assert drawn.points == {}


def test_an_empty_job_shows_a_usual_instrument_without_points() -> None:
    drawn = with_rough_places(Job(), work_out(Job()))
    assert drawn.neck is not None
    assert drawn.rough == {}


def test_a_job_whose_points_have_no_place_is_left_as_it_is() -> None:
    job = Job(points={"p": Point()})
    layout = work_out(job)
    assert with_rough_places(job, layout) is layout
