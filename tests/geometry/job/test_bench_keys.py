"""Keys for the bench: a pin's small end, a piece of stock."""

import msgspec
import pytest

from geometry.job import NotAJob, Pins
from geometry.job.sheets import Sheets


def test_a_small_end_may_be_as_thick_as_the_hole_and_no_thicker() -> None:
    assert Pins(diameter=5.0, small_end=5.0).small_end == 5.0
    with pytest.raises(NotAJob, match=r"small end of 5\.01 mm is thicker than their holes of 5 mm"):
        Pins(diameter=5.0, small_end=5.01)


def test_stock_takes_lengths_with_units() -> None:
    read = msgspec.json.decode(b'{"stock": ["12 in", 120], "grain": "along width"}', type=Sheets)
    assert list(read.stock or ()) == ["12 in", 120]
    assert msgspec.json.decode(msgspec.json.encode(read), type=Sheets) == read
    assert read.stock == ("12 in", 120)


def test_what_is_left_out_is_not_written() -> None:
    assert msgspec.json.encode(Sheets()) == b"{}"
    assert msgspec.json.encode(Pins()) == b"{}"


def test_a_grain_that_is_none_is_refused() -> None:
    with pytest.raises(msgspec.ValidationError):
        msgspec.json.decode(b'{"grain": "sideways"}', type=Sheets)
