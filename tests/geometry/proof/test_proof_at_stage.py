"""What the distances say: of a bridge that is where it belongs, and of each fault, by distances without any error."""

from itertools import pairwise

import numpy as np
import pytest
from msgspec.structs import replace

from geometry.job import Job, NotAJob, Proof, Reading
from geometry.placed.place_everything import place_everything
from geometry.proof import Proved, as_finding, prove, said, string_words, wished
from geometry.proof.proof_places import find_places
from geometry.proof.where_it_stands import spanned
from geometry.survey import survey
from tests.campaign.invented.mirroring import other_side
from tests.geometry.any_job.mirror_image import mirrored
from tests.geometry.go_or_wait.test_what_if import sample
from tests.geometry.proof.proof_read import read

JOB = "leaning-neck"


def proved(job: Job, stage: str = "clamped") -> Proved:
    found = prove(job, stage)  # type: ignore[arg-type]  # one of the two
    assert found is not None
    return found


def test_where_it_belongs_is_good() -> None:
    found = proved(read(sample(JOB)))
    assert found.cause == "good"
    assert {row.good for row in found.rows} == {"good"}
    assert found.pose is not None
    assert (found.pose.along, found.pose.across, found.pose.turn) == pytest.approx((0, 0, 0), abs=1e-6)
    assert all(abs(string.off) < 1e-6 for string in found.strings)
    assert said(sample(JOB), found).startswith("Good: the bridge is where it belongs.")


@pytest.mark.parametrize(
    ("off", "turn"), [(3 + 0j, 0.0), (-2.5 + 1.5j, 0.0), (3j, 0.0), (0j, 1.5), (0j, -1.5), (1.5 - 1.5j, 0.8)]
)
def test_a_bridge_that_slipped_is_found_where_it_is(off: complex, turn: float) -> None:
    """derived: the distances are taken from a bridge moved by as much; what is left is of third order"""
    found = proved(read(sample(JOB), off, turn))
    assert found.cause == "slipped"
    assert found.pose is not None
    assert found.pose.along == pytest.approx(off.real, abs=0.02)
    assert found.pose.across == pytest.approx(off.imag, abs=0.02)
    assert found.pose.turn == pytest.approx(turn, abs=0.02)


@pytest.mark.parametrize(("off", "what"), [(3.9, "the tape slipped"), (-4.1, "cut or laid along another line")])
def test_a_sheet_that_is_far_off_did_not_slip(off: float, what: str) -> None:
    """4 mm: common practice, no source; the distances are taken from a bridge moved by as much"""
    assert what in said(sample(JOB), proved(read(sample(JOB), complex(off))))


@pytest.mark.parametrize("scale", [0.993, 1.007])
def test_a_sheet_stretched_one_way_is_named_and_no_distance_blamed_alone(scale: float) -> None:
    """Distances from the board's end alone cannot tell a sheet stretched along the neck from one that slipped."""
    along = proved(read(sample(JOB), scale=(scale, 1.0)))
    assert "scale" in (along.cause, *along.also)
    assert {along.cause, *along.also} <= {"scale", "slipped"}
    assert along.size[0] == pytest.approx(scale - 1, abs=0.0015)
    across = proved(read(sample(JOB), scale=(1.0, scale)))
    assert "scale" in (across.cause, *across.also)
    assert abs(across.size[0]) < 0.001
    assert across.size[1] == pytest.approx(scale - 1, abs=0.003)
    assert f"{'narrow' if scale < 1 else 'wide'} across the neck" in said(sample(JOB), across)


@pytest.mark.parametrize("scale", [0.99, 1.01])
def test_a_sheet_of_another_size_is_named(scale: float) -> None:
    found = proved(read(sample(JOB), scale=scale))
    assert found.cause == "scale"
    assert found.size == pytest.approx((scale - 1, scale - 1), abs=0.0015)
    assert ("small" if scale < 1 else "large") in said(sample(JOB), found)


