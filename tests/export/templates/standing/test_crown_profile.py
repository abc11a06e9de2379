"""The names and heights over a crown's profile stand in two rows where strings are close (heights: ours, no source)."""

import pytest
from msgspec.structs import replace

from export.drawing.marks import Text
from export.templates.standing.crown_profile import front
from geometry.work_out import lay_out
from tests.geometry.held.changed_jobs import as_made, surveyed


@pytest.mark.parametrize(("apart", "second"), [(1.0, 0.0), (0.4, 6.8)])
def test_close_strings_are_named_in_two_rows(apart: float, second: float) -> None:
    """A row of names is 3.4 mm, and so is one of heights below it: the next pair begins 6.8 mm higher (derived)."""
    job = as_made("floating-five")
    floating = lay_out(job, surveyed("floating-five")).floating
    assert floating is not None
    crown = floating.heights
    assert crown is not None
    closer = tuple(
        replace(one, along=crown.length / 2 + apart * (one.along - crown.length / 2)) for one in crown.strings
    )
    drawn = [mark.shape for mark in front(job, replace(crown, strings=closer), (0.0, 0.0))]
    names = {text.text: text.at[1] for text in drawn if isinstance(text, Text) and text.bold}
    first, *others = sorted(names[one.string] for one in crown.strings)
    assert others[-1] - first == pytest.approx(second)
