"""Of some of the jobs that are only placed what is to be said is worked out too."""

from msgspec.structs import replace

from app.file import job_file, samples
from geometry.work_out import work_out
from tests.campaign.placing import is_judged, places_of


def test_one_job_in_ten_is_judged_and_the_others_are_placed_the_same() -> None:
    """derived: of 500, 50 on the mean with a standard deviation of 6.7"""
    path = samples.find("tie-bridge")
    assert path is not None
    job = job_file.read(path)
    jobs = [replace(job, title=str(number)) for number in range(500)]
    judged = [one for one in jobs if is_judged(one)]
    others = [one for one in jobs if not is_judged(one)]
    assert 30 < len(judged) < 70
    whole = work_out(judged[0])
    assert places_of(judged[0]).findings == whole.findings != ()
    assert places_of(others[0]).findings == ()
    assert places_of(others[0]).saddle == whole.saddle
