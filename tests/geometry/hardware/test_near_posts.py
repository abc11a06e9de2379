"""What lies near new posts: what is closed has three points at least, and all of them have a place."""

from types import SimpleNamespace

import pytest

from geometry.hardware.near_posts import Seen


@pytest.mark.parametrize(("names", "placed", "closed"), [("abc", True, 1), ("ab", True, 0), ("abc", False, 0)])
def test_a_ring_has_three_points_that_are_placed(names: str, placed: bool, closed: bool) -> None:
    def has(*asked: str) -> bool:
        return bool(asked) and placed

    def see(states: object, *asked: str) -> tuple[object, ...]:
        return states, *asked

    states = SimpleNamespace(has=has)
    seen = SimpleNamespace(states=states, frame=SimpleNamespace(see=see))
    ring = Seen.ring(seen, tuple(names))  # type: ignore[arg-type]  # all that it looks at
    assert ring == ((states, *names) if closed else None)
