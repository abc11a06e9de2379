"""Where the letters on a bridge's wings stand."""

import pytest

from export.templates.glued.bridge import _Wing


def test_a_place_on_a_wing_is_so_far_back_and_so_far_in() -> None:
    """Derived: 5 mm along (0.8, 0.6) and 10 mm along (−0.6, 0.8) from (1, 2)."""
    assert _Wing((1.0, 2.0), (0.8, 0.6), (-0.6, 0.8), 26.0).at(5.0, 10.0) == pytest.approx((-1.0, 13.0))
