"""How well heights over the frets are known that were read, and those that were not."""

import numpy as np
import pytest
from msgspec.structs import replace

from geometry.placed.place_everything import place_everything
from geometry.saddle.heights.read_heights import action_sd
from geometry.survey import survey
from tests.geometry.go_or_wait.test_what_if import sample


@pytest.mark.parametrize("left_out", ["fret 1", "fret 12"])
def test_of_a_height_that_was_not_read_nothing_is_uncertain(left_out: str) -> None:
    job = sample("leaning-neck")
    read = tuple(one for one in job.readings if one.at != left_out)
    assert len(read) < len(job.readings)
    job = replace(job, readings=read)
    sd = action_sd(place_everything(job, survey(job)).states)
    none = 0 if left_out == "fret 1" else 1
    assert np.array_equal(sd[none], [0.0, 0.0])
    assert (sd[1 - none] > 0.05).all()
