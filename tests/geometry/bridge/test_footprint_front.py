"""The front edge of an old footprint is one edge, at however many points it was read."""

import cmath

import numpy as np
import pytest

from geometry.bridge.footprint_front import front_of
from geometry.job import Old
from geometry.proof.moved import moved_by
from geometry.work_out import lay_out
from tests.geometry.made import BOARD, XY, bridge, job, scales, six, surveyed
from tests.in_one import in_one

CORNERS = [632 + 76j, 632 - 76j, 658 - 76j, 658 + 76j]
MORE = [632 + 76j, 632 + 45j, 632 - 76j, 658 - 76j, 658 + 76j]
"""The same with one more point a fifth along its front."""
BACK = [632 + 76j, 632 - 76j, 656 - 76j, 661 - 30j, 663 + 0j, 661 + 30j, 656 + 76j]
"""A back that bends out in its middle."""
ROUNDED = [632 + 74j, 632 - 74j, 634 - 76j, 658 - 76j, 658 + 76j, 633 + 76j, 632.3 + 75.7j]
NOTCHED = [632 + 76j, 632 + 10j, 632.4 + 10j, 632.4 - 10j, 632 - 10j, 632 - 76j, 658 - 76j, 658 + 76j]
"""A chip of 0.4 mm out of the middle of the front."""


@in_one("ring", [CORNERS, MORE, BACK, CORNERS[:3]])
@in_one("turn", [-0.2, 0.0, 0.2])
@in_one("step", [1, -1])
def test_the_front_runs_from_wing_to_wing(ring: list[complex], turn: float, step: int) -> None:
    """derived: the front's ends are 632 ± 76j, so its middle is 632 and it runs along 1j; all turned"""
    spin = cmath.exp(1j * turn)
    front = front_of(np.array([ring[::step], [at + 1 for at in ring[::step]]]) * spin)
    assert front.middle.tolist() == pytest.approx([632 * spin, 633 * spin])
    assert front.leftward.tolist() == pytest.approx([1j * spin] * 2)


def test_rounded_wings_and_a_chip_are_no_ends() -> None:
    """derived: of the rounding only what faces the nut more than the wing counts; a chip of 0.4 mm over two of six
    points alike to both sides brings the line back by 0.4 · 2/6"""
    assert front_of(np.array([ROUNDED])).middle[0] == pytest.approx(632 + 0j, abs=1.0)
    assert front_of(np.array([NOTCHED])).middle[0] == pytest.approx(632 + 0.4 / 3 + 0j)


@pytest.mark.parametrize("ring", [CORNERS, MORE])
def test_a_bridge_on_its_old_footprint_stands_on_it_and_has_not_moved(ring: list[complex]) -> None:
    """derived: the front of either outline has its middle at (632, 0) and stands square"""
    foot: dict[str, XY] = {f"foot.{n}": (at.real, at.imag) for n, at in enumerate(ring)}
    points = BOARD | foot
    made = job(points, strings=six(2.0, 2.0), bridge=bridge(seat="old footprint"), old=Old(outline=tuple(foot)))
    found = surveyed(points, scales(640.0, 640.0))
    plan = lay_out(made, found).bridge
    assert plan is not None
    (lx, ly), (rx, ry), *_ = plan.corners
    assert ((lx + rx) / 2, (ly + ry) / 2) == pytest.approx((632.0, 0.0))
    assert plan.turn == pytest.approx(0.0, abs=1e-9)
    gone = moved_by(made, found)
    assert gone is not None
    assert (gone.along, gone.across, gone.turn) == pytest.approx((0.0, 0.0, 0.0), abs=1e-6)