def test_the_proof_is_read_by_the_hand_that_read_the_survey() -> None:
    """A hand that the survey finds to read three times as coarsely as was said does so here: what is beyond the band of
    a fine one is within its own, and where the bridge stands is less sure.
    """
    job = read(sample(JOB), 1.0 + 0j)
    surveyed = survey(job)
    coarser = replace(surveyed, report=replace(surveyed.report, wider=3.0))
    asked = wished(job)
    fine, coarse = prove(job, "clamped", surveyed, asked), prove(job, "clamped", coarser, asked)
    assert fine is not None
    assert coarse is not None
    assert (fine.wrong, coarse.cause) == (True, "good")
    assert all(many.band > one.band for one, many in zip(fine.rows, coarse.rows, strict=True))
    assert fine.pose is not None
    assert coarse.pose is not None
    assert coarse.pose.along_pm95 > 1.2 * fine.pose.along_pm95


def test_a_sheet_turned_over_is_named() -> None:
    assert proved(read(sample(JOB), over=True)).cause == "swapped"


@pytest.mark.parametrize("row", range(6))
@pytest.mark.parametrize("by", [8.0, -8.0])
def test_the_one_reading_that_is_misread_is_named(row: int, by: float) -> None:
    job = read(sample(JOB), misread=(row, by))
    found = proved(job)
    assert found.cause == "reading"
    assert [i for i, one in enumerate(found.rows) if one.blamed] == [row]
    assert found.rows[row].off == pytest.approx(by, abs=0.05)  # from what is shown, to a tenth
    assert found.pose is not None
    assert (found.pose.along, found.pose.across) == pytest.approx((0, 0), abs=1e-3)


def test_struck_out_it_takes_no_part() -> None:
    job = read(sample(JOB), misread=(2, 8.0))
    (proof,) = job.proof
    readings = tuple(replace(r, struck=i == 2) for i, r in enumerate(proof.readings))
    found = proved(replace(job, proof=(replace(proof, readings=readings),)))
    assert found.cause == "good"
    assert found.rows[2].good == "struck"


def test_a_distance_that_was_read_twice_counts_twice() -> None:
    """One of the two is 8 mm out: it is seen, whichever of them stands first, and named by its own reading."""
    job = read(sample(JOB))
    (proof,) = job.proof
    first = proof.readings[0]
    assert first.value is not None
    slip = replace(first, id="again", value=float(first.value) + 8.0)  # type: ignore[arg-type]
    for readings in ((slip, *proof.readings), (*proof.readings, slip)):
        found = proved(replace(job, proof=(replace(proof, readings=readings),)))
        assert len(found.rows) == 7
        assert [row.reading.id for row in found.rows if row.blamed] == ["again"]


def test_fewer_than_three_say_nothing_of_the_place_yet() -> None:
    job = read(sample(JOB))
    (proof,) = job.proof
    readings = tuple(r if i < 2 else replace(r, value=None) for i, r in enumerate(proof.readings))
    found = proved(replace(job, proof=(replace(proof, readings=readings),)))
    assert (found.cause, found.pose) == (None, None)
    assert [row.good for row in found.rows] == ["good", "good", *["to read"] * 4]
    assert said(job, found) == "Read 1 more distance, and they say where the bridge is."


def test_two_faults_at_once_are_not_put_down_to_one() -> None:
    job = read(sample(JOB), 9 - 9j, 6.0, 0.95, misread=(1, 60.0))
    assert proved(job).cause in ("unclear", "reading")
    assert as_finding(job, proved(job)).grade == "look"


def test_the_mirrored_bridge_is_off_to_the_other_side() -> None:
    job = read(sample(JOB), 2 + 2j, 0.7)
    other = mirrored(job)
    readings = tuple(replace(r, of=tuple(map(other_side, r.of))) for r in job.proof[0].readings)
    other = replace(other, proof=(replace(job.proof[0], readings=readings),))
    one, two = proved(job), proved(other)
    assert one.pose is not None
    assert two.pose is not None
    assert (two.pose.along, -two.pose.across, -two.pose.turn) == pytest.approx(
        (one.pose.along, one.pose.across, one.pose.turn), abs=1e-6
    )
    assert said(job, one) == said(other, two)
    assert [s.cents for s in two.strings] == pytest.approx([s.cents for s in one.strings], abs=1e-6)


def between(job: Job, other: Job, by: float) -> Job:
    """A job whose distances lie so far from one's on the way to another's."""
    (one,), (two,) = job.proof, other.proof
    readings = tuple(
        replace(a, value=(1 - by) * a.parts[0] + by * b.parts[0])  # type: ignore[operator]  # read in mm
        for a, b in zip(one.readings, two.readings, strict=True)
    )
    return replace(job, proof=(replace(one, readings=readings),))


