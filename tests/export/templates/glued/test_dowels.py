"""Where holes for locating dowels are sought in a slot."""

from typing import Any

import pytest

from export.drawing.marks import XY
from export.templates.glued import dowels


def test_a_place_is_sought_from_near_an_end_to_four_tenths_of_the_slot(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every mm, the first 4 mm in; of the other half's dowel it keeps a fifth of the length away."""
    tried: list[XY] = []

    def occupied(_: object, at: XY, radius: float) -> bool:
        assert radius == 1.0
        tried.append(at)
        return len(tried) > 50

    nowhere: Any = None
    monkeypatch.setattr(dowels, "is_clear", occupied)
    assert dowels._first_clear(nowhere, (660.0, 30.0), (620.0, 0.0), 2.0) is None
    # derived: 50 mm along 4 to 3; the last place that is less than 20 mm in is 19
    assert tried[0] == pytest.approx((660.0 - 4 * 0.8, 30.0 - 4 * 0.6))
    assert tried[-1] == pytest.approx((660.0 - 19 * 0.8, 30.0 - 19 * 0.6))
    assert len(tried) == 16
