"""What the strings block refuses, in one sentence each."""

import pytest

from geometry.job import Action, Heights, NotAJob, String, Strings
from tests.in_one import in_one


@in_one(
    ("diameter", "says"),
    [
        ("0.3 in", "String 1, the diameter, is 0.3 in, thicker than any string; if 0.3 mm was meant, write the unit"),
        ('0.3"', 'String 1, the diameter, is 0.3", thicker than any string; if 0.3 mm was meant, write the unit'),
        ("0.012 mm", "is 0.012 mm, thinner than any string; if 0.012 in was meant, write the unit"),
        (0.053, "is 0.053 mm, thinner than any string; if 0.053 in was meant, write the unit"),
        (12, "is 12 mm; if thousandths of an inch were meant, write 0.012 in"),
        ("53 mm", "is 53 mm; if thousandths of an inch were meant, write 0.053 in"),
        # derived: 0.1575 in are 4.0005 mm; 157 and 158 thousandths of an inch are 3.988 and 4.013 mm
        ("4 in", "is 4 in, thicker than any string; if 4 mm was meant"),
        ("4.1 in", "is 4.1 in; if thousandths of an inch were meant, write 0.0041 in"),
        (0.099, "is 0.099 mm, thinner than any string; if 0.099 in was meant"),
        (4.05, "is 4.05 mm; if thousandths of an inch were meant, write 0.00405 in"),
        (157, "is 157 mm; if thousandths of an inch were meant, write 0.157 in"),
        (158, "is 158 mm, but must lie between 0.1 and 4 mm"),
        (1000, "is 1000 mm, but must lie between 0.1 and 4 mm"),
        ("9 cm", "is 9 cm, but must lie between 0.01 and 0.4 cm"),
        ("0.012", "has no unit"),
        (float("nan"), "is not a length"),
    ],
)
def test_a_diameter_in_the_wrong_unit_is_recognised(diameter: float | str, says: str) -> None:
    with pytest.raises(NotAJob) as refused:
        String(name="1", diameter=diameter)
    assert says in str(refused.value)


@pytest.mark.parametrize("diameter", ["0.012 in", "0.3 mm", 0.3, "1.35 mm", '0.053"'])
def test_a_diameter_that_can_be_is_kept_as_typed(diameter: float | str) -> None:
    assert String(name="1", diameter=diameter).diameter == diameter


def test_a_pitch_that_is_not_one() -> None:
    with pytest.raises(NotAJob, match="String 3: “H4” is not a pitch; write a note with its octave"):
        String(name="3", pitch="H4")


def test_a_core_thicker_than_the_string() -> None:
    with pytest.raises(NotAJob, match="String 6: its core is thicker than the string"):
        String(name="6", build="wound", diameter="0.053 in", core="0.060 in")


def test_thirteen_strings() -> None:
    with pytest.raises(NotAJob, match="The job has 13 strings; 1 to 12 can be laid out"):
        Strings(list=tuple(String(name=str(i)) for i in range(13)))


def test_an_action_no_hand_could_fret() -> None:
    with pytest.raises(NotAJob, match="The action at fret 12 is 25 mm"):
        Action(fret1=(0.5, 0.5), fret12=(2.0, 25))


def test_heights_are_not_measured_until_they_are_typed() -> None:
    assert Strings().height is None
    assert Strings(height=Heights()).height == Heights(nut=1.0, saddle=4.0)
