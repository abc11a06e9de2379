"""What would change a verdict: what is said that it brings is what it does bring, and nothing else brings more."""

from itertools import product
from types import SimpleNamespace
from typing import Literal

import msgspec
import numpy as np
import pytest

from app.file import job_file, samples
from geometry.advice.weighing import Weighing
from geometry.go_or_wait import Change, Step, said, verdicts, worked_out
from geometry.go_or_wait.verdicts_told import _change
from geometry.go_or_wait.what_if import _cheapest, _value, with_action, with_trial
from geometry.job import Action, Bridge, Job, Pins, Reading, Saddle, Spread
from geometry.job.job import Hand
from geometry.job.measured.readings import Place
from geometry.job.sides import SIDES
from geometry.layout import Layout
from geometry.placed.place_everything import place_everything
from geometry.proof import prove
from geometry.strings.string_heights import FRETS, Missing
from geometry.survey import survey
from geometry.survey.result import Surveyed
from geometry.work_out import work_out
from tests.geometry.advice.test_advice import few_frets, true_value, with_reading
from tests.geometry.any_job.mirror_image import mirrored
from tests.geometry.proof.proof_read import read
from tests.in_one import in_one
from tests.long_list import long_list


def sample(name: str) -> Job:
    path = samples.find(name)
    assert path is not None
    return job_file.read(path)


def saddle_pm(layout: Layout) -> float:
    """As a sheet on the board's end puts it, which is what a slot is cut by."""
    assert layout.saddle is not None
    return max(layout.saddle.by_sheet.pm95)


def change_of(job: Job, what: str) -> Change:
    found = next(step.change for step in worked_out(job, work_out(job)) if step.what == what)
    assert found is not None
    return found


def typed() -> Job:
    """Typed compensation, coarse frets, a saddle so thin that filing takes up nothing: readings alone narrow it."""
    job = sample("leaning-neck")
    assert job.strings is not None
    strings = msgspec.structs.replace(job.strings, compensation=(2.0,) * 6)
    few = tuple(msgspec.structs.replace(r, times=3.0) if r.kind == "fret" else r for r in job.readings)
    return msgspec.structs.replace(job, strings=strings, readings=few, saddle=Saddle(thickness=1.0))


def test_a_trial_saddle_brings_what_it_is_said_to() -> None:
    job = sample("leaning-neck")
    found = change_of(job, "slot")
    assert found.what == "trial"
    assert found.after is not None
    tried = with_trial(job, work_out(job))
    assert tried is not None
    layout = work_out(tried)
    assert layout.survey.verdict == "clean"
    assert saddle_pm(layout) == pytest.approx(found.after, rel=1e-9)
    assert found.after < 0.9 * saddle_pm(work_out(job))


def test_what_is_tried_agrees_with_the_sums() -> None:
    """A trial that was out of tune by more than ear and sum allow would widen the ± instead."""
    job = sample("leaning-neck")
    tried = with_trial(job, work_out(job))
    assert tried is not None
    assert "heard.disagrees" not in {finding.code for finding in work_out(tried).findings}


def test_the_best_reading_brings_what_it_is_said_to_and_no_other_brings_more() -> None:
    """derived: every candidate taken one by one, with the value that the layout has it at"""
    job = typed()
    layout = work_out(job)
    step = next(step for step in worked_out(job, layout) if step.what == "slot")
    assert step.change is not None
    assert (step.why, step.change.what) == ("wide", "reading")
    after = step.change.after
    assert after is not None
    found = survey(job)
    could = Weighing(job, layout, place_everything(job, found)).readings
    seen = [one for one in could if one.kind in ("distance", "fret")]
    assert step.change.reading is not None
    assert step.change.reading.kind in ("distance", "fret")
    pms = [saddle_pm(work_out(taken(job, one, found))) for one in seen]
    assert after == pytest.approx(min(pms), rel=0.02)
    assert after < 0.9 * step.pm95


def taken(job: Job, reading: Reading, found: Surveyed) -> Job:
    """The job with a reading taken, its value as the survey has it."""
    if reading.kind == "fret":
        scale, shift = (float(found.state[found.extra_at[f"{what}.{reading.on}"]]) for what in ("scale", "shift"))
        value = scale * (1 - 2 ** (-(reading.fret or 0) / 12)) - shift
    else:
        a, b = (complex(*found.state[c : c + 2]) for c in (found.point_at[name] for name in reading.of))
        value = abs(a - b)
    return with_reading(job, reading, value)


