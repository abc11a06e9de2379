"""Where each verdict leads as a finding, and the reasons and changes that few jobs have, of steps made by hand."""

import re

import pytest
from msgspec.structs import replace

from geometry.findings import Finding, is_unsure
from geometry.go_or_wait import Change, Step, as_findings, in_a_word, in_short, told, verdicts, worked_out
from geometry.go_or_wait.steps import Why, Work
from geometry.go_or_wait.still_wanted import at_most, still_wanted
from geometry.go_or_wait.verdicts_told import _pm
from geometry.go_or_wait.what_if import with_trial
from geometry.job import Job, Reading, Saddle
from geometry.units import Unit
from geometry.work_out import work_out
from tests.app.desk.conftest import sample
from tests.export.conftest import job, layout

TAKEN = Reading(id="new", kind="distance", of=("nut.left", "nut.right"))
TAKE = 'take:{"id":"new","kind":"distance","of":["nut.left","nut.right"]}'
"""Where one that is to be taken leads: the reading as the job file holds it."""
UNREAD = Reading(id="new", kind="distance", of=("nut.left", "end.right"))


def step(why: Why, what: Work = "slot", **changes: object) -> Step:
    given: dict[str, object] = {"go": False, "pm95": 1.53, "limit": 1.0}
    return Step(what=what, why=why, **given | changes)  # type: ignore[arg-type]  # the fields of a step


@pytest.mark.parametrize(
    ("one", "where"),
    [
        (step("accused", change=Change(what="again", again=("r2", "r1"))), "reading:r2"),
        (step("proof", "glue"), "field:proof"),
        (step("stop", stop="The slot leans."), "field:bridge.slot_front"),
        (step("stop", stop="Another stop."), "saddle"),
        (step("wide", change=Change(what="reading", reading=TAKEN)), TAKE),
        (step("wide", change=Change(what="trial")), "field:strings.heard"),
        (step("wide", change=Change(what="action")), "field:strings.action"),
        (step("untold", "screws"), "field:separate.screws"),
        (step("untold", "through"), "field:separate.body"),
        (step("wide"), "saddle"),
    ],
)
def test_each_leads_to_where_it_would_be_changed(one: Step, where: str) -> None:
    stop = Finding(grade="stop", code="slot.leans", text="The slot leans.", where="field:bridge.slot_front")
    other = Finding(grade="stop", code="other", text="The slot leans by much.", where="metal")
    (found,) = as_findings(job(), replace(layout(), findings=(other, stop)), (one,))
    assert found.where == where
    wrong = one.why in ("accused", "proof", "stop")
    assert (found.grade, found.code) == (
        "stop" if one.why == "stop" else "look",
        f"go.{one.what}" if wrong else "go.waits",
    )
    assert is_unsure(found) != wrong
    assert found.values == {"pm95": 1.53, "limit": 1.0}
    (goes,) = as_findings(job(), layout(), (replace(one, go=True),))
    assert goes.grade == "good"


@pytest.mark.parametrize(
    ("reading", "says"),
    [
        (TAKEN, "Reading “nut, edge to edge” once more brings the ± down to 0.9 mm."),
        (
            replace(TAKEN, of=("nut.right", "nut.left")),
            "Reading “nut, edge to edge” once more brings the ± down to 0.9 mm.",
        ),
        (UNREAD, "Reading “nut treble to board end bass” brings the ± down to 0.9 mm."),
    ],
)
def test_a_reading_that_was_taken_is_read_once_more(reading: Reading, says: str) -> None:
    """derived: 0.84 mm rounded up to a tenth; the job has read the nut, from whichever end"""
    change = Change(what="reading", reading=reading, after=0.84)
    assert told(job(), step("wide", change=change)).endswith(says)


def test_what_would_check_and_what_is_the_first_to() -> None:
    alone, first = Change(what="trial"), Change(what="trial", checks=False)
    assert told(job(), step("unchecked", change=alone)).endswith("A trial saddle would check them.")
    assert told(job(), step("unchecked", change=first)).endswith("is the first of those that would check them.")


def test_reasons_that_few_jobs_have() -> None:
    assert "±1.6 mm, but nothing checks the readings that decide the saddle" in told(job(), step("unchecked"))
    assert "±1.6 mm, but readings do not agree" in told(job(), step("accused"))
    assert "may still move by 1.6 mm, and 0.7 mm of wood lies between it and the pin holes" in told(
        job(), step("wood", "pins", wood=0.7)
    )
    assert "and 0.0 mm of wood lies between" in told(job(), step("wood", "pins"))
    assert "the base is marked where it does not belong" in told(job(), step("proof", "screws"))
    assert "it is clamped where it does not belong" in told(job(), step("proof", "glue"))


