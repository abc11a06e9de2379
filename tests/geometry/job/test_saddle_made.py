"""A saddle that cannot be made so is refused in one sentence: what, where, the mend."""

import pytest

from geometry.job import Bridge, Floating, Job, NotAJob, Pins, Saddle, Separate, SlotFront, String, Strings, TieBlock
from tests.in_one import in_one

THREE = Strings(list=tuple(String(name=name) for name in "123"))


@in_one(
    ("saddle", "more", "says"),
    [
        (Saddle(made="three"), {"strings": Strings(list=THREE.list[:2])}, "needs 3 strings, and the job has 2"),
        (Saddle(made="two", splits=("9",)), {"strings": THREE}, "after the string “9”, which is not in the list"),
        (Saddle(made="two", splits=("1", "2")), {"strings": THREE}, "is parted after 1 string, but 2 are named"),
        (Saddle(made="three", splits=("2", "1")), {"strings": THREE}, "not in the order of the list"),
        (Saddle(made="three", splits=("1", "1")), {"strings": THREE}, "leaves a piece without a string"),
        (Saddle(made="two", splits=("3",)), {"strings": THREE}, "After the last string, “3”, there is none"),
        (Saddle(made="each", splits=("1",)), {"strings": THREE}, "its splits are known; take them out"),
        (Saddle(splits=("1",)), {"strings": THREE}, "is one piece, but places to part it are given"),
        (Saddle(made="two"), {"floating": Floating()}, "needs slots in a glued bridge"),
        (Saddle(made="steps"), {"separate": Separate()}, "has a saddle of its own on its base"),
        (Saddle(made="two"), {"bridge": Bridge(slot_front=SlotFront(left=5, right=5))}, "has one slot that is cut"),
    ],
)
def test_what_cannot_be_made(saddle: Saddle, more: dict[str, object], says: str) -> None:
    with pytest.raises(NotAJob, match=says) as refused:
        Job(saddle=saddle, **more)  # type: ignore[arg-type]  # blocks of a job
    assert str(refused.value).count(". ") == 0


def test_before_the_strings_are_told_any_can_be_asked_for() -> None:
    assert Job(saddle=Saddle(made="three", splits=("1", "2"))).saddle is not None


def test_pins_and_a_tie_block_exclude_each_other() -> None:
    with pytest.raises(NotAJob, match="both pins and a tie block, and strings end in one of them; take out the other"):
        Bridge(pins=Pins(), tie=TieBlock())


@pytest.mark.parametrize(
    "fields",
    [{"hole": 9.0}, {"hole": 8.5, "hole_from": "top"}, {"holes": 2, "below": 4.6}, {"holes": 3}],
)
def test_holes_outside_the_block(fields: dict[str, object]) -> None:
    with pytest.raises(NotAJob, match="tie holes"):
        TieBlock(**fields)  # type: ignore[arg-type]  # what a file may hold


def test_the_holes_height_from_either_side() -> None:
    assert TieBlock(height=9.0, hole=4.0).over_bottom == 4.0
    assert TieBlock(height=9.0, hole=4.0, hole_from="top").over_bottom == 5.0
