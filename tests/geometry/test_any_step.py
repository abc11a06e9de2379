"""What is placed does not hang on how far the unknowns are moved to see what hangs on them: the first of the perturbed
states is the result, and no other one is ever taken for it.
"""

from collections.abc import Iterator
from typing import Any

import msgspec
import numpy as np
import pytest

from geometry import perturbed_states
from geometry.layout import Layout
from geometry.work_out import lay_out
from tests.geometry.held.changed_jobs import NAMES, as_made, surveyed
from tests.geometry.held.sums import numbers_in

FAR = 0.2
"""mm. Two hundred times as far as the program moves them; what bends in an instrument bends too little to show yet."""
ALIKE = 5e-4
"""mm. A ± is found from differences, whose error is of the step's square."""


def numbers(name: str) -> Iterator[float]:
    """All numbers of a layout; walls, of which some are equal, in the order of what is beside them."""
    layout: Layout = lay_out(as_made(name), surveyed(name))
    plain: dict[str, Any] = msgspec.to_builtins(layout, str_keys=True)
    if plain["separate"]:
        plain["separate"]["walls"] = sorted(plain["separate"]["walls"], key=lambda wall: (wall["new"], wall["old"]))
    return numbers_in(plain)


@pytest.mark.parametrize("name", NAMES)
def test_all_that_is_placed_is_of_the_first_state(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    before = list(numbers(name))
    monkeypatch.setattr(perturbed_states, "STEP", FAR)
    after = list(numbers(name))
    assert len(after) == len(before)
    assert np.abs(np.subtract(after, before)).max() < ALIKE
