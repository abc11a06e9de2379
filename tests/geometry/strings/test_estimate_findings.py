"""What is said of estimates and of heights."""

import pytest
from msgspec.structs import replace

from geometry import words
from geometry.job import Action, Saddle, String, Strings
from geometry.job.seating import Made
from geometry.strings.estimate_findings import estimate_findings, height_findings
from geometry.strings.played import strings_as_played
from geometry.strings.usual_sets import SETS
from geometry.work_out import work_out
from tests.geometry.bounds.right_jobs import sample
from tests.published.string_cases import equal_frets

FRETS = equal_frets(648.0, 6)
NAMES = ["1", "2", "3", "4", "5", "6"]


def test_wound_steel_says_that_nothing_checks_it() -> None:
    strings = Strings(list=SETS["steel 12-54"].strings)
    found = estimate_findings(strings, NAMES, [0.2, 0.3, 0.8, 1.0, 1.5, 2.4])
    assert [(f.code, f.grade) for f in found] == [("strings.wound", "look"), ("strings.ends", "good")]
    assert "strings 3, 4, 5 and 6" in found[0].text
    assert "no measured figure for wound steel" in found[0].text
    assert (
        "The place that each of them wants is sure to ±2.4 mm; the saddle, which all share, has a ± of its own."
        in found[0].text
    )


def test_saddles_of_their_own_share_no_line() -> None:
    strings = Strings(list=SETS["steel 12-54"].strings)
    found = estimate_findings(strings, NAMES, [2.4] * 6, trial="each string’s own saddle", shared="")
    assert "Such a string’s saddle is placed to ±2.4 mm." in found[0].text
    assert not any("all share" in one.text for one in found)
    assert found[1].text.endswith("Each string’s own saddle and a tuner settle it.")


@pytest.mark.parametrize(
    ("name", "made", "shares"),
    [("leaning-neck", "one", True), ("leaning-neck", "each", False), ("slanted-separate", "one", False)],
)
def test_a_saddle_is_shared_where_it_is_one_and_not_a_strings_own(name: str, made: Made, shares: bool) -> None:
    job = sample(name)
    job = job if job.separate is not None else replace(job, saddle=replace(job.saddle or Saddle(), made=made))
    said = [one.text for one in work_out(job).findings if one.code == "strings.wound"]
    assert len(said) == 1
    assert ("which all share" in said[0]) is shares


def test_plain_steel_says_that_nobody_tried_how_its_ends_hold() -> None:
    found = estimate_findings(Strings(list=SETS["steel 12-54"].strings[:2]), NAMES[:2], [0.8, 1.4])
    assert [(f.code, f.grade) for f in found] == [("strings.ends", "look")]
    assert "strings 1 and 2" in found[0].text
    assert "How stiffly strings 1 and 2 bend over nut and saddle is guessed" in found[0].text


def test_a_measured_stretch_ratio_needs_no_excuse() -> None:
    one = String(name="6", build="wound", pitch="E2", diameter="0.053 in", stretch_ratio=120)
    assert estimate_findings(Strings(list=(one,)), ["6"], [0.4]) == ()


def test_nylon_is_estimated_within_little() -> None:
    found = estimate_findings(Strings(list=SETS["nylon 0.70-1.10"].strings), NAMES, [0.5] * 6)
    assert [(f.code, f.grade) for f in found] == [("strings.estimated", "good")]


def test_heights_nobody_measured_are_said_to_be_assumed() -> None:
    strings = Strings(list=SETS["steel 12-54"].strings)
    found = height_findings(strings_as_played(strings, "right", FRETS))
    assert [f.code for f in found] == ["heights.assumed"]
    assert "1.8 mm of string over fret 12 at treble and 2.4 mm at bass" in found[0].text
    assert found[0].text.startswith("No string’s height over fret 1 or fret 12 was measured: ")
    assert "Read the string over fret 1 and fret 12 on both sides" in found[0].text
    assert (
        height_findings(strings_as_played(strings, "right", FRETS, Action(fret1=(0.5, 0.5), fret12=(1.8, 2.4)))) == ()
    )


