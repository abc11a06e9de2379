"""What is marked from a sheet is known as well as the board that the sheet is laid to, on both sides of each limit."""

import msgspec
import pytest

from geometry.go_or_wait import said, verdicts
from geometry.job import Job
from geometry.layout import BySheet, Layout
from geometry.units import mm
from geometry.work_out import work_out
from tests.campaign.invented.cases import CASES, LISTS
from tests.campaign.invented.trials import exact_job, trial_of
from tests.export.conftest import job
from tests.geometry.go_or_wait.test_go_or_wait import with_pms

FROM_NUT = 0.5
"""The saddle's ± from the nut, mm: fine enough for all steps."""


def known(by_sheet: BySheet) -> Layout:
    found = with_pms(FROM_NUT, FROM_NUT)
    assert found.saddle is not None
    return msgspec.structs.replace(found, saddle=msgspec.structs.replace(found.saddle, by_sheet=by_sheet))


@pytest.mark.parametrize(("pm95", "go"), [(0.99, True), (1.01, False)])
def test_a_slot_is_cut_where_the_sheet_puts_it(pm95: float, go: bool) -> None:
    """derived: half of a 3 mm saddle less 0.5 mm of wall takes up 1.0 mm; its cents grow with its ±"""
    sheet = BySheet(pm95=(pm95, FROM_NUT), checked=True)
    slot = next(step for step in verdicts(job(), known(sheet)) if step.what == "slot")
    assert (slot.go, slot.pm95) == (go, pm95)
    assert slot.cents == pytest.approx(0.8 / 0.3 * pm95)
    saddle = known(sheet).saddle
    assert saddle is not None
    assert saddle.tune95[0] == pytest.approx(0.8 / 0.3 * pm95)


@pytest.mark.parametrize(
    ("sheet", "why"),
    [
        (BySheet(pm95=(0.5, 0.5), checked=True, waits_for=("a",)), "accused"),
        (BySheet(pm95=(0.5, 0.5), checked=False), "unchecked"),
        (BySheet(pm95=(0.5, 0.5), checked=True), ""),
    ],
)
def test_what_the_sheet_hangs_on_keeps_back_all_that_it_marks(sheet: BySheet, why: str) -> None:
    found = {step.what: step.why for step in verdicts(job(), known(sheet))}
    assert (found["glue"], found["pins"], found["slot"]) == (why, why, why)


def of_board(slip: float) -> Job:
    """An invented instrument that the shortest list's hand read to a hair, but for one side of its board."""
    trial = trial_of(CASES[0], 4, LISTS.index("bridge only"))
    true = {one.id: one.value for one in exact_job(trial).readings}
    readings = [msgspec.structs.replace(one, value=true[one.id]) for one in trial.job.readings]
    (at,) = (i for i, one in enumerate(readings) if set(one.of) == {"nut.left", "end.left"})
    readings[at] = msgspec.structs.replace(readings[at], value=mm(readings[at].parts[0]) + slip)
    return msgspec.structs.replace(trial.job, unit="mm", readings=tuple(readings))


def test_a_slip_in_the_boards_side_keeps_the_glue_back_though_the_frets_agree() -> None:
    """The saddle's distance from the nut hangs on the frets alone; where the sheet puts it, on the board's sides too:
    of four lengths and two widths one is out, and nothing tells which.
    """
    right, wrong = (work_out(of_board(slip)) for slip in (0.0, 3.2))
    assert right.saddle is not None
    assert wrong.saddle is not None
    assert wrong.saddle.waits_for == ()
    assert wrong.saddle.pm95 == pytest.approx(right.saddle.pm95, rel=0.1)
    assert len(wrong.saddle.by_sheet.waits_for) > 1
    assert max(wrong.saddle.by_sheet.pm95) > 2 * max(right.saddle.by_sheet.pm95)
    glue = next(step for step in verdicts(of_board(3.2), wrong) if step.what == "glue")
    assert (glue.go, glue.why) == (False, "accused")
    assert "but readings do not agree" in said(of_board(3.2), (glue,))[0]
    assert next(step for step in verdicts(of_board(0.0), right) if step.what == "glue").go


def test_the_one_reading_that_is_named_is_the_one_to_read_again() -> None:
    """Each length but the wrong one was read twice: others lie beyond belief beside it for its sake alone."""
    job = of_board(3.2)
    slipped = {"nut.left", "end.left"}
    (wrong,) = (one.id for one in job.readings if set(one.of) == slipped and one.kind == "distance")
    again = tuple(
        msgspec.structs.replace(one, id=f"{one.id} again")
        for one in job.readings
        if one.kind == "distance" and one.id != wrong
    )
    job = msgspec.structs.replace(job, readings=(*job.readings, *again))
    layout = work_out(job)
    assert layout.survey.suspects == (wrong,)
    assert layout.saddle is not None
    assert layout.saddle.by_sheet.waits_for == (wrong,)


def test_several_that_may_be_the_wrong_one_are_to_be_read_in_the_order_in_which_they_are_named() -> None:
    layout = work_out(of_board(3.2))
    assert layout.saddle is not None
    (group,) = layout.survey.groups
    waits = layout.saddle.by_sheet.waits_for
    assert list(waits) == [name for name in group if name in waits]


@pytest.mark.parametrize("at", ["nut", "end"])
def test_a_place_that_hangs_on_innocents_alone_waits_for_the_reading_that_is_named(at: str) -> None:
    """The whole top read to a hair, but for a width of the board: its error moves no place of the bridge, and others
    lie beyond belief for its sake. A hair is 0.02 mm: the edges that the slip bends by half of it are 0.01 mm longer.
    """
    slipped = {f"{at}.left", f"{at}.right"}
    job = exact_job(trial_of(CASES[0], 0, LISTS.index("whole top with old work")))
    fine = [msgspec.structs.replace(one, sigma=0.02) if one.parts else one for one in job.readings]
    (wrong,) = (one for one in fine if set(one.of) == slipped and one.kind == "distance")
    readings = tuple(
        msgspec.structs.replace(one, value=mm(one.parts[0]) + 3.2) if one is wrong else one for one in fine
    )
    layout = work_out(msgspec.structs.replace(job, readings=readings))
    assert layout.survey.suspects == (wrong.id,)
    assert layout.saddle is not None
    assert layout.saddle.by_sheet.waits_for == (wrong.id,)
