"""The words on the plans of all sample jobs, whichever way the plan is turned: none lies on another."""

from collections.abc import Iterator
from itertools import combinations, product
from pathlib import Path

import pytest

from app.file import job_file, samples
from export.drawing.flatten import Box
from export.drawing.marks import Text
from export.drawing.typeface import text_corners
from export.plan import USUAL_OVERLAYS, Overlay, PlanView, compose
from tests.export.sample_pages import laid

VIEWS = list(product(range(4), (False, True)))
"""Quarter turns, and whether it is seen from inside."""


def boxes(path: Path, view: PlanView) -> Iterator[tuple[str, Box]]:
    """The words on a plan, each with its box as it is seen, in paper mm."""
    for mark in compose(*laid(job_file.name_of(path)), view).marks:
        if isinstance(mark.shape, Text):
            xs, ys = zip(*(view.seen(at) for at in text_corners(mark.shape, view.scale)), strict=True)
            yield mark.shape.text, Box(min(xs), min(ys), max(xs), max(ys))


@pytest.mark.parametrize("scale", [0.1, 0.2, 0.27, 0.45, 0.8, 1.6])
@pytest.mark.parametrize("path", samples.paths(), ids=lambda path: path.name.partition(".")[0])
def test_no_words_lie_on_each_other(path: Path, scale: float) -> None:
    """A third of a millimetre of overlap is the room above small letters."""
    more: frozenset[Overlay] = frozenset(("ellipses", "opposite slant"))
    crossed = []
    for (turn, inside), reading in product(VIEWS, ("", laid(job_file.name_of(path))[0].readings[2].id)):
        view = PlanView(scale=scale, turn=turn, inside=inside, overlays=USUAL_OVERLAYS | more, reading=reading)
        shown = [(words, box.grown(-0.35)) for words, box in boxes(path, view)]
        assert len(shown) >= 3
        crossed += [
            (turn, inside, reading, one, other)
            for (one, its), (other, others) in combinations(shown, 2)
            if its.meets(others)
        ]
    assert crossed == []
