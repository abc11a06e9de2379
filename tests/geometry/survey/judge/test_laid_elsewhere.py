"""A laying of the rule that began elsewhere than it is said to: all its readings are out alike, and are named as one.

The board and its readings are our own and exact, but for the slip (derived: fret k of equal temperament stands at
650 × (1 − 2^(−k/12)) from the nut).
"""

import pytest
from msgspec.structs import replace

from geometry import words
from geometry.job import Job, Reading, Strings
from geometry.survey import Surveyed, survey
from geometry.units import Unit
from geometry.work_out import work_out
from tests.geometry.survey.invented import BOARD, BOARD_DISTANCES, job_of, taken

PLACES = {k: 650 * (1 - 2 ** (-k / 12)) for k in (1, 3, 5, 7, 9, 12)}
SIDES = ("left", "right")


def job(off: dict[str, float], *, twelfth: bool = True, unit: Unit = "mm") -> Job:
    """The board with its frets, each laying's readings out by so many mm; with fret 12's corners along the edges or
    without.
    """
    board = taken(BOARD, BOARD_DISTANCES)
    frets = [
        Reading(id=f"f{k}{on}", kind="fret", fret=k, on=on, value=at + off.get(on, 0.0), with_="rule 0.5", laid=on)  # type: ignore[arg-type]
        for on in SIDES
        for k, at in PLACES.items()
    ]
    edges = []
    for on in SIDES if twelfth else ():
        of, edge = (f"fret12.{on}",), (f"nut.{on}", f"end.{on}")
        edges.append(Reading(id=f"e{on}", kind="along", of=of, from_=edge, value=PLACES[12], with_="caliper 0.1"))
        edges.append(Reading(id=f"i{on}", kind="inline", of=of, from_=edge))
    return replace(job_of((*board, *frets, *edges)), unit=unit)


def of_side(on: str) -> set[str]:
    return {f"f{k}{on}" for k in PLACES}


def nominal(solved: Surveyed) -> float:
    """The left nominal place, mm from the nut."""
    return float(solved.state[solved.extra_at["scale.left"]] - solved.state[solved.extra_at["shift.left"]])


@pytest.mark.parametrize("on", SIDES)
@pytest.mark.parametrize("off", [-6.0, -3.0, 3.0, 6.0, 10.0])
def test_a_laying_that_began_elsewhere_is_named_and_nothing_else(on: str, off: float) -> None:
    found = survey(job({on: off})).report
    assert (found.verdict, found.layings, set(found.suspects)) == ("misread", (on,), of_side(on))
    assert ("more" if off > 0 else "less") + " than the others allow: the rule did not begin" in found.why.whole
    side = "treble" if on == "left" else "bass"  # right-handed
    assert f"All 6 readings of one laying, “nut to fret 1, {side} string”" in found.why.whole


def test_by_how_much_it_is_out_is_said() -> None:
    """derived: exact readings, so the others say where it began but for what nut and edge may be out themselves"""
    for off in (3.0, 6.0):
        said = survey(job({"left": off})).report.why.whole
        much = float(said.partition("read ")[2].partition(" mm")[0])
        assert much == pytest.approx(off, abs=0.1)


@pytest.mark.parametrize(("unit", "off", "step"), [("mm", 10.0, "a whole centimetre"), ("in", -25.4, "an inch")])
def test_a_whole_step_of_the_rule_is_told(unit: Unit, off: float, step: str) -> None:
    assert f"That is near {step}: perhaps it began at a mark" in survey(job({"left": off}, unit=unit)).report.why.whole
    assert "That is near" not in survey(job({"left": 6.0}, unit=unit)).report.why.whole


def test_what_no_reading_tells_apart_is_a_group_of_two_layings() -> None:
    """With nothing but the two layings, either may be out, or the nut stands askew by as much."""
    found = survey(job({"left": 6.0}, twelfth=False)).report
    assert (found.verdict, set(found.layings), found.suspects) == ("one of these", set(SIDES), ())
    assert set(found.groups[0]) == of_side("left") | of_side("right")
    assert found.why.whole.startswith("One of these is out, by ")
    assert found.why.whole.count("all 6 readings of one laying") == 2
    assert found.why.whole.endswith("Lay the rule again and read them anew.")


@pytest.mark.parametrize("twelfth", [True, False])
@pytest.mark.parametrize("off", [3.5, 6.0, 10.0])
def test_the_pm_covers_the_place_with_the_laying_put_right(off: float, twelfth: bool) -> None:
    right = nominal(survey(job({}, twelfth=twelfth)))
    layout = work_out(
        Job(points=job({}, twelfth=twelfth).points, readings=job({"left": off}, twelfth=twelfth).readings)
    )
    assert layout.frets is not None
    told = layout.frets.nominal
    assert abs(told.left - right) <= told.left_pm95
    assert abs(told.right - right) <= told.right_pm95


def with_value(wrong: Job, name: str, value: float) -> Job:
    readings = tuple(replace(r, value=value) if r.id == name else r for r in wrong.readings)
    return replace(wrong, readings=readings)


def test_one_fret_of_a_laying_misread_is_named_alone() -> None:
    found = survey(with_value(job({}), "f7left", PLACES[7] + 4)).report
    assert (found.verdict, found.suspects, found.layings) == ("misread", ("f7left",), ())


def test_no_fret_of_the_laying_is_called_out_of_place_by_itself() -> None:
    told = work_out(replace(job({"left": 6.0}), strings=Strings()))
    assert not [found for found in told.findings if found.code in ("fret.out_of_place", "fret.miscounted")]
    assert [found.code for found in told.findings if found.where == "reading:f1left"][:1] == ["survey.misread"]


def test_a_laying_of_one_reading_is_that_reading() -> None:
    """Alone in its laying a reading shares its zero with nothing."""
    right = job({})
    few = tuple(r for r in right.readings if r.kind != "fret" or r.on == "right" or r.id == "f12left")
    found = survey(with_value(replace(right, readings=few), "f12left", PLACES[12] + 5)).report
    assert found.layings == ()
    assert "f12left" in {*found.suspects, *(name for group in found.groups for name in group)}


def test_whole_layings_are_called_as_one() -> None:
    assert words.by_layings(job({}), [*of_side("left"), "f1right", "eleft"]) == [
        "all 6 readings of one laying, “nut to fret 1, treble string” to “nut to fret 12, treble string”",
        "“nut to fret 1, bass string”",
        "“fret 12, treble, along treble edge”",
    ]


def test_what_waits_or_stands_alone_is_no_part_of_a_laying() -> None:
    """A laying of which one reading is still to be taken is whole with the others; readings of no laying are none."""
    made = job({})
    waiting = tuple(replace(r, value=None) if r.id == "f12left" else r for r in made.readings)
    ids = sorted(of_side("left") - {"f12left"})
    (told,) = words.by_layings(replace(made, readings=waiting), ids)
    assert told.startswith("all 5 readings of one laying, ")
    alone = [r.id for r in made.readings if not r.laid and r.taken]
    assert len(words.by_layings(made, alone)) == len(alone) > 3
