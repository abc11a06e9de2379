"""Where each verdict leads as a finding, and the reasons and changes that few jobs have, of steps made by hand."""

from typing import Literal

import pytest
from msgspec.structs import replace

from geometry.findings import Finding, is_unsure
from geometry.go_or_wait import Change, Step, as_findings, in_a_word, in_short, told, verdicts, what_if, worked_out
from geometry.go_or_wait.steps import Why, Work
from geometry.go_or_wait.still_wanted import at_most, still_wanted, thickness_wanted
from geometry.go_or_wait.verdicts import HEARD, UNHEARD, unheard
from geometry.go_or_wait.verdicts_told import _pm
from geometry.go_or_wait.what_if import with_trial
from geometry.job import Job, Reading, Saddle
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


def test_once_a_trial_saddle_was_heard_the_slot_may_be_cut() -> None:
    """It is what the verdict waits for, so nothing else is wanted besides."""
    before = sample("leaning-neck")
    tried = with_trial(before, work_out(before))
    (waits,) = (one for one in worked_out(before, work_out(before)) if one.what == "slot")
    assert told(before, waits).endswith(" A trial saddle brings the ± down to 1.5 mm.")
    assert tried is not None
    (slot,) = (one for one in worked_out(tried, work_out(tried)) if one.what == "slot")
    assert slot.go
    assert "An ear sets it no finer: players fretting the same note differ by as much." in told(tried, slot)


@pytest.mark.parametrize(("heard", "cents", "go"), [(True, 4.99, True), (True, 5.1, False), (False, 2.1, False)])
def test_how_many_cents_may_be_left(heard: bool, cents: float, go: bool) -> None:
    """derived: √(3.9² + 3²) is 4.9, which is told as 5; without an ear 2 cents, which players differ by (Mottola)"""
    job = sample("leaning-neck")
    layout = work_out(job)
    assert layout.saddle is not None
    source: Literal["by ear", "worked out"] = "by ear" if heard else "worked out"
    strings = tuple(replace(one, compensation_from=source) for one in layout.strings)
    bass, treble = (
        cents * mm / told for mm, told in zip(layout.saddle.by_sheet.pm95, layout.saddle.tune95, strict=True)
    )
    saddle = replace(layout.saddle, by_sheet=replace(layout.saddle.by_sheet, pm95=(bass, treble)))
    (slot,) = (one for one in verdicts(job, replace(layout, strings=strings, saddle=saddle)) if one.what == "slot")
    assert slot.go is go


def test_where_not_all_strings_were_heard_the_ear_settles_nothing() -> None:
    strings = work_out(sample("leaning-neck")).strings
    heard = [replace(one, compensation_from="by ear") for one in strings]
    assert unheard(heard) == HEARD
    assert unheard([strings[0], *heard[1:]]) == UNHEARD


@pytest.mark.parametrize("peak", [0.3, 0.5, 0.8, 1.0])
@pytest.mark.parametrize("thickness", [2.0, 3.0, 4.0])
def test_a_thickness_that_is_told_takes_up_what_is_left_wherever_it_peaks(thickness: float, peak: float) -> None:
    """A ridge nearer to one face, or held by it, has less room than one in the middle. derived: the ± and how far
    ridges stand off, 1 and 0.2 mm, and the wall of 0.5 mm lie between the saddle's middle and its nearer face
    """
    before = replace(job(), saddle=Saddle(thickness=thickness, peak_at=peak))
    slot = replace(step("wide", "slot", change=Change(what="reading", after=1.0)), limit=0.9, spread=0.2)
    fits = [made for made in (3.0, 4.0, 6.0) if made > thickness and made * min(peak, 1 - peak) >= 1.7 - 1e-9]
    assert thickness_wanted(before, slot) == (fits[0] if fits else None)


@pytest.mark.parametrize(("peak", "thick", "stops"), [(0.4, 6.0, True), (0.5, 4.0, False)])
def test_a_thickness_that_the_bridge_has_no_wood_for_is_not_told(
    peak: float, thick: float, stops: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """That it has none is seen by laying the job out with it. Nothing is left to the ear here, or none were wanted."""
    monkeypatch.setattr(what_if, "HEARD", 0.0)
    job = sample("five-pairs")
    saddle = replace(job.saddle or Saddle(), peak_at=peak)
    job = replace(job, saddle=saddle)
    (waits,) = (one for one in worked_out(job, work_out(job)) if one.what == "slot")
    assert waits.change is not None
    assert thickness_wanted(job, waits) == thick
    wanted = f"±{at_most(job, waits.limit)} is wanted"
    assert still_wanted(job, waits) == (wanted if stops else "a saddle 4 mm thick takes up the rest by filing")
    made = work_out(replace(job, saddle=replace(saddle, thickness=thick)))
    found = [{f.code for f in layout.findings if f.grade == "stop"} for layout in (work_out(job), made)]
    assert bool(found[1] - found[0]) is stops


def test_where_no_saddle_helps_the_limit_is_told() -> None:
    pins = replace(step("wide", "pins", change=Change(what="trial", after=2.2)), limit=2.0)
    assert still_wanted(job(), pins) == "±2.0 mm is wanted"
    # derived: 2 (1.2 + 0.5 + spread) is 6.0, the thickest that is made, at 1.3
    slot = replace(step("wide", "slot", change=Change(what="trial", after=1.2)), spread=1.29)
    assert still_wanted(job(), slot) == "a saddle 6 mm thick takes up the rest by filing"
    assert still_wanted(job(), replace(slot, spread=1.31)) == "±1.0 mm is wanted"
    # a bridge that comes with its slot is glued to no more than ±2.0 mm, however thick its saddle
    glue = replace(slot, what="glue", cents=3.0, spread=0.0, change=Change(what="trial", after=2.1))
    assert still_wanted(job(), glue) == "±1.0 mm is wanted"


@pytest.mark.parametrize(("spread", "judge"), [(1.31, True), (0.0, False)])
def test_what_nothing_brings_down_is_left_to_whoever_cuts(spread: float, judge: bool) -> None:
    """But where a thicker saddle takes it up, which the verdict tells. It leads to the saddle's thickness."""
    slot = replace(step("wide", "slot", change=Change(what="nothing", after=1.2)), pm95=1.2, spread=spread)
    said = told(job(), slot)
    assert "No reading and no trial saddle brings it down much." in said
    assert said.endswith("Whether that is good enough is yours to judge.") is judge
    assert ("A saddle 4 mm thick could be filed by ±1.5 mm." in said) is not judge
    (found,) = as_findings(job(), layout(), (slot,))
    assert found.where == "field:saddle.thickness"


def test_each_step_in_a_word() -> None:
    """A stop is never called a look: it would spoil the work. The finish only waits for the glue, as its line says."""
    why = {"stop": "stop", "accused": "look", "proof": "look", "wide": "wait", "after": "wait", "unchecked": "wait"}
    for reason, word in why.items():
        glue = Step(what="glue", go=False, pm95=1.0, limit=1.0, why=reason)  # type: ignore[arg-type]
        assert (in_a_word(glue), in_a_word(replace(glue, what="clear"))) == (word, "wait")
    assert in_a_word(Step(what="glue", go=True, pm95=1.0, limit=1.0)) == "go"