@pytest.mark.parametrize(
    ("one", "says"),
    [
        (step("untold", "screws"), "Screws: wait, where the screw holes are on the base is not told."),
        (step("untold", "through"), "Through: wait, the body’s thickness is not told."),
        (step("after", "through"), "Through: wait, the base waits."),
        (step("proof", "screws"), "Screws: wait, not marked where it belongs."),
        (step("", "screws", go=True), "Screws: go, ±1.6 mm."),
    ],
)
def test_in_brief_of_a_base(one: Step, says: str) -> None:
    assert in_short(job(), (one,)) == (says,)


@pytest.mark.parametrize(("cents", "go", "says"), [(1.0, True, True), (1.0, False, False), (None, True, True)])
def test_what_filing_cannot_take_up_but_no_ear_hears(cents: float | None, go: bool, says: bool) -> None:
    """derived: a saddle of 3 mm is filed by less than 1.53 mm, one of 9 mm by more"""
    one = step("", "slot", go=go, cents=cents)
    heard = "players fretting the same note differ by more"
    assert (heard in told(job(), one)) is says
    assert heard not in told(replace(job(), saddle=Saddle(thickness=9.0)), one)


def test_of_steps_that_the_same_would_change_the_first_says_so() -> None:
    change = Change(what="trial", after=0.84)
    first, second = step("wide", change=change), step("wide", "fit", change=change)
    other = step("wide", "fit", change=replace(change, after=0.5))
    says = "brings the ± down to 0.9 mm"
    assert says in told(job(), first, (first, second))
    assert says not in told(job(), second, (first, second))
    assert "brings the ± down to 0.5 mm" in told(job(), other, (first, other))
    assert says in told(job(), second, (replace(first, go=True), second))
    assert says in told(job(), second, (replace(first, what="clear"), second))


def test_the_same_stop_is_said_once() -> None:
    first, second = step("stop", "glue", stop="The slot leans. Turn it."), step("stop", stop="The slot leans. Turn it.")
    assert "STOP, the slot leans." in told(job(), first, (first, second))
    assert told(job(), second, (first, second)).endswith(": the same STOP.")
    assert "STOP, the slot leans." in told(job(), second, (replace(first, what="clear"), second))


@pytest.mark.parametrize(
    ("what", "strings", "said"),
    [
        ("fit", ("1", "2"), "strings 1 and 2 up to ±0.4 mm"),
        ("fit", ("1",), "string 1 ±0.4 mm"),
        ("screws", ("1", "2"), "strings 1 and 2 ±0.4 mm"),
        ("screws", ("1",), "string 1 ±0.4 mm"),
    ],
)
def test_of_several_strings_the_worst_is_told_as_the_most(what: Work, strings: tuple[str, ...], said: str) -> None:
    """But of screws, which all bases share."""
    step = Step(what=what, go=False, pm95=0.4, limit=0.3, strings=strings)
    assert _pm(Job(), step) == said
    assert ("±0.4 mm or better" in told(Job(), step)) == (len(strings) > 1)


@pytest.mark.parametrize(("after", "enough"), [(0.84, True), (1.2, False)])
def test_a_change_that_is_not_enough_says_what_else_is_wanted(after: float, enough: bool) -> None:
    """Of the slot no more than ±1.0 mm is allowed; of what is drilled before it ±2.0 mm. derived: of a saddle 4 mm
    thick whose ridge stands in its middle, 4 / 2 - 0.5 = 1.5 mm can be filed away either way, which is 1.2 or more.
    """
    change = Change(what="trial", after=after)
    slot = step("wide", "slot", change=change)
    assert told(job(), slot).endswith("; a saddle 4 mm thick takes up the rest by filing.") is not enough
    assert ("makes it" in in_short(job(), (slot,))[0]) is enough
    pins = replace(step("wide", "pins", change=change), limit=2.0)
    assert told(job(), pins, (pins, slot)).endswith("mm.")
    still = "A trial saddle alone is not enough: a saddle 4 mm thick takes up the rest by filing."
    assert told(job(), slot, (pins, slot)).endswith(still) is not enough


@pytest.mark.parametrize(("unit", "says"), [("mm", "7 mm"), ("in", "17/64 in")])
def test_a_saddle_thicker_than_any_is_told_in_whole_units(unit: Unit, says: str) -> None:
    """derived: 2 (1.53 + 0.5 + 1.25) = 6.56 mm, and 17/64 in are 6.75 mm, 1/4 in 6.35."""
    slot = replace(step("wide", "slot", change=Change(what="trial", after=1.53)), spread=1.25)
    wanted = still_wanted(replace(job(), unit=unit), slot)
    assert wanted == f"a saddle of one piece would have to be {says} thick to take up the rest by filing"


