"""What may be done now and what must wait, on both sides of each threshold."""

import re
from types import SimpleNamespace

import msgspec
import pytest

from geometry.findings import Finding
from geometry.go_or_wait import Change, Step, in_short, said, strip_words, verdicts
from geometry.go_or_wait.steps import Why, Work
from geometry.go_or_wait.verdicts import BESIDE, GLUE_WITHIN, UNHEARD, _all_within, concerned
from geometry.job import Bridge, Frets, Job, Proof, Reading, Saddle
from geometry.job.seating import Made, SlotFront
from geometry.layout import BySheet, Layout
from geometry.units import Unit
from tests.export.conftest import job, layout
from tests.in_one import in_one


def with_pms(bridge: float, saddle: float, *, known: Layout | None = None) -> Layout:
    """The conftest's layout with these ± at both ends, and what its strings and holes are known to."""
    known = known or layout()
    assert known.saddle is not None
    assert known.bridge is not None
    return msgspec.structs.replace(
        known,
        saddle=msgspec.structs.replace(
            known.saddle,
            pm95=(0.3, saddle),
            cents95=(0.8, saddle / 0.371),
            by_sheet=BySheet(pm95=(0.3, saddle), checked=True),
        ),
        bridge=msgspec.structs.replace(known.bridge, front_pm95=(0.3, bridge)),
        findings=tuple(f for f in known.findings if f.grade != "stop"),
    )


def steps(bridge: float, saddle: float, job_: Job | None = None, **changed: object) -> dict[str, Step]:
    found = with_pms(bridge, saddle)
    assert found.saddle is not None
    seen = msgspec.structs.replace(found, saddle=msgspec.structs.replace(found.saddle, **changed))
    return {step.what: step for step in verdicts(job_ or job(), seen)}


def goes(bridge: float, saddle: float, job_: Job | None = None, **changed: object) -> dict[str, bool]:
    return {what: step.go for what, step in steps(bridge, saddle, job_, **changed).items() if what in ("glue", "slot")}


CUT = msgspec.structs.replace(job(), bridge=Bridge(slot_front=SlotFront(left=5.0, right=9.0)))


def test_the_thresholds() -> None:
    """common practice, no source; docs/numbers.md names them. Two cents: Mottola, see trial_saddles."""
    assert (GLUE_WITHIN, BESIDE, UNHEARD) == (2.0, 1.5, 2.0)


@pytest.mark.parametrize(
    ("bridge", "saddle", "glue", "slot"),
    [
        (2.0, 1.0, True, True),
        (2.01, 1.0, False, False),
        (2.0, 1.01, True, False),
        (2.01, 1.01, False, False),
        (0.8, 1.6, True, False),
    ],
)
def test_each_waits_beyond_its_own(bridge: float, saddle: float, glue: bool, slot: bool) -> None:
    """derived: the conftest's saddle of 3 mm peaks in its middle, 0.5 mm of wall leave 1 mm for its ridge each way; a
    slot waits for the bridge that it is cut into
    """
    assert goes(bridge, saddle) == {"glue": glue, "slot": slot}


def test_a_slot_waits_for_its_bridge_whatever_that_waits_for() -> None:
    found = steps(2.01, 0.5)
    assert {what: found[what].why for what in ("glue", "slot", "fit")} == {
        "glue": "wide",
        "slot": "after",
        "fit": "after",
    }
    assert sentence("slot", job(), with_pms(2.01, 0.5)) == "Don’t cut the slot yet: the bridge waits."
    assert sentence("fit", job(), with_pms(2.01, 0.5)) == "Don’t fit the saddle yet: the slot waits."
    stop = Finding(grade="stop", code="bridge.on_board", text="It lies on the board. Move it.", where="bridge")
    known = msgspec.structs.replace(with_pms(0.5, 0.5), findings=(stop,))
    assert {s.what: s.why for s in verdicts(job(), known)}["slot"] == "after"


@pytest.mark.parametrize(("thickness", "takes"), [(3.0, 1.0), (4.0, 1.5), (6.0, 2.5)])
def test_a_thicker_saddle_takes_up_more(thickness: float, takes: float) -> None:
    """derived: half its thickness less the wall of 0.5 mm"""
    thick = msgspec.structs.replace(job(), saddle=Saddle(thickness=thickness))
    assert goes(0.5, takes, thick)["slot"]
    assert not goes(0.5, takes + 0.01, thick)["slot"]


