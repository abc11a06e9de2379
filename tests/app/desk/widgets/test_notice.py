"""The notice: what it says of one job is never seen over the next, and its buttons act on no other job."""

from pathlib import Path

import msgspec

from tests.app.desk.conftest import OpenDesk, sample


def test_a_notice_of_one_job_goes_when_another_comes(open_desk: OpenDesk, tmp_path: Path) -> None:
    desk = open_desk(sample("turned-left-old-slot"))
    desk.exporter.export(tmp_path)
    assert desk.notice.isVisible()
    desk.job_files.new(sample("leaning-neck"))
    assert not desk.notice.isVisible()
    assert list(tmp_path.iterdir()) == []


def test_what_is_not_about_the_job_stays(open_desk: OpenDesk) -> None:
    desk = open_desk(sample("leaning-neck"))
    desk.notice.say("No copy can be kept.", lasting=True)
    desk.job_files.new(sample("one-slip"))
    assert desk.notice.isVisible()


def test_a_stop_that_came_after_the_question_is_told_before_anything_is_written(
    open_desk: OpenDesk, tmp_path: Path
) -> None:
    desk = open_desk(sample("turned-left-old-slot"))
    job = desk.document.job
    desk.exporter.export(tmp_path)
    assert job.saddle is not None
    long = msgspec.structs.replace(job.saddle, slot_length=200.0)  # derived: longer than any bridge here
    desk.document.edit("slot", msgspec.structs.replace(job, saddle=long))
    desk.notice.buttons[0].click()
    assert list(tmp_path.iterdir()) == []
    desk.notice.buttons[0].click()
    assert (tmp_path / "placement.pdf").exists()
