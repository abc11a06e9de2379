"""What margin a bridge that lies off across leaves the outer strings."""

import pytest

from geometry.layout import Layout
from geometry.proof import prove
from geometry.proof.margin_left import MarginLeft
from geometry.work_out import work_out
from tests.geometry.go_or_wait.test_what_if import sample
from tests.geometry.proof.proof_read import read


def left(name: str, across: float) -> tuple[Layout, MarginLeft]:
    """The plan, and what is left by a bridge that lies so far to the left (mm), read without error."""
    job = sample(name)
    found = prove(read(job, across * 1j), "clamped")
    assert found is not None
    assert found.margin is not None
    return work_out(job), found.margin


@pytest.mark.parametrize("name", ["leaning-neck", "turned-left", "slotted-neck-screw"])
@pytest.mark.parametrize("across", [1.0, -1.0])
def test_a_string_goes_aside_in_proportion(name: str, across: float) -> None:
    """derived: by similar triangles, a string that is fixed at the nut goes aside at the board's end by the share of
    its length that lies before it
    """
    layout, found = left(name, across)
    assert (found.place, found.side) == ("board end", "left" if across > 0 else "right")
    assert layout.margins is not None
    planned = next(m for m in layout.margins.at if (m.place, m.side) == (found.place, found.side))
    outer = layout.strings[0 if planned.string_xy[1] * layout.strings[0].break_point[1] > 0 else -1]
    share = planned.string_xy[0] / outer.break_point[0]
    assert found.was == pytest.approx(planned.mm, abs=1e-9)
    assert found.nearer == pytest.approx(1.0, abs=0.02)
    assert found.mm == pytest.approx(planned.mm - share * abs(across), abs=0.02)
    assert found.pm95 > planned.pm95


def test_where_it_belongs_it_leaves_what_was_to_be() -> None:
    layout, found = left("leaning-neck", 0.0)
    assert layout.margins is not None
    assert found.mm == pytest.approx(min(m.mm for m in layout.margins.at if m.place == "board end"), abs=1e-6)
    assert not found.short


def test_a_bridge_that_is_not_where_it_belongs_tells_no_margin() -> None:
    found = prove(read(sample("leaning-neck"), 3j), "clamped")
    assert found is not None
    assert found.cause == "slipped"
    assert found.margin is None
    assert found.wrong