def test_two_cents_need_no_filing() -> None:
    """derived: at 0.371 mm a cent two cents are 0.742 mm, more than a ridge at the saddle's front takes up"""
    front = msgspec.structs.replace(job(), saddle=Saddle(peak_at=0.0))
    for pm, go in ((0.74, True), (0.75, False)):
        found = {s.what: s for s in verdicts(front, peaking(with_pms(0.5, pm), *[0.0] * 6))}
        assert found["slot"].go is go


def peaking(known: Layout, *peaks: float) -> Layout:
    """The layout with its strings' ridges there in the saddle's thickness."""
    strings = tuple(msgspec.structs.replace(s, peak=at) for s, at in zip(known.strings, peaks, strict=True))
    return msgspec.structs.replace(known, strings=strings)


def test_the_string_whose_ridge_has_the_least_room_is_what_filing_takes_up() -> None:
    """derived: a ridge at 0.3 of 5 mm has 1.5 before it, less the wall of 0.5 is 1.0, more than two cents (0.742); all
    others have more. It stands 1.0 from the middle: in 6 mm it has 3 - 1.0 - 0.5 = 1.5.
    """
    thick = msgspec.structs.replace(job(), saddle=Saddle(thickness=5.0))
    for pm, go in ((1.0, True), (1.01, False)):
        known = peaking(with_pms(0.5, pm), 0.5, 0.55, 0.3, 0.5, 0.5, 0.6)
        found = {s.what: s for s in verdicts(thick, known)}
        assert found["slot"].go is go
        assert found["slot"].strings == (known.strings[2].name,)
    assert sentence("slot", thick, peaking(with_pms(0.5, 1.23), 0.5, 0.55, 0.3, 0.5, 0.5, 0.6)) == (
        "Don’t cut the slot yet: the bass string’s place is known to ±1.3 mm (3.3 cents). At string 3 the 5 mm "
        "saddle can be filed by ±1.0 mm only. A saddle 6 mm thick could be filed by ±1.5 mm."
    )


def test_a_ridge_at_the_saddles_back_is_not_filed() -> None:
    """derived: at 0.9 of 3 mm there are 0.3 behind the ridge, less than its wall: two cents, 0.742 mm, are the limit"""
    known = peaking(with_pms(0.5, 0.8), 0.5, 0.9, 0.5, 0.5, 0.5, 0.5)
    found = {s.what: s for s in verdicts(job(), known)}
    assert not found["slot"].go
    assert found["slot"].limit == pytest.approx(0.742)
    said_of_it = sentence("slot", job(), known)
    assert (
        "At string 2 the 3 mm saddle is too thin to make up for that by filing. A saddle 6 mm thick could "
        in said_of_it
    )


def test_what_a_rule_in_inches_does_not_show_is_nothing() -> None:
    """derived: at 0.75 of 3 mm there are 0.75 behind the ridge, less the wall 0.25; a sixty-fourth is 0.397 mm"""
    known = peaking(with_pms(0.5, 0.8), 0.5, 0.75, 0.5, 0.5, 0.5, 0.5)
    assert "can be filed by ±0.2 mm only" in sentence("slot", job(), known)
    assert "is too thin to make up for that by filing" in sentence(
        "slot", msgspec.structs.replace(job(), unit="in"), known
    )


def test_all_wait_for_accused_readings() -> None:
    found = steps(0.1, 0.1, waits_for=("r1",))
    assert {what for what, step in found.items() if step.go} == set()
    assert {step.why for step in found.values()} == {"accused", "after"} or {step.why for step in found.values()} == {
        "accused"
    }
    assert goes(0.1, 0.1, CUT, waits_for=("r1",)) == {"glue": False}


def test_all_wait_for_a_check_of_what_decides_the_saddle() -> None:
    found = steps(0.1, 0.1, checked=False)
    assert [step.what for step in found.values() if step.go] == []
    assert found["slot"].why == found["glue"].why == "unchecked"


@pytest.mark.parametrize(("bridge", "saddle", "glue"), [(1.0, 1.0, True), (2.01, 0.2, False), (0.2, 1.01, False)])
def test_a_cut_slot_is_placed_by_the_glue(bridge: float, saddle: float, glue: bool) -> None:
    assert goes(bridge, saddle, CUT) == {"glue": glue}


