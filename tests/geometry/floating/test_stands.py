"""Where the bridge stands today: how far it is to go, and one that is turned the wrong way."""

import cmath
import math
import re

import pytest
from msgspec.structs import replace

from geometry.job import Heard
from tests.geometry.floating.floating_made import FEET, TAIL, laid, standing_job, told
from tests.geometry.made import BOARD


def put(by: complex, turn: float) -> dict[str, tuple[float, float]]:
    """The feet's points where the bridge belongs, moved by so much and turned about its front's middle (degrees)."""
    layout = laid(standing_job())
    assert layout.bridge is not None
    left, right = (complex(*corner) for corner in layout.bridge.corners[:2])
    middle = (left + right) / 2
    moved = [middle + by + (at - middle) * cmath.exp(1j * math.radians(turn)) for at in (left, right)]
    return {"foot.left": (moved[0].real, moved[0].imag), "foot.right": (moved[1].real, moved[1].imag)}


@pytest.mark.parametrize(("by", "turn"), [(0j, 0.0), (-3 + 1j, 0.0), (2 + 0j, 1.5), (-4 - 2j, -2.0)])
def test_it_is_told_to_go_back_by_as_much(by: complex, turn: float) -> None:
    layout = laid(standing_job(), BOARD | TAIL | put(by, turn))
    assert layout.floating is not None
    today = layout.floating.today
    assert today is not None
    assert today.turn == pytest.approx(-turn, abs=1e-6)
    spun = 40 * math.sin(math.radians(turn))  # the line hardly leans, so the ends go along the neck
    assert today.along[0] == pytest.approx(-by.real + spun, abs=0.05)
    assert today.along[1] == pytest.approx(-by.real - spun, abs=0.05)
    assert today.across == pytest.approx(-by.imag, abs=0.1)


def test_where_it_belongs_is_good() -> None:
    layout = laid(standing_job(), BOARD | TAIL | put(0j, 0.0))
    (finding,) = [finding for finding in layout.findings if finding.code == "floating.stands"]
    assert finding.grade == "good"
    assert finding.text.startswith("The bridge stands where it belongs, as well as that is known: within ±")


@pytest.mark.parametrize(
    ("by", "turn", "says"),
    [
        (0.2 + 0j, 0.0, ("the bridge’s bass foot stands 0.2 ±", "its treble foot stands 0.2 ±", "farther to the tail")),
        (-0.1 + 0j, 0.1433, ("the bridge’s treble foot stands 0.2 ±", "nearer the nut")),
    ],
)
def test_one_that_stands_off_within_its_plus_or_minus_is_told_so(by: complex, turn: float, says: tuple[str]) -> None:
    """derived: turned by 0.1433° counter-clockwise, the feet's ends at 40 mm stand 0.1 mm nearer at bass, farther at
    treble; moved by 0.1 to the nut besides, one end is off by 0.2 and the other by none.
    """
    layout = laid(standing_job(), BOARD | TAIL | put(by, turn))
    (finding,) = [finding for finding in layout.findings if finding.code == "floating.stands"]
    assert finding.grade == "good"
    assert "where it belongs, as well as" not in finding.text
    assert "That is within what is known of its place" in finding.text
    for part in says:
        assert part in finding.text, finding.text


def test_a_slide_is_told_at_both_feet() -> None:
    layout = laid(standing_job(), BOARD | TAIL | put(-3 + 0j, 0.0))
    text = told(layout)["floating.stands"]
    assert text.startswith("From where the bridge stands to where it belongs: its bass foot 3.0 ±")
    assert text.count("toward the tail") == 2
    assert "side" not in text


def test_one_turned_the_wrong_way_is_told_so() -> None:
    """A bridge whose treble end lies farther from the nut, where the strings want the bass one to."""
    strings = standing_job().strings
    assert strings is not None
    leaning = standing_job(strings=replace(strings, compensation=(1.0, 1.5, 2.0, 3.0, 4.0)))
    wrong = laid(leaning, BOARD | TAIL | {"foot.left": (640.0, 40.0), "foot.right": (632.0, -40.0)})
    assert "turned the wrong way for a right-handed instrument" in told(wrong)["floating.leans"]
    right = laid(leaning, BOARD | TAIL | {"foot.left": (632.0, 40.0), "foot.right": (640.0, -40.0)})
    assert "floating.leans" not in told(right)


def test_feet_that_wait_for_their_readings() -> None:
    assert "floating.feet_wait" in told(laid(standing_job(), BOARD | TAIL))
    bare = standing_job(points={name: point for name, point in standing_job().points.items() if name not in FEET})
    assert "floating.feet_wait" not in told(laid(bare, BOARD | TAIL))


def test_what_is_heard_where_it_stands_narrows_the_window() -> None:
    """The bridge is its own trial: it stands where the sums have it, and is heard in tune."""
    strings = standing_job().strings
    assert strings is not None
    worked = replace(strings, compensation="worked out")
    heard = tuple(Heard(string=s.name, cents=0.0, trial="today", against="open") for s in strings.list)
    before = laid(standing_job(strings=worked))
    assert before.bridge is not None
    left, right = before.bridge.corners[:2]
    points = BOARD | TAIL | {"foot.left": left, "foot.right": right}
    deaf = laid(standing_job(strings=worked), points)
    cents = tuple(replace(one, cents=round(s.cents[12], 2)) for one, s in zip(heard, deaf.strings, strict=True))
    listened = laid(standing_job(strings=replace(worked, heard=cents)), points)
    assert listened.floating is not None
    assert deaf.floating is not None
    assert max(listened.floating.window) < 0.9 * max(deaf.floating.window)
    assert {string.compensation_from for string in listened.strings} == {"by ear"}


def test_what_is_heard_waits_for_its_feet() -> None:
    strings = standing_job().strings
    assert strings is not None
    heard = (Heard(string="1", cents=0.0, trial="today"),)
    found = told(laid(standing_job(strings=replace(strings, heard=heard)), BOARD | TAIL))
    assert found["heard.no_trial"].startswith("What was heard on the bridge as it stands today is not used yet")


STEPS = re.compile(r"^(Stand|Leave|Slide|Turn|Tune|Let)\b|[.:;] (stand|leave|slide|turn it|tune it)\b", re.IGNORECASE)


@pytest.mark.parametrize("by", [0j, 0.2 + 0j, -3 + 1j])
def test_no_finding_gives_the_orders_of_the_work(by: complex) -> None:
    """What may be done now Go or wait says, and how the steps of the work: a finding that did could gainsay both."""
    layout = laid(standing_job(), BOARD | TAIL | put(by, 0.0))
    found = [finding for finding in layout.findings if finding.code in ("floating.window", "floating.stands")]
    assert len(found) == 2
    for finding in found:
        assert not STEPS.search(finding.text), finding.text
    assert STEPS.search("It is off: leave it, and tune it by ear from there.")