def test_while_it_may_be_either_the_pm_of_the_place_spans_both() -> None:
    """A misreading that shrinks to none: before it is called good there is a place where a sheet that slipped explains
    it nearly as well.
    """
    misread, right = read(sample(JOB), misread=(4, 4.0)), read(sample(JOB))
    seen = [proved(between(misread, right, by / 20)) for by in range(21)]
    alone = {one.cause for one in seen if not one.also}
    assert alone == {"reading", "good"}
    either = [one for one in seen if one.also]
    assert either
    for one in either:
        assert one.pose is not None
        assert "it may be that" in said(sample(JOB), one)
        assert {"slipped", "reading"} <= {one.cause, *one.also}
        assert any(row.blamed == "may be" for row in one.rows)
    wide = max(one.pose.across_pm95 for one in either if one.pose)
    assert seen[0].pose is not None
    assert wide > 1.2 * seen[0].pose.across_pm95


def test_nothing_is_told_to_be_filed_while_it_hangs_on_the_fault() -> None:
    """A distance misread by 2 mm looks like a sheet turned over: by the one every string is right, by the other the
    outer ones are off by the slot's slant.
    """
    found = proved(read(sample(JOB), misread=(2, 2.0), stage="built"), "built")
    assert {found.cause, *found.also} == {"reading", "swapped"}
    assert found.strings == ()
    assert said(sample(JOB), found).endswith("File nothing before.")
    alone = proved(read(sample(JOB), misread=(2, 8.0), stage="built"), "built")
    assert (alone.cause, alone.also) == ("reading", ())
    assert len(alone.strings) == 6


def test_a_pm_that_spans_several_holds_each() -> None:
    """derived: 1 ± 0.5 and 3 ± 1 reach from 0.5 to 4, which is 2.25 ± 1.75; one alone stays as it is"""
    middle, pm = spanned(np.array([[1.0, 7.0], [3.0, 7.0]]), np.array([[0.5, 1.0], [1.0, 0.2]]))
    assert (middle.tolist(), pm.tolist()) == ([2.25, 7.0], [1.75, 1.0])


def test_what_is_left_for_filing_as_built() -> None:
    """derived: a slot 0.6 mm too far back has its ridges filed 0.6 mm forward as far as the wall of 0.5 mm lets them; a
    mm is 1200 / ln 2 / 648 = 2.7 cents at fret 12
    """
    found = proved(read(sample(JOB), 0.6 + 0j, stage="built"), "built")
    assert found.when == "2026-11-28"
    for string in found.strings:
        assert string.off == pytest.approx(0.6, abs=0.02)
        assert string.cents == pytest.approx(2.67 * string.off, rel=0.02)
        assert string.left == pytest.approx(string.off + string.file, abs=0.02) or string.left != 0
    assert any(string.file == pytest.approx(-0.6, abs=0.05) and abs(string.left) < 0.02 for string in found.strings)


def ends_off(job: Job, scale: float = 1.0, *, over: bool = False) -> tuple[float, float]:
    """How far the slot's ends, left and right, stand along the neck from where they belong, by a wrong sheet."""
    places = find_places(job, place_everything(job, survey(job)))
    assert places is not None
    way, start = complex(places.sheet.way[0]), complex(places.sheet.at[0])

    def gone(name: str) -> float:
        at = places.swapped[name] if over else places.new[name]
        return ((start + scale * (at - start) - places.new[name]) / way).real

    return gone("bridge.slot.left"), gone("bridge.slot.right")


@pytest.mark.parametrize("scale", [0.98, 1.02])
@pytest.mark.parametrize("stage", ["clamped", "built"])
def test_a_sheet_of_another_size_carries_the_strings_with_it(scale: float, stage: str) -> None:
    """derived: from the board's end on everything lies that part of its distance farther or nearer; 2 % of the 190 mm
    to the slot are 3.9 mm, and a mm is 2.7 cents. What the size's usual bounds take from it is less than 0.25 mm.
    """
    found = proved(read(sample(JOB), scale=scale, stage=stage), stage)
    off = ends_off(sample(JOB), scale)
    assert found.cause == "scale"
    assert min(map(abs, off)) > 3.5
    for string in found.strings:
        assert min(off) - 0.25 < string.off < max(off) + 0.25
        assert string.cents == pytest.approx(2.67 * string.off, rel=0.02)
        assert abs(string.left_cents) > 2
        assert "leave the ridge" not in string_words(sample(JOB), string)