def test_what_checks_the_saddle_does_check_it() -> None:
    job = msgspec.structs.replace(few_frets(), bridge=Bridge(), saddle=Saddle())
    step = next(step for step in worked_out(job, work_out(job)) if step.what == "slot")
    assert step.why == "unchecked"
    assert step.change is not None
    assert step.change.reading is not None
    taken = work_out(with_reading(job, step.change.reading, true_value(step.change.reading)))
    assert taken.saddle is not None
    assert taken.saddle.checked is step.change.checks


def test_a_job_that_waits_for_a_stop_is_told_no_reading() -> None:
    job = sample("turned-left-old-slot")
    assert {step.change for step in worked_out(job, work_out(job))} == {None}


@pytest.mark.parametrize("name", ["leaning-neck", "small-four", "turned-left"])
def test_the_mirrored_job_says_the_same(name: str) -> None:
    job = sample(name)
    other = mirrored(job)
    one, two = (said(each, worked_out(each, work_out(each))) for each in (job, other))
    assert one == two


def test_it_is_pure() -> None:
    job = sample("leaning-neck")
    layout = work_out(job)
    assert worked_out(job, layout) == worked_out(job, layout)
    assert verdicts(job, layout) == verdicts(job, layout)


@pytest.mark.parametrize(("off", "go"), [(0j, True), (3 + 0j, False)])
def test_a_bridge_clamped_where_it_does_not_belong_is_not_glued(off: complex, go: bool) -> None:
    job = read(sample("leaning-neck"), off)
    layout = work_out(job)
    steps = {step.what: step for step in verdicts(job, layout)}
    assert steps["glue"].go is steps["clear"].go is go
    if not go:
        assert "clamped where it does not belong" in said(job, verdicts(job, layout))[1]
    built = msgspec.structs.replace(job, proof=(*job.proof, *read(sample("leaning-neck"), off, stage="built").proof))
    assert {step.what: step.go for step in verdicts(built, layout)}["glue"]


@pytest.mark.parametrize(("across", "go"), [(0.5, True), (2.5, False)])
def test_a_bridge_that_leaves_a_string_too_little_margin_is_not_glued(across: float, go: bool) -> None:
    """Read to 1/16 in, either is within what such readings allow; 3.4 mm of margin were to be, 2 mm are usual."""
    job = read(sample("leaning-neck"), across * 1j)
    (proof,) = job.proof
    coarse = tuple(msgspec.structs.replace(one, with_=None, within="1/16 in") for one in proof.readings)
    job = msgspec.structs.replace(job, proof=(msgspec.structs.replace(proof, readings=coarse),))
    found = prove(job, "clamped")
    assert found is not None
    assert found.cause == "good"
    assert {step.what: step.go for step in verdicts(job, work_out(job))}["glue"] is go


@pytest.mark.parametrize("count", [1, 2])
@pytest.mark.parametrize(("off", "go"), [(0j, True), (8 + 8j, False)])
def test_a_distance_that_is_not_good_keeps_the_glue_back_however_few_are_read(
    off: complex, go: bool, count: int
) -> None:
    """Three distances say what is wrong; one to a bridge that is 8 mm off (made up) says that something is."""
    job = read(sample("leaning-neck"), off)
    (proof,) = job.proof
    job = msgspec.structs.replace(job, proof=(msgspec.structs.replace(proof, readings=proof.readings[-count:]),))
    steps = {step.what: step for step in verdicts(job, work_out(job))}
    assert steps["glue"].go is go
    assert steps["glue"].why == ("" if go else "proof")


def test_what_narrows_a_bridge_across_is_weighed_across() -> None:
    """derived: the value that a reading across is weighed by is as wide as the layout has the front corners across"""
    job = sample("leaning-neck")
    layout = work_out(job)
    assert layout.bridge is not None
    assert job.bridge is not None
    placed = place_everything(job, survey(job))
    value = _value(placed, Step(what="glue", go=False, pm95=2.0, limit=1.5, why="wide", across=True), job.bridge)
    assert value is not None
    widest = max(pm for _, pm in layout.bridge.corners_pm95)
    assert float(placed.states.pm95(value).max()) == pytest.approx(widest, rel=1e-6)


