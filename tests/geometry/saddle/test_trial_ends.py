"""Where a trial saddle lies that is the floating bridge itself, on made-up points."""

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from geometry.job import Job, Saddle
from geometry.job.bridges.floating import STANDS, TODAY, Floating
from geometry.saddle.trial_ends import trial_ends

FLOATING = Floating(width=12.0, front_to_crown=5.0)


def ends(at: tuple[complex, complex], job: Job, name: str = TODAY, known: tuple[str, ...] = STANDS) -> Any:
    states: Any = SimpleNamespace(has=lambda *names: set(names) <= set(known))
    frame: Any = SimpleNamespace(see=lambda _, *names: np.array([at[: len(names)]] * 2))
    return trial_ends(job, states, frame, name)


@pytest.mark.parametrize(("peak_at", "back"), [(0.0, 3.0), (0.5, 5.0), (1.0, 7.0)])
def test_a_bridge_that_stands_is_a_trial_by_its_feet(peak_at: float, back: float) -> None:
    """derived: the crown's middle stands 5 mm behind the feet's front, its peak up to half of 4 mm before or behind
    that; of feet turned as 3 to 4, it lies so far square to them.
    """
    job = Job(floating=FLOATING, saddle=Saddle(thickness=4.0, peak_at=peak_at))
    left, right = ends((600 + 30j, 600 - 30j), job)
    assert left[:, 0].tolist() == pytest.approx([600 + back + 30j] * 2)
    assert right[:, 0].tolist() == pytest.approx([600 + back - 30j] * 2)
    turned, _ = ends((636 + 48j, 600 + 0j), job)
    assert turned[0, 0] == pytest.approx(636 + 48j + back * (0.8 - 0.6j))


def test_it_is_one_only_where_its_feet_are_known() -> None:
    feet = (600 + 30j, 600 - 30j)
    assert ends(feet, Job(floating=FLOATING), known=()) is None
    assert ends(feet, Job(floating=FLOATING), name="1") is None
    assert ends(feet, Job()) is None
    left, right = ends(feet, Job(), name="1", known=("trial.1.left", "trial.1.right"))
    assert (left[0, 0], right[0, 0]) == feet
