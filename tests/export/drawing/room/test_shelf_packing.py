"""Rectangles on shelves: never over each other, never over the edge."""

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from export.drawing.room.shelf_packing import Laid, packed

EITHER = (False, True)
side = st.floats(5.0, 160.0)


@given(sizes=st.lists(st.tuples(side, side), min_size=1, max_size=4), gap=st.floats(0.0, 12.0))
def test_nothing_overlaps(sizes: list[tuple[float, float]], gap: float) -> None:
    laid = packed(sizes, (300.0, 300.0), gap, [EITHER] * len(sizes))
    if laid is None:
        return
    boxes = []
    for (wide, high), at in zip(sizes, laid, strict=True):
        w, h = (high, wide) if at.turned else (wide, high)
        assert at.x >= gap
        assert at.y >= gap
        assert at.x + w + gap <= 300.0
        assert at.y + h + gap <= 300.0
        boxes.append((at.x, at.y, at.x + w, at.y + h))
    for a, b in combinations(boxes, 2):
        apart = max(b[0] - a[2], a[0] - b[2], b[1] - a[3], a[1] - b[3])
        assert apart >= gap - 1e-9


def test_one_beside_the_other_then_a_new_shelf() -> None:
    """derived: 60 + 5 + 30 + 10 fill 105; the third begins a shelf above the highest, 5 + 40 + 5."""
    laid = packed([(60.0, 40.0), (30.0, 20.0), (50.0, 10.0)], (105.0, 70.0), 5.0, [(False,)] * 3)
    assert laid == [Laid(5.0, 5.0, False), Laid(70.0, 5.0, False), Laid(5.0, 50.0, False)]


def test_it_fits_exactly_or_not_at_all() -> None:
    assert packed([(60.0, 40.0)], (70.0, 50.0), 5.0, [(False,)]) is not None
    assert packed([(60.0, 40.0)], (69.9, 50.0), 5.0, [(False,)]) is None
    assert packed([(60.0, 40.0)], (70.0, 49.9), 5.0, [(False,)]) is None


def test_it_is_turned_only_where_it_may_be() -> None:
    assert packed([(60.0, 20.0)], (40.0, 80.0), 5.0, [(False,)]) is None
    assert packed([(60.0, 20.0)], (40.0, 80.0), 5.0, [EITHER]) == [Laid(5.0, 5.0, True)]
