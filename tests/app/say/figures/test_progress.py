"""The signs behind the steps: none wears a tick while the work it stands for waits."""

import msgspec
import pytest

from app.file import job_file, samples
from app.say.figures import progress
from app.say.figures.verdicts_now import verdicts_now
from geometry import go_or_wait
from geometry.go_or_wait import Step, told_once
from geometry.job import Hardware, Headstock, Job, Old
from geometry.layout import Layout
from geometry.work_out import work_out

GO = Step(what="glue", go=True, pm95=1.0, limit=2.0)


def worked(name: str) -> tuple[Job, Layout]:
    path = samples.find(name)
    assert path is not None
    job = job_file.read(path)
    return job, work_out(job)


@pytest.mark.parametrize(
    ("why", "sign"),
    [
        ("wide", "estimated or unchecked"),
        ("unchecked", "estimated or unchecked"),
        ("after", "estimated or unchecked"),
        ("accused", "look again"),
        ("proof", "look again"),
    ],
)
def test_what_waits_wears_no_tick_but_the_sign_of_what_says_not_yet(
    why: str, sign: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    job, layout = worked("leaning-neck")
    monkeypatch.setattr(told_once, "verdicts", lambda *_: (GO, msgspec.structs.replace(GO, go=False, why=why)))
    signs = progress.steps(job, layout)
    assert signs["Bridge"] == signs["Sheets"] == sign


def test_a_tick_where_all_may_be_done(monkeypatch: pytest.MonkeyPatch) -> None:
    job, layout = worked("leaning-neck")
    monkeypatch.setattr(told_once, "verdicts", lambda *_: (GO,))
    signs = progress.steps(job, msgspec.structs.replace(layout, findings=()))
    assert signs["Bridge"] == signs["Sheets"] == "done"


def test_the_sample_whose_slot_waits_says_so() -> None:
    job, layout = worked("leaning-neck")
    assert any(not step.go for step in go_or_wait.verdicts(job, layout))
    signs = progress.steps(job, layout)
    assert "done" not in (signs["Bridge"], signs["Sheets"])


def test_verdicts_are_worked_out_once_for_a_layout_and_anew_for_another() -> None:
    job, layout = worked("leaning-neck")
    first = verdicts_now(job, layout)
    assert first == go_or_wait.verdicts(job, layout)
    assert verdicts_now(job, layout) is first
    other = msgspec.structs.replace(layout, bridge=None)
    assert verdicts_now(job, other) == ()
    unasked = msgspec.structs.replace(job, bridge=None)
    assert verdicts_now(unasked, layout) == ()
    assert verdicts_now(job, layout) == first


def test_a_stop_stays_a_stop() -> None:
    assert progress.steps(*worked("turned-left-old-slot"))["Bridge"] == "stop"


def test_a_screw_hole_that_runs_into_an_old_one_is_the_bridges_to_look_at() -> None:
    """Its finding points at the old hole, and is about the base all the same; without the old holes there is none."""
    job, layout = worked("slanted-separate")
    assert any(f.code == "separate.into_old" and f.where == "point:hole.1" for f in layout.findings)
    assert progress.steps(job, layout)["Bridge"] == "look again"
    plain = msgspec.structs.replace(job, old=None)
    assert progress.steps(plain, work_out(plain))["Bridge"] != "look again"


def holed(**changes: object) -> tuple[Job, Layout]:
    """Two old pin holes 54 mm apart and nobody to say what stood between them, on a job that is changed so."""
    job, _ = worked("bolted-left")
    assert job.old is not None
    old = Old(pins={name: job.old.pins[name] for name in ("pin.1", "pin.6")})
    made = msgspec.structs.replace(job, old=old, **changes)
    return made, work_out(made)


@pytest.mark.parametrize("left_out", [{}, {"bridge": None}, {"saddle": None, "bridge": None}, {"strings": None}])
def test_no_tick_for_holes_of_which_nobody_said_how_many_stood_in_the_row(left_out: dict[str, None]) -> None:
    """However much of the layout still waits: what is drilled and plugged does not hang on it."""
    job, layout = holed(**left_out)
    assert "old.row" in {finding.code for finding in layout.findings}
    assert progress.steps(job, layout)["Old work"] == "look again"
    assert job.old is not None
    told = msgspec.structs.replace(job, old=msgspec.structs.replace(job.old, row=2))
    assert "old.row" not in {finding.code for finding in work_out(told).findings}


def test_no_tick_for_old_work_before_the_board_has_its_place() -> None:
    job, layout = worked("bolted-left")
    waits = msgspec.structs.replace(layout, frame="straightedge", findings=())
    assert progress.steps(job, waits)["Old work"] == "under way"


def test_old_work_that_nothing_checks_has_no_tick() -> None:
    """The metal of this sample is clear by less than a slip, on readings that stand alone."""
    job, layout = worked("small-four")
    only = tuple(finding for finding in layout.findings if finding.code == "old.unchecked")
    assert len(only) == 1
    assert progress.steps(job, msgspec.structs.replace(layout, findings=only))["Old work"] == "estimated or unchecked"
    assert progress.steps(job, msgspec.structs.replace(layout, findings=()))["Old work"] == "done"


def signed(job: Job, headstock: Headstock | None) -> str:
    """The Headstock step's sign where nothing is to be looked at: no new tuners, so that nothing is drilled."""
    made = msgspec.structs.replace(job, hardware=Hardware(headstock=headstock))
    return progress.steps(made, work_out(made))["Headstock"]


def test_a_headstock_of_which_more_is_to_come_wears_no_tick() -> None:
    """derived: six strings from the nut have six posts, and a headstock without its outline is none."""
    job, _ = worked("redrilled-left")
    whole = job.hardware.headstock
    assert whole is not None
    assert len(whole.posts) == 6
    first = dict(list(whole.posts.items())[:1])
    assert signed(job, None) == "empty"
    assert signed(job, whole) == "done"
    assert signed(job, msgspec.structs.replace(whole, posts=first)) == "under way"
    assert signed(job, msgspec.structs.replace(whole, outline=())) == "under way"
    assert signed(job, msgspec.structs.replace(whole, posts={})) == "done", "one that was never drilled"
