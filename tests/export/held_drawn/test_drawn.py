"""All templates of the sample jobs, held against what was drawn when they were last looked at.

The figures are the program's own: they show that a drawing has changed, and not that it is right. After a change that
is meant, `python -m tests.export.held_drawn` keeps them anew and tells which moved; look at each of these as a picture.
"""

import pytest
from msgspec.structs import replace

from export.templates import TEMPLATES
from tests.export.held_drawn import drawn_sums
from tests.export.held_drawn.drawn_sums import FILE, names, sums_of
from tests.geometry.held.keeping import different, kept


@pytest.mark.parametrize("name", kept(FILE))
def test_drawn(name: str) -> None:
    assert different(sums_of(name), kept(FILE)[name]) == {}


def test_all_that_is_held_is_still_drawn() -> None:
    assert set(kept(FILE)) <= set(names())


def test_each_template_is_held_of_one_job_at_least() -> None:
    assert {name.rpartition(": ")[2] for name in kept(FILE)} == {*TEMPLATES, "stock", "for machines", "parts", "notes"}


def test_the_comparison_can_fail(monkeypatch: pytest.MonkeyPatch) -> None:
    """A slot that lies 0.01 mm farther along is seen in its own template, and in no other purpose than its own."""
    job, layout = drawn_sums.job_and_layout("leaning-neck")
    assert layout.saddle is not None
    (x, y), *others = layout.saddle.slot
    moved = replace(layout, saddle=replace(layout.saddle, slot=((x + 0.01, y), *others)))
    monkeypatch.setattr(drawn_sums, "job_and_layout", lambda _: (job, moved))
    name = "leaning-neck: bridge"
    assert "route" in different(sums_of(name), kept(FILE)[name])
