"""A bridge is begun with what is shown before there is one: pins where the strings, or old pin holes, ask for them."""

import pytest
from msgspec.structs import replace

from app.edit.bridge import bridge_entries
from app.edit.strings import string_entries
from geometry.job import Job, Old, OldPin, Point

NAILED = Old(pins={"pin.1": OldPin(diameter=5.0)})


def with_set(key: str, old: Old | None = None) -> Job:
    return replace(string_entries.take_set(Job(points={"pin.1": Point()}), key), old=old)


@pytest.mark.parametrize(
    ("key", "old", "ends", "long"),
    [
        ("steel 12-54", None, "pins", 152.0),
        ("steel 12-54", NAILED, "pins", 152.0),
        ("ukulele nylon 0.60-0.90", None, "", 188.0),
        ("ukulele nylon 0.60-0.90", NAILED, "pins", 152.0),
    ],
)
def test_what_is_shown_is_what_is_begun(key: str, old: Old | None, ends: str, long: float) -> None:
    job = with_set(key, old)
    typed = bridge_entries.put(job, "bridge", width=27.0)
    for made in (job, bridge_entries.begin(job), typed):
        assert bridge_entries.ends(made) == ends
        assert bridge_entries.block(made, "bridge").length == long


def test_a_bridge_of_its_own_keeps_its_ends() -> None:
    run_on = bridge_entries.put_ends(with_set("steel 12-54", NAILED), "")
    assert bridge_entries.ends(run_on) == ""
    assert bridge_entries.begin(run_on).bridge == run_on.bridge
