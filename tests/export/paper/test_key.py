"""What the key to a sheet's lines names."""

import pytest

from export.drawing.dimension import cross
from export.drawing.marks import Circle, Mark, Text
from export.paper.furniture import legends_of, purposes_of


@pytest.mark.parametrize(("wide", "named"), [(6.0, False), (16.0, True)])
def test_the_key_has_centre_lines_only_where_one_is_dashed(wide: float, named: bool) -> None:
    """derived: the cross of a hole of 6 mm is 8.8 mm long and continuous, that of one of 16 mm is 18.8 mm."""
    hole = Mark(shape=Circle((0.0, 0.0), wide / 2), purpose="drill")
    marks = (hole, *cross((0.0, 0.0), wide / 2 + 1.4, "centre"))
    assert ("centre" in purposes_of(marks)) is named
    assert "drill" in purposes_of(marks)


@pytest.mark.parametrize(("of", "says"), [(("bridge",), "the bridge’s edge"), (("bridge", "slot"), "hidden")])
def test_the_key_calls_dashes_the_bridges_edge_where_they_are_nothing_else(of: tuple[str, ...], says: str) -> None:
    """On the mask of the clearing the edge is drawn outside what is cut, and hides nowhere."""
    marks = tuple(Mark(shape=Circle((0.0, 0.0), 30.0), purpose="hidden", of=name) for name in of)
    assert [mark.shape.text for mark in legends_of(marks)[0].marks if isinstance(mark.shape, Text)] == [says]
