"""All that is told of each sample job, and of the full one: each point with its ±, each string, each check distance,
each finding in words, what may be done and what must wait, what to read next, and where else the bridge might go.
"""

import pytest

from tests.export.golden_drawings import RECORD
from tests.pinned import jobs, kept, told

FEW = ("bolted-left", "turned-left-old-slot", "small-four", "small-askew", jobs.FULL)
EACH = [
    *((name, part) for name in (*jobs.NAMES, jobs.FULL) for part in told.PARTS),
    *((name, part) for name in FEW for part in told.SLOW),
]


@pytest.mark.parametrize(("name", "part"), EACH)
def test_all_that_is_told(name: str, part: str) -> None:
    found = (told.PARTS | told.SLOW)[part](jobs.job(name), jobs.layout(name))
    assert kept.differences(f"{name}/{part}", found) == []


@pytest.mark.parametrize("hand", ["right", "left"])
def test_the_measuring_lists(hand: str) -> None:
    name = {"right": "leaning-neck", "left": "turned-left"}[hand]
    assert kept.differences(f"lists, {hand}", told.lists_of(jobs.job(name))) == []


def test_a_hundredth_of_a_millimetre_is_seen() -> None:
    found = told.layout_of(jobs.job("tie-bridge"), jobs.layout("tie-bridge"))
    place = dict(found["points.old.1"])
    for moved, differ in ((1e-6, 0), (0.01, 1)):
        changed = found | {"points.old.1": place | {"x": place["x"] + moved}}
        if not RECORD:
            assert len(kept.differences("tie-bridge/layout", changed)) == differ


def test_what_is_new_and_what_is_gone_is_told() -> None:
    if not RECORD:
        found = kept.read("tie-bridge/layout")
        (path, what), *_ = found.items()
        assert kept.differences("tie-bridge/layout", found | {"new": 1}) == ["new is new: 1"]
        gone = {name: line for name, line in found.items() if name != path}
        assert kept.differences("tie-bridge/layout", gone) == [f"{path} is no longer told; it was {what}"]
