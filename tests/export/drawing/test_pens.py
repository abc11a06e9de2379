"""How dashes fall on what is drawn."""

import math

import pytest

from export.drawing.marks import Circle, Line, Mark, Purpose
from export.drawing.pens import PENS, SHORTENED, dashes_of
from tests.in_one import in_one


def straight(purpose: Purpose, length: float) -> tuple[float, ...]:
    """The dashes of a line that long, at 30 degrees."""
    end = (length * math.cos(math.pi / 6), length * math.sin(math.pi / 6))
    return dashes_of(Mark(shape=Line((0.0, 0.0), end), purpose=purpose))


@in_one("purpose", ["centre", "before", "kept", "hidden"])
@in_one("length", [16.0, 22.0, 31.7, 60.0, 333.3])
def test_a_line_begins_and_ends_in_a_whole_dash(purpose: Purpose, length: float) -> None:
    """derived: all runs and one dash more are as long as the line (ISO 128-2: a line ends in a dash)."""
    dashes = straight(purpose, length)
    over = (length - dashes[0]) / sum(dashes)
    assert over == pytest.approx(round(over))
    assert over > 0.5
    usual = PENS[purpose].dashes
    shares = [found / dash for found, dash in zip(dashes, usual, strict=True)]
    assert shares == pytest.approx([shares[0]] * len(usual))
    assert SHORTENED <= shares[0] < 1.5


@pytest.mark.parametrize("length", [14.0, 22.0, 40.0])
def test_a_short_centre_line_has_a_dash_in_its_middle(length: float) -> None:
    """Where it crosses another in a hole's middle, which is pricked there."""
    dashes = straight("centre", length)
    at = (length / 2) % sum(dashes)
    assert at < dashes[0]


@pytest.mark.parametrize(("purpose", "length"), [("centre", 10.8), ("centre", 13.5), ("before", 9.0), ("hidden", 2.9)])
def test_a_line_too_short_for_its_dashes_is_continuous(purpose: Purpose, length: float) -> None:
    """A cross in a hole of 8 mm is 10.8 mm: it ended in a gap and a dot."""
    assert straight(purpose, length) == ()


def test_what_is_continuous_stays_so() -> None:
    assert straight("lay", 50.0) == ()


def test_dashes_close_round_a_circle() -> None:
    dashes = dashes_of(Mark(shape=Circle((0.0, 0.0), 4.0), purpose="before"))
    over = math.tau * 4.0 / sum(dashes)
    assert over == pytest.approx(3.0)