@in_one(
    ("code", "waiting"),
    [
        ("metal.in_the_way", {"glue", "pins", "slot", "clear"}),
        ("brace.pin", {"glue", "pins", "clear"}),
        ("brace.slot", {"pins", "slot"}),
        ("plate.pin", {"glue", "pins", "clear"}),
        ("headstock.slot_narrow", set()),
        ("post.edge", set()),
        ("posts.askew", set()),
        ("markers.side.past_the_end", set()),
        ("nut.through", set()),
        ("nut.margins", {"glue", "pins", "slot", "fit", "clear", "stand", "crown", "screws", "through"}),
        ("board.radius", {"fit"}),
        ("bridge.on_board", {"glue", "pins", "clear", "stand"}),
        ("saddle.leans", {"glue", "pins", "slot", "fit", "clear", "stand", "crown", "screws", "through"}),
        ("whatever.else", {"glue", "pins", "slot", "fit", "clear", "stand", "crown", "screws", "through"}),
    ],
)
def test_a_stop_holds_back_what_it_concerns(code: str, waiting: set[str]) -> None:
    assert set(concerned(code, slot_is_cut=False)) == waiting
    known = with_pms(0.1, 0.1)
    stop = Finding(grade="stop", code=code, text="Something is in the way. Take it out.", where="saddle")
    found = {s.what: s for s in verdicts(job(), msgspec.structs.replace(known, findings=(stop,)))}
    assert {what for what, step in found.items() if step.why == "stop"} == waiting & set(found)


def test_a_bridge_with_a_wrong_slot_is_not_glued() -> None:
    assert "glue" in concerned("slot.leans", slot_is_cut=True)
    assert "glue" not in concerned("slot.leans", slot_is_cut=False)


def test_pin_holes_wait_where_the_slot_may_come_too_near() -> None:
    """derived: of 3 mm between slot and pins a slot that may move by 1.6 leaves 1.4, less than the 1.5 of bridge.md"""
    known = with_pms(0.5, 1.6)
    assert known.bridge is not None
    for between, go in ((3.2, True), (3.0, False)):
        bridge = msgspec.structs.replace(known.bridge, wood={"between": between}, pins_pm95=((0.5, 0.2),))
        found = {s.what: s for s in verdicts(job(), msgspec.structs.replace(known, bridge=bridge))}
        assert found["pins"].go is go


@pytest.mark.parametrize(("along", "across", "go"), [(2.0, 1.5, True), (2.01, 0.2, False), (0.2, 1.51, False)])
def test_pin_holes_wait_for_their_own_place(along: float, across: float, go: bool) -> None:
    known = with_pms(0.5, 0.5)
    assert known.bridge is not None
    bridge = msgspec.structs.replace(known.bridge, pins_pm95=((along, across),))
    found = {s.what: s for s in verdicts(job(), msgspec.structs.replace(known, bridge=bridge))}
    assert found["pins"].go is go


def known_across(pm: float, *, checked: bool = True) -> Layout:
    """A bridge whose corners are known so well across the neck."""
    known = with_pms(0.5, 0.5)
    assert known.bridge is not None
    bridge = msgspec.structs.replace(
        known.bridge, corners_pm95=((0.5, pm), (0.5, 0.2), (0.5, 0.2), (0.5, 0.2)), across_checked=checked
    )
    return msgspec.structs.replace(known, bridge=bridge)


@pytest.mark.parametrize(("across", "go"), [(1.5, True), (1.51, False)])
@pytest.mark.parametrize("of", [job(), CUT])
def test_a_bridge_waits_for_its_place_across(of: Job, across: float, go: bool) -> None:
    """The widest ± of its corners across counts as it does for pin holes, its slot cut or not."""
    found = {s.what: s for s in verdicts(of, known_across(across))}
    assert found["glue"].go is found["clear"].go is go
    if not go:
        assert sentence("glue", of, known_across(across)) == (
            "Don’t glue the bridge yet: its place is known to ±1.6 mm across the neck; ±1.5 mm would be close enough."
        )


def test_a_bridge_that_nothing_checks_across_is_not_glued_and_its_holes_wait() -> None:
    found = {s.what: s for s in verdicts(job(), known_across(0.2, checked=False))}
    assert {what: found[what].why for what in ("glue", "pins", "slot")} == {
        "glue": "aside",
        "pins": "aside",
        "slot": "after",
    }
    assert sentence("glue", job(), known_across(0.2, checked=False)) == (
        "Don’t glue the bridge yet: nothing checks where it lies across the neck; measure the board’s width again."
    )