def test_what_is_said_to_make_up_for_the_rest_does() -> None:
    """With the trial heard and a saddle so thick the slot may be cut, and with one 1 mm thinner it may not."""
    before = sample("leaning-neck")
    tried = with_trial(before, work_out(before))
    (waits,) = (one for one in worked_out(before, work_out(before)) if one.what == "slot")
    assert (
        still_wanted(before, waits) == "a saddle of one piece would have to be 7 mm thick to take up the rest by filing"
    )
    assert tried is not None
    assert tried.saddle is not None
    for thick, go in ((7.0, True), (6.0, False)):
        made = replace(tried, saddle=replace(tried.saddle, thickness=thick))
        (slot,) = (one for one in verdicts(made, work_out(made)) if one.what == "slot")
        assert slot.go is go


@pytest.mark.parametrize("peak", [0.3, 0.5, 0.8, 1.0])
@pytest.mark.parametrize("thickness", [2.0, 3.0, 4.0])
def test_a_thickness_that_is_told_lets_the_slot_be_cut_wherever_the_saddle_peaks(thickness: float, peak: float) -> None:
    """A ridge nearer to one face, or held by it, has less room than one in the middle."""
    before = sample("leaning-neck")
    before = replace(before, saddle=Saddle(thickness=thickness, peak_at=peak))
    (waits,) = (one for one in worked_out(before, work_out(before)) if one.what == "slot")
    told_thick = re.search(r"([\d.]+) mm thick", still_wanted(before, waits))
    tried = with_trial(before, work_out(before))
    assert tried is not None
    assert (told_thick is not None) is ((thickness, peak) in ((3.0, 0.5), (4.0, 0.5), (4.0, 0.3)))
    if told_thick is not None:
        made = replace(tried, saddle=Saddle(thickness=float(told_thick[1]), peak_at=peak))
        (slot,) = (one for one in verdicts(made, work_out(made)) if one.what == "slot")
        assert slot.limit >= slot.pm95


@pytest.mark.parametrize(("peak", "thick"), [(0.3, 7.0), (0.5, None)])
def test_a_thickness_that_the_bridge_has_no_wood_for_is_not_told(peak: float, thick: float | None) -> None:
    """That it has none is seen by laying the job out with it."""
    job = sample("five-pairs")
    saddle = replace(job.saddle or Saddle(), peak_at=peak)
    job = replace(job, saddle=saddle)
    (waits,) = (one for one in worked_out(job, work_out(job)) if one.what == "slot")
    assert (waits.change is not None and not waits.change.thicker) is (thick is not None)
    if thick is not None and waits.change is not None:
        assert still_wanted(job, waits) == f"±{at_most(job, waits.limit)} is wanted"
        assert f"{thick:g} mm thick" in still_wanted(job, replace(waits, change=replace(waits.change, thicker=True)))
        made = work_out(replace(job, saddle=replace(saddle, thickness=thick)))
        stops = [{f.code for f in layout.findings if f.grade == "stop"} for layout in (work_out(job), made)]
        assert stops[1] - stops[0]


def test_where_no_saddle_helps_the_limit_is_told() -> None:
    pins = replace(step("wide", "pins", change=Change(what="trial", after=2.2)), limit=2.0)
    assert still_wanted(job(), pins) == "±2.0 mm is wanted"
    # derived: 2 (1.2 + 0.5 + spread) is 15.0 at 5.8, the thickest that a job takes
    slot = replace(step("wide", "slot", change=Change(what="trial", after=1.2)), spread=5.8)
    assert (
        still_wanted(job(), slot) == "a saddle of one piece would have to be 15 mm thick to take up the rest by filing"
    )
    assert still_wanted(job(), replace(slot, spread=5.81)) == "±1.0 mm is wanted"
    # a bridge that comes with its slot is glued to no more than ±2.0 mm, however thick its saddle
    glue = replace(slot, what="glue", cents=3.0, spread=0.0, change=Change(what="trial", after=2.1))
    assert still_wanted(job(), glue) == "±1.0 mm is wanted"


def test_each_step_in_a_word() -> None:
    """A stop is never called a look: it would spoil the work. The finish only waits for the glue, as its line says."""
    why = {"stop": "stop", "accused": "look", "proof": "look", "wide": "wait", "after": "wait", "unchecked": "wait"}
    for reason, word in why.items():
        glue = Step(what="glue", go=False, pm95=1.0, limit=1.0, why=reason)  # type: ignore[arg-type]
        assert (in_a_word(glue), in_a_word(replace(glue, what="clear"))) == (word, "wait")
    assert in_a_word(Step(what="glue", go=True, pm95=1.0, limit=1.0)) == "go"
