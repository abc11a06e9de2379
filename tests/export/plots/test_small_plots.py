"""Plots beside each other on a written page of small paper: no words on words, and none on lines."""

from itertools import combinations

import pytest

from export.drawing.marks import Line, Text
from export.drawing.typeface import text_box
from export.paper.furniture import marks_box
from export.plots import chain_of_doubt
from export.templates.written.job_figures import APART, LOW
from geometry.work_out import work_out
from tests.app.desk.conftest import sample

SMALL = ((132.0 - APART) / 2, LOW)
"""Half of A5 within its margins, derived, and the least that a plot is high, mm."""


@pytest.mark.parametrize("name", ["turned-left-old-slot", "small-askew", "floating-five", "slanted-separate"])
def test_the_words_of_the_chain_stand_apart_on_small_paper(name: str) -> None:
    """Its ticks ran into each other, and each row's words into the next row's; the letters reach half a mm below."""
    job = sample(name)
    plot = chain_of_doubt(job, work_out(job), SMALL)
    assert plot is not None
    words = [text_box(mark.shape).grown(-0.4) for mark in plot.drawing.marks if isinstance(mark.shape, Text)]
    lines = [marks_box([mark]) for mark in plot.drawing.marks if isinstance(mark.shape, Line)]
    assert len(words) > 8
    assert not [pair for pair in combinations(words, 2) if pair[0].meets(pair[1])]
    assert not [word for word in words for line in lines if line.grown(0.01).meets(word.grown(0.1))]