def test_the_saddle_is_fitted_after_its_slot() -> None:
    assert steps(0.5, 1.6)["fit"].why == "after"
    assert steps(0.5, 0.5)["fit"].go


def test_a_string_that_is_hardly_known_is_not_filed_for() -> None:
    """derived: two cents at 643 mm are 0.74 mm, less than the 1.0 that filing takes up"""
    known = with_pms(0.5, 0.5)
    for pm, go in ((1.0, True), (1.01, False)):
        strings = tuple(msgspec.structs.replace(s, compensation_pm95=pm, peak=0.5) for s in known.strings)
        found = {s.what: s for s in verdicts(job(), msgspec.structs.replace(known, strings=strings))}
        assert found["fit"].go is go
        assert len(found["fit"].strings) == (0 if go else 6)


def sentence(what: Work, job_: Job, known: Layout) -> str:
    found = verdicts(job_, known)
    return said(job_, found)[[step.what for step in found].index(what)]


def test_the_sentences_round_up_and_take_the_worse_side() -> None:
    assert sentence("glue", job(), with_pms(0.64, 0.94)) == (
        "Glue the bridge: its place at bass is known to ±0.7 mm. The slot, cut later, can still be moved by ±2.0 mm to "
        "make up for that. First read the distances to check: only they show a slip that several readings share."
    )
    assert sentence("slot", job(), with_pms(0.7, 0.94)) == (
        "Cut the slot: the bass string’s place is known to ±1.0 mm (2.5 cents). The 3 mm saddle can be filed by "
        "±1.0 mm to make up for that."
    )
    assert sentence("slot", job(), with_pms(0.7, 1.53)) == (
        "Don’t cut the slot yet: the bass string’s place is known to ±1.6 mm (4.1 cents). The 3 mm saddle can be "
        "filed by ±1.0 mm only. A saddle 6 mm thick could be filed by ±2.5 mm."
    )


def test_a_step_that_cant_be_undone_names_what_is_not_checked_yet() -> None:
    """The distances until some are read, and a scale that was typed where no fret was."""
    known = with_pms(0.64, 0.94)
    typed = msgspec.structs.replace(job(), frets=Frets(scale=640.0))
    read = Reading(id="p", kind="distance", of=("nut.left", "bridge.front.left"), value=600.0)
    proved = msgspec.structs.replace(job(), proof=(Proof(stage="clamped", readings=(read,)),))
    assert "Nothing checks the scale as typed: read fret 12" in sentence("glue", typed, known)
    assert "Nothing checks the scale" not in sentence("glue", job(), known)
    assert "First read the distances" in sentence("glue", job(), known)
    assert "First read the distances" not in sentence("glue", proved, known)
    assert "First read the distances" not in sentence("slot", job(), known)


def test_they_name_the_readings_to_read_again_once() -> None:
    known = with_pms(0.7, 0.5)
    assert known.saddle is not None
    seen = msgspec.structs.replace(known, saddle=msgspec.structs.replace(known.saddle, waits_for=("r1",)))
    all_of = said(job(), verdicts(job(), seen))
    assert all_of[1] == (
        "Don’t glue the bridge yet: its place at bass is known to ±0.7 mm, but readings do not agree. First read “nut, "
        "edge to edge” again."
    )
    assert sum("again" in line for line in all_of) == 1


def test_inches() -> None:
    """derived: 0.7 mm is 1.76 sixty-fourths, said as 2; the 1.0 mm that filing takes up is 2.52, said as 2"""
    inches = msgspec.structs.replace(job(), unit="in")
    assert "±1/32 in. The slot" in sentence("glue", inches, with_pms(0.7, 0.5))
    assert sentence("slot", inches, with_pms(0.7, 0.7)).endswith("can be filed by ±1/32 in to make up for that.")


def test_the_strip_names_two_steps() -> None:
    assert strip_words(verdicts(job(), with_pms(0.7, 1.6))) == ("Slot: wait", "Glue: go")
    assert strip_words(verdicts(CUT, with_pms(0.7, 0.9))) == ("Glue: go", "Saddle: go")


def test_without_a_bridge_there_is_nothing_to_say() -> None:
    assert verdicts(job(), msgspec.structs.replace(layout(), bridge=None)) == ()


