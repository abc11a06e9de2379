"""What is drawn of faulty jobs, held against what was drawn when it was last looked at.

As with all that is held, the figures are the program's own: they show that something has changed. After a change that
is meant, `python -m tests.export.held_faulty` keeps them anew and tells what moved; look at each of these as a picture.
"""

import pytest

from tests.export.held_drawn.drawn_sums import LONG, TAPED_ON
from tests.export.held_faulty.faulty_drawn import FILE, sums_of
from tests.geometry.held.keeping import different, kept


@pytest.mark.parametrize("name", kept(FILE))
def test_drawn(name: str) -> None:
    assert different(sums_of(name), kept(FILE)[name]) == {}


def test_a_name_tells_what_is_drawn_of_which_job() -> None:
    """Of the left hand's, what lies on a side is another; of a change that is refused nothing is drawn."""
    here, there = (sums_of(f'parts of one-slip: hand = "{hand}"') for hand in ("left", "gone"))
    assert here["nut-slots"] != there["nut-slots"]
    assert not {*here} & {*TAPED_ON, *LONG}
    assert {*sums_of('bridge of one-slip: hand = "left"')} >= {"route", "cut"}