@pytest.mark.parametrize(("across", "values"), [(True, [[-50.0, 50.0]] * 2), (False, [[0.0, 0.0], [0.4, 0.4]])])
def test_what_the_gluing_is_judged_by(across: bool, values: list[list[float]]) -> None:
    """derived: of the bridge's front 50 mm to either side of its middle; across the neck how far these lie beside it,
    along the neck how far from where a sheet carries them, whose board stays where it is in the second row
    """
    seated = SimpleNamespace(place=lambda behind, left: np.array([7.0, 7.4]) + behind + 1j * left)
    edge, ways = np.array([[20j, -20j]] * 2), np.ones((2, 2), complex)
    frame = SimpleNamespace(edge=edge, edge_way=ways, nut=edge, ends=None)
    placed = SimpleNamespace(saddle=SimpleNamespace(seated=seated), neck=SimpleNamespace(frame=frame))
    step = Step(what="glue", go=False, pm95=1.0, limit=1.0, across=across)
    found = _value(placed, step, None)  # type: ignore[arg-type]  # what it asks of it
    assert found is not None
    assert found == pytest.approx(np.array(values))
    bare = SimpleNamespace(saddle=SimpleNamespace(seated=None), neck=placed.neck)
    assert _value(bare, step, None) is None  # type: ignore[arg-type]  # what it asks of it


def test_a_string_of_unknown_size_is_heard_by_what_its_saddle_line_leaves_over() -> None:
    """derived: six strings evenly apart, u = -2.5 to 2.5, one compensated 0.5 mm more: the line of least squares leaves
    0.5 (1 - 1/6 - 1.5²/17.5) mm of it over, and -0.5 (1/6 + 2.5 × 1.5 / 17.5) mm at the outer string beside it
    """
    job = sample("leaning-neck")
    assert job.strings is not None
    unknown = tuple(msgspec.structs.replace(string, diameter=None) for string in job.strings.list)
    strings = msgspec.structs.replace(job.strings, list=unknown, compensation=(2.0, 2.5, 2.0, 2.0, 2.0, 2.0))
    job = msgspec.structs.replace(job, strings=strings)
    tried = with_trial(job, work_out(job))
    assert tried is not None
    assert tried.strings is not None
    per_mm = 1200 / np.log(2) / 647.7  # derived: the nominal 645.5 and on the average 2.1 more, typed above
    left = [-0.5 * (1 / 6 + 3.75 / 17.5), 0.5 * (5 / 6 - 2.25 / 17.5)]
    heard = [one.cents for one in tried.strings.heard]
    assert heard[:2] == pytest.approx([per_mm * mm for mm in left], rel=2e-3)
    assert sum(heard) == pytest.approx(0.0, abs=1e-3)


@pytest.mark.parametrize(("count", "heard"), [(11, False), (12, True), (13, True)])
def test_a_trial_saddle_is_heard_at_fret_12_or_not_at_all(count: int, heard: bool) -> None:
    job = sample("leaning-neck")
    few = msgspec.structs.replace(job, frets=msgspec.structs.replace(job.frets, count=count))
    tried = with_trial(few, work_out(job))
    assert (tried is not None) == heard
    assert tried is None or (tried.strings is not None and len(tried.strings.heard) == 6)


def without_heights() -> Job:
    """No height of any string was read or typed, as where the strings are off."""
    job = sample("leaning-neck")
    assert job.strings is not None
    bare = msgspec.structs.replace(job.strings, action=None, height=None)
    return msgspec.structs.replace(job, readings=tuple(r for r in job.readings if r.kind != "height"), strings=bare)


def test_the_wanted_action_comes_first_where_it_lets_the_bridge_be_glued_and_brings_what_it_is_said_to() -> None:
    job = without_heights()
    found = change_of(job, "glue")
    assert (found.what, found.missing) == ("action", tuple(product(FRETS, SIDES)))
    wanted = wanted_of(job)
    assert wanted is not None
    glue = next(step for step in verdicts(wanted, work_out(wanted)) if step.what == "glue")
    assert glue.go
    assert found.after == pytest.approx(glue.pm95, abs=1e-6)
    told = " ".join(said(job, worked_out(job, work_out(job))))
    assert "frets 1 and 12, or with the strings off type what is wanted: that brings the ± down to 1.5 mm." in told


def test_what_the_action_cannot_let_go_is_brought_nearest_by_whatever_brings_most() -> None:
    job = without_heights()
    tried, wanted = with_trial(job, work_out(job)), wanted_of(job)
    assert tried is not None
    assert wanted is not None
    heard, typed_action = (saddle_pm(work_out(one)) for one in (tried, wanted))
    assert change_of(job, "slot").what == ("trial" if heard < typed_action else "action")


def wanted_of(job: Job) -> Job | None:
    return with_action(job, work_out(job), place_everything(job, survey(job)))


