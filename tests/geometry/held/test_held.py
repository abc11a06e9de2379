"""What each of many changes changes in what is worked out, held against what it changed when that was last looked at.

The figures are the program's own: they show that something has changed, and not that it is right, which is held
elsewhere by values that are derived. After a change that is meant, `python -m tests.geometry.held` keeps them anew and
tells what moved; each must be meant.
"""

import pytest

from tests.geometry.held import sums
from tests.geometry.held.beside_the_layout import ALL
from tests.geometry.held.changed_jobs import NAMES, changes
from tests.geometry.held.changed_sums import FILE, sums_of
from tests.geometry.held.keeping import different, kept


@pytest.mark.parametrize("name", [*NAMES, *ALL])
def test_a_job_as_it_is(name: str) -> None:
    assert different(sums_of(name), kept(FILE)[name]) == {}


@pytest.mark.parametrize("change", [change for change in changes() if change in kept(FILE)])
def test_what_a_change_changes(change: str) -> None:
    assert different(sums_of(change), kept(FILE)[change]) == {}


def test_each_change_that_is_kept_is_still_made() -> None:
    assert [name for name in kept(FILE) if name not in {*changes(), *NAMES, *ALL}] == []


def test_the_comparison_can_fail() -> None:
    """Other numbers, as many numbers in another order, and one number more are told apart; a better sentence is not."""
    before = sums.whole([1.0, 2.0, {"a": 3.0}])
    assert not sums.alike(before, sums.whole([1.0, 2.0, {"a": 3.01}]))
    assert not sums.alike(before, sums.whole([2.0, 1.0, {"a": 3.0}]))
    assert not sums.alike(before, sums.whole([1.0, 2.0, {"a": 3.0}, 0.0]))
    assert sums.whole("2.5 mm at the bass side") != sums.whole("2.5 mm at the treble side")
    assert sums.whole("2.5 mm to go") == sums.whole("another 2.5 mm")
    assert different({"a": 1.0}, {"a": 1.0, "b": None}) == {}
    assert different({"a": 1.0, "c": 1.0}, {"a": 1.01, "b": 1.0}) == {
        "a": (1.0, 1.01),
        "c": (1.0, None),
        "b": (None, 1.0),
    }