@pytest.mark.parametrize(
    ("measured", "told"),
    [
        (
            Action(fret12=(1.8, 2.4)),
            "s over fret 1 at treble and fret 1 at bass are missing, so the usual ones are assumed there. ",
        ),
        (
            Action(fret1=(0.5, 0.5), fret12=(None, 2.4)),
            " over fret 12 at treble is missing, so the usual one is assumed there: 1.8 mm over fret 12 at treble. ",
        ),
        (
            Action(fret1=(0.5, None), fret12=(1.8, None)),
            "s over fret 1 at bass and fret 12 at bass are missing, so the usual ones are assumed there: 2.4 mm over "
            "fret 12 at bass. ",
        ),
    ],
)
def test_what_is_assumed_is_what_nobody_measured(measured: Action, told: str) -> None:
    """The bass is at right. A height over fret 12 that was read is no consequence of one that was not."""
    strings = Strings(list=SETS["steel 12-54"].strings)
    (found,) = height_findings(strings_as_played(strings, "right", FRETS, measured))
    assert f"The string’s height{told}" in found.text


@pytest.mark.parametrize(
    ("fret1", "fret12", "code"),
    [
        ((0.5, 0.6), (4.0, 6.5), "heights.high"),
        ((2.2, 2.2), (0.6, 0.3), "heights.low"),
        ((3.0, 3.0), (2.5, 2.5), "heights.falling"),
    ],
)
def test_heights_that_cannot_be_played_stop_the_work(
    fret1: tuple[float, float], fret12: tuple[float, float], code: str
) -> None:
    strings = Strings(list=SETS["steel 12-54"].strings, action=Action(fret1=fret1, fret12=fret12))
    assert [(f.code, f.grade) for f in height_findings(strings_as_played(strings, "right", FRETS))] == [(code, "stop")]


@pytest.mark.parametrize(
    ("names", "said"),
    [(["3"], "string 3"), (["3", "4"], "strings 3 and 4"), (["1", "2", "6"], "strings 1, 2 and 6")],
)
def test_strings_are_listed_as_one_would_say_it(names: list[str], said: str) -> None:
    assert words.strings(names) == said


def high(fret1: float, fret12: float) -> set[str]:
    strings = Strings(list=SETS["steel 12-54"].strings)
    action = Action(fret1=(fret1, fret1), fret12=(fret12, fret12))
    return {f.code for f in height_findings(strings_as_played(strings, "right", FRETS, action))}


def test_the_limits_of_what_can_be_played() -> None:
    # common practice, no source: 5 mm over fret 12 at most, 0.4 mm at least
    assert high(0.5, 4.95) == set()
    assert high(0.5, 5.05) == {"heights.high"}
    assert high(0.2, 0.42) == set()
    assert high(0.2, 0.38) == {"heights.low"}


@pytest.mark.parametrize(("over", "falls"), [(2.0, False), (2.01, True)])
def test_a_string_as_high_at_the_nut_as_over_fret_12_does_not_fall(over: float, falls: bool) -> None:
    # derived: a string level with the frets is as high over all of them
    assert high(over, 2.0) == ({"heights.falling"} if falls else set())


@pytest.mark.parametrize(("below", "sunk"), [(0.19, False), (0.21, True)])
def test_a_nut_may_come_out_a_little_below_the_frets(below: float, sunk: bool) -> None:
    # common practice, no source: 0.2 mm. derived: fret 1 lies 1 − 2^(−1/12) along, so from −b at the nut and 2.0 over
    # fret 12, halfway, the string is −b + (2 + b) × 2 (1 − 2^(−1/12)) over fret 1
    share = 2 * (1 - 2 ** (-1 / 12))
    assert high(-below + (2.0 + below) * share, 2.0) == ({"heights.low"} if sunk else set())


@pytest.mark.parametrize(("pm95", "grade"), [(0.99, "good"), (1.01, "look")])
def test_an_estimate_is_looked_at_from_a_millimetre_on(pm95: float, grade: str) -> None:
    # common practice, no source: 1 mm
    (found,) = estimate_findings(Strings(list=SETS["nylon 0.70-1.10"].strings), NAMES, [0.5] * 5 + [pm95])
    assert found.grade == grade