def test_only_heights_that_are_missing_are_taken_as_usual() -> None:
    """One is read, one typed: of the four two are left, and these are named."""
    job = without_heights()
    assert job.strings is not None
    read = Reading(id="h", kind="height", at="fret 12", on="left", value=2.0)
    typed_one = msgspec.structs.replace(job.strings, action=Action(fret12=(None, 1.9)))
    job = msgspec.structs.replace(job, readings=(*job.readings, read), strings=typed_one)
    wanted = wanted_of(job)
    assert wanted is not None
    assert wanted.strings is not None
    assert wanted.strings.action is not None
    assert wanted.strings.action.fret12 == (None, 1.9)
    assert None not in wanted.strings.action.fret1
    assert "heights.assumed" not in {finding.code for finding in work_out(wanted).findings}
    assert wanted_of(wanted) is None
    placed = place_everything(job, survey(job))
    assert placed.saddle is not None
    assert placed.saddle.wanted.ready.missing == (("fret 1", "left"), ("fret 1", "right"))


@in_one(
    ("missing", "hand", "zero_fret", "says"),
    [
        (tuple(product(FRETS, SIDES)), "right", False, "the strings’ height over frets 1 and 12"),
        (tuple(product(FRETS[1:], SIDES)), "right", True, "the strings’ height over fret 12"),
        ((("fret 12", "right"),), "right", True, "the string’s height over fret 12 at bass"),
        ((("fret 12", "right"),), "left", False, "the string’s height over fret 12 at treble"),
        (
            (("fret 1", "left"), ("fret 12", "right")),
            "right",
            False,
            "the string’s heights over fret 1 at treble and fret 12 at bass",
        ),
    ],
)
def test_the_heights_that_are_missing_are_named(
    missing: tuple[Missing, ...], hand: Hand, zero_fret: bool, says: str
) -> None:
    job = msgspec.structs.replace(without_heights(), hand=hand)
    job = msgspec.structs.replace(job, board=msgspec.structs.replace(job.board, zero_fret=zero_fret))
    change = Change(what="action", missing=missing, after=1.4)
    step = Step(what="glue", go=False, pm95=2.8, limit=2.0, why="wide", change=change)
    assert _change(job, step, change) == (
        f"Read {says}, or with the strings off type what is wanted: that brings the ± down to 1.4 mm."
    )


def test_other_heights_than_the_strings_own_leave_the_action_to_be_asked_for() -> None:
    """With the bridge off a list reads the board over the top and a straightedge at the saddle's place (4 readings)."""
    job = without_heights()
    heights: tuple[tuple[Place, float], ...] = (("board end", 5.5), ("saddle", 9.5))
    others = tuple(
        Reading(id=f"h{at}{side}", kind="height", at=at, on=side, value=value)
        for at, value in heights
        for side in SIDES
    )
    job = msgspec.structs.replace(job, readings=(*job.readings, *others))
    found = change_of(job, "glue")
    assert found.what == "action"


@pytest.mark.parametrize(
    ("after", "what"),
    [
        ((1.5, 1.2, 0.5), "action"),  # enough, and the cheapest
        ((2.5, 1.9, 0.5), "reading"),
        ((2.5, 2.4, 1.9), "trial"),
        ((3.0, 2.9, 2.8), "action"),  # none is enough: it brings nearly as much as the best
        ((4.0, 3.0, 2.8), "reading"),
        ((4.0, 4.0, 2.8), "trial"),
    ],
)
def test_the_cheapest_that_is_enough_is_named(after: tuple[float, float, float], what: str) -> None:
    """derived: 2 mm are allowed; where none is enough, 2.8 / 0.9 = 3.1 counts as nearly the best"""
    kinds: tuple[Literal["action", "reading", "trial"], ...] = ("action", "reading", "trial")
    found = [Change(what=kind, after=pm) for kind, pm in zip(kinds, after, strict=True)]
    chosen = _cheapest(found, 2.0)
    assert chosen is not None
    assert chosen.what == what
    assert _cheapest([], 2.0) is None


def test_the_long_list_with_the_bridge_off_asks_for_the_action_first() -> None:
    """The action typed as it is usual lets the bridge be glued: derived from the verdict on such a job."""
    job = long_job()
    found = change_of(job, "glue")
    assert found.what == "action"
    wanted = wanted_of(job)
    assert wanted is not None
    glue = next(step for step in verdicts(wanted, work_out(wanted)) if step.what == "glue")
    assert glue.go
    assert found.after == pytest.approx(glue.pm95, rel=0.05)


def long_job() -> Job:
    """The longest list with the strings' spread and a bridge of 6 by 1 1/32 in (common practice, no source)."""
    job = long_list()
    assert job.strings is not None
    strings = msgspec.structs.replace(
        job.strings, nut=Spread(spread="1 7/16 in", spacing="centres"), saddle=Spread(spread="2 1/8 in")
    )
    bridge = Bridge(length="6 in", width="1 1/32 in", pins=Pins(behind_slot="7/32 in"))
    return msgspec.structs.replace(job, strings=strings, bridge=bridge, saddle=Saddle(thickness="1/8 in"))
