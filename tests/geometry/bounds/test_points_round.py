"""Points round the body whose numbers do not go round it: said, and nothing compared with them."""

from geometry.job import Old, OldHole
from geometry.layout import Layout
from tests.geometry.made import BOARD
from tests.geometry.old_work.everything import laid, told

ROUND = ((560.0, 196.0), (760.0, 180.0), (800.0, 0.0), (760.0, -180.0), (560.0, -196.0), (420.0, 0.0))


SCREW = Old(holes={"screw": OldHole(diameter=4.0)})


def with_round(kind: str, order: tuple[int, ...]) -> Layout:
    ring = {f"{kind}.{n + 1}": ROUND[at] for n, at in enumerate(order)}
    return laid(BOARD | ring | {"screw": (660.0, 260.0)}, SCREW)


def test_two_points_of_the_body_that_changed_their_numbers_are_told_and_it_is_compared_with_nothing() -> None:
    right, wrong = with_round("body", (0, 1, 2, 3, 4, 5)), with_round("body", (0, 2, 1, 3, 4, 5))
    assert len(told(right).wings) == 2
    assert {one.against for one in told(right).seen} == {"body"}
    assert not told(wrong).wings
    assert not told(wrong).seen
    assert "body.crossed" not in {finding.code for finding in right.findings}
    (said,) = [finding for finding in wrong.findings if finding.code == "body.crossed"]
    assert said.grade == "look"
    # derived: the second and third have changed places, so the sides into and out of the pair are the two that cross
    assert "the line from body outline 1 to body outline 2 crosses the line from body outline 3 to body outline 4" in (
        said.text
    )


def test_a_hole_outside_is_not_judged_by_points_out_of_order() -> None:
    right, wrong = with_round("body", (0, 1, 2, 3, 4, 5)), with_round("body", (0, 2, 1, 3, 4, 5))
    assert "old.off_top" in {finding.code for finding in right.findings}
    assert "old.off_top" not in {finding.code for finding in wrong.findings}


def test_points_round_a_sound_hole_as_well() -> None:
    assert "soundhole.crossed" in {finding.code for finding in with_round("soundhole", (0, 2, 1, 3, 4, 5)).findings}
