"""What the key to a sheet's lines names."""

import pytest

from export.drawing.dimension import cross
from export.drawing.marks import Circle, Mark
from export.paper.furniture import purposes_of


@pytest.mark.parametrize(("wide", "named"), [(6.0, False), (16.0, True)])
def test_the_key_has_centre_lines_only_where_one_is_dashed(wide: float, named: bool) -> None:
    """derived: the cross of a hole of 6 mm is 8.8 mm long and continuous, that of one of 16 mm is 18.8 mm."""
    hole = Mark(shape=Circle((0.0, 0.0), wide / 2), purpose="drill")
    marks = (hole, *cross((0.0, 0.0), wide / 2 + 1.4, "centre"))
    assert ("centre" in purposes_of(marks)) is named
    assert "drill" in purposes_of(marks)
