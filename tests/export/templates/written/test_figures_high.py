"""How high the plots of the job sheet are (all heights: common practice, no source)."""

from types import SimpleNamespace
from typing import Any

import pytest

from export.templates.written.job_figures import _high


@pytest.mark.parametrize(
    ("room", "rows", "high"),
    [
        (76.0, 1, 42.0),  # as high as they are beside other things, or as fills the page but for the 20 mm below
        (100.0, 1, 59.0),  # 100 − 13 − 20 − 8
        (60.0, 1, 39.0),  # 13 mm for the heading, 8 for a title
        (91.0, 2, 31.0),  # (91 − 13) / 2 − 8, just enough
    ],
)
def test_plots_take_what_room_a_page_has(room: float, rows: int, high: float) -> None:
    flow: Any = SimpleNamespace(room=room, ground=SimpleNamespace(height=280.0))
    assert _high(flow, rows, 20.0) == pytest.approx(high)


@pytest.mark.parametrize(
    ("page", "rows", "high"),
    [
        (280.0, 1, 108.0),
        (200.0, 2, 75.5),  # (200 − 13 − 20) / 2 − 8
        (133.0, 2, 42.0),
        (130.0, 2, 42.0),  # what would be lower stands as it does beside other things
    ],
)
def test_on_a_page_of_their_own_they_fill_it(page: float, rows: int, high: float) -> None:
    flow: Any = SimpleNamespace(room=51.0, ground=SimpleNamespace(height=page))
    assert _high(flow, rows, 20.0) == pytest.approx(high)
