"""What may be drilled now, what must wait and for what; and the proof of a base's marks before its holes."""

import math

import pytest
from msgspec.structs import replace

from geometry import go_or_wait, proof
from geometry.findings import Finding
from geometry.go_or_wait import Step
from geometry.job import Job, Proof, Reading
from geometry.units import mm
from geometry.work_out import work_out
from tests.geometry.separate.slanted_sample import one_a_string, sample, with_block


def steps(job: Job) -> dict[str, Step]:
    return {step.what: step for step in go_or_wait.verdicts(job, work_out(job))}


def said(job: Job, what: str) -> str:
    found = go_or_wait.worked_out(job, work_out(job))
    return go_or_wait.told(job, next(step for step in found if step.what == what), found)


def test_all_may_be_drilled_where_all_is_known() -> None:
    found = steps(sample())
    assert list(found) == ["screws", "through"]
    assert found["screws"].go
    assert found["through"].go
    assert found["screws"].limit == pytest.approx(work_out(sample()).separate.least.least)  # type: ignore[union-attr]


def test_a_base_whose_strings_stay_on_top_has_no_holes_through() -> None:
    assert list(steps(with_block(through=None))) == ["screws"]


@pytest.mark.parametrize(
    ("fields", "what", "why"),
    [
        ({"set": "square", "travel": 3}, "screws", "stop"),
        ({"set": "square", "travel": 3}, "through", "stop"),
        ({"travel": 4.5}, "screws", "wide"),
        ({"travel": 4.5}, "through", "after"),
        ({"screws": ()}, "screws", "untold"),
        ({"body": None}, "through", "untold"),
        ({"saddles": 4}, "screws", "stop"),
    ],
)
def test_what_waits_says_for_what(fields: dict[str, object], what: str, why: str) -> None:
    found = steps(with_block(**fields))[what]
    assert (found.go, found.why) == (False, why)


def test_the_reasons_are_told_in_words() -> None:
    assert said(with_block(screws=()), "screws").endswith("where the screw holes are on the base is not told.")
    assert said(with_block(body=None), "through").endswith("the body’s thickness is not told.")
    assert said(with_block(travel=4.5), "through") == "Don’t drill through the body yet: the base waits."
    reach = work_out(sample()).separate.least.least  # type: ignore[union-attr]
    assert f"Its saddle can still be moved by ±{reach:.1f} mm" in said(sample(), "screws")  # as its reach is told


def test_readings_that_nothing_checks_hold_all_back() -> None:
    job = sample()
    frets = replace(job.frets, scales=None, square_fret=None)  # what was declared checks them too
    few = replace(job, frets=frets, readings=tuple(r for r in job.readings if r.kind != "fret" or r.fret == 12))
    found = steps(few)
    assert not found["screws"].go


def test_an_accused_reading_holds_all_back() -> None:
    job = sample()
    slip = tuple(replace(r, value=mm(r.value) + 8) if r.id == "r19" else r for r in job.readings)  # type: ignore[arg-type]
    layout = work_out(replace(job, readings=slip))
    if layout.saddle is not None and layout.saddle.waits_for:
        assert steps(replace(job, readings=slip))["screws"].why in ("accused", "stop")


def _read(job: Job, off: float = 0.0) -> Job:
    """The job with its proof read: as it should be, or each distance to the base `off` too long; no rule reads all to
    the tenth.
    """
    found = proof.prove(job, "clamped")
    assert found is not None
    hand = (0.1, *[0.0] * (len(found.rows) - 1))
    readings = tuple(
        replace(row.reading, value=round(row.wanted + off + more, 1))
        for row, more in zip(found.rows, hand, strict=True)
    )
    return replace(job, proof=(Proof(stage="clamped", readings=readings),))


def test_the_proof_asks_for_distances_to_the_bases_corners() -> None:
    found = proof.prove(sample(), "clamped")
    assert found is not None
    assert 4 <= len(found.rows) <= 6
    assert all(row.reading.of[1].startswith("base.") for row in found.rows)
    assert {"base front, bass corner", "base front, treble corner"} & {
        proof.ends_called(row.reading, "right")[1] for row in found.rows
    }


def test_a_proof_that_agrees_is_good_and_lets_the_drill_go() -> None:
    job = _read(sample())
    found = proof.prove(job, "clamped")
    assert found is not None
    assert found.cause == "good"
    assert proof.as_finding(job, found).text.startswith(
        "Before the holes are drilled. Good: the base is where it belongs."
    )
    assert found.strings == ()
    assert steps(job)["screws"].go


def test_a_base_that_is_marked_elsewhere_is_not_drilled() -> None:
    job = _read(sample(), off=4.0)
    found = steps(job)["screws"]
    assert (found.go, found.why) == (False, "proof")
    assert said(job, "screws").endswith("by the distances read the base is marked where it does not belong.")
    assert steps(job)["through"].why == "after"


def test_bases_of_their_own_are_proved_by_the_outer_corners_of_the_row() -> None:
    """derived: of the bases as they are placed, the corners farthest to the left and to the right"""
    job = replace(sample(), separate=one_a_string())
    found = proof.prove(job, "clamped")
    assert found is not None
    assert 4 <= len(found.rows) <= 6
    layout = work_out(job)
    assert layout.separate is not None
    assert layout.neck is not None
    left, right = (pick(layout.separate.bases, key=lambda base: base.corners[0][1]) for pick in (max, min))
    at = {
        "base.front.left": left.corners[0],
        "base.front.right": right.corners[1],
        "base.back.right": right.corners[2],
        "base.back.left": left.corners[3],
    }
    ends = dict(zip(("nut.left", "nut.right"), layout.neck.nut, strict=True))
    from_nut = [row for row in found.rows if row.reading.of[0] in ends]
    assert from_nut
    for row in from_nut:
        start, stop = row.reading.of
        assert row.wanted == pytest.approx(math.dist(ends[start], at[stop]), abs=0.15)  # the rule's own error is in it
    assert [c.code for c in layout.checks if ".screw." in c.code]


def test_a_row_of_bases_that_is_marked_elsewhere_is_not_drilled() -> None:
    job = _read(replace(sample(), separate=one_a_string()))
    good = proof.prove(job, "clamped")
    assert good is not None
    assert proof.as_finding(job, good).text.startswith("Before the holes are drilled. Good: the row of bases is where")
    off = _read(replace(sample(), separate=one_a_string()), off=4.0)
    assert not steps(off)["screws"].go
    assert steps(off)["screws"].why == "proof"


def test_a_place_of_the_base_is_a_place_a_proof_may_name() -> None:
    Proof(stage="clamped", readings=(Reading(id="a", kind="distance", of=("end.left", "base.back.right")),))
    with pytest.raises(ValueError, match="neither is a place of the new"):
        Proof(stage="clamped", readings=(Reading(id="a", kind="distance", of=("end.left", "base.side.right")),))


@pytest.mark.parametrize(
    ("code", "go"),
    [
        ("nut.low", True),
        ("nut.through", True),
        ("board.radius", True),
        ("headstock.edge", True),
        ("neck.turned", False),
    ],
)
def test_a_stop_keeps_back_only_what_it_concerns(code: str, go: bool) -> None:
    job = sample()
    layout = work_out(job)
    stop = Finding(grade="stop", code=code, text="No.", values={}, where="")
    found = go_or_wait.verdicts(job, replace(layout, findings=(*layout.findings, stop)))
    assert [step.go for step in found] == [go, go]
