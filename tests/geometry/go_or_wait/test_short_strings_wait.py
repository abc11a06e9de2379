"""Short strings and drones in what may be done now: each is heard an octave up, and a drone holds nothing back."""

from msgspec.structs import replace

from geometry.go_or_wait import verdicts
from geometry.go_or_wait.what_if import with_trial
from geometry.job import Job
from geometry.strings.usual_sets import SETS
from geometry.work_out import work_out
from tests.geometry.slanted_made import plain


def strung(name: str, count: int = 20) -> Job:
    job = plain(count)
    assert job.strings is not None
    return replace(job, strings=replace(job.strings, list=SETS[name].strings))


def heard(job: Job) -> list[tuple[str, int]]:
    tried = with_trial(job, work_out(job))
    assert tried is not None
    assert tried.strings is not None
    return [(one.string, one.fret) for one in tried.strings.heard]


def test_a_trial_hears_each_string_an_octave_up() -> None:
    assert heard(strung("short fifth steel 10-24"))[-1] == ("5", 17)
    assert [name for name, _ in heard(strung("short fifth steel 10-24", 16))] == ["1", "2", "3", "4"]


def test_a_trial_hears_no_drone() -> None:
    assert [name for name, _ in heard(strung("drones steel 10-22"))] == ["1a", "1b"]


def test_no_drone_holds_the_saddle_back() -> None:
    job = strung("drones steel 10-22")
    named = {name for step in verdicts(job, work_out(job)) for name in step.strings}
    assert named
    assert named <= {"1a", "1b"}