def brief(why: Why, change: Change | None = None, what: Work = "slot") -> str:
    return " ".join(in_short(job(), (Step(what=what, go=False, pm95=1.53, limit=1.0, why=why, change=change),)))


def test_in_brief_each_reason_has_its_words() -> None:
    reasons: dict[Why, str] = {
        "stop": "read the STOP",
        "after": "the bridge waits",
        "proof": "not clamped where it belongs",
        "aside": "across the neck it is unchecked",
        "accused": "readings do not agree",
        "unchecked": "its readings are unchecked",
        "wide": "±1.6 mm",
    }
    verdict = {why: "stop" if why == "stop" else "wait" for why in reasons}
    said = {why: f"Slot: {verdict[why]}, {says}." for why, says in reasons.items()}
    assert {why: brief(why) for why in reasons} == said
    trial, reading = Change(what="trial", after=0.84), Change(what="reading", after=0.84)
    assert brief("wide", trial) == "Slot: wait, ±1.6 mm; a trial saddle makes it ±0.9 mm."
    assert brief("wide", reading) == brief("wide", Change(what="trial")) == "Slot: wait, ±1.6 mm."
    assert [brief("wide", what=what) for what in ("clear", "fit")] == ["", ""]


def judged(front: tuple[float, float]) -> Step:
    known = with_pms(0.5, 0.5)
    assert known.bridge is not None
    seen = msgspec.structs.replace(known, bridge=msgspec.structs.replace(known.bridge, front_pm95=front))
    return next(step for step in verdicts(job(), seen) if step.what == "glue")


def test_the_side_that_is_farther_beyond_is_told_where_they_differ() -> None:
    """derived: sides within a twentieth of the wider are told as one; 1.9 is 0.95 of 2.0"""
    assert [judged(front).side for front in ((2.0, 1.0), (1.0, 2.0), (2.0, 1.91), (2.0, 1.9))] == [
        "left",
        "right",
        None,
        "left",
    ]
    assert [judged(front).pm95 for front in ((2.0, 1.0), (1.0, 2.0), (1.91, 2.0))] == [2.0, 2.0, 2.0]


@pytest.mark.parametrize(("made", "cut"), [("two", "the slots"), ("one", "the slot")])
def test_a_slot_for_each_piece_is_told_in_the_plural(made: Made, cut: str) -> None:
    saddle = msgspec.structs.replace(job().saddle or Saddle(), made=made, splits=None)
    parted = msgspec.structs.replace(job(), saddle=saddle)
    told = " ".join(said(parted, verdicts(parted, with_pms(0.3, 0.3))))
    assert cut in told
    assert bool(re.search(r"the slot\b", told)) == (cut == "the slot")


@pytest.mark.parametrize(
    ("unit", "pm95", "cents", "says"),
    [
        ("in", 0.0, 0.0, "no ± of its own"),
        ("in", 0.1, 0.3, "under ±1/64 in (0.3 cents)"),
        ("in", 0.2, 0.5, "±1/64 in (0.5 cents)"),
        ("mm", 0.04, 0.1, "under ±0.1 mm (0.1 cents)"),
        ("mm", 0.06, 0.2, "±0.1 mm (0.2 cents)"),
    ],
)
def test_no_cents_stand_beside_a_pm_they_are_not_of(unit: Unit, pm95: float, cents: float, says: str) -> None:
    """derived: half a 64th of an inch is 0.198 mm"""
    inches = msgspec.structs.replace(job(), unit=unit)
    step = msgspec.structs.replace(steps(1.0, 1.0)["slot"], go=True, side=None, pm95=pm95, cents=cents, why="wide")
    assert in_short(inches, (step,)) == (f"Slot: go, {says}.",)


def test_of_several_strings_no_cents_stand_beside_a_plus_or_minus_that_is_anothers() -> None:
    """derived: 1731.2 × 1.0 / 650 is 2.66 cents; of a string of 500 mm 0.9 is 3.12, which is more, and 0.7 is 2.42"""
    long = SimpleNamespace(compensation_pm95=1.0, length=650.0)
    for short, cents in ((0.7, 2.66), (0.9, None)):
        strings = (long, SimpleNamespace(compensation_pm95=short, length=500.0))
        found = _all_within(strings, 1.0)  # type: ignore[arg-type]  # what it looks at
        assert found == (None if cents is None else pytest.approx(cents, abs=0.01))
