"""What is laid by a sheet is weighed as the sheet carries it; a bridge that strings alone hold, as it stands."""

import numpy as np
import pytest

from geometry.advice.weighing import Weighing
from geometry.placed.place_everything import place_everything
from geometry.saddle.saddle_line import beyond_sheet
from geometry.work_out import lay_out
from tests.geometry.held.changed_jobs import as_made, surveyed


@pytest.mark.parametrize(
    ("name", "by_sheet"), [("five-pairs", True), ("slanted-separate", True), ("floating-five", False)]
)
def test_the_saddle_follows_the_readings_as_what_it_is_laid_by_does(name: str, by_sheet: bool) -> None:
    job = as_made(name)
    placed = place_everything(job, surveyed(name))
    seen = Weighing(job, lay_out(job, surveyed(name)), placed)
    assert placed.neck is not None
    assert placed.saddle is not None
    if not by_sheet:
        assert seen.by_sheet is seen.saddle
        return
    carried = seen._follows(beyond_sheet(placed.neck.frame, placed.saddle.line))
    assert np.array_equal(seen.by_sheet, carried)
    assert not np.allclose(seen.by_sheet, seen.saddle)