def test_the_size_of_a_wrong_sheet_adds_its_own_doubt() -> None:
    """derived: the place along is held by the same distances, so it is known about as well as one that slipped"""
    wrong = proved(read(sample(JOB), scale=0.98, stage="built"), "built").strings
    right = proved(read(sample(JOB), stage="built"), "built").strings
    for one, other in zip(wrong, right, strict=True):
        assert other.pm95 * 0.95 < one.pm95 < other.pm95 * 1.5


def test_a_sheet_turned_over_carries_the_strings_with_it() -> None:
    """derived: the slot's slant is laid the other way, so its ends stand off by as much, one too near, one too far;
    between them each string by its share
    """
    found = proved(read(sample(JOB), over=True, stage="built"), "built")
    left, right = ends_off(sample(JOB), over=True)
    assert found.cause == "swapped"
    assert left * right < 0
    assert max(abs(left), abs(right)) > 1.5
    offs = [string.off for string in found.strings]
    assert min(left, right) - 0.1 < min(offs) < 0.6 * min(left, right)
    assert max(left, right) + 0.1 > max(offs) > 0.6 * max(left, right)
    steps = [b - a for a, b in pairwise(offs)]
    assert all(step == pytest.approx(sum(steps) / len(steps), rel=0.1) for step in steps)


def test_the_strings_carry_the_saddles_own_doubt() -> None:
    """A bridge known to a tenth stands on a place that is known to two millimetres: the cents say so."""
    from geometry.work_out import work_out

    job = read(sample(JOB))
    found, layout = proved(job), work_out(job)
    assert layout.saddle is not None
    assert found.pose is not None
    least = min(layout.saddle.pm95)
    assert all(string.pm95 > 0.8 * least for string in found.strings)
    assert found.pose.along_pm95 < least


def bad(reading: Reading) -> str:
    with pytest.raises(NotAJob) as refused:
        replace(sample(JOB), proof=(Proof(stage="clamped", readings=(reading,)),))
    return str(refused.value)


def test_a_proof_of_the_wrong_kind_is_refused() -> None:
    wrong = Reading(
        id="p", kind="off", of=("bridge.front.left",), from_=("nut.left", "end.left"), side="left", value=3.0
    )
    assert bad(wrong) == ("Reading “p” of the proof is of the kind off; read a distance between two places instead")


def test_a_place_that_is_not_there_is_refused() -> None:
    assert bad(Reading(id="p", kind="distance", of=("nut.middle", "bridge.front.left"))) == (
        "Reading “p” of the proof names the point “nut.middle”, which is not among the job’s points; add it or mend "
        "the name"
    )
    assert "neither is a place of the new bridge" in bad(Reading(id="p", kind="distance", of=("nut.left", "end.left")))


def test_a_hole_that_the_bridge_does_not_have_is_said() -> None:
    job = sample(JOB)
    reading = Reading(id="p", kind="distance", of=("nut.left", "bridge.pin.9"), value=650.0)
    found = proved(replace(job, proof=(Proof(stage="clamped", readings=(reading,)),)))
    assert [row.good for row in found.rows if row.reading.id == "p"] == ["no place"]


@pytest.mark.parametrize("when", ["yesterday", "2026-13-01", "28.11.2026"])
def test_a_day_is_a_day(when: str) -> None:
    with pytest.raises(NotAJob, match="write it like 2026-11-28"):
        Proof(stage="built", when=when)


def test_a_point_of_the_job_may_be_an_end() -> None:
    job = sample(JOB)
    at = next(name for name in job.points if name.startswith("seam."))
    reading = Reading(id="p", kind="distance", of=(at, "bridge.front.left"), value=100.0)
    found = proved(replace(job, proof=(Proof(stage="clamped", readings=(reading,)),)))
    assert next(row for row in found.rows if row.reading.id == "p").good in ("good", "not good")
